//! The sheets of samples: what they show, comments and approvals.

pub mod comments;
pub mod samples;

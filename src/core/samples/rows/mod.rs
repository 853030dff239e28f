//! The sheets of sample rounds: what samples show, comments and approvals.

pub mod comments;
pub mod samples;

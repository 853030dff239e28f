//! The sheet of what is new since the last sealed revision.

pub mod changes;
mod wording;

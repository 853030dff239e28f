//! What is new since the last sealed revision.

use super::chain::Link;
use super::compare::{Answers, Changes, Marks};

/// What is new since the last sealed revision.
#[derive(Debug, Clone, PartialEq)]
pub struct Since {
    /// Sealed revisions, oldest first; the last one is compared with.
    pub past: Vec<Link>,
    /// What differs.
    pub changes: Changes,
    /// What comments asked for against what changed.
    pub answers: Answers,
    /// Everything that changed, for marking.
    pub marks: Marks,
}

//! Published tables and the trade's usual figures as data. A leaf: imports nothing of ours.
//!
//! Each table names what it follows and how well that is known ([`Basis`]), so that a sheet or a finding can say so.

pub mod age;
pub mod common;
mod country;
pub mod fibre;
pub mod grey;
pub mod market;
pub mod safety;
pub mod seam;
pub mod stitch;
pub mod things;
pub mod thread;

/// How well a figure is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Basis {
    /// Read in the text of the source.
    Seen,
    /// Known, but not read again for this table.
    Memory,
    /// Worked out from other figures of known basis.
    Derived,
    /// What factories commonly do; no standard behind it, and it differs from one to the next.
    CommonPractice,
}

impl Basis {
    /// The name of these words in the files of other languages.
    pub fn key(self) -> &'static str {
        match self {
            Basis::Seen => "basis.seen",
            Basis::Memory => "basis.memory",
            Basis::Derived => "basis.derived",
            Basis::CommonPractice => "basis.common-practice",
        }
    }

    /// The words to print beside a figure.
    pub fn words(self) -> &'static str {
        match self {
            Basis::Seen => "as published",
            Basis::Memory => "from memory",
            Basis::Derived => "derived",
            Basis::CommonPractice => "common practice",
        }
    }
}

/// What a table or a text follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reference {
    /// The document and its clause, or what else the figure rests on.
    pub text: &'static str,
    /// How well it is known.
    pub basis: Basis,
}

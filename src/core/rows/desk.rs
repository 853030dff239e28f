//! The desks that read a package.

use serde::Serialize;

use crate::words::{Phrase, Word, words};

words! {
    BUYER "desk.buyer" = "buyer";
    PATTERN "desk.pattern" = "pattern";
    CUTTER "desk.cutter" = "cutter";
    LINE "desk.line" = "line";
    INSPECTOR "desk.inspector" = "inspector";
    PACKER "desk.packer" = "packer";
    REVIEWER "desk.reviewer" = "reviewer";
    EVERYBODY "desk.everybody" = "all desks";
}

/// Somebody who works from a package.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Desk {
    /// Buys materials and trims.
    Buyer,
    /// Makes and grades the pattern.
    Pattern,
    /// Spreads and cuts.
    Cutter,
    /// Leads the sewing line.
    Line,
    /// Measures and inspects.
    Inspector,
    /// Labels and packs.
    Packer,
    /// Reviews the next sample.
    Reviewer,
}

use Desk::{Buyer, Cutter, Inspector, Line, Packer, Pattern, Reviewer};

/// All of them, in the order of the work.
pub const DESKS: [Desk; 7] = [Buyer, Pattern, Cutter, Line, Inspector, Packer, Reviewer];

impl Desk {
    /// What it is called on paper and on the command line.
    #[must_use]
    pub fn word(self) -> Word {
        match self {
            Buyer => BUYER,
            Pattern => PATTERN,
            Cutter => CUTTER,
            Line => LINE,
            Inspector => INSPECTOR,
            Packer => PACKER,
            Reviewer => REVIEWER,
        }
    }

    /// The desk of a name; `None` for any other word.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        DESKS.into_iter().find(|desk| desk.word().en == name)
    }
}

/// Who reads a sheet, for the foot of its pages.
pub(super) fn readers(desks: &[Desk]) -> Phrase {
    if desks.len() == DESKS.len() {
        return EVERYBODY.into();
    }
    Phrase::list(desks.iter().map(|desk| Phrase::from(desk.word())))
}

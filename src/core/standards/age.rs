//! Ages at which the usual toy rules change. They are cautions: which rules a toy must keep is for the law of the
//! destination and the accredited laboratory to say.

use super::{Basis, Reference};

/// One age at which rules change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AgeLimit {
    /// The rules stand for children younger than this many months.
    pub under_months: u32,
    /// What stands below it.
    pub what: &'static str,
    /// What it follows.
    pub follows: Reference,
}

/// Small parts are refused below this age.
pub const SMALL_PARTS: AgeLimit = AgeLimit {
    under_months: 36,
    what: "no small parts, neither as made nor after use and abuse tests",
    follows: Reference { text: "16 CFR 1501.4", basis: Basis::Seen },
};

/// The ages at which the US use and abuse tests change: 18, 36 and 96 months.
pub const ABUSE_TESTS: [AgeLimit; 3] = [
    AgeLimit {
        under_months: 18,
        what: "use and abuse tests for 18 months or less",
        follows: Reference { text: "16 CFR 1500.51", basis: Basis::Seen },
    },
    AgeLimit {
        under_months: 36,
        what: "use and abuse tests for over 18 and up to 36 months",
        follows: Reference { text: "16 CFR 1500.52", basis: Basis::Seen },
    },
    AgeLimit {
        under_months: 96,
        what: "use and abuse tests for over 36 and up to 96 months",
        follows: Reference { text: "16 CFR 1500.53", basis: Basis::Seen },
    },
];

/// Why a label "3+" does not take a cuddly toy out of the rules for the youngest.
pub const SOFT_TOYS: Reference = Reference {
    text: "in the European Union a soft, simple, cuddly toy is treated as meant for under 3 years whatever its label says",
    basis: Basis::Memory,
};

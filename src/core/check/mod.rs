//! What a careful factory would ask. Families below; one file per rule, file name = code.

mod context;
pub mod filling;
pub mod material;
pub mod measure;
pub mod outline;
pub mod piece;
pub mod reference;
pub mod release;
pub mod safety;
pub mod sewing;

pub use crate::model::Stage;
pub use context::{Check, Context};

use crate::diag::Findings;

/// Every family of checks. A new rule is one file, and one line in the list of its family.
pub const FAMILIES: &[&[Check]] = &[
    reference::CHECKS,
    material::CHECKS,
    piece::CHECKS,
    outline::CHECKS,
    filling::CHECKS,
    measure::CHECKS,
    sewing::CHECKS,
    crate::orders::rules::CHECKS,
    crate::samples::rules::CHECKS,
    release::CHECKS,
    crate::parties::rules::CHECKS,
    safety::CHECKS,
];

/// Every check, family by family.
pub fn checks() -> impl Iterator<Item = &'static Check> {
    FAMILIES.iter().copied().flatten()
}

/// Runs every check.
pub fn run(context: &Context<'_>) -> Findings {
    let mut findings = Findings::default();
    for check in checks() {
        (check.run)(context, &mut findings);
    }
    findings
}

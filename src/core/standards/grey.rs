//! Grey scales for colour fastness: what a grade stands for.

use super::{Basis, Reference};

/// Every grade as it is written, the best first.
pub const GRADES: &[&str] = &["5", "4-5", "4", "3-4", "3", "2-3", "2", "1-2", "1"];

/// Which of the two scales.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Change in colour of what was tested.
    Change,
    /// Staining of the fabric beside or rubbed against it.
    Staining,
}

/// One step of a scale: a pair of greys.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// The grade.
    pub grade: &'static str,
    /// Difference of the pair, CIELAB units (ΔE*ab of 1976).
    pub difference: f64,
    /// How far the pair may be off that, CIELAB units.
    pub tolerance: f64,
}

const fn step(grade: &'static str, difference: f64, tolerance: f64) -> Step {
    Step { grade, difference, tolerance }
}

/// What [`CHANGE`] follows. The tolerance of grade 5 is *from memory*.
pub const CHANGE_SOURCE: Reference = Reference { text: "ISO 105-A02:1993, 2.4", basis: Basis::Seen };
/// The grey scale for change in colour.
pub const CHANGE: &[Step] = &[
    step("5", 0.0, 0.2),
    step("4-5", 0.8, 0.2),
    step("4", 1.7, 0.3),
    step("3-4", 2.5, 0.35),
    step("3", 3.4, 0.4),
    step("2-3", 4.8, 0.5),
    step("2", 6.8, 0.6),
    step("1-2", 9.6, 0.7),
    step("1", 13.6, 1.0),
];

/// What [`STAINING`] follows.
pub const STAINING_SOURCE: Reference = Reference { text: "ISO 105-A03:1993, 2.4", basis: Basis::Memory };
/// The grey scale for staining.
pub const STAINING: &[Step] = &[
    step("5", 0.0, 0.2),
    step("4-5", 2.2, 0.3),
    step("4", 4.3, 0.3),
    step("3-4", 6.0, 0.4),
    step("3", 8.5, 0.5),
    step("2-3", 12.0, 0.7),
    step("2", 16.9, 1.0),
    step("1-2", 24.0, 1.5),
    step("1", 34.1, 2.0),
];

/// The step of a grade on a scale.
pub fn find(scale: Scale, grade: &str) -> Option<&'static Step> {
    let steps = match scale {
        Scale::Change => CHANGE,
        Scale::Staining => STAINING,
    };
    steps.iter().find(|step| step.grade == grade)
}

/// Whether a grade is at least as good as another; `None` if one of them is no grade.
pub fn reaches(grade: &str, wanted: &str) -> Option<bool> {
    let rank = |one: &str| GRADES.iter().position(|grade| *grade == one);
    Some(rank(grade)? <= rank(wanted)?)
}

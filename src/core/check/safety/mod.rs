//! Usual cautions. They are notes: the law of the destination and an accredited laboratory decide.

mod bag_film;
mod caution;
mod cord_length;
mod needle_detection;
mod seam_strength;
mod small_parts;

use super::Check;
pub(super) use caution::{caution, is_for_the_youngest, is_toy};

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &small_parts::RULE, run: small_parts::check },
    Check { rule: &cord_length::RULE, run: cord_length::check },
    Check { rule: &bag_film::RULE, run: bag_film::check },
    Check { rule: &needle_detection::RULE, run: needle_detection::check },
    Check { rule: &seam_strength::RULE, run: seam_strength::check },
];

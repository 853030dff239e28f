//! What a specification needs before it is sent.

mod age_grade_missing;
mod missing_title_data;
mod no_view;
mod picture_without_text;
mod product_kind_missing;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &missing_title_data::RULE, run: missing_title_data::check },
    Check { rule: &product_kind_missing::RULE, run: product_kind_missing::check },
    Check { rule: &age_grade_missing::RULE, run: age_grade_missing::check },
    Check { rule: &no_view::RULE, run: no_view::check },
    Check { rule: &picture_without_text::RULE, run: picture_without_text::check },
];

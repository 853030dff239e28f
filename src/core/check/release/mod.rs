//! What a specification needs before it is sent.

mod age_grade_missing;
mod changed_since_sealed;
mod missing_title_data;
mod no_view;
mod picture_without_text;
mod product_kind_missing;
mod sealed_file_missing;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &missing_title_data::RULE, run: missing_title_data::check },
    Check { rule: &product_kind_missing::RULE, run: product_kind_missing::check },
    Check { rule: &age_grade_missing::RULE, run: age_grade_missing::check },
    Check { rule: &no_view::RULE, run: no_view::check },
    Check { rule: &picture_without_text::RULE, run: picture_without_text::check },
    Check { rule: &changed_since_sealed::RULE, run: changed_since_sealed::check },
    Check { rule: &sealed_file_missing::RULE, run: sealed_file_missing::check },
];

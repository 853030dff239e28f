//! What a specification needs before it is sent.

mod missing_title_data;
mod no_view;
mod picture_without_text;

use super::Check;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &missing_title_data::RULE, run: missing_title_data::check },
    Check { rule: &no_view::RULE, run: no_view::check },
    Check { rule: &picture_without_text::RULE, run: picture_without_text::check },
];

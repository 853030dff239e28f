//! Rules about what is written in the files. One file each.

mod bad_id;
mod bad_path;
mod bad_unit;
mod bad_value;
mod bare_number;
mod broken_drawing;
mod broken_lock;
mod character_not_printable;
mod content_ignored;
mod duplicate_id;
mod gauge_missing;
mod incomplete_value;
mod not_toml;
mod order_in_style_file;
mod placeholder_left;
pub mod refused_content;
mod sample_in_style_file;
mod unequal_scale;
mod wrong_scale;

mod unknown_code;
mod unknown_key;
mod unreadable_file;

pub use bad_id::{RULE as BAD_ID, bad_id};
pub use bad_path::{RULE as BAD_PATH, bad_path, missing_file};
pub use bad_unit::{RULE as BAD_UNIT, bad_quantity};
pub use bad_value::{RULE as BAD_VALUE, bad_value, wrong_kind};
pub use bare_number::{RULE as BARE_NUMBER, bare_number};
pub use broken_drawing::{RULE as BROKEN_DRAWING, broken_drawing};
pub use broken_lock::{RULE as BROKEN_LOCK, broken_lock};
pub use character_not_printable::{RULE as CHARACTER_NOT_PRINTABLE, character_not_printable};
pub use content_ignored::{RULE as CONTENT_IGNORED, content_ignored};
pub use duplicate_id::{RULE as DUPLICATE_ID, duplicate_id, shared_id};
pub use gauge_missing::{RULE as GAUGE_MISSING, gauge_missing};
pub use incomplete_value::{RULE as INCOMPLETE_VALUE, incomplete_value};
pub use not_toml::{RULE as SYNTAX, syntax};
pub use order_in_style_file::{RULE as ORDER_BESIDE_STYLE, order_in_style_file};
pub use placeholder_left::{PLACEHOLDER, RULE as PLACEHOLDER_LEFT, is_placeholder, placeholder_left};
pub use refused_content::{RULE as REFUSED_CONTENT, refused_content};
pub use sample_in_style_file::{RULE as SAMPLE_BESIDE_STYLE, sample_in_style_file};
pub use unequal_scale::{RULE as UNEQUAL_SCALE, unequal_scale};
pub use unknown_code::{RULE as UNKNOWN_CODE, unknown_code};
pub use unknown_key::{RULE as UNKNOWN_KEY, unknown_key, unknown_table};
pub use unreadable_file::{
    RULE as UNREADABLE, bad_picture, leads_out, no_access, not_text, too_large, too_many, too_much,
};

pub use wrong_scale::{RULE as WRONG_SCALE, gauge_twice, wrong_scale};

use crate::diag::Rule;

/// Every rule of this family.
pub const RULES: &[&Rule] = &[
    &SYNTAX,
    &UNREADABLE,
    &UNKNOWN_KEY,
    &DUPLICATE_ID,
    &BAD_ID,
    &BAD_VALUE,
    &BARE_NUMBER,
    &BAD_UNIT,
    &UNKNOWN_CODE,
    &INCOMPLETE_VALUE,
    &BAD_PATH,
    &CHARACTER_NOT_PRINTABLE,
    &PLACEHOLDER_LEFT,
    &ORDER_BESIDE_STYLE,
    &SAMPLE_BESIDE_STYLE,
    &BROKEN_DRAWING,
    &REFUSED_CONTENT,
    &CONTENT_IGNORED,
    &GAUGE_MISSING,
    &WRONG_SCALE,
    &UNEQUAL_SCALE,
    &BROKEN_LOCK,
];

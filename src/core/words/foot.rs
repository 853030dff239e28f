//! What is printed at the foot of every page.

use super::count::counted;
use super::{Phrase, say};

crate::words! { list:
    STYLE "foot-style" = "Style";
    REVISION "foot-revision" = "Revision";
    DIGEST "foot-digest" = "Digest";
    SHEET_OF "foot-sheet-of" = "sheet {number} of {total}";
    NOT_RELEASED "foot-not-released" = "Not released: {open} must be settled (page {sheet})";
    NOT_RELEASED_YET "foot-not-released-yet" = "Not released: {open} must be settled";
    QUESTIONS_OPEN "foot-questions-open" = "{open} open (page {sheet})";
    FINDING "foot-finding" = "{count} finding";
    FINDINGS "foot-findings" = "{count} findings";
    QUESTION "foot-question" = "{count} question";
    QUESTIONS "foot-questions" = "{count} questions";
}

/// `sheet 3 of 12`.
pub fn sheet_of(number: usize, total: usize) -> Phrase {
    say!(SHEET_OF, number, total)
}

/// `Not released: 3 findings must be settled (sheet 2)`; `sheet` may be a number or what stands for one until the pages
/// are laid out. A document without a sheet of questions has none.
pub fn not_released(must: usize, sheet: Option<&str>) -> Phrase {
    let open = counted(must, FINDING, FINDINGS);
    match sheet {
        Some(sheet) => say!(NOT_RELEASED, open, sheet),
        None => say!(NOT_RELEASED_YET, open),
    }
}

/// `3 questions open (sheet 2)`.
pub fn questions_open(count: usize, sheet: &str) -> Phrase {
    say!(QUESTIONS_OPEN, open = counted(count, QUESTION, QUESTIONS), sheet)
}

//! What stands at the foot of every page.

use super::Phrase;
use super::kind::counted;

super::words! {
    STYLE "foot-style" = "Style", "款号";
    REVISION "foot-revision" = "Revision", "版次";
    DIGEST "foot-digest" = "Digest";
    DRAFT "foot-draft" = "Draft without a date of issue";
    UNRELEASED "foot-unreleased" = "Not released", "未发放";
}

/// `sheet 3 of 12`.
pub fn sheet_of(number: usize, total: usize) -> Phrase {
    Phrase { en: format!("sheet {number} of {total}"), zh: Some(format!("第 {number} 页，共 {total} 页")) }
}

/// `Not released: 3 findings must be settled (sheet 2)`; `sheet` may be a number or what stands for one until the pages
/// are laid out. A document without a sheet of questions has none.
pub fn not_released(must: usize, sheet: Option<&str>) -> Phrase {
    let open = counted(must, "finding", "findings");
    let place = sheet.map_or(String::new(), |sheet| format!(" (sheet {sheet})"));
    Phrase { en: format!("{}: {open} must be settled{place}", UNRELEASED.en), zh: None }
}

/// `3 questions open (sheet 2)`.
pub fn questions_open(count: usize, sheet: &str) -> Phrase {
    let open = counted(count, "question", "questions");
    Phrase { en: format!("{open} open (sheet {sheet})"), zh: None }
}

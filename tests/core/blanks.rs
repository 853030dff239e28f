//! What the sheets leave to be filled in by hand is on the confirmation once more, with its page.

use std::collections::BTreeSet;
use std::path::Path;

use backtack_core::rows::data::{Confirmation, Sheet};

/// Calls of the templates that draw something to be filled in.
const DRAWN: [&str; 5] = ["blank(", "ask-cell(", "th-ask(", "answer()", "filled-in()"];
/// Sheets with blanks that the confirmation does not list: itself, and the one that explains what a blank is.
const UNLISTED: [&str; 2] = ["confirmation", "guide"];

fn confirmation(example: &str) -> Confirmation {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(example);
    let loaded = crate::folder(&folder).unwrap();
    let sheets = crate::sheets(&loaded, &crate::checked(&loaded));
    let found = sheets.into_iter().find_map(|one| if let Sheet::Confirmation(one) = one { Some(one) } else { None });
    found.unwrap()
}

/// The kinds of sheets whose template draws blanks.
fn drawn() -> BTreeSet<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../templates/sheets");
    let files = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path());
    let asks = |path: &std::path::PathBuf| {
        let text = std::fs::read_to_string(path).unwrap();
        DRAWN.iter().any(|call| text.contains(call))
    };
    files.filter(asks).map(|path| path.file_stem().unwrap().to_string_lossy().into_owned()).collect()
}

/// A template that begins to draw blanks must be listed too.
#[test]
fn every_sheet_that_draws_blanks_is_known_to_the_list() {
    let known = ["bill", "comments", "confirmation", "filling", "guide", "measurements", "questions"];
    // In the document of an order, which is not confirmed.
    let ordered = ["bundles", "spreading"];
    let known: BTreeSet<String> = known.into_iter().chain(ordered).map(str::to_owned).collect();
    assert_eq!(drawn(), known);
}

#[test]
fn the_confirmation_lists_what_is_blank_with_its_page() {
    for example in ["puffin", "floor-cushion", "juggling-ball"] {
        let sheet = confirmation(example);
        let pages: Vec<&str> = sheet.blanks.iter().map(|one| one.page.as_str()).collect();
        for page in ["{sheet:bill}", "{sheet:measurements}"] {
            assert_eq!(pages.iter().filter(|one| **one == page).count(), 1, "{example}: {page}");
        }
        assert!(UNLISTED.iter().all(|kind| !pages.contains(&format!("{{sheet:{kind}}}").as_str())));
    }
    let puffin = confirmation("puffin");
    let bill = puffin.blanks.iter().find(|one| one.page == "{sheet:bill}").unwrap();
    assert_eq!(bill.what.english(), "use, price, minimum order and lead time; articles: 13");
}

#[test]
fn the_confirmation_says_by_when_it_is_answered_and_what_a_deviation_is() {
    let sheet = confirmation("puffin");
    let told: Vec<(String, String)> =
        sheet.answer.iter().map(|fact| (fact.label.english(), fact.value.phrase().english())).collect();
    let blank = |label: &str| (label.to_owned(), String::new());
    assert_eq!(told, [("Answer by".to_owned(), "2026-11-16".to_owned()), blank("Answered by (name)"), blank("Date")]);
    assert_eq!(sheet.deviations.len(), 3);
    assert!(sheet.deviation.english().contains("in writing"));
}

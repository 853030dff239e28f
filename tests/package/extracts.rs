//! Extracts for a desk: a part of the package that cannot be taken for the whole.

use backtack::render::guard::SECONDS;
use backtack::render::page::Page;
use backtack_core::rows::desk::{DESKS, Desk};

use crate::built::example;
use crate::folder::Scratch;

fn text(page: &Page) -> String {
    page.runs().map(|run| run.text.as_str()).collect()
}

/// What is on a page between its head and its foot, without what refers to other pages.
fn numbered(pages: &[Page]) -> Vec<String> {
    (1..=pages.len()).map(|n| format!("{n} of {}", pages.len())).collect()
}

#[test]
fn every_page_keeps_its_number_and_says_that_it_is_of_an_extract() {
    let built = example("juggling-ball");
    let made = backtack::render_for(&built.loaded, &built.checked, &Default::default(), &DESKS, SECONDS).unwrap();
    let whole = made.document.pages();
    let numbers = numbered(&whole);
    assert_eq!(made.extracts.len(), DESKS.len());
    for (desk, extract) in &made.extracts {
        let pages = extract.document.pages();
        assert!(pages.len() < whole.len(), "{desk:?}");
        assert_eq!(pages[0].sheet, "cover");
        for page in &pages {
            let text = text(page);
            let at = numbers.iter().rposition(|number| text.contains(number.as_str()));
            // Short sheets share a page of the whole, which then shows the names of all of them.
            let same =
                |whole: &Page| whole.sheet == page.sheet || self::text(whole).to_lowercase().contains(&page.sheet);
            assert!(at.is_some_and(|at| same(&whole[at])), "{desk:?}: {text}");
            assert!(text.contains("Extract for"), "{desk:?}: {text}");
        }
        assert_eq!(backtack::render::lint::lint(&pages), [], "{desk:?}");
    }
    let marker = |desk| {
        made.extracts
            .iter()
            .any(|(one, made)| *one == desk && made.document.pages().iter().any(|page| page.sheet == "marker"))
    };
    assert!(marker(Desk::Cutter) && !marker(Desk::Inspector));
    assert!(whole.iter().all(|page| !text(page).contains("Extract for")));
}

#[test]
fn build_writes_an_extract_for_each_desk_that_is_named() {
    let scratch = Scratch::new();
    scratch.bag("");
    let ran = scratch.run(&["build", "bag", "--for", "line", "--for", "cutter"]);
    assert_eq!(ran.out, "bag/out/ST-01-A.pdf\nbag/out/ST-01-A-cutter.pdf\nbag/out/ST-01-A-line.pdf\n");
    assert!(scratch.read("bag/out/ST-01-A-line.pdf").starts_with(b"%PDF-"));
    let whole = scratch.read("bag/out/ST-01-A.pdf");
    scratch.run(&["build", "bag", "--out", "elsewhere"]);
    assert_eq!(whole, scratch.read("elsewhere/ST-01-A.pdf"), "extracts change nothing of the package");
    let ran = scratch.run(&["build", "bag", "--for", "tailor"]);
    assert!(ran.code == 2 && ran.err.contains("tailor") && ran.err.contains("inspector"), "{ran:?}");
}

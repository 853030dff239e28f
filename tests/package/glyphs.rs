//! The built-in fonts themselves: what they cover, and that pages with letters of many languages are whole.

use backtack::render::engine;
use backtack::render::lint::lint;

use backtack_core::glyphs;

use crate::look::rendered;
use crate::nasty;

/// The list in the core is written with the fonts; it can say neither more nor less than they hold.
#[test]
fn the_list_of_covered_characters_is_that_of_the_fonts() {
    let differs: Vec<char> = ('\0'..=char::MAX).filter(|c| glyphs::covers(*c) != engine::covers(*c)).collect();
    assert_eq!(differs, Vec::<char>::new());
}

/// Texts in every field of a package, in both weights: no run has a missing glyph, and none is an error of the engine.
#[test]
fn pages_show_letters_of_many_languages_in_both_weights() {
    let texts = [
        "Zażółć źdźbłem, ĄĆĘŁŃÓŚŹŻ",
        "Říkal žluťoučký kůň, ďábel, ŠŤÚŮÝŽ",
        "Pelüş ayı için İğne ve düğme",
        "Ράψε τη ζεστή ΰλη, ΆΈΉΊΌΎΏ",
        "Сшей ёлку, щётка, объём, эскиз",
        "Зший ґудзик, їжак, є",
        "Nhồi bông, đường viền, ỮỰ ẵ ệ",
        "Marks apart: e\u{30c} z\u{307} ơ\u{309}, ⅓ ₽ ✓ ↔",
    ];
    let rendered = rendered(&nasty::with(&texts)).expect("every letter has its glyph");
    assert_eq!(rendered.replaced, []);
    let pages = rendered.document.pages();
    assert_eq!(lint(&pages), []);
    let all: String = pages.iter().flat_map(|page| page.runs()).map(|run| run.text.as_str()).collect();
    for text in ["Zażółć", "Říkal", "Ράψε", "ґудзик", "đường"] {
        assert!(all.contains(text), "{text} is on no page");
    }
}

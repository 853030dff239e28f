//! What to take care of: the cautions that fit the product and its destinations, deferring to the law and the laboratory.

use std::collections::BTreeSet;

use crate::model::{Method, Model, Product, hazard};
use crate::standards::Basis;
use crate::standards::safety::{self, BRITAIN, Caution, Source, UNITED_STATES};
use crate::words::{Languages, Phrase, Word, say, sheet, words};

use super::cards::lines;
use super::data::{CautionRow, Safety, Sheet};
use super::package::Head;
use super::view::View;

words! {
    ASKED "safety.asked" = "For the laboratory: does {source}, in the edition that applies, ask for this, and in these figures?";
}

/// One sheet.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let rows = cautions(view).into_iter().map(|caution| row(view.model, caution)).collect();
    let columns = parted(rows, view.model.style.languages);
    let head = Head { title: sheet::SAFETY_TITLE.into(), name: sheet::SAFETY.into(), lead: sheet::SAFETY_LEAD.into() };
    let deferral = Word { key: safety::DEFERRAL_KEY, en: safety::DEFERRAL }.into();
    vec![Sheet::Safety(Safety { head, columns, deferral })]
}

/// Width of a column, mm, and the sizes of type of a caution and of what it follows, points.
const COLUMN: f64 = 125.0;
const TYPE: [f64; 2] = [8.5, 7.0];
/// Height of a line of each, and of the air round a caution, mm.
const LINE: [f64; 2] = [3.9, 3.2];
const AIR: f64 = 3.2;

/// Two columns, parted where the taller of them is lowest.
fn parted(rows: Vec<CautionRow>, languages: Languages) -> Vec<Vec<CautionRow>> {
    let height = |row: &CautionRow| {
        let text = Phrase::row([row.title.clone(), row.text.clone()], "   ");
        let told = [&text, &row.follows].into_iter().zip(TYPE).zip(LINE);
        AIR + told.map(|((text, size), line)| lines(text, languages, size, COLUMN) * line).sum::<f64>()
    };
    let tall = |rows: &[CautionRow]| rows.iter().map(height).sum::<f64>();
    let taller = |at: usize| {
        let (first, second) = rows.split_at(at);
        tall(first).max(tall(second))
    };
    let at = (0..=rows.len()).min_by(|a, b| taller(*a).total_cmp(&taller(*b))).unwrap_or(0);
    let mut first = rows;
    let second = first.split_off(at);
    vec![first, second]
}

/// The cautions that this product calls for, by what it is, what it is made of, where it is sold and how it is cut.
fn cautions(view: &View<'_>) -> Vec<&'static Caution> {
    let model = view.model;
    let kind = model.style.kind.as_ref().map(|kind| kind.value);
    // What is not said to be anything else may be a toy.
    let toy = kind.is_none_or(|kind| kind == Product::Toy);
    let mut all = vec![&safety::NEEDLES];
    if !model.stuffings.is_empty() {
        let furnishing = kind == Some(Product::HouseholdTextile) && sold(model, BRITAIN);
        let filled = [
            (toy, &safety::SEAMS),
            (toy && sold(model, UNITED_STATES), &safety::SEAMS_OF_THE_STATES),
            (!toy, &safety::SEAMS_OF_NO_TOY),
            (furnishing, &safety::FURNISHINGS),
        ];
        all.extend(filled.into_iter().filter(|(called, _)| *called).map(|(_, caution)| caution));
    }
    let things = [
        (toy, hazard::small_parts(model), &safety::SMALL_PARTS),
        (toy, hazard::cords(model), &safety::CORDS),
        (true, hazard::film(model), &safety::BAG_FILM),
    ];
    let called = things.into_iter().filter(|(about, articles, _)| *about && !articles.is_empty());
    all.extend(called.map(|(.., caution)| caution));
    all.extend(cutting(view));
    if !hazard::fusibles(model).is_empty() {
        all.push(&safety::HOT_PRESS);
    }
    all
}

/// Whether it may be sold in a market: it is a destination, or none is stated.
fn sold(model: &Model, code: &str) -> bool {
    let all = &model.style.destinations;
    all.is_empty() || all.iter().any(|one| one.value.code == code)
}

/// What cuts the fabric, each once.
fn cutting(view: &View<'_>) -> Vec<&'static Caution> {
    let methods: BTreeSet<Method> = view.lays.tasks.iter().map(|task| task.how.method).collect();
    let mut all: Vec<&Caution> = Vec::new();
    for method in methods {
        let caution = match method {
            Method::HandKnife | Method::AutomaticKnife => &safety::KNIVES,
            Method::Die => &safety::PRESSES,
            Method::Laser => &safety::LASERS,
        };
        if !all.contains(&caution) {
            all.push(caution);
        }
    }
    all
}

fn row(model: &Model, caution: &Caution) -> CautionRow {
    let [title, text] = caution.keys;
    let here = caution.follows.iter().filter(|source| source.only.is_none_or(|code| sold(model, code)));
    CautionRow {
        title: Word { key: title, en: caution.title }.into(),
        text: Word { key: text, en: caution.text }.into(),
        follows: Phrase::row(here.map(follows), "; "),
    }
}

/// A source; one that was not read again is a question, not a claim.
fn follows(source: &Source) -> Phrase {
    match source.basis {
        Basis::Memory => say!(ASKED, source = source.text),
        Basis::Seen | Basis::Derived | Basis::CommonPractice => source.text.into(),
    }
}

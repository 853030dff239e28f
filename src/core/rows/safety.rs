//! What to take care of: the usual cautions for what the product is made of, deferring to the law and the laboratory.

use std::collections::BTreeSet;

use crate::model::{Method, hazard};
use crate::standards::Reference;
use crate::standards::safety::{self, Caution};
use crate::words::{Phrase, Word, say, sheet, words};

use super::data::{CautionRow, Safety, Sheet};
use super::package::Head;
use super::view::View;

words! {
    FOLLOWS "safety.follows" = "{source} ({known})";
}

/// One sheet.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let rows = cautions(view).into_iter().map(row).collect();
    let head = Head { title: sheet::SAFETY_TITLE.into(), name: sheet::SAFETY.into(), lead: sheet::SAFETY_LEAD.into() };
    let deferral = Word { key: safety::DEFERRAL_KEY, en: safety::DEFERRAL }.into();
    vec![Sheet::Safety(Safety { head, rows, deferral })]
}

/// The cautions this product calls for.
fn cautions(view: &View<'_>) -> Vec<&'static Caution> {
    let model = view.model;
    let mut all = vec![&safety::NEEDLES];
    if !model.stuffings.is_empty() {
        all.push(&safety::SEAMS);
    }
    let things = [
        (hazard::small_parts(model), &safety::SMALL_PARTS),
        (hazard::cords(model), &safety::CORDS),
        (hazard::film(model), &safety::BAG_FILM),
    ];
    all.extend(things.into_iter().filter(|(articles, _)| !articles.is_empty()).map(|(_, caution)| caution));
    all.extend(cutting(view));
    if !hazard::fusibles(model).is_empty() {
        all.push(&safety::HOT_PRESS);
    }
    all
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

fn row(caution: &Caution) -> CautionRow {
    let [title, text] = caution.keys;
    CautionRow {
        title: Word { key: title, en: caution.title }.into(),
        text: Word { key: text, en: caution.text }.into(),
        follows: Phrase::lines(caution.follows.iter().map(reference)),
    }
}

fn reference(one: &Reference) -> Phrase {
    say!(FOLLOWS, source = one.text, known = Word { key: one.basis.key(), en: one.basis.words() })
}

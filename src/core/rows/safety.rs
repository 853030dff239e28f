//! What to take care of: the usual cautions for what the product is made of, deferring to the law and the laboratory.

use std::collections::BTreeSet;

use crate::model::Method;
use crate::standards::Reference;
use crate::standards::safety::{self, Caution};
use crate::words::sheet as words;

use super::data::{CautionRow, Safety, Sheet};
use super::package::Head;
use super::view::View;

/// Sorts of trim and filling that can come off or come out as small parts.
const SMALL: [&str; 9] = ["eye", "nose", "button", "joint", "bell", "squeaker", "pellet", "granule", "bead"];
/// Sorts that are cords.
const CORDS: [&str; 7] = ["cord", "ribbon", "elastic", "loop", "string", "webbing", "drawstring"];
/// Sorts that are film.
const FILM: [&str; 3] = ["polybag", "bag", "film"];

/// One sheet.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let rows = cautions(view).into_iter().map(row).collect();
    let head = Head {
        title: words::SAFETY_TITLE.en.into(),
        name: words::SAFETY.en.into(),
        lead: words::SAFETY_LEAD.en.into(),
    };
    vec![Sheet::Safety(Safety { head, rows, deferral: safety::DEFERRAL.into() })]
}

/// The cautions this product calls for.
fn cautions(view: &View<'_>) -> Vec<&'static Caution> {
    let model = view.model;
    let sorts: Vec<String> = model
        .articles
        .values()
        .flat_map(|article| article.text("type").into_iter().flat_map(|value| value.all()))
        .filter_map(|stated| stated.known().map(|text| text.to_lowercase()))
        .collect();
    let any = |words: &[&str]| sorts.iter().any(|sort| words.iter().any(|word| sort.contains(word)));
    let mut all = vec![&safety::NEEDLES];
    if !model.stuffings.is_empty() {
        all.push(&safety::SEAMS);
    }
    for (words, caution) in [(&SMALL[..], &safety::SMALL_PARTS), (&CORDS, &safety::CORDS), (&FILM, &safety::BAG_FILM)] {
        if any(words) {
            all.push(caution);
        }
    }
    all.extend(cutting(view));
    if any(&["fusible"]) {
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
    let follows: Vec<String> = caution.follows.iter().map(reference).collect();
    CautionRow { title: caution.title.into(), text: caution.text.into(), follows: follows.join("\n") }
}

fn reference(one: &Reference) -> String {
    format!("{} ({})", one.text, one.basis.words())
}

//! The cover: who makes what for whom, in which sizes and colourways, and what a signature covers.

use crate::diag::Severity;
use crate::model::{AgeGrade, Colourway as Way};
use crate::words::{Phrase, head as heads, say, sheet as words};

use super::comments::concession;
use super::data::{Colourway, Cover, Sheet};
use super::package::{Fact, Head, ROOM_COVER};
use super::view::{View, capital};
use super::views::drawing;
use super::written::date;

crate::words::words! {
    FROM_TO "cover.age-from-to" = "From {from} to {to}";
    FROM "cover.age-from" = "From {from}";
    TO "cover.age-to" = "Up to {to}";
}

/// The cover, always one sheet.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let style = &view.model.style;
    let name = match (view.text(style.name.as_ref()), view.text(style.id.as_ref())) {
        ("", "") => "Untitled style".to_string(),
        ("", id) => format!("Style {id}"),
        (name, _) => name.to_string(),
    };
    let lead = [view.text(style.product.as_ref()), view.text(style.note.as_ref())];
    let lead = lead.iter().filter(|text| !text.is_empty()).map(|text| capital(text)).collect::<Vec<_>>().join(". ");
    let front = view.model.views.get("front").or_else(|| view.model.views.values().next());
    vec![Sheet::Cover(Cover {
        head: Head { title: words::COVER_TITLE.en.into(), name: name.into(), lead: lead.into() },
        front: front.and_then(|front| drawing(view, front, ROOM_COVER, None)),
        facts: facts(view),
        parties: crate::parties::rows::rows(view),
        sizes: view.model.sizes.iter().map(|size| size.entry.title().to_string()).collect(),
        colourways: view.model.colourways.values().map(|way| colourway(view, way)).collect(),
        concessions: view.samples.concessions.iter().map(concession).collect(),
        covers: [words::SIGNATURE_COVERS, words::SIGNATURE_EXCEPT, words::SIGNATURE_CHANGE]
            .map(|word| word.en.into())
            .to_vec(),
        precedence: precedence(),
    })]
}

fn facts(view: &View<'_>) -> Vec<Fact> {
    let (style, revision) = (&view.model.style, &view.model.revision);
    let destinations: Vec<String> = style.destinations.iter().map(|one| one.value.printed()).collect();
    let fact = |label: &str, value: String| Fact { label: label.into(), value: value.into() };
    let index = view.text(revision.id.as_ref());
    let dated = match date(view.text(revision.date.as_ref())) {
        Some(date) if !index.is_empty() => format!("{index} of {date}"),
        _ => index.to_string(),
    };
    let open = view.findings.count(Severity::Must) + view.findings.count(Severity::Should);
    let mut all = vec![
        fact(heads::STYLE_NUMBER.en, view.text(style.id.as_ref()).into()),
        fact(heads::FACTORY_NUMBER.en, view.text(style.factory_number.as_ref()).into()),
        fact(heads::DESTINATIONS.en, destinations.join(", ")),
        fact(heads::AGE.en, style.age.as_ref().map_or(String::new(), |age| grade(view, age))),
        fact(heads::STAGE.en, capital(view.text(revision.stage.as_ref()))),
        fact(heads::REVISION.en, dated),
        fact(heads::REASON.en, view.text(revision.reason.as_ref()).into()),
        fact("Questions open", open.to_string()),
        fact(heads::ANSWER_BY.en, date(view.text(revision.answer.as_ref())).unwrap_or_default()),
    ];
    let tags = view.samples.approvals.iter().filter_map(|one| one.sealed.as_ref()?.tag.clone());
    all.push(fact("Sealed sample, tag no.", tags.collect::<Vec<_>>().join(", ")));
    all
}

/// `From 36 months, graded by ..`.
fn grade(view: &View<'_>, age: &AgeGrade) -> String {
    let range = match (&age.from, &age.to) {
        (Some(from), Some(to)) => say!(FROM_TO, from = from.value.to_string(), to = to.value.to_string()),
        (Some(from), None) => say!(FROM, from = from.value.to_string()),
        (None, Some(to)) => say!(TO, to = to.value.to_string()),
        (None, None) => Phrase::none(),
    };
    Phrase::list([range, view.text(age.basis.as_ref()).into()]).english()
}

fn colourway(view: &View<'_>, way: &Way) -> Colourway {
    let id = &way.entry.id.value;
    let name = if way.entry.name.is_some() { format!("{id} · {}", way.entry.title()) } else { id.clone() };
    let mut swatches: Vec<String> = Vec::new();
    for role in way.roles.keys() {
        let colour = view.model.resolve(role, id).and_then(|(_, colour)| view.model.colours.get(colour?));
        if let Some([r, g, b]) = colour.and_then(|colour| colour.screen.as_ref()?.known().copied()) {
            let hex = format!("#{r:02x}{g:02x}{b:02x}");
            if !swatches.contains(&hex) {
                swatches.push(hex);
            }
        }
    }
    Colourway { name, swatches, cells: view.model.sizes.iter().map(|_| "yes".to_string()).collect() }
}

fn precedence() -> Vec<String> {
    let order =
        [words::PRECEDENCE_1, words::PRECEDENCE_2, words::PRECEDENCE_3, words::PRECEDENCE_4, words::PRECEDENCE_5];
    order.iter().map(|word| capital(word.en) + ".").collect()
}

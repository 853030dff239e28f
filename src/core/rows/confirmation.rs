//! The confirmation: what the factory confirms, what must be there before the next stage, and who signs for what.

use crate::compute::samples::SealedLine;
use crate::model::property::{self, Property};
use crate::model::{Binding, Given, Stated, Value};
use crate::words::{head as heads, sheet as words};

use super::data::{Callout, Confirmation, Sheet};
use super::package::{Fact, Head};
use super::view::{View, capital};
use super::written::date;

/// One sheet.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let items = asked(view);
    let lead = "Whatever is to be confirmed or filled in stands here once more. Sign this sheet; one chop across the \
                edges of all sheets.";
    vec![Sheet::Confirmation(Confirmation {
        head: Head {
            title: words::CONFIRMATION_TITLE.en.into(),
            name: words::CONFIRMATION.en.into(),
            lead: lead.into(),
        },
        items: items
            .into_iter()
            .enumerate()
            .map(|(n, text)| Callout { number: (n + 1).to_string(), text: text.into() })
            .collect(),
        required: required(view),
        checklist: view.samples.checklist.iter().map(|point| format!("{}: {}", point.id, point.text)).collect(),
        sealed: view.samples.approvals.iter().filter_map(|one| one.sealed.as_ref()).map(sealed).collect(),
        manifest: view.sealed.unwrap_or_default().into(),
        signed: signed(view),
        parties: vec!["For the owner".into(), "For the factory".into()],
    })]
}

/// One line for each value that the factory confirms or fills in.
fn asked(view: &View<'_>) -> Vec<String> {
    let mut all = Vec::new();
    for article in view.model.articles.values() {
        let title = article.entry.title();
        for spec in property::of(article.kind) {
            match article.properties.get(spec.key) {
                Some(Property::Text(value)) => ask(&mut all, title, spec.title, value, |text| text.clone()),
                Some(Property::Quantity(value)) => ask(&mut all, title, spec.title, value, |one| one.written()),
                None => {}
            }
        }
    }
    for piece in view.model.pieces.values() {
        if let Some(outline) = &piece.outline {
            ask(&mut all, piece.entry.title(), "outline", outline, |_| "as drawn".into());
        }
    }
    for stuffing in view.model.stuffings.values() {
        if let Some(mass) = &stuffing.mass {
            ask(&mut all, stuffing.entry.title(), "filling mass", mass, |one| one.written());
        }
    }
    for point in view.model.measures.values() {
        if let Some(target) = &point.target {
            ask(&mut all, point.entry.title(), "measurement", target, |one| one.written());
        }
    }
    all
}

fn ask<T>(all: &mut Vec<String>, title: &str, what: &str, value: &Value<T>, written: impl Fn(&T) -> String) {
    let coded = value.by.iter().map(|(code, (_, stated))| (Some(code.as_str()), stated));
    for (code, stated) in value.otherwise.iter().map(|stated| (None, stated)).chain(coded) {
        let place = code.map_or(String::new(), |code| format!(" ({code})"));
        if let Some(request) = request(stated, &written) {
            all.push(format!("{title}, {}{place}: {request}", what.to_lowercase()));
        }
    }
}

fn request<T>(stated: &Stated<T>, written: &impl Fn(&T) -> String) -> Option<String> {
    match (&stated.given, stated.binding) {
        (Given::Known(value), Binding::Confirm) => Some(format!("{}, to be confirmed", written(value))),
        (Given::Known(value), Binding::FillIn) => Some(format!("{}, or what the factory gives", written(value))),
        (Given::ByFactory, _) => Some("to be given by the factory".into()),
        _ => None,
    }
}

/// Colours to be approved, and the points for which a product is refused.
fn required(view: &View<'_>) -> Vec<Fact> {
    let mut all: Vec<Fact> = Vec::new();
    for way in view.model.colourways.values() {
        for role in way.roles.keys() {
            let Some((article, Some(colour))) = view.model.resolve(role, &way.entry.id.value) else { continue };
            let Some(found) = view.model.colours.get(colour) else { continue };
            let label = format!("{} in {}", article.entry.title(), found.entry.title());
            let reference = view.text(found.reference.as_ref());
            let value = if reference.is_empty() {
                "colour approved".into()
            } else {
                format!("colour approved against {reference}")
            };
            if all.iter().all(|fact| fact.label.english() != label) {
                all.push(Fact { label: label.into(), value: value.into() });
            }
        }
    }
    let critical = view.model.measures.values().filter(|point| point.critical.as_ref().is_some_and(|flag| flag.value));
    let names: Vec<&str> = critical.map(|point| point.entry.id.value.as_str()).collect();
    if !names.is_empty() {
        all.push(Fact {
            label: "Sample inside the limits".into(),
            value: format!("critical points {}", names.join(", ")).into(),
        });
    }
    all
}

/// The record of a sealed sample.
fn sealed(one: &SealedLine) -> Vec<Fact> {
    let fact = |label: &str, value: String| Fact { label: label.into(), value: value.into() };
    let on = |text: &Option<String>| text.as_deref().and_then(date).unwrap_or_default();
    vec![
        fact(heads::SEAL_TAG.en, one.tag.clone().unwrap_or_default()),
        fact("Sealed on", on(&one.date)),
        fact("Place", one.place.clone().unwrap_or_default()),
        fact("Sets with", one.sets.join(", ")),
        fact("Signed by", one.signatories.join(", ")),
        fact("Deviations accepted", one.deviations.join("; ")),
        fact("Valid until", on(&one.until)),
    ]
}

fn signed(view: &View<'_>) -> Vec<Fact> {
    let (style, revision) = (&view.model.style, &view.model.revision);
    let fact = |label: &str, value: String| Fact { label: label.into(), value: value.into() };
    vec![
        fact(heads::STYLE_NUMBER.en, view.text(style.id.as_ref()).into()),
        fact(heads::REVISION.en, view.text(revision.id.as_ref()).into()),
        fact(heads::STAGE.en, capital(view.text(revision.stage.as_ref()))),
        fact(heads::ISSUED.en, date(view.text(revision.date.as_ref())).unwrap_or_default()),
        fact("Digest", view.digest.to_string()),
    ]
}

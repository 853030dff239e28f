//! Where filling goes and how much; the mass of the product below it.

use crate::compute::Limited;
use crate::model::ArticleKind;
use crate::model::property::Property;
use crate::words::{number, sheet as words};

use super::data::{FillRow, Filling, Mass, Sheet};
use super::package::{Fact, Head};
use super::view::View;
use super::written::figure;

/// One sheet, or none for a product without filling.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    if view.model.stuffings.is_empty() {
        return Vec::new();
    }
    let sizes = view.sizes();
    let head = Head {
        title: words::FILLING_TITLE.en.into(),
        name: words::FILLING.en.into(),
        lead: words::FILL_WEIGH.en.into(),
    };
    vec![Sheet::Filling(Filling {
        head,
        sizes: sizes.iter().map(|size| (*size).to_string()).collect(),
        unit: "g".into(),
        rows: view.model.stuffings.keys().flat_map(|stuffing| stuffing_rows(view, stuffing)).collect(),
        sums: sums(view),
        facts: facts(view),
        notes: notes(view),
    })]
}

/// A target with its limits for the page: whole grams from 200 g on, tenths below; limits rounded inward.
pub fn mass(limited: &Limited) -> Mass {
    let places = if limited.target.get().is_some_and(|target| target >= 200.0) { 0 } else { 1 };
    Mass { target: figure(&limited.target, places), limits: range(limited, places) }
}

/// `855–945`, both with the same digits.
fn range(limited: &Limited, places: u32) -> String {
    let step = if places == 0 { 1.0 } else { 10.0 };
    // A limit that lies on a step to within the grid of figures is that step.
    let slack = 1e-6 * step;
    match (limited.lower.get(), limited.upper.get()) {
        (Some(lower), Some(upper)) => {
            let (lower, upper) = ((lower * step - slack).ceil() / step, (upper * step + slack).floor() / step);
            let whole = lower.fract() == 0.0 && upper.fract() == 0.0;
            number::limits(lower, upper, if whole { 0 } else { places })
        }
        _ => String::new(),
    }
}

/// One row a stuffing; one for each group of colourways where the filling differs between them.
fn stuffing_rows(view: &View<'_>, stuffing: &str) -> Vec<FillRow> {
    let mut groups: Vec<(Vec<&str>, FillRow)> = Vec::new();
    for way in view.model.colourways.keys() {
        let Some(row) = stuffing_row(view, stuffing, way) else { continue };
        match groups.iter_mut().find(|(_, old)| *old == row) {
            Some((ways, _)) => ways.push(way),
            None => groups.push((vec![way], row)),
        }
    }
    let several = groups.len() > 1;
    groups
        .into_iter()
        .map(|(ways, row)| {
            let stuffing =
                if several { format!("{} ({})", row.stuffing, ways.join(", ")) } else { row.stuffing.clone() };
            FillRow { stuffing, ..row }
        })
        .collect()
}

fn stuffing_row(view: &View<'_>, id: &str, way: &str) -> Option<FillRow> {
    let stuffing = view.model.stuffings.get(id)?;
    let mut masses = Vec::new();
    for size in view.sizes() {
        let line = view.figures.filling.get(size)?.get(way)?.stuffings.iter().find(|line| line.stuffing == id)?;
        masses.push(mass(&line.each));
    }
    let uses =
        stuffing.part.as_ref().and_then(|part| view.model.parts.get(&part.value)).map_or(1, |part| part.uses.len());
    let name = view.marked(&["stuffing"], id, stuffing.entry.title());
    Some(FillRow {
        stuffing: if uses > 1 { format!("{name}, each of {uses}") } else { name.english() },
        material: stuffing.filling.as_ref().map_or(String::new(), |material| view.material(&material.value)),
        how: view.text(stuffing.check.as_ref()).to_string(),
        masses,
    })
}

/// Filling, shell and product, for the first colourway; others differ in shade, and in mass only where their fabric
/// does, which the note says.
fn sums(view: &View<'_>) -> Vec<FillRow> {
    let Some(way) = view.model.colourways.keys().next() else { return Vec::new() };
    let by_size = |make: &dyn Fn(&str) -> Option<Mass>| -> Vec<Mass> {
        view.sizes().into_iter().map(|size| make(size).unwrap_or_default()).collect()
    };
    let row = |stuffing: &str, how: &str, masses: Vec<Mass>| FillRow {
        stuffing: stuffing.into(),
        material: String::new(),
        how: how.into(),
        masses,
    };
    let filling = by_size(&|size| Some(mass(&view.figures.filling.get(size)?.get(way)?.total)));
    let product = by_size(&|size| Some(mass(&view.figures.mass.get(size)?.get(way)?.product)));
    let blank = by_size(&|_| None);
    vec![
        row("Filling, all stuffings", "sum of the portions", filling),
        row("Shell, without filling", "mean of 5 shells, weighed by the factory", blank),
        row("Product with hangtag, without packing", "computed; limits by adding all tolerances", product),
    ]
}

/// Fibre, fineness and the rest of what is known of each filling.
fn facts(view: &View<'_>) -> Vec<Fact> {
    let mut all = Vec::new();
    for article in view.model.articles.values().filter(|article| article.kind == ArticleKind::Filling) {
        let mut texts: Vec<String> = article
            .composition
            .iter()
            .flat_map(|layer| &layer.fibres)
            .filter_map(|(fibre, share)| Some(format!("{} {}", share.known()?.written(), fibre.value)))
            .collect();
        for key in ["type", "fineness", "staple", "particle", "fibre-type", "recycled"] {
            texts.extend(match article.properties.get(key) {
                Some(Property::Text(value)) => value.all().find_map(|one| one.known().cloned()),
                Some(Property::Quantity(value)) => value.all().find_map(|one| one.known().map(|q| q.written())),
                None => None,
            });
        }
        all.push(Fact { label: article.entry.title().into(), value: texts.join(", ").into() });
    }
    for stuffing in view.model.stuffings.values() {
        let firmness = view.text(stuffing.firmness.as_ref());
        if !firmness.is_empty() {
            all.push(Fact { label: format!("Firmness, {}", stuffing.entry.title()).into(), value: firmness.into() });
        }
    }
    all
}

fn notes(view: &View<'_>) -> Vec<String> {
    let mut all = vec![words::ROUNDING.en.to_string()];
    if view.model.colourways.len() > 1 {
        let first = view.model.colourways.keys().next().map_or("", String::as_str);
        all.push(format!("The mass of the product is that of colourway {first}; figures.json holds the others."));
    }
    for stuffing in view.model.stuffings.values() {
        let note = view.text(stuffing.note.as_ref());
        if !note.is_empty() {
            all.push(format!("{}: {note}", stuffing.entry.title()));
        }
    }
    all
}

//! The bill of materials: everything that is bought, in one table.

use std::collections::BTreeSet;

use crate::compute::{BillLine, Figure};
use crate::model::Article;
use crate::model::property::Property;
use crate::words::{number, sheet as words};

use super::data::{Bill, BillGroup, BillRow, Sheet};
use super::package::Head;
use super::view::View;
use super::written::{NOT_YET, figure};

/// Properties that say what an article is, under its name.
const TOLD: [&str; 12] = [
    "type",
    "construction",
    "edge-finish",
    "pile",
    "mass",
    "width",
    "cuttable-width",
    "fineness",
    "diameter",
    "length",
    "opening",
    "place",
];
/// What stands where a colourway does not use an article.
const NONE: &str = "–";

/// One sheet, or none if nothing is bought.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let mut groups: Vec<BillGroup> = Vec::new();
    let mut number = 0;
    for (kind, title) in [("fabric", "Fabric"), ("thread", "Thread"), ("filling", "Filling"), ("trim", "Trims")] {
        let lines: Vec<&BillLine> = view.figures.bill.lines.iter().filter(|line| line.kind == kind).collect();
        let rows = merged(view, &lines);
        if rows.is_empty() {
            continue;
        }
        let rows = rows.into_iter().map(|row| {
            number += 1;
            BillRow { number: number.to_string(), ..row.row }
        });
        groups.push(BillGroup { title: title.into(), rows: rows.collect() });
    }
    if groups.is_empty() {
        return Vec::new();
    }
    let lead = "Net consumption of one product. Coloured rules are for the factory; an empty article or supplier asks for a \
                proposal.";
    vec![Sheet::Bill(Bill {
        head: Head { title: words::BILL_TITLE.en.into(), name: words::BILL.en.into(), lead: lead.into() },
        colourways: view.model.colourways.keys().cloned().collect(),
        sizes: view.sizes().into_iter().map(str::to_string).collect(),
        groups,
        notes: notes(view),
    })]
}

/// A row in the making, with the colourways it speaks for.
struct Row {
    article: String,
    ways: BTreeSet<String>,
    row: BillRow,
}

/// One row an article, its colours side by side; lines of one article share a row only where they are used in different
/// colourways and come to the same printed use.
fn merged(view: &View<'_>, lines: &[&BillLine]) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for line in lines {
        for new in split(view, line) {
            let place = rows.iter_mut().find(|old| {
                old.article == new.article && old.row.uses == new.row.uses && old.ways.is_disjoint(&new.ways)
            });
            match place {
                Some(old) => {
                    for (cell, other) in old.row.colours.iter_mut().zip(&new.row.colours) {
                        if cell == NONE {
                            cell.clone_from(other);
                        }
                    }
                    old.ways.extend(new.ways);
                }
                None => rows.push(new),
            }
        }
    }
    rows
}

/// The rows of one line: one for each group of colourways with the same printed use in every size.
fn split(view: &View<'_>, line: &BillLine) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    let Some(article) = view.model.articles.get(&line.bought.article) else { return rows };
    let (unit, factor, places) = match line.unit {
        "mm" => ("m", 1e-3, 3),
        "g" => ("g", 1.0, 1),
        _ => ("pc", 1.0, 0),
    };
    for way in view.model.colourways.keys() {
        let uses: Vec<Option<&Figure<_>>> =
            view.sizes().into_iter().map(|size| line.uses.get(size).and_then(|ways| ways.get(way))).collect();
        if uses.iter().all(Option::is_none) {
            continue;
        }
        let texts: Vec<String> = uses
            .into_iter()
            .map(|one| one.map_or(NONE.to_string(), |one| written(&one.clone().times(factor), places, line.estimate)))
            .collect();
        let found = rows.iter().position(|row| row.row.uses == texts);
        let at = found.unwrap_or_else(|| {
            rows.push(row(view, article, line, texts, unit));
            rows.len() - 1
        });
        let column = view.model.colourways.keys().position(|key| key == way).unwrap_or(0);
        rows[at].row.colours[column] = colour(view, line);
        rows[at].ways.insert(way.clone());
    }
    rows
}

fn written(use_of: &Figure<crate::compute::Number>, places: u32, estimate: bool) -> String {
    match use_of.get() {
        Some(value) if estimate => format!("≈\u{a0}{}", number::number(value, places)),
        Some(_) => figure(use_of, places),
        None => NOT_YET.into(),
    }
}

fn row(view: &View<'_>, article: &Article, line: &BillLine, uses: Vec<String>, unit: &str) -> Row {
    let row = BillRow {
        number: String::new(),
        item: view.marked(&[article.kind.word()], &article.entry.id.value, article.entry.title()),
        details: details(view, article),
        article: first(article, "article"),
        supplier: first(article, "supplier"),
        colours: view.model.colourways.keys().map(|_| NONE.to_string()).collect(),
        uses,
        unit: unit.into(),
        minimum: first(article, "minimum-order"),
        lead: first(article, "lead-time"),
    };
    Row { article: line.bought.article.clone(), ways: BTreeSet::new(), row }
}

fn colour(view: &View<'_>, line: &BillLine) -> String {
    match &line.bought.colour {
        Some(id) => {
            let colour = view.model.colours.get(id);
            let name = colour.map_or(id.as_str(), |colour| colour.entry.title());
            match colour.map(|colour| view.text(colour.reference.as_ref())).filter(|text| !text.is_empty()) {
                Some(reference) => format!("{name}\n{reference}"),
                None => name.to_string(),
            }
        }
        None => "as supplied".into(),
    }
}

/// What it is, what it is made of, what it is for.
fn details(view: &View<'_>, article: &Article) -> String {
    let mut told: Vec<String> = TOLD.iter().map(|key| first(article, key)).filter(|text| !text.is_empty()).collect();
    for layer in &article.composition {
        let fibres: Vec<String> = layer
            .fibres
            .iter()
            .filter_map(|(fibre, share)| Some(format!("{} {}", share.known()?.written(), fibre.value)))
            .collect();
        let name = if layer.layer.value == "all" { String::new() } else { format!("{} ", layer.layer.value) };
        told.push(format!("{name}{}", fibres.join(", ")));
    }
    let lines = [told.join(", "), used_for(view, &article.entry.id.value), first(article, "note")];
    lines.into_iter().filter(|line| !line.is_empty()).collect::<Vec<_>>().join(". ")
}

/// The roles an article plays, by name.
fn used_for(view: &View<'_>, article: &str) -> String {
    let mut names: Vec<&str> = Vec::new();
    for (role, entry) in &view.model.roles {
        let plays = view
            .model
            .colourways
            .keys()
            .any(|way| view.model.resolve(role, way).is_some_and(|(one, _)| one.entry.id.value == article));
        if plays && !names.contains(&entry.entry.title()) {
            names.push(entry.entry.title());
        }
    }
    if names.is_empty() { String::new() } else { format!("For {}", names.join(", ")) }
}

/// A property as written, for the first product that has it; all values where it differs by size.
fn first(article: &Article, key: &str) -> String {
    let mut all: Vec<String> = Vec::new();
    match article.properties.get(key) {
        Some(Property::Text(value)) => all.extend(value.all().filter_map(|one| one.known().cloned())),
        Some(Property::Quantity(value)) => all.extend(value.all().filter_map(|one| one.known().map(|q| q.written()))),
        None => {}
    }
    let text = all.join(" / ");
    match key {
        "cuttable-width" if !text.is_empty() => format!("cuttable {text}"),
        "width" | "pile" | "diameter" | "length" | "opening" if !text.is_empty() => format!("{key} {text}"),
        _ => text,
    }
}

fn notes(view: &View<'_>) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    if view.figures.bill.lines.iter().any(|line| line.estimate) {
        all.push(format!("≈ {}.", words::ESTIMATE.en));
    }
    if !view.figures.bill.missing.is_empty() {
        let missing: Vec<&str> = view.figures.bill.missing.iter().map(String::as_str).collect();
        all.push(format!("Not in this table yet: {}.", missing.join("; ")));
    }
    all.push(words::ROUNDING.en.to_string());
    all
}

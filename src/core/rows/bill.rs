//! The bill of materials: everything that is bought, in one table.

use std::collections::BTreeSet;

use crate::compute::{BillLine, Figure, Number};
use crate::model::property::Property;
use crate::model::{Article, Stated};
use crate::source::Spanned;
use crate::units::{Quantity, Unit};
use crate::words::{Phrase, Word, say, sheet as sentences, words};

use super::cell::Cell;
use super::data::{Bill, BillGroup, BillRow, Sheet};
use super::package::Head;
use super::view::View;

words! {
    LEAD "bill.lead" = "Net consumption of one product. Coloured rules are for the factory; an empty article or supplier asks for a proposal.";
    FABRIC "bill.fabric" = "Fabric";
    THREAD "bill.thread" = "Thread";
    FILLING "bill.filling" = "Filling";
    TRIMS "bill.trims" = "Trims";
    AS_SUPPLIED "bill.as-supplied" = "as supplied";
    FOR "bill.for" = "For {roles}";
    SHARE "bill.share" = "{share} {fibre}";
    LAYER "bill.layer" = "{layer} {fibres}";
    CUTTABLE "bill.cuttable" = "cuttable {value}";
    WIDTH "bill.width" = "width {value}";
    PILE "bill.pile" = "pile {value}";
    DIAMETER "bill.diameter" = "diameter {value}";
    LENGTH "bill.length" = "length {value}";
    OPENING "bill.opening" = "opening {value}";
    ESTIMATED "bill.estimated" = "≈ {text}.";
    MISSING "bill.missing" = "Not in this table yet: {things}.";
}

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
/// Groups by kind of article.
const GROUPS: [(&str, Word); 4] = [("fabric", FABRIC), ("thread", THREAD), ("filling", FILLING), ("trim", TRIMS)];
/// Properties whose value alone does not say what it is.
const MEASURES: [(&str, Word); 6] = [
    ("cuttable-width", CUTTABLE),
    ("width", WIDTH),
    ("pile", PILE),
    ("diameter", DIAMETER),
    ("length", LENGTH),
    ("opening", OPENING),
];

/// One sheet, or none if nothing is bought.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let mut groups: Vec<BillGroup> = Vec::new();
    let mut number = 0;
    for (kind, title) in GROUPS {
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
    vec![Sheet::Bill(Bill {
        head: Head { title: sentences::BILL_TITLE.into(), name: sentences::BILL.into(), lead: LEAD.into() },
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
    /// Its uses as printed: what they are compared by.
    printed: Vec<Phrase>,
    row: BillRow,
}

/// One row an article, its colours side by side; lines of one article share a row only where they are used in different
/// colourways and come to the same printed use.
fn merged(view: &View<'_>, lines: &[&BillLine]) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for line in lines {
        for new in split(view, line) {
            let place = rows.iter_mut().find(|old| {
                old.article == new.article && old.printed == new.printed && old.ways.is_disjoint(&new.ways)
            });
            match place {
                Some(old) => {
                    for (cell, other) in old.row.colours.iter_mut().zip(&new.row.colours) {
                        if *cell == Cell::Dash {
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
        unit if unit == Unit::Mm.symbol() => (Unit::M, 1e-3, 3),
        unit if unit == Unit::G.symbol() => (Unit::G, 1.0, 1),
        _ => (Unit::Pc, 1.0, 0),
    };
    for way in view.model.colourways.keys() {
        let uses: Vec<Option<&Figure<_>>> =
            view.sizes().into_iter().map(|size| line.uses.get(size).and_then(|ways| ways.get(way))).collect();
        if uses.iter().all(Option::is_none) {
            continue;
        }
        let cells: Vec<Cell> = uses
            .into_iter()
            .map(|one| one.map_or(Cell::Dash, |one| written(&one.clone().times(factor), places, line.estimate)))
            .collect();
        let printed: Vec<Phrase> = cells.iter().map(Cell::phrase).collect();
        let found = rows.iter().position(|row| row.printed == printed);
        let at = found.unwrap_or_else(|| {
            rows.push(Row {
                article: line.bought.article.clone(),
                ways: BTreeSet::new(),
                printed,
                row: row(view, article, cells, unit.symbol()),
            });
            rows.len() - 1
        });
        let column = view.model.colourways.keys().position(|key| key == way).unwrap_or(0);
        rows[at].row.colours[column] = colour(view, line);
        rows[at].ways.insert(way.clone());
    }
    rows
}

fn written(use_of: &Figure<Number>, places: u32, estimate: bool) -> Cell {
    match use_of.known() {
        Some(value) if estimate => Cell::Estimate(Box::new(Cell::fixed(*value, places, ""))),
        _ => Cell::number(use_of, places, ""),
    }
}

fn row(view: &View<'_>, article: &Article, uses: Vec<Cell>, unit: &str) -> BillRow {
    BillRow {
        number: String::new(),
        item: view.marked(&[article.kind.word()], &article.entry.id.value, article.entry.title()),
        details: details(view, article),
        article: first(article, "article").into(),
        supplier: first(article, "supplier").into(),
        colours: view.model.colourways.keys().map(|_| Cell::Dash).collect(),
        uses,
        unit: unit.into(),
        minimum: first(article, "minimum-order").into(),
        lead: first(article, "lead-time").into(),
    }
}

fn colour(view: &View<'_>, line: &BillLine) -> Cell {
    let Some(id) = &line.bought.colour else { return AS_SUPPLIED.into() };
    let colour = view.model.colours.get(id);
    let name = colour.map_or(id.as_str(), |colour| colour.entry.title());
    let reference = colour.map_or("", |colour| view.text(colour.reference.as_ref()));
    Phrase::lines([name, reference]).into()
}

/// What it is, what it is made of, what it is for.
fn details(view: &View<'_>, article: &Article) -> Phrase {
    let mut told: Vec<Phrase> = TOLD.iter().map(|key| first(article, key)).collect();
    for layer in &article.composition {
        let fibre = |(fibre, share): &(Spanned<String>, Stated<Quantity>)| {
            Some(say!(SHARE, share = share.known()?.written(), fibre = &fibre.value))
        };
        let fibres = Phrase::list(layer.fibres.iter().filter_map(fibre));
        told.push(match layer.layer.value.as_str() {
            "all" => fibres,
            layer => say!(LAYER, layer, fibres),
        });
    }
    Phrase::row([Phrase::list(told), used_for(view, &article.entry.id.value), first(article, "note")], ". ")
}

/// The roles an article plays, by name.
fn used_for(view: &View<'_>, article: &str) -> Phrase {
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
    if names.is_empty() { Phrase::none() } else { say!(FOR, roles = Phrase::list(names)) }
}

/// A property as written, for the first product that has it; all values where it differs by size.
fn first(article: &Article, key: &str) -> Phrase {
    let mut all: Vec<String> = Vec::new();
    match article.properties.get(key) {
        Some(Property::Text(value)) => all.extend(value.all().filter_map(|one| one.known().cloned())),
        Some(Property::Quantity(value)) => all.extend(value.all().filter_map(|one| one.known().map(|q| q.written()))),
        None => {}
    }
    let value = Phrase::row(all, " / ");
    match MEASURES.iter().find(|(measure, _)| *measure == key) {
        Some((_, word)) if !value.is_empty() => say!(word, value),
        _ => value,
    }
}

fn notes(view: &View<'_>) -> Vec<Phrase> {
    let mut all: Vec<Phrase> = Vec::new();
    if view.figures.bill.lines.iter().any(|line| line.estimate) {
        all.push(say!(ESTIMATED, text = sentences::ESTIMATE));
    }
    if !view.figures.bill.missing.is_empty() {
        all.push(say!(MISSING, things = Phrase::row(&view.figures.bill.missing, "; ")));
    }
    all.push(sentences::ROUNDING.into());
    all
}

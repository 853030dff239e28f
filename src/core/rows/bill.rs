//! The bill of materials: everything that is bought, each article once with a row for each of its colours.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::{BillLine, Bought, Figure, Number, TAIL};
use crate::model::property::Property;
use crate::model::{Article, ArticleKind, Given, Stated};
use crate::units::Unit;
use crate::words::{Phrase, Word, number, say, sheet as sentences, words};

use super::article::{asked, details, value};
use super::cell::Cell;
use super::data::{Bill, BillArticle, BillGroup, BillRow, ColourRow, Sheet};
use super::package::Head;
use super::view::View;

words! {
    LEAD "bill.lead" = "What one product takes; the unit says whether a length is net or with waste. What names no colour comes as supplied. Dashed boxes are for the factory; an empty article or supplier asks for a proposal.";
    FABRIC "bill.fabric" = "Fabric";
    THREAD "bill.thread" = "Thread";
    FILLING "bill.filling" = "Filling";
    TRIMS "bill.trims" = "Trims";
    AS_SUPPLIED "bill.as-supplied" = "as supplied";
    NET_USE "bill.net-use" = "Net consumption of fabric is that of the bare marker: faults, shrinkage and loss in cutting are not in it and are on an order's document.";
    NET "bill.net" = "m net";
    WITH_WASTE "bill.with-waste" = "m with waste";
    LAB "bill.lab" = "L* {l}, a* {a}, b* {b}";
    LIMIT "bill.limit" = "CIEDE2000 at most {limit}";
    ESTIMATED "bill.estimated" = "≈ {text}.";
    BY_GUIDE "bill.by-guide" = "≈ at thread: some of its stitches are counted by a maker's guide for thin fabric, which is the least; have it measured on a sample.";
    THREAD_HOW "bill.thread-how" = "Thread of a stitched line is its length times a ratio, from the stitch type, its density and the thickness of what is sewn, and {tail} mm at each of its two ends.";
    MISSING "bill.missing" = "Not in this table yet: {things}.";
    OF_ROLE "bill.of-role" = "{role}: {note}";
    NOT_COUNTED "bill.not-counted" = "No thread is counted for {things}; have it measured on a sample and add it.";
    NOT_COUNTED_WHY "bill.not-counted-why" = "{title} ({why})";
    BY_STRIKE_OFF "bill.by-strike-off" = "the strike-off shows it";
}

/// Groups by kind of article.
const GROUPS: [(&str, Word); 4] = [("fabric", FABRIC), ("thread", THREAD), ("filling", FILLING), ("trim", TRIMS)];
/// Decimals of a difference of colours.
const DIFFERENCE: u32 = 2;

/// One sheet, or none if nothing is bought.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let mut groups: Vec<BillGroup> = Vec::new();
    let mut number = 0;
    for (kind, title) in GROUPS {
        let lines = view.figures.bill.lines.iter().filter(|line| line.kind == kind);
        let mut by: BTreeMap<&str, Vec<&BillLine>> = BTreeMap::new();
        lines.for_each(|line| by.entry(&line.bought.article).or_default().push(line));
        let articles = by.into_iter().filter_map(|(id, lines)| {
            let article = view.model.articles.get(id)?;
            number += 1;
            Some(described(view, article, number, &lines))
        });
        let articles: Vec<BillArticle> = articles.collect();
        if !articles.is_empty() {
            groups.push(BillGroup { title: title.into(), articles });
        }
    }
    if groups.is_empty() {
        return Vec::new();
    }
    vec![Sheet::Bill(Bill {
        head: Head { title: sentences::BILL_TITLE.into(), name: sentences::BILL.into(), lead: LEAD.into() },
        colourways: view.model.ways().into_iter().map(str::to_string).collect(),
        sizes: view.sizes().into_iter().map(str::to_string).collect(),
        groups,
        colours: colours(view),
        notes: notes(view),
    })]
}

fn described(view: &View<'_>, article: &Article, number: usize, lines: &[&BillLine]) -> BillArticle {
    BillArticle {
        number: number.to_string(),
        item: view.marked(&[article.kind.word()], &article.entry.id.value, article.entry.title()),
        details: details(view, article),
        article: proposed(view, article, "article"),
        supplier: proposed(view, article, "supplier"),
        asked: asked(view, article),
        rows: told(merged(view, lines).into_iter().map(|row| row.row).collect()),
    }
}

/// An article without any colour says nothing of it, unless a colourway does without the article.
fn told(mut rows: Vec<BillRow>) -> Vec<BillRow> {
    let plain = Cell::from(AS_SUPPLIED);
    if rows.iter().flat_map(|row| &row.colours).all(|colour| *colour == plain) {
        rows.iter_mut().flat_map(|row| &mut row.colours).for_each(|colour| *colour = Cell::Empty);
    }
    rows
}

/// What the factory proposes where nothing is stated, and where it is left to the factory.
fn proposed(view: &View<'_>, article: &Article, key: &str) -> Cell {
    match article.properties.get(key) {
        Some(Property::Text(text)) if text.all().all(|one| matches!(one.given, Given::ByFactory)) => Cell::Asked,
        _ => value(view, article, key).into(),
    }
}

/// A row in the making, with the colourways it speaks for.
struct Row {
    ways: BTreeSet<String>,
    /// Its uses as printed and the roles it fills: what rows are compared by.
    same: (Vec<Phrase>, Vec<String>),
    row: BillRow,
}

/// The rows of one article: its colours side by side where they fill the same roles in different colourways and come to the same
/// printed use.
fn merged(view: &View<'_>, lines: &[&BillLine]) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for new in lines.iter().flat_map(|line| split(view, line)) {
        match rows.iter_mut().find(|old| old.same == new.same && old.ways.is_disjoint(&new.ways)) {
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
    rows
}

/// The rows of one line: one for each group of colourways with the same roles and the same printed use in every size.
fn split(view: &View<'_>, line: &BillLine) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    let ways = view.model.ways();
    for (column, way) in ways.iter().enumerate() {
        let Some(cells) = uses(view, line, way) else { continue };
        let same = (cells.iter().map(Cell::phrase).collect(), roles(view, &line.bought, way));
        let found = rows.iter().position(|row| row.same == same);
        let at = found.unwrap_or_else(|| {
            let row = BillRow {
                place: Phrase::list(&same.1),
                colours: ways.iter().map(|_| Cell::Dash).collect(),
                uses: cells,
                unit: unit(line),
            };
            rows.push(Row { ways: BTreeSet::new(), same, row });
            rows.len() - 1
        });
        rows[at].row.colours[column] = colour(view, &line.bought.article, line.bought.colour.as_deref());
        rows[at].ways.insert((*way).to_string());
    }
    rows
}

/// The use in each size of one colourway; `None` where it has none.
fn uses(view: &View<'_>, line: &BillLine, way: &str) -> Option<Vec<Cell>> {
    let (factor, places) = match line.unit {
        unit if unit == Unit::Mm.symbol() && line.net.is_empty() => (1e-3, 3),
        unit if unit == Unit::Mm.symbol() => (1e-3, 2),
        unit if unit == Unit::G.symbol() => (1.0, 1),
        _ => (1.0, 0),
    };
    let one = |figure: &Figure<Number>| written(&figure.clone().times(factor), places, line.estimate);
    let of = |size: &str| {
        let needed = line.uses.get(size).and_then(|ways| ways.get(way))?;
        let needed = one(needed).marked(followed(view, &line.bought, size, way));
        let net = line.net.get(size).and_then(|ways| ways.get(way));
        Some(net.map_or_else(|| needed.clone(), |net| Cell::Lines(vec![one(net), needed.clone()])))
    };
    let cells: Vec<Option<Cell>> = view.sizes().into_iter().map(of).collect();
    let any = cells.iter().any(Option::is_some);
    any.then(|| cells.into_iter().map(|cell| cell.unwrap_or(Cell::Dash)).collect())
}

/// Whether the use of a size in a colourway is another one than in the last sealed revision.
fn followed(view: &View<'_>, bought: &Bought, size: &str, way: &str) -> bool {
    let what = match &bought.colour {
        Some(colour) => format!("{}/{colour}", bought.article),
        None => bought.article.clone(),
    };
    let both = format!("{size}/{way}");
    let holds = |scope: &String| [size, way, both.as_str()].contains(&scope.as_str());
    let all = view.since.into_iter().flat_map(|since| &since.changes.followed);
    all.filter(|one| one.what == what).any(|one| one.scope.is_empty() || one.scope.iter().any(holds))
}

fn written(use_of: &Figure<Number>, places: u32, estimate: bool) -> Cell {
    Cell::figure(use_of, |value| {
        let cell = Cell::fixed(*value, places, "");
        if estimate { Cell::Estimate(Box::new(cell)) } else { cell }
    })
}

fn unit(line: &BillLine) -> Phrase {
    match line.unit {
        unit if unit != Unit::Mm.symbol() => if unit == Unit::G.symbol() { Unit::G } else { Unit::Pc }.symbol().into(),
        _ if line.kind == ArticleKind::Fabric.word() => NET.into(),
        _ if line.net.is_empty() => Unit::M.symbol().into(),
        _ => Phrase::lines([NET, WITH_WASTE]),
    }
}

/// What colour an article is bought in.
pub(super) fn colour(view: &View<'_>, article: &str, named: Option<&str>) -> Cell {
    // What comes in one colour only has it, whether a role names it or not.
    let only = || match view.model.articles.get(article)?.colours.as_slice() {
        [one] => Some(one.value.as_str()),
        _ => None,
    };
    let Some(id) = named.or_else(only) else { return AS_SUPPLIED.into() };
    view.model.colours.get(id).map_or(id, |colour| colour.entry.title()).into()
}

/// The roles that something bought fills in a colourway, by name.
fn roles(view: &View<'_>, bought: &Bought, way: &str) -> Vec<String> {
    let fills = |role: &str| {
        view.model.resolve(role, way).is_some_and(|(article, colour)| {
            article.entry.id.value == bought.article && colour == bought.colour.as_deref()
        })
    };
    let roles = view.model.roles.iter().filter(|(role, _)| fills(role));
    roles.map(|(_, role)| role.entry.title().to_string()).collect()
}

/// Every colour that something is bought in, in the order of its name.
fn colours(view: &View<'_>) -> Vec<ColourRow> {
    let mut by: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for line in &view.figures.bill.lines {
        let title = view.model.articles.get(&line.bought.article).map_or("", |article| article.entry.title());
        let Some(colour) = &line.bought.colour else { continue };
        let articles = by.entry(colour).or_default();
        if !articles.contains(&title) {
            articles.push(title);
        }
    }
    let row = |(id, articles): (&str, Vec<&str>)| {
        let colour = view.model.colours.get(id)?;
        let lab = colour.lab.as_ref().and_then(Stated::known);
        let limit = colour.limit.as_ref().and_then(Stated::known);
        Some(ColourRow {
            name: view.marked(&["colour"], id, colour.entry.title()),
            reference: view.text(colour.reference.as_ref()).into(),
            lab: lab.map_or(Cell::Dash, |[l, a, b]| {
                let [l, a, b] = [l, a, b].map(|value| number::number(*value, 1));
                say!(LAB, l, a, b).into()
            }),
            limit: limit.map_or(Cell::Dash, |limit| say!(LIMIT, limit = number::number(*limit, DIFFERENCE)).into()),
            articles: Phrase::row(articles, "; "),
        })
    };
    by.into_iter().filter_map(row).collect()
}

fn notes(view: &View<'_>) -> Vec<Phrase> {
    let lines = || view.figures.bill.lines.iter();
    let mut all: Vec<Phrase> = Vec::new();
    if lines().any(|line| line.kind == ArticleKind::Fabric.word()) {
        all.push(NET_USE.into());
    }
    let estimated = |kind: ArticleKind| lines().any(|line| line.estimate && line.kind == kind.word());
    if estimated(ArticleKind::Fabric) {
        all.push(say!(ESTIMATED, text = sentences::ESTIMATE));
    }
    if lines().any(|line| line.kind == ArticleKind::Thread.word()) {
        all.push(say!(THREAD_HOW, tail = number::number(TAIL, 0)));
    }
    if estimated(ArticleKind::Thread) {
        all.push(BY_GUIDE.into());
    }
    if !view.figures.bill.missing.is_empty() {
        all.push(say!(MISSING, things = Phrase::row(&view.figures.bill.missing, "; ")));
    }
    let uncounted = uncounted(view);
    if !uncounted.is_empty() {
        all.push(say!(NOT_COUNTED, things = Phrase::row(uncounted, "; ")));
    }
    all.extend(view.model.roles.values().filter_map(|role| {
        let note = view.text(role.note.as_ref());
        (!note.is_empty()).then(|| say!(OF_ROLE, role = role.entry.title(), note))
    }));
    all.push(sentences::ROUNDING.into());
    all
}

/// What is sewn or embroidered with thread that no figure counts, and why.
fn uncounted(view: &View<'_>) -> Vec<Phrase> {
    let model = view.model;
    let mut left: BTreeMap<&str, &Phrase> = BTreeMap::new();
    for thread in view.figures.thread.values().flat_map(BTreeMap::values) {
        left.extend(thread.not_counted.iter().map(|(id, why)| (id.as_str(), why)));
    }
    let title = |id: &str| {
        let entries = [
            model.joints.get(id).map(|one| &one.entry),
            model.edge_finishes.get(id).map(|one| &one.entry),
            model.attaches.get(id).map(|one| &one.entry),
            model.topstitches.get(id).map(|one| &one.entry),
        ];
        entries.into_iter().flatten().next().map_or_else(|| id.to_string(), |entry| entry.title().to_string())
    };
    let sewn = left.into_iter().map(|(id, why)| say!(NOT_COUNTED_WHY, title = title(id), why));
    let embroidered =
        model.steps.values().filter(|step| step.word.as_ref().is_some_and(|word| word.value == "embroider"));
    let embroidered = embroidered.filter(|step| step.means.threads.is_empty());
    let embroidered = embroidered.map(|step| say!(NOT_COUNTED_WHY, title = step.entry.title(), why = BY_STRIKE_OFF));
    sewn.chain(embroidered).collect()
}

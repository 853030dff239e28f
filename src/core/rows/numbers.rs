//! The seven numbers of the cover: how much of what one product is.

use std::collections::BTreeSet;

use crate::compute::{Figure, Limited, Number};
use crate::words::{Phrase, say, words};

use super::cell::Cell;
use super::filling::mass;
use super::package::Fact;
use super::view::View;

words! {
    PIECES "numbers.pieces" = "Pieces cut";
    OF_KINDS "numbers.of-kinds" = "{count}, {kinds} kinds";
    ARTICLES "numbers.articles" = "Articles to buy";
    FABRIC "numbers.fabric" = "Fabric in the pieces";
    FILLING "numbers.filling" = "Filling";
    MASS "numbers.mass" = "Finished mass";
    GRAMS "numbers.grams" = "{mass} g";
    STEPS "numbers.steps" = "Steps of work";
    POINTS "numbers.points" = "Points to measure";
    CRITICAL "numbers.critical" = "{count}, {critical} critical";
}

/// Square millimetres in a square metre.
const SQUARE_METRE: f64 = 1e6;

/// Of one product of the first colourway, by size where they differ.
pub(super) fn numbers(view: &View<'_>) -> Vec<Fact> {
    let articles: BTreeSet<&str> = view.figures.bill.lines.iter().map(|line| line.bought.article.as_str()).collect();
    vec![
        Fact::of(FABRIC, view.in_sizes(|size| area(view, size))),
        Fact::of(FILLING, view.in_sizes(|size| filling(view, size))),
        Fact::of(MASS, view.in_sizes(|size| finished(view, size))),
        Fact::of(PIECES, pieces(view)),
        Fact::of(ARTICLES, Cell::count(articles.len() as u64)),
        Fact::of(STEPS, Cell::count(view.model.work.order.len() as u64)),
        Fact::of(POINTS, points(view)),
    ]
}

fn pieces(view: &View<'_>) -> Phrase {
    let count = Cell::figure(&view.figures.counts.pieces, |count| Cell::count(*count)).phrase();
    say!(OF_KINDS, count, kinds = view.model.pieces.len())
}

fn way<'a>(view: &View<'a>) -> Option<&'a str> {
    view.model.ways().into_iter().next()
}

/// The net area of all fabrics; not known where one of them is not.
fn area(view: &View<'_>, size: &str) -> Phrase {
    let needs = way(view).and_then(|way| view.figures.fabric.get(size)?.get(way));
    let areas: Option<Vec<f64>> =
        needs.into_iter().flatten().map(|need| need.area.known().map(|area| area.get())).collect();
    let sum = areas.map(|areas| Number::new(areas.iter().sum::<f64>() / SQUARE_METRE));
    sum.map_or_else(Phrase::none, |sum| Cell::fixed(sum, 3, "m²").phrase())
}

fn filling(view: &View<'_>, size: &str) -> Phrase {
    if view.model.stuffings.is_empty() {
        return Cell::Dash.phrase();
    }
    let filling = way(view).and_then(|way| view.figures.filling.get(size)?.get(way));
    filling.map_or_else(Phrase::none, |filling| grams(mass(&filling.total).target))
}

fn finished(view: &View<'_>, size: &str) -> Phrase {
    let product = way(view).and_then(|way| Some(&view.figures.mass.get(size)?.get(way)?.product));
    product.map_or_else(Phrase::none, |product| grams(limits(product)))
}

fn limits(product: &Limited) -> Cell {
    match (&product.lower, &product.upper) {
        (Figure::Known(_), Figure::Known(_)) => mass(product).limits,
        _ => mass(product).target,
    }
}

fn grams(cell: Cell) -> Phrase {
    match cell {
        Cell::Amount { .. } | Cell::Limits { .. } => say!(GRAMS, mass = cell.phrase()),
        other => other.phrase(),
    }
}

fn points(view: &View<'_>) -> Phrase {
    let critical = view.model.measures.values().filter(|point| point.critical.as_ref().is_some_and(|one| one.value));
    say!(CRITICAL, count = view.model.measures.len(), critical = critical.count())
}

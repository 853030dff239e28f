//! The measurements: one sheet a size, or for two sizes where they have room, with the picture and its numbered arrows, limits,
//! and blank columns.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::MeasureSize;
use crate::model::{PointOfMeasure, Variant};
use crate::scene::{Measured, measured};
use crate::words::{Phrase, head, number, say, sheet, words};

use super::cards::{lines, page_height};
use super::cell::Cell;
use super::choice::among;
use super::data::{Mass, Measurements, Point, Sheet};
use super::package::{Drawing, Head, ROOM_MEASURE, Room};
use super::view::View;
use super::views::{drawing, spot};

words! {
    OF_SIZE "measurements.of-size" = "Measurements, size {size}";
    SHOWN "measurements.shown" = "{picture} Points of measure: {points}.";
    FOR_REFERENCE "measurements.for-reference" = "for reference";
    MEASURED "measurements.measured" = "Measured {state}.";
    IN_STATES "measurements.in-states" = "Measured in the state that each point names.";
    READ_TO "measurements.read-to" = "Read to {step}.";
    READ_MOSTLY "measurements.read-mostly" = "Read to {step} where a point names no other step.";
    TO_STEP "measurements.to-step" = "read to {step}";
    DIFFERENCE "measurements.difference" = "left and right differ by at most {difference}";
    REFERENCE_NOTE "measurements.reference-note" = "Points marked for reference never reject a product.";
}

/// Columns for readings of a size on a sheet of one, and on a sheet of two (common practice: three to five pieces a size are
/// measured on the line).
const BLANKS: [usize; 2] = [5, 3];
/// Views shown at most beside the table.
const PICTURES: usize = 4;

/// One sheet for each size, or for two that have room on one; none without points of measure.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let sizes = view.sizes();
    if view.model.measures.is_empty() {
        return Vec::new();
    }
    match together(view, &sizes) {
        Some(room) => vec![sheet_of(view, &sizes, Pictures::Above(room))],
        None => sizes.iter().map(|size| sheet_of(view, &[*size], Pictures::Beside)).collect(),
    }
}

/// Where the pictures are.
#[derive(Clone, Copy)]
enum Pictures {
    /// Beside the table.
    Beside,
    /// Above a table of two sizes, with this room for each.
    Above(Room),
}

/// Height of the head of a sheet with that of its table, and of what is below the table of two sizes, mm.
const AROUND: [f64; 2] = [24.0, 22.0];
/// Width of the name of a point, mm; height of a line of it, and of the air round a row, mm.
const POINT: f64 = 100.0;
const LINE: [f64; 2] = [4.5, 2.2];
/// The least height of pictures above a table, and the air below them, mm.
const PICTURE_LEAST: f64 = 30.0;
const AIR: f64 = 4.0;
/// Type size of this sheet, points: it lies on the line, and is read from further off.
const TYPE: f64 = 10.5;

/// The room for pictures above a table of two sizes of one unit that are read to the same steps, where all of it is on one page.
fn together(view: &View<'_>, sizes: &[&str]) -> Option<Room> {
    let [first, second] = sizes else { return None };
    let languages = view.model.style.languages;
    let tall = |(n, (key, point)): (usize, (&String, &PointOfMeasure))| {
        let row = row(view, n, (key, point), &[*first], true);
        LINE[0] * lines(&Phrase::row([row.name, row.how], "  "), languages, TYPE, POINT) + LINE[1]
    };
    let rows: f64 = view.model.measures.iter().enumerate().map(tall).sum();
    let height = (page_height(view) - AROUND[0] - rows - AROUND[1] - AIR).min(ROOM_MEASURE.height);
    let same_steps = view.model.measures.values().all(|point| step(view, point, first) == step(view, point, second));
    let alike = same_steps && unit(view, first) == unit(view, second);
    (alike && height >= PICTURE_LEAST).then_some(Room { height, ..ROOM_MEASURE })
}

/// The sheet of some sizes.
fn sheet_of(view: &View<'_>, sizes: &[&str], pictures: Pictures) -> Sheet {
    let unit = sizes.first().and_then(|size| unit(view, size));
    let title = |size: &str| view.model.size(size).map_or(size, |one| one.entry.title()).to_string();
    let name = match sizes {
        [size] if view.sizes().len() > 1 => say!(OF_SIZE, size = title(size)),
        _ => sheet::MEASUREMENTS.into(),
    };
    let heads = match sizes {
        [one] => vec![(*one).to_string()],
        all => all.iter().map(|size| title(size)).collect(),
    };
    let points = view.model.measures.iter().enumerate();
    let blanks = if sizes.len() > 1 { BLANKS[1] } else { BLANKS[0] };
    Sheet::Measurements(Measurements {
        head: Head { title: sheet::MEASUREMENTS_TITLE.into(), name, lead: sheet::MEASURE_INWARD.into() },
        pictures: arrows(view, pictures),
        above: matches!(pictures, Pictures::Above(_)),
        sizes: heads,
        unit: unit.map_or_else(String::new, str::to_string),
        rows: points.map(|(n, (key, point))| row(view, n, (key, point), sizes, unit.is_some())).collect(),
        blanks: (1..=blanks).map(|n| n.to_string()).collect(),
        conditions: sizes.first().map_or_else(Vec::new, |size| conditions(view, size)),
    })
}

/// The number of a point: its id where that is short enough for a ring, else its place in the list.
fn label(view: &View<'_>, at: usize, id: &str) -> String {
    let short = view.model.measures.keys().all(|id| id.chars().count() <= 3);
    if short { id.to_string() } else { (at + 1).to_string() }
}

/// The views that carry arrows, most arrows first.
fn arrows(view: &View<'_>, pictures: Pictures) -> Vec<Drawing> {
    let mut views: Vec<(usize, &str)> = view
        .model
        .views
        .keys()
        .map(|id| (pointed(view, id).count(), id.as_str()))
        .filter(|(count, _)| *count > 0)
        .collect();
    views.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(b.1)));
    views.truncate(PICTURES);
    let room = match pictures {
        Pictures::Above(room) => room,
        Pictures::Beside => Room { height: ROOM_MEASURE.height / views.len().max(1) as f64, ..ROOM_MEASURE },
    };
    let mut all = Vec::new();
    for (_, id) in views {
        let Some(side) = view.model.views.get(id) else { continue };
        let Some(mut drawn) = drawing(view, side, room, None) else { continue };
        let (mut named, mut points) = (Vec::new(), Vec::new());
        for (at, key, point) in pointed(view, id) {
            let Some(ends) = &point.arrow else { continue };
            let number = label(view, at, key);
            named.push(format!("{number} {}", point.entry.title()));
            points.push(Measured { ends: ends.value.map(|end| spot(&drawn.scene, end)), number });
        }
        measured(&mut drawn.scene, &points);
        drawn.scene.alt = say!(SHOWN, picture = drawn.scene.alt, points = Phrase::row(named, "; "));
        all.push(drawn);
    }
    all
}

/// Points whose arrow lies on a view, with their place in the list.
fn pointed<'v>(view: &'v View<'_>, id: &str) -> impl Iterator<Item = (usize, &'v str, &'v PointOfMeasure)> {
    let points: Vec<(usize, &str, &PointOfMeasure)> = view
        .model
        .measures
        .iter()
        .enumerate()
        .filter(|(_, (_, point))| point.arrow.is_some() && point.view.as_ref().is_some_and(|one| one.value == id))
        .map(|(at, (key, point))| (at, key.as_str(), point))
        .collect();
    points.into_iter()
}

fn row(view: &View<'_>, at: usize, (id, point): (&str, &PointOfMeasure), sizes: &[&str], alike: bool) -> Point {
    let reference = point.reference.as_ref().is_some_and(|flag| flag.value);
    let reference = if reference { FOR_REFERENCE.into() } else { Phrase::none() };
    let difference = point.difference.as_ref().and_then(|one| one.known());
    let difference = difference.map_or_else(Phrase::none, |one| say!(DIFFERENCE, difference = number::quantity(one)));
    let step = sizes
        .first()
        .and_then(|size| step(view, point, size))
        .filter(|step| sizes.first().and_then(|size| common(view, size)).is_none_or(|(one, _)| one != *step))
        .map_or_else(Phrase::none, |step| say!(TO_STEP, step));
    let alone = states(view).len() > 1;
    let state = if alone { state(view.text(point.state.as_ref())) } else { Phrase::none() };
    let method = view.text(point.method.as_ref()).into();
    let how = [method, state, step, difference, reference];
    let number = label(view, at, id);
    let name = if number == id { point.entry.title().to_string() } else { format!("{} ({id})", point.entry.title()) };
    Point {
        number,
        name: view.marked(&["point-of-measure"], id, &name),
        how: Phrase::row(how, " · "),
        critical: point.critical.as_ref().is_some_and(|flag| flag.value),
        pair: point.difference.is_some(),
        limits: sizes
            .iter()
            .map(|size| figures(view, id, size).map_or_else(Mass::default, |line| limits(line, alike)))
            .collect(),
    }
}

/// The figures of a point in a size; those of the first colourway where it differs by colourway.
fn figures<'a>(view: &View<'a>, id: &str, size: &str) -> Option<&'a MeasureSize> {
    let sizes = &view.figures.measures.get(id)?.sizes;
    let first = || sizes.iter().find(|(key, _)| key.starts_with(&format!("{size}/"))).map(|(_, one)| one);
    sizes.get(size).or_else(first)
}

/// The unit that all points share, for the head.
fn unit<'a>(view: &View<'a>, size: &str) -> Option<&'a str> {
    let lines = view.model.measures.keys().filter_map(|id| figures(view, id, size));
    let units: BTreeSet<&str> = lines.filter_map(|line| line.unit.known().map(String::as_str)).collect();
    units.first().copied().filter(|_| units.len() == 1)
}

/// Target and limits at the step; the unit at the target where the head has none.
fn limits(line: &MeasureSize, alike: bool) -> Mass {
    let unit = line.unit.known().filter(|_| !alike).map_or("", String::as_str);
    let limits = line.lower.known().zip(line.upper.known());
    Mass {
        target: Cell::figure(&line.target, |target| Cell::fixed(*target, line.places, unit)),
        limits: limits.map_or(Cell::Empty, |(lower, upper)| Cell::Limits {
            lower: *lower,
            upper: *upper,
            unit: String::new(),
            places: line.places,
        }),
    }
}

/// The step that a point is read to in a size; that of the first colourway where it differs by colourway.
fn step(view: &View<'_>, point: &PointOfMeasure, size: &str) -> Option<String> {
    let colourway = view.model.ways().into_iter().find(|way| view.model.is_made(size, way))?;
    point.read_to.as_ref()?.known(Variant { size, colourway }).map(number::quantity)
}

/// The step that most points are read to in a size, and whether all are.
fn common(view: &View<'_>, size: &str) -> Option<(String, bool)> {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    view.model
        .measures
        .values()
        .filter_map(|point| step(view, point, size))
        .for_each(|step| *counts.entry(step).or_default() += 1);
    let all = counts.len() == 1;
    counts.into_iter().max_by_key(|(_, count)| *count).map(|(step, _)| (step, all))
}

/// The states that points are measured in.
fn states(view: &View<'_>) -> BTreeSet<String> {
    once(view.model.measures.values().map(|point| view.text(point.state.as_ref()).to_string()))
}

/// States and steps that the points share, said once; else each point says its own.
fn conditions(view: &View<'_>, size: &str) -> Vec<Phrase> {
    let points = || view.model.measures.values();
    let states = states(view);
    let measured = match states.first() {
        Some(one) if states.len() == 1 => Some(say!(MEASURED, state = state(one))),
        one => one.map(|_| IN_STATES.into()),
    };
    let reference = points().any(|point| point.reference.as_ref().is_some_and(|flag| flag.value));
    let all = [
        measured,
        common(view, size).map(|(step, all)| say!(if all { READ_TO } else { READ_MOSTLY }, step)),
        reference.then(|| REFERENCE_NOTE.into()),
    ];
    all.into_iter().flatten().collect()
}

/// A state as the trade says it; the user's own word stays as it is.
fn state(text: &str) -> Phrase {
    among(&[head::STATE_SEWN, head::STATE_STUFFED], text)
}

/// Texts that say something, each once, in order.
fn once(texts: impl Iterator<Item = String>) -> BTreeSet<String> {
    texts.filter(|text| !text.is_empty()).collect()
}

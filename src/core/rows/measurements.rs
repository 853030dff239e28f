//! The measurements: one sheet a size, with the picture and its numbered arrows, limits, and blank columns.

use crate::compute::MeasureSize;
use crate::model::PointOfMeasure;
use crate::words::{number, sheet as words};

use super::data::{Mass, Measurements, Point, Sheet};
use super::package::{Drawing, Head, ROOM_MEASURE, Room};
use super::view::{View, capital};
use super::views::{drawing, measure_arrow};
use super::written::NOT_YET;

/// Columns for readings (common practice: three to five pieces a size are measured on the line).
const BLANKS: usize = 5;
/// Views shown at most beside the table.
const PICTURES: usize = 4;

/// One sheet for each size, or none without points of measure.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    if view.model.measures.is_empty() {
        return Vec::new();
    }
    let several = view.model.sizes.len() > 1;
    let sizes: Vec<(String, String)> =
        view.model.sizes.iter().map(|size| (size.entry.id.value.clone(), size.entry.title().to_string())).collect();
    sizes
        .iter()
        .map(|(id, title)| {
            let name = if several {
                format!("{}, size {title}", words::MEASUREMENTS.en)
            } else {
                words::MEASUREMENTS.en.into()
            };
            Sheet::Measurements(Measurements {
                head: Head {
                    title: words::MEASUREMENTS_TITLE.en.into(),
                    name: name.into(),
                    lead: words::MEASURE_INWARD.en.into(),
                },
                pictures: arrows(view),
                sizes: vec![id.clone()],
                unit: "mm".into(),
                rows: view
                    .model
                    .measures
                    .iter()
                    .enumerate()
                    .map(|(n, (key, point))| row(view, n, key, point, id))
                    .collect(),
                blanks: (1..=BLANKS).map(|n| n.to_string()).collect(),
                conditions: conditions(view),
            })
        })
        .collect()
}

/// The number of a point: its id where that is short enough for a ring, else its place in the list.
fn label(view: &View<'_>, at: usize, id: &str) -> String {
    let short = view.model.measures.keys().all(|id| id.chars().count() <= 3);
    if short { id.to_string() } else { (at + 1).to_string() }
}

/// The views that carry arrows, most arrows first.
fn arrows(view: &View<'_>) -> Vec<Drawing> {
    let mut views: Vec<(usize, &str)> = view
        .model
        .views
        .keys()
        .map(|id| (pointed(view, id).count(), id.as_str()))
        .filter(|(count, _)| *count > 0)
        .collect();
    views.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(b.1)));
    views.truncate(PICTURES);
    let height = ROOM_MEASURE.height / views.len().max(1) as f64;
    let room = Room { width: ROOM_MEASURE.width, height };
    let mut all = Vec::new();
    for (_, id) in views {
        let Some(side) = view.model.views.get(id) else { continue };
        let Some(mut drawn) = drawing(view, side, room, None) else { continue };
        let mut named = Vec::new();
        for (at, key, point) in pointed(view, id) {
            if let Some(ends) = &point.arrow {
                let number = label(view, at, key);
                measure_arrow(&mut drawn.scene, ends.value, &number);
                named.push(format!("{number} {}", point.entry.title()));
            }
        }
        drawn.scene.alt = format!("{} Points of measure: {}.", drawn.scene.alt, named.join("; ")).into();
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

fn row(view: &View<'_>, at: usize, id: &str, point: &PointOfMeasure, size: &str) -> Point {
    let state = view.text(point.state.as_ref());
    let method = view.text(point.method.as_ref());
    let reference = if point.reference.as_ref().is_some_and(|flag| flag.value) { "for reference" } else { "" };
    let how: Vec<&str> = [method, state, reference].into_iter().filter(|text| !text.is_empty()).collect();
    let number = label(view, at, id);
    let name = if number == id { point.entry.title().to_string() } else { format!("{} ({id})", point.entry.title()) };
    let line = view.figures.measures.get(id).and_then(|line| {
        line.sizes
            .get(size)
            .or_else(|| line.sizes.iter().find(|(key, _)| key.starts_with(&format!("{size}/"))).map(|(_, one)| one))
    });
    Point {
        number,
        name: view.marked(&["point-of-measure"], id, &name).english(),
        how: how.join(" · "),
        critical: point.critical.as_ref().is_some_and(|flag| flag.value),
        limits: vec![line.map_or_else(Mass::default, limits)],
    }
}

/// Target and limits at the step; with their unit where it is not the one in the head.
fn limits(line: &MeasureSize) -> Mass {
    let unit = line.unit.known().map_or("", String::as_str);
    let after = if unit == "mm" || unit.is_empty() { String::new() } else { format!("{}{unit}", number::SPACE) };
    let write = |value: f64| number::number(value, line.places);
    let target = line.target.get().map_or_else(|| NOT_YET.to_string(), |value| format!("{}{after}", write(value)));
    let limits = match (line.lower.get(), line.upper.get()) {
        (Some(lower), Some(upper)) => format!("{}–{}{after}", write(lower), write(upper)),
        _ => String::new(),
    };
    Mass { target, limits }
}

/// States and steps that the points share, said once.
fn conditions(view: &View<'_>) -> Vec<String> {
    let mut all = Vec::new();
    let mut states: Vec<&str> = view.model.measures.values().map(|point| view.text(point.state.as_ref())).collect();
    states.sort_unstable();
    states.dedup();
    states.retain(|state| !state.is_empty());
    if !states.is_empty() {
        all.push(format!("{}.", capital(&format!("measured {}", states.join(" or ")))));
    }
    let mut steps: Vec<String> = view
        .model
        .measures
        .values()
        .filter_map(|point| point.read_to.as_ref()?.known().map(|step| step.written()))
        .collect();
    steps.sort();
    steps.dedup();
    if !steps.is_empty() {
        all.push(format!("Read to {}.", steps.join(" or ")));
    }
    if view.model.measures.values().any(|point| point.reference.as_ref().is_some_and(|flag| flag.value)) {
        all.push("Points marked for reference never reject a product.".into());
    }
    all
}

//! Readings of one point of measure on all pieces, against its limits, in a row of a table.

use super::{At, Fill, Line, Scene, circle, closed};
use crate::words::Phrase;

/// What is drawn of one piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChartReading {
    /// The reading in the unit of the chart; `None` where it was not read.
    pub value: Option<f64>,
    /// Whether it is outside: a full mark; an open one inside.
    pub out: bool,
}

/// Readings of one point. Numbers are all in one unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Target.
    pub target: Option<f64>,
    /// Lower limit.
    pub lower: Option<f64>,
    /// Upper limit.
    pub upper: Option<f64>,
    /// In the order of the pieces, from the top.
    pub readings: Vec<ChartReading>,
    /// What it shows, for those who cannot see it.
    pub alt: Phrase,
}

/// Width and height of the drawing, mm.
const SIZE: [f64; 2] = [40.0, 4.4];
/// Radius of a mark, mm.
const MARK: f64 = 0.65;
/// Share of the range kept free at either end.
const MARGIN: f64 = 0.12;

/// Draws the readings as marks over the band between the limits, the target dashed. Each piece has a height of its own, so
/// that equal readings are seen beside one another; a piece that was not read has no mark.
#[must_use]
pub fn readings(chart: &Chart) -> Scene {
    let [width, height] = SIZE;
    let mut scene = Scene::new(width, height, chart.alt.clone());
    let span = range(chart);
    let x = |value: f64| (value - span.0) / (span.1 - span.0) * width;
    band(&mut scene, chart, &x);
    let apart = (height - 2.0 * MARK) / chart.readings.len().max(2) as f64;
    for (row, one) in chart.readings.iter().enumerate() {
        if let Some(value) = one.value {
            mark(&mut scene, [x(value), MARK + (row as f64 + 0.5) * apart], one.out);
        }
    }
    scene
}

/// An open ring inside, a full square outside: told apart without colour.
fn mark(scene: &mut Scene, [x, y]: At, out: bool) {
    if out {
        let corners = [[x - MARK, y - MARK], [x + MARK, y - MARK], [x + MARK, y + MARK], [x - MARK, y + MARK]];
        scene.path(None, Fill::Ink, closed(&corners));
    } else {
        scene.path(Some(Line::Outline), Fill::Paper, circle([x, y], MARK));
    }
}

/// The band between the limits with their lines, and the target.
fn band(scene: &mut Scene, chart: &Chart, x: &dyn Fn(f64) -> f64) {
    let [width, height] = SIZE;
    let (left, right) = (chart.lower.map_or(0.0, x), chart.upper.map_or(width, x));
    if chart.lower.is_some() || chart.upper.is_some() {
        scene.rect(None, Fill::Tint, [left, 0.6], right - left, height - 1.2);
    }
    for at in [chart.lower.map(|_| left), chart.upper.map(|_| right)].into_iter().flatten() {
        scene.line(Line::Outline, [at, 0.0], [at, height]);
    }
    if let Some(target) = chart.target {
        scene.line(Line::Sew, [x(target), 0.0], [x(target), height]);
    }
}

/// Least and greatest value that is drawn, with a margin; never without width.
fn range(chart: &Chart) -> (f64, f64) {
    let values = chart.readings.iter().filter_map(|one| one.value);
    let all = chart.lower.into_iter().chain(chart.upper).chain(chart.target).chain(values);
    let all: Vec<f64> = all.filter(|value| value.is_finite()).collect();
    let least = all.iter().copied().fold(f64::INFINITY, f64::min);
    let greatest = all.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if least > greatest {
        return (0.0, 1.0);
    }
    let room = ((greatest - least) * MARGIN).max(1e-6);
    (least - room, greatest + room)
}

//! Readings of one point of measure on all pieces, against its limits.

use super::{Across, Along, At, Fill, Label, Line, Scene, circle, closed};
use crate::words::Phrase;

/// What is drawn of one piece.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartReading {
    /// What stands beside its row: the number of the piece, with its side.
    pub label: String,
    /// The reading in the unit of the chart; `None` where it was not read.
    pub value: Option<f64>,
    /// The reading as it is printed behind its mark.
    pub text: String,
    /// Whether it is outside: a full mark; an open one inside.
    pub out: bool,
}

/// Readings of one point. Numbers are all in one unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Target.
    pub target: Option<f64>,
    /// Lower limit with its text.
    pub lower: Option<(f64, String)>,
    /// Upper limit with its text.
    pub upper: Option<(f64, String)>,
    /// A row each, from the top.
    pub readings: Vec<ChartReading>,
    /// What it shows, for those who cannot see it.
    pub alt: Phrase,
}

/// Height of one row, mm.
const ROW: f64 = 4.5;
/// Height of the limits above the rows, mm.
const HEAD: f64 = 5.0;
/// Room for labels at the left and for texts at the right, mm.
const LEFT: f64 = 12.0;
const RIGHT: f64 = 18.0;
/// Radius of a mark, mm.
const MARK: f64 = 0.9;
/// Share of the range kept free at either end.
const MARGIN: f64 = 0.08;
/// Narrowest drawing, mm.
const NARROWEST: f64 = 60.0;

/// Draws the readings as marks in rows over the band between the limits, the target dashed, at least 60 mm wide. Rows of
/// pieces that were not read stay empty but for a dash.
#[must_use]
pub fn readings(chart: &Chart, width: f64) -> Scene {
    let width = width.max(NARROWEST);
    let rows = chart.readings.len().max(1) as f64;
    let mut scene = Scene::new(width, HEAD + rows * ROW + 1.0, chart.alt.clone());
    let span = range(chart);
    let x = |value: f64| LEFT + (value - span.0) / (span.1 - span.0) * (width - LEFT - RIGHT);
    let foot = HEAD + rows * ROW;
    band(&mut scene, chart, &x, (width, foot));
    for (row, one) in chart.readings.iter().enumerate() {
        let y = HEAD + (row as f64 + 0.5) * ROW;
        scene.label(Label::new(one.label.clone(), [LEFT - 2.0, y]).anchor(Along::End, Across::Middle).bare());
        scene.line(Line::Hatch, [LEFT, y], [width - RIGHT, y]);
        if let Some(value) = one.value {
            mark(&mut scene, [x(value), y], one.out);
        }
        let text = if one.value.is_some() { one.text.clone() } else { "–".to_string() };
        let label = Label::new(text, [width - RIGHT + 1.5, y]).anchor(Along::Start, Across::Middle).bare();
        scene.label(if one.out { label.strong() } else { label });
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

/// Limits with their texts, and the target.
fn band(scene: &mut Scene, chart: &Chart, x: &dyn Fn(f64) -> f64, (width, foot): (f64, f64)) {
    let left = chart.lower.as_ref().map_or(LEFT, |(lower, _)| x(*lower));
    let right = chart.upper.as_ref().map_or(width - RIGHT, |(upper, _)| x(*upper));
    if chart.lower.is_some() || chart.upper.is_some() {
        scene.rect(None, Fill::Tint, [left, HEAD], right - left, foot - HEAD);
    }
    for (limit, at, along) in [(&chart.lower, left, Along::End), (&chart.upper, right, Along::Start)] {
        let Some((_, text)) = limit else { continue };
        scene.line(Line::Outline, [at, HEAD - 1.0], [at, foot]);
        let beside = if along == Along::End { at - 0.8 } else { at + 0.8 };
        scene.label(Label::new(text.clone(), [beside, HEAD - 2.0]).anchor(along, Across::Middle).bare());
    }
    if let Some(target) = chart.target {
        scene.line(Line::Sew, [x(target), HEAD - 1.0], [x(target), foot]);
    }
}

/// Least and greatest value that is drawn, with a margin; never without width.
fn range(chart: &Chart) -> (f64, f64) {
    let limits = chart.lower.iter().chain(&chart.upper).map(|(value, _)| *value);
    let values = chart.readings.iter().filter_map(|one| one.value);
    let all: Vec<f64> = limits.chain(values).chain(chart.target).filter(|value| value.is_finite()).collect();
    let least = all.iter().copied().fold(f64::INFINITY, f64::min);
    let greatest = all.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if least > greatest {
        return (0.0, 1.0);
    }
    let room = ((greatest - least) * MARGIN).max(1e-6);
    (least - room, greatest + room)
}

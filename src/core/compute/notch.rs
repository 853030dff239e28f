//! Where notches come to stand on the cut line.

use crate::geom::{Outline, Path, Point, flatten};
use crate::model::{Notch, NotchPlace, NotchStyle, Piece, Variant};
use crate::source::Span;
use crate::units::Dimension;
use crate::words::{Phrase, say, words};

use super::Figure;
use super::contour::Shape;
use super::number::small;
use super::reason::NOTCH_DEPTH;

words! {
    OUTSIDE "notch.outside" = "a notch {asked} mm along {edge} lies outside it: it is {length} mm long";
    ON_DART "notch.on-dart" = "the notch on {edge} lies inside the cut line: the dart is marked, not cut";
    AT_DART "notch.at-dart" = "the notch at {point} lies inside the cut line: the dart is marked, not cut";
}

/// How deep a notch is cut where nothing is said, mm (*common practice*).
pub const DEPTH: f64 = 3.0;
/// A point at which the sew line turns by more is a corner: its notches stand where the edges, run on, meet the cut
/// line. Degrees.
pub const CORNER: f64 = 20.0;
/// A cut line is followed this closely, mm.
const FINE: f64 = 0.002;
/// A place on the sew line is also on the cut line within this, mm.
const SAME: f64 = 0.005;

/// One notch on the cut line. A corner has two: one for each of its edges.
#[derive(Debug, Clone, PartialEq)]
pub struct NotchMark {
    /// Index among the written notches.
    pub index: usize,
    /// The run of the sew line it stands on, and the distance from its anticlockwise start, mm.
    pub at: (usize, f64),
    /// Its place on the sew line.
    pub sew: Point,
    /// Its place on the cut line.
    pub cut: Point,
    /// Where the notch itself ends: inside the cut line for a slit, outside for an outward one, `cut` for none.
    pub tip: Point,
    /// From the sew line to the cut line, of length 1.
    pub outward: Point,
    /// How it is cut.
    pub style: NotchStyle,
    /// How deep it is cut, mm; 0 for none.
    pub depth: f64,
    /// Whether it stands at a corner, on an edge run on.
    pub corner: bool,
}

/// A notch that cannot be placed, for the rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Astray {
    /// The piece.
    pub piece: String,
    /// The size.
    pub size: String,
    /// Why not.
    pub message: Phrase,
    /// Where it is written; the piece, if it is drawn.
    pub span: Span,
    /// Its name in the drawing, if it is drawn.
    pub drawn: Option<String>,
}

/// The sew line notches are measured on, the cut line they are cut in.
pub(super) struct Edge<'a> {
    /// With every named point.
    pub sew: &'a Outline,
    /// With the mouths of marked darts bridged; the same line where there are none.
    pub bridged: &'a Outline,
    /// The sewn layer.
    pub cut: &'a Shape,
}

/// The marks of every notch of a piece in a size.
pub(super) fn marks(
    piece: &Piece,
    edge: &Edge<'_>,
    variant: Variant<'_>,
    astray: &mut Vec<Astray>,
) -> Figure<Vec<NotchMark>> {
    let style = piece.notches.style.as_ref().map(|style| style.value).unwrap_or_default();
    let depth = match (&piece.notches.depth, style) {
        (_, NotchStyle::None) => Figure::Known(0.0),
        (None, _) => Figure::Known(DEPTH),
        (depth, _) => Figure::of(depth.as_ref(), variant, NOTCH_DEPTH).map(|depth| small(&depth)),
    };
    depth.map(|depth| {
        let written = piece.notches.list.iter().map(|notch| (places(edge, notch), notch.span, None));
        let drawn = edge
            .sew
            .notches
            .iter()
            .map(|notch| (drawn(edge, &notch.id, notch.at), piece.entry.span(), Some(notch.id.clone())));
        let mut all = Vec::new();
        for (index, (places, span, drawn)) in written.chain(drawn).enumerate() {
            match places {
                Ok(places) => all.extend(places.into_iter().map(|place| place.mark(index, style, depth))),
                Err(Some(message)) => {
                    let (piece, size) = (piece.entry.id.value.clone(), variant.size.to_string());
                    astray.push(Astray { piece, size, message, span, drawn });
                }
                // A point or edge that is not there is told where edges are looked up.
                Err(None) => {}
            }
        }
        all
    })
}

/// A notch drawn at a place of the outline; at a named point, the notch of that point.
fn drawn(edge: &Edge<'_>, id: &str, at: Point) -> Result<Vec<Placed>, Option<Phrase>> {
    if let Some(point) = edge.sew.point_near(at) {
        return at_point(edge, &point.id);
    }
    let (run, along) = edge.sew.run_at(at);
    along_run(edge, run, along, id).map(|one| vec![one])
}

struct Placed {
    at: (usize, f64),
    sew: Point,
    outward: Point,
    reach: f64,
    corner: bool,
}

impl Placed {
    fn mark(self, index: usize, style: NotchStyle, depth: f64) -> NotchMark {
        let Placed { at, sew, outward, reach, corner } = self;
        let cut = sew + outward * reach;
        let tip = match style {
            NotchStyle::Outward => cut + outward * depth,
            NotchStyle::Slit => cut - outward * depth,
            NotchStyle::None => cut,
        };
        NotchMark { index, at, sew, cut, tip, outward, style, depth, corner }
    }
}

fn places(edge: &Edge<'_>, notch: &Notch) -> Result<Vec<Placed>, Option<Phrase>> {
    match &notch.place {
        NotchPlace::Point(point) => at_point(edge, point.on(edge.sew).ok_or(None)?),
        NotchPlace::Along { edge: along, at } => {
            let runs = along.along(edge.sew).map_err(|_| None)?;
            let (run, name) = (runs.first().ok_or(None)?, along.text());
            let whole = edge.sew.length_of(run.index);
            let asked = match at.dimension() {
                Dimension::Percent => at.si_f64() * whole,
                _ => small(at),
            };
            if !(0.0..=whole).contains(&asked) {
                return Err(Some(say!(
                    OUTSIDE,
                    asked = format!("{asked:.1}"),
                    edge = name,
                    length = format!("{whole:.1}")
                )));
            }
            let along = if run.forward { asked } else { whole - asked };
            along_run(edge, run.index, along, &name).map(|one| vec![one])
        }
    }
}

/// On the normal of the sew line.
fn along_run(edge: &Edge<'_>, run: usize, along: f64, name: &str) -> Result<Placed, Option<Phrase>> {
    let (sew, outward) = edge.sew.along_run(run, along).ok_or(None)?;
    let reach = reach(edge.cut, sew, outward).filter(|_| on_line(edge.bridged, sew));
    let reach = reach.ok_or_else(|| Some(say!(ON_DART, edge = name)))?;
    Ok(Placed { at: (run, along), sew, outward, reach, corner: false })
}

/// At a corner on both edges run on, elsewhere on the normal.
fn at_point(edge: &Edge<'_>, id: &str) -> Result<Vec<Placed>, Option<Phrase>> {
    let inside = || Some(say!(AT_DART, point = id));
    let line = edge.bridged;
    let sew = line.point(id).ok_or_else(inside)?;
    let index = edge.sew.points.iter().position(|point| point.id == id).ok_or(None)?;
    let turn = line.turn_at(id).ok_or(None)?;
    let here = line.points.iter().position(|point| point.id == id).ok_or(None)?;
    let runs = line.runs();
    let after = runs.get(here).and_then(|run| run.segments.first()?.start_direction(run.start)).ok_or(None)?;
    let before = runs.get((here + runs.len() - 1) % runs.len().max(1));
    let before =
        before.and_then(|run| run.path().pieces().last().and_then(|(start, segment)| segment.end_direction(start)));
    let before = before.ok_or(None)?;
    let normal = (before.right() + after.right()).unit().ok_or(None)?;
    let ways = if turn.abs() > CORNER { vec![before, -after] } else { vec![normal] };
    let placed = |outward: Point| {
        let reach = reach(edge.cut, sew, outward).ok_or_else(inside)?;
        Ok(Placed { at: (index, 0.0), sew, outward, reach, corner: turn.abs() > CORNER })
    };
    // At a corner that points inward an edge run on lies in the piece: there the notch stands on the normal.
    let ways = if turn < -CORNER { vec![normal] } else { ways };
    ways.into_iter().map(placed).collect()
}

/// How far a ray runs to the first cut line it meets.
fn reach(cut: &Shape, from: Point, way: Point) -> Option<f64> {
    let hits = cut.paths.iter().filter_map(|path| first_hit(path, from, way));
    hits.min_by(f64::total_cmp)
}

/// How far along a ray a path is met first; a path that passes the start itself counts.
pub(super) fn first_hit(path: &Path, from: Point, way: Point) -> Option<f64> {
    let points = flatten(path, FINE);
    let edges = points.iter().zip(points.iter().cycle().skip(1));
    let hit = |(a, b): (&Point, &Point)| {
        let (a, b) = (*a, *b);
        if from.distance_to_edge(a, b) <= SAME {
            return Some(0.0);
        }
        let side = b - a;
        let cross = way.cross(side);
        let t = (a - from).cross(side) / cross;
        let s = (a - from).cross(way) / cross;
        (cross != 0.0 && t >= 0.0 && (0.0..=1.0).contains(&s)).then_some(t)
    };
    edges.filter_map(hit).min_by(f64::total_cmp)
}

fn on_line(outline: &Outline, point: Point) -> bool {
    let points = flatten(&outline.path, FINE);
    points.iter().zip(points.iter().cycle().skip(1)).any(|(a, b)| point.distance_to_edge(*a, *b) <= 2.0 * SAME)
}

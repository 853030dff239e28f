//! The drawing of a finished edge: the ply cut through as it is turned, bound or overcast, the needle going down.

use crate::words::Phrase;

use super::seam::{EDGE, FACE, LEFT, NEEDLE, PILE, PLY, WIDTH, needle, number, pile_strokes, stitch_at};
use super::{Across, Along, Fill, Label, Line, Scene, Segment};

/// What is done to an edge.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Turned {
    /// Turned under once.
    #[default]
    Once,
    /// Turned under twice, the raw edge inside.
    Twice,
    /// A tape wrapped round it.
    Bound,
    /// Overcast with stitches.
    Overcast,
}

/// A finished edge, every text final. Not to scale.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct FinishedEdge {
    /// What is done to it.
    pub turned: Turned,
    /// Whether the right side, which lies up, bears pile.
    pub pile: bool,
    /// The stitch written at the needle, `"301"`.
    pub stitch: String,
    /// The description of the drawing.
    pub alt: Phrase,
}

/// Air between the leaves of a turned ply, mm of paper.
const AIR: f64 = 0.7;
/// Where a turned leaf ends, mm from the left.
const BACK: f64 = NEEDLE - 5.0;
/// Where the first ply begins from the top, mm.
const TOP: f64 = 5.0;

/// Draws a finished edge.
#[must_use]
pub fn edge(finished: &FinishedEdge) -> Scene {
    let mut scene = Scene::new(WIDTH, 0.0, finished.alt.clone());
    let wraps = finished.turned == Turned::Bound;
    let top = TOP + if finished.pile { PILE } else { 0.0 } + if wraps { PLY + AIR } else { 0.0 };
    if finished.pile {
        let right = if wraps { BACK } else { EDGE };
        pile_strokes(&mut scene, top - PILE, [LEFT, right]);
    }
    number(&mut scene, "1", top + PLY / 2.0);
    let bottom = match finished.turned {
        Turned::Once => once(&mut scene, top),
        Turned::Twice => twice(&mut scene, top),
        Turned::Bound => bound(&mut scene, top),
        Turned::Overcast => overcast(&mut scene, top),
    };
    if !finished.pile {
        let right = if wraps { BACK } else { EDGE };
        scene.line(Line::Notch, [LEFT, top + FACE], [right, top + FACE]);
    }
    if finished.turned == Turned::Overcast {
        stitch_at(&mut scene, &finished.stitch, EDGE);
    } else {
        needle(&mut scene, bottom);
        stitch_at(&mut scene, &finished.stitch, NEEDLE);
    }
    scene.height = bottom + 4.0;
    scene
}

/// A ply turned under once.
fn once(scene: &mut Scene, top: f64) -> f64 {
    let bottom = top + 2.0 * PLY + AIR;
    let mut path = vec![Segment::Move([LEFT, top]), Segment::Line([EDGE, top])];
    path.extend(half(EDGE, top, bottom, 1.0));
    path.extend([[BACK, bottom], [BACK, bottom - PLY], [EDGE, bottom - PLY]].map(Segment::Line));
    path.extend(half(EDGE, bottom - PLY, top + PLY, 1.0));
    path.extend([Segment::Line([LEFT, top + PLY]), Segment::Close]);
    scene.path(Some(Line::Outline), Fill::Paper, path);
    bottom
}

/// A ply turned under twice: the raw edge lies between the two leaves.
fn twice(scene: &mut Scene, top: f64) -> f64 {
    let (middle, bottom) = (top + PLY + AIR, top + 3.0 * PLY + 2.0 * AIR);
    let raw = EDGE - 1.0;
    let mut path = vec![Segment::Move([LEFT, top]), Segment::Line([EDGE, top])];
    path.extend(half(EDGE, top, bottom, 1.0));
    path.push(Segment::Line([BACK, bottom]));
    path.extend(half(BACK, bottom, middle, -1.0));
    path.extend([[raw, middle], [raw, middle + PLY], [BACK, middle + PLY]].map(Segment::Line));
    path.extend(half(BACK, middle + PLY, bottom - PLY, -1.0));
    path.push(Segment::Line([EDGE, bottom - PLY]));
    path.extend(half(EDGE, bottom - PLY, top + PLY, 1.0));
    path.extend([Segment::Line([LEFT, top + PLY]), Segment::Close]);
    scene.path(Some(Line::Outline), Fill::Paper, path);
    bottom
}

/// A ply with a tape round its edge.
fn bound(scene: &mut Scene, top: f64) -> f64 {
    scene.rect(Some(Line::Outline), Fill::Paper, [LEFT, top], EDGE - 1.0 - LEFT, PLY);
    let (high, low) = (top - PLY - AIR, top + 2.0 * PLY + AIR);
    let mut path = vec![Segment::Move([BACK, high]), Segment::Line([EDGE, high])];
    path.extend(half(EDGE, high, low, 1.0));
    path.extend([[BACK, low], [BACK, low - PLY], [EDGE, low - PLY]].map(Segment::Line));
    path.extend(half(EDGE, low - PLY, high + PLY, 1.0));
    path.extend([Segment::Line([BACK, high + PLY]), Segment::Close]);
    scene.path(Some(Line::Outline), Fill::Tint, path);
    let at = [BACK - 1.4, high + PLY / 2.0];
    scene.label(Label::new("2", at).anchor(Along::End, Across::Middle).strong().bare());
    low
}

/// A ply with stitches round its raw edge.
fn overcast(scene: &mut Scene, top: f64) -> f64 {
    scene.rect(Some(Line::Outline), Fill::Paper, [LEFT, top], EDGE - LEFT, PLY);
    let (high, low) = (top - 0.8, top + PLY + 0.8);
    let mut path = vec![Segment::Move([NEEDLE + 4.0, high])];
    path.push(Segment::Line([EDGE, high]));
    path.extend(half(EDGE, high, low, 1.0));
    path.push(Segment::Line([NEEDLE + 4.0, low]));
    scene.stroke(Line::Needle, path);
    scene.line(Line::Needle, [NEEDLE + 4.0, high], [NEEDLE + 4.0, low]);
    low
}

/// Half a circle from one height to another at x, bulging right (1) or left (−1), as two Bézier quarters.
fn half(x: f64, from: f64, to: f64, side: f64) -> [Segment; 2] {
    const HANDLE: f64 = 0.552_284_749_830_793_4;
    let (r, middle) = ((to - from) / 2.0, f64::midpoint(from, to));
    let out = x + side * r.abs();
    let (h, hx) = (r * HANDLE, side * r.abs() * HANDLE);
    [
        Segment::Cubic([x + hx, from], [out, middle - h], [out, middle]),
        Segment::Cubic([out, middle + h], [x + hx, to], [x, to]),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The bulge of a half circle is its radius, to either side, up or down.
    #[test]
    fn halves_are_round() {
        let ends = |x, from, to, side| {
            half(x, from, to, side).map(|segment| match segment {
                Segment::Cubic(_, _, end) => end,
                _ => [f64::NAN; 2],
            })
        };
        assert_eq!(ends(42.0, 1.0, 5.0, 1.0), [[44.0, 3.0], [42.0, 5.0]]);
        assert_eq!(ends(42.0, 5.0, 1.0, -1.0), [[40.0, 3.0], [42.0, 1.0]]);
    }

    #[test]
    fn every_finish_lies_inside_its_drawing() {
        for turned in [Turned::Once, Turned::Twice, Turned::Bound, Turned::Overcast] {
            for pile in [false, true] {
                let scene = edge(&FinishedEdge { turned, pile, stitch: "301".into(), ..FinishedEdge::default() });
                for item in &scene.items {
                    let super::super::Item::Path(path) = item else { continue };
                    for segment in &path.segments {
                        let at = match segment {
                            Segment::Move(at) | Segment::Line(at) | Segment::Cubic(_, _, at) => *at,
                            Segment::Close => continue,
                        };
                        assert!(
                            (0.0..=scene.width).contains(&at[0]) && (0.0..=scene.height).contains(&at[1]),
                            "{turned:?}"
                        );
                    }
                }
            }
        }
    }
}

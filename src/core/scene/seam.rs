//! The drawing of a seam: its stack cut through, ply by ply in needle order, the needle going down.

use crate::words::Phrase;

use super::marks::{dimension, hatch};
use super::{Across, Along, At, Fill, Item, Label, Line, Path, Scene, Segment, circle, closed};

/// A seam as its stack, every text final. Not to scale: the order and the sides are what it shows.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct StackSeam {
    /// The plies from the needle down.
    pub plies: Vec<StackPly>,
    /// The stitch written at the needle, `"301"`.
    pub stitch: String,
    /// Whether the first and the last ply are one fabric, folded: a dart that is not cut.
    pub fold: bool,
    /// The allowance written between needle and raw edge, `"10 mm"`.
    pub allowance: String,
    /// The description of the drawing.
    pub alt: Phrase,
}

/// One ply of a stack.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct StackPly {
    /// The number that stands for it beside the drawing, `"1"`.
    pub number: String,
    /// Which side its pile lies on.
    pub pile: PileSide,
    /// Which side its face, the right side, lies on; not drawn beside a pile, which is the face.
    pub face: PileSide,
    /// A folded strip with a cord or a bead, as piping is: it ends just inside the needle.
    pub bead: bool,
}

/// The side of a ply on which its pile or its face lies.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum PileSide {
    /// Neither.
    #[default]
    None,
    /// Towards the needle.
    Up,
    /// Away from the needle.
    Down,
}

/// Width of every stack drawing on paper, mm.
pub(super) const WIDTH: f64 = 36.0;
/// Thickness of a ply, mm of paper.
pub(super) const PLY: f64 = 1.8;
/// How far inside a ply the second line of its right side runs, mm of paper.
pub(super) const FACE: f64 = 0.55;
/// Height of a pile, mm of paper.
pub(super) const PILE: f64 = 1.5;
/// Radius of a bead, mm of paper.
const BEAD: f64 = 1.9;
/// Air between plies, mm of paper.
const GAP: f64 = 1.3;
/// Where the plies begin, mm from the left.
pub(super) const LEFT: f64 = 6.0;
/// Where the needle goes, mm from the left.
pub(super) const NEEDLE: f64 = 14.0;
/// Where the raw edges are, mm from the left.
pub(super) const EDGE: f64 = 26.0;

/// Draws a stack.
#[must_use]
pub fn stack(seam: &StackSeam) -> Scene {
    let top = 5.0;
    let mut scene = Scene::new(WIDTH, 0.0, seam.alt.clone());
    let last = seam.plies.len().saturating_sub(1);
    let mut y = top;
    let mut bands = Vec::new();
    for (n, ply) in seam.plies.iter().enumerate() {
        bands.push(y + if ply.pile == PileSide::Up { PILE } else { 0.0 });
        y = draw_ply(&mut scene, ply, y, seam.fold && (n == 0 || n == last)) + GAP;
    }
    let bottom = y - GAP;
    if let ([first, .., last], true) = (bands.as_slice(), seam.fold) {
        scene.stroke(Line::Outline, bend(*first, *last + PLY));
        scene.stroke(Line::Outline, bend(*first + PLY, *last));
    }
    needle(&mut scene, bottom);
    stitch_at(&mut scene, &seam.stitch, NEEDLE);
    if !seam.allowance.is_empty() {
        dimension(&mut scene, [NEEDLE, bottom + 0.4], [EDGE, bottom + 0.4], -4.0, "");
        let at = [EDGE + 1.4, bottom + 4.4];
        scene.label(Label::new(&seam.allowance, at).anchor(Along::Start, Across::Middle).bare());
    }
    scene.height = bottom + 6.0;
    scene
}

/// Draws one ply with its pile from a height downwards; gives the height below it.
fn draw_ply(scene: &mut Scene, ply: &StackPly, top: f64, folded: bool) -> f64 {
    let above = if ply.pile == PileSide::Up { PILE } else { 0.0 };
    let below = if ply.pile == PileSide::Down { PILE } else { 0.0 };
    let band = top + above;
    let middle = if ply.bead { top + BEAD } else { band + PLY / 2.0 };
    number(scene, &ply.number, middle);
    if ply.bead {
        return bead(scene, top);
    }
    if ply.pile != PileSide::None {
        let y = if ply.pile == PileSide::Up { top } else { band + PLY };
        pile_strokes(scene, y, [LEFT, EDGE]);
    }
    if folded {
        open_band(scene, band)
    } else {
        band_of(scene, LEFT, band)
    }
    let inside = match ply.face {
        PileSide::Up => Some(band + FACE),
        PileSide::Down => Some(band + PLY - FACE),
        PileSide::None => None,
    };
    if let (Some(y), PileSide::None) = (inside, ply.pile) {
        scene.line(Line::Notch, [LEFT, y], [EDGE, y]);
    }
    band + PLY + below
}

/// A folded strip: two thin leaves from the raw edge and a round end just inside the needle.
fn bead(scene: &mut Scene, top: f64) -> f64 {
    let radius = BEAD;
    let centre = [NEEDLE - radius - 0.8, top + radius];
    band_of(scene, centre[0], centre[1] - PLY / 2.0);
    scene.path(Some(Line::Outline), Fill::Paper, circle(centre, radius));
    scene.path(None, Fill::Tint, circle(centre, radius - 0.7));
    top + 2.0 * radius
}

fn band_of(scene: &mut Scene, left: f64, top: f64) {
    let corners: [At; 4] = [[left, top], [EDGE, top], [EDGE, top + PLY], [left, top + PLY]];
    scene.path(Some(Line::Outline), Fill::Paper, closed(&corners));
}

/// A ply that goes on in a fold.
fn open_band(scene: &mut Scene, top: f64) {
    let corners = [[LEFT, top], [LEFT, top + PLY], [EDGE, top + PLY]];
    let path = std::iter::once(Segment::Move([EDGE, top])).chain(corners.map(Segment::Line));
    scene.stroke(Line::Outline, path.collect());
}

/// The bend of a fold from one height to another, bulging right as far as the drawing lets it.
fn bend(from: f64, to: f64) -> Vec<Segment> {
    const HANDLE: f64 = 0.552_284_749_830_793_4;
    let (half, middle) = ((to - from) / 2.0, f64::midpoint(from, to));
    let out = half.min(WIDTH - EDGE - 1.0);
    let (high, wide) = (half * HANDLE, out * HANDLE);
    vec![
        Segment::Move([EDGE, from]),
        Segment::Cubic([EDGE + wide, from], [EDGE + out, middle - high], [EDGE + out, middle]),
        Segment::Cubic([EDGE + out, middle + high], [EDGE + wide, to], [EDGE, to]),
    ]
}

/// The number of a ply, left of it.
pub(super) fn number(scene: &mut Scene, number: &str, middle: f64) {
    let number = Label::new(number, [LEFT - 1.8, middle]).anchor(Along::End, Across::Middle);
    scene.label(number.strong().bare());
}

/// The stitch type, above the ply beside the needle.
pub(super) fn stitch_at(scene: &mut Scene, stitch: &str, x: f64) {
    let stitch = Label::new(stitch, [x - 1.6, 2.0]).anchor(Along::End, Across::Middle);
    scene.label(stitch.strong().bare());
}

/// The pile of a ply between two places, its upper end at a height.
pub(super) fn pile_strokes(scene: &mut Scene, top: f64, [left, right]: [f64; 2]) {
    let pile = [[left, top], [right, top], [right, top + PILE], [left, top + PILE]];
    let strokes = Path { segments: hatch(&pile, 60.0, 0.75), line: Some(Line::Hatch), fill: Fill::None };
    scene.items.push(Item::Path(strokes));
}

pub(super) fn needle(scene: &mut Scene, bottom: f64) {
    let tip = bottom + 2.6;
    scene.line(Line::Needle, [NEEDLE, 0.6], [NEEDLE, tip - 1.5]);
    let point = [[NEEDLE - 0.55, tip - 2.2], [NEEDLE + 0.55, tip - 2.2], [NEEDLE, tip]];
    scene.path(None, Fill::Ink, closed(&point));
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The bend joins the first and the last ply round whatever lies between, and stays on the paper.
    #[test]
    fn a_fold_goes_round_all_that_is_caught_in_it() {
        for caught in 0..4 {
            let ply = |pile| StackPly { pile, face: pile, ..StackPly::default() };
            let between = std::iter::repeat_n(ply(PileSide::Up), caught);
            let plies: Vec<StackPly> =
                std::iter::once(ply(PileSide::Down)).chain(between).chain([ply(PileSide::Up)]).collect();
            let scene = stack(&StackSeam { plies, fold: true, ..StackSeam::default() });
            let paths =
                scene.items.iter().filter_map(|item| if let Item::Path(path) = item { Some(path) } else { None });
            let mut right = 0.0_f64;
            for segment in paths.flat_map(|path| &path.segments) {
                let (Segment::Move(at) | Segment::Line(at) | Segment::Cubic(_, _, at)) = segment else { continue };
                assert!((0.0..=scene.width).contains(&at[0]) && (0.0..=scene.height).contains(&at[1]), "{at:?}");
                right = right.max(at[0]);
            }
            assert!(right > EDGE + 2.0, "{right}");
        }
    }
}

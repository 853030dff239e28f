//! Dies: how many a piece needs, how often they strike, how much steel rule they take, and where rule cannot be bent.
//!
//! A die is the cut line in steel rule. It cuts whole shapes, through all plies of a stack at once.

use serde::Serialize;

use super::how::how;
use super::same::same;
use crate::compute::Number;
use crate::compute::contour::Shape;
use crate::compute::counts::CutCount;
use crate::compute::input::Ground;
use crate::compute::number::small;
use crate::geom::{Point, flatten, measure};
use crate::model::{Method, Variant};

/// Rule is not bent round what is narrower than this, mm (*common practice*).
pub const NARROW: f64 = 6.0;
/// Distance between places looked at along a line, mm.
const STEP: f64 = 0.5;
/// Curves become straight pieces within this, mm.
const FLAT: f64 = 0.02;

/// The dies of one layer of a piece in one size.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Die {
    /// Piece.
    pub piece: String,
    /// Cut.
    pub cut: String,
    /// Size.
    pub size: String,
    /// Whether it cuts the block that the shape is cut from afterwards.
    pub block: bool,
    /// Dies that are made: two for a pair of mirror images, unless they are cut face to face or both faces of the fabric are
    /// equal; fewer where dies named before it serve.
    pub dies: u64,
    /// The first die of the same shape, if this is not it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub same: Option<Same>,
    /// Strikes for one product, through all plies at once: pieces on one ply, or on a pair of plies face to face.
    pub strikes: u64,
    /// Steel rule of one die, mm: the length of the cut, or of the four sides of a block.
    pub rule: Number,
    /// Tongues and gaps too narrow to bend in rule.
    pub narrow: Vec<Narrow>,
}

/// A die of the same shape.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Same {
    /// Piece.
    pub piece: String,
    /// Cut.
    pub cut: String,
    /// Size.
    pub size: String,
    /// Whether it is the mirror image.
    pub mirrored: bool,
}

/// A place where the material, or the gap between two parts of the line, is narrow.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Narrow {
    /// Whether it is a tongue of the piece; else a gap beside it.
    pub tongue: bool,
    /// Its middle on the drawn piece, mm.
    pub at: [Number; 2],
    /// Least width, mm.
    pub width: Number,
    /// Length over which it is narrow, mm.
    pub length: Number,
}

/// The dies of everything that is cut by a press, in the order of pieces, cuts and sizes. What is not drawn yet is left out.
pub(crate) fn all(ground: &Ground<'_>, cuts: &[CutCount]) -> Vec<Die> {
    let mut all = Vec::new();
    let mut shapes: Vec<Made<'_>> = Vec::new();
    for cut in cuts {
        for size in &ground.model.sizes {
            let size = &size.entry.id.value;
            let Some(pressed) = Pressed::of(ground, cut, size) else { continue };
            all.extend(block(ground, cut, &pressed));
            all.extend(shape(ground, cut, &pressed, &mut shapes));
        }
    }
    all
}

/// What a press cuts.
struct Pressed<'a> {
    /// For which product.
    variant: Variant<'a>,
    /// Whether it is spread face to face.
    face: bool,
    /// Whether one die cuts both mirror images: face to face, or where both faces of the fabric are equal.
    both: bool,
}

impl<'a> Pressed<'a> {
    fn of(ground: &Ground<'a>, cut: &CutCount, size: &'a str) -> Option<Self> {
        let colourway = ground.model.colourways.keys().next()?;
        let (article, _) = ground.model.resolve(cut.material.as_deref()?, colourway)?;
        let variant = Variant { size, colourway };
        let how = how(ground.model, article, variant);
        let face = how.spread.pairs();
        let both = face || cut.turned_over;
        (how.method == Method::Die).then_some(Pressed { variant, face, both })
    }
}

/// A shape that a die is made of, with which of its two mirror images there is one.
struct Made<'g> {
    shape: &'g Shape,
    first: Same,
    /// Whether its mirror image is the same shape.
    own_image: bool,
    drawn: bool,
    mirrored: bool,
}

/// A block is its own mirror image: one die cuts all.
fn block(ground: &Ground<'_>, cut: &CutCount, pressed: &Pressed<'_>) -> Option<Die> {
    let Pressed { variant, face, .. } = *pressed;
    let (width, height) = ground.model.pieces.get(&cut.piece)?.cuts.get(&cut.cut)?.block.as_ref()?;
    let [width, height] = [width, height].map(|side| side.known(variant).map(small));
    let total = *cut.total.known()?;
    Some(Die {
        piece: cut.piece.clone(),
        cut: cut.cut.clone(),
        size: variant.size.to_string(),
        block: true,
        dies: u64::from(total > 0),
        same: None,
        strikes: strikes((total, 0), true, face, 1, if face { 2 } else { 1 }),
        rule: Number::new(2.0 * (width? + height?)),
        narrow: Vec::new(),
    })
}

fn shape<'g>(ground: &'g Ground<'_>, cut: &CutCount, pressed: &Pressed<'_>, before: &mut Vec<Made<'g>>) -> Option<Die> {
    let Pressed { variant, face, both } = *pressed;
    let (drawn, mirrored) = (*cut.drawn.known()?, *cut.mirrored.known()?);
    let one_kind = cut.one_kind();
    let shape = ground.drawn.cut(&cut.piece, variant.size, &cut.cut);
    let shape = shape.known()?;
    let name = Same { piece: cut.piece.clone(), cut: cut.cut.clone(), size: variant.size.to_string(), mirrored: false };
    let (dies, same) = made(before, shape, name, (drawn, mirrored), both);
    Some(Die {
        piece: cut.piece.clone(),
        cut: cut.cut.clone(),
        size: variant.size.to_string(),
        block: false,
        dies,
        same,
        strikes: strikes((drawn, mirrored), one_kind, face, 1, if face { 2 } else { 1 }),
        rule: Number::new(shape.perimeter),
        narrow: narrow(shape, NARROW),
    })
}

/// How many dies are made for a shape beside those that are there, and the first of its shape. The one place that decides which
/// dies are one.
fn made<'g>(
    before: &mut Vec<Made<'g>>,
    shape: &'g Shape,
    name: Same,
    (drawn, mirrored): (u64, u64),
    both: bool,
) -> (u64, Option<Same>) {
    let found = before.iter().enumerate().find_map(|(at, one)| {
        [false, true].into_iter().find(|image| same(shape, one.shape, *image)).map(|image| (at, image))
    });
    let known = found.is_some();
    let (at, image) = found.unwrap_or_else(|| {
        let own_image = same(shape, shape, true);
        before.push(Made { shape, first: name, own_image, drawn: false, mirrored: false });
        (before.len() - 1, false)
    });
    let Some(one) = before.get_mut(at) else { return (0, None) };
    let there = u64::from(one.drawn) + u64::from(one.mirrored);
    let same = known.then(|| Same { mirrored: image, ..one.first.clone() });
    // Which of the two images of the first shape are needed.
    let (straight, turned) = if image { (mirrored, drawn) } else { (drawn, mirrored) };
    let serves_both = both || one.own_image;
    let [straight, turned] = images(straight, turned, serves_both);
    // Where one serves both, a mirrored one that is there does.
    one.drawn |= straight && !(serves_both && one.mirrored);
    one.mirrored |= turned;
    (u64::from(one.drawn) + u64::from(one.mirrored) - there, same)
}

/// Whether a die is made as drawn, and one mirrored, for the pieces of one kind in one product; one alone where it serves both.
pub fn images(drawn: u64, mirrored: u64, serves_both: bool) -> [bool; 2] {
    match serves_both {
        true => [drawn + mirrored > 0, false],
        false => [drawn > 0, mirrored > 0],
    }
}

/// Strikes for some products, the plies of each stack being cut at once. Face to face each strike gives as many pieces as drawn
/// as mirrored ones; of a piece that is one kind with its mirror image it gives one a ply.
pub fn strikes((drawn, mirrored): (u64, u64), one_kind: bool, face_to_face: bool, products: u64, plies: u64) -> u64 {
    let plies = plies.max(1);
    match face_to_face {
        true if !one_kind => (drawn.max(mirrored) * products).div_ceil((plies / 2).max(1)),
        _ => (drawn * products).div_ceil(plies) + (mirrored * products).div_ceil(plies),
    }
}

/// One place of a line, with the material on its left.
struct Place {
    at: Point,
    inward: Point,
    path: usize,
}

/// The places of a cut line where a tongue or a gap is narrower than `least` over more than that length, mm.
pub fn narrow(shape: &Shape, least: f64) -> Vec<Narrow> {
    let closed = |path| {
        let mut line = flatten(path, FLAT);
        line.extend(line.first().copied());
        line
    };
    let lines: Vec<Vec<Point>> = shape.paths.iter().map(closed).collect();
    let edges: Vec<(Point, Point)> =
        lines.iter().flat_map(|line| line.iter().copied().zip(line.iter().copied().skip(1))).collect();
    // The outer line goes anticlockwise, holes the other way; a drawing may turn all of it round.
    let turned = shape.paths.first().is_some_and(|path| measure::signed_area(path) < 0.0);
    let places: Vec<Place> = lines.iter().enumerate().flat_map(|(path, line)| along(line, path, turned)).collect();
    let mut found = Vec::new();
    for tongue in [true, false] {
        let width = |place: &Place| {
            let way = if tongue { place.inward } else { place.inward * -1.0 };
            across(place.at, way, &edges, least).map(|width| (width, place.at + way * (width / 2.0)))
        };
        let widths: Vec<Option<(f64, Point)>> = places.iter().map(width).collect();
        for run in runs(&places, &widths) {
            // From where it begins to be narrow: round the point of a tongue its other side leads back.
            let first = run.first().map_or(Point::new(0.0, 0.0), |(_, middle)| *middle);
            let length = run.iter().map(|(_, middle)| middle.distance(first) + STEP).fold(0.0, f64::max);
            let middles = run.iter().fold(Point::new(0.0, 0.0), |sum, (_, middle)| sum + *middle);
            let middle = middles * (1.0 / run.len() as f64);
            let least_width = run.iter().map(|(width, _)| *width).fold(f64::INFINITY, f64::min);
            // Both sides of a tongue tell of the same one.
            let known = |other: &&mut (Point, Narrow)| other.1.tongue == tongue && other.0.distance(middle) < least;
            if length <= least {
                continue;
            }
            match found.iter_mut().find(known) {
                Some((_, other)) => other.length = Number::new(other.length.raw().max(length)),
                None => {
                    let at = [Number::new(middle.x), Number::new(middle.y)];
                    let (width, length) = (Number::new(least_width), Number::new(length));
                    found.push((middle, Narrow { tongue, at, width, length }));
                }
            }
        }
    }
    found.into_iter().map(|(_, narrow)| narrow).collect()
}

/// Places along a closed line, the first half a step from its start.
fn along(line: &[Point], path: usize, turned: bool) -> Vec<Place> {
    let mut all = Vec::new();
    let mut left = STEP / 2.0;
    for (a, b) in line.iter().zip(line.iter().skip(1)) {
        let length = a.distance(*b);
        let Some(way) = (*b - *a).unit() else { continue };
        while left < length {
            let inward = if turned { way.right() } else { way.left() };
            all.push(Place { at: *a + way * left, inward, path });
            left += STEP;
        }
        left -= length;
    }
    all
}

/// From a place of the line to the next line across, if it is nearer than `least`.
fn across(at: Point, way: Point, edges: &[(Point, Point)], least: f64) -> Option<f64> {
    /// The line itself begins here, mm.
    const ITSELF: f64 = 1e-6;
    let hit = |(a, b): &(Point, Point)| {
        let (edge, from) = (*b - *a, *a - at);
        let turn = way.cross(edge);
        if turn == 0.0 {
            return None;
        }
        let (far, share) = (from.cross(edge) / turn, from.cross(way) / turn);
        (far > ITSELF && far < least && (0.0..=1.0).contains(&share)).then_some(far)
    };
    edges.iter().filter_map(hit).min_by(f64::total_cmp)
}

/// Stretches of places in a row that have a width, each line being closed.
fn runs(places: &[Place], widths: &[Option<(f64, Point)>]) -> Vec<Vec<(f64, Point)>> {
    let mut all: Vec<Vec<(f64, Point)>> = Vec::new();
    let mut start = 0;
    while start < places.len() {
        let path = places[start].path;
        let end = start + places[start..].iter().take_while(|place| place.path == path).count();
        let line = &widths[start..end];
        // From a place without a width on, so that no stretch is cut in two where the line begins.
        let first = line.iter().position(Option::is_none).unwrap_or(0);
        let mut open = false;
        for width in line[first..].iter().chain(&line[..first]) {
            match width {
                Some(width) if open => all.last_mut().into_iter().for_each(|run| run.push(*width)),
                Some(width) => all.push(vec![*width]),
                None => {}
            }
            open = width.is_some();
        }
        start = end;
    }
    all
}

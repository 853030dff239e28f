//! What is to be laid: the cuts of some products on one fabric, turned so that they lie as the fabric asks.

use std::collections::BTreeMap;

use crate::compute::Figure;
use crate::compute::contour::Shape;
use crate::compute::counts::CutCount;
use crate::compute::input::{Bought, Ground};
use crate::compute::number::{property, small};
use crate::compute::reason::{BLOCK_HEIGHT, BLOCK_WIDTH, NO_CUT_LINE, no_article};
use crate::geom::grid::{GridPoint, Polygon, millimetres, snap};
use crate::geom::{Affine, Point, flatten};
use crate::lay::{Fabric, Instance, Lay, Pattern, Piece, Turn, lock};
use crate::model::{Article, Method, Spread, Variant};
use crate::words::{Word, say};

use super::half;
use super::how::{Direction, How, how};

/// Curves of drawn cut lines become straight pieces within this, mm.
const FLAT: f64 = 0.01;
/// A lay of one product alone would be as short as its longest piece; as many are laid as make it this many times as long.
const TIMES: f64 = 6.0;
/// Most pieces in the lay of a product.
const PIECES: usize = 120;
/// Share of the fabric a first guess of a lay's length takes to be used.
const SHARE: f64 = 0.75;
/// What marks the mirror image of a piece.
pub const IMAGE: char = '′';
/// What marks a piece of which half is cut on the fold.
pub const FOLD: char = '½';

/// How many products of each size lie on one ply.
pub type Mix = BTreeMap<String, u64>;

/// The cuts of some products on one fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// The fabric and its colour, in the first colourway that has it.
    pub bought: Bought,
    /// The roles or articles the cuts name, as they name them.
    pub materials: Vec<String>,
    /// What lies on one ply, or on a pair of plies face to face.
    pub mix: Mix,
    /// How it is spread and cut.
    pub how: How,
    /// The pieces and the fabric.
    pub instance: Instance,
    /// What each piece of it is, in its order.
    pub kinds: Vec<Kind>,
    /// Plies that are needed for one mix: 2 face to face, else 1.
    pub layers: u64,
    /// Pieces cut beyond what is needed for one mix, by piece: face to face makes pairs.
    pub surplus: BTreeMap<String, u64>,
    /// Length of cut of everything on one ply, holes included, mm.
    pub path: f64,
    /// Whether dies strike it in rows.
    pub pattern: Pattern,
    /// Key of the instance in that pattern.
    pub key: String,
    /// The kept lay in that pattern, if there is one that fits.
    pub lay: Option<Lay>,
    /// The kept free lay beside one in rows: what a knife could do.
    pub beside: Option<Lay>,
}

/// What a piece of a lay is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kind {
    /// Piece.
    pub piece: String,
    /// Cut.
    pub cut: String,
    /// Size.
    pub size: String,
    /// Which way it lies.
    pub side: Side,
}

/// Which way a piece lies in a lay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// As drawn.
    Drawn,
    /// Mirrored.
    Mirrored,
    /// Half of it, cut on the fold.
    Half,
}

/// What one cut asks for in a lay.
struct Wanted {
    name: String,
    piece: String,
    cut: String,
    size: String,
    outline: Polygon,
    path: f64,
    image: Polygon,
    drawn: u64,
    mirrored: u64,
    directed: bool,
    own_image: bool,
    one_kind: bool,
}

/// The task of a mix of sizes on one fabric in one colour.
pub(crate) fn task(
    ground: &Ground<'_>,
    cuts: &[CutCount],
    bought: &Bought,
    colourway: &str,
    mix: &Mix,
) -> Figure<Task> {
    let Some(article) = ground.article(bought) else {
        return Figure::not_yet(no_article(&bought.article));
    };
    let first = mix.keys().next().map_or("", String::as_str);
    let variant = Variant { size: first, colourway };
    let how = how(ground.model, article, variant);
    let usable = usable(article, variant);
    let mut materials = Vec::new();
    let mut wanted: Vec<(Wanted, u64)> = Vec::new();
    for (size, products) in mix {
        for cut in cuts.iter().filter(|cut| is_of(ground, cut, bought, colourway)) {
            if let Some(material) = cut.material.as_ref().filter(|material| !materials.contains(*material)) {
                materials.push(material.clone());
            }
            match self::wanted(ground, cut, Variant { size, colourway }, mix.len() > 1) {
                Figure::Known(one) => wanted.push((one, *products)),
                Figure::NotYet { why } => return Figure::NotYet { why },
                Figure::Withheld => return Figure::Withheld,
            }
        }
    }
    usable.map(|usable| made(ground, bought, materials, mix, how, usable, &wanted))
}

/// The cuttable width after relaxation shrinkage, mm.
fn usable(fabric: &Article, variant: Variant<'_>) -> Figure<f64> {
    let across = property(fabric, "shrinkage-across", variant).known().map_or(0.0, small).max(0.0);
    property(fabric, "cuttable-width", variant).map(|width| small(&width) * (1.0 - across))
}

/// The fabric as it is laid: folded, it is half as wide.
fn strip(how: &How, usable: f64) -> Fabric {
    let width = if how.spread == Spread::Folded { usable / 2.0 } else { usable };
    let [edge, end, gap] = [how.edge, how.end, how.gap].map(|length| snap(length.raw()));
    Fabric { width: snap(width), edge, end, gap }
}

/// What a cut needs across the roll at the least, in the ways it may lie, and what there is, both mm; none where either
/// is not known. On folded fabric half is enough for a piece that can be cut on the fold.
pub(crate) fn least_width(
    ground: &Ground<'_>,
    cut: &CutCount,
    fabric: &Article,
    variant: Variant<'_>,
) -> Option<(f64, f64)> {
    let how = how(ground.model, fabric, variant);
    let strip = strip(&how, *usable(fabric, variant).known()?);
    let Outline { outline, directed, .. } = outline(ground, cut, variant).known().cloned()?;
    let tall = |polygon: &Polygon| polygon.bbox().map(|(low, high)| high.y - low.y);
    let whole = turns(&how, directed).into_iter().filter_map(|turn| tall(&turn.apply(&outline))).min()?;
    let beside = strip.width - 2 * strip.edge;
    let folded = match how.spread == Spread::Folded && whole > beside {
        true => half::half(&outline).and_then(|half| tall(&half)),
        false => None,
    };
    Some(match folded {
        Some(half) => (millimetres(half), millimetres(strip.width - strip.edge)),
        None => (millimetres(whole), millimetres(beside)),
    })
}

/// Whether a cut is of this fabric and colour in a colourway.
fn is_of(ground: &Ground<'_>, cut: &CutCount, bought: &Bought, colourway: &str) -> bool {
    let what = cut.material.as_deref().and_then(|material| ground.model.resolve(material, colourway));
    what.is_some_and(|(article, colour)| {
        article.entry.id.value == bought.article && colour.map(ToString::to_string) == bought.colour
    })
}

fn wanted(ground: &Ground<'_>, cut: &CutCount, variant: Variant<'_>, several: bool) -> Figure<Wanted> {
    let counts = cut.drawn.clone().with(cut.mirrored.clone(), |drawn, mirrored| (drawn, mirrored));
    let outline = outline(ground, cut, variant);
    counts.with(outline, |(drawn, mirrored), Outline { outline, directed, path }| {
        let mirror = |p: &GridPoint| GridPoint::new(p.x, -p.y);
        let image = Polygon { points: outline.points.iter().map(mirror).collect() }.reversed();
        // Two layers of a piece on one fabric are told apart.
        let layers = ground.model.pieces.get(&cut.piece).map_or(0, |piece| {
            piece
                .cuts
                .values()
                .filter(|one| one.material.as_ref().map(|one| &one.value) == cut.material.as_ref())
                .count()
        });
        let name = if layers > 1 { format!("{} {}", cut.piece, cut.cut) } else { cut.piece.clone() };
        let name = if several { format!("{name} {}", variant.size) } else { name };
        let own_image = cut.own_image == Figure::Known(true);
        let one_kind = cut.one_kind();
        let (piece, cut, size) = (cut.piece.clone(), cut.cut.clone(), variant.size.to_string());
        Wanted { name, piece, cut, size, outline, path, image, drawn, mirrored, directed, own_image, one_kind }
    })
}

/// The outer line of what is cut, whether it has a way to lie, and the length of its cut with that of its holes, mm.
#[derive(Debug, Clone)]
struct Outline {
    outline: Polygon,
    directed: bool,
    path: f64,
}

/// What is cut, with the way it lies along +x: a block as a block, else the cut line.
fn outline(ground: &Ground<'_>, cut: &CutCount, variant: Variant<'_>) -> Figure<Outline> {
    let piece = ground.model.pieces.get(&cut.piece);
    let sew = ground.drawn.sew(&cut.piece, variant.size);
    let way = piece.zip(sew.known().copied()).and_then(|(piece, sew)| {
        piece.pile_line(sew).map(|(a, b)| b - a).or_else(|| piece.along(sew)).and_then(Point::unit)
    });
    let along = way.unwrap_or(Point::new(0.0, 1.0));
    if let Some(block) = piece.and_then(|piece| piece.cuts.get(&cut.cut)?.block.as_ref()) {
        let side = |value, what: Word| Figure::of(Some(value), variant, what).map(|quantity| small(&quantity));
        let (width, height) = (side(&block.0, BLOCK_WIDTH), side(&block.1, BLOCK_HEIGHT));
        return width.with(height, |width, height| Outline {
            outline: rectangle(height, width),
            directed: true,
            path: 2.0 * (width + height),
        });
    }
    ground.drawn.cut(&cut.piece, variant.size, &cut.cut).then(|shape| match laid(shape, along) {
        Some(outline) => Figure::Known(Outline { outline, directed: way.is_some(), path: shape.perimeter }),
        None => Figure::not_yet(say!(NO_CUT_LINE, piece = &cut.piece, cut = &cut.cut)),
    })
}

fn rectangle(length: f64, width: f64) -> Polygon {
    let (x, y) = (snap(length), snap(width));
    let corners = [(0, 0), (x, 0), (x, y), (0, y)];
    Polygon { points: corners.map(|(x, y)| GridPoint::new(x, y)).to_vec() }
}

/// The outer line with `along` turned to +x, anticlockwise and on the grid.
fn laid(shape: &Shape, along: Point) -> Option<Polygon> {
    let turn = Affine { xx: along.x, xy: along.y, yx: -along.y, yy: along.x, dx: 0.0, dy: 0.0 };
    let points = flatten(&shape.paths.first()?.transformed(&turn), FLAT);
    let polygon = Polygon::from_points(&points);
    let polygon = if polygon.area2() < 0 { polygon.reversed() } else { polygon };
    // Where the piece lies in its drawing is nothing to the lay, nor to its key.
    let (low, _) = polygon.bbox()?;
    let points = polygon.points.iter().map(|p| GridPoint::new(p.x - low.x, p.y - low.y)).collect();
    Some(Polygon { points })
}

fn made(
    ground: &Ground<'_>,
    bought: &Bought,
    materials: Vec<String>,
    mix: &Mix,
    how: How,
    usable: f64,
    wanted: &[(Wanted, u64)],
) -> Task {
    let fabric = strip(&how, usable);
    let mut surplus = BTreeMap::new();
    let (mut pieces, mut kinds) = (Vec::new(), Vec::new());
    let mut path = 0.0;
    for (one, products) in wanted {
        let turns = turns(&how, one.directed);
        let shared = Shared::of(one, *products, &how, fabric, &turns);
        if shared.beyond > 0 {
            surplus.insert(one.name.clone(), shared.beyond);
        }
        // A half on the fold is cut along half its line.
        let halves = shared.on_fold.as_ref().map_or(0, |(_, count)| *count);
        path += one.path * ((shared.drawn + shared.mirrored) as f64 + halves as f64 / 2.0);
        let mut add = |side: Side, outline: &Polygon, demand: u64, turns: &[Turn]| {
            if demand > 0 {
                let (mark, fold) = match side {
                    Side::Drawn => (None, false),
                    Side::Mirrored => (Some(IMAGE), false),
                    Side::Half => (Some(FOLD), true),
                };
                let id = one.name.chars().chain(mark).collect();
                let (piece, cut, size) = (one.piece.clone(), one.cut.clone(), one.size.clone());
                kinds.push(Kind { piece, cut, size, side });
                let demand = usize::try_from(demand).unwrap_or(usize::MAX);
                pieces.push(Piece { id, outline: outline.clone(), demand, turns: turns.to_vec(), fold });
            }
        };
        add(Side::Drawn, &one.outline, shared.drawn, &turns);
        add(Side::Mirrored, &one.image, shared.mirrored, &turns);
        if let Some((half, count)) = shared.on_fold {
            let either = how.direction != Direction::OneWay;
            add(Side::Half, &half, count, &half::turns(either));
        }
    }
    let title = title(ground, &materials, mix);
    let instance = Instance { name: title, fabric, pieces };
    let pattern = if how.method == Method::Die { Pattern::Rows } else { Pattern::Free };
    let key = lock::key(&instance, pattern);
    let lay = ground.model.lock.lay(&key, &instance);
    let beside = match pattern {
        Pattern::Rows => ground.model.lock.lay(&lock::key(&instance, Pattern::Free), &instance),
        Pattern::Free => None,
    };
    let layers = if how.spread.pairs() { 2 } else { 1 };
    let (bought, mix) = (bought.clone(), mix.clone());
    Task { bought, materials, mix, how, instance, kinds, layers, surplus, path, pattern, key, lay, beside }
}

/// How often a cut is placed on one ply or on two layers.
struct Shared {
    drawn: u64,
    mirrored: u64,
    /// Cut beyond what is needed.
    beyond: u64,
    /// The half that is cut on the fold, and how often.
    on_fold: Option<(Polygon, u64)>,
}

impl Shared {
    /// Two layers give one of each way at once, or two of a piece that is its own image. On folded fabric what is left of
    /// such a piece after pairing is cut on the fold, and all of it where it is too wide to lie beside the fold.
    fn of(one: &Wanted, products: u64, how: &How, fabric: Fabric, turns: &[Turn]) -> Shared {
        let (drawn, mirrored) = (one.drawn * products, one.mirrored * products);
        let all = drawn + mirrored;
        if how.spread == Spread::OneWay {
            return Shared { drawn, mirrored, beyond: 0, on_fold: None };
        }
        if !one.one_kind {
            let pairs = drawn.max(mirrored);
            return Shared { drawn: pairs, mirrored: 0, beyond: 2 * pairs - all, on_fold: None };
        }
        let tall = |turn: &Turn| turn.apply(&one.outline).bbox().map(|(low, high)| high.y - low.y);
        let fits = turns.iter().filter_map(tall).any(|tall| tall <= fabric.width - 2 * fabric.edge);
        let left = if fits { all % 2 } else { all };
        let on_fold = match how.spread == Spread::Folded && one.own_image && left > 0 {
            true => half::half(&one.outline).map(|half| (half, left)),
            false => None,
        };
        match on_fold {
            Some(_) => Shared { drawn: (all - left) / 2, mirrored: 0, beyond: 0, on_fold },
            None => Shared { drawn: all.div_ceil(2), mirrored: 0, beyond: all % 2, on_fold: None },
        }
    }
}

/// `Black plush, S × 12`.
pub(crate) fn title(ground: &Ground<'_>, materials: &[String], mix: &Mix) -> String {
    let name = |id: &String| match (ground.model.roles.get(id), ground.model.articles.get(id)) {
        (Some(role), _) => role.entry.title().to_string(),
        (None, Some(article)) => article.entry.title().to_string(),
        (None, None) => id.clone(),
    };
    let names: Vec<String> = materials.iter().map(name).collect();
    format!("{}, {}", names.join(" and "), mix_text(mix))
}

/// `S × 4, L × 2`.
pub fn mix_text(mix: &Mix) -> String {
    let some = mix.iter().filter(|(_, products)| **products > 0);
    some.map(|(size, products)| format!("{size} × {products}")).collect::<Vec<_>>().join(", ")
}

/// How a piece may be turned. A piece without grain or pile may be turned freely where the fabric lets it.
fn turns(how: &How, directed: bool) -> Vec<Turn> {
    let base: &[f64] = match how.direction {
        Direction::OneWay => &[0.0],
        Direction::TwoWays if directed => &[0.0, 180.0],
        Direction::TwoWays | Direction::AnyWay => &[0.0, 90.0, 180.0, 270.0],
    };
    let tilt = how.tilt.raw();
    let tilts = if tilt > 0.0 { vec![0.0, -tilt, tilt] } else { vec![0.0] };
    base.iter().flat_map(|base| tilts.iter().map(move |tilt| Turn::by(base + tilt))).collect()
}

/// How many products a lay of one size holds: enough for the length to be that of the pieces together and not that of
/// the longest, and no more than the table and a sensible number of pieces allow.
pub(crate) fn repeats(one: &Instance, table: Option<f64>) -> u64 {
    let pieces = one.count().max(1);
    let bounds = crate::lay::bounds(one);
    let ends = 2 * one.fabric.end;
    let each = ((bounds.area - ends) as f64 / SHARE).max(1.0);
    let enough = (TIMES * (bounds.longest - ends) as f64 / each).ceil();
    let room = table.map_or(f64::INFINITY, |table| ((table * 1000.0 - ends as f64) / each).floor());
    let most = (PIECES / pieces).max(1) as f64;
    enough.min(room).min(most).max(1.0) as u64
}

/// What the lays of one product are kept as.
pub const PRODUCT: &str = "product";

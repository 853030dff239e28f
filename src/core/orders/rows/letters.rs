//! What the pieces of an order are called in lays and bundles: a letter for each cut of the product, a sign for its side, and
//! the number of its product on the ply.

use crate::compute::Task;
use crate::cutting::figures::{FOLD, IMAGE, Kind, Side};
use crate::geom::grid::GridPoint;
use crate::lay::{Lay, Placed};
use crate::rows::view::View;

/// The letters of one style.
pub struct Letters<'v> {
    cuts: Vec<(&'v str, &'v str)>,
}

impl<'v> Letters<'v> {
    /// A letter for each cut, in the order of the pieces.
    pub fn of(view: &View<'v>) -> Self {
        let cuts = &view.figures.counts.cuts;
        Letters { cuts: cuts.iter().map(|cut| (cut.piece.as_str(), cut.cut.as_str())).collect() }
    }

    /// `B′`: the letter of a piece with the sign of its side.
    pub fn letter(&self, kind: &Kind) -> String {
        self.signed(&kind.piece, &kind.cut, kind.side)
    }

    /// The same of a cut.
    pub fn signed(&self, piece: &str, cut: &str, side: Side) -> String {
        let at = self.cuts.iter().position(|one| *one == (piece, cut)).unwrap_or_default();
        let sign = match side {
            Side::Drawn => None,
            Side::Mirrored => Some(IMAGE),
            Side::Half => Some(FOLD),
        };
        written(at).into_iter().chain(sign).collect()
    }

    /// `FOOT`, or `FOOT lining` where the piece is cut in several layers.
    pub fn name(&self, piece: &str, cut: &str) -> String {
        let layers = self.cuts.iter().filter(|(one, _)| *one == piece).count();
        if layers > 1 { format!("{piece} {cut}") } else { piece.to_string() }
    }
}

/// `A` to `Z`, then `AA`, `AB` and so on.
fn written(at: usize) -> Vec<char> {
    let last = char::from(b'A' + u8::try_from(at % 26).unwrap_or_default());
    let before = if at < 26 { Vec::new() } else { written(at / 26 - 1) };
    before.into_iter().chain([last]).collect()
}

/// What each placed piece is called, with shorter names behind for where there is no room: product, letter and side; the size
/// too where several lie together. The pieces of a kind go to the products in the order in which they lie along the roll, so
/// that those of one product lie near each other.
pub fn marks(task: &Task, lay: &Lay, letters: &Letters<'_>) -> Vec<Vec<String>> {
    let mut marks = vec![Vec::new(); lay.placed.len()];
    let mut first = 1;
    for (size, products) in &task.mix {
        for (number, kind) in task.kinds.iter().enumerate().filter(|(_, kind)| kind.size == *size) {
            let mine: Vec<usize> = along(task, lay, number);
            for (rank, at) in mine.iter().enumerate() {
                let product = shared(rank as u64, mine.len() as u64, *products, first);
                let short = format!("{product}{}", letters.letter(kind));
                let long = (task.mix.len() > 1).then(|| format!("{short} {size}"));
                if let Some(mark) = marks.get_mut(*at) {
                    *mark = long.into_iter().chain([short, product]).collect();
                }
            }
        }
        first += products;
    }
    marks
}

/// The product that one of some pieces is for; of a single piece on two plies both of its products.
fn shared(rank: u64, pieces: u64, products: u64, first: u64) -> String {
    let low = rank * products / pieces.max(1);
    let high = ((rank + 1) * products).div_ceil(pieces.max(1)).max(low + 1) - 1;
    super::spreads::range(first + low, first + high)
}

/// The places of the pieces of one kind in a lay, along the roll.
fn along(task: &Task, lay: &Lay, kind: usize) -> Vec<usize> {
    let outline = task.instance.pieces.get(kind).map(|piece| &piece.outline);
    let middle = |one: &Placed| -> GridPoint {
        let ends = outline.and_then(|outline| one.turn.apply(outline).bbox());
        let (low, high) = ends.unwrap_or((GridPoint::new(0, 0), GridPoint::new(0, 0)));
        GridPoint::new(one.at.x + (low.x + high.x) / 2, one.at.y + (low.y + high.y) / 2)
    };
    let mut mine: Vec<(i64, i64, usize)> = lay
        .placed
        .iter()
        .enumerate()
        .filter(|(_, one)| one.piece == kind)
        .map(|(at, one)| (middle(one).x, middle(one).y, at))
        .collect();
    mine.sort_unstable();
    mine.into_iter().map(|(.., at)| at).collect()
}

/// What a piece on one side is in the product: `left`, `right`, or nothing where no copy or use has a name.
pub fn sides(view: &View<'_>, piece: &str, mirrored: bool) -> Vec<String> {
    let way = if mirrored { crate::compute::Way::Mirrored } else { crate::compute::Way::Drawn };
    let mine = view.figures.counts.instances.iter().filter(|one| one.piece == piece && one.way == way);
    let mut all: Vec<String> = Vec::new();
    for one in mine {
        let name = [&one.usage, &one.copy].into_iter().filter(|part| !part.is_empty()).cloned().collect::<Vec<_>>();
        let name = name.join(" ");
        if !name.is_empty() && !all.contains(&name) {
            all.push(name);
        }
    }
    all
}

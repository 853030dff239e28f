//! Lays joined end to end into a longer one.

use std::collections::BTreeMap;

use super::task::{Mix, Task, title};
use crate::compute::input::Ground;
use crate::geom::grid::{GridPoint, snap};
use crate::lay::{Lay, Pattern, Placed, lock};

/// The lay of some parts behind each other, each so many times; the part itself where there is one. None where a part
/// is not laid.
pub(crate) fn joined(ground: &Ground<'_>, parts: &[(Task, u64)]) -> Option<Task> {
    let (first, times) = parts.first()?;
    if parts.len() == 1 && *times == 1 {
        return Some(first.clone());
    }
    let mut whole = Task { mix: Mix::new(), surplus: BTreeMap::new(), path: 0.0, beside: None, ..first.clone() };
    whole.instance.pieces.iter_mut().for_each(|piece| piece.demand = 0);
    let mut lay = Lay { length: 0, placed: Vec::new() };
    for (part, times) in parts {
        for _ in 0..*times {
            lay = behind(&mut whole, lay, part, part.lay.as_ref()?);
            whole.path += part.path;
            part.mix.iter().for_each(|(size, products)| *whole.mix.entry(size.clone()).or_default() += products);
            part.surplus.iter().for_each(|(piece, over)| *whole.surplus.entry(piece.clone()).or_default() += over);
        }
    }
    whole.instance.name = title(ground, &whole.materials, &whole.mix);
    whole.key = lock::key(&whole.instance, Pattern::Free);
    whole.lay = Some(lay);
    Some(whole)
}

/// A lay with one more part behind it, which begins on a whole millimetre.
fn behind(whole: &mut Task, mut lay: Lay, part: &Task, next: &Lay) -> Lay {
    let fabric = part.instance.fabric;
    let millimetre = snap(1.0);
    let bare = |length: i64| length - 2 * fabric.end;
    let up = |length: i64| (length + millimetre - 1) / millimetre * millimetre;
    let move_by = if lay.length == 0 { 0 } else { up(bare(lay.length)) + up(fabric.gap) };
    let mut place = vec![(0, 0); part.instance.pieces.len()];
    for (at, piece) in part.instance.pieces.iter().enumerate() {
        let pieces = &mut whole.instance.pieces;
        let kind = &part.kinds[at];
        let same = whole.kinds.iter().position(|one| one == kind).unwrap_or_else(|| {
            pieces.push(crate::lay::Piece { demand: 0, ..piece.clone() });
            whole.kinds.push(kind.clone());
            pieces.len() - 1
        });
        place[at] = (same, pieces[same].demand);
        pieces[same].demand += piece.demand;
    }
    let moved = |one: &Placed| {
        let (piece, copies) = place[one.piece];
        Placed { piece, copy: copies + one.copy, at: GridPoint::new(one.at.x + move_by, one.at.y), ..*one }
    };
    lay.placed.extend(next.placed.iter().map(moved));
    lay.length = move_by + next.length;
    lay
}

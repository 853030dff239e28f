//! The other sizes of a piece round the drawn one.

use std::collections::BTreeSet;

use crate::geom::{Affine, Outline};
use crate::model::Piece;
use crate::scene::{NestSize, Segment};

use super::curves::{cut_paths, segments};
use super::view::View;

/// The cut lines of the other sizes, where they differ, laid on the lowest point that all sizes name.
pub(super) fn others(view: &View<'_>, piece: &Piece, size: &str, sew: &Outline) -> Vec<NestSize> {
    let id = piece.entry.id.value.as_str();
    let sizes = view.sizes();
    let known = sizes.iter().filter_map(|one| Some((*one, view.drawn.get(id, one)?.sew.known()?)));
    let all: Vec<(&str, &Outline)> = known.collect();
    let Some(at) = shared(&all).and_then(|point| sew.point(&point).map(|at| (point, at))) else { return Vec::new() };
    let (point, at) = at;
    let mut placed: Vec<NestSize> = Vec::new();
    let (own, _) = cut_paths(view.drawn, piece, size, sew);
    let own: Vec<Segment> = own.iter().flat_map(|path| segments(path, true)).collect();
    for (code, other) in all.into_iter().filter(|(code, _)| *code != size) {
        let Some(there) = other.point(&point) else { continue };
        let (paths, _) = cut_paths(view.drawn, piece, code, other);
        let turn = Affine::translation(at - there);
        let cut: Vec<Segment> = paths.iter().flat_map(|path| segments(&path.transformed(&turn), true)).collect();
        match placed.iter_mut().find(|one| one.cut == cut) {
            Some(one) => one.code.push_str(&format!(", {code}")),
            None if cut != own => placed.push(NestSize { code: code.to_string(), cut }),
            None => {}
        }
    }
    placed
}

/// The lowest named point that every size has; of points as low as each other the first by name.
fn shared(known: &[(&str, &Outline)]) -> Option<String> {
    let (_, first) = known.first()?;
    let everywhere = |name: &String| known.iter().all(|(_, sew)| sew.point(name).is_some());
    let names: BTreeSet<String> = first.names().into_iter().filter(everywhere).collect();
    let low = |name: &String| first.point(name).map_or(f64::INFINITY, |at| at.y);
    // Sets are in order, and of equal ones the first is kept.
    names.iter().min_by(|a, b| low(a).total_cmp(&low(b))).cloned()
}

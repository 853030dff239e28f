//! Which allowance an edge has.

use std::collections::BTreeSet;

use crate::geom::{Corner, Corners, Outline, Worked};
use crate::model::{Assembly, CornerStyle, EdgeFinishKind, Model, Piece};

/// Runs that need no allowance where none is stated for them alone: left raw or bound.
pub(super) fn bare_runs(model: &Model, assembly: &Assembly, piece: &str) -> BTreeSet<usize> {
    let bare = |id: &str| match model.edge_finishes.get(id).and_then(|finish| finish.kind.as_ref()) {
        Some(kind) => matches!(kind.value, EdgeFinishKind::Raw | EdgeFinishKind::Bound),
        // An edging of the piece's own name is its list of raw edges.
        None => id == piece,
    };
    let edgings = assembly.edgings.iter().filter(|edging| !edging.joins && bare(&edging.id));
    let runs = edgings.flat_map(|edging| &edging.side.runs);
    let own = runs.filter(|run| assembly.instances.get(run.instance).is_some_and(|one| one.piece == piece));
    let found: BTreeSet<usize> = own.map(|run| run.run).collect();
    // A bound edge that is sewn as well needs its allowance.
    let sewn = |run: &usize| {
        let all = assembly.sewing.accounts.iter();
        all.filter(|((instance, at), _)| {
            at == run && assembly.instances.get(*instance).is_some_and(|i| i.piece == piece)
        })
        .any(|(_, account)| !account.joints.is_empty() || !account.attached.is_empty())
    };
    found.into_iter().filter(|run| !sewn(run)).collect()
}

/// Whether an allowance written for `a-b-c` is for this run.
pub(super) fn names_run(outline: &Outline, key: &str, index: usize) -> bool {
    let point = |id: &str| match id.trim().strip_suffix('~') {
        Some(id) => outline.axis_images.get(id).cloned(),
        None => Some(id.trim().to_string()),
    };
    let names: Vec<Option<String>> = key.split('-').map(point).collect();
    names.windows(2).any(|pair| match pair {
        [Some(a), Some(b)] => outline.run_between(a, b).is_ok_and(|run| run.index == index),
        _ => false,
    })
}

/// The styles of the corners of an outline.
pub(super) fn corners(piece: &Piece, outline: &Outline) -> Corners {
    let mut corners = Corners::default();
    if let Some(style) = &piece.corners.all {
        corners.all = style.corner;
    }
    for (written, (_, style)) in &piece.corners.at {
        let id = match written.strip_suffix('~') {
            Some(id) => outline.axis_images.get(id).map(String::as_str),
            None => Some(written.as_str()),
        };
        if let Some(id) = id {
            corners.at.insert(id.to_string(), worked(outline, id, style));
        }
    }
    corners
}

/// The style with the edge it names found: before or after the point, anticlockwise.
fn worked(outline: &Outline, id: &str, style: &CornerStyle) -> Corner {
    let Some((a, b)) = &style.edge else { return style.corner };
    let other = if a == id { b } else { a };
    let side = match outline.run_between(id, other) {
        Ok(run) if run.forward => Worked::After,
        Ok(_) => Worked::Before,
        Err(_) => return style.corner,
    };
    match style.corner {
        Corner::Step(_) => Corner::Step(side),
        Corner::FoldBack(_) => Corner::FoldBack(side),
        other => other,
    }
}

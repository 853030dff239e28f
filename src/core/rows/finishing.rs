//! Finished edges in the order of work: what is done, and the edge cut through.

use crate::model::{EdgeFinish, EdgeFinishKind};
use crate::scene::{FinishedEdge, PileSide, Turned, edge};
use crate::words::{Phrase, Word, head, say, words};

use super::data;
use super::package::Drawing;
use super::step::{Made, NOT_TO_SCALE, again, length_goods, plain, ply, titled, undrawn};
use super::view::View;
use super::walk;

words! {
    RAW "finishing.raw" = "raw";
    RAW_EDGE "finishing.raw-edge" = "Raw edge";
    HEM_EDGE "finishing.hem-edge" = "Hem edge";
    BOUND_EDGE "finishing.bound-edge" = "Bound edge";
    FOLDED_EDGE "finishing.folded-edge" = "Folded edge";
    OVERLOCKED_EDGE "finishing.overlocked-edge" = "Overlocked edge";
    EDGE "finishing.edge" = "Edge";
    WITH "finishing.with" = "{finish} with {tape}";
    ON "finishing.on" = "{edge}: {finish}";
    CUT_THROUGH "finishing.cut-through" = "Edge cut through, {finish}, right side up. Stitch {stitch}.";
}

/// The step of one finish.
pub(super) fn step(view: &View<'_>, finish: &EdgeFinish) -> Made {
    let kind = finish.kind.as_ref().map(|kind| kind.value);
    let (title, done) = kind.map_or((EDGE, Phrase::none()), called);
    let on = finish.on.as_ref().map_or(String::new(), |chain| view.written(chain.span));
    let tape = finish.tape.as_ref().map(|tape| length_goods(view, tape));
    let done = match &tape {
        Some(tape) => say!(WITH, finish = done, tape),
        None => done,
    };
    let stitched = (kind != Some(EdgeFinishKind::Raw)).then_some(&finish.stitch);
    let every = walk::every(finish.on.iter().flat_map(|chain| &chain.runs));
    let walked = walk::edging(view, &finish.entry.id.value).map(|edging| walk::side(view, &edging.side, every));
    let said = walked.map_or_else(|| done.clone(), |edge| say!(ON, edge, finish = &done));
    let text = Phrase::lines([said, again(&finish.mirrored)]);
    let title = titled(&finish.entry, || title.into());
    let mut made = plain(view, title, text, on, stitched, view.text(finish.note.as_ref()));
    let step = &mut made.step;
    if let Some(turned) = kind.and_then(turned) {
        if joined(view, finish) {
            step.text = Phrase::lines([&step.text, &undrawn(&[view.text(finish.note.as_ref())])]);
            return made;
        }
        let first = ply(view, finish.on.as_ref(), PileSide::Up);
        let pile = first.pile == PileSide::Up;
        let codes = std::mem::take(&mut step.codes);
        let plies = [(first.text, codes)].into_iter().chain(tape.map(|tape| (tape, Phrase::none())));
        let ply = |(n, (text, codes)): (usize, (Phrase, Phrase))| data::Ply { number: n.to_string(), text, codes };
        step.plies = (1..).zip(plies).map(ply).collect();
        let stitch = view.stitch(&finish.stitch).kind.as_ref().map_or(String::new(), |kind| kind.value.clone());
        let alt = say!(CUT_THROUGH, finish = done, stitch = &stitch);
        let drawn = FinishedEdge { turned, pile, stitch, alt };
        step.stack = Some(Drawing::of(edge(&drawn), NOT_TO_SCALE));
    }
    made
}

/// Whether a seam joins the edge before it is finished, so that one ply alone may not be what is finished.
fn joined(view: &View<'_>, finish: &EdgeFinish) -> bool {
    let (assembly, order) = (view.assembly, &view.model.work.order);
    let place = |id: &str| order.iter().position(|one| one.value == id);
    let here = place(&finish.entry.id.value);
    let own = assembly.edgings.iter().filter(|edging| edging.id == finish.entry.id.value);
    let mut accounts =
        own.flat_map(|one| &one.side.runs).filter_map(|run| assembly.sewing.accounts.get(&(run.instance, run.run)));
    accounts.any(|account| {
        let joints = account.joints.iter().filter_map(|n| assembly.joints.get(*n)).map(|one| one.joint.as_str());
        let attached = account.attached.iter().filter_map(|n| assembly.edgings.get(*n)).map(|one| one.id.as_str());
        joints.chain(attached).any(|id| place(id).is_none_or(|at| here.is_none_or(|here| at < here)))
    })
}

/// The title of a finish, and what is done to the edge.
fn called(kind: EdgeFinishKind) -> (Word, Phrase) {
    match kind {
        EdgeFinishKind::Raw => (RAW_EDGE, RAW.into()),
        EdgeFinishKind::Hem => (HEM_EDGE, head::HEM.into()),
        EdgeFinishKind::Bound => (BOUND_EDGE, head::BOUND.into()),
        EdgeFinishKind::Fold => (FOLDED_EDGE, head::FOLDED.into()),
        EdgeFinishKind::Overlocked => (OVERLOCKED_EDGE, head::OVERLOCKED.into()),
    }
}

/// How an edge is drawn; a raw one is not.
fn turned(kind: EdgeFinishKind) -> Option<Turned> {
    match kind {
        EdgeFinishKind::Raw => None,
        EdgeFinishKind::Hem => Some(Turned::Twice),
        EdgeFinishKind::Bound => Some(Turned::Bound),
        EdgeFinishKind::Fold => Some(Turned::Once),
        EdgeFinishKind::Overlocked => Some(Turned::Overcast),
    }
}

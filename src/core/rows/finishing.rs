//! Finished edges in the order of work: what is done, and the edge cut through.

use crate::model::{EdgeFinish, EdgeFinishKind};
use crate::scene::{FinishedEdge, PileSide, Turned, edge};

use super::data::{Callout, Step};
use super::package::Drawing;
use super::step::{again, plain, ply, titled};
use super::view::{View, capital};

/// The step of one finish.
pub(super) fn step(view: &View<'_>, finish: &EdgeFinish) -> Step {
    let kind = finish.kind.as_ref().map(|kind| kind.value);
    let word = kind.map_or("", word);
    let on = finish.on.as_ref().map_or(String::new(), |chain| view.written(chain.span));
    let tape = finish.tape.as_ref().map(|tape| view.material(&tape.trim.value));
    let with = tape.as_ref().map_or(String::new(), |tape| format!(" with {tape}"));
    let title = titled(finish.entry.name.as_ref().map(|name| name.value.as_str()), &format!("{} edge", capital(word)));
    let stitched = (kind != Some(EdgeFinishKind::Raw)).then_some(&finish.stitch);
    let text = format!("{on}: {word}{with}{}", again(&finish.mirrored));
    let mut step = plain(view, title, text, stitched, view.text(finish.note.as_ref()));
    if let Some(turned) = kind.and_then(turned) {
        let first = ply(view, finish.on.as_ref(), PileSide::Up);
        let pile = first.pile == PileSide::Up;
        let plies = std::iter::once(first.text).chain(tape);
        step.plies =
            plies.enumerate().map(|(n, text)| Callout { number: (n + 1).to_string(), text: text.into() }).collect();
        let stitch = view.stitch(&finish.stitch).kind.as_ref().map_or(String::new(), |kind| kind.value.clone());
        let alt = format!("Edge cut through, {word}{with}, right side up. Stitch {stitch}.");
        let drawn = FinishedEdge { turned, pile, stitch, alt };
        step.stack = Some(Drawing::of(edge(&drawn), ""));
    }
    step
}

fn word(kind: EdgeFinishKind) -> &'static str {
    match kind {
        EdgeFinishKind::Raw => "raw",
        EdgeFinishKind::Hem => "hem",
        EdgeFinishKind::Bound => "bound",
        EdgeFinishKind::Fold => "folded",
        EdgeFinishKind::Overlocked => "overlocked",
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

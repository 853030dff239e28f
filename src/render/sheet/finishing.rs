//! Finished edges in the order of work: what is done, and the edge cut through.

use backtack_core::model::{Finish, FinishKind};
use backtack_core::scene::{FinishedEdge, PileSide, Turned, edge};

use super::super::data::{Callout, Step};
use super::super::package::Drawing;
use super::step::{again, plain, ply, titled};
use super::view::{View, capital};

/// The step of one finish.
pub(super) fn step(view: &View<'_>, finish: &Finish) -> Step {
    let kind = finish.kind.as_ref().map(|kind| kind.value);
    let word = kind.map_or("", word);
    let on = finish.on.as_ref().map_or(String::new(), |chain| view.written(chain.span));
    let tape = finish.tape.as_ref().map(|tape| view.material(&tape.trim.value));
    let with = tape.as_ref().map_or(String::new(), |tape| format!(" with {tape}"));
    let title = titled(finish.entry.name.as_ref().map(|name| name.value.as_str()), &format!("{} edge", capital(word)));
    let stitched = (kind != Some(FinishKind::Raw)).then_some(&finish.stitch);
    let text = format!("{on}: {word}{with}{}", again(&finish.mirrored));
    let mut step = plain(view, title, text, stitched, view.text(finish.note.as_ref()));
    if let Some(turned) = kind.and_then(turned) {
        let first = ply(view, finish.on.as_ref(), PileSide::Up);
        let pile = first.pile == PileSide::Up;
        let plies = std::iter::once(first.text).chain(tape);
        step.plies = plies.enumerate().map(|(n, text)| Callout { number: (n + 1).to_string(), text }).collect();
        let stitch = view.stitch(&finish.stitch).kind.as_ref().map_or(String::new(), |kind| kind.value.clone());
        let alt = format!("Edge cut through, {word}{with}, right side up. Stitch {stitch}.");
        let drawn = FinishedEdge { turned, pile, stitch, alt };
        step.stack = Some(Drawing::of(edge(&drawn), ""));
    }
    step
}

fn word(kind: FinishKind) -> &'static str {
    match kind {
        FinishKind::Raw => "raw",
        FinishKind::Hem => "hem",
        FinishKind::Bound => "bound",
        FinishKind::Fold => "folded",
        FinishKind::Overlocked => "overlocked",
    }
}

/// How an edge is drawn; a raw one is not.
fn turned(kind: FinishKind) -> Option<Turned> {
    match kind {
        FinishKind::Raw => None,
        FinishKind::Hem => Some(Turned::Twice),
        FinishKind::Bound => Some(Turned::Bound),
        FinishKind::Fold => Some(Turned::Once),
        FinishKind::Overlocked => Some(Turned::Overcast),
    }
}

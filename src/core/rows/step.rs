//! What the rows of the order of work share: texts, stitches and plies of a step.

use crate::model::assembly::sewn_cut;
use crate::model::mention::has_equal_faces;
use crate::model::{Chain, Entry, Model, RunRef, StitchUse, TrimLayer};
use crate::scene::PileSide;
use crate::source::Spanned;
use crate::words::number::{self, quantity};
use crate::words::{Phrase, say, words};

use super::data::Step;
use super::stitched::Stitched;
use super::view::View;

words! {
    AGAIN "step.again" = "also mirrored";
    TIMES "step.times" = "{ratio} × its length";
    LAPS "step.laps" = "{laps} for laps";
    NOT_TO_SCALE "step.not-to-scale" = "Not to scale";
    PILE_DOWN "step.pile-down" = "{pieces}, pile down";
    PILE_UP "step.pile-up" = "{pieces}, pile up";
    FACE_DOWN "step.face-down" = "{pieces}, face down";
    FACE_UP "step.face-up" = "{pieces}, face up";
    PILE_INSIDE "step.pile-inside" = "{pieces}, folded, pile inside";
    FACE_INSIDE "step.face-inside" = "{pieces}, folded, face inside";
    SEE_NOTE "step.see-note" = "How the edges lie is not drawn: see the note.";
    NOT_STATED "step.not-stated" = "How the edges lie is not stated.";
}

/// Whether a step is done on the other side as well.
pub(super) fn again(mirrored: &Option<Spanned<bool>>) -> Phrase {
    match mirrored {
        Some(flag) if flag.value => AGAIN.into(),
        _ => Phrase::none(),
    }
}

/// The name that the user gave it, or another title.
pub(super) fn titled(entry: &Entry, otherwise: impl FnOnce() -> Phrase) -> Phrase {
    entry.name.as_ref().map_or_else(otherwise, |name| Phrase::from(&name.value))
}

/// A step and how it is stitched.
pub(super) struct Made {
    pub step: Step,
    pub stitched: Stitched,
}

/// A step that joins no two sides.
pub(super) fn plain(
    view: &View<'_>,
    title: Phrase,
    text: Phrase,
    codes: impl Into<Phrase>,
    stitch: Option<&StitchUse>,
    note: &str,
) -> Made {
    let step = Step { title, text, codes: codes.into(), note: note.into(), ..Step::default() };
    let stitched = stitch.map_or(Stitched::Nothing, |own| Stitched::of(view, own, None));
    Made { step, stitched }
}

/// Length goods in a seam: what they are, how long for the length of the seam, and what laps take.
pub(super) fn length_goods(view: &View<'_>, trim: &TrimLayer) -> Phrase {
    let ratio = trim
        .ratio
        .as_ref()
        .and_then(|one| one.known())
        .map(|ratio| say!(TIMES, ratio = number::shortened(&number::number(*ratio, 3))));
    let laps = trim.laps.as_ref().and_then(|one| one.known()).map(|laps| say!(LAPS, laps = quantity(laps)));
    Phrase::list([Some(view.material(&trim.trim.value).into()), ratio, laps].into_iter().flatten())
}

/// One ply of a seam.
pub(super) struct Ply {
    pub text: Phrase,
    /// Its edges as they are written; empty for a trim.
    pub edges: String,
    pub pile: PileSide,
    pub face: PileSide,
    pub bead: bool,
}

/// What is said instead of a section that is not drawn, because how the edges lie follows only from a note.
pub(super) fn undrawn(notes: &[&str]) -> Phrase {
    if notes.iter().all(|note| note.is_empty()) { NOT_STATED.into() } else { SEE_NOTE.into() }
}

/// A ply that faces a side; one that faces none says which pieces it is of, and no more.
pub(super) fn ply(view: &View<'_>, chain: Option<&Chain>, facing: PileSide) -> Ply {
    let (names, pile) = pieces(view, chain);
    let facing = if faceless(view, chain) { PileSide::None } else { facing };
    let lies = match (pile, facing) {
        (_, PileSide::None) => None,
        (true, PileSide::Down) => Some(PILE_DOWN),
        (true, PileSide::Up) => Some(PILE_UP),
        (false, PileSide::Down) => Some(FACE_DOWN),
        (false, PileSide::Up) => Some(FACE_UP),
    };
    let pieces = Phrase::row(names, "; ");
    Ply {
        text: lies.map_or(pieces.clone(), |lies| say!(lies, pieces)),
        edges: chain.map_or(String::new(), |chain| view.written(chain.span)),
        pile: if pile { facing } else { PileSide::None },
        face: facing,
        bead: false,
    }
}

/// What is said of both plies of a fold, right sides together.
pub(super) fn folded(view: &View<'_>, chain: Option<&Chain>) -> Phrase {
    let (names, pile) = pieces(view, chain);
    say!(if pile { PILE_INSIDE } else { FACE_INSIDE }, pieces = Phrase::row(names, "; "))
}

/// Whether a chain is of fabric without right and wrong side alone.
fn faceless(view: &View<'_>, chain: Option<&Chain>) -> bool {
    let equal = |run: &RunRef| {
        let cut = view.model.pieces.get(&run.piece).and_then(sewn_cut);
        let material = cut.and_then(|cut| cut.material.as_ref());
        material.is_some_and(|material| has_equal_faces(view.model, &material.value))
    };
    chain.is_some_and(|chain| chain.runs.iter().all(equal))
}

/// The pieces of a chain with their materials, and whether one of these has pile.
fn pieces(view: &View<'_>, chain: Option<&Chain>) -> (Vec<String>, bool) {
    let mut names: Vec<String> = Vec::new();
    let mut pile = false;
    for run in chain.iter().flat_map(|chain| &chain.runs) {
        if let Some(piece) = view.model.pieces.get(&run.piece) {
            let material = sewn_cut(piece).and_then(|cut| cut.material.as_ref());
            let name = match material {
                Some(material) => format!("{}, {}", piece.entry.title(), view.material(&material.value)),
                None => piece.entry.title().to_string(),
            };
            pile |= material.is_some_and(|material| has_pile(view.model, &material.value));
            if !names.contains(&name) {
                names.push(name);
            }
        }
    }
    (names, pile)
}

/// Whether a material has pile in any colourway.
pub fn has_pile(model: &Model, material: &str) -> bool {
    model
        .colourways
        .keys()
        .any(|way| model.resolve(material, way).is_some_and(|(article, _)| article.quantity("pile").is_some()))
}

//! What the rows of the order of work share: texts, stitches and plies of a step.

use crate::model::assembly::sewn_cut;
use crate::model::{Chain, Model, StitchUse};
use crate::scene::PileSide;
use crate::source::Spanned;

use super::data::Step;
use super::view::View;

/// Whether a step is done on the other side as well.
pub(super) fn again(mirrored: &Option<Spanned<bool>>) -> &'static str {
    match mirrored {
        Some(flag) if flag.value => "\nand once more with left and right exchanged",
        _ => "",
    }
}

pub(super) fn titled(name: Option<&str>, otherwise: &str) -> String {
    name.unwrap_or(otherwise).to_string()
}

pub(super) fn plain(view: &View<'_>, title: String, text: String, stitch: Option<&StitchUse>, note: &str) -> Step {
    let mut step = Step { title, text, note: note.to_string(), ..Step::default() };
    if let Some(stitch) = stitch {
        stitching(view, stitch, &mut step);
    }
    step
}

pub(super) fn stitching(view: &View<'_>, own: &StitchUse, step: &mut Step) {
    let used = view.stitch(own);
    step.stitch = used.kind.as_ref().map_or(String::new(), |kind| kind.value.clone());
    let needle = view.text(used.needle.as_ref());
    if !needle.is_empty() {
        step.stitch.push_str(&format!("\nneedle {needle}"));
    }
    step.density = used.density.as_ref().and_then(|one| one.known()).map_or(String::new(), |one| one.written());
    step.thread = used.thread.as_ref().map_or(String::new(), |thread| view.material(&thread.value));
}

/// One ply of a seam.
pub(super) struct Ply {
    pub text: String,
    pub pile: PileSide,
    pub face: PileSide,
    pub bead: bool,
}

pub(super) fn ply(view: &View<'_>, chain: Option<&Chain>, facing: PileSide) -> Ply {
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
    let words = match (pile, facing) {
        (true, PileSide::Down) => ", pile down",
        (true, PileSide::Up) => ", pile up",
        (false, PileSide::Down) => ", face down",
        _ => ", face up",
    };
    Ply {
        text: format!("{}{words}", names.join("; ")),
        pile: if pile { facing } else { PileSide::None },
        face: facing,
        bead: false,
    }
}

/// Whether a material has pile in any colourway.
pub fn has_pile(model: &Model, material: &str) -> bool {
    model
        .colourways
        .keys()
        .any(|way| model.resolve(material, way).is_some_and(|(article, _)| article.quantity("pile").is_some()))
}

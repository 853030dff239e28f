//! The order of work: one row a step, each seam drawn as its stack in needle order.

use backtack_core::model::assembly::sewn_cut;
use backtack_core::model::{Chain, Joint, JointKind, Layer, Model, StitchUse, Variant};
use backtack_core::scene::{PileSide, StackPly, StackSeam, stack};
use backtack_core::source::Spanned;
use backtack_core::words::sheet as words;

use super::super::package::{Drawing, Head};
use super::super::sheets::{Callout, Construction, Sheet, Step};
use super::finishing;
use super::letters::Letters;
use super::view::{View, capital};

/// One sheet (it flows over as many pages as it needs), or none without an order of work.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let letters = Letters::of(view);
    let order = view.model.work.order.iter();
    let steps: Vec<Step> = order.enumerate().filter_map(|(n, id)| step(view, &letters, n + 1, &id.value)).collect();
    if steps.is_empty() {
        return Vec::new();
    }
    let lead = "Plies are numbered from the needle down; hatching marks the pile side, a double line the right side of other \
                fabric. Seams are sewn right sides \
                together unless a step says otherwise. An edge is written as piece, copy and points: `SIDE.l:n-c`; the \
                letter behind a seam is that of the sheet of seam matching.";
    let head = Head {
        title: words::CONSTRUCTION_TITLE.en.into(),
        name: words::CONSTRUCTION.en.into(),
        lead: lead.replace('`', ""),
    };
    vec![Sheet::Construction(Construction { head, steps })]
}

fn step(view: &View<'_>, letters: &Letters, number: usize, id: &str) -> Option<Step> {
    let model = view.model;
    let mut step = if let Some(joint) = model.joints.get(id) {
        self::joint(view, id, joint)
    } else if let Some(finish) = model.edge_finishes.get(id) {
        finishing::step(view, finish)
    } else if let Some(one) = model.topstitches.get(id) {
        let on = one.on.as_ref().map_or(String::new(), |run| view.written(run.span));
        let text = format!("along {on}{}", again(&one.mirrored));
        plain(view, one.entry.title().into(), text, Some(&one.stitch), view.text(one.note.as_ref()))
    } else if let Some(one) = model.attaches.get(id) {
        let edge = one.edge.as_ref().map_or(String::new(), |chain| view.written(chain.span));
        let on = one.on.as_ref().map_or(String::new(), |run| view.written(run.span));
        let text = format!("{edge} onto {on}{}", again(&one.mirrored));
        plain(view, one.entry.title().into(), text, Some(&one.stitch), view.text(one.note.as_ref()))
    } else {
        let one = model.steps.get(id)?;
        let word = one.word.as_ref().map_or("", |word| word.value.as_str());
        let title = titled(one.entry.name.as_ref().map(|name| name.value.as_str()), &capital(word));
        plain(view, title, what(view, one), None, view.text(one.note.as_ref()))
    };
    step.number = number.to_string();
    step.title = view.marked(&["seam", "opening", "edge-finish", "topstitch", "attach", "step"], id, &step.title);
    let letter = letters.plain(id);
    if !letter.is_empty() {
        step.title.push_str(&format!(" ({letter})"));
    }
    Some(step)
}

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

/// What a step is done to.
fn what(view: &View<'_>, one: &backtack_core::model::Step) -> String {
    let title = |id: &str| view.model.parts.get(id).map_or(id.to_string(), |part| part.entry.title().to_string());
    let stuffing = one.stuffing.as_ref().and_then(|stuffing| view.model.stuffings.get(&stuffing.value));
    let parts = [
        one.part.as_ref().map(|part| title(&part.value)),
        stuffing.map(|stuffing| format!("stuffing {}: mass on the filling sheet", stuffing.entry.title())),
        one.trim.as_ref().map(|trim| view.material(&trim.value)),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
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

fn joint(view: &View<'_>, id: &str, joint: &Joint) -> Step {
    let side = |chain: &Option<Chain>| chain.as_ref().map_or(String::new(), |chain| view.written(chain.span));
    let (a, b) = (side(&joint.a), side(&joint.b));
    let closing = joint.kind == JointKind::Opening;
    let verb = if closing { "Close" } else { "Sew" };
    let text = format!("{a}\nto {b}{}", again(&joint.mirrored));
    let mut notes: Vec<String> = Vec::new();
    if let Some(close) = &joint.close {
        let by = view.text(close.by.as_ref());
        let trim = close.trim.as_ref().map_or(String::new(), |trim| format!(", {}", view.material(&trim.value)));
        notes.push(format!("Closed by {by}{trim}"));
        notes.push(view.text(close.note.as_ref()).to_string());
    }
    for (word, ease) in [("Ease", &joint.ease), ("Gather", &joint.gather), ("Stretch", &joint.stretch)] {
        if let Some(ease) = ease {
            let side = if ease.side == backtack_core::model::SeamSide::A { &a } else { &b };
            let amount = ease.amount.known().map_or(String::new(), |amount| amount.written());
            notes.push(format!("{word} {side}: {amount}"));
        }
    }
    if let Some(on) = &joint.on {
        notes.push(format!("What is caught lies along {}", view.written(on.span)));
    }
    notes.push(view.text(joint.note.as_ref()).to_string());
    notes.retain(|note| !note.is_empty());
    let title = titled(joint.entry.name.as_ref().map(|name| name.value.as_str()), &format!("{verb} {id}"));
    let mut step = Step {
        title,
        text,
        note: notes.iter().map(|note| sentence(note)).collect::<Vec<_>>().join(" "),
        ..Step::default()
    };
    if closing && joint.stitch.kind.is_none() {
        return step;
    }
    stitching(view, &joint.stitch, &mut step);
    step.allowance = allowance(view, joint);
    let plies = plies(view, joint);
    step.plies = plies
        .iter()
        .enumerate()
        .map(|(n, ply)| Callout { number: (n + 1).to_string(), text: ply.text.clone() })
        .collect();
    step.stack = Some(drawn(view, joint, &plies, &step));
    step
}

/// A remark with its full stop.
fn sentence(text: &str) -> String {
    let text = capital(text.trim());
    if text.ends_with(['.', '!', '?', ';', ':']) { text } else { text + "." }
}

/// One ply of a seam.
pub(super) struct Ply {
    pub text: String,
    pub pile: PileSide,
    face: PileSide,
    bead: bool,
}

/// The plies in needle order: side a face down, what is caught, side b face up.
fn plies(view: &View<'_>, joint: &Joint) -> Vec<Ply> {
    let mut all = vec![ply(view, joint.a.as_ref(), PileSide::Down)];
    for layer in &joint.between {
        match layer {
            Layer::Chain(chain) => all.push(ply(view, Some(chain), PileSide::Up)),
            Layer::Trim(trim) => {
                all.push(Ply {
                    text: view.material(&trim.trim.value),
                    pile: PileSide::None,
                    face: PileSide::None,
                    bead: true,
                });
            }
        }
    }
    all.push(ply(view, joint.b.as_ref(), PileSide::Up));
    all
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

fn drawn(view: &View<'_>, joint: &Joint, plies: &[Ply], step: &Step) -> Drawing {
    let texts: Vec<&str> = plies.iter().map(|ply| ply.text.as_str()).collect();
    let stitch = view.stitch(&joint.stitch).kind.as_ref().map_or(String::new(), |kind| kind.value.clone());
    let alt = format!(
        "Seam cut through, from the needle down: {}. Stitch {stitch}, allowance {}.",
        texts.join("; "),
        step.allowance
    );
    let seam = StackSeam {
        plies: plies
            .iter()
            .enumerate()
            .map(|(n, ply)| StackPly { number: (n + 1).to_string(), pile: ply.pile, face: ply.face, bead: ply.bead })
            .collect(),
        stitch,
        allowance: step.allowance.lines().next().unwrap_or("").to_string(),
        alt,
    };
    Drawing::of(stack(&seam), "")
}

/// The allowance at a seam as written on the cut of its first run; both where the sides differ.
fn allowance(view: &View<'_>, joint: &Joint) -> String {
    let mut texts: Vec<String> = Vec::new();
    for run in [&joint.a, &joint.b].into_iter().flatten().flat_map(|chain| &chain.runs) {
        let Some(piece) = view.model.pieces.get(&run.piece) else { continue };
        let Some(cut) = sewn_cut(piece) else { continue };
        let own = cut.allowance.runs.iter().find(|(name, _)| view.written(run.span).contains(name.as_str()));
        let value = own.map(|(_, (_, value))| value).or(cut.allowance.all.as_ref());
        let drawn = view.model.variants();
        let known = value.and_then(|value| value.known(*drawn.first().unwrap_or(&Variant { size: "", colourway: "" })));
        let text = known.map_or(String::new(), |quantity| quantity.written());
        if !text.is_empty() && !texts.contains(&text) {
            texts.push(text);
        }
    }
    texts.join(" / ")
}

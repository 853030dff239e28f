//! The order of work: one row a step, each seam drawn as its stack in needle order.

use crate::model::{Chain, Joint, JointKind, Layer, SeamSide};
use crate::scene::{PileSide, StackPly, StackSeam, stack};
use crate::units::Quantity;
use crate::words::sheet as words;

use super::data::{Callout, Construction, Sheet, Step};
use super::finishing;
use super::letters::Letters;
use super::package::{Drawing, Head};
use super::step::{Ply, again, plain, ply, stitching, titled};
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
        lead: lead.replace('`', "").into(),
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
    step.title =
        view.marked(&["seam", "opening", "edge-finish", "topstitch", "attach", "step"], id, &step.title).english();
    let letter = letters.plain(id);
    if !letter.is_empty() {
        step.title.push_str(&format!(" ({letter})"));
    }
    Some(step)
}

/// What a step is done to.
fn what(view: &View<'_>, one: &crate::model::Step) -> String {
    let title = |id: &str| view.model.parts.get(id).map_or(id.to_string(), |part| part.entry.title().to_string());
    let stuffing = one.stuffing.as_ref().and_then(|stuffing| view.model.stuffings.get(&stuffing.value));
    let parts = [
        one.part.as_ref().map(|part| title(&part.value)),
        stuffing.map(|stuffing| format!("stuffing {}: mass on the filling sheet", stuffing.entry.title())),
        one.trim.as_ref().map(|trim| view.material(&trim.value)),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
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
            let side = if ease.side == crate::model::SeamSide::A { &a } else { &b };
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
    let plies = plies(view, joint);
    step.allowance = allowance(view, joint, plies.len());
    step.plies = plies
        .iter()
        .enumerate()
        .map(|(n, ply)| Callout { number: (n + 1).to_string(), text: (&ply.text).into() })
        .collect();
    step.stack = Some(drawn(view, joint, &plies, &step));
    step
}

/// A remark with its full stop.
fn sentence(text: &str) -> String {
    let text = capital(text.trim());
    if text.ends_with(['.', '!', '?', ';', ':']) { text } else { text + "." }
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

fn drawn(view: &View<'_>, joint: &Joint, plies: &[Ply], step: &Step) -> Drawing {
    let texts: Vec<&str> = plies.iter().map(|ply| ply.text.as_str()).collect();
    let stitch = view.stitch(&joint.stitch).kind.as_ref().map_or(String::new(), |kind| kind.value.clone());
    let alt = format!(
        "Seam cut through, from the needle down: {}. Stitch {stitch}, allowance {}.",
        texts.join("; "),
        step.allowance.replace('\n', "; ")
    );
    let seam = StackSeam {
        plies: plies
            .iter()
            .enumerate()
            .map(|(n, ply)| StackPly { number: (n + 1).to_string(), pile: ply.pile, face: ply.face, bead: ply.bead })
            .collect(),
        stitch,
        allowance: widths(view, joint),
        alt,
    };
    Drawing::of(stack(&seam), "")
}

/// The allowance at a seam, by size where it differs; of both sides, by the numbers of their plies, where they differ.
fn allowance(view: &View<'_>, joint: &Joint, plies: usize) -> String {
    let side = |side: SeamSide| view.by_size(|size| written(view, joint, &[side], size).join(" and "));
    let (a, b) = (side(SeamSide::A), side(SeamSide::B));
    match (a.as_str(), b.as_str()) {
        (_, "") => a,
        ("", _) => b,
        _ if a == b => a,
        _ => format!("ply 1: {a}\nply {plies}: {b}"),
    }
}

/// Every width of the allowance at a seam, for its drawing.
fn widths(view: &View<'_>, joint: &Joint) -> String {
    let mut all: Vec<String> = Vec::new();
    for size in view.sizes() {
        let more = written(view, joint, &[SeamSide::A, SeamSide::B], size);
        all.extend(more.into_iter().filter(|text| !all.contains(text)).collect::<Vec<_>>());
    }
    all.join(" / ")
}

/// The allowances along sides of a seam in a size as they are written, each once.
fn written(view: &View<'_>, joint: &Joint, sides: &[SeamSide], size: &str) -> Vec<String> {
    let mut texts: Vec<String> = Vec::new();
    for stated in sides.iter().flat_map(|side| view.assembly.allowances(view.model, joint, *side, size)) {
        let text = stated.known().map_or(String::new(), Quantity::written);
        if !text.is_empty() && !texts.contains(&text) {
            texts.push(text);
        }
    }
    texts
}

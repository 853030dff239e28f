//! Seams and openings in the order of work: what is joined, the plies, and the stack in needle order.

use crate::compute::{Facing, SeamFigures, Sides, Widths};
use crate::model::assembly::{Resolved, Side};
use crate::model::{Chain, Ease, Held, Joint, JointKind, Layer, SeamSide};
use crate::scene::{PileSide, StackPly, StackSeam, stack};
use crate::words::number::quantity;
use crate::words::{Phrase, Word, head, say, words};

use super::article::coded;
use super::data;
use super::package::Drawing;
use super::step::{Made, NOT_TO_SCALE, Ply, again, folded, length_goods, ply, titled, undrawn};
use super::stitched::Stitched;
use super::view::{View, capital, length, millimetres};
use super::walk;

words! {
    TO "construction.to" = "to {edge}";
    BOTH "construction.both" = "{a}\n{b}";
    SEW "construction.sew" = "Sew {seam}";
    CLOSE "construction.close" = "Close {opening}";
    CLOSED_BY "construction.closed-by" = "Closed by {how}.";
    CLOSED_WITH "construction.closed-with" = "Closed by {how}, {trim}.";
    EASED "construction.ease" = "Ease {edge}: {amount}; at most {limit}.";
    GATHERED "construction.gather" = "Gather {edge}: {amount}; stated {limit}.";
    STRETCHED "construction.stretch" = "Stretch {edge}: {amount}; stated {limit}.";
    LONGER "construction.longer" = "{length} mm ({share} %)";
    HELD "construction.held" = "Caught between: {what}.";
    GIRTH "construction.girth" = "A girth of {girth} must pass; the opening is {length} long.";
    LONG "construction.long" = "{length} mm";
    UNSTATED "construction.thread-unstated" = "Thread and needle are not stated.";
    NO_NEEDLE "construction.needle-unstated" = "The needle is not stated.";
    MARKED "construction.marked" = "Marked, not cut: the dart is folded in whole fabric.";
    CAUGHT "construction.caught" = "What is caught lies along {line}.";
    CAUGHT_PLY "construction.caught-ply" = "What is caught as ply {plies} lies along {line}.";
    CUT_THROUGH "construction.cut-through" = "Seam cut through, from the needle down: {plies}. Stitch {stitch}, allowance {allowance}.";
    FOLD_CUT_THROUGH "construction.fold-cut-through" = "Dart cut through, one fabric in a fold: {plies}. Stitch {stitch}.";
    OF_PLY "construction.of-ply" = "ply {ply}: {allowance}";
    AND "construction.and" = "{first} and {second}";
}

/// The step of a seam, or of closing an opening.
pub(super) fn step(view: &View<'_>, id: &str, joint: &Joint) -> Made {
    let side = |chain: &Option<Chain>| chain.as_ref().map_or(String::new(), |chain| view.written(chain.span));
    let sides = [side(&joint.a), side(&joint.b)];
    let [a, b] = &sides;
    let closing = joint.kind == JointKind::Opening;
    let walked =
        walk::joint(view, id).map(|one| [&one.a, &one.b].map(|side| walk::side(view, side, !one.usage.is_empty())));
    let seam = view.figures.seams.get(id);
    let plies = plies(view, joint, seam);
    let allowance = seam.map_or(Vec::new(), |seam| allowance(view, seam, plies.len()));
    let mut step = data::Step {
        title: titled(&joint.entry, || if closing { say!(CLOSE, opening = id) } else { say!(SEW, seam = id) }),
        text: Phrase::lines([joined(walked.unwrap_or_default()), again(&joint.mirrored)]),
        note: Phrase::row(remarks(view, id, joint, &sides), " "),
        ..data::Step::default()
    };
    if !closing {
        step.plies = callouts(view, joint, seam, &plies);
        step.stack = Some(drawn(view, joint, seam, &plies, Phrase::row(&allowance, "; ")));
        return Made { step, stitched: Stitched::of(view, &joint.stitch, Some(Phrase::lines(allowance))) };
    }
    step.codes = Phrase::lines([a, b]);
    if joint.stitch.kind.is_none() {
        return Made { step, stitched: Stitched::Nothing };
    }
    // How it is closed is told in words: no section of it is known to be true.
    let closed = joint.close.as_ref().and_then(|close| close.note.as_ref());
    let notes = [view.text(closed), view.text(joint.note.as_ref())];
    step.text = Phrase::lines([step.text, undrawn(&notes)]);
    Made { step, stitched: Stitched::of(view, &joint.stitch, Some(Phrase::lines(allowance))) }
}

/// One side to the other; nothing of neither. A frame, so that another language tells of both as well.
fn joined([a, b]: [Phrase; 2]) -> Phrase {
    match (a.is_empty(), b.is_empty()) {
        (true, true) => Phrase::none(),
        (true, false) => say!(TO, edge = b),
        _ => say!(BOTH, a, b = say!(TO, edge = b)),
    }
}

/// The plies by their numbers, each with its edges as they are written; a fold is one fabric, and said once.
fn callouts(view: &View<'_>, joint: &Joint, seam: Option<&SeamFigures>, plies: &[Ply]) -> Vec<data::Ply> {
    let texts = told(view, joint, seam, plies);
    let mut edges: Vec<Phrase> = plies.iter().map(|ply| Phrase::from(&ply.edges)).collect();
    if texts.len() < plies.len() {
        let last = edges.pop();
        if let (Some(first), Some(last)) = (edges.first_mut(), last) {
            *first = Phrase::lines([first.clone(), last]);
        }
    }
    let callout = |(n, (text, codes)): (usize, (Phrase, Phrase))| data::Ply { number: n.to_string(), text, codes };
    (1usize..).zip(texts.into_iter().zip(edges)).map(callout).collect()
}

/// What is said of each ply; of a fold once.
fn told(view: &View<'_>, joint: &Joint, seam: Option<&SeamFigures>, plies: &[Ply]) -> Vec<Phrase> {
    let texts = plies.iter().map(|ply| ply.text.clone());
    if seam.is_some_and(|seam| seam.fold) {
        let caught = texts.skip(1).take(plies.len().saturating_sub(2));
        return std::iter::once(folded(view, joint.a.as_ref())).chain(caught).collect();
    }
    texts.collect()
}

/// What else is said of a seam: how it is closed, eased and caught, and what the user remarks.
fn remarks(view: &View<'_>, id: &str, joint: &Joint, [a, b]: &[String; 2]) -> Vec<Phrase> {
    let mut all: Vec<Phrase> = Vec::new();
    if view.figures.seams.get(id).is_some_and(|seam| seam.fold) {
        all.push(MARKED.into());
    }
    if let Some(close) = &joint.close {
        let how = view.text(close.by.as_ref()).trim().trim_end_matches('.');
        let trim = close.trim.as_ref().map(|trim| view.material(&trim.value));
        all.push(match (how, trim) {
            ("", None) => Phrase::none(),
            ("", Some(trim)) => say!(CLOSED_BY, how = trim),
            (how, Some(trim)) => say!(CLOSED_WITH, how, trim),
            (how, None) => say!(CLOSED_BY, how),
        });
        all.push(sentence(view.text(close.note.as_ref())));
        let own = &joint.stitch;
        if own.kind.is_none() && own.needle.is_none() && own.shared.is_none() && close.trim.is_none() {
            let thread = own.thread.is_some() || view.model.means_of(id).is_some_and(|means| !means.threads.is_empty());
            all.push(if thread { NO_NEEDLE } else { UNSTATED }.into());
        }
    }
    let eased = |word: Word, ease: &Ease| {
        let edge = if ease.side == SeamSide::A { a } else { b };
        let limit = ease.amount.known().map_or_else(|| head::NOT_KNOWN.into(), |amount| Phrase::from(quantity(amount)));
        say!(word, edge, amount = view.in_sizes(|size| longer(view, id, ease.side, size)), limit)
    };
    for (word, ease) in [(EASED, &joint.ease), (GATHERED, &joint.gather), (STRETCHED, &joint.stretch)] {
        all.extend(ease.as_ref().map(|ease| eased(word, ease)));
    }
    if joint.kind == JointKind::Opening {
        all.extend(joint.between.iter().map(|layer| say!(HELD, what = held(view, layer))));
    }
    let girth = joint.girth.as_ref().map(|girth| coded(view, girth, |one| quantity(one).into()));
    let sewn = |size: &str| view.figures.seams.get(id)?.sizes.get(size)?.sewn.known().copied();
    let long = |size: &str| sewn(size).map_or_else(Phrase::none, |one| say!(LONG, length = length(one)));
    all.extend(girth.map(|girth| say!(GIRTH, girth, length = view.in_sizes(long))));
    all.extend(walk::joint(view, id).into_iter().flat_map(|one| lies(view, one)));
    all.push(sentence(view.text(joint.note.as_ref())));
    all
}

/// Where what is caught lies; by the numbers of the plies where they lie in several places.
fn lies(view: &View<'_>, joint: &Resolved) -> Vec<Phrase> {
    let every = !joint.usage.is_empty();
    let stretches = joint.stretches();
    let on = |layer: usize, stretch: &Side| joint.place(layer).is_some_and(|one| one.runs == stretch.runs);
    let one = |stretch: &&Side| {
        let line = walk::side(view, stretch, every);
        let plies: Vec<usize> = (0..joint.between.len()).filter(|layer| on(*layer, stretch)).collect();
        if plies.len() == joint.between.len() {
            return say!(CAUGHT, line);
        }
        say!(CAUGHT_PLY, plies = Phrase::and(plies.iter().map(|layer| (layer + 2).to_string())), line)
    };
    stretches.iter().map(one).collect()
}

/// How much longer the side with fullness is in a size: what it is, not what is allowed.
fn longer(view: &View<'_>, id: &str, side: SeamSide, size: &str) -> Phrase {
    let Some(one) = view.figures.seams.get(id).and_then(|seam| seam.sizes.get(size)) else { return Phrase::none() };
    let (Some(difference), Some(share)) = (one.difference.known(), one.fullness.known()) else {
        return head::NOT_KNOWN.into();
    };
    let more = if side == SeamSide::A { -difference.get() } else { difference.get() };
    say!(LONGER, length = millimetres(more), share = length(*share))
}

/// What is caught, where no ply says so.
fn held(view: &View<'_>, layer: &Layer) -> Phrase {
    match &layer.held {
        Held::Chain(chain) => view.written(chain.span).into(),
        Held::Trim(trim) => length_goods(view, trim),
    }
}

/// A remark of the user with its full stop; nothing stays nothing.
fn sentence(text: &str) -> Phrase {
    let text = capital(text.trim());
    if text.is_empty() || text.ends_with(['.', '!', '?', ';', ':']) { text.into() } else { (text + ".").into() }
}

/// The plies in needle order, each facing as the figures say.
fn plies(view: &View<'_>, joint: &Joint, seam: Option<&SeamFigures>) -> Vec<Ply> {
    let facing = |layer: usize| match seam.and_then(|seam| seam.facing.get(layer)) {
        Some(Facing::Up) => PileSide::Up,
        Some(Facing::Down) => PileSide::Down,
        Some(Facing::NotKnown) | None => PileSide::None,
    };
    let mut all = vec![ply(view, joint.a.as_ref(), facing(0))];
    for (layer, between) in (1..).zip(&joint.between) {
        all.push(match &between.held {
            Held::Chain(chain) => ply(view, Some(chain), facing(layer)),
            Held::Trim(trim) => Ply {
                text: length_goods(view, trim),
                edges: String::new(),
                pile: PileSide::None,
                face: PileSide::None,
                bead: true,
            },
        });
    }
    all.push(ply(view, joint.b.as_ref(), facing(all.len())));
    all
}

fn drawn(view: &View<'_>, joint: &Joint, seam: Option<&SeamFigures>, plies: &[Ply], allowance: Phrase) -> Drawing {
    let stitch = view.stitch(&joint.stitch).kind.as_ref().map_or(String::new(), |kind| kind.value.clone());
    let fold = seam.is_some_and(|seam| seam.fold);
    let number = |n: usize| if fold && n + 1 == plies.len() { String::new() } else { (n + 1).to_string() };
    let drawn =
        |(n, ply): (usize, &Ply)| StackPly { number: number(n), pile: ply.pile, face: ply.face, bead: ply.bead };
    let texts = Phrase::row(told(view, joint, seam, plies), "; ");
    let alt = match fold {
        true => say!(FOLD_CUT_THROUGH, plies = texts, stitch = &stitch),
        false => say!(CUT_THROUGH, plies = texts, stitch = &stitch, allowance),
    };
    let allowance = seam.map_or(String::new(), |seam| seam.widths(view.sizes()).join(" / "));
    let seam = StackSeam { plies: plies.iter().enumerate().map(drawn).collect(), fold, allowance, alt, stitch };
    Drawing::of(stack(&seam), NOT_TO_SCALE)
}

/// The allowance at a seam, by size where it differs; of each side by the number of its ply, where they differ.
fn allowance(view: &View<'_>, seam: &SeamFigures, plies: usize) -> Vec<Phrase> {
    let side = |of: fn(&Widths) -> &Vec<String>| {
        let in_size = |size: &str| {
            let texts = seam.sizes.get(size).into_iter().flat_map(|one| of(&one.allowance)).map(Phrase::from);
            texts.reduce(|first, second| say!(AND, first, second)).unwrap_or_default()
        };
        view.in_sizes(in_size)
    };
    let (a, b) = (|| side(|widths| &widths.a), || side(|widths| &widths.b));
    match seam.allowance_of {
        Sides::Alike | Sides::A => vec![a()],
        Sides::B => vec![b()],
        Sides::Each => vec![say!(OF_PLY, ply = 1usize, allowance = a()), say!(OF_PLY, ply = plies, allowance = b())],
        Sides::None => Vec::new(),
    }
}

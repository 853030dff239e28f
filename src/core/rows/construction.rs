//! The order of work: one row a step, each seam drawn as its stack in needle order.

use crate::compute::{Facing, SeamFigures, Sides, Widths};
use crate::model::assembly::Edging;
use crate::model::{Chain, Ease, Joint, JointKind, Layer, SeamSide};
use crate::scene::{PileSide, StackPly, StackSeam, stack};
use crate::words::number::quantity;
use crate::words::{Phrase, Word, head, say, sheet, words};

use super::article::coded;
use super::choice::begun;
use super::data::{Callout, Construction, Sheet, Step};
use super::finishing;
use super::letters::Letters;
use super::package::{Drawing, Head};
use super::step::{NOT_TO_SCALE, Ply, again, folded, length_goods, plain, ply, stitching, titled, undrawn};
use super::view::{View, capital, length, millimetres};
use super::walk;

words! {
    LEAD "construction.lead" = "Plies are numbered from the needle down; hatching marks the pile side, a double line the right side of other fabric. Seams are sewn right sides together unless a step says otherwise. Below each ply is its edge as piece, copy and points: SIDE.l:n-c; the letter behind a seam is that of the sheet of seam matching.";
    LETTERED "construction.lettered" = "{title} ({letter})";
    ALONG "construction.along" = "along {edge}";
    ONTO "construction.onto" = "{edge} onto {line}";
    TO "construction.to" = "to {edge}";
    BOTH "construction.both" = "{a}\n{b}";
    EDGES "construction.edges" = "{a} to {b}";
    SEW "construction.sew" = "Sew {seam}";
    CLOSE "construction.close" = "Close {opening}";
    STUFF "construction.stuff" = "stuffing {stuffing}: mass on the filling sheet";
    CLOSED_BY "construction.closed-by" = "Closed by {how}.";
    CLOSED_WITH "construction.closed-with" = "Closed by {how}, {trim}.";
    EASED "construction.ease" = "Ease {edge}: {amount}; at most {limit}.";
    GATHERED "construction.gather" = "Gather {edge}: {amount}; stated {limit}.";
    STRETCHED "construction.stretch" = "Stretch {edge}: {amount}; stated {limit}.";
    LONGER "construction.longer" = "{length} mm ({share} %)";
    HELD "construction.held" = "Caught between: {what}.";
    GIRTH "construction.girth" = "It lets a girth of {girth} pass.";
    CAUGHT "construction.caught" = "What is caught lies along {line}.";
    CUT_THROUGH "construction.cut-through" = "Seam cut through, from the needle down: {plies}. Stitch {stitch}, allowance {allowance}.";
    FOLD_CUT_THROUGH "construction.fold-cut-through" = "Dart cut through, one fabric in a fold: {plies}. Stitch {stitch}.";
    OF_PLY "construction.of-ply" = "ply {ply}: {allowance}";
    AND "construction.and" = "{first} and {second}";
}

/// One sheet (it flows over as many pages as it needs), or none without an order of work.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let letters = Letters::of(view);
    let order = view.model.work.order.iter();
    let steps: Vec<Step> = order.enumerate().filter_map(|(n, id)| step(view, &letters, n + 1, &id.value)).collect();
    if steps.is_empty() {
        return Vec::new();
    }
    let head = Head { title: sheet::CONSTRUCTION_TITLE.into(), name: sheet::CONSTRUCTION.into(), lead: LEAD.into() };
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
        let line = walk::edging(view, id)
            .map(|edging| say!(ALONG, edge = walk::line(view, edging, walk::every(one.on.iter()))));
        let text = Phrase::lines([walk::coded(line, on), again(&one.mirrored)]);
        plain(view, one.entry.title().into(), text, Some(&one.stitch), view.text(one.note.as_ref()))
    } else if let Some(one) = model.attaches.get(id) {
        let edge = one.edge.as_ref().map_or(String::new(), |chain| view.written(chain.span));
        let on = one.on.as_ref().map_or(String::new(), |run| view.written(run.span));
        let every = walk::every(one.edge.iter().flat_map(|chain| &chain.runs).chain(&one.on));
        let walked =
            |one: &Edging| say!(ONTO, edge = walk::side(view, &one.side, every), line = walk::line(view, one, every));
        let walked = walk::edging(view, id).map(walked);
        let text = Phrase::lines([walk::coded(walked, say!(ONTO, edge, line = on)), again(&one.mirrored)]);
        plain(view, one.entry.title().into(), text, Some(&one.stitch), view.text(one.note.as_ref()))
    } else {
        let one = model.steps.get(id)?;
        let word = one.word.as_ref().map_or("", |word| word.value.as_str());
        let title = titled(&one.entry, || begun(word));
        plain(view, title, what(view, one), None, view.text(one.note.as_ref()))
    };
    step.number = number.to_string();
    step.title = view.marked(&["seam", "opening", "edge-finish", "topstitch", "attach", "step"], id, step.title);
    let letter = letters.plain(id);
    if !letter.is_empty() {
        step.title = say!(LETTERED, title = step.title, letter);
    }
    Some(step)
}

/// What a step is done to.
fn what(view: &View<'_>, one: &crate::model::Step) -> Phrase {
    let title = |id: &str| view.model.parts.get(id).map_or(id.to_string(), |part| part.entry.title().to_string());
    let stuffing = one.stuffing.as_ref().and_then(|stuffing| view.model.stuffings.get(&stuffing.value));
    let parts = [
        one.part.as_ref().map(|part| title(&part.value).into()),
        stuffing.map(|stuffing| say!(STUFF, stuffing = stuffing.entry.title())),
        one.trim.as_ref().map(|trim| view.material(&trim.value).into()),
    ];
    Phrase::list(parts.into_iter().flatten().collect::<Vec<Phrase>>())
}

fn joint(view: &View<'_>, id: &str, joint: &Joint) -> Step {
    let side = |chain: &Option<Chain>| chain.as_ref().map_or(String::new(), |chain| view.written(chain.span));
    let sides = [side(&joint.a), side(&joint.b)];
    let [a, b] = &sides;
    let closing = joint.kind == JointKind::Opening;
    let walked =
        walk::joint(view, id).map(|one| [&one.a, &one.b].map(|side| walk::side(view, side, !one.usage.is_empty())));
    let mut step = Step {
        title: titled(&joint.entry, || if closing { say!(CLOSE, opening = id) } else { say!(SEW, seam = id) }),
        text: Phrase::lines([joined(walked.unwrap_or_default()), again(&joint.mirrored)]),
        note: Phrase::row(remarks(view, id, joint, &sides), " "),
        ..Step::default()
    };
    if closing {
        step.text = Phrase::lines([step.text, say!(EDGES, a, b)]);
        if joint.stitch.kind.is_none() {
            return step;
        }
    }
    stitching(view, &joint.stitch, &mut step);
    let seam = view.figures.seams.get(id);
    let plies = plies(view, joint, seam);
    let allowance = seam.map_or(Vec::new(), |seam| allowance(view, seam, plies.len()));
    step.allowance = Phrase::lines(&allowance);
    if closing {
        // How it is closed is told in words: no section of it is known to be true.
        let closed = joint.close.as_ref().and_then(|close| close.note.as_ref());
        let notes = [view.text(closed), view.text(joint.note.as_ref())];
        step.text = Phrase::lines([step.text, undrawn(&notes)]);
        return step;
    }
    step.plies = callouts(view, joint, seam, &plies);
    step.stack = Some(drawn(view, joint, seam, &plies, Phrase::row(&allowance, "; ")));
    step
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
fn callouts(view: &View<'_>, joint: &Joint, seam: Option<&SeamFigures>, plies: &[Ply]) -> Vec<Callout> {
    let texts = told(view, joint, seam, plies);
    let mut edges: Vec<Phrase> = plies.iter().map(|ply| Phrase::from(&ply.edges)).collect();
    if texts.len() < plies.len() {
        let last = edges.pop();
        if let (Some(first), Some(last)) = (edges.first_mut(), last) {
            *first = Phrase::lines([first.clone(), last]);
        }
    }
    let callout = |(n, (text, edges)): (usize, (Phrase, Phrase))| Callout {
        number: n.to_string(),
        text: Phrase::lines([text, edges]),
    };
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
    all.extend(girth.map(|girth| say!(GIRTH, girth)));
    let on = walk::joint(view, id).and_then(|one| Some((one.on.as_ref()?, !one.usage.is_empty())));
    all.extend(on.map(|(on, every)| say!(CAUGHT, line = walk::side(view, on, every))));
    all.push(sentence(view.text(joint.note.as_ref())));
    all
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
    match layer {
        Layer::Chain(chain) => view.written(chain.span).into(),
        Layer::Trim(trim) => length_goods(view, trim),
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
        all.push(match between {
            Layer::Chain(chain) => ply(view, Some(chain), facing(layer)),
            Layer::Trim(trim) => Ply {
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

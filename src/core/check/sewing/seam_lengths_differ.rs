//! Rule: the layers of a seam differ in length.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::{Resolved, Run, Side};
use crate::model::{Ease, Joint, SeamSide};
use crate::words::{Phrase, number, say, words};

use super::{limits, text};

/// Layers of one seam that are not equally long.
pub const RULE: Rule = Rule {
    code: "seam-lengths-differ",
    family: "sewing",
    severity: Severity::Must,
    summary: "the layers of a seam differ in length",
    explanation: "Both sides of a seam, and what is caught between them, must be equally long on the sew line in every \
                  size, after the ease, gathering or stretch that is stated; also between points that both sides name. \
                  Up to 0.5 mm or 0.5 % (the greater) is taken up without notice. A difference that is meant is written \
                  as ease, so that the machinist knows which layer is the longer one.",
    failing: "[seam.lid]\na = \"LID:n-e-s-w-n\"  # 471.2 mm round\nb = \"STRIP:sw-se\"  # 480.0 mm",
    passing: "[seam.lid]\na = \"LID:n-e-s-w-n\"  # 471.2 mm round\nb = \"STRIP:sw-se\"  # 480.0 mm\nease = { side = \
              \"b\", up_to = \"2 %\" }",
    source: "common practice: 0.5 mm or 0.5 %",
};

words! {
    BEYOND_EASE "seam-lengths-differ.beyond-ease" = "; the ease does not cover that";
    OTHER_GATHERING "seam-lengths-differ.other-gathering" = "; the gathering stated gives another ratio";
    OTHER_STRETCH "seam-lengths-differ.other-stretch" = "; the stretch stated gives another ratio";
    SIDES "seam-lengths-differ.sides" = "{joint}{size}: {a} is {length_a} long and {b} is {length_b}{after}";
    LONG "seam-lengths-differ.long" = "{length} long";
    STATED "seam-lengths-differ.stated" = "what is stated";
    OTHER_RATIO "seam-lengths-differ.other-ratio" = "write {key} = { side = \"{side}\", ratio = \"{ratio} %\" }, or redraw one side";
    GATHER "seam-lengths-differ.gather" = "redraw one side; if side {side} is meant to be gathered, write gather = { side = \"{side}\", ratio = \"{ratio} %\" }";
    EASE "seam-lengths-differ.ease" = "write ease = { side = \"{side}\", up_to = \"{percent} %\" } if it is to be eased in, or redraw one side";
    CAUGHT "seam-lengths-differ.caught" = "{joint}{size} catches {b}, {length_b} long, along {a}, which is {length_a}";
    ON "seam-lengths-differ.on" = "name points on side a where the caught edge begins and ends, and write on = \"..\" with them";
    SIDE_BY_SIDE "seam-lengths-differ.side-by-side" = "each of the caught edges lies along the whole of it: where they lie side by side, name points on side a between them, and give each its own place: between = [{ edge = \"..\", on = \"..\" }, ..]";
    FIT "seam-lengths-differ.fit" = "draw the caught edge {edge} long, or let the stretch it lies along go between points that are {stretch} apart";
    WHOLE "seam-lengths-differ.whole" = "draw the caught edge {edge} long: it is longer than the whole seam";
}

/// What differs: in which sizes, and the lengths in the first of them.
struct Uneven {
    sizes: Vec<String>,
    a: (Vec<Run>, f64),
    b: (Vec<Run>, f64),
}

/// Reports each seam once, with every size in which it differs.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for resolved in &context.assembly.joints {
        let Some(joint) = context.model.joints.get(&resolved.joint) else { continue };
        if let Some(uneven) = sides(context, resolved, joint)
            && told.insert((resolved.joint.as_str(), 0))
        {
            findings.push(finding(context, resolved, joint, &uneven));
        }
        for (n, side) in resolved.caught_layers() {
            if let Some(uneven) = caught(context, resolved.along(n), side)
                && told.insert((resolved.joint.as_str(), n + 1))
            {
                findings.push(caught_finding(context, resolved, (n, side), &uneven));
            }
        }
    }
}

fn sizes<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a str> {
    context.model.sizes.iter().map(|size| size.entry.id.value.as_str())
}

/// The first of what differs, with the sizes of all of it.
fn first(mut all: impl Iterator<Item = Uneven>) -> Option<Uneven> {
    let mut first = all.next()?;
    first.sizes.extend(all.flat_map(|other| other.sizes));
    Some(first)
}

fn in_sizes(context: &Context<'_>, uneven: &Uneven) -> Phrase {
    text::in_sizes(context, &uneven.sizes.iter().map(String::as_str).collect::<Vec<_>>())
}

/// The first size and stretch in which the two sides differ: as a whole, else between two matching points.
fn sides(context: &Context<'_>, resolved: &Resolved, joint: &Joint) -> Option<Uneven> {
    let (a, b) = (&resolved.a.runs, &resolved.b.runs);
    let whole = [(a.clone(), b.clone())];
    let parts = if a.len() == b.len() && a.len() > 1 {
        a.iter().zip(b).map(|(a, b)| (vec![*a], vec![*b])).collect()
    } else {
        Vec::new()
    };
    let stretches: Vec<(Vec<Run>, Vec<Run>)> = whole.into_iter().chain(parts).collect();
    stretches.iter().find_map(|(a, b)| first(sizes(context).filter_map(|size| uneven(context, joint, size, a, b))))
}

fn uneven(context: &Context<'_>, joint: &Joint, size: &str, a: &[Run], b: &[Run]) -> Option<Uneven> {
    let assembly = context.assembly;
    let long_a = assembly.lengths.sum(&assembly.instances, size, a)?;
    let long_b = assembly.lengths.sum(&assembly.instances, size, b)?;
    (!agree(joint, long_a, long_b)).then(|| Uneven {
        sizes: vec![size.to_string()],
        a: (a.to_vec(), long_a),
        b: (b.to_vec(), long_b),
    })
}

/// Whether two lengths agree after what is stated. What is stated as by factory or withheld is not judged.
fn agree(joint: &Joint, a: f64, b: f64) -> bool {
    if let Some(ease) = &joint.ease {
        let Some(share) = share(ease) else { return true };
        let (eased, other) = ordered(ease.side, a, b);
        let slack = limits::equal(other);
        return eased >= other - slack && eased <= other * (1.0 + share) + slack;
    }
    if let Some(ratio) = joint.gather.as_ref().or(joint.stretch.as_ref()) {
        let Some(share) = share(ratio) else { return true };
        let (worked, other) = ordered(ratio.side, a, b);
        return (worked - other * share).abs() <= limits::equal(other * share);
    }
    (a - b).abs() <= limits::equal(a.max(b))
}

fn share(ease: &Ease) -> Option<f64> {
    ease.amount.known().map(|quantity| quantity.si_f64())
}

/// The side named, then the other.
fn ordered(side: SeamSide, a: f64, b: f64) -> (f64, f64) {
    match side {
        SeamSide::A => (a, b),
        SeamSide::B => (b, a),
    }
}

fn finding(context: &Context<'_>, resolved: &Resolved, joint: &Joint, uneven: &Uneven) -> Finding {
    let implied = !resolved.usage.is_empty();
    let (a, b) = (&uneven.a, &uneven.b);
    let name = |runs: &[Run]| text::chain(context, runs, implied);
    let after = match (&joint.ease, &joint.gather, &joint.stretch) {
        (Some(_), _, _) => BEYOND_EASE.into(),
        (_, Some(_), _) => OTHER_GATHERING.into(),
        (_, _, Some(_)) => OTHER_STRETCH.into(),
        _ => Phrase::none(),
    };
    let message = say!(
        SIDES,
        joint = &resolved.joint,
        size = in_sizes(context, uneven),
        a = name(&a.0),
        length_a = text::mm(a.1),
        b = name(&b.0),
        length_b = text::mm(b.1),
        after
    );
    let mut finding = Finding::new(&RULE, message)
        .at(place(&resolved.b, &b.0), say!(LONG, length = text::mm(b.1)))
        .at(place(&resolved.a, &a.0), say!(LONG, length = text::mm(a.1)));
    if let Some(stated) = [&joint.ease, &joint.gather, &joint.stretch].into_iter().flatten().next() {
        finding = finding.at(stated.span, STATED);
    }
    finding.help(cure(context, joint, resolved, uneven))
}

/// Where the first of some runs is written.
fn place(side: &Side, runs: &[Run]) -> crate::source::Span {
    let at = side.runs.iter().position(|run| Some(run) == runs.first());
    let whole = runs.len() == side.runs.len();
    at.filter(|_| !whole).and_then(|at| side.places.get(at).copied()).unwrap_or(side.span)
}

/// The statement that would make the layers agree.
fn cure(context: &Context<'_>, joint: &Joint, resolved: &Resolved, uneven: &Uneven) -> Phrase {
    let (a, b) = (uneven.a.1, uneven.b.1);
    let side = |side: SeamSide| if side == SeamSide::A { "a" } else { "b" };
    for (key, stated) in [("gather", &joint.gather), ("stretch", &joint.stretch)] {
        if let Some(stated) = stated {
            let (worked, other) = ordered(stated.side, a, b);
            let ratio = worked / other * 100.0;
            return say!(OTHER_RATIO, key, side = side(stated.side), ratio = number::number(ratio, 1));
        }
    }
    let longer = if a > b { SeamSide::A } else { SeamSide::B };
    // The ease must cover every size of the whole seam and the stretch at hand.
    let assembly = context.assembly;
    let whole = sizes(context).filter_map(|size| {
        let long = |runs: &[Run]| assembly.lengths.sum(&assembly.instances, size, runs);
        Some((long(&resolved.a.runs)?, long(&resolved.b.runs)?))
    });
    let excess = whole.chain([(a, b)]).map(|(a, b)| ordered(longer, a, b)).map(|(long, short)| long / short - 1.0);
    let percent = libm::ceil(excess.fold(0.0, f64::max) * 1000.0 - 1e-6) / 10.0;
    if percent > MOST_EASE {
        let (long, short) = ordered(longer, a, b);
        let ratio = long / short * 100.0;
        return say!(GATHER, side = side(longer), ratio = number::number(ratio, 1));
    }
    say!(EASE, side = side(longer), percent = number::number(percent, number::places(percent, 1)))
}

/// Beyond this, in percent, fabric is no longer eased but gathered (*common practice*).
const MOST_EASE: f64 = 10.0;

/// A caught edge against the stretch it lies on.
fn caught(context: &Context<'_>, lies_on: &Side, side: &Side) -> Option<Uneven> {
    let assembly = context.assembly;
    first(sizes(context).filter_map(|size| {
        let seam = assembly.lengths.sum(&assembly.instances, size, &lies_on.runs)?;
        let caught = assembly.lengths.sum(&assembly.instances, size, &side.runs)?;
        ((seam - caught).abs() > limits::equal(seam.max(caught))).then(|| Uneven {
            sizes: vec![size.to_string()],
            a: (lies_on.runs.clone(), seam),
            b: (side.runs.clone(), caught),
        })
    }))
}

fn caught_finding(
    context: &Context<'_>,
    resolved: &Resolved,
    (layer, side): (usize, &Side),
    uneven: &Uneven,
) -> Finding {
    let implied = !resolved.usage.is_empty();
    let (a, b) = (&uneven.a, &uneven.b);
    let message = say!(
        CAUGHT,
        joint = &resolved.joint,
        size = in_sizes(context, uneven),
        b = text::chain(context, &b.0, implied),
        length_b = text::mm(b.1),
        a = text::chain(context, &a.0, implied),
        length_a = text::mm(a.1)
    );
    let lies_on = resolved.along(layer);
    let help = match (resolved.place(layer), b.1 < a.1) {
        (_, true) if are_side_by_side(context, resolved, lies_on, uneven) => Phrase::from(SIDE_BY_SIDE),
        (None, true) => Phrase::from(ON),
        (Some(_), _) => say!(FIT, edge = text::mm(a.1), stretch = text::mm(b.1)),
        (None, false) => say!(WHOLE, edge = text::mm(a.1)),
    };
    Finding::new(&RULE, message)
        .at(side.span, say!(LONG, length = text::mm(b.1)))
        .at(lies_on.span, say!(LONG, length = text::mm(a.1)))
        .help(help)
}

/// Whether several limbs are caught along one stretch, or edges of one that are no longer than it together: they are no plies,
/// which lie on each other.
fn are_side_by_side(context: &Context<'_>, resolved: &Resolved, lies_on: &Side, uneven: &Uneven) -> bool {
    let assembly = context.assembly;
    let size = uneven.sizes.first().map_or("", String::as_str);
    let here = |layer: usize| resolved.along(layer).runs == lies_on.runs;
    let sides: Vec<&Side> = resolved.caught_layers().filter(|(n, _)| here(*n)).map(|(_, side)| side).collect();
    let part = |side: &&Side| {
        let run = side.runs.first()?;
        assembly.instances.get(run.instance).map(|one| (one.part.as_str(), one.usage.as_str()))
    };
    let long = |side: &&Side| assembly.lengths.sum(&assembly.instances, size, &side.runs);
    let several = sides.windows(2).any(|pair| pair.first().map(part) != pair.last().map(part));
    let (stretch, all) = (uneven.a.1, sides.iter().map(long).sum::<Option<f64>>());
    several || (sides.len() > 1 && all.is_some_and(|all| all <= stretch + limits::equal(stretch)))
}

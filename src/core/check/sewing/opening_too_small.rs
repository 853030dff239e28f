//! Rule: an opening is short for what must pass it.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::{Resolved, Side};
use crate::model::{JointKind, Stated, Value, Variant};
use crate::standards::common::TURNING_OPENING;
use crate::units::Quantity;
use crate::words::{say, words};

use super::text;

/// An opening through which nothing passes.
pub const RULE: Rule = Rule {
    code: "opening-too-small",
    family: "sewing",
    severity: Severity::Should,
    summary: "an opening is short for what must pass it",
    explanation: "What is turned or put in has to pass the opening. Common practice is an opening of at least a third \
                  of the girth stated; shorter ones tear at their ends, or take minutes a piece. Where no girth is stated, the widest \
                  piece of the part tells: an opening shorter than a third of its shorter side is asked about.",
    failing: "[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"\ngirth = \"300 mm\"\nclose = { by = \"hand\" }  # \
              u-v is 60 mm",
    passing: "[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"\ngirth = \"300 mm\"\nclose = { by = \"hand\" }  # \
              u-v is 105 mm",
    source: "common practice: a third of the girth",
};

words! {
    MESSAGE "opening-too-small.message" = "opening {joint} is {long} long{size}, but {wide} must pass: a third of that is {least}";
    LONG "opening-too-small.long" = "{length} long";
    GIRTH "opening-too-small.girth" = "the girth that must pass";
    UNSTATED "opening-too-small.unstated" = "opening {joint} is {long} long, and {piece}, of the same part, is {wide} across";
    PIECE "opening-too-small.piece" = "{wide} across";
    SAY "opening-too-small.say" = "move the points at its ends until it is at least {least} long, or state what must pass: girth = \"..\"";
    HELP "opening-too-small.help" = "move the points at its ends until it is at least {least} long, or state the girth of what really passes";
}

/// Reports each opening that is too short once, with every size in which it is.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let mut told = std::collections::BTreeSet::new();
    for joint in &context.assembly.joints {
        let Some(opening) = model.joints.get(&joint.joint).filter(|one| one.kind == JointKind::Opening) else {
            continue;
        };
        let Some(girth) = &opening.girth else {
            findings.extend(unstated(context, joint).filter(|_| told.insert(joint.joint.clone())));
            continue;
        };
        let sizes = model.sizes.iter().map(|size| size.entry.id.value.as_str());
        let short: Vec<(&str, Short<'_>)> =
            sizes.filter_map(|size| Some((size, short(context, joint, girth, size)?))).collect();
        let Some((_, Short { stated, wide, long, least })) = short.first().filter(|_| told.insert(joint.joint.clone()))
        else {
            continue;
        };
        let sizes: Vec<&str> = short.iter().map(|(size, _)| *size).collect();
        let message = say!(
            MESSAGE,
            joint = &joint.joint,
            long = text::mm(*long),
            size = text::in_sizes(context, &sizes),
            wide = text::mm(*wide),
            least = text::mm(*least)
        );
        findings.push(
            Finding::new(&RULE, message)
                .at(joint.a.span, say!(LONG, length = text::mm(*long)))
                .at(stated.span, GIRTH)
                .help(say!(HELP, least = text::mm(*least))),
        );
    }
}

/// An opening of which no girth is stated, far shorter than the part is wide.
fn unstated(context: &Context<'_>, joint: &Resolved) -> Option<Finding> {
    let (model, assembly) = (context.model, context.assembly);
    let size = model.drawn_size()?.entry.id.value.as_str();
    let part = &assembly.instances.get(joint.a.runs.first()?.instance)?.part;
    let across = |id: &String| {
        let bounds = assembly.outlines.get(id, size).ok()?.bbox();
        Some((bounds.width().min(bounds.height()), model.pieces.get(id)?))
    };
    let own = model.pieces.iter().filter(|(_, piece)| piece.part.as_ref().is_some_and(|one| one.value == *part));
    let (wide, piece) = own.filter_map(|(id, _)| across(id)).max_by(|a, b| a.0.total_cmp(&b.0))?;
    let length = |one: &Resolved| assembly.lengths.sum(&assembly.instances, size, &one.a.runs);
    let (long, least) = (length(joint)?, wide * TURNING_OPENING.low);
    // It is turned through the longest of its openings.
    let opens = |one: &Resolved| model.joints.get(&one.joint).is_some_and(|one| one.kind == JointKind::Opening);
    let of_part = |one: &Resolved| {
        let first = one.a.runs.first().and_then(|run| assembly.instances.get(run.instance));
        opens(one) && first.is_some_and(|first| first.part == *part)
    };
    let rivals = assembly.joints.iter().filter(|one| of_part(one));
    if long + 0.001 >= least || rivals.filter_map(length).any(|other| other > long + 0.001) {
        return None;
    }
    let (long, wide, least) = (text::mm(long), text::mm(wide), text::mm(least));
    let message = say!(UNSTATED, joint = &joint.joint, long = &long, piece = &piece.entry.id.value, wide = &wide);
    let finding = Finding::new(&RULE, message).at(joint.a.span, say!(LONG, length = long));
    Some(finding.at(piece.entry.span(), say!(PIECE, wide)).help(say!(SAY, least)))
}

/// What does not go through an opening in one size: the girth as stated and in mm, the length of the opening, and the least it
/// must be.
struct Short<'a> {
    stated: &'a Stated<Quantity>,
    wide: f64,
    long: f64,
    least: f64,
}

fn short<'a>(context: &Context<'_>, joint: &Resolved, girth: &'a Value<Quantity>, size: &str) -> Option<Short<'a>> {
    let stated = girth.of(Variant { size, colourway: "" })?;
    let wide = stated.known()?.si_f64() * 1000.0;
    let assembly = context.assembly;
    let length = |side: &Side| assembly.lengths.sum(&assembly.instances, size, &side.runs);
    let long = length(&joint.a).zip(length(&joint.b)).map(|(a, b)| a.min(b))?;
    let least = wide * TURNING_OPENING.low;
    (long + 0.001 < least).then_some(Short { stated, wide, long, least })
}

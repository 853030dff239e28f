//! Rule: an opening is short for what must pass it.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{JointKind, Variant};
use crate::standards::common::TURNING_OPENING;
use crate::words::{say, words};

use super::text;

/// An opening through which nothing passes.
pub const RULE: Rule = Rule {
    code: "opening-too-small",
    family: "sewing",
    severity: Severity::Should,
    summary: "an opening is short for what must pass it",
    explanation: "What is turned or put in has to pass the opening. Common practice is an opening of at least a third \
                  of the girth stated; shorter ones tear at their ends, or take minutes a piece.",
    failing: "[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"\ngirth = \"300 mm\"\nclose = { by = \"hand\" }  # \
              u-v is 60 mm",
    passing: "[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"\ngirth = \"300 mm\"\nclose = { by = \"hand\" }  # \
              u-v is 105 mm",
    source: "common practice: a third of the girth",
};

words! {
    MESSAGE "opening-too-small.message" = "opening {joint} is {long} long{size}, but {wide} must pass: a third of that is {least}";
    LONG "opening-too-small.long" = "{length} long";
    GIRTH_PASS "opening-too-small.girth-pass" = "the girth that must pass";
    HELP "opening-too-small.help" = "move the points at its ends until it is at least {least} long, or state the girth of what really passes";
}

/// Reports the first size of each opening that is too short.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let mut told = std::collections::BTreeSet::new();
    for joint in &context.assembly.joints {
        let Some(opening) = model.joints.get(&joint.joint).filter(|one| one.kind == JointKind::Opening) else {
            continue;
        };
        let Some(girth) = &opening.girth else { continue };
        for size in model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
            let Some(stated) = girth.of(Variant { size, colourway: "" }) else { continue };
            let Some(wide) = stated.known().map(|quantity| quantity.si_f64() * 1000.0) else { continue };
            let assembly = context.assembly;
            let length =
                |side: &crate::model::assembly::Side| assembly.lengths.sum(&assembly.instances, size, &side.runs);
            let Some(long) = length(&joint.a).zip(length(&joint.b)).map(|(a, b)| a.min(b)) else { continue };
            let least = wide * TURNING_OPENING.low;
            if long + 0.001 >= least || !told.insert(joint.joint.clone()) {
                continue;
            }
            let message = say!(
                MESSAGE,
                joint = &joint.joint,
                long = text::mm(long),
                size = text::in_size(context, size),
                wide = text::mm(wide),
                least = text::mm(least)
            );
            findings.push(
                Finding::new(&RULE, message)
                    .at(joint.a.span, say!(LONG, length = text::mm(long)))
                    .at(stated.span, GIRTH_PASS)
                    .help(say!(HELP, least = text::mm(least))),
            );
        }
    }
}

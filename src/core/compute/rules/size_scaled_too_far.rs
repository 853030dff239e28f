//! Rule: a size is scaled far from the size that was drawn.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{number, say, words};

use super::{Ground, sizes};

/// Factors within which a scaled pattern can be a first sample.
const LIMITS: (f64, f64) = (0.8, 1.25);

/// A size scaled so far that it needs a pattern of its own.
pub const RULE: Rule = Rule {
    code: "size-scaled-too-far",
    family: "piece",
    severity: Severity::Should,
    summary: "a size is scaled far from the size that was drawn",
    explanation: "A scaled size is a draft. Fabric, pile, thread, allowances and trims do not scale, so that far from the \
                  drawn size eyes and faces sit wrong, narrow parts cannot be turned and proportions change once it is \
                  filled. Common practice draws a pattern of its own below 0.8 and above 1.25.",
    failing: "[size.XL]\nscale = { along = \"1.6\", across = \"1.6\" }",
    passing: "[size.XL]\nscale = { along = \"1.2\", across = \"1.2\" }",
    source: "common practice: 0.8 to 1.25",
};

words! {
    MESSAGE "size-scaled-too-far.message" = "size {id} is drawn {along} along and {across} across the grain: a draft to sample first";
    HERE "size-scaled-too-far.here" = "far from the drawn size";
    HELP "size-scaled-too-far.help" = "draw {scaled} for size {id}, for example [piece.{first}] outline = { {id} = { .. }, else = { .. } }, or have a sample approved and silence this";
}

/// Reports each size by which a piece is scaled.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let model = ground.model;
    for id in sizes(model) {
        let Some(scale) = model.size(id).and_then(|size| size.scale.as_ref()) else { continue };
        let Some((along, across)) = scale.known().copied() else { continue };
        let factor = |factor: f64| number::number(factor, number::places(factor, 6));
        let within = |factor: f64| factor >= LIMITS.0 - 1e-9 && factor <= LIMITS.1 + 1e-9;
        let scaled: Vec<&str> = model
            .pieces
            .keys()
            .filter(|piece| ground.assembly.outlines.scale(piece, id).is_some())
            .map(String::as_str)
            .collect();
        if scaled.is_empty() || (within(along) && within(across)) {
            continue;
        }
        let message = say!(MESSAGE, id, along = factor(along), across = factor(across));
        let finding = Finding::new(&RULE, message).at(scale.span, HERE);
        let first = scaled.first().copied().unwrap_or_default();
        findings.push(finding.help(say!(HELP, scaled = scaled.join(", "), id, first)));
    }
}

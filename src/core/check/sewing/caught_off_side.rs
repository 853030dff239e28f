//! Rule: something is caught along an edge that is not on side a of its seam.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

use super::text;

/// A stretch beside its seam.
pub const RULE: Rule = Rule {
    code: "caught-off-side",
    family: "sewing",
    severity: Severity::Must,
    summary: "something is caught along an edge that is not on side a of its seam",
    explanation: "`on` names the stretch of side a along which the edges in `between` lie. Where it names an edge of side b, or one \
                  that this seam does not sew, nobody can see where the limb or label belongs: its place, its notches and its \
                  drawing follow from the stretch.",
    failing: "[seam.crown]\na = \"HEAD.l:n-e1-e2-s\"\nb = \"HEAD.r:n-e1-e2-s\"\nbetween = [{ edge = \"EAR.f:r-s\", on = \"HEAD.r:e1-e2\" }]",
    passing: "[seam.crown]\na = \"HEAD.l:n-e1-e2-s\"\nb = \"HEAD.r:n-e1-e2-s\"\nbetween = [{ edge = \"EAR.f:r-s\", on = \"HEAD.l:e1-e2\" }]",
    source: "follows from the terms",
};

words! {
    MESSAGE "caught-off-side.message" = "{edges} is not on side a of {joint}, and something is caught along it";
    HERE "caught-off-side.here" = "the stretch";
    SIDE "caught-off-side.side" = "side a";
    HELP "caught-off-side.help" = "name the stretch of side a along which it lies, from point to point";
}

/// Reports each stretch once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for joint in &context.assembly.joints {
        for stretch in joint.stretches() {
            let on_a = |run: &crate::model::assembly::Run| {
                joint.a.runs.iter().any(|own| (own.instance, own.run) == (run.instance, run.run))
            };
            let off: Vec<_> = stretch.runs.iter().filter(|run| !on_a(run)).copied().collect();
            if off.is_empty() || !told.insert(stretch.span) {
                continue;
            }
            let message = say!(MESSAGE, edges = text::chain(context, &off, false), joint = &joint.joint);
            findings.push(Finding::new(&RULE, message).at(stretch.span, HERE).at(joint.a.span, SIDE).help(HELP));
        }
    }
}

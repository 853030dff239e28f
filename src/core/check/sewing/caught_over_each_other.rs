//! Rule: two things that are caught in a seam lie partly over each other.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::{Run, Side};
use crate::words::{say, words};

use super::text;

/// Stretches that share an edge.
pub const RULE: Rule = Rule {
    code: "caught-over-each-other",
    family: "sewing",
    severity: Severity::Should,
    summary: "two things that are caught in a seam lie partly over each other",
    explanation: "Each of two stretches holds something, and they have an edge in common: there the plies of both are sewn through at \
                  once. Layers that lie along the same stretch are plies of one thing and are not asked about.",
    failing: "[seam.crown]\na = \"HEAD.l:n-e1-e2-e3-s\"\nbetween = [{ edge = \"EAR:r-s\", on = \"HEAD.l:e1-e2-e3\" }, { edge = \"HORN:r-s\", on = \"HEAD.l:e2-e3\" }]",
    passing: "[seam.crown]\na = \"HEAD.l:n-e1-e2-e3-s\"\nbetween = [{ edge = \"EAR:r-s\", on = \"HEAD.l:e1-e2\" }, { edge = \"HORN:r-s\", on = \"HEAD.l:e2-e3\" }]",
    source: "common practice",
};

words! {
    MESSAGE "caught-over-each-other.message" = "two things are caught in {joint} along {edges}, and one of them reaches further";
    ONE "caught-over-each-other.one" = "one lies here";
    OTHER "caught-over-each-other.other" = "the other here";
    HELP "caught-over-each-other.help" = "let one end where the other begins; or say along one stretch that both lie";
}

/// Reports each pair of stretches once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for joint in &context.assembly.joints {
        let stretches = joint.stretches();
        for (n, one) in stretches.iter().enumerate() {
            for other in stretches.iter().skip(n + 1) {
                let both = common(one, other);
                if both.is_empty() || !told.insert((one.span, other.span)) {
                    continue;
                }
                let message = say!(MESSAGE, edges = text::chain(context, &both, false), joint = &joint.joint);
                findings.push(Finding::new(&RULE, message).at(one.span, ONE).at(other.span, OTHER).help(HELP));
            }
        }
    }
}

/// Edges that belong to both, whichever way they are walked.
fn common(one: &Side, other: &Side) -> Vec<Run> {
    let edge = |run: &Run| (run.instance, run.run);
    one.runs.iter().filter(|run| other.runs.iter().any(|own| edge(own) == edge(run))).copied().collect()
}

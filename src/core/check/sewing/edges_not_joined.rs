//! Rule: a seam runs over two edges that no earlier step has joined.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Loose;
use crate::words::{say, words};

use super::text;

/// A chain over edges that are not sewn together yet.
pub const RULE: Rule = Rule {
    code: "edges-not-joined",
    family: "sewing",
    severity: Severity::Must,
    summary: "a seam runs over two edges that no earlier step has joined",
    explanation: "A seam can run on from one edge to the next only where a step before it has joined their ends: the \
                  legs of a dart, two pieces sewn together. The order of work is followed step by step, and each gap \
                  is told with the step that would close it.",
    failing: "[seam.crown]\na = \"SIDE.l:n-c, d-t\"\nb = \"SIDE.r:n-c, d-t\"\n[work]\norder = [\"crown\", \"dart\"]",
    passing: "[seam.crown]\na = \"SIDE.l:n-c, d-t\"\nb = \"SIDE.r:n-c, d-t\"\n[work]\norder = [\"dart\", \"crown\"]",
    source: "common practice",
};

words! {
    END "edges-not-joined.end" = "{point} of {instance}";
    LATER "edges-not-joined.later" = "{id} goes from {before} to {after}, which only {later} joins, and {later} comes later";
    NEVER "edges-not-joined.never" = "{id} goes from {before} to {after}, which no step joins";
    NOT_JOINED "edges-not-joined.not-joined" = "{after} is not joined to {before} yet";
    ENDS "edges-not-joined.ends" = "ends at {before}";
    FIRST "edges-not-joined.first" = "{later} must come before this";
    HELP "edges-not-joined.help" = "write a seam that joins {before} and {after} and put it before \"{id}\", or make two seams of {id}";
}

/// Reports each gap once; mirror images of a gap say nothing new.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let listed: BTreeSet<&str> = context.model.work.order.iter().map(|step| step.value.as_str()).collect();
    let mut seen = BTreeSet::new();
    for loose in &context.assembly.sewing.loose {
        // Without its place in the order of work nothing can be said of before and after.
        let ordered = listed.contains(loose.id.as_str()) || loose.later.is_none();
        if ordered && seen.insert((loose.before_at, loose.after_at, &loose.before.1, &loose.after.1)) {
            findings.push(finding(context, loose));
        }
    }
}

fn finding(context: &Context<'_>, loose: &Loose) -> Finding {
    let end =
        |(instance, point): &(usize, String)| say!(END, point, instance = text::instance(context, *instance, false));
    let (before, after) = (end(&loose.before), end(&loose.after));
    let id = &loose.id;
    let message = match &loose.later {
        Some(later) => say!(LATER, id, before = &before, after = &after, later),
        None => say!(NEVER, id, before = &before, after = &after),
    };
    let finding = Finding::new(&RULE, message).at(loose.after_at, say!(NOT_JOINED, after = &after, before = &before));
    let finding = match loose.before_at == loose.after_at {
        true => finding,
        false => finding.at(loose.before_at, say!(ENDS, before = &before)),
    };
    match &loose.later {
        Some(later) => {
            let step = context.model.work.order.iter().find(|step| step.value == *id);
            let finding = match step {
                Some(step) => finding.at(step.span, say!(FIRST, later)),
                None => finding,
            };
            finding.help(text::moved_before(context, later, id))
        }
        None => finding.help(say!(HELP, before, after, id)),
    }
}

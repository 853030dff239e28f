//! Rule: an edge is said to be left raw, and a seam or opening sews it.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::EdgeFinishKind;
use crate::model::assembly::{Edging, Run};
use crate::source::Span;
use crate::words::{say, words};

use super::text;

/// An edge that is sewn and is not.
pub const RULE: Rule = Rule {
    code: "raw-edge-sewn",
    family: "sewing",
    severity: Severity::Must,
    summary: "an edge is said to be left raw, and a seam or opening sews it",
    explanation: "`raw` says that nothing is done with an edge and that it stays as it is cut. An edge of a seam, or of an \
                  opening that is closed later, is sewn. One of the two is a slip: the factory sews what should lie open, or \
                  leaves open what should be closed.",
    failing: "[piece.SIDE]\nraw = [\"u-v\"]\n[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"",
    passing: "[piece.SIDE]\nraw = [\"a-b\"]\n[opening.back]\na = \"SIDE.l:u-v\"\nb = \"SIDE.r:u-v\"",
    source: "follows from the terms",
};

words! {
    MESSAGE "raw-edge-sewn.message" = "{edge} is left raw, and {joint} sews it";
    RAW "raw-edge-sewn.raw" = "left raw";
    SEWN "raw-edge-sewn.sewn" = "sewn in {joint}";
    HELP "raw-edge-sewn.help" = "take it out of what is raw, or out of {joint}";
}

/// Reports each edge once for each seam, whatever copies it has.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let assembly = context.assembly;
    let mut groups: BTreeMap<(Span, usize), Vec<Run>> = BTreeMap::new();
    for ((instance, run), account) in &assembly.sewing.accounts {
        let Some(joint) = account.joints.first() else { continue };
        let edgings = account.finished.iter().filter_map(|n| assembly.edgings.get(*n));
        let one = Run { instance: *instance, run: *run, forward: true };
        for place in edgings.filter(|edging| is_raw(context, edging)).filter_map(|edging| place(edging, one)) {
            let group = groups.entry((place, *joint)).or_default();
            if group.first().is_none_or(|first| first.instance == *instance) {
                group.push(one);
            }
        }
    }
    for ((place, joint), runs) in groups {
        let Some(joint) = assembly.joints.get(joint) else { continue };
        let edge = text::chain(context, &runs, false);
        let id = &joint.joint;
        let finding = Finding::new(&RULE, say!(MESSAGE, edge, joint = id)).at(place, RAW);
        let sewn = joint.sides().find(|side| {
            side.runs.iter().any(|run| runs.iter().any(|one| one.run == run.run && one.instance == run.instance))
        });
        let finding = sewn.into_iter().fold(finding, |finding, side| finding.at(side.span, say!(SEWN, joint = id)));
        findings.push(finding.help(say!(HELP, joint = id)));
    }
}

/// Whether nothing is done with the edge: it is a raw one of its piece, or finished as raw.
fn is_raw(context: &Context<'_>, edging: &Edging) -> bool {
    let kind = context.model.edge_finishes.get(&edging.id).map(|finish| finish.kind.as_ref().map(|kind| kind.value));
    kind.is_none_or(|kind| kind == Some(EdgeFinishKind::Raw))
}

/// Where a run of an edging is written.
fn place(edging: &Edging, run: Run) -> Option<Span> {
    let at = edging.side.runs.iter().position(|one| one.instance == run.instance && one.run == run.run)?;
    edging.side.places.get(at).copied()
}

//! Rule: an edge is sewn by two seams.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::{Reverse, Run};
use crate::source::Span;
use crate::words::{Phrase, say, words};

use super::text;

/// An edge that two seams want.
pub const RULE: Rule = Rule {
    code: "edge-sewn-twice",
    family: "sewing",
    severity: Severity::Must,
    summary: "an edge is sewn by two seams",
    explanation: "The edge between two neighbouring points can be sewn into one seam, opening or attachment only. \
                  Where two claim it, one of them means another edge or another copy. An edge may have any number of \
                  finishes beside its one seam.",
    failing: "[seam.top]\na = \"FRONT:nw-ne\"\nb = \"BACK:ne-nw\"\n[seam.side]\na = \"FRONT:nw-ne\"\nb = \"BACK:nw-sw\"",
    passing: "[seam.top]\na = \"FRONT:nw-ne\"\nb = \"BACK:ne-nw\"\n[seam.side]\na = \"FRONT:ne-se\"\nb = \"BACK:nw-sw\"",
    source: "common practice",
};

words! {
    TWICE_IN_ONE "edge-sewn-twice.twice-in-one" = "{edge} is used twice in {id}";
    TWICE "edge-sewn-twice.twice" = "{edge} is sewn by {first} and again by {second}";
    OTHER_COPY "edge-sewn-twice.other-copy" = "name another copy in {id}, or take `mirrored = true` out of it";
    KEEP_ONE "edge-sewn-twice.keep-one" = "keep one of them; the other means another edge or another copy of {piece}";
    AGAIN "edge-sewn-twice.again" = "again in {name}";
    FIRST "edge-sewn-twice.first" = "first in {name}";
}

/// One use of a run: by what, and where it is written.
#[derive(Clone)]
struct Use {
    id: String,
    mirrored: bool,
    span: Span,
}

impl Use {
    fn name(&self) -> Phrase {
        if self.mirrored { text::image_of(&self.id) } else { Phrase::from(&self.id) }
    }
}

/// Two uses of the same runs.
type Clash = (Use, Use, Vec<Run>);

/// Reports runs with more than one use, once for each pair of uses and piece.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut groups: BTreeMap<(String, Span, Span), Clash> = BTreeMap::new();
    for (run, uses) in uses(context) {
        for pair in uses.windows(2) {
            let piece = context.assembly.instances[run.0].piece.clone();
            let key = (piece, pair[0].span, pair[1].span);
            let one = Run { instance: run.0, run: run.1, forward: true };
            let group = groups.entry(key).or_insert_with(|| (pair[0].clone(), pair[1].clone(), Vec::new()));
            // The same edge of further copies needs no second word.
            if group.2.first().is_none_or(|first| first.instance == run.0) {
                group.2.push(one);
            }
        }
    }
    for (first, second, runs) in groups.into_values() {
        let edge = text::chain(context, &runs, false);
        let message = if first.id == second.id && first.mirrored == second.mirrored {
            say!(TWICE_IN_ONE, edge, id = &first.id)
        } else {
            say!(TWICE, edge, first = first.name(), second = second.name())
        };
        let help = if first.mirrored != second.mirrored && first.id == second.id {
            say!(OTHER_COPY, id = &first.id)
        } else {
            say!(KEEP_ONE, piece = piece(context, &runs))
        };
        let mut finding = Finding::new(&RULE, message).at(second.span, say!(AGAIN, name = second.name()));
        if first.span != second.span {
            finding = finding.at(first.span, say!(FIRST, name = first.name()));
        }
        findings.push(finding.help(help));
    }
}

fn piece(context: &Context<'_>, runs: &[Run]) -> String {
    runs.first().map_or(String::new(), |run| context.assembly.instances[run.instance].piece.clone())
}

/// Every use of every run that has more than one.
fn uses(context: &Context<'_>) -> BTreeMap<(usize, usize), Vec<Use>> {
    let assembly = context.assembly;
    let mut all: BTreeMap<(usize, usize), Vec<Use>> = BTreeMap::new();
    for joint in &assembly.joints {
        for side in joint.sides() {
            for (run, span) in side.runs.iter().zip(&side.places) {
                let mirrored = joint.image == Reverse::Mirrored;
                let one = Use { id: joint.joint.clone(), mirrored, span: *span };
                all.entry((run.instance, run.run)).or_default().push(one);
            }
        }
    }
    for edging in assembly.edgings.iter().filter(|edging| edging.joins) {
        for (run, span) in edging.side.runs.iter().zip(&edging.side.places) {
            let one = Use { id: edging.id.clone(), mirrored: false, span: *span };
            all.entry((run.instance, run.run)).or_default().push(one);
        }
    }
    all.retain(|_, uses| uses.len() > 1);
    // In the order in which they are read: the one written later is the one to change.
    all.values_mut().for_each(|uses| uses.sort_by_key(|one| (one.span, one.mirrored)));
    all
}

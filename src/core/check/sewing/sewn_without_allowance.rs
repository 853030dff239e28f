//! Rule: an edge that a seam sews has an allowance of 0 mm.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::{Resolved, Run};
use crate::source::Span;
use crate::standards::stitch;
use crate::words::{say, words};

use super::text;

/// A seam along the cut edge itself.
pub const RULE: Rule = Rule {
    code: "sewn-without-allowance",
    family: "sewing",
    severity: Severity::Should,
    summary: "an edge that a seam sews has an allowance of 0 mm",
    explanation: "A seam needs fabric outside of it: a needle on the cut edge itself finds nothing to hold. Edges that meet \
                  and are joined by a zigzag, an overedge or a flat seam need none, and are not asked about; the others need at \
                  least 3 mm on felt and 5 mm on plush (common practice).",
    failing: "[piece.SIDE]\nallowance = \"0 mm\"\n[seam.back]\na = \"SIDE.l:a-b\"\nb = \"SIDE.r:a-b\"",
    passing: "[piece.SIDE]\nallowance = \"5 mm\"\n[seam.back]\na = \"SIDE.l:a-b\"\nb = \"SIDE.r:a-b\"",
    source: "common practice",
};

words! {
    MESSAGE "sewn-without-allowance.message" = "{joint} sews {edge}, which has an allowance of 0 mm";
    SEVERAL "sewn-without-allowance.several" = "{joint} sew {edge}, which has an allowance of 0 mm";
    HERE "sewn-without-allowance.here" = "nothing outside the seam";
    SEWN "sewn-without-allowance.sewn" = "sewn here";
    HELP "sewn-without-allowance.help" = "give it an allowance: \"5 mm\" on plush, \"3 mm\" on felt; or a stitch that joins edges that meet, such as 304";
}

/// Stitches that join edges that meet: zigzag; classes of overedge and of flat seams.
const EDGE_TO_EDGE: [&str; 5] = ["304", "308", "321", "404", "406"];

/// What sews along one written allowance.
#[derive(Default)]
struct Along<'a> {
    joints: Vec<&'a Resolved>,
    runs: Vec<Run>,
}

/// Reports each written allowance once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told: BTreeMap<Span, Along<'_>> = BTreeMap::new();
    for joint in context.assembly.joints.iter().filter(|joint| !meets(context, joint)) {
        for run in joint.a.runs.iter().chain(&joint.b.runs) {
            for size in context.model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
                let known = context.assembly.allowance(context.model, run, size).and_then(|one| one.known());
                let Some((span, _)) = known.filter(|(_, mm)| *mm <= 0.0005) else { continue };
                let Along { joints, runs } = told.entry(span).or_default();
                if joints.iter().all(|one| one.joint != joint.joint) {
                    joints.push(joint);
                }
                if !runs.contains(run) && runs.first().is_none_or(|first| first.instance == run.instance) {
                    runs.push(*run);
                }
            }
        }
    }
    for (span, Along { joints, runs }) in told {
        let edge = text::chain(context, &runs, false);
        let names: Vec<&str> = joints.iter().map(|joint| joint.joint.as_str()).collect();
        let word = if names.len() == 1 { MESSAGE } else { SEVERAL };
        let finding = Finding::new(&RULE, say!(word, joint = text::list(&names), edge)).at(span, HERE);
        let place = joints.first().map(|joint| joint.a.span);
        findings.push(place.into_iter().fold(finding, |finding, place| finding.at(place, SEWN)).help(HELP));
    }
}

/// Whether the stitch of a joint joins edges that meet, or is not known.
fn meets(context: &Context<'_>, joint: &Resolved) -> bool {
    let Some(written) = context.model.joints.get(&joint.joint) else { return true };
    let kind = written.stitch.kind.as_ref().or(context.model.work.stitch.kind.as_ref());
    let Some(kind) = kind.map(|kind| kind.value.trim()) else { return false };
    EDGE_TO_EDGE.contains(&kind) || stitch::find(kind).is_some_and(|one| one.number.starts_with(['5', '6']))
}

//! Rule: a part is turned right side out before its seams are sewn.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Resolved;
use crate::model::{Deed, JointKind, Step};
use crate::words::{say, words};

use super::closed::part;
use super::text;

/// A part that is right side out when it is sewn.
pub const RULE: Rule = Rule {
    code: "turned-before-sewn",
    family: "sewing",
    severity: Severity::Must,
    summary: "a part is turned right side out before its seams are sewn",
    explanation: "Pieces are sewn with their right sides together, and the part is turned when the last of its seams is sewn. A \
                  seam that comes after the turning would have its allowances outside. What joins a part to another may come \
                  later, and so may its openings; a part that is turned twice is judged by the last turning.",
    failing: "[work]\norder = [\"top\", \"turn\", \"side\", \"fill\", \"back\"]",
    passing: "[work]\norder = [\"top\", \"side\", \"turn\", \"fill\", \"back\"]",
    source: "common practice",
};

words! {
    MESSAGE "turned-before-sewn.message" = "{turn} turns {part} right side out before {seams} sews it";
    SEVERAL "turned-before-sewn.several" = "{turn} turns {part} right side out before {seams} sew it";
    TURNED_HERE "turned-before-sewn.turned-here" = "turned here";
    SEWN_LATER "turned-before-sewn.sewn-later" = "{part} is right side out by now";
}

/// Reports the last turning of each part, if a seam of it comes later.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let order = &context.model.work.order;
    let turned = |id: &str| {
        let step: &Step = context.model.steps.get(id).filter(|step| step.deed == Deed::Turn)?;
        part(context, step)
    };
    for (at, turning) in order.iter().enumerate() {
        let Some(part) = turned(&turning.value) else { continue };
        let rest = order.get(at + 1..).unwrap_or_default();
        if rest.iter().any(|step| turned(&step.value) == Some(part)) {
            continue;
        }
        // A seam that is listed twice is a finding of its own.
        let first = |id: &str| order.iter().position(|step| step.value == id) > Some(at);
        let late: Vec<_> = rest.iter().filter(|step| first(&step.value) && sews(context, &step.value, part)).collect();
        let (Some(first), Some(last)) = (late.first(), late.last()) else { continue };
        let names: Vec<&str> = late.iter().map(|step| step.value.as_str()).collect();
        let word = if names.len() == 1 { MESSAGE } else { SEVERAL };
        let message = say!(word, turn = &turning.value, part, seams = text::list(&names));
        let finding = Finding::new(&RULE, message).at(turning.span, TURNED_HERE);
        let finding = finding.at(first.span, say!(SEWN_LATER, part));
        findings.push(finding.help(text::moved_behind(context, &turning.value, &last.value)));
    }
}

/// Whether a step is a seam with both its sides on one use of this part. Of a shell without any opening the last seam has to come
/// after the turning: that it has none is a finding of its own.
fn sews(context: &Context<'_>, id: &str, part: &str) -> bool {
    let assembly = context.assembly;
    let kind = |id: &str| context.model.joints.get(id).map(|joint| joint.kind);
    let opens = |n: &usize| assembly.joints.get(*n).and_then(|joint| kind(&joint.joint)) == Some(JointKind::Opening);
    let shut = |at: usize| {
        let mut shells = assembly.sewing.shells.iter().filter(|shell| shell.joints.contains(&at));
        shells.any(|shell| shell.boundary.is_empty() && !shell.joints.iter().any(opens))
    };
    let own = |(at, joint): (usize, &Resolved)| joint.joint == id && within(context, joint, part) && !shut(at);
    kind(id) == Some(JointKind::Seam) && assembly.joints.iter().enumerate().any(own)
}

fn within(context: &Context<'_>, joint: &Resolved, part: &str) -> bool {
    let instances = &context.assembly.instances;
    let mut uses = [&joint.a, &joint.b].into_iter().flat_map(|side| &side.runs).map(|run| instances.get(run.instance));
    let Some(Some(first)) = uses.next() else { return false };
    first.part == part && uses.all(|one| one.is_some_and(|one| one.part == part && one.usage == first.usage))
}

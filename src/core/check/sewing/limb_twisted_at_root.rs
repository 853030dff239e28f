//! Rule: the plies of a caught limb are not written as the sewn limb has them.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::{Caught, Lie, Limb, Run, Side};
use crate::words::{say, words};

use super::text;

/// A limb that would be caught twisted, or with its wrong side out.
pub const RULE: Rule = Rule {
    code: "limb-twisted-at-root",
    family: "sewing",
    severity: Severity::Must,
    summary: "a caught limb is twisted at its root, or has its wrong side out",
    explanation: "A limb is sewn to itself, turned and caught in a seam by both its plies. They meet at both ends of its \
                  root, so their edges begin at the same end; the first ply from the needle faces the needle, the second \
                  faces away from it. Where one edge is written against the other, the sewn limb cannot lie like that. \
                  Where both are written against the seam, the limb has its wrong side out, or its plies are exchanged.",
    failing: "[seam.ear]\na = \"EAR.f:s-k-r\"\nb = \"EAR.b:s-k-r\"\n[seam.head]\na = \"H.f:q-v\"\nbetween = [\"EAR.f:r-s\", \
              \"EAR.b:s-r\"]\nb = \"H.b:q-v\"",
    passing: "[seam.ear]\na = \"EAR.f:s-k-r\"\nb = \"EAR.b:s-k-r\"\n[seam.head]\na = \"H.f:q-v\"\nbetween = [\"EAR.f:r-s\", \
              \"EAR.b:r-s\"]\nb = \"H.b:q-v\"",
    source: "common practice; the edge that is left open of a sewn surface runs round it one way",
};

words! {
    TWISTED "limb-twisted-at-root.twisted" = "{joint} catches a limb twisted: {ply} is written against {other}";
    AGAINST "limb-twisted-at-root.against" = "begins at the other end of the root";
    OTHER_PLY "limb-twisted-at-root.other-ply" = "the other ply";
    WRITE "limb-twisted-at-root.write" = "write `{edge}`";
    INWARD "limb-twisted-at-root.inward" = "{joint} catches a turned limb with its wrong side out: {ply} would face away from the needle, {other} towards it";
    FIRST_PLY "limb-twisted-at-root.first-ply" = "nearest to the needle";
    EXCHANGE "limb-twisted-at-root.exchange" = "exchange the two, or write both from the other end: `{ply}` and `{other}`";
}

/// Reports each limb once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for limb in &context.assembly.sewing.limbs {
        let Some(joint) = context.assembly.joints.get(limb.joint) else { continue };
        if told.contains(&(&joint.joint, limb.plies)) {
            continue;
        }
        if let Some(finding) = finding(context, limb) {
            told.insert((&joint.joint, limb.plies));
            findings.push(finding);
        }
    }
}

fn finding(context: &Context<'_>, limb: &Limb) -> Option<Finding> {
    let joint = context.assembly.joints.get(limb.joint)?;
    let implied = !joint.usage.is_empty();
    let side = |ply: usize| match joint.between.get(*limb.plies.get(ply)?)? {
        Caught::Side(side) => Some(side),
        Caught::Trim(_) => None,
    };
    let chain = |runs: &[Run]| text::chain(context, runs, implied);
    let turned = |side: &Side| chain(&side.runs.iter().rev().map(|run| run.turned()).collect::<Vec<Run>>());
    match limb.lie {
        Lie::Twisted(odd) => {
            let (odd, other) = (side(odd)?, side(1 - odd)?);
            let message = say!(TWISTED, joint = text::joint(joint), ply = chain(&odd.runs), other = chain(&other.runs));
            let finding = Finding::new(&RULE, message).at(odd.span, AGAINST).at(other.span, OTHER_PLY);
            Some(finding.help(say!(WRITE, edge = turned(odd))))
        }
        Lie::Inward if limb.turned => {
            let (first, second) = (side(0)?, side(1)?);
            let message =
                say!(INWARD, joint = text::joint(joint), ply = chain(&first.runs), other = chain(&second.runs));
            let finding = Finding::new(&RULE, message).at(first.span, FIRST_PLY).at(second.span, OTHER_PLY);
            Some(finding.help(say!(EXCHANGE, ply = turned(first), other = turned(second))))
        }
        _ => None,
    }
}

//! Rule: an opening lies across a corner or at a dart.

use std::collections::BTreeSet;

use crate::compute::dart;
use crate::compute::notch::CORNER;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::JointKind;
use crate::model::assembly::{Run, Side};
use crate::words::{Phrase, say, words};

use super::Ground;

/// An opening across a corner or a dart.
pub const RULE: Rule = Rule {
    code: "opening-on-corner",
    family: "sewing",
    severity: Severity::Should,
    summary: "an opening lies across a corner or at a dart",
    explanation: "An opening is closed last, from outside, often by hand. Across a corner the closing seam shows and the \
                  corner is never pushed out; at the mouth of a dart its thread runs loose while the part is turned. \
                  Common practice lays an opening in a straight or gently curved edge.",
    failing: "[opening.base]\na = \"TOP:p-ne-q\"  # ne is a corner\nb = \"UNDER:p-ne-q\"\nclose = { by = \"hand\" }",
    passing: "[opening.base]\na = \"TOP:p-q\"\nb = \"UNDER:p-q\"\nclose = { by = \"hand\" }",
    source: "common practice",
};

words! {
    HERE "opening-on-corner.here" = "open here";
    HELP "opening-on-corner.help" = "move it away from the corner, onto one edge";
    AT_DART "opening-on-corner.at-dart" = "opening {joint} begins or ends at {id} of {piece}, the mouth of a dart";
    ACROSS "opening-on-corner.across" = "opening {joint} lies across {id}, a corner of {piece}";
}

/// Reports each opening once.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for joint in &ground.assembly.joints {
        let opening = ground.model.joints.get(&joint.joint).filter(|one| one.kind == JointKind::Opening);
        if opening.is_none() {
            continue;
        }
        for side in [&joint.a, &joint.b] {
            let Some(why) = trouble(ground, &joint.joint, side) else { continue };
            if told.insert(joint.joint.as_str()) {
                let finding = Finding::new(&RULE, why).at(side.span, HERE);
                findings.push(finding.help(HELP));
            }
        }
    }
}

fn trouble(ground: &Ground<'_>, joint: &str, side: &Side) -> Option<Phrase> {
    let inner = side.runs.windows(2).find_map(|pair| {
        let [before, after] = pair else { return None };
        if before.instance != after.instance {
            return None;
        }
        corner(ground, joint, before, after)
    });
    let point = |run: &Run| {
        let (from, to) = run.ends(&ground.assembly.outlines, &ground.assembly.instances)?;
        let piece = &ground.assembly.instances.get(run.instance)?.piece;
        let outline = ground.assembly.outlines.any(piece)?;
        let mouths: Vec<String> =
            dart::bites(ground.assembly, piece, outline).into_iter().flat_map(|bite| bite.mouth).collect();
        [from, to]
            .into_iter()
            .find(|id| mouths.iter().any(|mouth| mouth == id))
            .map(|id| say!(AT_DART, joint, id, piece))
    };
    inner.or_else(|| side.runs.iter().find_map(point))
}

/// The named corner between two runs of one piece, if the outline turns there.
fn corner(ground: &Ground<'_>, joint: &str, before: &Run, after: &Run) -> Option<Phrase> {
    let assembly = ground.assembly;
    let (_, id) = before.ends(&assembly.outlines, &assembly.instances)?;
    let (next, _) = after.ends(&assembly.outlines, &assembly.instances)?;
    let piece = &assembly.instances.get(before.instance)?.piece;
    let turn = assembly.outlines.any(piece)?.turn_at(id)?;
    (id == next && turn.abs() > CORNER).then(|| say!(ACROSS, joint, id, piece))
}

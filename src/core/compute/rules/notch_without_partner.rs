//! Rule: a notch meets nothing on the other side of its seam.

use std::collections::BTreeSet;

use crate::compute::stretch::alone;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

use super::{Ground, in_size, mm, sizes};

/// A notch to which nothing comes.
pub const RULE: Rule = Rule {
    code: "notch-without-partner",
    family: "sewing",
    severity: Severity::Should,
    summary: "a notch meets nothing on the other side of its seam",
    explanation: "Notches are put on each other before sewing. One to which neither a notch nor a named point of the other side \
                  comes was forgotten there, or is a leftover: the machinist looks for its partner and puts it on the nearest \
                  one. Asked about where both sides are equally long and have another number of notches.",
    failing: "[piece.FRONT]\nnotches = [\"a-b 40 mm\"]\n[piece.BACK]\n[seam.side]\na = \"FRONT:a-b\"\nb = \"BACK:a-b\"",
    passing: "[piece.FRONT]\nnotches = [\"a-b 40 mm\"]\n[piece.BACK]\nnotches = [\"a-b 40 mm\"]\n[seam.side]\na = \
              \"FRONT:a-b\"\nb = \"BACK:a-b\"",
    source: "common practice",
};

words! {
    MESSAGE "notch-without-partner.message" = "{joint}{size}: the notch at {place} of side {side}, {distance} along it, meets nothing on the other side";
    HERE "notch-without-partner.here" = "side with the notch";
    OTHER "notch-without-partner.other" = "nothing {distance} along it";
    HELP "notch-without-partner.help" = "add a notch to the other side there, or take this one out";
}

/// Reports each seam once, in the first size in which a notch is alone.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for resolved in &ground.assembly.joints {
        let Some(joint) = ground.model.joints.get(&resolved.joint) else { continue };
        if joint.ease.is_some() || joint.gather.is_some() || joint.stretch.is_some() {
            continue;
        }
        let found = sizes(ground.model).find_map(|size| Some((size, alone(ground, resolved, size)?)));
        let Some((size, (first, place, at))) = found else { continue };
        if !told.insert(resolved.joint.as_str()) {
            continue;
        }
        let (side, other) = if first { (&resolved.a, &resolved.b) } else { (&resolved.b, &resolved.a) };
        let message = say!(
            MESSAGE,
            joint = &resolved.joint,
            size = in_size(ground.model, size),
            place = place.text(),
            side = if first { "a" } else { "b" },
            distance = mm(at)
        );
        let finding = Finding::new(&RULE, message).at(side.span, HERE);
        findings.push(finding.at(other.span, say!(OTHER, distance = mm(at))).help(HELP));
    }
}

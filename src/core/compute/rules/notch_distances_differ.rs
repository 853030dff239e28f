//! Rule: the two sides of a seam differ in length between their notches.

use std::collections::BTreeSet;

use crate::compute::stretch::{Stretch, stretches};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Ease, Joint, SeamSide};
use crate::words::{say, words};

use super::{Ground, in_size, mm, sizes};

/// A difference taken up without notice, mm and share of the length (*common practice*).
const EVEN: (f64, f64) = (0.5, 0.005);

/// Stretches between notches that differ in length.
pub const RULE: Rule = Rule {
    code: "notch-distances-differ",
    family: "sewing",
    severity: Severity::Should,
    summary: "the two sides of a seam differ in length between their notches",
    explanation: "Notches are put on each other before sewing, the first on the first and so on, so that the stretches \
                  between them must be equally long in every size, after the ease, gathering or stretch that is stated. \
                  A notch at a stated distance stays where it is when a size is scaled; one at a share of its edge moves \
                  with it.",
    failing: "[piece.FRONT]\nnotches = [\"a-b 40 mm\"]\n[piece.BACK]\nnotches = [\"a-b 46 mm\"]\n[seam.side]\na = \"FRONT:a-b\"\nb \
              = \"BACK:a-b\"",
    passing: "[piece.FRONT]\nnotches = [\"a-b 40 mm\"]\n[piece.BACK]\nnotches = [\"a-b 40 mm\"]\n[seam.side]\na = \"FRONT:a-b\"\nb \
              = \"BACK:a-b\"",
    source: "common practice: 0.5 mm or 0.5 %",
};

words! {
    MESSAGE "notch-distances-differ.message" = "{joint}{size}: from `{from}` to `{to}` of side a, a is {length_a} long and b {length_b}";
    HERE "notch-distances-differ.here" = "{length} long there";
    HELP "notch-distances-differ.help" = "move a notch of one side, or state the ease if it is meant";
}

/// Reports each seam once, in the first size where it differs.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for resolved in &ground.assembly.joints {
        let Some(joint) = ground.model.joints.get(&resolved.joint) else { continue };
        for size in sizes(ground.model) {
            let all = stretches(ground, resolved, size);
            let notched = |one: &&Stretch| one.notched && !agrees(joint, one.a, one.b);
            let Some(one) = all.iter().find(notched) else { continue };
            if !told.insert(resolved.joint.as_str()) {
                continue;
            }
            let message = say!(
                MESSAGE,
                joint = &resolved.joint,
                size = in_size(ground.model, size),
                from = one.from.text(),
                to = one.to.text(),
                length_a = mm(one.a),
                length_b = mm(one.b)
            );
            let finding = Finding::new(&RULE, message)
                .at(resolved.b.span, say!(HERE, length = mm(one.b)))
                .at(resolved.a.span, say!(HERE, length = mm(one.a)));
            findings.push(finding.help(HELP));
        }
    }
}

fn agrees(joint: &Joint, a: f64, b: f64) -> bool {
    let share = |ease: &Ease| ease.amount.known().map(crate::units::Quantity::si_f64);
    let ordered = |side: SeamSide| if side == SeamSide::A { (a, b) } else { (b, a) };
    let slack = |length: f64| (length * EVEN.1).max(EVEN.0) + 0.001;
    if let Some(ease) = &joint.ease {
        let Some(share) = share(ease) else { return true };
        let (eased, other) = ordered(ease.side);
        return eased >= other - slack(other) && eased <= other * (1.0 + share) + slack(other);
    }
    if let Some(ratio) = joint.gather.as_ref().or(joint.stretch.as_ref()) {
        let Some(share) = share(ratio) else { return true };
        let (worked, other) = ordered(ratio.side);
        return (worked - other * share).abs() <= slack(other * share);
    }
    (a - b).abs() <= slack(a.max(b))
}

//! Rule: a part that closes is sewn inside out, and no step turns it.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Shell;
use crate::words::{say, words};

use super::closed::part;
use super::step_misspelt::does;

/// A part that stays inside out.
pub const RULE: Rule = Rule {
    code: "part-never-turned",
    family: "sewing",
    severity: Severity::Should,
    summary: "a part that closes is sewn inside out, and no step turns it",
    explanation: "Pieces are sewn with their right sides together, so that a part that closes, and a limb that is sewn \
                  round, is inside out until it is turned. Where the order of work has no step for it, the factory fills \
                  or catches it inside out, or asks. A part that is really sewn with its edges outside (felt, say) says \
                  so with part-never-turned = \"off\" under [severity].",
    failing: "[part.body]\n[stuffing.body]\npart = \"body\"\n[work]\norder = [\"side\", \"fill\", \"back\"]",
    passing: "[part.body]\n[stuffing.body]\npart = \"body\"\n[step.turn]\ndo = \"turn\"\npart = \"body\"\n[work]\norder = \
              [\"side\", \"turn\", \"fill\", \"back\"]",
    source: "common practice",
};

words! {
    MESSAGE "part-never-turned.message" = "no step turns {part} right side out";
    HERE "part-never-turned.here" = "sewn inside out";
    ORDER "part-never-turned.order" = "the order of work";
    HELP "part-never-turned.help" = "add a step, and name it in the order after the last seam of {part} and before {before}:\n[step.turn_{part}]\ndo = \"turn\"\npart = \"{part}\"";
    FILLED "part-never-turned.filled" = "what fills or closes it";
    CAUGHT "part-never-turned.caught" = "{id}, which catches it";
}

/// Reports each part once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    if model.work.order.is_empty() || !context.assembly.sewing.whole {
        return;
    }
    let turned: BTreeSet<&str> =
        model.steps.values().filter(|step| does(step, "turn")).filter_map(|step| part(context, step)).collect();
    // A step that turns something and does not say what may turn any part.
    if model.steps.values().any(|step| does(step, "turn") && part(context, step).is_none()) {
        return;
    }
    let mut told = BTreeSet::new();
    for (at, shell) in context.assembly.sewing.shells.iter().enumerate() {
        let parts = || shell.parts.iter().map(|(part, _)| part.as_str());
        let caught = catching(context, at);
        if parts().any(|part| turned.contains(part))
            || shell.joints.is_empty()
            || (shell.form.is_none() && caught.is_none())
        {
            continue;
        }
        let Some(declared) = parts().find_map(|part| model.parts.get(part)) else { continue };
        let id = declared.entry.id.value.as_str();
        if !told.insert(id) {
            continue;
        }
        let finding = Finding::new(&RULE, say!(MESSAGE, part = id)).at(declared.entry.span(), HERE);
        let finding = model.work.span.into_iter().fold(finding, |finding, span| finding.at(span, ORDER));
        let before = caught.map_or_else(|| FILLED.into(), |id| say!(CAUGHT, id));
        findings.push(finding.help(say!(HELP, part = id, before)));
    }
}

/// The joint that catches a limb by both its plies, if this shell is one.
fn catching<'a>(context: &Context<'a>, at: usize) -> Option<&'a str> {
    let assembly = context.assembly;
    let shell: &Shell = assembly.sewing.shells.get(at)?;
    let joint = assembly.sewing.limbs.iter().find_map(|limb| {
        let joint = assembly.joints.get(limb.joint)?;
        joint.caught().flat_map(|side| &side.runs).any(|run| shell.faces.contains(&run.instance)).then_some(joint)
    });
    joint.map(|joint| joint.joint.as_str())
}

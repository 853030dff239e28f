use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Shell;
use crate::model::{Form, JointKind, Part};

/// A filled part that nothing fills.
pub const RULE: Rule = Rule {
    code: "filled-part-without-filling",
    family: "filling",
    severity: Severity::Must,
    summary: "a part that is closed like a filled one has no filling zone",
    explanation: "A shell with an opening that is closed for good is a filled part. What goes in, and how much of it, \
                  decides how the product feels, what it weighs and what it costs.",
    failing: "[part.body]\n[opening.back]\nclose = { by = \"hand\" }",
    passing: "[part.body]\n[opening.back]\nclose = { by = \"hand\" }\n[zone.body]\npart = \"body\"\nmaterial = \"fibre\"\n\
              mass = \"45 g ±3 g\"",
    source: "common practice",
};

/// Reports parts that are, or look, filled and have no zone.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let zoned: BTreeSet<&str> =
        model.zones.values().filter_map(|zone| zone.part.as_ref()).map(|part| part.value.as_str()).collect();
    let mut seen = BTreeSet::new();
    for shell in context.assembly.sewing.shells.iter().filter(|shell| is_filled(shell)) {
        if shell.parts.iter().any(|(part, _)| zoned.contains(part.as_str())) {
            continue;
        }
        let parts = shell.parts.iter().filter_map(|(part, _)| model.parts.get(part));
        for part in parts.filter(|part| part.form.as_ref().is_none_or(|form| form.value != Form::Flat)) {
            if seen.insert(&part.entry.id.value) {
                findings.push(finding(context, shell, part));
            }
        }
    }
    // A part that is said to be filled and not sewn to anything yet.
    for (id, part) in &model.parts {
        let said = part.form.as_ref().filter(|form| matches!(form.value, Form::Filled | Form::Ring));
        if let Some(form) = said
            && !zoned.contains(id.as_str())
            && seen.insert(id)
        {
            findings.push(
                Finding::new(&RULE, format!("part {id} is said to be filled, and no zone says with what"))
                    .at(form.span, "filled")
                    .help(zone(id)),
            );
        }
    }
}

fn is_filled(shell: &Shell) -> bool {
    matches!(shell.form, Some(Form::Filled | Form::Ring))
}

fn zone(part: &str) -> String {
    format!("add what goes in:\n[zone.{part}]\npart = \"{part}\"\nmaterial = \"..\"\nmass = \".. g ±.. g\"")
}

fn finding(context: &Context<'_>, shell: &Shell, part: &Part) -> Finding {
    let id = &part.entry.id.value;
    let finding = Finding::new(&RULE, format!("part {id} is closed like a filled part, and no zone says what goes in"))
        .at(part.entry.span(), "filled with what?");
    let joints = shell.joints.iter().filter_map(|at| context.assembly.joints.get(*at));
    let opening = joints
        .filter_map(|joint| context.model.joints.get(&joint.joint))
        .find(|joint| joint.kind == JointKind::Opening);
    let finding = match opening {
        Some(opening) => finding.at(opening.entry.span(), "its opening"),
        None => finding,
    };
    finding
        .help(zone(id))
        .help(format!("if it is only turned through the opening, or holds another part, say so under [part.{id}]: form = \"flat\" or form = \"cover\""))
}

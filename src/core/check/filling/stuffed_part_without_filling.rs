//! Rule: a part that is closed like a stuffed one has no stuffing.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::check::sewing::reopens;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Shell;
use crate::model::{Form, Joint, JointKind, Part};
use crate::words::{Phrase, say, words};

/// A stuffed part that nothing fills.
pub const RULE: Rule = Rule {
    code: "stuffed-part-without-filling",
    family: "filling",
    severity: Severity::Must,
    summary: "a part that is closed like a stuffed one has no stuffing",
    explanation: "A shell with an opening that is closed for good is a stuffed part. What goes in, and how much of it, \
                  decides how the product feels, what it weighs and what it costs.",
    failing: "[part.body]\n[opening.back]\nclose = { by = \"hand\" }",
    passing: "[part.body]\n[opening.back]\nclose = { by = \"hand\" }\n[stuffing.body]\npart = \"body\"\nfilling = \"fibre\"\n\
              mass = \"45 g ±3 g\"",
    source: "common practice",
};

words! {
    SAID "stuffed-part-without-filling.said" = "part {id} is said to be stuffed, and no stuffing says with what";
    STUFFED "stuffed-part-without-filling.stuffed" = "stuffed with what?";
    ADD "stuffed-part-without-filling.add" = "add what goes in:\n[stuffing.{part}]\npart = \"{part}\"\nfilling = \"..\"\nmass = \".. g ±.. g\"";
    CLOSED "stuffed-part-without-filling.closed" = "part {id} is closed like a stuffed part, and no stuffing says what goes in";
    OPENING "stuffed-part-without-filling.opening" = "its opening";
    HELP "stuffed-part-without-filling.help" = "if it is only turned through the opening, or holds another part, say so under [part.{id}]: form = \"flat\" or form = \"cover\"";
}

/// Reports parts that are, or look, stuffed and have no stuffing.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let stuffed: BTreeSet<&str> = model
        .stuffings
        .values()
        .filter_map(|stuffing| stuffing.part.as_ref())
        .map(|part| part.value.as_str())
        .collect();
    // A stuffing that names no part there is may be the one that is missing.
    if stuffed.iter().any(|part| !model.parts.contains_key(*part)) {
        return;
    }
    for (id, part) in model.parts.iter().filter(|(id, _)| !stuffed.contains(id.as_str())) {
        let said = part.form.as_ref().filter(|form| matches!(form.value, Form::Stuffed | Form::Ring));
        if let Some(form) = said {
            findings.push(Finding::new(&RULE, say!(SAID, id)).at(form.span, STUFFED).help(stuffing(id)));
        }
    }
    let mut seen = BTreeSet::new();
    for shell in context.assembly.sewing.shells.iter().filter(|shell| is_stuffed(shell) && is_shut(context, shell)) {
        if shell.parts.iter().any(|(part, _)| stuffed.contains(part.as_str())) {
            continue;
        }
        let parts = shell.parts.iter().filter_map(|(part, _)| model.parts.get(part));
        for part in parts.filter(|part| part.form.is_none()) {
            if seen.insert(&part.entry.id.value) {
                findings.push(finding(context, shell, part));
            }
        }
    }
}

/// Whether an opening of the shell is closed for good: what can be opened again may be a cover.
fn is_shut(context: &Context<'_>, shell: &Shell) -> bool {
    openings(context, shell).any(|opening| !reopens(opening.close.as_ref()))
}

fn openings<'a>(context: &Context<'a>, shell: &Shell) -> impl Iterator<Item = &'a Joint> {
    let joints = shell.joints.iter().filter_map(|at| context.assembly.joints.get(*at));
    joints.filter_map(|joint| context.model.joints.get(&joint.joint)).filter(|joint| joint.kind == JointKind::Opening)
}

fn is_stuffed(shell: &Shell) -> bool {
    matches!(shell.form, Some(Form::Stuffed | Form::Ring))
}

fn stuffing(part: &str) -> Phrase {
    say!(ADD, part)
}

fn finding(context: &Context<'_>, shell: &Shell, part: &Part) -> Finding {
    let id = &part.entry.id.value;
    let finding = Finding::new(&RULE, say!(CLOSED, id)).at(part.entry.span(), STUFFED);
    let opening = openings(context, shell).find(|opening| !reopens(opening.close.as_ref()));
    let finding = match opening {
        Some(opening) => finding.at(opening.entry.span(), OPENING),
        None => finding,
    };
    finding.help(stuffing(id)).help(say!(HELP, id))
}

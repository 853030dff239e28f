//! Rule: a part that is closed like a filled one has no stuffing.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::check::sewing::reopens;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Shell;
use crate::model::{Form, Joint, JointKind, Part};
use crate::words::{Phrase, say, words};

/// A filled part that nothing fills.
pub const RULE: Rule = Rule {
    code: "filled-part-without-filling",
    family: "filling",
    severity: Severity::Must,
    summary: "a part that is closed like a filled one has no stuffing",
    explanation: "A shell with an opening that is closed for good is a filled part. What goes in, and how much of it, \
                  decides how the product feels, what it weighs and what it costs.",
    failing: "[part.body]\n[opening.back]\nclose = { by = \"hand\" }",
    passing: "[part.body]\n[opening.back]\nclose = { by = \"hand\" }\n[stuffing.body]\npart = \"body\"\nfilling = \"fibre\"\n\
              mass = \"45 g ±3 g\"",
    source: "common practice",
};

words! {
    PART_SAID "filled-part-without-filling.part-said" = "part {id} is said to be filled, and no stuffing says with what";
    FILLED "filled-part-without-filling.filled" = "filled with what?";
    ADD_GOES "filled-part-without-filling.add-goes" = "add what goes in:\n[stuffing.{part}]\npart = \"{part}\"\nfilling = \"..\"\nmass = \".. g ±.. g\"";
    PART_CLOSED "filled-part-without-filling.part-closed" = "part {id} is closed like a filled part, and no stuffing says what goes in";
    OPENING "filled-part-without-filling.opening" = "its opening";
    HELP "filled-part-without-filling.help" = "if it is only turned through the opening, or holds another part, say so under [part.{id}]: form = \"flat\" or form = \"cover\"";
}

/// Reports parts that are, or look, filled and have no stuffing.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let stuffingd: BTreeSet<&str> = model
        .stuffings
        .values()
        .filter_map(|stuffing| stuffing.part.as_ref())
        .map(|part| part.value.as_str())
        .collect();
    for (id, part) in model.parts.iter().filter(|(id, _)| !stuffingd.contains(id.as_str())) {
        let said = part.form.as_ref().filter(|form| matches!(form.value, Form::Filled | Form::Ring));
        if let Some(form) = said {
            findings.push(Finding::new(&RULE, say!(PART_SAID, id)).at(form.span, FILLED).help(stuffing(id)));
        }
    }
    let mut seen = BTreeSet::new();
    for shell in context.assembly.sewing.shells.iter().filter(|shell| is_filled(shell) && is_shut(context, shell)) {
        if shell.parts.iter().any(|(part, _)| stuffingd.contains(part.as_str())) {
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

fn is_filled(shell: &Shell) -> bool {
    matches!(shell.form, Some(Form::Filled | Form::Ring))
}

fn stuffing(part: &str) -> Phrase {
    say!(ADD_GOES, part)
}

fn finding(context: &Context<'_>, shell: &Shell, part: &Part) -> Finding {
    let id = &part.entry.id.value;
    let finding = Finding::new(&RULE, say!(PART_CLOSED, id)).at(part.entry.span(), FILLED);
    let opening = openings(context, shell).find(|opening| !reopens(opening.close.as_ref()));
    let finding = match opening {
        Some(opening) => finding.at(opening.entry.span(), OPENING),
        None => finding,
    };
    finding.help(stuffing(id)).help(say!(HELP, id))
}

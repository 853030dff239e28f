//! Rule: a role that a colourway leaves without fabric.

use crate::check::Context;
use crate::check::mention::{Wanted, is_written, mentions};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;

/// A role that a colourway leaves out.
pub const RULE: Rule = Rule {
    code: "role-without-fabric",
    family: "material",
    severity: Severity::Must,
    summary: "a role that a colourway leaves without fabric",
    explanation: "A role such as `outer` stands for another fabric or colour in each colourway. If a colourway leaves it \
                  out, the pieces of that role cannot be cut for it.",
    failing: "[role.outer]\n[role.trim]\n[colourway.dusk]\nouter = \"canvas/slate\"",
    passing: "[role.outer]\n[role.trim]\n[colourway.dusk]\nouter = \"canvas/slate\"\ntrim = \"felt/rose\"",
    source: "common practice",
};

/// Reports each role in use that a colourway says nothing about.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let mentions = mentions(model);
    for (id, role) in &model.roles {
        let mut uses = mentions.iter().filter(|one| matches!(one.wanted, Wanted::Material(_)) && one.id == id);
        let Some(first) = uses.next() else { continue };
        for (code, colourway) in model.colourways.iter().filter(|(_, one)| !one.roles.contains_key(id)) {
            if model.was_refused("colourway", code, id) {
                continue;
            }
            let finding = if is_written(&colourway.entry) {
                Finding::new(&RULE, format!("colourway {code} does not say what role {id} is made of"))
                    .at(colourway.entry.span(), "left out here")
                    .at(first.span, format!("{} needs it", first.by))
                    .help(format!("add {id} = \"{}\" under [colourway.{code}]", example(model, id)))
            } else {
                Finding::new(&RULE, format!("no colourway says what role {id} is made of"))
                    .at(role.entry.span(), "stands for nothing")
                    .at(first.span, format!("{} needs it", first.by))
                    .help(format!("add a colourway:\n[colourway.ID]\n{id} = \"{}\"", example(model, id)))
            };
            findings.push(finding);
        }
    }
}

/// What another colourway gives the role, or the form of it.
fn example<'m>(model: &'m Model, role: &str) -> &'m str {
    let other = model.colourways.values().find_map(|colourway| colourway.roles.get(role));
    other.map_or("ARTICLE/COLOUR", |written| written.value.as_str())
}

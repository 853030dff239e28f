//! Rule: a role that a colourway leaves without fabric.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;
use crate::model::mention::{Wanted, is_written, mentions};
use crate::words::{say, words};

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

words! {
    LEFT_OUT_BY "role-without-fabric.left-out-by" = "colourway {code} does not say what role {id} is made of";
    LEFT_OUT "role-without-fabric.left-out" = "left out here";
    NEEDS "role-without-fabric.needs" = "{by} needs it";
    ADD "role-without-fabric.add" = "add {id} = \"{example}\" under [colourway.{code}]";
    NOWHERE "role-without-fabric.nowhere" = "no colourway says what role {id} is made of";
    NOTHING "role-without-fabric.nothing" = "means nothing";
    ADD_COLOURWAY "role-without-fabric.add-colourway" = "add a colourway:\n[colourway.ID]\n{id} = \"{example}\"";
}

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
                Finding::new(&RULE, say!(LEFT_OUT_BY, code, id))
                    .at(colourway.entry.span(), LEFT_OUT)
                    .at(first.span, say!(NEEDS, by = &first.by))
                    .help(say!(ADD, id, example = example(model, id), code))
            } else {
                Finding::new(&RULE, say!(NOWHERE, id))
                    .at(role.entry.span(), NOTHING)
                    .at(first.span, say!(NEEDS, by = &first.by))
                    .help(say!(ADD_COLOURWAY, id, example = example(model, id)))
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

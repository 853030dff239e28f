//! Rule: a piece or one of its layers does not say what it is cut from.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::kind;
use crate::words::{say, words};

/// A piece cut from nothing.
pub const RULE: Rule = Rule {
    code: "cut-without-material",
    family: "piece",
    severity: Severity::Must,
    summary: "a piece or one of its layers does not say what it is cut from",
    explanation: "Every layer of a piece is cut from some fabric: the shell, a fusible, a wadding. Without it the piece is \
                  missing from the lay and from the fabric to buy.",
    failing: "[piece.TOP]\nallowance = \"10 mm\"",
    passing: "[piece.TOP]\nallowance = \"10 mm\"\nmaterial = \"outer\"",
    source: "common practice",
};

words! {
    HERE "cut-without-material.here" = "no material";
    HELP "cut-without-material.help" = "add material = \"{example}\" with the role or fabric it is cut from";
    LAYER "cut-without-material.layer" = "the {name} of piece {id}";
    MESSAGE "cut-without-material.message" = "{what} does not say what it is cut from";
}

/// Reports pieces without a cut and cuts without a material.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let roles: Vec<&str> = model.roles.keys().map(String::as_str).collect();
    let example = roles.first().copied().unwrap_or("..");
    for (id, piece) in &model.pieces {
        if piece.cuts.is_empty() && !model.was_refused("piece", id, "cut") {
            findings.push(
                Finding::new(&RULE, say!(MESSAGE, what = kind::named("piece", id)))
                    .at(piece.entry.span(), HERE)
                    .help(say!(HELP, example)),
            );
        }
        for (name, cut) in piece.cuts.iter().filter(|(_, cut)| cut.material.is_none()) {
            if model.was_refused("piece", id, "material") || model.was_refused("piece", id, "cut") {
                continue;
            }
            // The one shell has no table of its own: its keys stand with the piece.
            let plain = name == "shell" && piece.cuts.len() == 1;
            let what = if plain { kind::named("piece", id) } else { say!(LAYER, name, id) };
            let place = if plain { piece.entry.span() } else { cut.entry.span() };
            findings.push(Finding::new(&RULE, say!(MESSAGE, what)).at(place, HERE).help(say!(HELP, example)));
        }
    }
}

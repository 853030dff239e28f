//! Rule: a fabric or other article is used without a colour, or in one it is not bought in.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::mention::{Mention, Wanted, mentions, within};
use crate::model::{Article, Model, kind};
use crate::source::Spanned;
use crate::words::{say, words};

/// A fabric of which nobody knows the colour.
pub const RULE: Rule = Rule {
    code: "fabric-without-colour",
    family: "material",
    severity: Severity::Must,
    summary: "a fabric or other article is used without a colour, or in one it is not bought in",
    explanation: "Fabric, thread and trims are ordered by colour. Where an article is bought in colours, each colourway \
                  must say which one it takes, and it must be one of them.",
    failing: "[fabric.canvas]\ncolours = [\"slate\", \"rust\"]\n[colourway.dusk]\nouter = \"canvas\"",
    passing: "[fabric.canvas]\ncolours = [\"slate\", \"rust\"]\n[colourway.dusk]\nouter = \"canvas/slate\"",
    source: "common practice",
};

words! {
    NOT_SAID "fabric-without-colour.not-said" = "colourway {code} does not say in which colour it takes {id}";
    WRITE "fabric-without-colour.write" = "write \"{id}/COLOUR\" with one of {colours}";
    WHICH_COLOUR "fabric-without-colour.which-colour" = "which colour?";
    NOT_BOUGHT "fabric-without-colour.not-bought" = "colourway {code} takes {id} in {colour}, and it is not bought in that";
    NOT_AMONG "fabric-without-colour.not-among" = "not among its colours";
    COLOURS "fabric-without-colour.colours" = "its colours";
    WRITE_OR_ADD "fabric-without-colour.write-or-add" = "write one of {colours}, or add \"{colour}\" to its `colours`";
    UNDECIDED "fabric-without-colour.undecided" = "{by} uses {what}, which is bought in {colours}: which one?";
    NO_COLOUR "fabric-without-colour.no-colour" = "no colour";
    ROLE "fabric-without-colour.role" = "name a role instead, and its colour in each colourway:\n[role.ROLE]\n[colourway.ID]\nROLE = \"{id}/{first}\"";
}

/// Reports colourways without a colour or with a foreign one, and articles of several colours that are named directly.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (code, colourway) in &model.colourways {
        for (role, written) in &colourway.roles {
            if let Some((article, colour)) = model.resolve(role, code).filter(|(one, _)| !one.colours.is_empty()) {
                findings_of(code, written, article, colour, model, findings);
            }
        }
    }
    for mention in mentions(model).iter().filter(|one| matches!(one.wanted, Wanted::Material(_))) {
        if model.roles.contains_key(mention.id) {
            continue;
        }
        if let Some(article) = model.articles.get(mention.id).filter(|article| article.colours.len() > 1) {
            findings.push(undecided(mention, article));
        }
    }
}

fn findings_of(
    code: &str,
    written: &Spanned<String>,
    article: &Article,
    colour: Option<&str>,
    model: &Model,
    findings: &mut Findings,
) {
    let id = &article.entry.id.value;
    let Some(colour) = colour.filter(|colour| !colour.is_empty()) else {
        let message = say!(NOT_SAID, code, id);
        let help = say!(WRITE, id, colours = list(article));
        findings.push(Finding::new(&RULE, message).at(written.span, WHICH_COLOUR).help(help));
        return;
    };
    // A colour that nothing declares is another finding.
    if article.colours.iter().any(|one| one.value == colour) || !model.colours.contains_key(colour) {
        return;
    }
    let finding = Finding::new(&RULE, say!(NOT_BOUGHT, code, id, colour)).at(within(written, colour), NOT_AMONG);
    let finding = article.colours.first().map(|first| first.span).into_iter().fold(finding, |f, s| f.at(s, COLOURS));
    findings.push(finding.help(say!(WRITE_OR_ADD, colours = list(article), colour)));
}

fn undecided(mention: &Mention<'_>, article: &Article) -> Finding {
    let what = kind::named(article.kind.word(), mention.id);
    let first = article.colours.first().map_or("", |one| one.value.as_str());
    Finding::new(&RULE, say!(UNDECIDED, by = &mention.by, what, colours = list(article)))
        .at(mention.span, NO_COLOUR)
        .help(say!(ROLE, id = mention.id, first))
}

fn list(article: &Article) -> String {
    let all: Vec<&str> = article.colours.iter().map(|one| one.value.as_str()).collect();
    all.join(", ")
}

//! Rule: an id, point or colour is mentioned that nothing declares.

use crate::check::Context;
use crate::check::mention::{Mention, Wanted, articles, known, mentions, nearest, within};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;
use crate::model::assembly::TroubleKind;
use crate::source::{Edit, Help, Spanned};

/// An id that nothing declares.
pub const RULE: Rule = Rule {
    code: "unknown-id",
    family: "reference",
    severity: Severity::Must,
    summary: "an id, point or colour is mentioned that nothing declares",
    explanation: "Parts, materials, colours, seams and points are named by their ids. Where an id is misspelt or its \
                  table was removed, the factory cannot know what is meant, and every count that follows from it is \
                  wrong.",
    failing: "[part.body]\n[piece.SIDE]\npart = \"boddy\"",
    passing: "[part.body]\n[piece.SIDE]\npart = \"body\"",
    source: "common practice",
};

/// Reports every mention of something that is not declared.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for mention in mentions(context.model) {
        // What has an id that cannot be one was reported where it is declared.
        if !known(context.model, mention.wanted).contains(&mention.id) && !context.model.is_misnamed(mention.id) {
            findings.push(unknown(context.model, &mention));
        }
    }
    colourways(context.model, findings);
    for trouble in context.assembly.troubles.iter().filter(|trouble| trouble.kind == TroubleKind::Unknown) {
        let finding = Finding::new(&RULE, trouble.message.clone()).at(trouble.span, trouble.label.clone());
        findings.push(trouble.help.iter().fold(finding, |finding, help| finding.help(help.clone())));
    }
}

/// What is wanted, as people call it, and the table that would declare it.
fn words(wanted: Wanted) -> (String, &'static str) {
    match wanted {
        Wanted::Part => ("part".into(), "part"),
        Wanted::Material(kind) => (format!("{} or role", kind.word()), kind.word()),
        Wanted::Colour => ("colour".into(), "colour"),
        Wanted::View => ("view".into(), "view"),
        Wanted::Stuffing => ("stuffing".into(), "stuffing"),
        Wanted::Party => ("party".into(), "party"),
        Wanted::Work => ("seam, opening, edge finish, topstitch, attachment or step".into(), "step"),
        Wanted::Thing => ("thing".into(), "piece"),
    }
}

fn unknown(model: &Model, mention: &Mention<'_>) -> Finding {
    let (what, table) = words(mention.wanted);
    let known = known(model, mention.wanted);
    let other = match mention.wanted {
        Wanted::Material(_) => articles(model, mention.id).first().copied(),
        _ => None,
    };
    if let Some(article) = other {
        let (is, needs) = (article.kind.word(), table);
        return Finding::new(&RULE, format!("{} needs a {needs}, and `{}` is a {is}", mention.by, mention.id))
            .at(mention.span, format!("a {is}"))
            .at(article.entry.span(), "declared here")
            .help(choice(&known, table, mention.id));
    }
    Finding::new(&RULE, format!("{} names the {what} `{}`, which nothing declares", mention.by, mention.id))
        .at(mention.span, "not declared")
        .help(match nearest(mention.id, known.iter().copied()) {
            Some(near) => {
                let edit = Edit::respell(mention.span, mention.id, near, known.iter().copied());
                Help::with(format!("write \"{near}\""), edit)
            }
            None => choice(&known, table, mention.id).into(),
        })
}

/// What else could be written.
fn choice(known: &[&str], table: &str, id: &str) -> String {
    match known {
        // A name for people where an id belongs.
        [] if id.contains(char::is_whitespace) => {
            format!("declare it and write its id: [{table}.ID] with name = \"{id}\"")
        }
        [] => format!("declare it: [{table}.{id}]"),
        [one] => format!("write \"{one}\", or declare another: [{table}.ID]"),
        _ if known.len() > 12 => format!("declare it: [{table}.ID]"),
        _ => format!("write one of {}, or declare another: [{table}.ID]", known.join(", ")),
    }
}

/// Roles, articles and colours of colourways.
fn colourways(model: &Model, findings: &mut Findings) {
    for (id, colourway) in &model.colourways {
        for (role, place) in colourway.keys.iter().filter(|(role, _)| !model.roles.contains_key(*role)) {
            let help = match nearest(role, model.roles.keys().map(String::as_str)) {
                Some(near) => {
                    let edit = Edit::respell(*place, role, near, model.roles.keys().map(String::as_str));
                    Help::with(format!("write `{near}`"), edit)
                }
                None => format!("declare the role: [role.{role}]").into(),
            };
            let message = format!("colourway {id} says what role `{role}` is made of, and nothing declares that role");
            findings.push(Finding::new(&RULE, message).at(*place, "not declared").help(help));
        }
        for written in colourway.roles.values().filter(|written| written.value != "by factory") {
            entry(model, id, written, findings);
        }
    }
}

/// `article/colour` of one role.
fn entry(model: &Model, colourway: &str, written: &Spanned<String>, findings: &mut Findings) {
    let (article, colour) = match written.value.split_once('/') {
        Some((article, colour)) => (article.trim(), Some(colour.trim())),
        None => (written.value.as_str(), None),
    };
    let by = format!("colourway {colourway}");
    let mut report = |what: &str, word: &str, known: Vec<&str>, table: &str| {
        let help = match nearest(word, known.iter().copied()) {
            Some(near) => {
                let edit = Edit::respell(within(written, word), word, near, known.iter().copied());
                Help::with(format!("write \"{}\"", written.value.replacen(word, near, 1)), edit)
            }
            None => choice(&known, table, word).into(),
        };
        let message = format!("{by} names the {what} `{word}`, which nothing declares");
        findings.push(Finding::new(&RULE, message).at(within(written, word), "not declared").help(help));
    };
    if !model.articles.contains_key(article) {
        report("article", article, model.articles.keys().map(String::as_str).collect(), "fabric");
    }
    if let Some(colour) = colour.filter(|colour| !model.colours.contains_key(*colour)) {
        report("colour", colour, model.colours.keys().map(String::as_str).collect(), "colour");
    }
}

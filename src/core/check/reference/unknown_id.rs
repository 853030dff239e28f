//! Rule: an id, point or colour is mentioned that nothing declares.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::TroubleKind;
use crate::model::mention::{Mention, Wanted, articles, known, mentions, within};
use crate::model::{Model, kind};
use crate::source::nearest;
use crate::source::{Edit, Help, Spanned};
use crate::words::{Phrase, say, words};

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

words! {
    OR_ROLE "unknown-id.or-role" = "{kind} or role";
    WORK "unknown-id.work" = "seam, opening, edge finish, topstitch, attachment or step";
    THING "unknown-id.thing" = "thing";
    ARTICLE "unknown-id.article" = "article";
    IS "unknown-id.is" = "a {is}";
    NEEDS "unknown-id.needs" = "{by} needs a {needs}, and `{id}` is a {is}";
    DECLARED_HERE "unknown-id.declared-here" = "declared here";
    UNKNOWN "unknown-id.unknown" = "{by} names the {what} `{id}`, which nothing declares";
    NOT_DECLARED "unknown-id.not-declared" = "not declared";
    WRITE "unknown-id.write" = "write \"{near}\"";
    DECLARE_NAMED "unknown-id.declare-named" = "declare it and write its id: [{table}.ID] with name = \"{id}\"";
    DECLARE "unknown-id.declare" = "declare it: [{table}.{id}]";
    WRITE_OR_DECLARE "unknown-id.write-or-declare" = "write \"{one}\", or declare another: [{table}.ID]";
    DECLARE_ID "unknown-id.declare-id" = "declare it: [{table}.ID]";
    WRITE_ONE_OF "unknown-id.write-one-of" = "write one of {known}, or declare another: [{table}.ID]";
    WRITE_RESPELT "unknown-id.write-respelt" = "write `{near}`";
    DECLARE_ROLE "unknown-id.declare-role" = "declare the role: [role.{role}]";
    ROLE_UNKNOWN "unknown-id.role-unknown" = "colourway {id} says what role `{role}` is made of, and nothing declares that role";
}

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
fn wording(wanted: Wanted) -> (Phrase, &'static str) {
    match wanted {
        Wanted::Of(table) => (kind::word(table), table),
        Wanted::Material(kind) => (say!(OR_ROLE, kind = kind::word(kind.word())), kind.word()),
        Wanted::Work => (WORK.into(), "step"),
        Wanted::Thing => (THING.into(), "piece"),
    }
}

fn unknown(model: &Model, mention: &Mention<'_>) -> Finding {
    let (what, table) = wording(mention.wanted);
    let known = known(model, mention.wanted);
    let other = match mention.wanted {
        Wanted::Material(_) => articles(model, mention.id).first().copied(),
        _ => None,
    };
    if let Some(article) = other {
        let is = kind::word(article.kind.word());
        return Finding::new(
            &RULE,
            say!(NEEDS, by = &mention.by, needs = kind::word(table), id = mention.id, is = &is),
        )
        .at(mention.span, say!(IS, is))
        .at(article.entry.span(), DECLARED_HERE)
        .help(choice(&known, table, mention.id));
    }
    Finding::new(&RULE, say!(UNKNOWN, by = &mention.by, what, id = mention.id)).at(mention.span, NOT_DECLARED).help(
        match nearest(mention.id, known.iter().copied()) {
            Some(near) => {
                let edit = Edit::respell(mention.span, mention.id, near, known.iter().copied());
                Help::with(say!(WRITE, near), edit)
            }
            None => choice(&known, table, mention.id).into(),
        },
    )
}

/// What else could be written.
fn choice(known: &[&str], table: &str, id: &str) -> Phrase {
    match known {
        // A name for people where an id belongs.
        [] if id.contains(char::is_whitespace) => say!(DECLARE_NAMED, table, id),
        [] => say!(DECLARE, table, id),
        [one] => say!(WRITE_OR_DECLARE, one, table),
        _ if known.len() > 12 => say!(DECLARE_ID, table),
        _ => say!(WRITE_ONE_OF, known = known.join(", "), table),
    }
}

/// Roles, articles and colours of colourways.
fn colourways(model: &Model, findings: &mut Findings) {
    for (id, colourway) in &model.colourways {
        for (role, place) in colourway.keys.iter().filter(|(role, _)| !model.roles.contains_key(*role)) {
            let help = match nearest(role, model.roles.keys().map(String::as_str)) {
                Some(near) => {
                    let edit = Edit::respell(*place, role, near, model.roles.keys().map(String::as_str));
                    Help::with(say!(WRITE_RESPELT, near), edit)
                }
                None => say!(DECLARE_ROLE, role).into(),
            };
            let message = say!(ROLE_UNKNOWN, id, role);
            findings.push(Finding::new(&RULE, message).at(*place, NOT_DECLARED).help(help));
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
    let by = kind::named("colourway", colourway);
    let mut report = |what: Phrase, word: &str, known: Vec<&str>, table: &str| {
        let help = match nearest(word, known.iter().copied()) {
            Some(near) => {
                let edit = Edit::respell(within(written, word), word, near, known.iter().copied());
                Help::with(say!(WRITE, near = written.value.replacen(word, near, 1)), edit)
            }
            None => choice(&known, table, word).into(),
        };
        let message = say!(UNKNOWN, by = &by, what, id = word);
        findings.push(Finding::new(&RULE, message).at(within(written, word), NOT_DECLARED).help(help));
    };
    if !model.articles.contains_key(article) {
        report(ARTICLE.into(), article, model.articles.keys().map(String::as_str).collect(), "fabric");
    }
    if let Some(colour) = colour.filter(|colour| !model.colours.contains_key(*colour)) {
        report(kind::word("colour"), colour, model.colours.keys().map(String::as_str).collect(), "colour");
    }
}

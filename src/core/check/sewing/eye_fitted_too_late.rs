//! Rule: a safety eye or nose is fitted when nobody can reach behind it.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Deed, Step};
use crate::words::{say, words};

use super::closed::{closing, part, places};
use super::text;

/// An eye on a part that is filled or closed.
pub const RULE: Rule = Rule {
    code: "eye-fitted-too-late",
    family: "sewing",
    severity: Severity::Should,
    summary: "a safety eye or nose is fitted after the part is filled or closed",
    explanation: "A safety eye has a shank that goes through the fabric, and a washer that is pressed on from inside. Once the part \
                  is filled or closed, nobody reaches behind it. What is sewn on or glued on from outside says so in the name, \
                  `place` or `note` of the trim or of the step.",
    failing: "[step.eyes]\ndo = \"fit the eyes\"\npart = \"body\"\ntrim = \"eye\"\n[work]\norder = [\"side\", \"turn\", \"fill\", \
              \"eyes\", \"back\"]",
    passing: "[step.eyes]\ndo = \"fit the eyes\"\npart = \"body\"\ntrim = \"eye\"\n[work]\norder = [\"side\", \"turn\", \"eyes\", \
              \"fill\", \"back\"]",
    source: "common practice",
};

words! {
    MESSAGE "eye-fitted-too-late.message" = "{trim} is fitted to {part} in step {id}, after {before}: it cannot be fixed from inside any more";
    HERE "eye-fitted-too-late.here" = "nobody reaches behind it";
    FILLED "eye-fitted-too-late.filled" = "filled here";
    CLOSED "eye-fitted-too-late.closed" = "closed here";
}

/// Words for what is fixed from outside.
const OUTSIDE: [&str; 4] = ["sew", "glue", "stitch", "embroider"];

/// Reports each step once, with the first that is in its way.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let order = &model.work.order;
    let places = places(context);
    for (id, step) in &model.steps {
        let Some((at, span)) = places.get(id.as_str()).copied() else { continue };
        let Some((trim, part)) = fitted(context, step) else { continue };
        let fills = |one: &&str| {
            model
                .steps
                .get(*one)
                .is_some_and(|other| other.deed == Deed::Fill && self::part(context, other) == Some(part))
        };
        let filled = order.iter().take(at).map(|step| step.value.as_str()).find(fills);
        let own = |shell: &&crate::model::assembly::Shell| {
            !shell.joints.is_empty() && shell.parts.iter().any(|(name, _)| name == part)
        };
        let shells = context.assembly.sewing.shells.iter().filter(own);
        let closed = shells.filter_map(|shell| closing(context, &places, shell)).find(|(place, _)| *place < at);
        let Some(before) = filled.or(closed.map(|(_, id)| id)) else { continue };
        let mut finding = Finding::new(&RULE, say!(MESSAGE, trim, part, id, before)).at(span, HERE);
        if let Some((_, place)) = places.get(before) {
            finding = finding.at(*place, if filled.is_some() { FILLED } else { CLOSED });
        }
        findings.push(finding.help(text::moved_before(context, id, before)));
    }
}

/// The eye that a step fixes from inside, and the part it is on.
fn fitted<'a>(context: &Context<'a>, step: &'a Step) -> Option<(&'a str, &'a str)> {
    let model = context.model;
    let trim = step.trim.as_ref()?.value.as_str();
    let articles: Vec<_> = model.colourways.keys().filter_map(|way| Some(model.resolve(trim, way)?.0)).collect();
    let said = |article: &crate::model::Article| {
        let texts = ["place", "note", "type"].into_iter().filter_map(|key| article.text(key));
        let texts: Vec<&str> =
            texts.flat_map(|value| value.all()).filter_map(|one| one.known()).map(String::as_str).collect();
        [texts, vec![article.entry.title()]].concat().join(" ")
    };
    let note = step.note.as_ref().and_then(|note| note.known()).map(String::as_str).unwrap_or_default();
    let word = step.word.as_ref().map_or("", |word| word.value.as_str());
    let texts = articles.iter().map(|article| said(article)).chain([note, word, step.entry.title()].map(String::from));
    let outside = texts.into_iter().any(|text| {
        text.to_lowercase()
            .split(|c: char| !c.is_alphabetic())
            .any(|word| OUTSIDE.iter().any(|one| word.starts_with(one)))
    });
    let eye = !articles.is_empty() && articles.iter().all(|article| article.is_eye());
    let part = part(context, step)?;
    (eye && !outside).then_some((trim, part))
}

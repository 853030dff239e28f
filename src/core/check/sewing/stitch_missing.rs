//! Rule: a seam does not say its stitch type, density or thread.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{ArticleKind, kind};
use crate::words::{Phrase, Word, say, words};

use super::text;
use super::uses::{StitchPlace, stitches};

/// A seam whose stitch is not described in full.
pub const RULE: Rule = Rule {
    code: "stitch-missing",
    family: "sewing",
    severity: Severity::Should,
    summary: "a seam does not say its stitch type, density or thread",
    explanation: "Strength, look and the need of thread follow from stitch type, stitches per length and thread. They \
                  may be stated at the seam, as a shared [stitch], or once for all under [work].",
    failing: "[seam.top]\na = \"FRONT:nw-ne\"\nb = \"BACK:ne-nw\"\nstitch = { type = \"301\", thread = \"tkt\" }",
    passing: "[seam.top]\na = \"FRONT:nw-ne\"\nb = \"BACK:ne-nw\"\nstitch = { type = \"301\", density = \"4 st/cm\", \
              thread = \"tkt\" }",
    source: "common practice",
};

words! {
    TYPE "stitch-missing.type" = "stitch type";
    DENSITY "stitch-missing.density" = "stitch density";
    THREAD "stitch-missing.thread" = "thread";
    NO_TYPE "stitch-missing.no-type" = "no type";
    NO_DENSITY "stitch-missing.no-density" = "no density";
    NO_THREAD "stitch-missing.no-thread" = "no thread";
    ONE "stitch-missing.one" = "{names} does not say the {missing}";
    SEVERAL "stitch-missing.several" = "{names} do not say the {missing}";
    HELP "stitch-missing.help" = "write {missing}, there or once for all under [work]";
    IN_THE_STITCH "stitch-missing.in-the-stitch" = "{values} in the stitch";
}

/// Reports what is missing, seams that miss the same together.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let places = stitches(context);
    let mut groups: BTreeMap<Vec<&str>, Vec<&StitchPlace<'_>>> = BTreeMap::new();
    for place in places.iter().filter(|place| place.needed) {
        let missing = missing(context, place);
        if !missing.is_empty() {
            groups.entry(missing).or_default().push(place);
        }
    }
    for (missing, places) in groups {
        let names: Vec<Phrase> = places.iter().map(|place| kind::named(place.what, place.id)).collect();
        let (what, none): (Vec<Word>, Vec<Word>) = missing.iter().map(|key| wording(key)).unzip();
        let word = if places.len() == 1 { ONE } else { SEVERAL };
        let message = say!(word, names = text::list(&names), missing = text::list(&what));
        let mut finding = Finding::new(&RULE, message);
        for place in places.iter().take(3) {
            finding = finding.at(place.stitch.span.unwrap_or(place.span), Phrase::list(&none));
        }
        findings.push(finding.help(say!(HELP, missing = example(context, &missing))));
    }
}

fn missing<'a>(context: &Context<'_>, place: &StitchPlace<'_>) -> Vec<&'a str> {
    let (own, shared) = (place.stitch, &context.model.work.stitch);
    // A value that is written and could not be read is a finding of its own.
    let unread = |key: &str| {
        let model = context.model;
        let shared = own.shared.as_ref().or(shared.shared.as_ref()).map(|id| id.value.as_str());
        shared.is_some_and(|id| model.was_refused("stitch", id, key))
            || model.was_refused(place.what, place.id, "stitch")
            || model.was_refused("work", "work", "stitch")
    };
    let has = [
        ("type", own.kind.is_some() || shared.kind.is_some()),
        ("density", own.density.is_some() || shared.density.is_some()),
        ("thread", own.thread.is_some() || shared.thread.is_some()),
    ];
    has.into_iter().filter(|(key, has)| !has && !unread(key)).map(|(word, _)| word).collect()
}

/// What is missing, and that it is.
fn wording(key: &str) -> (Word, Word) {
    match key {
        "type" => (TYPE, NO_TYPE),
        "density" => (DENSITY, NO_DENSITY),
        _ => (THREAD, NO_THREAD),
    }
}

/// A role or thread that can be named, or two dots where none is declared.
fn thread<'a>(context: &Context<'a>) -> &'a str {
    let model = context.model;
    let is = |name: &str, way: &str| model.resolve(name, way).is_some_and(|(one, _)| one.kind == ArticleKind::Thread);
    let ids = model.roles.keys().chain(model.articles.keys()).map(String::as_str);
    ids.into_iter().find(|id| model.colourways.keys().any(|way| is(id, way))).unwrap_or("..")
}

fn example(context: &Context<'_>, missing: &[&str]) -> Phrase {
    let value = |word: &&str| match *word {
        "type" => "type = \"301\"".to_string(),
        "density" => "density = \"4 st/cm\"".to_string(),
        _ => format!("thread = \"{}\"", thread(context)),
    };
    let values: Vec<String> = missing.iter().map(value).collect();
    match missing.len() {
        3 => Phrase::from(format!("stitch = {{ {} }}", values.join(", "))),
        _ => say!(IN_THE_STITCH, values = values.join(", ")),
    }
}

//! Rule: a sample, comment or approval names something that the style does not have.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::kind::Kind;
use crate::model::{Model, kind};
use crate::source::Spanned;
use crate::source::nearest;
use crate::words::{Phrase, say, words};

/// A sample, comment or approval of something that is not there.
pub const RULE: Rule = Rule {
    code: "unknown-sample-item",
    family: "sample",
    severity: Severity::Must,
    summary: "a sample, comment or approval names something that the style does not have",
    explanation: "Readings, comments and verdicts hang on ids. Where an id is misspelt, or its thing was taken out without \
                  `was` on what took its place, a reading has no limits, and nobody sees that a comment was never answered.",
    failing: "[seam.belly]\n[comment.c1]\nabout = \"seam.bely\"",
    passing: "[seam.belly]\n[comment.c1]\nabout = \"seam.belly\"",
    source: "follows from the terms",
};

words! {
    UNKNOWN "unknown-sample-item.unknown" = "{by} names the {what} `{id}`, which the style does not have";
    WRITE "unknown-sample-item.write" = "write \"{near}\"";
    NO_SUCH_KIND "unknown-sample-item.no-such-kind" = "the style has no {what}";
    THERE_ARE "unknown-sample-item.there-are" = "there are {known}";
    NO_SUCH "unknown-sample-item.no-such" = "no such {what}";
    ABOUT_UNKNOWN "unknown-sample-item.about-unknown" = "{by} is about `{id}`, which the style does not have";
    NO_SUCH_THING "unknown-sample-item.no-such-thing" = "no such thing";
    WRITE_TABLE "unknown-sample-item.write-table" = "write its table and its id, as \"seam.belly\"; a thing that has another id now says so with `was`";
}

/// Reports every such name.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let known = Known::of(model);
    for (id, sample) in &model.samples.samples {
        let by = kind::named("sample", id);
        known.look(&by, "size", sample.size.as_ref(), &known.sizes, findings);
        known.look(&by, "colourway", sample.colourway.as_ref(), &known.colourways, findings);
        for readings in sample.readings.values() {
            known.look(&by, "point-of-measure", Some(&readings.of), &known.points, findings);
        }
        for readings in sample.stuffings.values() {
            known.look(&by, "stuffing", Some(&readings.of), &known.stuffings, findings);
        }
        for readings in sample.fabric.values() {
            known.look(&by, "fabric", Some(&readings.of), &known.fabrics, findings);
        }
        for readings in sample.colours.values() {
            known.item(&by, Some(&readings.of), findings);
        }
        for grade in &sample.grades {
            known.item(&by, grade.of.as_ref(), findings);
        }
    }
    for (id, comment) in &model.samples.comments {
        let by = kind::named("comment", id);
        known.item(&by, comment.about.as_ref(), findings);
        known.look(&by, "sample", comment.sample.as_ref(), &known.samples, findings);
    }
    for (id, approval) in &model.samples.approvals {
        let by = kind::named("approval", id);
        known.item(&by, approval.of.as_ref(), findings);
        known.look(&by, "colourway", approval.colourway.as_ref(), &known.colourways, findings);
    }
}

/// The names there are.
struct Known<'a> {
    model: &'a Model,
    items: Vec<(&'static str, &'a str)>,
    sizes: Vec<&'a str>,
    colourways: Vec<&'a str>,
    points: Vec<&'a str>,
    stuffings: Vec<&'a str>,
    fabrics: Vec<&'a str>,
    samples: Vec<&'a str>,
}

impl<'a> Known<'a> {
    fn of(model: &'a Model) -> Known<'a> {
        let items = items(model);
        let table = |wanted: &str| items.iter().filter(|(table, _)| *table == wanted).map(|(_, id)| *id).collect();
        Known {
            model,
            sizes: model.sizes.iter().map(|size| size.entry.id.value.as_str()).collect(),
            colourways: model.colourways.keys().map(String::as_str).collect(),
            points: table("point-of-measure"),
            stuffings: table("stuffing"),
            fabrics: table("fabric"),
            samples: table("sample"),
            items,
        }
    }

    fn look(&self, by: &Phrase, table: &str, id: Option<&Spanned<String>>, known: &[&str], findings: &mut Findings) {
        let Some(id) = id.filter(|id| !known.contains(&id.value.as_str())) else { return };
        let what = kind::word(table);
        let message = say!(UNKNOWN, by, what = &what, id = &id.value);
        let help = match nearest(&id.value, known.iter().copied()) {
            Some(near) => say!(WRITE, near),
            None if known.is_empty() => say!(NO_SUCH_KIND, what = &what),
            None => say!(THERE_ARE, known = known.join(", ")),
        };
        findings.push(Finding::new(&RULE, message).at(id.span, say!(NO_SUCH, what)).help(help));
    }

    /// `style`, `table.id`, `id`, or `article/colour`.
    fn item(&self, by: &Phrase, id: Option<&Spanned<String>>, findings: &mut Findings) {
        let Some(id) = id.filter(|id| !self.has(&id.value)) else { return };
        let message = say!(ABOUT_UNKNOWN, by, id = &id.value);
        let finding = Finding::new(&RULE, message).at(id.span, NO_SUCH_THING);
        let near = match id.value.split_once('.') {
            Some((table, rest)) => {
                let same = self.items.iter().filter(|(one, _)| *one == table).map(|(_, id)| *id);
                nearest(rest, same).map(|near| format!("{table}.{near}"))
            }
            None => nearest(&id.value, self.items.iter().map(|(_, id)| *id)).map(ToString::to_string),
        };
        findings.push(finding.help(match near {
            Some(near) => say!(WRITE, near),
            None => Phrase::from(WRITE_TABLE),
        }));
    }

    fn has(&self, text: &str) -> bool {
        if text == "style" {
            return true;
        }
        if let Some((article, colour)) = text.split_once('/') {
            let (article, colour) = (article.trim(), colour.trim());
            return self.model.articles.contains_key(article) && self.model.colours.contains_key(colour);
        }
        match text.split_once('.') {
            Some((table, id)) => self.items.contains(&(table, id)),
            None => self.items.iter().any(|(_, id)| *id == text),
        }
    }
}

/// Everything that a comment can be about and an approval of, as `table.id`; a former id counts.
fn items(model: &Model) -> Vec<(&'static str, &str)> {
    let mut all: Vec<(&'static str, &str)> = Vec::new();
    let other = |kind: &Kind| matches!(kind.table, "order" | "comment" | "concession");
    for (kind, entry) in model.named().filter(|(kind, _)| !other(kind)) {
        all.push((kind.table, &entry.id.value));
        all.extend(entry.was.as_ref().map(|was| (kind.table, was.value.as_str())));
    }
    all
}

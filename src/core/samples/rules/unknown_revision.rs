//! Rule: a sample, an answer or an order cites a revision that was never sealed.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Stated, kind};
use crate::source::{Edit, Help, Span, nearest, quoted};
use crate::words::{Phrase, say, words};

use super::must_at_bulk;

/// A revision that does not exist.
pub const RULE: Rule = Rule {
    code: "unknown-revision",
    family: "sample",
    severity: Severity::Should,
    summary: "a sample, an answer or an order cites a revision that was never sealed",
    explanation: "Readings are judged by the revision a sample was made to, an answer is looked up in the revision it names, and \
                  goods are made to the revision an order cites. One that is neither this revision nor sealed in `revisions/` \
                  cannot be looked up by anybody. At bulk it is a `must`.",
    failing: "[revision]\nid = \"C\"\n[sample.pp]\nof = \"Q7\"  # sealed are A and B",
    passing: "[revision]\nid = \"C\"\n[sample.pp]\nof = \"B\"  # sealed are A and B",
    source: "follows from what was sealed",
};

words! {
    SAMPLE "unknown-revision.sample" = "{what} was made to revision {cited}, which was never sealed";
    ANSWER "unknown-revision.answer" = "{what} is answered in revision {cited}, which was never sealed";
    ORDER "unknown-revision.order" = "{what} cites revision {cited}, which was never sealed";
    HERE "unknown-revision.here" = "no such revision";
    WRITE "unknown-revision.write" = "write \"{near}\"";
    SEALED "unknown-revision.sealed" = "sealed are {names}, and this is revision {now}";
    NONE "unknown-revision.none" = "nothing is sealed yet, and this is revision {now}";
}

/// Reports each citation, where it is known what was sealed.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let Some(now) = model.revision.id.as_ref().and_then(Stated::known) else { return };
    let Some(issued) = &model.issued else { return };
    let known: Vec<&str> = issued.names.iter().chain([now]).map(String::as_str).collect();
    for (message, cited, span) in cited(model).into_iter().filter(|(_, cited, _)| !known.contains(cited)) {
        let names = issued.names.join(", ");
        let help = match nearest(cited, known.iter().copied()) {
            Some(near) => Help::with(say!(WRITE, near), Edit::replace(span, quoted(near))),
            None if issued.names.is_empty() => say!(NONE, now).into(),
            None => say!(SEALED, names, now).into(),
        };
        findings.push(must_at_bulk(context, Finding::new(&RULE, message).at(span, HERE).help(help)));
    }
}

/// Every revision that is cited: what is said, which, where.
fn cited(model: &Model) -> Vec<(Phrase, &str, Span)> {
    let samples = &model.samples;
    let made = samples.samples.iter().filter_map(|(id, sample)| {
        let of = sample.of.as_ref()?;
        Some((say!(SAMPLE, what = kind::named("sample", id), cited = &of.value), of.value.as_str(), of.span))
    });
    let answers = samples.comments.iter().filter_map(|(id, comment)| {
        let of = comment.answered_in.as_ref()?;
        Some((say!(ANSWER, what = kind::named("comment", id), cited = &of.value), of.value.as_str(), of.span))
    });
    let orders = model.orders.iter().filter_map(|(id, order)| {
        let of = order.revision.as_ref()?;
        let cited = of.known()?;
        Some((say!(ORDER, what = kind::named("order", id), cited), cited.as_str(), of.span))
    });
    made.chain(answers).chain(orders).collect()
}

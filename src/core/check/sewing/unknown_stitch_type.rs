//! Rule: a stitch type is no number of ISO 4915.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::Spanned;
use crate::standards::stitch;
use crate::words::{Word, say, words};

use super::uses::stitches;

/// A stitch type that the list does not hold.
pub const RULE: Rule = Rule {
    code: "unknown-stitch-type",
    family: "sewing",
    severity: Severity::Must,
    summary: "a stitch type is no number of ISO 4915",
    explanation: "Sewing machines are set up by the stitch type number of ISO 4915: three digits, of which the first is \
                  the class. A name or a wrong number is read differently in every factory, and the thread cannot be \
                  worked out from it.",
    failing: "[work]\nstitch = { type = \"310\", density = \"4 st/cm\", thread = \"tkt\" }",
    passing: "[work]\nstitch = { type = \"301\", density = \"4 st/cm\", thread = \"tkt\" }",
    source: "ISO 4915:1991",
};

words! {
    WRITE "unknown-stitch-type.write" = "write \"{number}\" for {name}";
    KNOWN_HERE "unknown-stitch-type.known-here" = "known here: {numbers}";
    NOT_LISTED "unknown-stitch-type.not-listed" = "stitch type {written} is not in the list known here";
    CLASS "unknown-stitch-type.class" = "class of {name}";
    HELP "unknown-stitch-type.help" = "if the number is right, set unknown-stitch-type = \"off\" under [severity]";
    NO_NUMBER "unknown-stitch-type.no-number" = "\"{written}\" is no stitch type number";
    THREE_DIGITS "unknown-stitch-type.three-digits" = "three digits, the first from 1 to 6";
}

/// Reports each written type once, however many seams share it.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut seen = BTreeSet::new();
    let places = stitches(context);
    let uses = places.iter().map(|place| place.stitch).chain([&context.model.work.stitch]);
    for kind in uses.filter_map(|stitch| stitch.kind.as_ref()) {
        if seen.insert(kind.span)
            && let Some(finding) = judged(kind)
        {
            findings.push(finding);
        }
    }
}

fn judged(kind: &Spanned<String>) -> Option<Finding> {
    let written = kind.value.trim();
    if stitch::find(written).is_some() || written == "by factory" {
        return None;
    }
    let joined: String = written.split_whitespace().collect();
    let near = stitch::nearest(written)
        .or_else(|| stitch::nearest(&joined))
        .map(|near| say!(WRITE, number = near.number, name = Word { key: near.key, en: near.name }));
    let known = || {
        let numbers: Vec<&str> = stitch::STITCHES.iter().map(|one| one.number).collect();
        say!(KNOWN_HERE, numbers = numbers.join(", "))
    };
    Some(match stitch::class_of(written) {
        Some(class) => {
            let message = say!(NOT_LISTED, written);
            let mut finding = Finding::new(&RULE, message)
                .at(kind.span, say!(CLASS, name = Word { key: class.key(), en: class.name() }))
                .help(near.unwrap_or_else(known));
            finding.severity = Severity::Should;
            finding.help(HELP)
        }
        None => {
            Finding::new(&RULE, say!(NO_NUMBER, written)).at(kind.span, THREE_DIGITS).help(near.unwrap_or_else(known))
        }
    })
}

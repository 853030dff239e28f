//! Rule: a stitch type is no number of ISO 4915.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::Spanned;
use crate::standards::stitch;

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
        .map(|near| format!("write \"{}\" for {}", near.number, near.name));
    let known = || {
        let numbers: Vec<&str> = stitch::STITCHES.iter().map(|one| one.number).collect();
        format!("known here: {}", numbers.join(", "))
    };
    Some(match stitch::class_of(written) {
        Some(class) => {
            let message = format!("stitch type {written} is not in the list known here");
            let mut finding = Finding::new(&RULE, message)
                .at(kind.span, format!("class of {}", class.name()))
                .help(near.unwrap_or_else(known));
            finding.severity = Severity::Should;
            finding.help("if the number is right, set unknown-stitch-type = \"off\" under [severity]")
        }
        None => Finding::new(&RULE, format!("\"{written}\" is no stitch type number"))
            .at(kind.span, "three digits, the first from 1 to 6")
            .help(near.unwrap_or_else(known)),
    })
}

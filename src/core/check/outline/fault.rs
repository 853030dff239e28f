//! Reports the defects of outlines of one kind.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule};
use crate::model::assembly::{Fault, Gap};
use crate::source::{Help, Span};
use crate::words::{Phrase, Word, say, words};

words! {
    SIZES "outline.fault.sizes" = " in size {sizes}";
    MESSAGE "outline.fault.message" = "piece {piece}{here}: {message}";
}

/// Reports the defects of one kind, each with the same help.
pub fn faults(
    context: &Context<'_>,
    wanted: Fault,
    rule: &'static Rule,
    label: Word,
    help: Word,
    findings: &mut Findings,
) {
    helped(context, wanted, rule, label, |_, _| help.into(), findings);
}

/// Reports the defects of one kind, each once, with the sizes that have it where not all do.
pub fn helped(
    context: &Context<'_>,
    wanted: Fault,
    rule: &'static Rule,
    label: Word,
    help: impl Fn(&str, Span) -> Help,
    findings: &mut Findings,
) {
    type Key<'a> = (&'a str, Span, &'a Phrase, &'a [(Span, Phrase)]);
    let mut defects: BTreeMap<Key<'_>, Vec<&str>> = BTreeMap::new();
    for (piece, size, gap) in context.assembly.outlines.gaps() {
        match gap {
            Gap::Defect { span, message, fault, also } if *fault == wanted => {
                defects.entry((piece, *span, message, also)).or_default().push(size);
            }
            _ => {}
        }
    }
    for ((piece, span, message, also), sizes) in defects {
        let all = sizes.len() == context.model.sizes.len();
        let here = if all { Phrase::none() } else { say!(SIZES, sizes = sizes.join(", ")) };
        let finding = Finding::new(rule, say!(MESSAGE, piece, here, message)).at(span, label);
        let finding = also.iter().fold(finding, |finding, (span, text)| finding.at(*span, text.clone()));
        findings.push(finding.help(help(piece, span)));
    }
}

//! Reports the defects of outlines of one kind.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule};
use crate::model::assembly::{Fault, Gap};
use crate::source::Span;

/// Reports the defects of one kind, each once, with the sizes that have it where not all do.
pub fn faults(
    context: &Context<'_>,
    wanted: Fault,
    rule: &'static Rule,
    label: &str,
    help: &str,
    findings: &mut Findings,
) {
    type Key<'a> = (&'a str, Span, &'a str, &'a [(Span, String)]);
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
        let here = if all { String::new() } else { format!(" in size {}", sizes.join(", ")) };
        let finding = Finding::new(rule, format!("piece {piece}{here}: {message}")).at(span, label);
        let finding = also.iter().fold(finding, |finding, (span, text)| finding.at(*span, text.clone()));
        findings.push(finding.help(help));
    }
}

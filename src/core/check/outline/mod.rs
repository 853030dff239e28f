//! Outlines as they are drawn.

mod duplicate_point;
mod edge_too_short;
mod fold_not_straight;
mod grain_missing;
mod kink_at_fold;
mod open_outline;
mod outline_not_drawn;
mod point_off_outline;
mod self_crossing;
mod too_few_points;

use std::collections::BTreeMap;

use super::{Check, Context};
use crate::diag::{Finding, Findings, Rule};
use crate::model::assembly::{Fault, Gap};
use crate::source::Span;

/// The checks of this family.
pub const CHECKS: &[Check] = &[
    Check { rule: &outline_not_drawn::RULE, run: outline_not_drawn::check },
    Check { rule: &open_outline::RULE, run: open_outline::check },
    Check { rule: &self_crossing::RULE, run: self_crossing::check },
    Check { rule: &too_few_points::RULE, run: too_few_points::check },
    Check { rule: &point_off_outline::RULE, run: point_off_outline::check },
    Check { rule: &edge_too_short::RULE, run: edge_too_short::check },
    Check { rule: &duplicate_point::RULE, run: duplicate_point::check },
    Check { rule: &fold_not_straight::RULE, run: fold_not_straight::check },
    Check { rule: &kink_at_fold::RULE, run: kink_at_fold::check },
    Check { rule: &grain_missing::RULE, run: grain_missing::check },
];

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

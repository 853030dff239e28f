//! Rule: an order line goes to a destination that the style does not list.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

use super::{lines, title};

/// A destination the style was not made for.
pub const RULE: Rule = Rule {
    code: "destination-not-listed",
    family: "order",
    severity: Severity::Should,
    summary: "an order line goes to a destination that the style does not list",
    explanation: "Tests, warnings, labels and marks follow the law of the destination. A destination that the style does \
                  not list was perhaps never looked at: ask an accredited laboratory before the goods are made.",
    failing: "[style]\ndestinations = [\"EU\"]\n[order.spring.line.a]\ndestination = \"NO\"",
    passing: "[style]\ndestinations = [\"EU\", \"NO\"]\n[order.spring.line.a]\ndestination = \"NO\"",
    source: "common practice; the law of the destination decides",
};

words! {
    MESSAGE "destination-not-listed.message" = "{line} goes to {to}, which the style does not list";
    ADD_STYLE "destination-not-listed.add-style" = "add \"{code}\" to `destinations` of the style once its rules were looked at";
    HERE "destination-not-listed.here" = "not among the destinations";
}

/// Reports each line with such a destination, where the style lists any.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let listed: Vec<&str> = context.model.style.destinations.iter().map(|one| one.value.code).collect();
    if listed.is_empty() {
        return;
    }
    for (order, line) in lines(context.model) {
        let Some(to) = line.destination.as_ref().filter(|to| !listed.contains(&to.value.code)) else { continue };
        let message = say!(MESSAGE, line = title(order, line), to = to.value.printed());
        let help = say!(ADD_STYLE, code = to.value.code);
        findings.push(Finding::new(&RULE, message).at(to.span, HERE).help(help));
    }
}

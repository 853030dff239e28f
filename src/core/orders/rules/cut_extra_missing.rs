//! Rule: an order does not say how many are cut on top against loss.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::{Edit, Help};
use crate::words::{say, words};

/// No word on cut cut extra.
pub const RULE: Rule = Rule {
    code: "cut-extra-missing",
    family: "order",
    severity: Severity::Should,
    summary: "an order does not say how many are cut on top against loss",
    explanation: "Some of what is cut has a fault of the fabric, is sewn wrong or fails a test. Unless the order says how many \
                  more are cut, the factory chooses, buys the fabric for it, and the last carton is short. 2 to 3 % are \
                  common practice; `0 %` says that none are.",
    failing: "[order.spring]\nover = \"3 %\"",
    passing: "[order.spring]\nover = \"3 %\"\ncut-extra = \"2 %\"",
    source: "common practice",
};

words! {
    MESSAGE "cut-extra-missing.message" = "order {id} does not say what is cut against loss";
    HELP "cut-extra-missing.help" = "add cut-extra = \"2 %\", or cut-extra = \"0 %\" for none";
    HERE "cut-extra-missing.here" = "no cut extra";
}

/// Reports each order without `cut-extra`.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, order) in &context.model.orders {
        if order.cut_extra.is_none() && !context.model.was_refused("order", id, "cut-extra") {
            let finding = Finding::new(&RULE, say!(MESSAGE, id));
            let edit = Edit::line(order.entry.span(), "cut-extra = \"2 %\"");
            let help = Help::with(HELP, edit);
            findings.push(finding.at(order.entry.span(), HERE).help(help));
        }
    }
}

//! Rule: an order cites the number of another style.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::{Edit, Help, quoted};

/// An order of another style.
pub const RULE: Rule = Rule {
    code: "order-of-other-style",
    family: "order",
    severity: Severity::Must,
    summary: "an order cites the number of another style",
    explanation: "Fabric is bought and pieces are cut from the style the order lies with. If the order cites another number, \
                  one of the two is a slip, and the wrong thing is made in numbers.",
    failing: "[style]\nid = \"HF-118\"\n[order.spring]\nstyle = \"HF-181\"",
    passing: "[style]\nid = \"HF-118\"\n[order.spring]\nstyle = \"HF-118\"",
    source: "follows from the two numbers",
};

/// Reports each order whose style number is not that of the style.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let Some(style) = &context.model.style.id else { return };
    let Some(id) = style.known() else { return };
    for (name, order) in &context.model.orders {
        let Some(cited) = &order.style else { continue };
        if cited.known().is_some_and(|known| known != id) {
            let message = format!("order {name} is for another style than the one it lies with, {id}");
            let finding =
                Finding::new(&RULE, message).at(cited.span, "the style it cites").at(style.span, "this style");
            let help = format!("write style = \"{id}\", or move the order to its style");
            findings.push(finding.help(Help::with(help, Edit::replace(cited.span, quoted(id)))));
        }
    }
}

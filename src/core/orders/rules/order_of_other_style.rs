//! Rule: an order cites the number of another style.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::{Edit, Help, quoted};
use crate::words::{say, words};

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

words! {
    MESSAGE "order-of-other-style.message" = "order {name} is for another style than the one it lies with, {id}";
    CITED "order-of-other-style.cited" = "the style it cites";
    STYLE "order-of-other-style.style" = "this style";
    HELP "order-of-other-style.help" = "write style = \"{id}\", or move the order to its style";
}

/// Reports each order whose style number is not that of the style.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let Some(style) = &context.model.style.id else { return };
    let Some(id) = style.known() else { return };
    for (name, order) in &context.model.orders {
        let Some(cited) = &order.style else { continue };
        if cited.known().is_some_and(|known| known != id) {
            let message = say!(MESSAGE, name, id);
            let finding = Finding::new(&RULE, message).at(cited.span, CITED).at(style.span, STYLE);
            let help = say!(HELP, id);
            findings.push(finding.help(Help::with(help, Edit::replace(cited.span, quoted(id)))));
        }
    }
}

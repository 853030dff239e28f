//! Rule: a part is filled before it is turned right side out.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Deed;
use crate::words::{say, words};

use super::closed::part;
use super::text;

/// A part that is filled inside out.
pub const RULE: Rule = Rule {
    code: "filled-before-turned",
    family: "sewing",
    severity: Severity::Must,
    summary: "a part is filled before it is turned right side out",
    explanation: "A part that is sewn inside out is turned while it is empty: filled, it does not go through its opening \
                  any more, and what is outside would be inside.",
    failing: "[work]\norder = [\"side\", \"fill\", \"turn\", \"back\"]",
    passing: "[work]\norder = [\"side\", \"turn\", \"fill\", \"back\"]",
    source: "common practice",
};

words! {
    MESSAGE "filled-before-turned.message" = "{part} is filled in step {fill} and turned after it, in step {turn}";
    STILL_INSIDE "filled-before-turned.still-inside" = "{part} is still inside out";
    TURNED_HERE "filled-before-turned.turned-here" = "turned here";
}

/// Reports steps that fill a part whose first turning comes later.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let order = &context.model.work.order;
    let done = |id: &str, deed: Deed| {
        let step = context.model.steps.get(id).filter(|step| step.deed == deed)?;
        part(context, step)
    };
    for (at, filling) in order.iter().enumerate() {
        let Some(part) = done(&filling.value, Deed::Fill) else { continue };
        let turning = order.iter().position(|step| done(&step.value, Deed::Turn) == Some(part));
        let Some(turning) = turning.filter(|turning| *turning > at) else { continue };
        let (fill, turn) = (&filling.value, &order[turning].value);
        findings.push(
            Finding::new(&RULE, say!(MESSAGE, part, fill, turn))
                .at(filling.span, say!(STILL_INSIDE, part))
                .at(order[turning].span, TURNED_HERE)
                .help(text::moved_behind(context, fill, turn)),
        );
    }
}

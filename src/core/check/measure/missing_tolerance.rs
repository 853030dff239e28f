//! Rule: a measurement or a filling mass without a tolerance.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Stated, Value};
use crate::standards::common::{FILLING_FLOOR, FILLING_STUFFING};
use crate::units::Quantity;

/// A target without limits.
pub const RULE: Rule = Rule {
    code: "missing-tolerance",
    family: "measure",
    severity: Severity::Must,
    summary: "a measurement or a filling mass without a tolerance",
    explanation: "Nothing sewn comes out exact. Without a tolerance the inspector either passes everything or refuses \
                  everything, and both end in an argument over finished goods. A point that is only for information is \
                  marked `reference = true`.",
    failing: "[point-of-measure.H1]\ntarget = \"250 mm\"",
    passing: "[point-of-measure.H1]\ntarget = \"250 mm ±5 mm\"",
    source: "common practice",
};

/// Reports targets and filling masses without limits.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in context.model.measures.iter().filter(|(_, point)| !is_reference(point)) {
        for (stated, quantity) in bare(point.target.as_ref()) {
            findings.push(
                Finding::new(&RULE, format!("point of measure {id} has a target and no tolerance"))
                    .at(stated.span, "how far off may it be?")
                    .help(format!("write \"{quantity} ±..\" with what you accept, or add reference = true")),
            );
        }
    }
    for (id, stuffing) in &context.model.stuffings {
        for (stated, quantity) in bare(stuffing.mass.as_ref()) {
            let usual = format!(
                "±{} % for a stuffing, never finer than {} g to {} g, is common practice",
                FILLING_STUFFING.high, FILLING_FLOOR.low, FILLING_FLOOR.high
            );
            findings.push(
                Finding::new(&RULE, format!("the mass of stuffing {id} has no tolerance"))
                    .at(stated.span, "how far off may it be?")
                    .help(format!("write \"{quantity} ±..\" with what you accept; {usual}")),
            );
        }
    }
}

/// Known quantities without limits.
fn bare(value: Option<&Value<Quantity>>) -> impl Iterator<Item = (&Stated<Quantity>, &Quantity)> {
    let all = value.into_iter().flat_map(Value::all);
    all.filter_map(|stated| Some((stated, stated.known()?))).filter(|(_, quantity)| quantity.limits().is_none())
}

/// Whether a point is for reference only.
fn is_reference(point: &crate::model::PointOfMeasure) -> bool {
    point.reference.as_ref().is_some_and(|flag| flag.value)
}

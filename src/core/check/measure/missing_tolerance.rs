//! Rule: a measurement or a filling mass without a tolerance.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Stated, Value};
use crate::standards::common::{FILLING_FLOOR, FILLING_STUFFING};
use crate::units::Quantity;
use crate::words::{number, say, words};

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

words! {
    OF_POINT "missing-tolerance.of-point" = "point of measure {id} has a target and no tolerance";
    HERE "missing-tolerance.here" = "how far off may it be?";
    WRITE_POINT "missing-tolerance.write-point" = "write \"{quantity} ±..\" with what you accept, or add reference = true";
    COMMON "missing-tolerance.common" = "±{high} % for a stuffing, never finer than {least} g to {most} g, is common practice";
    OF_STUFFING "missing-tolerance.of-stuffing" = "the mass of stuffing {id} has no tolerance";
    WRITE_STUFFING "missing-tolerance.write-stuffing" = "write \"{quantity} ±..\" with what you accept; {common}";
}

/// Reports targets and filling masses without limits.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in context.model.measures.iter().filter(|(_, point)| !is_reference(point)) {
        for (stated, quantity) in bare(point.target.as_ref()) {
            findings
                .push(Finding::new(&RULE, say!(OF_POINT, id)).at(stated.span, HERE).help(say!(WRITE_POINT, quantity)));
        }
    }
    for (id, stuffing) in &context.model.stuffings {
        for (stated, quantity) in bare(stuffing.mass.as_ref()) {
            let common = say!(
                COMMON,
                high = number::number(FILLING_STUFFING.high, 0),
                least = number::number(FILLING_FLOOR.low, 0),
                most = number::number(FILLING_FLOOR.high, 0)
            );
            findings.push(Finding::new(&RULE, say!(OF_STUFFING, id)).at(stated.span, HERE).help(say!(
                WRITE_STUFFING,
                quantity,
                common
            )));
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

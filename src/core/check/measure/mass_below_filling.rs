//! Rule: the finished product is to weigh less than what is filled into it.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Stated, Variant};
use crate::units::{Dimension, Quantity};
use crate::words::{number, say, words};

/// A mass that cannot be reached.
pub const RULE: Rule = Rule {
    code: "mass-below-filling",
    family: "measure",
    severity: Severity::Should,
    summary: "the target mass of the finished product is below the mass of its filling",
    explanation: "The finished product weighs as much as its filling, its fabric and its trims together. A target below the filling \
                  alone cannot be met: one of the two masses is a slip, or is that of another size. A point of measure of \
                  something inside is measured in another state than `finished`.",
    failing: "[stuffing.body]\nmass = \"70 g ±5 %\"\n[point-of-measure.M]\nstate = \"finished\"\ntarget = \"60 g ±8 g\"",
    passing: "[stuffing.body]\nmass = \"70 g ±5 %\"\n[point-of-measure.M]\nstate = \"finished\"\ntarget = \"105 g ±8 g\"",
    source: "follows from the terms",
};

words! {
    MESSAGE "mass-below-filling.message" = "point of measure {id} is {target}{size}, and the filling alone is {filling} g";
    IN_SIZE "mass-below-filling.in-size" = " in size {size}";
    HERE "mass-below-filling.here" = "less than its filling";
    FILLED "mass-below-filling.filled" = "filled in";
    HELP "mass-below-filling.help" = "look at the unit and at the size of both masses";
}

/// Reports each point once, in the first size in which it is too light.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let finished = |state: &Option<Stated<String>>| {
        state.as_ref().and_then(Stated::known).is_some_and(|state| state == "finished")
    };
    for (id, point) in model.measures.iter().filter(|(_, point)| finished(&point.state)) {
        let found = model.sizes.iter().map(|size| size.entry.id.value.as_str()).find_map(|size| {
            let stated = point.target.as_ref()?.of(Variant { size, colourway: "" })?;
            let target = stated.known().filter(|target| target.dimension() == Dimension::Mass)?;
            let filling = filling(model, size);
            (target.si_f64() < filling - 1e-9).then_some((size, stated.span, target, filling))
        });
        let Some((size, span, target, filling)) = found else { continue };
        let size = if model.sizes.len() > 1 { say!(IN_SIZE, size) } else { crate::words::Phrase::none() };
        let filling = filling * 1000.0;
        let shown = number::number(filling, number::places(filling, 1));
        let mut finding = Finding::new(&RULE, say!(MESSAGE, id, target, size, filling = shown)).at(span, HERE);
        for mass in model.stuffings.values().filter_map(|stuffing| stuffing.mass.as_ref()) {
            finding = finding.at(mass.span, FILLED);
        }
        findings.push(finding.help(HELP));
    }
}

/// All that is filled into one product, kg; each stuffing counted once.
fn filling(model: &Model, size: &str) -> f64 {
    let masses = model.stuffings.values().filter_map(|stuffing| {
        stuffing.mass.as_ref()?.of(Variant { size, colourway: "" })?.known().map(Quantity::si_f64)
    });
    masses.sum()
}

//! Rule: a figure so far from anything usual that it is taken for a slip of unit or digit.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::property::{self, Holds};
use crate::model::{Layer, Model, Stated, StitchUse, TrimLayer, Value};
use crate::units::{Dimension, Quantity};

/// A figure that cannot be meant.
pub const RULE: Rule = Rule {
    code: "implausible-value",
    family: "material",
    severity: Severity::Must,
    summary: "a figure so far from anything usual that it is taken for a slip of unit or digit",
    explanation: "Wide limits stand beside every figure: a fabric of 3 g/m2, a seam allowance of 10 cm or a negative mass \
                  is a slip of a unit or a digit. Such a slip passes every other check and is found when the fabric has \
                  been bought. The limits are far outside what is usual, so that nothing real is refused.",
    failing: "[fabric.canvas]\nmass = \"3.2 g/m2\"",
    passing: "[fabric.canvas]\nmass = \"320 g/m2\"",
    source: "common practice (limits set wide on purpose)",
};

const ALLOWANCE: (&str, &str) = ("0 mm", "60 mm");
const GIRTH: (&str, &str) = ("5 mm", "10 m");
const LAPS: (&str, &str) = ("0 mm", "1 m");
const DENSITY: (&str, &str) = ("0.2 st/cm", "15 st/cm");
const BIGHT: (&str, &str) = ("0.5 mm", "30 mm");
const FILLING: (&str, &str) = ("0.1 g", "100 kg");
const LENGTH: (&str, &str) = ("0.1 mm", "20 m");
const MASS: (&str, &str) = ("0.1 g", "200 kg");
const COUNT: (&str, &str) = ("0 pc", "100000 pc");

/// Reports figures outside their limits, wherever they stand.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, article) in &model.articles {
        for spec in property::of(article.kind) {
            let (Holds::Quantity(_, Some(range)), Some(value)) = (spec.holds, article.quantity(spec.key)) else {
                continue;
            };
            let what = format!("`{}` of {} {id}", spec.key, article.kind.word());
            all(value, &what, range, findings);
        }
    }
    shapes(model, findings);
    sewing(model, findings);
    measures(model, findings);
}

fn shapes(model: &Model, findings: &mut Findings) {
    for (id, piece) in &model.pieces {
        for cut in piece.cuts.values() {
            let edges = cut.allowance.edges.iter().map(|(_, value)| value);
            for value in cut.allowance.all.iter().chain(edges) {
                all(value, &format!("the allowance of piece {id}"), ALLOWANCE, findings);
            }
            if let Some(value) = &cut.inside {
                all(value, &format!("`inside` of piece {id}"), ALLOWANCE, findings);
            }
            for value in cut.block.iter().flat_map(|(width, height)| [width, height]) {
                all(value, &format!("the block of piece {id}"), LENGTH, findings);
            }
        }
    }
    for (id, stuffing) in &model.stuffings {
        if let Some(value) = &stuffing.mass {
            all(value, &format!("the mass of stuffing {id}"), FILLING, findings);
        }
    }
}

fn sewing(model: &Model, findings: &mut Findings) {
    let laps = |layer: &TrimLayer, what: &str, findings: &mut Findings| {
        if let Some(laps) = &layer.laps {
            one(laps, &format!("`laps` of {what}"), LAPS, findings);
        }
    };
    for (id, joint) in &model.joints {
        stitch(&joint.stitch, id, findings);
        for layer in &joint.between {
            if let Layer::Trim(layer) = layer {
                laps(layer, id, findings);
            }
        }
        if let Some(girth) = &joint.girth {
            all(girth, &format!("the girth at {id}"), GIRTH, findings);
        }
    }
    for (id, finish) in &model.edge_finishes {
        stitch(&finish.stitch, id, findings);
        if let Some(tape) = &finish.tape {
            laps(tape, id, findings);
        }
    }
    model.topstitches.iter().for_each(|(id, one)| stitch(&one.stitch, id, findings));
    model.attaches.iter().for_each(|(id, one)| stitch(&one.stitch, id, findings));
    stitch(&model.work.stitch, "the work", findings);
}

fn stitch(stitch: &StitchUse, by: &str, findings: &mut Findings) {
    // A shared stitch is reported once, whichever seam names it.
    let by = stitch.shared.as_ref().map_or(by, |shared| shared.value.as_str());
    for (value, key, range) in [(&stitch.density, "density", DENSITY), (&stitch.width, "width", BIGHT)] {
        if let Some(value) = value {
            one(value, &format!("the stitch {key} of {by}"), range, findings);
        }
    }
}

fn measures(model: &Model, findings: &mut Findings) {
    for (id, point) in &model.measures {
        let range = |quantity: &Quantity| match quantity.dimension() {
            Dimension::Mass => MASS,
            Dimension::Length => LENGTH,
            _ => COUNT,
        };
        for stated in point.target.iter().flat_map(Value::all) {
            // Nought is meant where it is a fault that is measured, such as a gap, and its tolerance says how much may be.
            let fault = |quantity: &Quantity| quantity.si().is_zero() && quantity.tolerance.is_some();
            if let Some(quantity) = stated.known().filter(|quantity| !fault(quantity)) {
                one(stated, &format!("the target of point of measure {id}"), range(quantity), findings);
            }
        }
    }
}

fn all(value: &Value<Quantity>, what: &str, range: (&str, &str), findings: &mut Findings) {
    value.all().for_each(|stated| one(stated, what, range, findings));
}

/// One figure against its limits.
fn one(stated: &Stated<Quantity>, what: &str, (low, high): (&str, &str), findings: &mut Findings) {
    let Some(quantity) = stated.known() else { return };
    let limit = |text: &str| Quantity::parse(text, &[quantity.dimension()]);
    let (Ok(least), Ok(most)) = (limit(low), limit(high)) else { return };
    let inside = least.si() <= quantity.si() && quantity.si() <= most.si();
    if inside {
        return;
    }
    let nominal = format!("{} {}", quantity.value, quantity.unit);
    let label = if quantity.si() < least.si() { "too little to be meant" } else { "too much to be meant" };
    findings.push(
        Finding::new(&RULE, format!("{what} cannot be {nominal}"))
            .at(stated.span, label)
            .help(format!("write the figure that is meant, between {least} and {most}; look at the unit first")),
    );
}

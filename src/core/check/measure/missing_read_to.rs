//! Rule: a point of measure does not say to what step it is read.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Value;
use crate::source::{Edit, Help};
use crate::units::Dimension;
use crate::words::{say, words};

/// A measurement that does not say how finely it is read.
pub const RULE: Rule = Rule {
    code: "missing-read-to",
    family: "measure",
    severity: Severity::Should,
    summary: "a point of measure does not say to what step it is read",
    explanation: "Limits are rounded inward to the step that can be read, so that a reading on the limit is never argued \
                  about: a soft body is read to 5 mm, a cut piece to 1 mm, a small mass to 1 g.",
    failing: "[point-of-measure.H1]\ntarget = \"250 mm ±5 mm\"",
    passing: "[point-of-measure.H1]\ntarget = \"250 mm ±5 mm\"\nread-to = \"1 mm\"",
    source: "common practice",
};

words! {
    MESSAGE "missing-read-to.message" = "point of measure {id} does not say how finely it is read";
    HERE "missing-read-to.here" = "read to what step?";
    HELP "missing-read-to.help" = "add read-to = \"{example}\", or what your ruler or scale shows";
}

/// Reports points with limits and without a step. What is counted is read in whole pieces.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, point) in &context.model.measures {
        if point.read_to.is_some() || context.model.was_refused("point-of-measure", id, "read-to") {
            continue;
        }
        let known = point.target.iter().flat_map(Value::all).filter_map(|stated| stated.known());
        let limited = known.filter(|quantity| quantity.limits().is_some());
        let Some(dimension) = limited.map(|quantity| quantity.dimension()).find(|one| *one != Dimension::Count) else {
            continue;
        };
        let example = if dimension == Dimension::Mass { "1 g" } else { "1 mm" };
        let finding = Finding::new(&RULE, say!(MESSAGE, id)).at(point.entry.span(), HERE);
        let edit = Edit::line(point.entry.span(), format!("read-to = \"{example}\""));
        let help = say!(HELP, example);
        findings.push(finding.help(Help::with(help, edit)));
    }
}

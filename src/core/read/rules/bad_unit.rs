//! Rule: a quantity that cannot be read, or in a unit that does not fit.

use crate::diag::{Finding, Rule, Severity};
use crate::source::{Edit, Help, Span};
use crate::units::{QuantityError, QuantityErrorKind};
use crate::words::{say, words};

/// A unit that is not known or does not fit.
pub const RULE: Rule = Rule {
    code: "bad-unit",
    family: "files",
    severity: Severity::Must,
    summary: "a quantity that cannot be read, or in a unit that does not fit",
    explanation: "A quantity is a number, a unit and, where it applies, a tolerance: `250 mm ±5 mm`, `250 mm +5/-3 mm`, \
                  `320 g/m2 ±5 %`, `60 mm ±max(5 mm, 3 %)`, `4 st/cm`, `10 oz/yd2`. The decimal sign is a point.",
    failing: "[fabric.canvas]\nmass = \"320 gsm\"",
    passing: "[fabric.canvas]\nmass = \"320 g/m2\"",
    source: "ISO 80000-1; symbols of the SI, inch and pound units as defined in 1959 (NIST SP 811)",
};

words! {
    MESSAGE "bad-unit.message" = "`{key}`: {fault}";
    HELP "bad-unit.help" = "write \"{fix}\"";
}

/// A quantity that could not be parsed. `inside` is the span of the text between the quotes when positions in it can
/// be pointed at, else the whole value.
pub fn bad_quantity(key: &str, error: &QuantityError, span: Span, inside: Option<Span>) -> Finding {
    let rule = if matches!(error.kind, QuantityErrorKind::BareNumber) { &super::BARE_NUMBER } else { &RULE };
    let place = inside.map_or(span, |inside| inside.part(error.span.start, error.span.end));
    let finding = Finding::new(rule, say!(MESSAGE, key, fault = &error.fault)).at(place, "");
    match &error.fix {
        Some(fix) => {
            let edit = inside.map(|inside| Edit::replace(inside, fix).safe_if(error.certain));
            finding.help(Help::with(say!(HELP, fix), edit))
        }
        None => finding,
    }
}

//! Rule: a number without its unit.

use crate::diag::{Finding, Rule, Severity};
use crate::source::{Edit, Help, Span};
use crate::units::Dimension;
use crate::words::{say, words};

/// A number without its unit.
pub const RULE: Rule = Rule {
    code: "bare-number",
    family: "files",
    severity: Severity::Must,
    summary: "a number without its unit",
    explanation: "One side of the world reads centimetres where the other writes inches. A quantity is always a text \
                  with its unit.",
    failing: "[piece.TOP]\noutline = { shape = \"circle\", diameter = 450 }",
    passing: "[piece.TOP]\noutline = { shape = \"circle\", diameter = \"450 mm\" }",
    source: "ISO 80000-1 (a quantity is a number and a unit)",
};

words! {
    MESSAGE "bare-number.message" = "`{key}` needs a unit";
    HERE "bare-number.here" = "a number alone";
    HELP "bare-number.help" = "write {written}, if that is the unit";
}

/// A bare number where a quantity is needed.
pub fn bare_number(key: &str, number: &str, dimensions: &[Dimension], span: Span) -> Finding {
    let finding = Finding::new(&RULE, say!(MESSAGE, key)).at(span, HERE);
    match dimensions.first() {
        Some(dimension) => {
            let written = format!("\"{number} {}\"", dimension.usual().symbol());
            finding.help(Help::with(say!(HELP, written = &written), Edit::replace(span, written)))
        }
        None => finding,
    }
}

//! Rule: an SVG file that is broken, or too large or too deep to be a drawing of outlines.

use crate::diag::{Finding, Rule, Severity};
use crate::words::{Phrase, say, words};

/// A drawing, or a shape of it, that cannot be read.
pub const RULE: Rule = Rule {
    code: "broken-drawing",
    family: "outline",
    severity: Severity::Must,
    summary: "an SVG file that is broken, or too large or too deep to be a drawing of outlines",
    explanation: "What cannot be read would be cut wrong or not at all. Limits keep a slip or a trap from stopping \
                  everything: 8 MB, 200,000 elements, 256 levels of groups, 1,000 attributes of an element.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # a path that ends in the middle of a number",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # saved again from the editor",
    source: "Scalable Vector Graphics (SVG) 2; limits: common practice",
};

words! {
    MESSAGE "broken-drawing.message" = "{path}: {what}";
    HELP "broken-drawing.help" = "open it in the editor and save it again as plain SVG";
}

/// A drawing of which something cannot be read; the place is still to be added.
pub fn broken_drawing(path: &str, what: impl Into<Phrase>) -> Finding {
    Finding::new(&RULE, say!(MESSAGE, path, what)).help(HELP)
}

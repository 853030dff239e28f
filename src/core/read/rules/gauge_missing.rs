//! Rule: a drawing without a line that proves its scale.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;

/// A drawing without a gauge line.
pub const RULE: Rule = Rule {
    code: "gauge-missing",
    family: "outline",
    severity: Severity::Should,
    summary: "a drawing without a line that proves its scale",
    explanation: "Nobody sees on a screen that a pattern is 6 % too small. One line named `gauge`, drawn 100 mm long \
                  beside the pieces, proves the scale whenever the file passes through another editor, and can be held \
                  against a ruler on paper. Where the size of the page is given in pixels, 96 are taken for an inch.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # only the outline",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # and a line 100 mm long with the id `gauge`",
    source: "common practice",
};

/// No gauge; `pixels` says that the scale rests on a number of pixels to the inch.
pub fn gauge_missing(path: &str, pixels: bool, root: Span) -> Finding {
    let taken = if pixels { ", and its size rests on 96 pixels to the inch" } else { "" };
    Finding::new(&RULE, format!("{path} has no gauge line{taken}"))
        .at(root, if pixels { "no size in mm" } else { "" })
        .help("draw a straight line exactly 100 mm long and give it the id `gauge`")
}

//! Rule: a drawing without a line that proves its scale.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{Phrase, say, words};

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

words! {
    MISSING "gauge-missing.missing" = "{path} has no gauge line";
    PIXELS "gauge-missing.pixels" = "{path} has no gauge line, and its size rests on 96 pixels to the inch";
    NO_SIZE "gauge-missing.no-size" = "no size in mm";
    HELP "gauge-missing.help" = "draw a straight line exactly 100 mm long and give it the id `gauge`";
}

/// No gauge; `pixels` says that the scale rests on a number of pixels to the inch.
pub fn gauge_missing(path: &str, pixels: bool, root: Span) -> Finding {
    let (word, here) = if pixels { (PIXELS, NO_SIZE.into()) } else { (MISSING, Phrase::none()) };
    Finding::new(&RULE, say!(word, path)).at(root, here).help(HELP)
}

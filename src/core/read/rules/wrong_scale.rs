//! Rule: the gauge line of a drawing is not 100 mm long.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{Phrase, say, words};

/// A gauge line that is not 100 mm long.
pub const RULE: Rule = Rule {
    code: "wrong-scale",
    family: "outline",
    severity: Severity::Must,
    summary: "the gauge line of a drawing is not 100 mm long",
    explanation: "Editors count 72, 90 or 96 pixels to the inch, and a drawing that passes from one to another grows or \
                  shrinks without a word. A line named `gauge`, drawn 100 mm long beside the pieces, shows it: it must \
                  measure 100 mm, give or take 0.1 mm.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the gauge measures 133.3 mm: 72 pixels taken for 96",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # with width and height in mm",
    source: "CSS Values and Units, section 6.2 (96 pixels to the inch); the gauge: common practice",
};

words! {
    TRUE_SCALE "wrong-scale.true-scale" = "{path} is not at true scale: its gauge line measures {measured} mm instead of 100 mm";
    MULTIPLY_SVG "wrong-scale.multiply-svg" = "multiply `width` and `height` of the svg element by {factor} and keep its viewBox, or draw the gauge 100 mm long";
    DRAW_GAUGE "wrong-scale.draw-gauge" = "draw the gauge 100 mm long";
    HERE "wrong-scale.here" = "must be 100 mm";
    LINES_NAMED "wrong-scale.lines-named" = "{path} has {count} lines named `gauge`";
    KEEP "wrong-scale.keep" = "keep one of them";
}

/// A gauge of another length, and the factor that puts the drawing right.
pub fn wrong_scale(path: &str, measured: f64, factor: f64, span: Span) -> Finding {
    let message = say!(TRUE_SCALE, path, measured = crate::words::number::number(measured, 2));
    let help = if measured > 0.0 {
        say!(MULTIPLY_SVG, factor = crate::words::number::number(factor, 5))
    } else {
        Phrase::from(DRAW_GAUGE)
    };
    Finding::new(&RULE, message).at(span, HERE).help(help)
}

/// Several gauges.
pub fn gauge_twice(path: &str, places: &[Span]) -> Finding {
    let finding = Finding::new(&RULE, say!(LINES_NAMED, path, count = places.len()));
    places.iter().take(4).fold(finding, |finding, place| finding.at(*place, "")).help(KEEP)
}

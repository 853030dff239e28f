//! Rule: width and height of a drawing do not go with its viewBox.

use crate::diag::{Finding, Rule, Severity};
use crate::source::Span;
use crate::words::{say, words};

/// A drawing that is stretched one way.
pub const RULE: Rule = Rule {
    code: "unequal-scale",
    family: "outline",
    severity: Severity::Must,
    summary: "width and height of a drawing do not go with its viewBox",
    explanation: "Width over viewBox width, and height over viewBox height, say how many millimetres a unit of the \
                  drawing is. Where the two differ, one program squeezes the drawing and another leaves a margin, and \
                  a circle may be an egg.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # width=\"200mm\" height=\"100mm\" viewBox=\"0 0 100 100\"",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # width=\"200mm\" height=\"200mm\" viewBox=\"0 0 100 100\"",
    source: "Scalable Vector Graphics (SVG) 2, section 8.2",
};

words! {
    MESSAGE "unequal-scale.message" = "{path}: a unit is {across} mm across the page and {down} mm down it: width and height do not go with the viewBox";
    HERE "unequal-scale.here" = "two scales";
    HELP "unequal-scale.help" = "give width and height the same ratio to the last two numbers of the viewBox";
}

/// Millimetres to a unit across and down.
pub fn unequal_scale(path: &str, across: f64, down: f64, root: Span) -> Finding {
    let message = say!(
        MESSAGE,
        path,
        across = crate::words::number::number(across, 5),
        down = crate::words::number::number(down, 5)
    );
    Finding::new(&RULE, message).at(root, HERE).help(HELP)
}

//! Rule: something in an SVG file that is not understood and was passed over.

use crate::diag::{Finding, Rule, Severity};
use crate::words::{Phrase, say, words};

/// Something in a drawing that was passed over.
pub const RULE: Rule = Rule {
    code: "content-ignored",
    family: "outline",
    severity: Severity::Should,
    summary: "something in an SVG file that is not understood and was passed over",
    explanation: "Lines are read with their groups, transformations, `use` and simple classes. What is clipped, masked, \
                  moved by a stylesheet or drawn within a drawing of its own may look otherwise in the editor than it \
                  is read. So does a name that belongs to a piece and means nothing.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the path has clip-path=\"url(#half)\"",
    passing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # the path is drawn as it is cut",
    source: "Scalable Vector Graphics (SVG) 2",
};

words! {
    MESSAGE "content-ignored.message" = "{path}: {what} is not understood and was passed over";
}

/// Content of one kind; the places and the cure are still to be added.
pub fn content_ignored(path: &str, what: impl Into<Phrase>) -> Finding {
    Finding::new(&RULE, say!(MESSAGE, path, what))
}

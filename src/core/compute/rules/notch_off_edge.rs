//! Rule: a notch has no place on the cut line.

use std::collections::BTreeSet;

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

use super::{Ground, drawn_notch, in_size};

/// A notch without a place on the cut line.
pub const RULE: Rule = Rule {
    code: "notch-off-edge",
    family: "piece",
    severity: Severity::Must,
    summary: "a notch has no place on the cut line",
    explanation: "A notch is measured on the sew line, along one edge or at a named point, and cut where the normal of the \
                  sew line meets the cut line. Past the end of the run, or on the leg of a dart that is only marked, \
                  there is no such place.",
    failing: "[piece.PANEL]\noutline = { shape = \"rectangle\", width = \"80 mm\", height = \"120 mm\" }\nnotches = [\"nw-ne \
              95 mm\"]",
    passing: "[piece.PANEL]\noutline = { shape = \"rectangle\", width = \"80 mm\", height = \"120 mm\" }\nnotches = [\"nw-ne \
              45 mm\"]",
    source: "plane geometry",
};

words! {
    MESSAGE "notch-off-edge.message" = "{piece}{size}: {why}";
    HERE "notch-off-edge.here" = "not on the edge";
    HELP "notch-off-edge.help" = "measure it along another edge, or give a share of the edge: \"a-b 50 %\"";
}

/// Reports each notch once, in the first size.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for one in &ground.drawn.astray {
        let piece = ground.model.pieces.get(&one.piece).zip(one.drawn.as_deref());
        let element = piece.and_then(|(piece, id)| drawn_notch(ground, piece, &one.size, id));
        let place = element.unwrap_or(one.span);
        if told.insert(place) {
            let message =
                say!(MESSAGE, piece = &one.piece, size = in_size(ground.model, &one.size), why = &one.message);
            let finding = Finding::new(&RULE, message).at(place, HERE);
            findings.push(finding.help(HELP));
        }
    }
}

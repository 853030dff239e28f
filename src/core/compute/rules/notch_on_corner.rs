//! Rule: a notch measured along an edge falls on a corner.

use std::collections::BTreeSet;

use crate::compute::NotchMark;
use crate::compute::notch::CORNER;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::geom::{Outline, Point};
use crate::words::{say, words};

use super::{Ground, in_size, mm, notch_place, sewn};

/// A notch nearer to a corner than this cannot be told from it, mm.
const NEAR: f64 = 3.0;

/// A notch measured along an edge that comes to stand on a corner.
pub const RULE: Rule = Rule {
    code: "notch-on-corner",
    family: "piece",
    severity: Severity::Should,
    summary: "a notch measured along an edge falls on a corner",
    explanation: "Within 3 mm of a corner a notch cannot be told from the corner itself, and fabric cut there frays into \
                  it. A notch that is meant for the corner names its point; it is then cut on both edges, run on to the \
                  cut line.",
    failing: "[piece.PANEL]\noutline = { shape = \"rectangle\", width = \"80 mm\", height = \"120 mm\" }\nnotches = [\"nw-ne \
              78 mm\"]",
    passing: "[piece.PANEL]\noutline = { shape = \"rectangle\", width = \"80 mm\", height = \"120 mm\" }\nnotches = \
              [\"ne\"]",
    source: "common practice: 3 mm",
};

words! {
    MESSAGE "notch-on-corner.message" = "{id}{size}: a notch is {apart} from a corner";
    HERE "notch-on-corner.here" = "on the corner";
    HELP "notch-on-corner.help" = "move it along the edge, or name the corner's point instead";
}

/// Reports each notch once, in the first size.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for (id, piece) in &ground.model.pieces {
        let mut told = BTreeSet::new();
        for (size, lines, sew) in sewn(ground, id) {
            let corners = corners(sew);
            for mark in lines.notches.known().into_iter().flatten().filter(|mark| mark.at.1 > 0.0) {
                let apart = |mark: &NotchMark| corners.iter().map(|at| at.distance(mark.sew)).fold(f64::MAX, f64::min);
                if apart(mark) >= NEAR || !told.insert(mark.index) {
                    continue;
                }
                if let Some(place) = notch_place(ground, piece, (size, sew), mark.index) {
                    let size = in_size(ground.model, size);
                    let message = say!(MESSAGE, id, size, apart = mm(apart(mark)));
                    let finding = Finding::new(&RULE, message).at(place, HERE);
                    findings.push(finding.help(HELP));
                }
            }
        }
    }
}

/// Every place where the outline turns, named or not.
fn corners(outline: &Outline) -> Vec<Point> {
    let cosine = libm::cos(CORNER.to_radians());
    let last = outline.path.pieces().last();
    let mut before = last.and_then(|(start, segment)| segment.end_direction(start));
    let mut all = Vec::new();
    for (start, segment) in outline.path.pieces() {
        let turns = before.zip(segment.start_direction(start)).is_some_and(|(a, b)| a.dot(b) < cosine);
        all.extend(turns.then_some(start));
        before = segment.end_direction(start);
    }
    all
}

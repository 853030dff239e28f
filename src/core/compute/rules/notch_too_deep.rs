//! Rule: a notch is cut too near to the seam.

use std::collections::BTreeSet;

use crate::compute::NotchMark;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::NotchStyle;
use crate::words::{Phrase, say, words};

use super::{Ground, in_size, mm, notch_place, sewn};

/// What is left between the end of a slit and the seam at least, mm.
const LEFT: f64 = 2.0;

/// A slit that comes too near the seam.
pub const RULE: Rule = Rule {
    code: "notch-too-deep",
    family: "piece",
    severity: Severity::Should,
    summary: "a notch is cut too near to the seam",
    explanation: "A slit in the allowance is the place where a seam tears first. Common practice leaves at least 2 mm \
                  between its end and the needle; where the allowance is too narrow for that, the notch stands outside \
                  the cut line or is only marked.",
    failing: "[piece.EAR]\nallowance = \"4 mm\"\nnotches = [\"c\"]\nnotch = \"slit\"\nnotch-depth = \"3 mm\"",
    passing: "[piece.EAR]\nallowance = \"4 mm\"\nnotches = [\"c\"]\nnotch = \"outward\"\nnotch-depth = \"3 mm\"",
    source: "common practice: 2 mm",
};

words! {
    MESSAGE "notch-too-deep.message" = "{id}{size}: a slit of {depth} in an allowance of {allowance}; at least {left} should be left before the seam";
    CUT_HERE "notch-too-deep.cut-here" = "cut here";
    DEPTH "notch-too-deep.depth" = "the depth";
    SHALLOWER "notch-too-deep.shallower" = "write notch-depth = \"{most} mm\", or notch = \"outward\"";
    OUTWARD "notch-too-deep.outward" = "write notch = \"outward\", or notch = \"none\" to have it marked only";
}

/// Reports each notch once, in the first size.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for (id, piece) in &ground.model.pieces {
        let mut told = BTreeSet::new();
        for (size, lines, sew) in sewn(ground, id) {
            let deep = |mark: &&NotchMark| {
                mark.style == NotchStyle::Slit && mark.sew.distance(mark.cut) < mark.depth + LEFT - 0.001
            };
            for mark in lines.notches.known().into_iter().flatten().filter(deep) {
                if !told.insert(mark.index) {
                    continue;
                }
                let Some(place) = notch_place(ground, piece, (size, sew), mark.index) else { continue };
                let allowance = mark.sew.distance(mark.cut);
                let message = say!(
                    MESSAGE,
                    id,
                    size = in_size(ground.model, size),
                    depth = mm(mark.depth),
                    allowance = mm(allowance),
                    left = mm(LEFT)
                );
                let mut finding = Finding::new(&RULE, message).at(place, CUT_HERE);
                if let Some(depth) = &piece.notches.depth {
                    finding = finding.at(depth.span, DEPTH);
                }
                findings.push(finding.help(match allowance - LEFT {
                    most if most >= 1.0 => say!(SHALLOWER, most = crate::words::number::number(most, 1)),
                    _ => Phrase::from(OUTWARD),
                }));
            }
        }
    }
}

//! Rule: a notch is cut too near to the seam.

use std::collections::BTreeSet;

use crate::compute::NotchMark;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::NotchStyle;

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
                let message = format!(
                    "{id}{}: a slit of {} in an allowance of {}; at least {} should be left before the seam",
                    in_size(ground.model, size),
                    mm(mark.depth),
                    mm(allowance),
                    mm(LEFT)
                );
                let mut finding = Finding::new(&RULE, message).at(place, "cut here");
                if let Some(depth) = &piece.notches.depth {
                    finding = finding.at(depth.span, "the depth");
                }
                findings.push(finding.help(match allowance - LEFT {
                    most if most >= 1.0 => format!("write notch-depth = \"{most:.1} mm\", or notch = \"outward\""),
                    _ => "write notch = \"outward\", or notch = \"none\" to have it marked only".to_string(),
                }));
            }
        }
    }
}

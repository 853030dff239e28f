//! Rule: a dart reaches into the allowance of the edge opposite.

use std::collections::BTreeSet;

use crate::compute::dart::{self, Bite};
use crate::compute::notch::first_hit;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

use super::{Ground, in_size, mm, sewn};

/// A dart that reaches across its piece.
pub const RULE: Rule = Rule {
    code: "dart-too-deep",
    family: "piece",
    severity: Severity::Must,
    summary: "a dart reaches into the allowance of the edge opposite",
    explanation: "A dart ends in fabric. If its tip comes nearer to the edge opposite than the allowance there, the end of \
                  its seam is caught in the other seam, and a deeper one would cut the piece in two.",
    failing: "[piece.HEAD]\nallowance = \"6 mm\"\noutline = { shape = \"polygon\", corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"b\", \
              \"90 mm\", \"0 mm\"], [\"e\", \"90 mm\", \"50 mm\"], [\"c\", \"55 mm\", \"50 mm\"], [\"p\", \"45 mm\", \"3 mm\"], [\"d\", \"35 \
              mm\", \"50 mm\"], [\"f\", \"0 mm\", \"50 mm\"]] }\n[seam.dart]\na = \"HEAD:c-p\"\nb = \"HEAD:d-p\"",
    passing: "[piece.HEAD]\nallowance = \"6 mm\"\noutline = { shape = \"polygon\", corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"b\", \
              \"90 mm\", \"0 mm\"], [\"e\", \"90 mm\", \"50 mm\"], [\"c\", \"55 mm\", \"50 mm\"], [\"p\", \"45 mm\", \"23 mm\"], [\"d\", \
              \"35 mm\", \"50 mm\"], [\"f\", \"0 mm\", \"50 mm\"]] }\n[seam.dart]\na = \"HEAD:c-p\"\nb = \"HEAD:d-p\"",
    source: "common practice",
};

words! {
    MESSAGE "dart-too-deep.message" = "{id}{size}: the dart to {tip} is {bite} deep and ends {left} before the edge opposite; the allowance is {most}";
    HERE "dart-too-deep.here" = "this dart";
    HELP "dart-too-deep.help" = "make the dart shorter, or two darts of it";
}

/// Reports each dart once, in the first size.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for id in ground.model.pieces.keys() {
        let mut told = BTreeSet::new();
        for (size, lines, sew) in sewn(ground, id) {
            let most = lines.widths.known().into_iter().flatten().copied().fold(0.0, f64::max);
            for bite in dart::bites(ground.assembly, id, sew) {
                let left = left(&bite, sew);
                if left >= most.max(1.0) || !told.insert(bite.joint.clone()) {
                    continue;
                }
                let message = say!(
                    MESSAGE,
                    id,
                    size = in_size(ground.model, size),
                    tip = bite.tip.0,
                    bite = mm(bite.depth),
                    left = mm(left),
                    most = mm(most)
                );
                let place = ground.model.joints.get(&bite.joint).map(|joint| joint.entry.span());
                let mut finding = Finding::new(&RULE, message);
                if let Some(place) = place {
                    finding = finding.at(place, HERE);
                }
                findings.push(finding.help(HELP));
            }
        }
    }
}

/// From the tip on, in the direction of the dart, to the edge opposite. Legs of the dart itself lie behind the tip.
fn left(bite: &Bite, sew: &crate::geom::Outline) -> f64 {
    // A little beyond the tip, so that the tip is not met itself.
    let start = bite.tip.1 + bite.way * 0.02;
    first_hit(&sew.path, start, bite.way).map_or(0.0, |on| on + 0.02)
}

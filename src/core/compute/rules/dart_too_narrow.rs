//! Rule: the allowances fill most of a dart that is to be cut out.

use std::collections::BTreeSet;

use crate::compute::dart;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Darts;
use crate::words::{say, words};

use super::{Ground, in_size, mm, sewn};

/// A cut dart of which the allowances leave too little.
pub const RULE: Rule = Rule {
    code: "dart-too-narrow",
    family: "piece",
    severity: Severity::Should,
    summary: "the allowances fill most of a dart that is to be cut out",
    explanation: "The cut of a dart lies inside its legs by the allowance, so that a narrow dart is cut out only at its \
                  mouth, or not at all. Then the cut does not show where the dart ends, and its legs must be marked in \
                  any case.",
    failing: "[piece.HEAD]\nallowance = \"5 mm\"\ndarts = \"cut\"  # the dart is 8 mm wide and 40 mm deep: nothing is cut \
              out",
    passing: "[piece.HEAD]\nallowance = \"5 mm\"\ndarts = \"marked\"  # the cut line bridges its mouth, the legs are drawn",
    source: "plane geometry; half the depth is common practice",
};

words! {
    MESSAGE "dart-too-narrow.message" = "{id}{size}: the dart to {tip} is {bite} deep where it is sewn, and {open} where it is cut";
    HERE "dart-too-narrow.here" = "cut out";
    HELP "dart-too-narrow.help" = "write darts = \"marked\", or make the allowance of its legs narrower";
}

/// Reports each dart once, in the first size.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let cut = ground.model.pieces.iter().filter(|(_, piece)| piece.darts == Darts::Cut);
    for (id, piece) in cut {
        let mut told = BTreeSet::new();
        for (size, lines, sew) in sewn(ground, id) {
            let Some(widths) = lines.widths.known() else { continue };
            for bite in dart::bites(ground.assembly, id, sew) {
                // The cut legs meet where the allowance fills the angle: width / sine of its half before the tip.
                let width = bite.runs.iter().filter_map(|run| widths.get(*run)).copied().fold(0.0, f64::max);
                let filled = width / (bite.half / libm::hypot(bite.half, bite.depth));
                let open = (bite.depth - filled).max(0.0);
                if open >= bite.depth / 2.0 || !told.insert(bite.joint.clone()) {
                    continue;
                }
                let message = say!(
                    MESSAGE,
                    id,
                    size = in_size(ground.model, size),
                    tip = bite.tip.0,
                    bite = mm(bite.depth),
                    open = mm(open)
                );
                let place = piece.darts_span.unwrap_or(piece.entry.span());
                let finding = Finding::new(&RULE, message).at(place, HERE);
                findings.push(finding.help(HELP));
            }
        }
    }
}

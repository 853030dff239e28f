//! Rule: the allowance of a sewn edge is far from what anybody sews.

use std::collections::BTreeSet;

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::{Assembly, sewn_cut};
use crate::words::{say, words};

use super::{Ground, in_size, mm, sizes};

/// An allowance that was meant otherwise.
pub const RULE: Rule = Rule {
    code: "implausible-allowance",
    family: "piece",
    severity: Severity::Should,
    summary: "the allowance of a sewn edge is far from what anybody sews",
    explanation: "Seams have allowances of 3 to 15 mm: less frays out, more lies thick inside and takes fabric. Often a decimal or the \
                  unit went astray. An edge that is hemmed or finished otherwise is not asked about. 2.5 and 25 mm are this \
                  program's own limits.",
    failing: "[piece.ARM]\nallowance = \"60 mm\"",
    passing: "[piece.ARM]\nallowance = \"6 mm\"",
    source: "common practice",
};

words! {
    WIDE "implausible-allowance.wide" = "{piece}{size}: {edge} is sewn with an allowance of {width}";
    HERE "implausible-allowance.here" = "is it meant?";
    HELP "implausible-allowance.help" = "write what is cut outside of the seam: 5 to 6 mm on plush, 8 to 12 mm on woven fabric; or record a concession";
}

/// Least and greatest allowance that is not asked about, mm.
const LIMITS: [f64; 2] = [2.5, 25.0];
/// What is wider is refused as a value already, mm.
const REFUSED: f64 = 60.0;

/// Reports each piece once, in the first size in which it is so.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let sewn = sewn(ground.assembly);
    for (id, piece) in &ground.model.pieces {
        let odd = |size| {
            let widths = ground.drawn.get(id, size)?.widths.known()?;
            let outline = ground.assembly.outlines.get(id, size).ok()?;
            let is_odd = |width: f64| width > 0.0 && width <= REFUSED && !(LIMITS[0]..=LIMITS[1]).contains(&width);
            let mut runs = widths.iter().enumerate().zip(outline.runs());
            let ((_, width), run) =
                runs.find(|((at, width), _)| is_odd(**width) && sewn.contains(&(id.as_str(), *at)))?;
            Some((*width, run.ends()))
        };
        let found = sizes(ground.model).find_map(|size| Some((size, odd(size)?)));
        let Some((size, (width, (from, to)))) = found else { continue };
        let size = in_size(ground.model, size);
        let message = say!(WIDE, piece = id, size, edge = format!("{from}-{to}"), width = mm(width));
        let place = sewn_cut(piece).and_then(|cut| cut.allowance.span).unwrap_or(piece.entry.span());
        findings.push(Finding::new(&RULE, message).at(place, HERE).help(HELP));
    }
}

/// Every edge that a seam or opening joins, by piece and place.
fn sewn(assembly: &Assembly) -> BTreeSet<(&str, usize)> {
    let sides = assembly.joints.iter().flat_map(|joint| joint.sides());
    let piece = |at: usize| assembly.instances.get(at).map_or("", |one| one.piece.as_str());
    sides.flat_map(|side| &side.runs).map(|run| (piece(run.instance), run.run)).collect()
}

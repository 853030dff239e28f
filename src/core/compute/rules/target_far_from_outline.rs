//! Rule: the longest target is far from the size of what is drawn.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::geom::Outline;
use crate::model::{Model, Stated};
use crate::units::{Dimension, Quantity};
use crate::words::{say, words};

use super::{Ground, in_size, mm, of_size, sizes};

/// Times the longest side of a piece that a target may be, and times the shorter side of the largest piece that the longest
/// target must be (*common practice*: wide on purpose, since a girth goes round several pieces).
const LIMITS: (f64, f64) = (4.0, 0.4);
/// A longer target is told by another rule, mm.
const LARGEST: f64 = 20_000.0;

/// A pattern of one size and a table of another.
pub const RULE: Rule = Rule {
    code: "target-far-from-outline",
    family: "measure",
    severity: Severity::Should,
    summary: "the longest target is far from the size of what is drawn",
    explanation: "The points of measure are those of the product that is drawn. Where the longest target is more than 4 times the \
                  longest side of any piece, or less than 0.4 times the shorter side of the largest piece, one of the two is a \
                  slip: centimetres for millimetres, the table of another size, a drawing at half scale.",
    failing: "[piece.FRONT]\noutline = { shape = \"rectangle\", width = \"100 mm\", height = \"120 mm\" }\n\
              [point-of-measure.H1]\ntarget = \"1200 mm ±5 mm\"",
    passing: "[piece.FRONT]\noutline = { shape = \"rectangle\", width = \"100 mm\", height = \"120 mm\" }\n\
              [point-of-measure.H1]\ntarget = \"120 mm ±5 mm\"",
    source: "common practice: 0.4 to 4",
};

words! {
    LONG "target-far-from-outline.long" = "point of measure {id}{size} is {target}, and no piece is longer than {side}";
    SHORT "target-far-from-outline.short" = "the longest target{size}, {id}, is {target}, and the largest piece is {side} across";
    HERE "target-far-from-outline.here" = "of this product?";
    HELP "target-far-from-outline.help" = "look at the unit, at the size it is of, and at the scale of the drawing";
}

/// Reports the longest target once, in the first size in which it is far.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let model = ground.model;
    for size in sizes(model) {
        let outlines: Option<Vec<&Outline>> =
            model.pieces.keys().map(|piece| ground.drawn.sew(piece, size).known().copied()).collect();
        // A piece that the factory makes, or that is not known, may be the long one.
        let Some(outlines) = outlines.filter(|all| !all.is_empty()) else { return };
        let Some((id, stated, target)) = longest(model, size) else { continue };
        let sides = |outline: &&Outline| (outline.bbox().width(), outline.bbox().height());
        let long = outlines.iter().map(sides).map(|(a, b)| a.max(b)).fold(0.0, f64::max);
        let largest = outlines.iter().max_by(|a, b| a.area().total_cmp(&b.area()));
        let across = largest.map(sides).map_or(0.0, |(a, b)| a.min(b));
        let (word, side) = match target {
            _ if target > LIMITS.0 * long => (LONG, long),
            _ if target < LIMITS.1 * across => (SHORT, across),
            _ => continue,
        };
        let message = say!(word, id, size = in_size(model, size), target = mm(target), side = mm(side));
        findings.push(Finding::new(&RULE, message).at(stated.span, HERE).help(HELP));
        return;
    }
}

/// The longest target that is a length, with its length in mm.
fn longest<'a>(model: &'a Model, size: &'a str) -> Option<(&'a str, &'a Stated<Quantity>, f64)> {
    let all = model.measures.iter().filter_map(|(id, point)| {
        let stated = point.target.as_ref()?.of(of_size(size))?;
        let quantity = stated.known().filter(|quantity| quantity.dimension() == Dimension::Length)?;
        Some((id.as_str(), stated, quantity.si_f64() * 1000.0))
    });
    // What cannot be meant at all is told by another rule.
    let all = all.filter(|(_, _, target)| *target <= LARGEST);
    all.max_by(|a, b| a.2.total_cmp(&b.2))
}

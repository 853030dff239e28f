//! Rule: a size is drawn like another one, while its targets or masses differ.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;
use crate::units::{Dimension, Quantity};
use crate::words::{number, say, words};

use super::{Ground, of_size};

/// A size without a pattern of its own.
pub const RULE: Rule = Rule {
    code: "sizes-drawn-alike",
    family: "piece",
    severity: Severity::Should,
    summary: "a size is drawn like another one, while its targets or masses differ",
    explanation: "A size has outlines of its own, or a `scale`. If it has neither, every piece is cut as for the drawn \
                  size, and the product cannot have another height or take another filling. Where only the filling differs, and that is \
                  meant, silence this under [severity].",
    failing: "[style]\nsizes = [\"S\", \"L\"]\n[point-of-measure.H1]\ntarget = { S = \"90 mm ±3 mm\", L = \"112 mm ±3 mm\" }",
    passing: "[style]\nsizes = [\"S\", \"L\"]\n[size.L]\nscale = { along = \"1.25\", across = \"1.25\" }\n[point-of-measure.H1]\n\
              target = { S = \"90 mm ±3 mm\", L = \"112 mm ±3 mm\" }",
    source: "follows from the terms",
};

words! {
    MESSAGE "sizes-drawn-alike.message" = "every piece of size {size} is drawn as in size {first}, and {what} differs";
    TARGET "sizes-drawn-alike.target" = "the target of point of measure {id}";
    MASS "sizes-drawn-alike.mass" = "the mass of stuffing {id}";
    HERE "sizes-drawn-alike.here" = "no pattern of its own";
    DIFFERS "sizes-drawn-alike.differs" = "differs";
    HELP "sizes-drawn-alike.help" = "write [size.{size}] scale = { along = \"{factor}\", across = \"{factor}\" }, or what it is; or draw its pieces";
}

/// Reports each size that is cut as the drawn one, once.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    let model = ground.model;
    let Some(first) = model.drawn_size().map(|size| size.entry.id.value.as_str()) else { return };
    for size in model.sizes.iter().filter(|size| size.entry.id.value != first) {
        let id = size.entry.id.value.as_str();
        if model.pieces.is_empty() || model.was_refused("size", id, "scale") || !alike(ground, first, id) {
            continue;
        }
        let Some((what, span)) = differing(model, first, id) else { continue };
        let factor = factor(model, first, id).unwrap_or(1.2);
        let message = say!(MESSAGE, size = id, first, what);
        let finding = Finding::new(&RULE, message).at(size.entry.span(), HERE).at(span, DIFFERS);
        let factor = number::number(factor, number::places(factor, 2));
        findings.push(finding.help(say!(HELP, size = id, factor)));
    }
}

/// Whether all pieces are known in both sizes, and are the same.
fn alike(ground: &Ground<'_>, first: &str, size: &str) -> bool {
    ground.model.pieces.keys().all(|piece| {
        let sew = |size| ground.drawn.sew(piece, size).known().copied();
        sew(first).is_some_and(|outline| sew(size) == Some(outline))
    })
}

/// The first target that is a length or mass, or mass of a filling, that is another in the two sizes.
fn differing(model: &Model, first: &str, size: &str) -> Option<(crate::words::Phrase, crate::source::Span)> {
    let other = |value: &crate::model::Value<Quantity>| {
        let of = |size| value.of(of_size(size)).and_then(|stated| stated.known()).map(Quantity::si);
        of(first).zip(of(size)).is_some_and(|(one, other)| one != other)
    };
    let targets = model.measures.iter().filter_map(|(id, point)| {
        let target = point.target.as_ref().filter(|target| other(target))?;
        Some((say!(TARGET, id), target.span))
    });
    let masses = model.stuffings.iter().filter_map(|(id, stuffing)| {
        let mass = stuffing.mass.as_ref().filter(|mass| other(mass))?;
        Some((say!(MASS, id), mass.span))
    });
    targets.chain(masses).next()
}

/// How many times as long the longest target is, to a hundredth.
fn factor(model: &Model, first: &str, size: &str) -> Option<f64> {
    let lengths = model.measures.values().filter_map(|point| {
        let of = |size| point.target.as_ref()?.of(of_size(size))?.known();
        let (one, other) = (of(first)?, of(size)?);
        (one.dimension() == Dimension::Length).then(|| (one.si_f64(), other.si_f64()))
    });
    let (one, other) = lengths.max_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(libm::round(other / one * 100.0) / 100.0).filter(|factor| *factor > 0.0 && (factor - 1.0).abs() > 1e-9)
}

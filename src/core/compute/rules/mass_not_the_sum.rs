//! Rule: the mass that a point of measure asks for is not the mass of what the product is made of.

use crate::compute::{Figures, Mass};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{ArticleKind, Model, Variant};
use crate::words::{number, say, words};

use super::in_size;

/// A mass that no product of these materials has.
pub const RULE: Rule = Rule {
    code: "mass-not-the-sum",
    family: "measure",
    severity: Severity::Should,
    summary: "the mass that a point of measure asks for is not the mass of what the product is made of",
    explanation: "Fabric, thread, trims and filling at their targets come to a mass. Where that lies outside of the limits of the \
                  finished product, the line cannot meet both: it fills more or less than is written, or the product is rejected. \
                  One of the two was written in another unit or for another size, or something has no mass yet that has one.",
    failing: "[stuffing.body]\nmass = \"120 g ±10 g\"\n[point-of-measure.M]\nstate = \"finished\"\ntarget = \"500 g ±20 g\"",
    passing: "[stuffing.body]\nmass = \"120 g ±10 g\"\n[point-of-measure.M]\nstate = \"finished\"\ntarget = \"155 g ±15 g\"",
    source: "follows from the terms",
};

words! {
    MESSAGE "mass-not-the-sum.message" = "what the product is made of comes to {sum} g{size}, and {point} allows {lower} to {upper} g";
    HERE "mass-not-the-sum.here" = "outside of these limits";
    HELP "mass-not-the-sum.help" = "if the materials are right, write {sum} g as the target; else look at the mass of the filling";
}

/// Reports each point once, in the first size and colourway in which it is so.
pub fn check(model: &Model, figures: &Figures, findings: &mut Findings) {
    for (id, point) in &model.measures {
        let stated = |mass: &&Mass| mass.stated.as_deref() == Some(id.as_str());
        let all = figures.mass.iter().flat_map(|(size, by)| by.iter().map(move |(way, mass)| (size, way, mass)));
        let found =
            all.filter(|(.., mass)| stated(mass)).find_map(|(size, way, mass)| Some((size, way, outside(mass)?)));
        let Some((size, way, [sum, lower, upper])) = found else { continue };
        let variant = Variant { size, colourway: way };
        let place = point.target.as_ref().and_then(|target| target.of(variant)).map(|target| target.span);
        let message = say!(MESSAGE, sum = &sum, size = in_size(model, size), point = point.entry.title(), lower, upper);
        findings.push(Finding::new(&RULE, message).at(place.unwrap_or(point.entry.span()), HERE).help(say!(HELP, sum)));
    }
}

/// The sum and the limits as they are printed, where the sum is outside of them. A product that is lighter than its filling is
/// a finding of its own.
fn outside(mass: &Mass) -> Option<[String; 3]> {
    let filling = mass.lines.iter().filter(|line| line.kind == ArticleKind::Filling.word());
    let filling: f64 = filling.filter_map(|line| line.mass.target.known()).map(|one| one.get()).sum();
    if mass.product.target.known().is_some_and(|target| target.get() < filling) {
        return None;
    }
    let [sum, lower, upper] =
        [&mass.computed, &mass.product.lower, &mass.product.upper].map(|one| one.known().map(|one| one.get()));
    let (sum, lower, upper) = (sum?, lower?, upper?);
    (sum < lower || sum > upper).then(|| [sum, lower, upper].map(|one| number::number(one, 1)))
}

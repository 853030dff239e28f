//! Rule: a length or mass is given once, and is printed for every size made by scale.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Article, JointKind, Model, Stated, Value, kind};
use crate::source::{Edit, Help, quoted};
use crate::standards::things::SMALL_PARTS;
use crate::units::{Dimension, Quantity, Rational, Tolerance, Unit};
use crate::words::{Phrase, say, words};

/// One value for a small product and a large one.
pub const RULE: Rule = Rule {
    code: "one-value-for-all-sizes",
    family: "measure",
    severity: Severity::Must,
    summary: "a length or mass is given once, and is printed for every size made by scale",
    explanation: "A size made by `scale` is smaller or larger as a whole: a length grows with the factor, a mass of filling \
                  with its cube. A value given once is printed for every size, so that a small toy gets the height, the \
                  filling and the eyes of the large one. Write it by size; where it is really the same, write it for each \
                  size all the same. The help gives drafts: measure the first sample. Lengths of trims and girths are \
                  asked for as a `should`.",
    failing: "[style]\nsizes = [\"S\", \"L\"]\n[size.L]\nscale = { along = \"1.25\", across = \"1.25\" }\n\
              [stuffing.body]\nmass = \"400 g ±5 %\"",
    passing: "[style]\nsizes = [\"S\", \"L\"]\n[size.L]\nscale = { along = \"1.25\", across = \"1.25\" }\n\
              [stuffing.body]\nmass = { S = \"400 g ±5 %\", L = \"780 g ±5 %\" }",
    source: "geometry: lengths grow with the factor, volumes with its cube",
};

words! {
    OF_TARGET "one-value-for-all-sizes.of-target" = "the target of point of measure {id}";
    OF_MASS "one-value-for-all-sizes.of-mass" = "the mass of stuffing {id}";
    OF_GIRTH "one-value-for-all-sizes.of-girth" = "the girth at opening {id}";
    OF_TRIM "one-value-for-all-sizes.of-trim" = "`{key}` of {what}";
    MESSAGE "one-value-for-all-sizes.message" = "{what} is {value} in every size, but size {sizes} is made by scale";
    HERE "one-value-for-all-sizes.here" = "given once";
    SCALED "one-value-for-all-sizes.scaled" = "made by scale";
    HELP "one-value-for-all-sizes.help" = "write it by size, for example by the factor of the lengths: {key} = {drafts}";
    SOLD "one-value-for-all-sizes.sold" = "write it by size, in a size that is sold, or the same for each: {key} = {drafts}";
    CUBED "one-value-for-all-sizes.cubed" = "write it by size, for example by the cube of the factor: {key} = {drafts}";
}

/// A value that could differ by size.
struct Given<'a> {
    what: Phrase,
    key: &'static str,
    value: &'a Value<Quantity>,
    severity: Severity,
}

/// Reports each value that is given once although sizes are made by scale.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    let made = |size: &str| model.pieces.keys().any(|piece| context.assembly.outlines.scale(piece, size).is_some());
    let factors: Vec<(&str, f64)> =
        model.sizes.iter().map(|size| (size.entry.id.value.as_str(), factor(size))).collect();
    let scaled: Vec<&str> =
        factors.iter().filter(|(size, factor)| (factor - 1.0).abs() > 1e-9 && made(size)).map(|one| one.0).collect();
    let Some(place) = scaled.first().and_then(|size| Some(model.size(size)?.scale.as_ref()?.span)) else { return };
    for given in given(model) {
        let Some(stated) = given.value.otherwise.as_ref().filter(|_| !given.value.varies()) else { continue };
        let Some(quantity) = stated.known() else { continue };
        let mass = quantity.dimension() == Dimension::Mass;
        if !matches!(quantity.dimension(), Dimension::Length | Dimension::Mass) || quantity.si().is_zero() {
            continue;
        }
        let message = say!(MESSAGE, what = given.what, value = quantity, sizes = scaled.join(", "));
        let mut finding = Finding::new(&RULE, message).at(stated.span, HERE).at(place, SCALED);
        finding.severity = given.severity;
        // What is bought ready made comes in whole millimetres.
        let sold = given.key == "diameter";
        findings.push(match drafts(quantity, &factors, sold) {
            Some(drafts) => {
                let word = if mass {
                    CUBED
                } else if sold {
                    SOLD
                } else {
                    HELP
                };
                let text = say!(word, key = given.key, drafts = &drafts);
                finding.help(Help::with(text, edit(stated, drafts)))
            }
            None => finding,
        });
    }
}

/// How many times as long as the drawn one a size is: the root of what its areas grow by.
fn factor(size: &crate::model::Size) -> f64 {
    size.scale.as_ref().and_then(Stated::known).map_or(1.0, |(along, across)| libm::sqrt(along * across))
}

/// Everything that is written once or by size.
fn given(model: &Model) -> Vec<Given<'_>> {
    let mut all = Vec::new();
    for (id, point) in &model.measures {
        let reference = point.reference.as_ref().is_some_and(|reference| reference.value);
        let severity = if reference { Severity::Should } else { Severity::Must };
        let given = |value| Given { what: say!(OF_TARGET, id), key: "target", value, severity };
        all.extend(point.target.as_ref().map(given));
    }
    for (id, stuffing) in &model.stuffings {
        let given = |value| Given { what: say!(OF_MASS, id), key: "mass", value, severity: Severity::Must };
        all.extend(stuffing.mass.as_ref().map(given));
    }
    for (id, joint) in model.joints.iter().filter(|(_, joint)| joint.kind == JointKind::Opening) {
        let given = |value| Given { what: say!(OF_GIRTH, id), key: "girth", value, severity: Severity::Should };
        all.extend(joint.girth.as_ref().map(given));
    }
    for (id, article) in &model.articles {
        let named = |key| say!(OF_TRIM, key, what = kind::named(article.kind.word(), id));
        let given =
            |key| Some(Given { what: named(key), key, value: article.quantity(key)?, severity: Severity::Should });
        all.extend(keys(model, article).into_iter().filter_map(given));
    }
    all
}

/// What of a trim follows the size of the product: how large eyes and noses are, how long a zip and what is cut off a roll is.
fn keys(model: &Model, article: &Article) -> Vec<&'static str> {
    let id = &article.entry.id.value;
    let is = |name: &str| {
        name == id
            || model
                .colourways
                .keys()
                .any(|way| model.resolve(name, way).is_some_and(|(one, _)| one.entry.id.value == *id))
    };
    let closes = |joint: &crate::model::Joint| {
        joint.close.as_ref().and_then(|close| close.trim.as_ref()).is_some_and(|trim| is(&trim.value))
    };
    let types = article.text("type").into_iter().flat_map(Value::all).filter_map(Stated::known);
    let small = types.into_iter().any(|text| SMALL_PARTS.are(text));
    let zip = model.joints.values().any(closes);
    [("use", true), ("diameter", small), ("length", zip)]
        .into_iter()
        .filter(|(_, asked)| *asked)
        .map(|one| one.0)
        .collect()
}

/// `{ S = "90 mm ±3 mm", L = "113 mm ±4 mm" }`.
fn drafts(quantity: &Quantity, factors: &[(&str, f64)], whole: bool) -> Option<String> {
    let each = factors.iter().map(|(size, factor)| {
        let bare = size.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_'));
        let size = if bare { (*size).to_string() } else { quoted(size) };
        Some(format!("{size} = {}", quoted(&draft(quantity, *factor, whole)?.written())))
    });
    Some(format!("{{ {} }}", each.collect::<Option<Vec<String>>>()?.join(", ")))
}

/// A quantity for a size so many times as long, in steps that can be read; as written in the drawn size.
fn draft(quantity: &Quantity, factor: f64, whole: bool) -> Option<Quantity> {
    let grown = if quantity.dimension() == Dimension::Mass { factor * factor * factor } else { factor };
    if (grown - 1.0).abs() < 1e-9 {
        return Some(quantity.clone());
    }
    // To a thousandth of what the written unit holds at first, so that the step below decides.
    let times = Rational::new(libm::round(grown * 1e6) as i128, 1_000_000)?;
    let step = if whole { Rational::ONE } else { step(quantity)? };
    let part = |value: Rational| {
        let rounded = value.checked_mul(times)?.round_to(step)?;
        Some(if rounded.is_positive() || !value.is_positive() { rounded } else { step })
    };
    let amount = |one: crate::units::Amount| match one.unit {
        Unit::Percent => Some(one),
        unit => {
            let own = Quantity::new(one.value, unit, None).ok()?.in_unit(quantity.unit)?;
            Some(crate::units::Amount { value: part(own)?, unit: quantity.unit })
        }
    };
    let tolerance = match quantity.tolerance {
        None => None,
        Some(Tolerance::PlusMinus(one)) => Some(Tolerance::PlusMinus(amount(one)?)),
        Some(Tolerance::Max(one, other)) => Some(Tolerance::Max(amount(one)?, amount(other)?)),
        Some(Tolerance::Split { plus, minus }) => Some(Tolerance::Split { plus: amount(plus)?, minus: amount(minus)? }),
    };
    Quantity::new(part(quantity.value)?, quantity.unit, tolerance).ok()
}

/// The step to which a draft is rounded, in the unit that is written: a whole millimetre or gram, a tenth below twenty.
fn step(quantity: &Quantity) -> Option<Rational> {
    let small = match quantity.dimension() {
        Dimension::Mass => Unit::G,
        _ => Unit::Mm,
    };
    let large = quantity.in_unit(small)?.abs() >= Rational::whole(20);
    let step = Quantity::new(Rational::new(1, if large { 1 } else { 10 })?, small, None).ok()?;
    step.in_unit(quantity.unit)
}

fn edit(stated: &Stated<Quantity>, drafts: String) -> Edit {
    Edit::replace(stated.span, drafts)
}

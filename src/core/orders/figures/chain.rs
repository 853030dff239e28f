//! The way from products to the fabric that is bought, step by step, for every article and colour.

use std::collections::BTreeMap;

use crate::compute::figure::NOT_STATED;
use crate::compute::reason::PROPERTY_OF;
use crate::compute::{Bought, Figure, Number};
use crate::model::{Model, Variant};
use crate::units::{Dimension, Quantity, Rational};
use crate::words::{Phrase, say, words};

use super::record::{Chain, FabricPlan, OrderFigures, Planned, PlyTerm, Price, Steps};

words! {
    UNPRICED "plan.unpriced" = "the price of {article} is none of a metre, yard or kilogram, such as 4.20 EUR/m";
}

/// The material to buy, in the order of articles and colours.
pub(crate) fn chains(model: &Model, order: &OrderFigures) -> Vec<Chain> {
    let mut all: BTreeMap<Bought, Vec<(usize, &FabricPlan)>> = BTreeMap::new();
    for fabric in &order.fabrics {
        for (at, colour) in fabric.colours.iter().enumerate() {
            let bought = Bought { article: fabric.article.clone(), colour: colour.colour.clone() };
            all.entry(bought).or_default().push((at, fabric));
        }
    }
    all.into_iter().map(|(bought, parts)| chain(model, order, bought, &parts)).collect()
}

fn chain(model: &Model, order: &OrderFigures, bought: Bought, parts: &[(usize, &FabricPlan)]) -> Chain {
    let cut = |(at, fabric): &(usize, &FabricPlan)| -> u64 {
        fabric.colours[*at].cut.values().flat_map(BTreeMap::values).sum()
    };
    let made = |(at, fabric): &(usize, &FabricPlan)| -> u64 { fabric.colours[*at].made.values().sum() };
    let mut plans = Figure::Known(Vec::new());
    for (at, fabric) in parts {
        plans = plans.with(fabric.plan.as_ref(), |mut plans: Vec<(usize, &FabricPlan, &Planned)>, plan| {
            plans.push((*at, *fabric, plan));
            plans
        });
    }
    let steps = plans.map(|plans| steps(model, order, &bought, &plans));
    Chain { products: parts.iter().map(cut).sum(), made: parts.iter().map(made).sum(), steps, bought }
}

fn steps(model: &Model, order: &OrderFigures, bought: &Bought, plans: &[(usize, &FabricPlan, &Planned)]) -> Steps {
    let terms: Vec<PlyTerm> = plans.iter().flat_map(|(_, fabric, plan)| terms(fabric, plan, bought)).collect();
    let lines = plans.iter().flat_map(|(_, _, plan)| &plan.lays).flat_map(|lay| &lay.bundles);
    let spread: i64 = plans.iter().map(|(at, _, plan)| plan.taken[*at].spread).sum();
    let ends: f64 = plans.iter().map(|(_, fabric, plan)| fabric.ends.raw() * plies_of(plan, bought) as f64).sum();
    let first = plans.first().map(|(_, fabric, _)| *fabric);
    let (shrinkage, faults) =
        first.map_or((Rational::ZERO, Rational::ZERO), |fabric| (fabric.shrinkage, fabric.faults));
    let (relaxed, needed) = needed(spread, shrinkage, faults);
    let article = model.articles.get(&bought.article);
    let variant = variant(order, plans.first().map(|(at, fabric, _)| &fabric.colours[*at].colourways));
    let known = |key: &str| article.and_then(|article| article.quantity(key)?.known(variant)).cloned();
    let roll = first.and_then(|fabric| fabric.roll);
    let rolls: u32 = plans.iter().map(|(at, _, plan)| plan.taken[*at].units).sum();
    let minimum = known("minimum-order").and_then(|one| minimum(&one, &known));
    let unit = roll.unwrap_or(1_000_000);
    let need = if roll.is_some() { i64::from(rolls) * unit } else { round_up(needed, unit) };
    let least = minimum.map_or(0, |minimum| round_up(minimum as f64, unit));
    let length = if spread > 0 { need.max(least) } else { 0 };
    let metres = length as f64 / 1e6;
    let millimetres = |micro: f64| Number::new(micro / 1e3);
    let mass = mass(known("width"), known("mass"), metres, &bought.article);
    let kilograms = mass.known().map(|mass| mass.raw() / 1e3);
    let share = |share: Rational| Number::new(share.to_f64() * 100.0);
    let keep = (1.0 - shrinkage.to_f64()) * (1.0 - faults.to_f64());
    Steps {
        estimate: plans.iter().any(|(_, _, plan)| plan.estimate),
        pieces: lines.filter(|one| one.colour == bought.colour).map(|one| one.pieces).sum(),
        plies: terms,
        laid: Number::new(spread as f64 / 1e3 - ends),
        ends: Number::new(ends),
        spread: millimetres(spread as f64),
        shrinkage: share(shrinkage),
        relaxed: millimetres(relaxed),
        faults: share(faults),
        needed: millimetres(needed),
        roll: roll.map(|roll| millimetres(roll as f64)),
        usable: roll.map(|roll| millimetres(roll as f64 * keep)),
        rolls: roll.map(|_| u64::from(rolls)),
        minimum: minimum.map(|minimum| millimetres(minimum as f64)),
        minimum_decides: least > need,
        bought: millimetres(length as f64),
        yards: Number::new(metres / 0.9144),
        mass,
        surplus: millimetres(length as f64 - needed),
        surplus_of: order.surplus.clone(),
        price: article
            .and_then(|article| article.text("price")?.known(variant))
            .and_then(|price| Price::of(price, metres, kilograms)),
    }
}

/// Prices that are stated and cannot be counted with.
pub(crate) fn unpriced(model: &Model, order: &OrderFigures) -> Vec<Phrase> {
    let without = order.material.iter().filter(|one| one.steps.known().is_some_and(|steps| steps.price.is_none()));
    let articles: std::collections::BTreeSet<&String> = without.map(|one| &one.bought.article).collect();
    let stated = |id: &&String| {
        let price = model.articles.get(*id).and_then(|article| article.text("price"));
        price.is_some_and(|price| price.all().any(|one| one.known().is_some()))
    };
    let said = |id: &String| say!(UNPRICED, article = id);
    articles.into_iter().filter(stated).map(said).collect()
}

/// A product of the order in one of these colourways, for values that differ.
fn variant<'a>(order: &'a OrderFigures, colourways: Option<&'a Vec<String>>) -> Variant<'a> {
    let colourway = colourways.and_then(|all| all.first()).map_or("", String::as_str);
    Variant { size: order.products.keys().next().map_or("", String::as_str), colourway }
}

/// What a length that is spread takes of the fabric as delivered, after shrinkage and after faults too, µm.
pub fn needed(spread: i64, shrinkage: Rational, faults: Rational) -> (f64, f64) {
    let left = |share: Rational| Rational::ONE.checked_sub(share);
    let relaxed = left(shrinkage).and_then(|left| Rational::whole(spread).checked_div(left));
    let needed = relaxed.zip(left(faults)).and_then(|(relaxed, left)| relaxed.checked_div(left));
    (relaxed.map_or(f64::NAN, Rational::to_f64), needed.map_or(f64::NAN, Rational::to_f64))
}

fn round_up(length: f64, unit: i64) -> i64 {
    // A length on a whole unit stays there, whatever its last binary digit.
    let units = (length / unit as f64 - 1e-9).ceil().max(0.0);
    (units as i64).saturating_mul(unit)
}

fn terms(fabric: &FabricPlan, plan: &Planned, bought: &Bought) -> Vec<PlyTerm> {
    let keep = (1.0 - fabric.shrinkage.to_f64()) * (1.0 - fabric.faults.to_f64());
    let per_roll = |ply: Number| {
        let roll = fabric.roll.filter(|_| !fabric.splice)?;
        let group = ply.raw() * 1e3 * f64::from(fabric.step);
        Some((roll as f64 * keep / group + 1e-9).floor() as u64 * u64::from(fabric.step))
    };
    let mut all = Vec::new();
    for lay in &plan.lays {
        for colour in lay.colours.iter().filter(|one| one.colour == bought.colour) {
            all.push(PlyTerm {
                materials: fabric.materials.iter().cloned().collect(),
                lay: lay.lay,
                plies: colour.plies,
                length: lay.length,
                ply: lay.ply,
                per_roll: per_roll(lay.ply),
            });
        }
    }
    all
}

fn plies_of(plan: &Planned, bought: &Bought) -> u64 {
    let colours = plan.lays.iter().flat_map(|lay| &lay.colours);
    colours.filter(|one| one.colour == bought.colour).map(|one| one.plies).sum()
}

/// The minimum order as a length, µm; one in kilograms by full width and mass.
fn minimum(minimum: &Quantity, known: &dyn Fn(&str) -> Option<Quantity>) -> Option<i64> {
    let metres = match minimum.dimension() {
        Dimension::Length => minimum.si(),
        Dimension::Mass => minimum.si().checked_div(known("width")?.si())?.checked_div(known("mass")?.si())?,
        _ => return None,
    };
    let micro = metres.checked_mul(Rational::whole(1_000_000))?.ceil_to(Rational::ONE)?;
    i64::try_from(micro.numerator()).ok()
}

fn mass(width: Option<Quantity>, mass: Option<Quantity>, metres: f64, article: &str) -> Figure<Number> {
    let not_stated = |key: &str| say!(NOT_STATED, what = say!(PROPERTY_OF, key, title = article));
    match (width, mass) {
        (Some(width), Some(mass)) => Figure::number(metres * width.si_f64() * mass.si_f64() * 1e3),
        (None, _) => Figure::not_yet(not_stated("width")),
        (_, None) => Figure::not_yet(not_stated("mass")),
    }
}

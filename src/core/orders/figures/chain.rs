//! The way from products to the fabric that is bought, step by step, for every article and colour.

use std::collections::BTreeMap;

use crate::compute::figure::NOT_STATED;
use crate::compute::reason::PROPERTY_OF;
use crate::compute::{Bought, Figure, Number};
use crate::model::{Model, Variant};
use crate::orders::plan::rounded::{down, taken};
use crate::units::{Quantity, Rational};
use crate::words::{Phrase, say, words};

use super::minimum::minimum;
use super::record::{Chain, Cost, FabricPlan, OrderFigures, Planned, PlyTerm, Price, Remnant, Steps};

words! {
    UNPRICED "plan.unpriced" = "the price of {article} is none of a metre, yard or kilogram, such as 4.20 EUR/m";
}

/// A metre in µm.
const METRE: i64 = 1_000_000;

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
    let plies: Vec<PlyTerm> = plans.iter().flat_map(|(_, fabric, plan)| terms(fabric, plan, bought)).collect();
    let bundles = plans.iter().flat_map(|(_, _, plan)| &plan.lays).flat_map(|lay| &lay.bundles);
    let spread: i64 = plans.iter().map(|(at, _, plan)| plan.taken[*at].spread).sum();
    let ends: f64 = plans.iter().map(|(_, fabric, plan)| fabric.ends.raw() * plies_of(plan, bought) as f64).sum();
    let first = plans.first().map(|(_, fabric, _)| *fabric);
    let (shrinkage, faults) =
        first.map_or((Rational::ZERO, Rational::ZERO), |fabric| (fabric.shrinkage, fabric.faults));
    let (splices, spliced) = spliced(plans);
    let (relaxed, needed) = needed(spread + spliced, shrinkage, faults);
    let roll = first.and_then(|fabric| fabric.roll);
    let rolls: u32 = plans.iter().map(|(at, _, plan)| plan.taken[*at].units).sum();
    let article = model.articles.get(&bought.article);
    let variant = variant(order, plans.first().map(|(at, fabric, _)| &fabric.colours[*at].colourways));
    let known = |key: &str| article.and_then(|article| article.quantity(key)?.known(variant)).cloned();
    let minimum = minimum(&known, roll);
    let unit = roll.unwrap_or(METRE);
    let need = if roll.is_some() { i64::from(rolls) * unit } else { round_up(needed, unit) };
    let least = minimum.map_or(0, |minimum| round_up(minimum, unit));
    let length = if spread > 0 { need.max(least) } else { 0 };
    let metres = length as f64 / 1e6;
    let mass = mass(known("width"), known("mass"), metres, &bought.article);
    let kilograms = mass.known().map(|mass| mass.raw() / 1e3);
    let share = |share: Rational| Number::new(share.to_f64() * 100.0);
    let by_roll = |length: i64| roll.map(|roll| (length / roll).unsigned_abs());
    Steps {
        estimate: plans.iter().any(|(_, _, plan)| plan.estimate),
        pieces: bundles.filter(|one| one.colour == bought.colour).map(|one| one.pieces).sum(),
        over: plans.iter().map(|(_, fabric, plan)| over(fabric, plan, bought)).sum(),
        plies,
        laid: Number::new(spread as f64 / 1e3 - ends),
        ends: Number::new(ends),
        spread: millimetres(spread),
        splices,
        spliced: millimetres(spliced),
        shrinkage: share(shrinkage),
        relaxed: millimetres(relaxed),
        faults: share(faults),
        needed: millimetres(needed),
        roll: roll.map(millimetres),
        reserve: first.map_or_else(|| Number::new(0.0), |fabric| fabric.reserve),
        usable: first.and_then(usable).map(millimetres),
        rolls: roll.map(|_| u64::from(rolls)),
        rolls_bought: by_roll(length),
        remnants: plans.iter().flat_map(|(at, fabric, plan)| remnants(*at, fabric, plan)).collect(),
        minimum: minimum.map(millimetres),
        minimum_rolls: minimum.and_then(|_| by_roll(least)),
        minimum_decides: least > need,
        bought: millimetres(length),
        yards: Number::new(metres / 0.9144),
        mass,
        surplus: millimetres(length - needed),
        surplus_of: order.surplus.clone(),
        price: article
            .and_then(|article| article.text("price")?.known(variant))
            .and_then(|price| Price::of(price, metres, kilograms)),
    }
}

fn millimetres(length: i64) -> Number {
    Number::new(length as f64 / 1e3)
}

/// A length in whole millimetres, µm.
fn micro(length: Number) -> i64 {
    (length.raw() * 1e3).round() as i64
}

/// Splices of a colour, one fewer than rolls, and what they lose, µm.
fn spliced(plans: &[(usize, &FabricPlan, &Planned)]) -> (u64, i64) {
    let of = |(at, fabric, plan): &(usize, &FabricPlan, &Planned)| {
        let splices = if fabric.splice && fabric.roll.is_some() { plan.taken[*at].units.saturating_sub(1) } else { 0 };
        (u64::from(splices), i64::from(splices) * micro(fabric.overlap))
    };
    plans.iter().map(of).fold((0, 0), |all, one| (all.0 + one.0, all.1 + one.1))
}

/// Single pieces over on the plies of a colour.
fn over(fabric: &FabricPlan, plan: &Planned, bought: &Bought) -> u64 {
    let of = |lay: &super::LayLine| {
        let plies: u64 = lay.colours.iter().filter(|one| one.colour == bought.colour).map(|one| one.plies).sum();
        let groups = lay.plies / u64::from(fabric.step.max(1));
        lay.over.checked_div(groups).unwrap_or(0) * plies / u64::from(fabric.step.max(1))
    };
    plan.lays.iter().map(of).sum()
}

/// What can be spread of one roll, µm.
fn usable(fabric: &FabricPlan) -> Option<i64> {
    let given = Rational::whole(fabric.roll? - micro(fabric.reserve));
    let left = |share: Rational| Rational::ONE.checked_sub(share);
    let left = given.checked_mul(left(fabric.shrinkage)?)?.checked_mul(left(fabric.faults)?)?;
    Some(down(i64::try_from(left.floor_to(Rational::ONE)?.numerator()).ok()?))
}

/// What is left of every roll of a colour.
fn remnants(at: usize, fabric: &FabricPlan, plan: &Planned) -> Vec<Remnant> {
    let Some(usable) = usable(fabric) else { return Vec::new() };
    let left = |(used, roll): (&i64, u64)| Remnant {
        materials: fabric.materials.iter().cloned().collect(),
        roll,
        left: millimetres(usable - used),
    };
    plan.taken[at].rolls.iter().zip(1..).map(left).collect()
}

/// What the fabric costs, by currency.
pub(crate) fn cost(material: &[Chain]) -> Vec<Cost> {
    let mut all: BTreeMap<String, f64> = BTreeMap::new();
    for price in material.iter().filter_map(|chain| chain.steps.known()?.price.as_ref()) {
        *all.entry(price.currency.clone()).or_default() += price.total.get();
    }
    all.into_iter().map(|(currency, total)| Cost { currency, total: Number::new(total) }).collect()
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

/// What a length that is spread takes of the fabric as delivered, after shrinkage and after faults too, µm: each is worked out
/// of the length that is spread, and goes up to a millimetre.
pub fn needed(spread: i64, shrinkage: Rational, faults: Rational) -> (i64, i64) {
    let left = |share: Rational| Rational::ONE.checked_sub(share);
    let relaxed = left(shrinkage).and_then(|left| Rational::whole(spread).checked_div(left));
    let needed = relaxed.zip(left(faults)).and_then(|(relaxed, left)| relaxed.checked_div(left));
    let whole = |length: Option<Rational>| {
        let micro = length.and_then(|length| length.ceil_to(Rational::ONE)).map(Rational::numerator);
        taken(micro.and_then(|micro| i64::try_from(micro).ok()).unwrap_or(i64::MAX))
    };
    (whole(relaxed), whole(needed))
}

fn round_up(length: i64, unit: i64) -> i64 {
    length.saturating_add(unit - 1).div_euclid(unit).saturating_mul(unit)
}

/// Plies of a colour, lay by lay, equal lays together.
fn terms(fabric: &FabricPlan, plan: &Planned, bought: &Bought) -> Vec<PlyTerm> {
    let per_roll = |ply: Number| {
        let group = micro(ply) * i64::from(fabric.step);
        let usable = usable(fabric).filter(|_| !fabric.splice)?;
        Some(usable.checked_div(group)?.unsigned_abs() * u64::from(fabric.step))
    };
    let mut all: Vec<PlyTerm> = Vec::new();
    for lay in &plan.lays {
        for colour in lay.colours.iter().filter(|one| one.colour == bought.colour) {
            let term = PlyTerm {
                materials: fabric.materials.iter().cloned().collect(),
                lay: lay.lay,
                lays: 1,
                plies: colour.plies,
                length: lay.length,
                ply: lay.ply,
                per_roll: per_roll(lay.ply),
            };
            let equal = |last: &&mut PlyTerm| {
                last.lay + last.lays == term.lay && PlyTerm { lay: last.lay, lays: last.lays, ..term.clone() } == **last
            };
            match all.last_mut().filter(equal) {
                Some(last) => last.lays += 1,
                None => all.push(term),
            }
        }
    }
    all
}

fn plies_of(plan: &Planned, bought: &Bought) -> u64 {
    let colours = plan.lays.iter().flat_map(|lay| &lay.colours);
    colours.filter(|one| one.colour == bought.colour).map(|one| one.plies).sum()
}

fn mass(width: Option<Quantity>, mass: Option<Quantity>, metres: f64, article: &str) -> Figure<Number> {
    let not_stated = |key: &str| say!(NOT_STATED, what = say!(PROPERTY_OF, key, title = article));
    match (width, mass) {
        (Some(width), Some(mass)) => Figure::number(metres * width.si_f64() * mass.si_f64() * 1e3),
        (None, _) => Figure::not_yet(not_stated("width")),
        (_, None) => Figure::not_yet(not_stated("mass")),
    }
}

//! How to cut an order: lays, plies, bundles, fabric by fabric; and what comes of it for every line.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::lays::mix_text;
use crate::compute::orders::{FabricPlan, LayColour, LayLine, OrderFigures, Planned};
use crate::compute::{Bought, Figure};
use crate::words::{Phrase, number, sheet as words};

use super::data::{Plan, PlanGroup, PlanRow, Sheet};
use super::package::{Fact, Head};
use super::view::{View, metres};
use super::written::{NOT_YET, date};

/// One sheet for the order that is shown; none without one.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let Some((id, order)) = shown(view) else { return Vec::new() };
    let groups = order.fabrics.iter().flat_map(|fabric| groups(view, fabric)).collect();
    let named = order.number.clone().unwrap_or_else(|| id.to_string());
    let head = Head {
        title: format!("{} {named}", words::PLAN_TITLE.en).into(),
        name: words::PLAN.en.into(),
        lead: words::PLAN_LEAD.en.into(),
    };
    let mut notes = vec![words::PLAN_NOTE.en.to_string()];
    let more: Vec<String> = order.fabrics.iter().flat_map(|fabric| beside(view, fabric)).collect();
    notes.extend(more);
    notes.extend(order.missing.iter().cloned());
    vec![Sheet::Plan(Plan { head, facts: facts(order), groups, lines: lines(order), notes })]
}

/// The order that is shown, with its id.
pub fn shown<'a>(view: &View<'a>) -> Option<(&'a str, &'a OrderFigures)> {
    let id = view.order?;
    Some((id, view.figures.orders.get(id)?))
}

fn facts(order: &OrderFigures) -> Vec<Fact> {
    let fact = |label: &str, value: String| Fact { label: label.into(), value: value.into() };
    let known = |text: &Option<String>| text.clone().unwrap_or_default();
    let cut: u64 = order.products.values().flat_map(BTreeMap::values).map(|one| one.cut).sum();
    vec![
        fact("Order no.", known(&order.number)),
        fact("Customer's order no.", known(&order.po)),
        fact("Placed", order.date.as_deref().and_then(date).unwrap_or_default()),
        fact("Made to revision", known(&order.revision)),
        fact("Ordered", format!("{} pc", number::number(order.total as f64, 0))),
        fact("To cut, with cut extra, samples, tests", format!("{} pc", number::number(cut as f64, 0))),
    ]
}

/// The spreads of a fabric, a group for each colour.
fn groups(view: &View<'_>, fabric: &FabricPlan) -> Vec<PlanGroup> {
    let title = view.fabric_title(&fabric.article, &fabric.materials).english();
    let plan = match &fabric.plan {
        Figure::Known(plan) => plan,
        Figure::NotYet { why } => {
            let text = format!("{NOT_YET}: {}", Phrase::row(why, "; ").english());
            return vec![PlanGroup { title, text, rows: Vec::new() }];
        }
        Figure::Withheld => {
            return vec![PlanGroup { title, text: "not shown in this edition".into(), rows: Vec::new() }];
        }
    };
    let rows = plan.lays.iter().flat_map(|lay| lay.colours.iter().map(move |colour| row(view, fabric, lay, colour)));
    vec![PlanGroup { title, text: how(fabric, plan), rows: rows.collect() }]
}

fn how(fabric: &FabricPlan, plan: &Planned) -> String {
    let estimate = if plan.estimate { "; lengths are an estimate, not lays" } else { "" };
    let pairs = if fabric.step > 1 { format!(", spread in groups of {}", fabric.step) } else { String::new() };
    format!(
        "at most {} plies at once{pairs}; ends of {} included in a ply{estimate}",
        fabric.plies,
        number::mm(fabric.ends.get(), 0)
    )
}

fn row(view: &View<'_>, fabric: &FabricPlan, lay: &LayLine, colour: &LayColour) -> PlanRow {
    let of_colour = || lay.bundles.iter().filter(|bundle| bundle.colour == colour.colour);
    let mut products: BTreeMap<(&str, &str), u64> = BTreeMap::new();
    for bundle in of_colour() {
        *products.entry((&bundle.size, &bundle.colourway)).or_default() += bundle.products;
    }
    let numbers = of_colour().map(|bundle| bundle.bundle);
    let (first, last) = (numbers.clone().min(), numbers.max());
    let bought = Bought { article: fabric.article.clone(), colour: colour.colour.clone() };
    let rolls: Vec<String> =
        colour.rolls.iter().map(|one| format!("roll {}: {}", one.roll, range(one.from, one.to))).collect();
    PlanRow {
        lay: lay.lay.to_string(),
        makes: mix_text(&lay.sizes),
        length: metres(lay.ply),
        plies: format!("{} {}", colour.plies, colour_name(view, &bought)),
        numbers: if rolls.is_empty() { range(colour.from, colour.to) } else { rolls.join("\n") },
        bundles: first.zip(last).map_or(String::new(), |(first, last)| range(first, last)),
        pieces: number::number(of_colour().map(|bundle| bundle.pieces).sum::<u64>() as f64, 0),
        products: products
            .iter()
            .map(|((size, way), count)| format!("{size} {way}: {count}"))
            .collect::<Vec<_>>()
            .join("\n"),
    }
}

fn range(from: u64, to: u64) -> String {
    if from == to { from.to_string() } else { format!("{from}–{to}") }
}

/// The colour of what is bought, for people; nothing where it has none.
pub fn colour_name(view: &View<'_>, bought: &Bought) -> String {
    let title = |id: &String| view.model.colours.get(id).map_or(id.clone(), |colour| colour.entry.title().to_string());
    bought.colour.as_ref().map_or(String::new(), title)
}

/// Every line of the order; what is cut is known by size and colourway, and stands at the first of their lines.
fn lines(order: &OrderFigures) -> Vec<Vec<String>> {
    let made = made(order);
    let mut told = BTreeSet::new();
    let whole = |value: u64| number::number(value as f64, 0);
    let line = |one: &crate::compute::orders::OrderedLine| {
        let (size, way) = (one.size.clone().unwrap_or_default(), one.colourway.clone().unwrap_or_default());
        let products = order.products.get(&size).and_then(|ways| ways.get(&way));
        let allowed = one.least.zip(one.most).map_or(String::new(), |(least, most)| range(least, most));
        let first = told.insert((size.clone(), way.clone()));
        let (products, planned) =
            if first { (products, made.get(&(size.clone(), way.clone())).copied()) } else { (None, None) };
        let unknown = if first { NOT_YET } else { "" };
        vec![
            size,
            way,
            one.destination.clone().unwrap_or_default(),
            one.date.as_deref().and_then(date).unwrap_or_default(),
            one.quantity.map_or(String::new(), whole),
            allowed,
            products.map_or(String::new(), |one| whole(one.cut)),
            planned.map_or(unknown.into(), whole),
            planned.zip(products).map_or(String::new(), |(made, one)| whole(made.saturating_sub(one.cut))),
        ]
    };
    order.lines.iter().map(line).collect()
}

/// Products that every fabric gives, by size and colourway: the least over the fabrics.
fn made(order: &OrderFigures) -> BTreeMap<(String, String), u64> {
    let mut least: BTreeMap<(String, String), u64> = BTreeMap::new();
    for fabric in &order.fabrics {
        let Figure::Known(plan) = &fabric.plan else { return BTreeMap::new() };
        let mut here: BTreeMap<(String, String), u64> = BTreeMap::new();
        for bundle in plan.lays.iter().flat_map(|lay| &lay.bundles) {
            *here.entry((bundle.size.clone(), bundle.colourway.clone())).or_default() += bundle.products;
        }
        for (key, count) in here {
            least.entry(key).and_modify(|old| *old = (*old).min(count)).or_insert(count);
        }
    }
    least
}

/// The plain plan beside the one shown, and what does not divide.
fn beside(view: &View<'_>, fabric: &FabricPlan) -> Vec<String> {
    let Figure::Known(plan) = &fabric.plan else { return Vec::new() };
    let name = fabric.materials.iter().map(|material| view.material(material)).collect::<Vec<_>>().join(", ");
    let bought = |totals: &crate::compute::orders::Totals| match totals.rolls {
        Some(1) => format!("1 roll, {}", metres(totals.bought)),
        Some(rolls) => format!("{rolls} rolls, {}", metres(totals.bought)),
        None => metres(totals.bought),
    };
    let (own, plain) = (&plan.total, &plan.plain);
    let mut notes = vec![format!(
        "{name}: {} lays, {} plies, {}; one size a lay would take {} lays, {} plies, {}.",
        own.lays,
        own.plies,
        bought(own),
        plain.lays,
        plain.plies,
        bought(plain)
    )];
    let undivided = plan
        .undivided
        .iter()
        .map(|one| format!("{name}: no number of plies gives size {} exactly; {} are made.", one.size, one.made));
    notes.extend(undivided);
    if !fabric.assumed.is_empty() {
        let assumed: Vec<&str> = fabric.assumed.iter().map(String::as_str).collect();
        notes.push(format!("{name}, taken since nothing is stated: {}.", assumed.join("; ")));
    }
    notes
}

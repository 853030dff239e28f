//! What an order wants: products to cut, with cut extra, samples and tests, and what may be delivered.

use std::collections::BTreeMap;

use crate::compute::ByVariant;
use crate::model::{Model, Order, OrderLine, Stated};
use crate::units::{Quantity, Rational, Unit};

use super::{OrderFigures, OrderProducts, OrderedLine};

/// What every order wants, before anything is planned.
pub fn wanted(model: &Model) -> BTreeMap<String, OrderFigures> {
    model.orders.iter().map(|(id, order)| (id.clone(), figures(model, order))).collect()
}

fn figures(model: &Model, order: &Order) -> OrderFigures {
    let known = |text: &Option<Stated<String>>| text.as_ref().and_then(Stated::known).cloned();
    let lines: Vec<OrderedLine> = order.lines.values().map(|line| ordered(model, order, line)).collect();
    let cut_extra = share(order.cut_extra.as_ref());
    OrderFigures {
        number: known(&order.number),
        po: known(&order.po),
        date: order.date.as_ref().and_then(Stated::known).copied(),
        revision: known(&order.revision),
        cut_extra: cut_extra.map(|cut_extra| cut_extra.to_f64() * 100.0),
        surplus: known(&order.surplus),
        products: products(model, &lines, cut_extra.unwrap_or(Rational::ZERO)),
        total: lines.iter().filter_map(|line| line.quantity).sum(),
        lines,
        fabrics: Vec::new(),
        material: Vec::new(),
        cost: Vec::new(),
        missing: std::collections::BTreeSet::new(),
    }
}

fn ordered(model: &Model, order: &Order, line: &OrderLine) -> OrderedLine {
    // A style with one size or one colourway need not say which.
    let only_size = model.sizes.first().filter(|_| model.sizes.len() == 1).map(|size| size.entry.id.value.clone());
    let only_colourway = model.colourways.keys().next().filter(|_| model.colourways.len() == 1).cloned();
    let quantity = line.quantity.as_ref().and_then(|one| one.known()).map(|one| u64::from(*one));
    let number = |one: &Option<Stated<u32>>| one.as_ref().and_then(Stated::known).map_or(0, |one| u64::from(*one));
    let allowed = |stated: Option<&Stated<Quantity>>| Some(of_quantity(stated?.known()?, quantity?));
    let over = allowed(order.over_of(line));
    let short = allowed(order.short_of(line));
    OrderedLine {
        line: line.entry.id.value.clone(),
        size: line.size.as_ref().map(|one| one.value.clone()).or(only_size),
        colourway: line.colourway.as_ref().map(|one| one.value.clone()).or(only_colourway),
        destination: line.destination.as_ref().map(|one| one.value.code.to_string()),
        date: line.date.as_ref().and_then(Stated::known).copied(),
        quantity,
        most: quantity.map(|quantity| quantity + over.unwrap_or(0)),
        least: quantity.map(|quantity| quantity.saturating_sub(short.unwrap_or(0))),
        samples: number(&line.samples),
        tests: number(&line.tests),
    }
}

/// A share as a fraction, none below zero.
fn share(stated: Option<&Stated<Quantity>>) -> Option<Rational> {
    stated?.known().map(Quantity::si).filter(|share| !share.is_negative())
}

/// A share of a quantity in whole products, rounded down, or a number of products.
fn of_quantity(allowed: &Quantity, quantity: u64) -> u64 {
    let count = match allowed.unit {
        Unit::Percent => Rational::whole(i64::try_from(quantity).unwrap_or(0)).checked_mul(allowed.si()),
        _ => Some(allowed.si()),
    };
    let whole = count.and_then(|count| count.floor_to(Rational::ONE)).map_or(0, Rational::numerator);
    u64::try_from(whole).unwrap_or(0)
}

/// Products with the cut extra: rounded up for what is wanted, down for what is allowed.
fn with_cut_extra(quantity: u64, cut_extra: Rational, up: bool) -> u64 {
    let quantity = Rational::whole(i64::try_from(quantity).unwrap_or(0));
    let all = Rational::ONE.checked_add(cut_extra).and_then(|factor| factor.checked_mul(quantity)).unwrap_or(quantity);
    let whole = if up { all.ceil_to(Rational::ONE) } else { all.floor_to(Rational::ONE) };
    whole.map_or(0, |whole| u64::try_from(whole.numerator()).unwrap_or(0))
}

/// Products to cut by size and colourway: ceil(quantity × (1 + cut extra)) + samples + tests.
fn products(model: &Model, lines: &[OrderedLine], cut_extra: Rational) -> ByVariant<OrderProducts> {
    let mut all: ByVariant<OrderProducts> = BTreeMap::new();
    for line in lines {
        let (Some(size), Some(colourway), Some(quantity)) = (&line.size, &line.colourway, line.quantity) else {
            continue;
        };
        let known = model.size(size).is_some() && model.colourways.contains_key(colourway);
        if !(known && model.is_made(size, colourway)) {
            continue;
        }
        let sum = all.entry(size.clone()).or_default().entry(colourway.clone()).or_default();
        sum.quantity += quantity;
        sum.allowed += line.most.unwrap_or(quantity);
        sum.samples += line.samples;
        sum.tests += line.tests;
    }
    for sum in all.values_mut().flat_map(BTreeMap::values_mut) {
        let extra = sum.samples + sum.tests;
        let cut = with_cut_extra(sum.quantity, cut_extra, true);
        sum.cut_extra = cut - sum.quantity;
        sum.cut = cut + extra;
        sum.most = with_cut_extra(sum.allowed, cut_extra, false).max(cut) + extra;
    }
    all
}

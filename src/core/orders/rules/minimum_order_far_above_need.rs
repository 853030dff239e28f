//! Rule: the minimum order of a fabric is at least three times what the order needs, and nobody says whose the rest
//! is.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::{Bought, Figure, Figures};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Article, Model, Variant};
use crate::orders::figures::{Steps, minimum as minimum_length, roll};
use crate::orders::model::Order;
use crate::words::{Phrase, number, say, words};

/// More must be bought than is used.
pub const RULE: Rule = Rule {
    code: "minimum-order-far-above-need",
    family: "order",
    severity: Severity::Should,
    summary: "the minimum order of a fabric is at least three times what the order needs, and nobody says whose the rest is",
    explanation: "Mills dye and weave no less than their minimum for each colour. Where an order needs a small part of it, most \
                  of the money lies in fabric that is left over. The factory asks whose it is and for how long it is kept, or \
                  offers a stock colour. Three times is this program's own threshold.",
    failing: "[fabric.felt]\nminimum-order = \"300 m\"\n[order.spring]\n# needs 40 m",
    passing: "[fabric.felt]\nminimum-order = \"300 m\"\n[order.spring]\nsurplus = \"ours, kept twelve months for a repeat\"",
    source: "common practice",
};

words! {
    PLANNED "minimum-order-far-above-need.planned" = "order {id} needs {need} m of {name}, and no less than {minimum} can be bought: {surplus} m are left over";
    MESSAGE "minimum-order-far-above-need.message" = "order {id} needs about {need} m of {name}, and no less than {minimum} can be bought";
    MINIMUM_ORDER "minimum-order-far-above-need.minimum-order" = "the minimum order";
    SAY_WHOSE "minimum-order-far-above-need.say-whose" = "does not say whose the rest is";
    HELP "minimum-order-far-above-need.help" = "say whose it is: surplus = \"..\"; or ask for a stock colour or another fabric";
}

/// From how many times the need on a minimum order is reported.
const TIMES: f64 = 3.0;

/// Reports each fabric once an order, for the colour that needs least, before anything is planned.
pub(crate) fn check(model: &Model, figures: &Figures, findings: &mut Findings) {
    for (id, order) in model.orders.iter().filter(|(_, order)| order.surplus.is_none()) {
        let mut needs: Vec<(Bought, f64)> = needs(figures, id).into_iter().collect();
        needs.sort_by(|a, b| a.1.total_cmp(&b.1).then_with(|| a.0.cmp(&b.0)));
        let mut told = BTreeSet::new();
        for (bought, need) in needs {
            let Some((least, minimum)) = minimum_of(model, figures, &bought) else { continue };
            if is_far(need, least) && told.insert(bought.article.clone()) {
                let need = number::number((need / 1000.0).max(1.0), 0);
                let message = say!(MESSAGE, id, need, name = name(&bought), minimum);
                findings.push(finding(model, order, &bought, message));
            }
        }
    }
}

/// Reports the same of one order that is planned, with the lengths that its sheet prints.
pub(crate) fn planned(model: &Model, figures: &Figures, id: &str, findings: &mut Findings) {
    let Some(order) = model.orders.get(id).filter(|order| order.surplus.is_none()) else { return };
    let chains = figures.orders.get(id).map_or(&[][..], |order| order.material.as_slice());
    let known = chains.iter().filter_map(|chain| Some((&chain.bought, chain.steps.known()?)));
    let mut chains: Vec<(&Bought, &Steps)> = known.collect();
    chains.sort_by(|a, b| a.1.needed.raw().total_cmp(&b.1.needed.raw()).then_with(|| a.0.cmp(b.0)));
    let mut told = BTreeSet::new();
    for (bought, steps) in chains {
        let Some((_, minimum)) = minimum_of(model, figures, bought) else { continue };
        let least = steps.minimum.map_or(0.0, |least| least.raw());
        if is_far(steps.needed.raw(), least) && told.insert(bought.article.clone()) {
            let [need, surplus] = [steps.needed, steps.surplus].map(|mm| number::number(mm.get() / 1000.0, 3));
            let message = say!(PLANNED, id, need, name = name(bought), minimum, surplus);
            findings.push(finding(model, order, bought, message));
        }
    }
}

fn is_far(need: f64, least: f64) -> bool {
    need > 0.0 && least >= TIMES * need
}

fn name(bought: &Bought) -> String {
    match &bought.colour {
        Some(colour) => format!("{}/{colour}", bought.article),
        None => bought.article.clone(),
    }
}

fn minimum_of(model: &Model, figures: &Figures, bought: &Bought) -> Option<(f64, String)> {
    minimum(model.articles.get(&bought.article)?, figures)
}

fn finding(model: &Model, order: &Order, bought: &Bought, message: Phrase) -> Finding {
    let place = model.articles.get(&bought.article).and_then(|article| article.quantity("minimum-order"));
    let finding = Finding::new(&RULE, message);
    let finding = place.into_iter().fold(finding, |finding, place| finding.at(place.span, MINIMUM_ORDER));
    finding.at(order.entry.span(), SAY_WHOSE).help(HELP)
}

/// Whether a finding is this rule's of an order, as far as it was estimated.
pub(crate) fn is_estimate_of(model: &Model, order: &str, finding: &Finding) -> bool {
    let place = model.orders.get(order).map(|order| order.entry.span());
    finding.rule.code == RULE.code && finding.places.iter().any(|one| Some(one.span) == place)
}

/// Length by what is bought, mm: of the lay or the estimate of one product, else what its area alone takes.
fn needs(figures: &Figures, order: &str) -> BTreeMap<Bought, f64> {
    let mut all: BTreeMap<Bought, f64> = BTreeMap::new();
    let products = figures.orders.get(order).map(|order| &order.products);
    for (size, by) in products.into_iter().flatten() {
        for (colourway, product) in by {
            let fabrics = figures.fabric.get(size).and_then(|by| by.get(colourway));
            for fabric in fabrics.into_iter().flatten() {
                let bare =
                    || fabric.area.clone().with(fabric.cuttable_width.clone(), |area, width| area.raw() / width.raw());
                let each = match &fabric.length {
                    Figure::Known(length) => Some(length.raw()),
                    _ => bare().known().copied(),
                };
                let Some(each) = each.filter(|each| each.is_finite()) else { continue };
                *all.entry(fabric.bought.clone()).or_default() += each * product.cut as f64;
            }
        }
    }
    all
}

/// The minimum order of a fabric, mm and as written.
fn minimum(article: &Article, figures: &Figures) -> Option<(f64, String)> {
    let variant = Variant {
        size: figures.sizes.first().map_or("", String::as_str),
        colourway: figures.colourways.first().map_or("", String::as_str),
    };
    let known = |key: &str| article.quantity(key)?.known(variant).cloned();
    let least = minimum_length(&known, roll(&known))?;
    Some((least as f64 / 1000.0, known("minimum-order")?.to_string()))
}

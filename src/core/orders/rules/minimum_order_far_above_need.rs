//! Rule: the minimum order of a fabric is at least three times what the order needs, and nobody says whose the rest
//! is.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::{Bought, Figure, Figures};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Article, Model, Variant};
use crate::units::Dimension;
use crate::words::{number, say, words};

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
    MESSAGE "minimum-order-far-above-need.message" = "order {id} needs about {need} m of {name}, and no less than {minimum} can be bought";
    MINIMUM_ORDER "minimum-order-far-above-need.minimum-order" = "the minimum order";
    SAY_WHOSE "minimum-order-far-above-need.say-whose" = "does not say whose the rest is";
    HELP "minimum-order-far-above-need.help" = "say whose it is: surplus = \"..\"; or ask for a stock colour or another fabric";
}

/// From how many times the need on a minimum order is reported.
const TIMES: f64 = 3.0;

/// Reports each fabric once an order, for the colour that needs least.
pub(crate) fn check(model: &Model, figures: &Figures, findings: &mut Findings) {
    for (id, order) in model.orders.iter().filter(|(_, order)| order.surplus.is_none()) {
        let mut told = BTreeSet::new();
        let mut needs: Vec<(Bought, f64)> = needs(figures, id).into_iter().collect();
        needs.sort_by(|a, b| a.1.total_cmp(&b.1).then_with(|| a.0.cmp(&b.0)));
        for (bought, need) in needs {
            let Some(article) = model.articles.get(&bought.article) else { continue };
            let Some((least, minimum)) = minimum(article, figures) else { continue };
            if need <= 0.0 || least < TIMES * need || !told.insert(bought.article.clone()) {
                continue;
            }
            let name = match &bought.colour {
                Some(colour) => format!("{}/{colour}", bought.article),
                None => bought.article.clone(),
            };
            let message = say!(MESSAGE, id, need = number::number((need / 1000.0).max(1.0), 0), name, minimum);
            let mut finding = Finding::new(&RULE, message);
            if let Some(place) = article.quantity("minimum-order") {
                finding = finding.at(place.span, MINIMUM_ORDER);
            }
            finding = finding.at(order.entry.span(), SAY_WHOSE);
            findings.push(finding.help(HELP));
        }
    }
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

/// The minimum order of a fabric, mm and as written; one in kilograms by full width and mass.
fn minimum(article: &Article, figures: &Figures) -> Option<(f64, String)> {
    let variant = Variant {
        size: figures.sizes.first().map_or("", String::as_str),
        colourway: figures.colourways.first().map_or("", String::as_str),
    };
    let known = |key: &str| article.quantity(key)?.known(variant);
    let minimum = known("minimum-order")?;
    let metres = match minimum.dimension() {
        Dimension::Length => minimum.si_f64(),
        Dimension::Mass => minimum.si_f64() / known("width")?.si_f64() / known("mass")?.si_f64(),
        _ => return None,
    };
    Some((metres * 1000.0, minimum.to_string()))
}

//! How much fabric to order: the way from products to rolls, each step from the one before.

use crate::compute::orders::{Chain as Figures, PlyTerm, Steps};
use crate::compute::{Figure, Number};
use crate::words::{Phrase, number, sheet as words};

use super::data::{Chain, ChainStep, Fabric, Sheet};
use super::package::Head;
use super::plan::{colour_name, shown};
use super::view::{View, metres};
use super::written::{NOT_YET, figure};

/// One sheet for the order that is shown; none without one, or where nothing is bought.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let Some((id, order)) = shown(view) else { return Vec::new() };
    let chains: Vec<Chain> = order.material.iter().map(|chain| self::chain(view, chain)).collect();
    if chains.is_empty() {
        return Vec::new();
    }
    let named = order.number.clone().unwrap_or_else(|| id.to_string());
    let head = Head {
        title: format!("{} {named}", words::FABRIC_TITLE.en).into(),
        name: words::FABRIC_SHEET.en.into(),
        lead: words::FABRIC_LEAD.en.into(),
    };
    let notes = vec![words::FABRIC_NOTE.en.to_string()];
    vec![Sheet::Fabric(Fabric { head, chains: chains.chunks(2).map(<[Chain]>::to_vec).collect(), notes })]
}

fn chain(view: &View<'_>, one: &Figures) -> Chain {
    let article = view.material(&one.bought.article);
    let colour = colour_name(view, &one.bought);
    let title = if colour.is_empty() { article } else { format!("{article}, {colour}") };
    let steps = match &one.steps {
        Figure::Known(steps) => self::steps(one, steps),
        Figure::NotYet { why } => {
            vec![row("Fabric", &Phrase::row(why, "; ").english(), NOT_YET.into())]
        }
        Figure::Withheld => vec![row("Fabric", "", "withheld".into())],
    };
    let estimate = one.steps.known().is_some_and(|steps| steps.estimate);
    let text = if estimate { "from an estimate, not from lays" } else { "from lays" };
    Chain { title, text: text.into(), steps }
}

fn row(step: &str, working: &str, result: String) -> ChainStep {
    ChainStep { step: step.into(), working: working.into(), result, heavy: false }
}

fn whole(value: u64) -> String {
    number::number(value as f64, 0)
}

fn steps(one: &Figures, steps: &Steps) -> Vec<ChainStep> {
    let mut all = vec![
        row("Products to cut", "ordered with cut extra, samples and tests", format!("{} pc", whole(one.products))),
        row("Products the plan makes", "", format!("{} pc", whole(one.made))),
        row("Pieces", "on all plies", format!("{} pc", whole(steps.pieces))),
    ];
    let plies: Vec<String> = steps.plies.iter().map(term).collect();
    all.push(row("Laid, without ends", &plies.join("\n"), metres(steps.laid)));
    all.push(row("Ends of the plies", "plies × both ends", metres(steps.ends)));
    all.push(row("Spread", "laid + ends", metres(steps.spread)));
    let share = |share: Number| number::number(1.0 - share.get() / 100.0, 4);
    let divided = |what: &str, by: Number| format!("{what} / {} ({} %)", share(by), figure(&Figure::Known(by), 2));
    all.push(row("Before it shrinks", &divided("spread", steps.shrinkage), metres(steps.relaxed)));
    all.push(row("With faults cut out", &divided("that", steps.faults), metres(steps.needed)));
    if let (Some(roll), Some(usable), Some(rolls)) = (steps.roll, steps.usable, steps.rolls) {
        let working = format!("{} a roll, {} of it can be spread; no ply from two rolls", metres(roll), metres(usable));
        all.push(row("Rolls", &working, whole(rolls)));
    }
    if let Some(minimum) = steps.minimum {
        let decides = if steps.minimum_decides { "more than is needed: it decides" } else { "less than is needed" };
        all.push(row("Minimum order", decides, metres(minimum)));
    }
    let length = format!("{} / {} yd", metres(steps.bought), number::number(steps.yards.get(), 1));
    all.push(ChainStep { heavy: true, ..row("To order", "whole rolls or metres", length) });
    let mass = steps.mass.get().map_or(NOT_YET.into(), |grams| number::with_unit(grams / 1000.0, 1, "kg"));
    all.push(row("Mass", "length × full width × mass per area", mass));
    let of = steps.surplus_of.clone().unwrap_or_else(|| "whose it is, the order does not say".into());
    all.push(row("Left over", &of, metres(steps.surplus)));
    if let Some(price) = &steps.price {
        let total = number::with_unit(price.total.get(), 2, &price.currency);
        all.push(row("Cost", &format!("at {}", price.each), total));
    }
    all
}

/// `lay 1: 10 plies × 1.234 m`.
fn term(one: &PlyTerm) -> String {
    let per_roll = one.per_roll.map_or(String::new(), |plies| format!(", {} a roll", whole(plies)));
    format!("lay {}: {} plies × {}{per_roll}", one.lay, whole(one.plies), metres(one.length))
}

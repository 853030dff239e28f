//! Rule: a demand that no ply count divides: a lay is spread for a few products only.

use crate::compute::Figures;
use crate::compute::orders::{FabricPlan, LayLine, Planned};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;

/// A lay for a few products.
pub const RULE: Rule = Rule {
    code: "plies-do-not-divide",
    family: "order",
    severity: Severity::Note,
    summary: "a demand that no ply count divides: a lay is spread for a few products only",
    explanation: "Products come in plies times the products on each ply. What is left over after full lays needs a lay of its \
                  own: fabric is drawn out, cut and bundled for a handful. A few products fewer, or `over` to make up a ply, save \
                  it. Reported where such a lay has a fifth of the plies or less, and 2 % of the products or less.",
    failing: "[order.spring.line.a]\nquantity = 401\n# 40 products a lay",
    passing: "[order.spring.line.a]\nquantity = 400",
    source: "arithmetic; the shares are this program's own thresholds",
};

/// Parts of the plies of a full lay, and of all products, up to which a lay is one for a rest.
const REST: (u64, u64) = (5, 50);

/// Reports the smallest such lay of an order, and every demand that cannot be met within its limits.
pub(super) fn check(model: &Model, figures: &Figures, id: &str, findings: &mut Findings) {
    let Some(order) = figures.orders.get(id) else { return };
    let Some(place) = model.orders.get(id).map(|order| order.entry.span()) else { return };
    let plans = || order.fabrics.iter().filter_map(|fabric| Some((fabric, fabric.plan.known()?)));
    for (fabric, plan) in plans() {
        for one in &plan.undivided {
            let message = format!(
                "order {id}: no number of plies of {} gives size {} within what may be made; {} are made",
                fabric.article, one.size, one.made
            );
            let finding = Finding::new(&RULE, message).at(place, "no ply count divides it");
            findings.push(finding.help("order a number that comes out, or allow a few over"));
        }
    }
    let rests = plans().filter_map(|(fabric, plan)| Some((fabric, rest(fabric, plan)?)));
    let Some((fabric, lay)) = rests.min_by_key(|(_, lay)| lay.products) else { return };
    let made: Vec<String> = lay.sizes.keys().cloned().collect();
    let message = format!(
        "order {id}: lay {} of {} is spread in {} {} for {} of size {}",
        lay.lay,
        fabric.article,
        lay.plies,
        if lay.plies == 1 { "ply" } else { "plies" },
        lay.products,
        made.join(" and ")
    );
    let finding = Finding::new(&RULE, message).at(place, "leaves a rest that no ply count divides");
    findings.push(finding.help(format!("{} fewer would save the lay", lay.products)));
}

/// The smallest lay that is spread for a rest.
fn rest<'a>(fabric: &FabricPlan, plan: &'a Planned) -> Option<&'a LayLine> {
    // Where fewer lays may do, it is not the demand that is in the way.
    if !plan.proved {
        return None;
    }
    let all: u64 = plan.lays.iter().map(|lay| lay.products).sum();
    let few = |lay: &&LayLine| lay.plies * REST.0 <= u64::from(fabric.plies) && lay.products * REST.1 <= all;
    plan.lays.iter().filter(few).min_by_key(|lay| lay.products)
}

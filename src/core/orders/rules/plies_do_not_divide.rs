//! Rule: a demand that no ply count divides: a lay is spread for a few products only.

use crate::compute::Figures;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;
use crate::orders::figures::{FabricPlan, LayLine, Planned};
use crate::words::counted;
use crate::words::{Phrase, say, words};

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

words! {
    UNDIVIDED "plies-do-not-divide.undivided" = "order {id}: no number of plies of {article} gives size {size} within what may be made; {made} are made";
    NO_COUNT "plies-do-not-divide.no-count" = "no ply count divides it";
    OTHER_NUMBER "plies-do-not-divide.other-number" = "order a number that comes out, or allow a few over";
    REST_LAY "plies-do-not-divide.rest-lay" = "order {id}: lay {lay} of {article} is spread in {plies} for {products} of size {sizes}";
    PLY "plies-do-not-divide.ply" = "{count} ply";
    PLIES "plies-do-not-divide.plies" = "{count} plies";
    LEAVES "plies-do-not-divide.leaves" = "leaves a rest that no ply count divides";
    FEWER "plies-do-not-divide.fewer" = "{products} fewer would save the lay";
}

/// Parts of the plies of a full lay, and of all products, up to which a lay is one for a rest.
const REST: (u64, u64) = (5, 50);

/// Reports the smallest such lay of an order, and every demand that cannot be met within its limits.
pub(crate) fn check(model: &Model, figures: &Figures, id: &str, findings: &mut Findings) {
    let Some(order) = figures.orders.get(id) else { return };
    let Some(place) = model.orders.get(id).map(|order| order.entry.span()) else { return };
    let plans = || order.fabrics.iter().filter_map(|fabric| Some((fabric, fabric.plan.known()?)));
    for (fabric, plan) in plans() {
        for one in &plan.undivided {
            let message = say!(UNDIVIDED, id, article = &fabric.article, size = &one.size, made = one.made);
            let finding = Finding::new(&RULE, message).at(place, NO_COUNT);
            findings.push(finding.help(OTHER_NUMBER));
        }
    }
    let rests = plans().filter_map(|(fabric, plan)| Some((fabric, rest(fabric, plan)?)));
    let Some((fabric, lay)) = rests.min_by_key(|(_, lay)| lay.products) else { return };
    let made: Vec<String> = lay.sizes.keys().cloned().collect();
    let message = say!(
        REST_LAY,
        id,
        lay = lay.lay,
        article = &fabric.article,
        plies = counted(lay.plies as usize, PLY, PLIES),
        products = lay.products,
        sizes = Phrase::and(made)
    );
    let finding = Finding::new(&RULE, message).at(place, LEAVES);
    findings.push(finding.help(say!(FEWER, products = lay.products)));
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

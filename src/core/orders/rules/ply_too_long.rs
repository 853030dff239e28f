//! Rule: one product of an order needs a longer ply than the table or a roll gives.

use crate::compute::Figures;
use crate::compute::rules::telling::mm;
use crate::cutting::figures::cutting;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;
use crate::words::{say, words};

/// One product needs a longer ply than the table or a roll gives.
pub const RULE: Rule = Rule {
    code: "ply-too-long",
    family: "order",
    severity: Severity::Must,
    summary: "one product of an order needs a longer ply than the table or a roll gives",
    explanation: "A ply is spread on the table and comes from one roll, unless plies may be spliced. Of a roll only that can be \
                  spread which is left after what is kept back, shrinkage and faults; face to face, two plies come from it. \
                  Where not even one product lies on such a ply, there is no plan and nothing is searched.",
    failing: "[fabric.canvas]\nroll-length = \"1 m\"\n[cutting.room]\nreserve = \"950 mm\"",
    passing: "[fabric.canvas]\nroll-length = \"40 m\"\n[cutting.room]\nreserve = \"950 mm\"",
    source: "arithmetic",
};

words! {
    OF_TABLE "ply-too-long.of-table" = "order {id}: a ply of {article} for one product of size {size} is {ply} long, and the table holds {most}";
    OF_ROLL "ply-too-long.of-roll" = "order {id}: a ply of {article} for one product of size {size} is {ply} long, and a roll gives {most}";
    TABLE "ply-too-long.table" = "the table";
    ROLL "ply-too-long.roll" = "the roll, before shrinkage, faults and what is kept back";
    ORDERED "ply-too-long.ordered" = "is ordered here";
    LONGER_TABLE "ply-too-long.longer-table" = "name a longer table, or divide the pieces";
    LONGER_ROLL "ply-too-long.longer-roll" = "order longer rolls, keep less of them back, or write splice = \"allowed\"";
}

/// Reports each fabric of an order that cannot be spread.
pub(crate) fn check(model: &Model, figures: &Figures, id: &str, findings: &mut Findings) {
    let (Some(order), Some(stated)) = (figures.orders.get(id), model.orders.get(id)) else { return };
    for fabric in &order.fabrics {
        let Some(unfit) = &fabric.unfit else { continue };
        let (article, size) = (&fabric.article, &unfit.size);
        let (ply, most) = (mm(unfit.ply.get()), mm(unfit.most.get()));
        let word = if unfit.roll { OF_ROLL } else { OF_TABLE };
        let mut finding = Finding::new(&RULE, say!(word, id, article, size, ply, most));
        let table = cutting(model, article).and_then(|one| one.table.as_ref()).map(|table| (table.span, TABLE));
        let roll =
            model.articles.get(article).and_then(|one| one.quantity("roll-length")).map(|roll| (roll.span, ROLL));
        if let Some((span, what)) = if unfit.roll { roll } else { table } {
            finding = finding.at(span, what);
        }
        finding = finding.at(stated.entry.span(), ORDERED);
        findings.push(finding.help(if unfit.roll { LONGER_ROLL } else { LONGER_TABLE }));
    }
}

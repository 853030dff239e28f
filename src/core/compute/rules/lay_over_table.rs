use crate::compute::ground::small;
use crate::compute::lays::{Lays, cutting};
use crate::diag::{Finding, Findings, Rule, Severity};

use super::{Ground, mm};

/// A lay is longer than the table or than the roll.
pub const RULE: Rule = Rule {
    code: "lay-over-table",
    family: "cutting",
    severity: Severity::Must,
    summary: "a lay is longer than the table or than the roll",
    explanation: "A lay is spread on a table from a roll. One that is longer than the table cannot be cut at once, and one that is longer than a roll has a splice in every ply.",
    failing: "[cutting.room]\ntable = \"1 m\" # the panels of one cushion need 1.3 m",
    passing: "[cutting.room]\ntable = \"8 m\"",
    source: "common practice",
};

/// Reports each kept lay that is too long.
pub fn check(ground: &Ground<'_>, lays: &Lays, findings: &mut Findings) {
    for task in &lays.tasks {
        let Some(length) = task.length().get() else { continue };
        let title = &task.instance.name;
        if let Some(table) = task.how.table.map(|table| table.get()).filter(|table| length > *table) {
            let message = format!("{title}: the lay is {} long, the table {}", mm(length), mm(table));
            let span = cutting(ground.model, &task.bought.article).and_then(|one| Some(one.table.as_ref()?.span));
            let finding = Finding::new(&RULE, message).help("divide the pieces, or name a longer table");
            findings.push(span.into_iter().fold(finding, |finding, span| finding.at(span, "the table")));
        }
        let roll = ground.article(&task.bought).and_then(|article| article.quantity("roll-length"));
        let stated = roll.and_then(|roll| roll.all().find_map(|one| one.known()));
        let longest = stated.map(small).filter(|roll| length > *roll);
        if let (Some(roll), Some(longest)) = (roll, longest) {
            let message = format!("{title}: the lay is {} long, a roll {}", mm(length), mm(longest));
            let finding = Finding::new(&RULE, message).at(roll.span, "length of a roll");
            findings.push(finding.help("lay fewer products at once, or order longer rolls"));
        }
    }
}

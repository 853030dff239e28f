//! Rule: a lay is longer than the table or than the roll.

use std::collections::BTreeMap;

use crate::compute::number::small;
use crate::cutting::figures::{LayTasks, cutting};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::Span;
use crate::words::{Phrase, Word, say, words};

use crate::compute::input::Ground;
use crate::compute::rules::telling::mm;

/// A lay is longer than the table or than the roll.
pub const RULE: Rule = Rule {
    code: "lay-longer-than-table",
    family: "cutting",
    severity: Severity::Must,
    summary: "a lay is longer than the table or than the roll",
    explanation: "A lay is spread on a table from a roll. One that is longer than the table cannot be cut at once, and one that is longer than a roll has a splice in every ply.",
    failing: "[cutting.room]\ntable = \"1 m\" # the panels of one cushion need 1.3 m",
    passing: "[cutting.room]\ntable = \"8 m\"",
    source: "common practice",
};

words! {
    LONG "lay-longer-than-table.long" = "{name} is {length} long";
    TOO_LONG "lay-longer-than-table.too-long" = "{what} is {most} long: {lays}";
    TABLE "lay-longer-than-table.table" = "the table";
    ROLL "lay-longer-than-table.roll" = "the roll";
    DIVIDE "lay-longer-than-table.divide" = "divide the pieces, or name a longer table";
    ORDER_LONGER "lay-longer-than-table.order-longer" = "order longer rolls";
}

/// Reports kept lays that are too long: one finding for each table and for each roll.
pub fn check(ground: &Ground<'_>, lays: &LayTasks, findings: &mut Findings) {
    let mut long: BTreeMap<(Span, Word, String), Vec<Phrase>> = BTreeMap::new();
    for task in &lays.tasks {
        let Some(length) = task.length().get() else { continue };
        let said = say!(LONG, name = &task.instance.name, length = mm(length));
        let table = cutting(ground.model, &task.bought.article).and_then(|one| one.table.as_ref());
        if let Some((span, table)) = table.zip(task.how.table).map(|(stated, table)| (stated.span, table.get()))
            && length > table
        {
            long.entry((span, TABLE, mm(table))).or_default().push(said.clone());
        }
        let roll = ground.article(&task.bought).and_then(|article| article.quantity("roll-length"));
        let stated = roll.and_then(|roll| roll.all().find_map(|one| one.known())).map(small);
        if let Some((roll, most)) = roll.zip(stated.filter(|most| length > *most)) {
            long.entry((roll.span, ROLL, mm(most))).or_default().push(said);
        }
    }
    for ((span, what, most), lays) in long {
        let finding = Finding::new(&RULE, say!(TOO_LONG, what, most, lays = Phrase::list(lays)));
        let help = if what == TABLE { DIVIDE } else { ORDER_LONGER };
        findings.push(finding.at(span, what).help(help));
    }
}

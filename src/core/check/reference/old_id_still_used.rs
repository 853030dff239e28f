//! Rule: `was` names an id that is still in use, or that two things claim.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Entry, kind};
use crate::source::{Edit, Help, Span};
use crate::words::{say, words};

/// An id that was given up and is still in use.
pub const RULE: Rule = Rule {
    code: "old-id-still-used",
    family: "reference",
    severity: Severity::Must,
    summary: "`was` names an id that is still in use, or that two things claim",
    explanation: "`was` tells the comparison with an earlier revision that a thing only changed its id. Comments, \
                  approvals and readings then follow it. That works only if the old id is used by nothing else: an id \
                  is never used again.",
    failing: "[piece.FRONT]\nwas = \"SIDE\"\n[piece.SIDE]",
    passing: "[piece.FRONT]\nwas = \"SIDE\"\n[piece.BACK]",
    source: "common practice",
};

words! {
    TWICE "old-id-still-used.twice" = "{one} and {other} both say that they were `{old}`";
    CLAIMED_AGAIN "old-id-still-used.claimed-again" = "claimed again";
    FIRST_CLAIMED "old-id-still-used.first-claimed" = "first claimed here";
    LEAVE_ONE "old-id-still-used.leave-one" = "leave `was` with the one that took its place, and take the other out";
    OWN "old-id-still-used.own" = "{what} says that it was `{old}`, which is its own id";
    ID_NOW "old-id-still-used.id-now" = "the id it has now";
    TAKE_OUT "old-id-still-used.take-out" = "take `was` out, or write the id it had before";
    USED "old-id-still-used.used" = "{what} says that it was `{old}`, and there is still a {kind} {old}";
    GIVEN_UP "old-id-still-used.given-up" = "given up";
    STILL_USED "old-id-still-used.still-used" = "still in use";
    GIVE_ID "old-id-still-used.give-id" = "give [{table}.{old}] an id that was never used, or take `was` out of {id}";
}

/// Reports former ids that are in use, and those claimed twice.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let all: Vec<(&'static str, &Entry)> = context.model.entries().collect();
    let mut claimed: BTreeMap<(&str, &str), (Span, &str)> = BTreeMap::new();
    for (table, entry) in &all {
        let Some(was) = &entry.was else { continue };
        let (id, old) = (entry.id.value.as_str(), was.value.as_str());
        let living = all.iter().find(|(other, one)| kin(other) == kin(table) && one.id.value == old);
        if let Some((_, living)) = living {
            findings.push(in_use(table, id, old, was.span, living.span()));
        } else if let Some((first, by)) = claimed.insert((kin(table), old), (was.span, id)) {
            let message = say!(TWICE, one = kind::named(table, by), other = kind::named(table, id), old);
            let finding = Finding::new(&RULE, message).at(was.span, CLAIMED_AGAIN).at(first, FIRST_CLAIMED);
            findings.push(finding.help(Help::with(LEAVE_ONE, Edit::take_out(was.span))));
        }
    }
}

/// Tables that share one name space: all articles do.
fn kin(table: &str) -> &str {
    match table {
        "thread" | "filling" | "trim" => "fabric",
        "opening" => "seam",
        _ => table,
    }
}

fn in_use(table: &str, id: &str, old: &str, span: Span, living: Span) -> Finding {
    if id == old {
        return Finding::new(&RULE, say!(OWN, what = kind::named(table, id), old))
            .at(span, ID_NOW)
            .help(Help::with(TAKE_OUT, Edit::take_out(span)));
    }
    Finding::new(&RULE, say!(USED, what = kind::named(table, id), old, kind = kind::word(table)))
        .at(span, GIVEN_UP)
        .at(living, STILL_USED)
        .help(Help::with(say!(GIVE_ID, table, old, id), Edit::take_out(span)))
}

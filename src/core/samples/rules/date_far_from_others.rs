//! Rule: a date is years away from all others, or in a year that cannot be meant.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Model, Stated};
use crate::source::Span;
use crate::units::Date;
use crate::words::{say, words};

/// Years between a date and the middle one of all dates beyond which it is taken for a slip (*common practice*).
const MOST: i32 = 5;

/// The years in which things are made after such specifications: one outside is a slip, even if no other date is there to tell
/// (*common practice*).
const YEARS: [u16; 2] = [2000, 2049];

/// A slip in a year.
pub const RULE: Rule = Rule {
    code: "date-far-from-others",
    family: "sample",
    severity: Severity::Should,
    summary: "a date is more than 5 years from the others, or outside of the years 2000 to 2049",
    explanation: "The dates of one product lie within a few years. One that is more than 5 years from the middle one of them all \
                  has a slip in its year, and what is the last revision, or until when something holds, is judged wrongly. What \
                  holds `until` a day may be far ahead. A date that stands alone is taken for a slip before 2000 and after 2049.",
    failing: "[revision]\nid = \"A\"\ndate = 2062-11-20\n[sample.first]\nasked = 2026-10-01",
    passing: "[revision]\nid = \"A\"\ndate = 2026-11-20\n[sample.first]\nasked = 2026-10-01",
    source: "common practice: 5 years",
};

words! {
    MESSAGE "date-far-from-others.message" = "{date} is more than {most} years from {other}";
    OUTSIDE "date-far-from-others.outside" = "{date} is not in the years {first} to {last}";
    HERE "date-far-from-others.here" = "this year?";
    OTHER "date-far-from-others.other" = "the other dates are near this one";
    HELP "date-far-from-others.help" = "correct the year that is wrong";
}

/// Reports each such date.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut all = dates(context.model);
    all.sort();
    let likely: Vec<(Date, Span)> = all.iter().copied().filter(|(date, _)| !is_outside(*date)).collect();
    let judged = if likely.is_empty() { &all } else { &likely };
    let Some((middle, place)) = judged.get(judged.len().saturating_sub(1) / 2).copied() else { return };
    for (date, span) in all {
        if far(date, middle) {
            let message = say!(MESSAGE, date = date.to_string(), most = MOST.to_string(), other = middle.to_string());
            findings.push(Finding::new(&RULE, message).at(span, HERE).at(place, OTHER).help(HELP));
        } else if is_outside(date) {
            let [first, last] = YEARS.map(|year| year.to_string());
            let message = say!(OUTSIDE, date = date.to_string(), first, last);
            findings.push(Finding::new(&RULE, message).at(span, HERE).help(HELP));
        }
    }
}

fn is_outside(date: Date) -> bool {
    !(YEARS[0]..=YEARS[1]).contains(&date.year())
}

fn far(one: Date, other: Date) -> bool {
    let (from, to) = (one.min(other), one.max(other));
    let years = i32::from(to.year()) - i32::from(from.year());
    years > MOST || (years == MOST && (to.month(), to.day()) > (from.month(), from.day()))
}

/// Every date on which something was or is done.
fn dates(model: &Model) -> Vec<(Date, Span)> {
    let mut all: Vec<Option<&Stated<Date>>> = vec![model.revision.date.as_ref(), model.revision.answer.as_ref()];
    for sample in model.samples.samples.values() {
        all.extend([&sample.asked, &sample.due, &sample.received, &sample.measured].map(Option::as_ref));
    }
    all.extend(model.samples.comments.values().map(|one| one.date.as_ref()));
    all.extend(model.samples.concessions.values().map(|one| one.date.as_ref()));
    for approval in model.samples.approvals.values() {
        all.extend(approval.submissions.iter().map(|one| one.date.as_ref()));
        all.extend(approval.sealed.iter().map(|one| one.date.as_ref()));
    }
    for order in model.orders.values() {
        all.push(order.date.as_ref());
        all.extend(order.lines.values().map(|line| line.date.as_ref()));
    }
    all.into_iter().flatten().filter_map(|date| Some((*date.known()?, date.span))).collect()
}

//! Rule: a concession lifts no finding, or is past its day.

use crate::diag::{Conceded, Finding, Findings, Rule, Severity};
use crate::model::{Concession, Model, Stated};
use crate::samples::figures::is_past;
use crate::units::Date;
use crate::words::{Phrase, say, words};

/// A concession without effect.
pub const RULE: Rule = Rule {
    code: "concession-lifts-nothing",
    family: "sample",
    severity: Severity::Should,
    summary: "a concession lifts no finding, or is past its day",
    explanation: "A concession is printed on the package. One that lifts nothing is left over from what was put right since, or \
                  its code or item is misspelt and the finding still stands. It lifts the findings of its code that name its \
                  item; without an item, the only finding of its code. What cannot be read is not lifted by anything.",
    failing: "[concession.w1]\nlifts = \"open-comments\"\nby = \"E. Morrow\"\nreason = \"hidden by the collar\"\nlimit = \"order \
              A-118\"\ndate = \"2026-11-20\"",
    passing: "[concession.w1]\nlifts = \"open-comment\"\nby = \"E. Morrow\"\nreason = \"hidden by the collar\"\nlimit = \"order \
              A-118\"\ndate = \"2026-11-20\"",
    source: "common practice",
};

words! {
    PAST "concession-lifts-nothing.past" = "concession {id} is past its day";
    PAST_DAY "concession-lifts-nothing.past-day" = "past this day";
    AGAIN "concession-lifts-nothing.again" = "take it out, or have it given again with another day";
    NOTHING_ABOUT "concession-lifts-nothing.nothing-about" = "concession {id} lifts nothing: there is no finding {code} about {item}";
    NOTHING "concession-lifts-nothing.nothing" = "concession {id} lifts nothing: there is no finding {code}";
    NO_FINDING "concession-lifts-nothing.no-finding" = "no such finding";
    WRITE_CODE "concession-lifts-nothing.write-code" = "take it out, or write the code in square brackets and an id that the finding names";
    CONCEDED "concession-lifts-nothing.conceded" = "{by}, {date}: {reason} ({limit}; concession {id})";
    CONCEDED_UNTIL "concession-lifts-nothing.conceded-until" = "{by}, {date}: {reason} ({limit}, until {until}; concession {id})";
}

/// Families whose findings nobody can concede: what cannot be read is not there.
const KEPT: &str = "files";

/// Marks the findings that concessions lift, and reports concessions that lift none.
pub fn lift(model: &Model, findings: &mut Findings) {
    let mut idle = Findings::default();
    for (id, concession) in &model.samples.concessions {
        let Some(code) = concession.lifts.as_ref().filter(|_| concession.missing().is_empty()) else { continue };
        if let Some(until) = concession.until.as_ref().filter(|_| is_past(model, &concession.until)) {
            let finding = Finding::new(&RULE, say!(PAST, id)).at(until.span, PAST_DAY);
            idle.push(finding.help(AGAIN));
            continue;
        }
        if mark(findings, concession, &code.value) == 0 {
            let message = match &concession.item {
                Some(item) => say!(NOTHING_ABOUT, id, code = &code.value, item = &item.value),
                None => say!(NOTHING, id, code = &code.value),
            };
            let finding = Finding::new(&RULE, message).at(code.span, NO_FINDING);
            idle.push(finding.help(WRITE_CODE));
        }
    }
    findings.append(idle);
}

/// How many findings the concession lifts.
fn mark(findings: &mut Findings, concession: &Concession, code: &str) -> usize {
    let of_code = |finding: &Finding| finding.rule.code == code && finding.rule.family != KEPT && finding.rule != &RULE;
    let alone = findings.iter().filter(|finding| of_code(finding)).count() == 1;
    let meant = |finding: &Finding| match &concession.item {
        Some(item) => names(&finding.message.english(), &item.value),
        None => alone,
    };
    let mut lifted = 0;
    for finding in findings.iter_mut().filter(|finding| of_code(finding) && meant(finding)) {
        finding.concession = Some(Conceded { id: concession.entry.id.value.clone(), text: told(concession) });
        lifted += 1;
    }
    lifted
}

/// Whether a message holds an id as a word of its own; `seam.belly` is the id `belly`.
fn names(message: &str, item: &str) -> bool {
    let id = item.split_once('.').map_or(item, |(_, id)| id);
    let word = |c: char| c.is_alphanumeric() || matches!(c, '_' | '-');
    message.split(|c| !word(c)).any(|one| one == id)
}

/// `E. Morrow, 2026-11-20: hidden by the collar (order A-118, until 2027-05-31; concession w1)`.
fn told(concession: &Concession) -> Phrase {
    let word = |word: &Option<crate::source::Spanned<String>>| {
        word.as_ref().map_or("", |word| word.value.as_str()).to_string()
    };
    let day = |day: &Option<Stated<Date>>| day.as_ref().and_then(|day| day.known().copied());
    let (by, date) = (word(&concession.by), day(&concession.date).map_or_else(Phrase::none, Phrase::from));
    let (reason, limit, id) = (word(&concession.reason), word(&concession.limit), &concession.entry.id.value);
    match day(&concession.until) {
        Some(until) => say!(CONCEDED_UNTIL, by, date, reason, limit, until, id),
        None => say!(CONCEDED, by, date, reason, limit, id),
    }
}

//! Rule: something is dated before what it follows.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Approval, Model, Stated, Submission, kind};
use crate::units::Date;
use crate::words::{Phrase, say, words};

/// Two dates in the wrong order.
pub const RULE: Rule = Rule {
    code: "dates-run-back",
    family: "sample",
    severity: Severity::Should,
    summary: "something is dated before what it follows",
    explanation: "A sample is asked for, comes and is measured; an approval is submitted again after it was rejected; an order is \
                  placed before it leaves. Where a date runs back, one of the two is a slip, and which sample is the last one, \
                  or until when something holds, is judged wrongly.",
    failing: "[sample.first]\nreceived = 2026-10-05\nmeasured = 2026-10-01",
    passing: "[sample.first]\nreceived = 2026-10-05\nmeasured = 2026-10-06",
    source: "follows from the terms",
};

words! {
    MESSAGE "dates-run-back.message" = "{what}: `{key}` is {date}, before {other}, which is {first}";
    HERE "dates-run-back.here" = "before {first}";
    FIRST "dates-run-back.first" = "comes first";
    KEY "dates-run-back.key" = "`{key}`";
    KEY_OF "dates-run-back.key-of" = "`{key}` of {what}";
    SUBMISSION "dates-run-back.submission" = "`date` of submission {number}";
    LINE "dates-run-back.line" = "order {order}, line {line}";
    HELP "dates-run-back.help" = "correct the date that is wrong";
}

type Day<'a> = Option<&'a Stated<Date>>;

/// Where findings go, and about what.
struct Pairs<'f> {
    what: Phrase,
    findings: &'f mut Findings,
}

impl Pairs<'_> {
    /// Reports the later one if it is dated before the earlier one.
    fn hold(&mut self, (first_name, first): (Phrase, Day<'_>), (key, later): (&str, Day<'_>)) {
        let (Some(first), Some(later)) = (first, later) else { return };
        let (Some(from), Some(to)) = (first.known(), later.known()) else { return };
        if to < from {
            let message = say!(
                MESSAGE,
                what = &self.what,
                key,
                date = to.to_string(),
                other = first_name,
                first = from.to_string()
            );
            let finding = Finding::new(&RULE, message).at(later.span, say!(HERE, first = from.to_string()));
            self.findings.push(finding.at(first.span, FIRST).help(HELP));
        }
    }

    /// Reports each of a row of dates that is before the one given last.
    fn row(&mut self, dates: &[(&str, Day<'_>)]) {
        let given: Vec<_> = dates.iter().filter(|(_, date)| date.is_some()).collect();
        for pair in given.windows(2) {
            if let [(first, from), (key, to)] = pair {
                self.hold((say!(KEY, key = *first), *from), (*key, *to));
            }
        }
    }
}

/// Reports every such pair.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    samples(model, findings);
    for (id, approval) in &model.samples.approvals {
        submissions(id, approval, findings);
    }
    for (id, concession) in &model.samples.concessions {
        let mut pairs = Pairs { what: kind::named("concession", id), findings };
        pairs.row(&[("date", concession.date.as_ref()), ("until", concession.until.as_ref())]);
    }
    for order in model.orders.values() {
        for line in order.lines.values() {
            let mut pairs =
                Pairs { what: say!(LINE, order = &order.entry.id.value, line = &line.entry.id.value), findings };
            let placed = say!(KEY_OF, key = "date", what = kind::named("order", &order.entry.id.value));
            pairs.hold((placed, order.date.as_ref()), ("date", line.date.as_ref()));
        }
    }
    let revision = &model.revision;
    let mut pairs = Pairs { what: kind::word("revision"), findings };
    pairs.row(&[("date", revision.date.as_ref()), ("answer", revision.answer.as_ref())]);
}

fn samples(model: &Model, findings: &mut Findings) {
    for (id, sample) in &model.samples.samples {
        let mut pairs = Pairs { what: kind::named("sample", id), findings };
        pairs.row(&[("asked", sample.asked.as_ref()), ("due", sample.due.as_ref())]);
        let made = [("asked", &sample.asked), ("received", &sample.received), ("measured", &sample.measured)];
        pairs.row(&made.map(|(key, date)| (key, date.as_ref())));
    }
    for (id, comment) in &model.samples.comments {
        let Some(sample) = comment.sample.as_ref().and_then(|sample| model.samples.samples.get(&sample.value)) else {
            continue;
        };
        let mut pairs = Pairs { what: kind::named("comment", id), findings };
        let came = say!(KEY_OF, key = "received", what = kind::named("sample", &sample.entry.id.value));
        pairs.hold((came, sample.received.as_ref()), ("date", comment.date.as_ref()));
    }
}

fn submissions(id: &str, approval: &Approval, findings: &mut Findings) {
    let mut pairs = Pairs { what: kind::named("approval", id), findings };
    let mut all: Vec<(u32, &Submission)> =
        approval.submissions.iter().enumerate().map(|(at, one)| (approval.number(at, one), one)).collect();
    all.sort_by_key(|(number, _)| *number);
    all.retain(|(_, one)| one.date.is_some());
    let named = |number: u32| say!(SUBMISSION, number);
    for pair in all.windows(2) {
        if let [(number, first), (_, later)] = pair {
            pairs.hold((named(*number), first.date.as_ref()), ("date", later.date.as_ref()));
        }
    }
    if let Some((number, last)) = all.last() {
        pairs.hold((named(*number), last.date.as_ref()), ("until", approval.until.as_ref()));
    }
    if let Some(sealed) = &approval.sealed {
        pairs.row(&[("date", sealed.date.as_ref()), ("until", sealed.until.as_ref())]);
    }
}

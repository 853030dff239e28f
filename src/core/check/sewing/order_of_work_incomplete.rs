//! Rule: the order of work leaves a step out, or has it twice.

use std::collections::{BTreeMap, BTreeSet};

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::mention::{Wanted, known};
use crate::model::{Article, Deed, EdgeFinishKind, JointKind, Model, Stage, Step};
use crate::source::{Edit, Help, Span, nearest};
use crate::words::{Phrase, say, words};

use super::sound::sound;
use super::text;

/// Steps missing from the order of work, or in it twice.
pub const RULE: Rule = Rule {
    code: "order-of-work-incomplete",
    family: "sewing",
    severity: Severity::Should,
    summary: "the order of work leaves a step out, or has it twice",
    explanation: "The line is set up by the order of work: every seam, opening (where it is closed), stitch, \
                  attachment, finish and step stands in it once. What is left out is done by whoever notices, in the \
                  wrong place: an opening stays open, a part is never turned. A prototype can be made while it is open; from \
                  the counter sample on it is a must. Edges left raw need no step.",
    failing: "[seam.top]\na = \"FRONT:nw-ne\"\nb = \"BACK:ne-nw\"\n[seam.side]\na = \"FRONT:ne-se\"\nb = \
              \"BACK:nw-sw\"\n[work]\norder = [\"top\"]",
    passing: "[seam.top]\na = \"FRONT:nw-ne\"\nb = \"BACK:ne-nw\"\n[seam.side]\na = \"FRONT:ne-se\"\nb = \
              \"BACK:nw-sw\"\n[work]\norder = [\"top\", \"side\"]",
    source: "common practice",
};

words! {
    TWICE "order-of-work-incomplete.twice" = "{step} is listed twice in the order of work";
    AGAIN "order-of-work-incomplete.again" = "again";
    FIRST_HERE "order-of-work-incomplete.first-here" = "first here";
    TAKE_OUT "order-of-work-incomplete.take-out" = "take one \"{step}\" out; for two steps that are alike, declare two [step.ID]";
    NOT_STATED "order-of-work-incomplete.not-stated" = "the order of work is not stated";
    LEFT_OUT "order-of-work-incomplete.left-out" = "the order of work leaves out {names}";
    NOT_IN "order-of-work-incomplete.not-in" = "{id} is not in it";
    THE_ORDER "order-of-work-incomplete.the-order" = "the order of work";
    WRITE_ALL "order-of-work-incomplete.write-all" = "write under [work], in the order in which it is sewn: {steps}";
    ADD "order-of-work-incomplete.add" = "add {names}";
}

/// Reports both.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    twice(context, findings);
    left_out(context, findings);
}

fn twice(context: &Context<'_>, findings: &mut Findings) {
    let mut seen: BTreeMap<&str, Span> = BTreeMap::new();
    for step in &context.model.work.order {
        let Some(first) = seen.insert(&step.value, step.span) else { continue };
        // Two things of one id are a finding of their own.
        if context.model.is_misnamed(&step.value) {
            continue;
        }
        let mut finding = Finding::new(&RULE, say!(TWICE, step = &step.value))
            .at(step.span, AGAIN)
            .at(first, FIRST_HERE)
            .help(say!(TAKE_OUT, step = &step.value));
        finding.severity = Severity::Must;
        findings.push(finding);
    }
}

/// The last kind of step that is done before a part is turned.
const FLAT: u8 = 3;

/// Everything that needs a place in the order, each kind in the order of ids: stitching on flat pieces first, then seams,
/// turning, filling, openings, and what comes after the filling last.
fn steps<'a>(context: &Context<'a>) -> Vec<(&'a str, Span, u8)> {
    let model = context.model;
    let joints = model.joints.iter().map(|(id, one)| {
        let rank = if one.kind == JointKind::Opening { 6 } else { 2 };
        (id.as_str(), one.entry.span(), rank)
    });
    let finished = |kind: Option<EdgeFinishKind>| kind != Some(EdgeFinishKind::Raw);
    let finishes = model.edge_finishes.iter().filter(|(_, one)| finished(one.kind.as_ref().map(|kind| kind.value)));
    let steps = model.steps.iter().map(|(id, one)| {
        let rank = match one.deed {
            Deed::Turn => 4,
            Deed::Fill | Deed::Insert => 5,
            // An eye is locked from inside, so before its part is filled.
            Deed::Other if fits_eye(model, one) => 4,
            Deed::Other => 7,
        };
        (id.as_str(), one.entry.span(), rank)
    });
    let mut all: Vec<(&str, Span, u8)> =
        model.topstitches.iter().map(|(id, one)| (id.as_str(), one.entry.span(), 0)).collect();
    all.extend(joints);
    all.extend(finishes.map(|(id, one)| (id.as_str(), one.entry.span(), 3)));
    all.extend(model.attaches.iter().map(|(id, one)| (id.as_str(), one.entry.span(), 3)));
    all.extend(steps);
    all.sort_by_key(|(_, _, rank)| *rank);
    all
}

fn fits_eye(model: &Model, step: &Step) -> bool {
    let trim = step.trim.as_ref().and_then(|trim| model.articles.get(&trim.value));
    trim.is_some_and(Article::is_eye)
}

/// What is in the order, or is meant there by a name that is misspelt: that is a finding of its own.
fn listed<'a>(context: &Context<'a>, all: &[(&'a str, Span, u8)]) -> BTreeSet<&'a str> {
    let known = known(context.model, Wanted::Work);
    let order = context.model.work.order.iter().map(|step| step.value.as_str());
    let mut listed: BTreeSet<&str> = order.collect();
    let strange: Vec<&str> = listed.iter().copied().filter(|id| !known.contains(id)).collect();
    for id in strange {
        let free: Vec<&str> = all.iter().map(|(id, ..)| *id).filter(|id| !listed.contains(id)).collect();
        listed.extend(nearest(id, free));
    }
    listed
}

fn left_out(context: &Context<'_>, findings: &mut Findings) {
    let work = &context.model.work;
    let all = steps(context);
    let listed = listed(context, &all);
    let missing: Vec<&(&str, Span, u8)> =
        all.iter().filter(|(id, _, _)| !listed.contains(id) && !context.model.is_misnamed(id)).collect();
    if missing.is_empty() {
        return;
    }
    let names: Vec<String> = missing.iter().map(|(id, _, _)| (*id).to_string()).collect();
    let message = match work.order.is_empty() {
        true => Phrase::from(NOT_STATED),
        false => say!(LEFT_OUT, names = text::list(&names)),
    };
    let mut finding = Finding::new(&RULE, message);
    for (id, span, _) in missing.iter().take(3) {
        finding = finding.at(*span, say!(NOT_IN, id));
    }
    if let Some(span) = work.span {
        finding = finding.at(span, THE_ORDER);
    }
    if Stage::of(context.model) >= Stage::CounterSample {
        finding = finding.pressing(Stage::place(context.model));
    }
    let steps = completed(context, &all, &listed);
    findings.push(match work.order.is_empty() {
        true => {
            let steps = text::order(&sound(context, steps));
            let edit = work.span.filter(|_| work.list.is_none()).map(|span| Edit::line(span, steps.clone()));
            finding.help(Help::with(say!(WRITE_ALL, steps), edit))
        }
        false => finding.help(text::reordered(context, steps, || say!(ADD, names = names.join(", ")))),
    });
}

/// The order as it stands, with what is missing put before the first step of a later kind; turning and what follows also
/// behind the last step of an earlier kind, since other parts may be closed before.
fn completed<'a>(context: &Context<'a>, all: &[(&'a str, Span, u8)], listed: &BTreeSet<&str>) -> Vec<&'a str> {
    let ranks: BTreeMap<&str, u8> = all.iter().map(|(id, _, rank)| (*id, *rank)).collect();
    let mut steps: Vec<&str> = context.model.work.order.iter().map(|step| step.value.as_str()).collect();
    for (id, _, rank) in all.iter().filter(|(id, _, _)| !listed.contains(id)) {
        let earlier = |one: &&str| ranks.get(*one).is_some_and(|other| other < rank && *rank > FLAT);
        let later = |one: &&str| ranks.get(*one).is_some_and(|other| other > rank && *other > FLAT);
        let from = steps.iter().rposition(earlier).map_or(0, |last| last + 1);
        let at = steps.iter().skip(from).position(later).map_or(steps.len(), |at| from + at);
        steps.insert(at, id);
    }
    steps
}

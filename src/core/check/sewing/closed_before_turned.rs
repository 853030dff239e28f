//! Rule: a part is turned or filled when none of its openings is open any more.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Shell;
use crate::model::{Deed, JointKind, Step};
use crate::source::Span;
use crate::words::{say, words};

use super::closed::{closing, part, places};
use super::text;

/// A part that is closed before it is turned or filled.
pub const RULE: Rule = Rule {
    code: "closed-before-turned",
    family: "sewing",
    severity: Severity::Must,
    summary: "a part is turned or filled when none of its openings is open any more",
    explanation: "A part is sewn inside out, turned through an opening, filled through it and then closed. An opening \
                  stands in the order of work where it is closed, so turning and filling come before at least one of \
                  them. Zips and other closings that open again do not count as closed.",
    failing: "[work]\norder = [\"top\", \"side\", \"back\", \"turn\", \"fill\"]  # back is the opening",
    passing: "[work]\norder = [\"top\", \"side\", \"turn\", \"fill\", \"back\"]  # back is the opening",
    source: "common practice",
};

words! {
    INSERTED "closed-before-turned.inserted" = "{part} is put in in step {id}, but nothing is open any more to take it";
    ALL_CLOSED "closed-before-turned.all-closed" = "everything else is closed by now";
    CLOSES_LAST "closed-before-turned.closes-last" = "{closing} closes the last";
    TURN_OPENING "closed-before-turned.turn-opening" = "{part} is turned in step {id}, but its opening {closing} is closed before";
    FILL_OPENING "closed-before-turned.fill-opening" = "{part} is filled in step {id}, but its opening {closing} is closed before";
    FILL_SEAM "closed-before-turned.fill-seam" = "{part} is filled in step {id}, but it is closed with {closing} before, and has no opening";
    TURN_SEAM "closed-before-turned.turn-seam" = "{part} is turned in step {id}, but it is closed with {closing} before, and has no opening";
    CLOSED_NOW "closed-before-turned.closed-now" = "{part} is closed by now";
    CLOSES "closed-before-turned.closes" = "{closing} closes it";
    MAKE_OPENING "closed-before-turned.make-opening" = "part of a seam stays open: name its ends and declare an [opening.ID] there, closed after {id}; or {moved}";
    NO_OPENING "closed-before-turned.no-opening" = "{part} is filled with {id}, but every edge of it is a seam: it has no opening";
    NO_WAY "closed-before-turned.no-way" = "how does it get in?";
    DECLARE_OPENING "closed-before-turned.declare-opening" = "name two points on a seam of {part}, and declare the stretch between them as [opening.ID] with its `close`";
}

/// Reports turning and filling steps that come too late, and filled shells that have no opening at all.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let places = places(context);
    for (id, step) in &context.model.steps {
        if let Some(found) = late(context, &places, id, step) {
            findings.push(found);
        }
    }
    never_open(context, findings);
}

fn late<'a>(
    context: &Context<'a>,
    places: &BTreeMap<&'a str, (usize, Span)>,
    id: &'a str,
    step: &Step,
) -> Option<Finding> {
    let part = part(context, step)?;
    let declared = context.model.parts.get(part)?;
    let (at, span) = *places.get(id)?;
    let shells = || context.assembly.sewing.shells.iter().filter(|shell| !shell.joints.is_empty());
    match step.deed {
        Deed::Turn | Deed::Fill => declared.uses.iter().find_map(|usage| {
            let key = (part.to_string(), usage.name.clone());
            let own = || shells().filter(|shell| shell.parts.contains(&key));
            let closing = shut(context, places, at, own())?;
            if own().any(|shell| caught_first(context, places, shell, closing)) {
                return None;
            }
            Some(finding(context, places, (id, span), step, part, closing))
        }),
        // The part named is what is put in: something else must still be open to take it.
        Deed::Insert => {
            let others =
                shells().filter(|shell| shell.form.is_some() && shell.parts.iter().all(|(name, _)| name != part));
            let closing = shut(context, places, at, others)?;
            Some(nothing_open(context, places, (id, span), part, closing))
        }
        Deed::Other => None,
    }
}

/// The step that closes the last of these shells, if all of them are closed at this place of the order.
fn shut<'a>(
    context: &Context<'a>,
    places: &BTreeMap<&'a str, (usize, Span)>,
    at: usize,
    shells: impl Iterator<Item = &'a Shell>,
) -> Option<&'a str> {
    let mut last = None;
    for shell in shells {
        last = last.max(Some(closing(context, places, shell).filter(|(place, _)| *place < at)?));
    }
    last.map(|(_, id)| id)
}

/// Whether a seam catches this shell before the seam that closes it is sewn: that is a finding of its own, and cured with it.
fn caught_first(context: &Context<'_>, places: &BTreeMap<&str, (usize, Span)>, shell: &Shell, closing: &str) -> bool {
    let place = |id: &str| places.get(id).map(|(at, _)| *at);
    let own = |n: &usize| context.assembly.joints.get(*n).is_some_and(|joint| joint.joint == closing);
    let seam = context.model.joints.get(closing).is_some_and(|joint| joint.kind == JointKind::Seam);
    seam && shell.joints.iter().any(own)
        && context.assembly.joints.iter().enumerate().any(|(n, joint)| {
            let caught = || joint.caught().flat_map(|side| &side.runs).any(|run| shell.faces.contains(&run.instance));
            !shell.joints.contains(&n) && place(&joint.joint) < place(closing) && caught()
        })
}

fn nothing_open<'a>(
    context: &Context<'a>,
    places: &BTreeMap<&str, (usize, Span)>,
    (id, span): (&'a str, Span),
    part: &str,
    closing: &str,
) -> Finding {
    let message = say!(INSERTED, part, id);
    let finding = Finding::new(&RULE, message).at(span, ALL_CLOSED);
    let finding = match places.get(closing) {
        Some((_, place)) => finding.at(*place, say!(CLOSES_LAST, closing)),
        None => finding,
    };
    finding.help(text::moved_before(context, id, closing))
}

fn finding<'a>(
    context: &Context<'a>,
    places: &BTreeMap<&str, (usize, Span)>,
    (id, span): (&'a str, Span),
    step: &Step,
    part: &str,
    closing: &str,
) -> Finding {
    let is_opening = context.model.joints.get(closing).is_some_and(|joint| joint.kind == JointKind::Opening);
    let word = match (step.deed == Deed::Turn, is_opening) {
        (true, true) => TURN_OPENING,
        (true, false) => TURN_SEAM,
        (false, true) => FILL_OPENING,
        (false, false) => FILL_SEAM,
    };
    let finding = Finding::new(&RULE, say!(word, part, id, closing)).at(span, say!(CLOSED_NOW, part));
    let finding = match places.get(closing) {
        Some((_, place)) => finding.at(*place, say!(CLOSES, closing)),
        None => finding,
    };
    match is_opening {
        true => finding.help(text::moved_before(context, id, closing)),
        false => finding.help(say!(MAKE_OPENING, id, moved = text::moved_before(context, id, closing).text)),
    }
}

/// A part that holds a filling but has no way in.
fn never_open(context: &Context<'_>, findings: &mut Findings) {
    let assembly = context.assembly;
    for (id, stuffing) in context.model.stuffings.iter().filter(|_| assembly.sewing.whole) {
        let Some(part) = &stuffing.part else { continue };
        let mut own = assembly
            .sewing
            .shells
            .iter()
            .filter(|shell| !shell.joints.is_empty() && shell.parts.iter().any(|(name, _)| *name == part.value));
        let shut = |shell: &Shell| {
            let openings =
                shell.joints.iter().filter_map(|n| context.model.joints.get(&assembly.joints.get(*n)?.joint));
            shell.boundary.is_empty() && !openings.into_iter().any(|joint| joint.kind == JointKind::Opening)
        };
        if let Some(first) = own.next()
            && shut(first)
            && own.all(shut)
        {
            findings.push(
                Finding::new(&RULE, say!(NO_OPENING, part = &part.value, id))
                    .at(stuffing.entry.span(), NO_WAY)
                    .help(say!(DECLARE_OPENING, part = &part.value)),
            );
        }
    }
}

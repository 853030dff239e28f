//! Rule: the place at which something is caught is not marked with a notch.

use std::collections::{BTreeMap, BTreeSet};

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::NotchPlace;
use crate::model::assembly::{Resolved, Run, Side};
use crate::source::{Edit, Help};
use crate::words::{Phrase, say, words};

/// An ear without a mark where it goes.
pub const RULE: Rule = Rule {
    code: "caught-without-notch",
    family: "sewing",
    severity: Severity::Should,
    summary: "the place at which something is caught is not marked with a notch",
    explanation: "What is caught along a stretch of a seam is laid between two points of it. The machinist sees neither point on \
                  the fabric, only notches: without them each ear and each fin sits a little elsewhere. Ends of the seam and \
                  corners show by themselves.",
    failing: "[piece.HEAD]\n[seam.crown]\na = \"HEAD.l:n-e1-e2-s\"\nbetween = [\"EAR.f:r-s\"]\non = \"HEAD.l:e1-e2\"",
    passing: "[piece.HEAD]\nnotches = [\"e1\", \"e2\"]\n[seam.crown]\na = \"HEAD.l:n-e1-e2-s\"\nbetween = [\"EAR.f:r-s\"]\non = \
              \"HEAD.l:e1-e2\"",
    source: "common practice",
};

words! {
    MESSAGE "caught-without-notch.message" = "{joint} catches something from {from} to {to}, and {points} has no notch";
    BOTH "caught-without-notch.both" = "{joint} catches something from {from} to {to}, and neither of them has a notch";
    SEVERAL "caught-without-notch.several" = "{joint} catches something at {count} places, and no notch is at {points}";
    HERE "caught-without-notch.here" = "found by what?";
    PIECE "caught-without-notch.piece" = "no notch here";
    HELP "caught-without-notch.help" = "add to [piece.{piece}]: notches = [{notches}]";
    JOIN "caught-without-notch.join" = "add {notches} to the notches of [piece.{piece}]";
}

/// A point that turns by more, degrees, is a corner and shows by itself (*common practice*).
const CORNER: f64 = 20.0;

/// A stretch along which something is caught, and which of its ends nothing shows.
struct Blind<'a> {
    on: &'a Side,
    from: &'a str,
    to: &'a str,
    bare: Vec<&'a str>,
}

/// Reports each seam once for each piece that lacks notches.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for joint in &context.assembly.joints {
        let mut pieces: BTreeMap<&str, Vec<Blind<'_>>> = BTreeMap::new();
        for on in joint.stretches() {
            if let Some((piece, blind)) = blind(context, joint, on).filter(|(_, blind)| !blind.bare.is_empty()) {
                pieces.entry(piece).or_default().push(blind);
            }
        }
        for (piece, blind) in pieces {
            if told.insert((joint.joint.as_str(), piece)) {
                findings.extend(finding(context, &joint.joint, piece, &blind));
            }
        }
    }
}

/// The piece a stretch begins on, and what nothing shows of its ends.
fn blind<'a>(context: &Context<'a>, joint: &Resolved, on: &'a Side) -> Option<(&'a str, Blind<'a>)> {
    let (first, last) = (*on.runs.first()?, *on.runs.last()?);
    let ends = [(first, true), (last, false)];
    let bare = ends.iter().filter_map(|(run, from)| bare(context, joint, *run, *from)).collect();
    let (from, to) = named(context, first, true).zip(named(context, last, false))?;
    let piece = context.assembly.instances.get(first.instance)?.piece.as_str();
    Some((piece, Blind { on, from, to, bare }))
}

fn finding(context: &Context<'_>, joint: &str, id: &str, blind: &[Blind<'_>]) -> Option<Finding> {
    let mut points: Vec<&str> = Vec::new();
    for point in blind.iter().flat_map(|one| &one.bare) {
        if !points.contains(point) {
            points.push(point);
        }
    }
    let message = match blind {
        [] => return None,
        [Blind { from, to, bare, .. }] if bare.len() == 1 => {
            say!(MESSAGE, joint, from = *from, to = *to, points = bare[0])
        }
        [Blind { from, to, .. }] => say!(BOTH, joint, from = *from, to = *to),
        several => say!(SEVERAL, joint, count = several.len(), points = Phrase::and(points.iter().copied())),
    };
    let mut finding = blind.iter().fold(Finding::new(&RULE, message), |finding, one| finding.at(one.on.span, HERE));
    let notches = points.iter().map(|point| format!("\"{point}\"")).collect::<Vec<_>>().join(", ");
    let Some(piece) = context.model.pieces.get(id) else { return Some(finding) };
    finding = finding.at(piece.entry.span(), PIECE);
    let instance = |run: Option<&Run>| run.map(|run| run.instance);
    let on_one = blind.iter().all(|one| instance(one.on.runs.first()) == instance(one.on.runs.last()));
    Some(if piece.notches.list.is_empty() && on_one {
        let edit = Edit::line(piece.entry.span(), format!("notches = [{notches}]"));
        finding.help(Help::with(say!(HELP, piece = id, notches), edit))
    } else {
        finding.help(say!(JOIN, piece = id, notches))
    })
}

/// The name of the first or the last point of a run.
fn named<'a>(context: &Context<'a>, run: Run, from: bool) -> Option<&'a str> {
    let (first, last) = run.ends(&context.assembly.outlines, &context.assembly.instances)?;
    Some(if from { first } else { last })
}

/// The first or the last point of a run, if nothing shows it: no notch, no corner, no end of the seam.
fn bare<'a>(context: &Context<'a>, joint: &Resolved, run: Run, from: bool) -> Option<&'a str> {
    let assembly = context.assembly;
    let point = named(context, run, from)?;
    let ends = [joint.a.runs.first().map(|run| (*run, true)), joint.a.runs.last().map(|run| (*run, false))];
    let ends = ends.into_iter().flatten();
    let at_end =
        ends.into_iter().any(|(end, first)| end.instance == run.instance && named(context, end, first) == Some(point));
    let id = &assembly.instances.get(run.instance)?.piece;
    let piece = context.model.pieces.get(id)?;
    let outline = assembly.outlines.any(id)?;
    let at = outline.point(point)?;
    let written = piece.notches.list.iter().any(|notch| match &notch.place {
        NotchPlace::Point(one) => one.on(outline) == Some(point),
        NotchPlace::Along { .. } => false,
    });
    let drawn = outline.notches.iter().any(|notch| notch.at.distance(at) < 0.5);
    let corner = outline.turn_at(point).is_some_and(|turn| turn.abs() > CORNER);
    (!at_end && !written && !drawn && !corner).then_some(point)
}

//! Rule: an edge is neither sewn nor left open, attached, caught or finished.

use std::collections::{BTreeMap, BTreeSet};

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::Run;
use crate::words::{Phrase, say, words};

use super::stretch::{Stretch, partner, stretches};
use super::text;

/// Edges of which nothing is said.
pub const RULE: Rule = Rule {
    code: "edge-not-sewn",
    family: "sewing",
    severity: Severity::Must,
    summary: "an edge is neither sewn nor left open, attached, caught or finished",
    explanation: "Every edge between two neighbouring points of every copy of a piece is either sewn, left as an \
                  opening, sewn onto a line, caught between two others, or finished: if only raw. An edge of which \
                  nothing is said is a forgotten seam.",
    failing: "[piece.TAB]\noutline = { shape = \"rectangle\", width = \"40 mm\", height = \"60 mm\" }\nraw = [\"nw-sw\", \
              \"ne-se\", \"nw-ne\"]",
    passing: "[piece.TAB]\noutline = { shape = \"rectangle\", width = \"40 mm\", height = \"60 mm\" }\nraw = [\"nw-sw\", \
              \"ne-se\", \"nw-ne\", \"sw-se\"]",
    source: "common practice",
};

words! {
    BOTH_COPIES "edge-not-sewn.both-copies" = "{piece}:{edges}, on both copies,";
    ALL_COPIES "edge-not-sewn.all-copies" = "{piece}:{edges}, on all {total} copies,";
    ON_COPIES "edge-not-sewn.on-copies" = "{piece}:{edges}, on {copies},";
    MESSAGE "edge-not-sewn.message" = "{of} is neither sewn, left open, attached, caught nor finished";
    NOTHING "edge-not-sewn.nothing" = "nothing is said of {edges}";
    OUTLINE "edge-not-sewn.outline" = "its outline";
    WRITE_RAW "edge-not-sewn.write-raw" = "if it stays as cut, write raw = [{paths}] in [piece.{piece}]";
    ADD_RAW "edge-not-sewn.add-raw" = "if it stays as cut, add {paths} to `raw` in [piece.{piece}]";
}

/// Reports them, all copies of a piece together.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let all = stretches(context);
    let mut by_piece: BTreeMap<&str, Vec<&Stretch>> = BTreeMap::new();
    for stretch in &all {
        by_piece.entry(&context.assembly.instances[stretch.instance].piece).or_default().push(stretch);
    }
    for (piece, stretches) in by_piece {
        // A piece named where something could not be found: its edges may be meant there.
        if !context.assembly.sewing.unsure.contains(piece) {
            findings.push(finding(context, piece, &stretches, &all));
        }
    }
}

fn finding(context: &Context<'_>, piece: &str, own: &[&Stretch], all: &[Stretch]) -> Finding {
    let (edges, copies) = edges(context, own);
    let total = context.assembly.instances.iter().filter(|one| one.piece == piece).count();
    let of = match copies.as_slice() {
        [_] if total > 1 => Phrase::from(format!("{}:{edges}", copies.join(", "))),
        [_] => Phrase::from(format!("{piece}:{edges}")),
        _ if copies.len() == total && total == 2 => say!(BOTH_COPIES, piece, edges = &edges),
        _ if copies.len() == total => say!(ALL_COPIES, piece, edges = &edges, total),
        _ => say!(ON_COPIES, piece, edges = &edges, copies = text::list(&copies)),
    };
    let message = say!(MESSAGE, of);
    let declared = context.model.pieces.get(piece);
    let mut finding = Finding::new(&RULE, message);
    if let Some(declared) = declared {
        let span = declared.outline.as_ref().map_or(declared.entry.span(), |outline| outline.span);
        finding = finding.at(declared.entry.span(), say!(NOTHING, edges = &edges));
        if span != declared.entry.span() {
            finding = finding.at(span, OUTLINE);
        }
    }
    for stretch in own.iter().filter(|stretch| own.first().is_some_and(|first| first.instance == stretch.instance)) {
        if let Some(seam) = partner(context, stretch, all) {
            finding = finding.help(seam);
        }
    }
    finding.help(raw(context, own))
}

/// Unaccounted edges of a piece once each, and the copies they are on.
fn edges(context: &Context<'_>, own: &[&Stretch]) -> (String, Vec<String>) {
    let mut paths: Vec<String> = Vec::new();
    let mut copies: BTreeSet<String> = BTreeSet::new();
    for stretch in own {
        let path = text::path(context, &stretch.runs);
        if !paths.contains(&path) {
            paths.push(path);
        }
        copies.insert(text::instance(context, stretch.instance, false));
    }
    (paths.join(", "), copies.into_iter().collect())
}

fn raw(context: &Context<'_>, own: &[&Stretch]) -> Phrase {
    let piece = own.first().map_or("", |one| context.assembly.instances[one.instance].piece.as_str());
    let written = context.model.pieces.get(piece).map_or(0, |piece| piece.raw.len());
    let mut paths: Vec<String> = Vec::new();
    for runs in own.iter().flat_map(|stretch| parts(context, &stretch.runs)) {
        let path = format!("\"{}\"", text::path(context, &runs));
        if !paths.contains(&path) {
            paths.push(path);
        }
    }
    match written {
        0 => say!(WRITE_RAW, paths = paths.join(", "), piece),
        _ => say!(ADD_RAW, paths = paths.join(", "), piece),
    }
}

/// The parts of a stretch that lie in one row on the outline.
fn parts(context: &Context<'_>, runs: &[Run]) -> Vec<Vec<Run>> {
    let assembly = context.assembly;
    let end = |run: &Run| run.ends(&assembly.outlines, &assembly.instances).unwrap_or_default();
    let mut all: Vec<Vec<Run>> = Vec::new();
    for run in runs {
        match all.last_mut() {
            Some(part) if part.last().is_some_and(|last| end(last).1 == end(run).0) => part.push(*run),
            _ => all.push(vec![*run]),
        }
    }
    all
}

//! Rule: an asymmetric piece is cut several times and never mirrored.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::mention::turns_over;
use crate::model::{Copy, Part, Piece, Use};
use crate::source::Span;
use crate::words::{say, words};

/// A piece that has no counterpart.
pub const RULE: Rule = Rule {
    code: "never-mirrored",
    family: "piece",
    severity: Severity::Must,
    summary: "an asymmetric piece is cut several times and never mirrored",
    explanation: "Fabric has a right side. A left and a right piece of one shape are cut as mirror images, else one of \
                  them can only be sewn in with its wrong side out. Where the names say left and right, it is a `must`; \
                  where only a number of copies is given, a `should`: named copies without `mirrored` are taken as meant.",
    failing: "[piece.SIDE]\ncopies = [\"l\", \"r\"]",
    passing: "[piece.SIDE]\ncopies = [\"l\", \"r mirrored\"]",
    source: "common practice",
};

words! {
    PAIR "never-mirrored.pair" = "piece {id} is not its own mirror image, and {left} and {right} are cut alike";
    NOT_MIRRORED "never-mirrored.not-mirrored" = "not mirrored";
    PIECE "never-mirrored.piece" = "the piece";
    WRITE "never-mirrored.write" = "write {key} = [{list}]";
    COUNTED "never-mirrored.counted" = "piece {id} is not its own mirror image, and all {count} copies of it are cut the same way round";
    NONE_MIRRORED "never-mirrored.none-mirrored" = "none is mirrored";
    IF_LEFT "never-mirrored.if-left" = "if they are left and right, write copies = [\"l\", \"r mirrored\"]";
    ALIKE "never-mirrored.alike" = "if they are meant to be alike, give them names: copies = [\"first\", \"second\"]";
}

/// Accuracy at which a shape counts as its own mirror image, in mm.
const SAME: f64 = 0.05;

/// Reports asymmetric pieces of which every instance is turned the same way.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, piece) in &model.pieces {
        // Of such a fabric a left and a right piece are cut alike, and one is turned over.
        if turns_over(model, piece) {
            continue;
        }
        let mut turned = context.assembly.instances.iter().filter(|one| one.piece == *id).map(|one| one.mirrored);
        let Some(first) = turned.next() else { continue };
        let more = turned.clone().count() > 0;
        if !more || turned.any(|other| other != first) {
            continue;
        }
        // Where a seam shows it already, that finding says more.
        if is_inside_out(context, id) {
            continue;
        }
        let outline = context.assembly.outlines.any(id);
        if outline.is_none_or(|outline| outline.is_symmetric(SAME)) {
            continue;
        }
        let part = piece.part.as_ref().and_then(|part| model.parts.get(&part.value));
        if let Some(finding) = finding(id, piece, part) {
            findings.push(finding);
        }
    }
}

/// Whether a seam would have an instance of the piece the other way round.
fn is_inside_out(context: &Context<'_>, piece: &str) -> bool {
    let assembly = context.assembly;
    let joints = assembly.sewing.inside_out.iter().filter_map(|at| assembly.joints.get(*at));
    let mut runs = joints.flat_map(|joint| joint.a.runs.iter().chain(&joint.b.runs));
    runs.any(|run| assembly.instances.get(run.instance).is_some_and(|one| one.piece == piece))
}

fn finding(id: &str, piece: &Piece, part: Option<&Part>) -> Option<Finding> {
    let copies: Vec<Named<'_>> = piece.copies.iter().map(|Copy { name, span, .. }| (name.as_str(), *span)).collect();
    let uses: Vec<Named<'_>> =
        part.iter().flat_map(|part| &part.uses).map(|Use { name, span, .. }| (name.as_str(), *span)).collect();
    for (key, names) in [("copies", &copies), ("uses", &uses)] {
        if let Some((left, right)) = sides(names) {
            let list: Vec<String> = names
                .iter()
                .map(|(name, _)| format!("\"{name}{}\"", if *name == right.0 { " mirrored" } else { "" }))
                .collect();
            return Some(
                Finding::new(&RULE, say!(PAIR, id, left = left.0, right = right.0))
                    .at(right.1, NOT_MIRRORED)
                    .at(piece.entry.span(), PIECE)
                    .help(say!(WRITE, key, list = list.join(", "))),
            );
        }
    }
    let counted = copies.len() > 1 && copies.iter().all(|(name, _)| name.bytes().all(|byte| byte.is_ascii_digit()));
    if !counted {
        return None;
    }
    let count = copies.len();
    let place = piece.copies_span.unwrap_or(piece.entry.span());
    let mut finding = Finding::new(&RULE, say!(COUNTED, id, count)).at(place, NONE_MIRRORED).help(IF_LEFT).help(ALIKE);
    finding.severity = Severity::Should;
    Some(finding)
}

/// A name of a copy or use, and where it is written.
type Named<'a> = (&'a str, Span);

/// The two names that say left and right, if there are such.
fn sides<'a>(names: &[Named<'a>]) -> Option<(Named<'a>, Named<'a>)> {
    const PAIRS: [(&str, &str); 4] = [("left", "right"), ("l", "r"), ("L", "R"), ("Left", "Right")];
    PAIRS.iter().find_map(|(left, right)| {
        let named = |word: &str| names.iter().copied().find(|(name, _)| name.split('_').any(|part| part == word));
        Some((named(left)?, named(right)?))
    })
}

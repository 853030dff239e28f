//! Rule: the pieces of a stuffed part do not make one closed surface.

use std::collections::{BTreeMap, BTreeSet};

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Form;
use crate::model::assembly::{Run, Shell};
use crate::words::{Phrase, say, words};

use super::text;

/// A stuffed part with a hole in it.
pub const RULE: Rule = Rule {
    code: "hole-in-shell",
    family: "sewing",
    severity: Severity::Must,
    summary: "the pieces of a stuffed part do not make one closed surface",
    explanation: "The pieces, seams and openings of a stuffed part or cover must make one closed surface. That is \
                  counted: points less edges plus pieces of such a surface are 2, or 0 for a ring. Every edge left \
                  over is a hole through which the filling comes out, unless another seam or a line catches it.",
    failing: "[piece.FRONT]\npart = \"body\"\nraw = [\"nw-ne\"]  # body is stuffed",
    passing: "[seam.top]\na = \"FRONT:nw-ne\"\nb = \"BACK:ne-nw\"",
    source: "Euler's polyhedron formula",
};

words! {
    PRODUCT "hole-in-shell.product" = "the product";
    HOLE "hole-in-shell.hole" = "a hole";
    HOLES "hole-in-shell.holes" = "{count} holes";
    COVER "hole-in-shell.cover" = "{shell} has to close round what it holds, but has {holes} along {edges}";
    STUFFED "hole-in-shell.stuffed" = "{shell} is stuffed, but has {holes} along {edges}";
    FINISHED "hole-in-shell.finished" = "finished, so nothing closes it";
    SEW "hole-in-shell.sew" = "sew these edges to something, declare the stretch an opening with its `close`, or write form = \"flat\" for the part if it stays open";
    CLOSED "hole-in-shell.closed" = "has to be closed";
    CAUGHT_EDGES "hole-in-shell.caught-edges" = " + {count} caught edges";
    MISCOUNTED "hole-in-shell.miscounted" = "the seams of {shell} do not make {body}: {points} points − {edges} edges + {pieces} pieces{caught} = {euler}, not {wanted}";
    RING "hole-in-shell.ring" = "a ring";
    CLOSED_BODY "hole-in-shell.closed-body" = "one closed body";
    RING_MEANT "hole-in-shell.ring-meant" = "if it is a ring with one hole through it, write form = \"ring\" for the part; else the ends of two seams are exchanged";
    NO_RING "hole-in-shell.no-ring" = "it closes without a hole through it: leave form = \"ring\" out, or look for the seam that joins the two ends of the ring";
    WRONG_END "hole-in-shell.wrong-end" = "the first ends of both sides of a seam meet, and the last ends: look for a seam whose side b is written from the wrong end, or that joins points which belong apart";
    BODIES "hole-in-shell.bodies" = "{part} falls into {count} bodies, {bodies}";
    ONE_WITH "hole-in-shell.one-with" = "one with {face}";
    JOIN "hole-in-shell.join" = "write the seam that joins them, or make each body a part of its own";
}

/// Reports each surface once; copies and uses of the same pieces say nothing new.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let sewing = &context.assembly.sewing;
    if !sewing.whole {
        return;
    }
    let doubtful = doubtful(context);
    let mut told = BTreeSet::new();
    for shell in sewing.shells.iter().filter(|shell| judged(context, shell)) {
        if shell.faces.iter().any(|face| doubtful.contains(face)) {
            continue;
        }
        if let Some(finding) = judge(context, shell)
            && told.insert(finding.message.clone())
        {
            findings.push(finding);
        }
    }
    bodies(context, &doubtful, findings);
}

/// A shell that has to close. A piece that no seam joins to anything has to only if it is all there is of its part: it
/// may be a patch or an eye.
fn judged(context: &Context<'_>, shell: &Shell) -> bool {
    let alone = || {
        let mut others = context.assembly.sewing.shells.iter().filter(|other| other.parts == shell.parts);
        !others.any(|other| other.faces != shell.faces)
    };
    shell.form.is_some() && (!shell.joints.is_empty() || alone())
}

/// Instances with an edge of which nothing is said, in a seam that is inside out, or in a chain that is not joined:
/// those findings come first.
fn doubtful(context: &Context<'_>) -> BTreeSet<usize> {
    let assembly = context.assembly;
    let open = assembly.sewing.accounts.iter().filter(|(_, account)| account.is_empty()).map(|((face, _), _)| *face);
    let sewn = |n: &usize| {
        let joint = assembly.joints.get(*n);
        joint.into_iter().flat_map(|joint| joint.a.runs.iter().chain(&joint.b.runs)).map(|run| run.instance)
    };
    let turned = assembly.sewing.inside_out.iter().flat_map(sewn);
    let loose = assembly.sewing.loose.iter().flat_map(|loose| [loose.before.0, loose.after.0]);
    let twice =
        assembly.sewing.accounts.iter().filter(|(_, account)| account.joints.len() + account.attached.len() > 1);
    open.chain(turned).chain(loose).chain(twice.map(|((face, _), _)| *face)).collect()
}

fn judge(context: &Context<'_>, shell: &Shell) -> Option<Finding> {
    let held = |run: &(usize, usize)| {
        let account = context.assembly.sewing.accounts.get(run);
        account.is_some_and(|account| !account.joints.is_empty() || !account.attached.is_empty())
    };
    let open: Vec<&Vec<(usize, usize)>> = shell.holes.iter().filter(|hole| !hole.iter().all(held)).collect();
    if !open.is_empty() {
        return Some(leaking(context, shell, &open));
    }
    // A hole that another seam or a line catches all round is closed by it.
    let euler = shell.euler() + shell.holes.len() as i64;
    let wanted = if shell.form == Some(Form::Ring) { 0 } else { 2 };
    (euler != wanted).then(|| miscounted(context, shell, euler, wanted))
}

fn name(shell: &Shell) -> Phrase {
    let names: BTreeSet<Phrase> =
        shell.parts.iter().map(|(part, _)| if part.is_empty() { Phrase::from(PRODUCT) } else { part.into() }).collect();
    text::list(&names.into_iter().collect::<Vec<_>>())
}

/// Edges left over, by piece: `FRONT:nw-ne`.
fn edges(context: &Context<'_>, hole: &[(usize, usize)]) -> Vec<String> {
    let mut by: BTreeMap<usize, Vec<Run>> = BTreeMap::new();
    for (instance, run) in hole {
        by.entry(*instance).or_default().push(Run { instance: *instance, run: *run, forward: true });
    }
    by.values().map(|runs| text::chain(context, runs, false)).collect()
}

fn leaking(context: &Context<'_>, shell: &Shell, open: &[&Vec<(usize, usize)>]) -> Finding {
    let holes: Vec<String> = open.iter().flat_map(|hole| edges(context, hole)).collect();
    let count = match open.len() {
        1 => HOLE.into(),
        count => say!(HOLES, count),
    };
    let word = if shell.form == Some(Form::Cover) { COVER } else { STUFFED };
    let message = say!(word, shell = name(shell), holes = count, edges = text::list(&holes));
    let mut finding = at_part(context, shell, Finding::new(&RULE, message));
    for run in open.iter().flat_map(|hole| hole.iter()).take(3) {
        let account = context.assembly.sewing.accounts.get(run);
        let edging =
            account.and_then(|account| account.finished.first()).and_then(|n| context.assembly.edgings.get(*n));
        if let Some(edging) = edging {
            finding = finding.at(edging.side.span, FINISHED);
        }
    }
    finding.help(SEW)
}

fn at_part(context: &Context<'_>, shell: &Shell, finding: Finding) -> Finding {
    let part = shell.parts.iter().find_map(|(part, _)| context.model.parts.get(part));
    let piece = || {
        let face = shell.faces.first().and_then(|face| context.assembly.instances.get(*face))?;
        context.model.pieces.get(&face.piece)
    };
    let stated = part.and_then(|part| part.form.as_ref()).map(|form| form.span);
    let span = stated.or(part.map(|part| part.entry.span())).or_else(|| piece().map(|piece| piece.entry.span()));
    match span {
        Some(span) => finding.at(span, CLOSED),
        None => finding,
    }
}

/// Closed all round, but not a ball or ring.
fn miscounted(context: &Context<'_>, shell: &Shell, euler: i64, wanted: i64) -> Finding {
    let (points, edges, pieces) = (shell.vertices, shell.edges, shell.faces.len());
    let caught = if shell.holes.is_empty() { Phrase::none() } else { say!(CAUGHT_EDGES, count = shell.holes.len()) };
    let message = say!(
        MISCOUNTED,
        shell = name(shell),
        body = if wanted == 0 { RING } else { CLOSED_BODY },
        points,
        edges,
        pieces,
        caught,
        euler,
        wanted
    );
    let help = match (wanted, euler) {
        (2, 0) => RING_MEANT,
        (0, 2) => NO_RING,
        _ => WRONG_END,
    };
    at_part(context, shell, Finding::new(&RULE, message)).help(help)
}

/// A stuffed part that falls into several closed bodies.
fn bodies(context: &Context<'_>, doubtful: &BTreeSet<usize>, findings: &mut Findings) {
    let sewing = &context.assembly.sewing;
    let mut by: BTreeMap<&(String, String), Vec<&Shell>> = BTreeMap::new();
    for shell in sewing.shells.iter().filter(|shell| shell.form.is_some() && !shell.joints.is_empty()) {
        for part in shell.parts.iter().filter(|(part, _)| !part.is_empty()) {
            by.entry(part).or_default().push(shell);
        }
    }
    let mut told = BTreeSet::new();
    for ((part, _), shells) in by.into_iter().filter(|(_, shells)| shells.len() > 1) {
        if shells.iter().flat_map(|shell| &shell.faces).any(|face| doubtful.contains(face)) || !told.insert(part) {
            continue;
        }
        let first = |shell: &&Shell| {
            shell.faces.first().map(|face| say!(ONE_WITH, face = text::instance(context, *face, false)))
        };
        let bodies: Vec<Phrase> = shells.iter().filter_map(first).collect();
        let message = say!(BODIES, part, count = bodies.len(), bodies = Phrase::list(bodies));
        if let Some(shell) = shells.first() {
            let finding = at_part(context, shell, Finding::new(&RULE, message));
            findings.push(finding.help(JOIN));
        }
    }
}

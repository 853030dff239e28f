//! Rule: the plies of a caught limb are not written as the sewn limb has them.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::assembly::{Caught, Instance, Lie, Limb, Reverse, Run, Side};
use crate::words::Phrase;
use crate::words::{say, words};

use super::text;

/// A limb that would be caught twisted, or with its wrong side out.
pub const RULE: Rule = Rule {
    code: "limb-twisted-at-root",
    family: "sewing",
    severity: Severity::Must,
    summary: "a caught limb is twisted at its root, or has its wrong side out",
    explanation: "A limb is sewn to itself, turned and caught in a seam by both its plies. They meet at both ends of its \
                  root, so their edges begin at the same end; the first ply from the needle faces the needle, the second \
                  faces away from it. Where one edge is written against the other, the sewn limb cannot lie like that. \
                  Where both are written against the seam, the limb has its wrong side out, or its plies are exchanged.",
    failing: "[seam.ear]\na = \"EAR.f:s-k-r\"\nb = \"EAR.b:s-k-r\"\n[seam.head]\na = \"H.f:q-v\"\nbetween = [\"EAR.f:r-s\", \
              \"EAR.b:s-r\"]\nb = \"H.b:q-v\"",
    passing: "[seam.ear]\na = \"EAR.f:s-k-r\"\nb = \"EAR.b:s-k-r\"\n[seam.head]\na = \"H.f:q-v\"\nbetween = [\"EAR.f:r-s\", \
              \"EAR.b:r-s\"]\nb = \"H.b:q-v\"",
    source: "common practice; the edge that is left open of a sewn surface runs round it one way",
};

words! {
    TWISTED "limb-twisted-at-root.twisted" = "{joint} catches a limb twisted: {ply} is written against {other}";
    AGAINST "limb-twisted-at-root.against" = "begins at the other end of the root";
    OTHER_PLY "limb-twisted-at-root.other-ply" = "the other ply";
    WRITE "limb-twisted-at-root.write" = "write `{edge}`";
    INWARD "limb-twisted-at-root.inward" = "{joint} catches a turned limb with its wrong side out: {ply} would face away from the needle, {other} towards it";
    FIRST_PLY "limb-twisted-at-root.first-ply" = "nearest to the needle";
    EXCHANGE "limb-twisted-at-root.exchange" = "exchange the two, or write both from the other end: `{ply}` and `{other}`";
    USES "limb-twisted-at-root.uses" = "if it is a left and a right one, write uses = {names} in [part.{part}]";
    COPIES "limb-twisted-at-root.copies" = "if the two plies are cut in pairs, write copies = {names} in [piece.{piece}], and walk both the same way in their seam";
}

/// Reports each limb once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let mut told = BTreeSet::new();
    for limb in &context.assembly.sewing.limbs {
        let Some(joint) = context.assembly.joints.get(limb.joint) else { continue };
        if told.contains(&(&joint.joint, limb.plies)) {
            continue;
        }
        if let Some(finding) = finding(context, limb) {
            told.insert((&joint.joint, limb.plies));
            findings.push(finding);
        }
    }
}

fn finding(context: &Context<'_>, limb: &Limb) -> Option<Finding> {
    let joint = context.assembly.joints.get(limb.joint)?;
    let implied = !joint.usage.is_empty();
    let side = |ply: usize| match joint.between.get(*limb.plies.get(ply)?)? {
        Caught::Side(side) => Some(side),
        Caught::Trim(_) => None,
    };
    let chain = |runs: &[Run]| text::chain(context, runs, implied);
    let turned = |side: &Side| chain(&side.runs.iter().rev().map(|run| run.turned()).collect::<Vec<Run>>());
    match limb.lie {
        Lie::Twisted(odd) => {
            let (odd, other) = (side(odd)?, side(1 - odd)?);
            let message = say!(TWISTED, joint = text::joint(joint), ply = chain(&odd.runs), other = chain(&other.runs));
            let finding = Finding::new(&RULE, message).at(odd.span, AGAINST).at(other.span, OTHER_PLY);
            let finding = copies(context, odd, other).into_iter().fold(finding, Finding::help);
            Some(finding.help(say!(WRITE, edge = turned(odd))))
        }
        Lie::Inward if limb.turned => {
            let (first, second) = (side(0)?, side(1)?);
            let message =
                say!(INWARD, joint = text::joint(joint), ply = chain(&first.runs), other = chain(&second.runs));
            let finding = Finding::new(&RULE, message).at(first.span, FIRST_PLY).at(second.span, OTHER_PLY);
            let image = joint.image == Reverse::Mirrored;
            let finding = image.then(|| uses(context, first)).flatten().into_iter().fold(finding, Finding::help);
            Some(finding.help(say!(EXCHANGE, ply = turned(first), other = turned(second))))
        }
        _ => None,
    }
}

fn of<'a>(context: &Context<'a>, side: &Side) -> Option<&'a Instance> {
    context.assembly.instances.get(side.runs.first()?.instance)
}

/// The uses of the part of a limb with the one that only the mirror image catches mirrored, where none is.
fn uses(context: &Context<'_>, side: &Side) -> Option<Phrase> {
    let one = of(context, side)?;
    let uses = &context.model.parts.get(&one.part)?.uses;
    let plain = uses.len() > 1 && uses.iter().all(|usage| !usage.mirrored);
    let names: Vec<(String, bool)> = uses.iter().map(|usage| (usage.name.clone(), usage.name == one.usage)).collect();
    plain.then(|| say!(USES, names = text::named(&names), part = &one.part))
}

/// The copies of a piece with the second ply mirrored, where both plies are of it and neither is.
fn copies(context: &Context<'_>, odd: &Side, other: &Side) -> Option<Phrase> {
    let (one, other) = (of(context, odd)?, of(context, other)?);
    let piece = context.model.pieces.get(&one.piece).filter(|_| one.piece == other.piece && one.copy != other.copy)?;
    let plain = piece.copies.iter().all(|copy| !copy.mirrored);
    let names: Vec<(String, bool)> =
        piece.copies.iter().map(|copy| (copy.name.clone(), copy.name == one.copy)).collect();
    plain.then(|| say!(COPIES, names = text::named(&names), piece = &one.piece))
}

//! Rule: a limb is caught in a seam before its own seams are sewn.

use std::collections::BTreeSet;

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::JointKind;
use crate::model::assembly::Shell;
use crate::source::{Help, Span};
use crate::words::{say, words};

use super::sound::is_of;
use super::text;

/// A limb that is sewn when it can no longer be.
pub const RULE: Rule = Rule {
    code: "caught-before-sewn",
    family: "sewing",
    severity: Severity::Must,
    summary: "a limb is caught in a seam before its own seams are sewn",
    explanation: "What is caught between the two sides of a seam lies inside the part from then on, and cannot be sewn round \
                  or turned any more. So a limb is sewn, turned and filled first, and the seam that catches it comes later.",
    failing: "[seam.arm]\na = \"ARM.f:s-k-r\"\nb = \"ARM.b:s-k-r\"\n[seam.side]\na = \"F:p-q\"\nbetween = [\"ARM.f:r-s\", \
              \"ARM.b:r-s\"]\nb = \"B:p-q\"\n[work]\norder = [\"side\", \"arm\"]",
    passing: "[seam.arm]\na = \"ARM.f:s-k-r\"\nb = \"ARM.b:s-k-r\"\n[seam.side]\na = \"F:p-q\"\nbetween = [\"ARM.f:r-s\", \
              \"ARM.b:r-s\"]\nb = \"B:p-q\"\n[work]\norder = [\"arm\", \"side\"]",
    source: "common practice",
};

words! {
    MESSAGE "caught-before-sewn.message" = "{catching} catches {part} before {own} sews it";
    HERE "caught-before-sewn.here" = "{part} is inside by now";
    CAUGHT "caught-before-sewn.caught" = "caught here";
    FINISH_FIRST "caught-before-sewn.finish-first" = "put {names} before \"{catching}\" in the order of work";
}

/// Reports each limb and seam once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let assembly = context.assembly;
    let place = |id: &str| context.model.work.order.iter().position(|step| step.value == id);
    let mut told = BTreeSet::new();
    for joint in &assembly.joints {
        let host = joint.a.runs.first().and_then(|run| shell(context, run.instance));
        for run in joint.caught().filter_map(|side| side.runs.first()) {
            let Some(limb) = shell(context, run.instance).filter(|limb| Some(*limb) != host) else { continue };
            let Some(caught) = place(&joint.joint) else { continue };
            let own = limb.joints.iter().filter_map(|n| assembly.joints.get(*n)).map(|own| own.joint.as_str());
            let seams = own.filter(|id| context.model.joints.get(*id).is_some_and(|one| one.kind == JointKind::Seam));
            let late = seams.filter_map(|id| Some((place(id)?, id))).filter(|(at, _)| *at > caught).max();
            let Some((_, own)) = late.filter(|(_, own)| told.insert((joint.joint.as_str(), *own))) else { continue };
            let part = assembly.instances.get(run.instance).map_or("", |one| one.part.as_str());
            let message = say!(MESSAGE, catching = &joint.joint, part, own);
            let mut finding = Finding::new(&RULE, message);
            for (id, label) in [(own, say!(HERE, part)), (joint.joint.as_str(), CAUGHT.into())] {
                finding =
                    written(context, id).into_iter().fold(finding, |finding, span| finding.at(span, label.clone()));
            }
            findings.push(finding.help(finished_first(context, limb, part, &joint.joint)));
        }
    }
}

/// The help that puts every seam, turning and filling of a limb before the seam that catches it.
fn finished_first<'a>(context: &Context<'a>, limb: &Shell, name: &str, catching: &'a str) -> Help {
    let order: Vec<&str> = context.model.work.order.iter().map(|step| step.value.as_str()).collect();
    let at = order.iter().position(|id| *id == catching).unwrap_or(order.len());
    let (before, rest) = order.split_at(at);
    let (limb, rest): (Vec<&str>, Vec<&str>) = rest.iter().partition(|id| is_of(context, limb, name, id));
    let names = limb.iter().map(|id| format!("\"{id}\"")).collect::<Vec<_>>().join(", ");
    let short = || say!(FINISH_FIRST, names = &names, catching);
    text::reordered(context, [before, &limb, &rest].concat(), short)
}

fn shell<'a>(context: &Context<'a>, instance: usize) -> Option<&'a Shell> {
    context.assembly.sewing.shells.iter().find(|shell| shell.faces.contains(&instance))
}

fn written(context: &Context<'_>, id: &str) -> Option<Span> {
    context.model.work.order.iter().find(|step| step.value == id).map(|step| step.span)
}

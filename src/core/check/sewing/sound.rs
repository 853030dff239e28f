//! An order of work that keeps what every other rule of it asks: what is proposed must not break the next one.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::model::assembly::Shell;
use crate::model::{Deed, JointKind};
use crate::source::{FileId, Span};

use super::closed::{closing, part};

/// The same steps with limbs finished before a seam catches them, parts turned before they are filled, and closed after both; what cannot be cured by another order stays.
pub fn sound<'a>(context: &Context<'a>, mut steps: Vec<&'a str>) -> Vec<&'a str> {
    for _ in 0..steps.len() {
        let Some(sorted) = limbs_first(context, &steps) else { break };
        steps = sorted;
    }
    // Each round moves one step to where it stays.
    for _ in 0..steps.len() {
        let Some((step, behind)) = parts(context).find_map(|part| misplaced(context, &steps, part)) else { break };
        steps.retain(|one| *one != step);
        let at = steps.iter().position(|one| *one == behind).map_or(steps.len(), |at| at + 1);
        steps.insert(at, step);
    }
    steps
}

/// The steps with all of one limb before the seam that catches it; none where every limb is finished by then.
fn limbs_first<'a>(context: &Context<'a>, steps: &[&'a str]) -> Option<Vec<&'a str>> {
    let assembly = context.assembly;
    let shell = |instance: usize| assembly.sewing.shells.iter().find(|shell| shell.faces.contains(&instance));
    for joint in &assembly.joints {
        let host = joint.a.runs.first().and_then(|run| shell(run.instance));
        let Some(at) = steps.iter().position(|step| *step == joint.joint) else { continue };
        let (before, rest) = steps.split_at(at);
        for run in joint.caught().filter_map(|side| side.runs.first()) {
            let Some(limb) = shell(run.instance).filter(|limb| Some(*limb) != host) else { continue };
            let name = assembly.instances.get(run.instance).map_or("", |one| one.part.as_str());
            let (own, others): (Vec<&str>, Vec<&str>) = rest.iter().partition(|step| is_of(context, limb, name, step));
            if !own.is_empty() {
                return Some([before, &own, &others].concat());
            }
        }
    }
    None
}

/// Whether a step sews, turns or fills a limb.
pub fn is_of(context: &Context<'_>, limb: &Shell, name: &str, step: &str) -> bool {
    let sewn = limb.joints.iter().filter_map(|n| context.assembly.joints.get(*n)).any(|joint| joint.joint == step);
    let worked = context.model.steps.get(step).filter(|step| matches!(step.deed, Deed::Turn | Deed::Fill));
    sewn || worked.is_some_and(|step| part(context, step) == Some(name))
}

fn parts<'a>(context: &Context<'a>) -> impl Iterator<Item = &'a str> + use<'a> {
    context.model.parts.keys().map(String::as_str)
}

/// A step of a part that comes too early, and the step it goes behind.
fn misplaced<'a>(context: &Context<'a>, steps: &[&'a str], id: &str) -> Option<(&'a str, &'a str)> {
    let done = |deed: Deed| {
        let is = move |step: &&'a str| {
            context.model.steps.get(*step).is_some_and(|step| step.deed == deed && part(context, step) == Some(id))
        };
        steps.iter().enumerate().filter(move |(_, step)| is(step)).map(|(at, step)| (at, *step))
    };
    let (turn, fill) = (done(Deed::Turn).next(), done(Deed::Fill).next());
    if let (Some((turned, turn)), Some((filled, fill))) = (turn, fill)
        && filled < turned
    {
        return Some((fill, turn));
    }
    let (last, step) = done(Deed::Turn).chain(done(Deed::Fill)).max()?;
    let nowhere = Span { file: FileId(0), start: 0, end: 0 };
    let places: BTreeMap<&str, (usize, Span)> =
        steps.iter().enumerate().map(|(at, step)| (*step, (at, nowhere))).collect();
    let shells = context.assembly.sewing.shells.iter();
    let own = shells.filter(|shell| !shell.joints.is_empty() && shell.parts.iter().any(|(name, _)| name == id));
    let closed = own.filter_map(|shell| closing(context, &places, shell)).find(|(at, _)| *at < last);
    let opening = |id: &str| context.model.joints.get(id).is_some_and(|joint| joint.kind == JointKind::Opening);
    closed.filter(|(_, id)| opening(id)).map(|(_, id)| (id, step))
}

//! Where in the order of work a part is closed for good, and what a step is done to.

use std::collections::BTreeMap;

use crate::check::Context;
use crate::model::assembly::Shell;
use crate::model::{Close, Step};
use crate::source::Span;

/// Closings that open again, as people write them.
const REOPENS: [&str; 10] =
    ["zip", "hook", "button", "snap", "press stud", "popper", "drawstring", "lace", "tie", "buckle"];

/// The part a step is done to: as it says, else the part of the stuffing it fills.
pub fn part<'a>(context: &Context<'a>, step: &'a Step) -> Option<&'a str> {
    let stuffing = || context.model.stuffings.get(&step.stuffing.as_ref()?.value)?.part.as_ref();
    step.part.as_ref().or_else(stuffing).map(|part| part.value.as_str())
}

/// The place of each step in the order of work; of one that is listed twice the first.
pub fn places<'a>(context: &Context<'a>) -> BTreeMap<&'a str, (usize, Span)> {
    let mut places = BTreeMap::new();
    for (n, step) in context.model.work.order.iter().enumerate() {
        places.entry(step.value.as_str()).or_insert((n, step.span));
    }
    places
}

/// The last step that closes a shell, and its place in the order; `None` if it never closes, or its order is unknown.
pub fn closing<'a>(
    context: &Context<'a>,
    places: &BTreeMap<&'a str, (usize, Span)>,
    shell: &Shell,
) -> Option<(usize, &'a str)> {
    let assembly = context.assembly;
    let mut last: Option<(usize, &str)> = None;
    for n in &shell.joints {
        let id = assembly.joints.get(*n)?.joint.as_str();
        if context.model.joints.get(id).is_some_and(|joint| reopens(joint.close.as_ref())) {
            return None;
        }
        last = last.max(Some((places.get(id)?.0, id)));
    }
    for run in &shell.boundary {
        let account = assembly.sewing.accounts.get(run)?;
        let caught = account.joints.first().and_then(|n| assembly.joints.get(*n)).map(|joint| joint.joint.as_str());
        let attached = account.attached.first().and_then(|n| assembly.edgings.get(*n)).map(|one| one.id.as_str());
        let id = caught.or(attached)?;
        last = last.max(Some((places.get(id)?.0, id)));
    }
    last
}

/// Whether an opening can be opened again once it is closed.
pub fn reopens(close: Option<&Close>) -> bool {
    let Some(close) = close else { return false };
    let by = close.by.as_ref().and_then(|by| by.known()).map(|by| by.to_lowercase());
    close.trim.is_some() || by.is_some_and(|by| REOPENS.iter().any(|word| by.contains(word)))
}

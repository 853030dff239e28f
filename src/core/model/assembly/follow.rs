//! Sews in the order of work, and notes chains whose parts are not joined when their turn comes.

use std::collections::BTreeMap;

use crate::model::Model;
use crate::source::Span;

use super::vertices::Vertices;
use super::{Edging, Instance, Outlines, Resolved, Run, Side};

/// A place in a chain whose two ends no earlier step has joined.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loose {
    /// Id of the seam, opening, finish or attachment whose chain it is.
    pub id: String,
    /// Where the stretch before the gap is written.
    pub before_at: Span,
    /// Where the stretch after the gap is written.
    pub after_at: Span,
    /// The end before: instance and point id.
    pub before: (usize, String),
    /// The end after.
    pub after: (usize, String),
    /// Id of the step that joins the two ends later, if one does.
    pub later: Option<String>,
}

/// What is sewn, in the order it is sewn.
enum Step<'a> {
    Joint(&'a Resolved),
    Edging(&'a Edging),
}

impl<'a> Step<'a> {
    fn id(&self) -> &'a str {
        match self {
            Step::Joint(joint) => &joint.joint,
            Step::Edging(edging) => &edging.id,
        }
    }

    fn sides(&self) -> Vec<&'a Side> {
        match self {
            Step::Joint(joint) => joint.sides().collect(),
            Step::Edging(edging) => vec![&edging.side],
        }
    }
}

/// A gap met on the way, before it is known whether it closes later.
struct Gap<'a> {
    time: usize,
    side: &'a Side,
    at: usize,
    ends: (usize, usize),
}

/// Sews in the order of work and notes chains whose parts are not joined when their turn comes.
pub fn follow(
    model: &Model,
    outlines: &Outlines,
    instances: &[Instance],
    joints: &[Resolved],
    edgings: &[Edging],
    vertices: &mut Vertices,
) -> Vec<Loose> {
    let steps = ordered(model, joints, edgings);
    let mut gaps = Vec::new();
    for (time, step) in steps.iter().enumerate() {
        for side in step.sides() {
            gaps.extend(broken(vertices, side).into_iter().map(|(at, ends)| Gap { time, side, at, ends }));
        }
        if let Step::Joint(joint) = step {
            sew(vertices, joint, time);
        }
    }
    let name = |run: &Run, last: bool| {
        let ends = run.ends(outlines, instances).unwrap_or_default();
        (run.instance, if last { ends.1 } else { ends.0 }.to_string())
    };
    let loose = |gap: &Gap<'_>| {
        let (one, next) = (gap.side.runs.get(gap.at)?, gap.side.runs.get(gap.at + 1)?);
        // A chain that only its own sewing joins is joined by no earlier step at all.
        let joined = vertices.joined_at(gap.ends.0, gap.ends.1).and_then(|time| steps.get(time)).map(Step::id);
        let id = steps.get(gap.time)?.id();
        let place = |at: usize| gap.side.places.get(at).copied().unwrap_or(gap.side.span);
        Some(Loose {
            id: id.to_string(),
            before_at: place(gap.at),
            after_at: place(gap.at + 1),
            before: name(one, true),
            after: name(next, false),
            later: joined.filter(|later| *later != id).map(str::to_string),
        })
    };
    gaps.iter().filter_map(loose).collect()
}

/// Junctions of a side whose ends are not joined yet: the run before each, and the two vertices.
fn broken(vertices: &Vertices, side: &Side) -> Vec<(usize, (usize, usize))> {
    let ends = side.runs.iter().zip(side.runs.iter().skip(1)).map(|(a, b)| (vertices.ends(a).1, vertices.ends(b).0));
    ends.enumerate().filter(|(_, (a, b))| !vertices.joined(*a, *b)).collect()
}

/// Everything in the order of work; what the order forgets comes last, in the order of names.
fn ordered<'a>(model: &Model, joints: &'a [Resolved], edgings: &'a [Edging]) -> Vec<Step<'a>> {
    let mut places: BTreeMap<&str, usize> = BTreeMap::new();
    for (n, step) in model.work.order.iter().enumerate() {
        places.entry(&step.value).or_insert(n);
    }
    let mut all: Vec<Step<'a>> = joints.iter().map(Step::Joint).chain(edgings.iter().map(Step::Edging)).collect();
    all.sort_by_key(|step| places.get(step.id()).copied().unwrap_or(usize::MAX));
    all
}

/// Joins the ends of the two sides; inner points too where both sides have the same number of them.
fn sew(vertices: &mut Vertices, joint: &Resolved, time: usize) {
    let (a, b) = (vertices.stops(&joint.a), vertices.stops(&joint.b));
    let (Some(first), Some(last)) = (a.first().zip(b.first()), a.last().zip(b.last())) else { return };
    vertices.join(*first.0, *first.1, time);
    vertices.join(*last.0, *last.1, time);
    if a.len() == b.len() {
        for (one, other) in a.iter().zip(&b) {
            vertices.join(*one, *other, time);
        }
    }
}

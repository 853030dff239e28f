use std::collections::{BTreeMap, BTreeSet};

use crate::model::{Form, JointKind, Model};

use super::vertices::Vertices;
use super::{Caught, Edging, Instance, Outlines, Resolved, Run, Side};

/// What a run is used for.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Account {
    /// Indices of the joints that sew it, as side or caught.
    pub joints: Vec<usize>,
    /// Indices of the edgings that use it up (attachments).
    pub attached: Vec<usize>,
    /// Indices of the edgings that finish it.
    pub finished: Vec<usize>,
}

/// Pieces joined into one surface.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shell {
    /// Parts and uses it is made of.
    pub parts: BTreeSet<(String, String)>,
    /// Its instances.
    pub faces: Vec<usize>,
    /// Its seams and openings.
    pub joints: Vec<usize>,
    /// Points of the sewn surface.
    pub vertices: usize,
    /// Edges of the sewn surface.
    pub edges: usize,
    /// Runs that no seam or opening closes.
    pub boundary: Vec<(usize, usize)>,
    /// What it has to be, if it is to close: filled, ring or cover.
    pub form: Option<Form>,
}

impl Shell {
    /// Vertices − edges + faces: 2 for a ball, 0 for a ring.
    pub fn euler(&self) -> i64 {
        self.vertices as i64 - self.edges as i64 + self.faces.len() as i64
    }
}

/// A place in a chain whose two ends no earlier step has joined.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loose {
    /// The joint whose chain it is.
    pub joint: usize,
    /// Where the chain is written.
    pub span: crate::source::Span,
    /// The end before: instance and point id.
    pub before: (usize, String),
    /// The end after.
    pub after: (usize, String),
    /// The joint that joins the two ends later, if one does.
    pub later: Option<usize>,
}

/// How the product is sewn together.
#[derive(Debug, Clone, Default)]
pub struct Sewing {
    /// Use of every run: by (instance, run). Instances whose outline is not known are absent.
    pub accounts: BTreeMap<(usize, usize), Account>,
    /// Joints whose sides run the same way round their faces, so that one piece is inside out.
    pub inside_out: Vec<usize>,
    /// Chains that are not yet joined where the order of work needs them.
    pub loose: Vec<Loose>,
    /// Surfaces.
    pub shells: Vec<Shell>,
    /// Whether every outline is known and every joint was resolved; else shells are not judged.
    pub whole: bool,
}

impl Sewing {
    /// Follows every seam in the order of work.
    pub fn of(
        model: &Model,
        outlines: &Outlines,
        instances: &[Instance],
        joints: &[Resolved],
        edgings: &[Edging],
    ) -> Sewing {
        let counts: Vec<usize> =
            instances.iter().map(|one| outlines.any(&one.piece).map_or(0, |outline| outline.points.len())).collect();
        let mut vertices = Vertices::new(&counts);
        let loose = follow(model, outlines, instances, joints, &mut vertices);
        let written: BTreeSet<&str> = joints.iter().map(|joint| joint.joint.as_str()).collect();
        Sewing {
            accounts: accounts(&counts, joints, edgings),
            inside_out: (0..joints.len()).filter(|n| inside_out(instances, &joints[*n])).collect(),
            loose,
            shells: shells(model, instances, joints, &counts, &mut vertices),
            whole: counts.iter().all(|count| *count > 0) && written.len() == model.joints.len(),
        }
    }
}

fn accounts(counts: &[usize], joints: &[Resolved], edgings: &[Edging]) -> BTreeMap<(usize, usize), Account> {
    let mut all: BTreeMap<(usize, usize), Account> = BTreeMap::new();
    for (instance, count) in counts.iter().enumerate() {
        for run in 0..*count {
            all.insert((instance, run), Account::default());
        }
    }
    for (n, joint) in joints.iter().enumerate() {
        let caught = joint.between.iter().filter_map(|layer| match layer {
            Caught::Side(side) => Some(side),
            Caught::Trim(_) => None,
        });
        for run in [&joint.a, &joint.b].into_iter().chain(caught).flat_map(|side| &side.runs) {
            all.entry((run.instance, run.run)).or_default().joints.push(n);
        }
    }
    for (n, edging) in edgings.iter().enumerate() {
        for run in &edging.side.runs {
            let account = all.entry((run.instance, run.run)).or_default();
            if edging.joins { account.attached.push(n) } else { account.finished.push(n) }
        }
    }
    all
}

/// Whether a run is walked counter-clockwise round its face, seen from the right side of the material.
fn sense(instances: &[Instance], run: &Run) -> bool {
    run.forward != instances[run.instance].mirrored
}

/// Two sides meet right if they run oppositely round their faces; every run of a side the same way.
fn inside_out(instances: &[Instance], joint: &Resolved) -> bool {
    let Some(first) = joint.a.runs.first().map(|run| sense(instances, run)) else { return false };
    joint.a.runs.iter().any(|run| sense(instances, run) != first)
        || joint.b.runs.iter().any(|run| sense(instances, run) == first)
}

/// First and last vertex of a run as it is walked.
fn ends(vertices: &Vertices, run: &Run) -> (usize, usize) {
    let (start, end) = (vertices.at(run.instance, run.run), vertices.at(run.instance, run.run + 1));
    if run.forward { (start, end) } else { (end, start) }
}

/// Sews in the order of work and notes chains whose parts are not joined when their turn comes.
fn follow(
    model: &Model,
    outlines: &Outlines,
    instances: &[Instance],
    joints: &[Resolved],
    vertices: &mut Vertices,
) -> Vec<Loose> {
    let mut loose = Vec::new();
    for joint in ordered(model, joints) {
        for side in [&joints[joint].a, &joints[joint].b] {
            for pair in side.runs.windows(2) {
                let (before, after) = (ends(vertices, &pair[0]).1, ends(vertices, &pair[1]).0);
                if !vertices.joined(before, after) {
                    let name = |run: &Run, last: bool| (run.instance, end_name(outlines, instances, run, last));
                    loose.push(Loose {
                        joint,
                        span: side.span,
                        before: name(&pair[0], true),
                        after: name(&pair[1], false),
                        later: joiner(vertices, joints, before, after),
                    });
                }
            }
        }
        sew(vertices, &joints[joint]);
    }
    loose
}

/// Joints in the order of work; those the order forgets come last, in the order of their names.
fn ordered(model: &Model, joints: &[Resolved]) -> Vec<usize> {
    let place = |joint: &Resolved| model.work.order.iter().position(|step| step.value == joint.joint);
    let mut all: Vec<usize> = (0..joints.len()).collect();
    all.sort_by_key(|n| (place(&joints[*n]).unwrap_or(usize::MAX), *n));
    all
}

/// The joint that puts two vertices together, if one does by itself.
fn joiner(vertices: &Vertices, joints: &[Resolved], before: usize, after: usize) -> Option<usize> {
    (0..joints.len()).find(|n| {
        let mut trial = vertices.clone();
        sew(&mut trial, &joints[*n]);
        trial.joined(before, after)
    })
}

fn end_name(outlines: &Outlines, instances: &[Instance], run: &Run, last: bool) -> String {
    let outline = outlines.any(&instances[run.instance].piece);
    let count = outline.map_or(1, |outline| outline.points.len().max(1));
    let at = if last == run.forward { run.run + 1 } else { run.run };
    outline.and_then(|outline| outline.points.get(at % count)).map_or(String::new(), |point| point.id.clone())
}

/// Joins the ends of the two sides; inner points too where both sides have the same number of them.
fn sew(vertices: &mut Vertices, joint: &Resolved) {
    let (a, b) = (stops(vertices, &joint.a), stops(vertices, &joint.b));
    let (Some(first), Some(last)) = (pair(a.first(), b.first()), pair(a.last(), b.last())) else { return };
    vertices.join(first.0, first.1);
    vertices.join(last.0, last.1);
    if a.len() == b.len() {
        for (one, other) in a.iter().zip(&b) {
            vertices.join(*one, *other);
        }
    }
}

fn pair(a: Option<&usize>, b: Option<&usize>) -> Option<(usize, usize)> {
    Some((*a?, *b?))
}

/// The vertices a side passes, first to last; a junction between two runs counts once.
fn stops(vertices: &Vertices, side: &Side) -> Vec<usize> {
    let mut all = Vec::new();
    for run in &side.runs {
        let (start, end) = ends(vertices, run);
        if all.is_empty() {
            all.push(start);
        }
        all.push(end);
    }
    all
}

/// Connected surfaces with their counts, after everything is sewn.
fn shells(
    model: &Model,
    instances: &[Instance],
    joints: &[Resolved],
    counts: &[usize],
    vertices: &mut Vertices,
) -> Vec<Shell> {
    let mut group: Vec<usize> = (0..instances.len()).collect();
    for joint in joints {
        let faces: Vec<usize> = joint.a.runs.iter().chain(&joint.b.runs).map(|run| run.instance).collect();
        let least = faces.iter().map(|face| group[*face]).min().unwrap_or(0);
        let old: BTreeSet<usize> = faces.iter().map(|face| group[*face]).collect();
        group.iter_mut().filter(|one| old.contains(one)).for_each(|one| *one = least);
    }
    let names: BTreeSet<usize> = group.iter().copied().collect();
    names
        .into_iter()
        .map(|name| {
            let faces: Vec<usize> = (0..instances.len()).filter(|n| group[*n] == name).collect();
            shell(model, instances, joints, counts, vertices, faces)
        })
        .collect()
}

fn shell(
    model: &Model,
    instances: &[Instance],
    joints: &[Resolved],
    counts: &[usize],
    vertices: &mut Vertices,
    faces: Vec<usize>,
) -> Shell {
    let inside: Vec<usize> = (0..joints.len())
        .filter(|n| joints[*n].a.runs.first().is_some_and(|run| faces.contains(&run.instance)))
        .collect();
    let mut open: BTreeSet<(usize, usize)> =
        faces.iter().flat_map(|face| (0..counts[*face]).map(move |run| (*face, run))).collect();
    let mut edges = 0;
    for n in &inside {
        edges += joined_edges(vertices, &joints[*n]);
        for run in joints[*n].a.runs.iter().chain(&joints[*n].b.runs) {
            open.remove(&(run.instance, run.run));
        }
    }
    let mut roots = BTreeSet::new();
    for face in &faces {
        for point in 0..counts[*face] {
            let vertex = vertices.at(*face, point);
            roots.insert(vertices.root(vertex));
        }
    }
    let parts: BTreeSet<(String, String)> =
        faces.iter().map(|face| (instances[*face].part.clone(), instances[*face].usage.clone())).collect();
    let form = parts.iter().find_map(|(part, _)| form(model, part, joints, &inside));
    Shell {
        parts,
        edges: edges + open.len(),
        vertices: roots.len(),
        boundary: open.into_iter().collect(),
        faces,
        joints: inside,
        form,
    }
}

/// Edges along a joint once its two sides are one line: inner points that are not shared by both sides each add one.
fn joined_edges(vertices: &mut Vertices, joint: &Resolved) -> usize {
    let (a, b) = (stops(vertices, &joint.a), stops(vertices, &joint.b));
    let inner = |stops: &[usize]| stops.len().saturating_sub(2);
    if a.len() == b.len() { inner(&a) + 1 } else { inner(&a) + inner(&b) + 1 }
}

/// What a shell has to be: as its part says, else filled where a zone fills it or an opening is closed for good.
fn form(model: &Model, part: &str, joints: &[Resolved], inside: &[usize]) -> Option<Form> {
    let stated = model.parts.get(part).and_then(|part| part.form.as_ref()).map(|form| form.value);
    if let Some(form) = stated {
        return (form != Form::Flat).then_some(form);
    }
    let zone = model.zones.values().any(|zone| zone.part.as_ref().is_some_and(|one| one.value == part));
    let opening = inside
        .iter()
        .any(|n| model.joints.get(&joints[*n].joint).is_some_and(|joint| joint.kind == JointKind::Opening));
    (zone || opening).then_some(Form::Filled)
}

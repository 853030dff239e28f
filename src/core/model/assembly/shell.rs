//! The surfaces that the sewn pieces make, with their holes and counts.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::{Form, JointKind, Model};

use super::vertices::Vertices;
use super::{Instance, Resolved};

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
    /// Runs that no seam or opening closes: instance and run.
    pub boundary: Vec<(usize, usize)>,
    /// The same runs, sorted into the separate edges that are left: each closed round a hole.
    pub holes: Vec<Vec<(usize, usize)>>,
    /// What it has to be, if it is to close: stuffed, ring or cover.
    pub form: Option<Form>,
}

impl Shell {
    /// Vertices − edges + faces: 2 for a ball, 0 for a ring, one less for each hole.
    pub fn euler(&self) -> i64 {
        self.vertices as i64 - self.edges as i64 + self.faces.len() as i64
    }
}

/// Connected surfaces with their counts, after everything is sewn.
pub fn shells(
    model: &Model,
    instances: &[Instance],
    joints: &[Resolved],
    counts: &[usize],
    vertices: &Vertices,
) -> Vec<Shell> {
    let mut groups = Vertices::new(&[instances.len()]);
    for joint in joints {
        let mut faces = joint.a.runs.iter().chain(&joint.b.runs).map(|run| run.instance);
        if let Some(first) = faces.next() {
            faces.for_each(|face| groups.join(first, face, 0));
        }
    }
    let mut by: BTreeMap<usize, (Vec<usize>, Vec<usize>)> = BTreeMap::new();
    for face in 0..instances.len() {
        by.entry(groups.root(face)).or_default().0.push(face);
    }
    for (n, joint) in joints.iter().enumerate() {
        if let Some(run) = joint.a.runs.first() {
            by.entry(groups.root(run.instance)).or_default().1.push(n);
        }
    }
    let mut all: Vec<Shell> = by
        .into_values()
        .map(|(faces, inside)| shell(model, instances, joints, counts, vertices, faces, inside))
        .collect();
    all.sort_by(|a, b| a.faces.cmp(&b.faces));
    all
}

fn shell(
    model: &Model,
    instances: &[Instance],
    joints: &[Resolved],
    counts: &[usize],
    vertices: &Vertices,
    faces: Vec<usize>,
    inside: Vec<usize>,
) -> Shell {
    let runs = |face: &usize| (0..counts[*face]).map(|run| (*face, run)).collect::<Vec<_>>();
    let mut open: BTreeSet<(usize, usize)> = faces.iter().flat_map(runs).collect();
    let roots: BTreeSet<usize> =
        faces.iter().flat_map(runs).map(|(face, point)| vertices.root(vertices.at(face, point))).collect();
    let mut edges = 0;
    for n in &inside {
        edges += joined_edges(vertices, &joints[*n]);
        for run in joints[*n].a.runs.iter().chain(&joints[*n].b.runs) {
            open.remove(&(run.instance, run.run));
        }
    }
    let parts: BTreeSet<(String, String)> =
        faces.iter().map(|face| (instances[*face].part.clone(), instances[*face].usage.clone())).collect();
    let opening = inside
        .iter()
        .any(|n| model.joints.get(&joints[*n].joint).is_some_and(|joint| joint.kind == JointKind::Opening));
    let form = parts.iter().find_map(|(part, _)| form(model, part, opening));
    let boundary: Vec<(usize, usize)> = open.into_iter().collect();
    Shell {
        parts,
        edges: edges + boundary.len(),
        vertices: roots.len(),
        holes: holes(vertices, &boundary),
        boundary,
        faces,
        joints: inside,
        form,
    }
}

/// Edges along a joint once its two sides are one line. Inner points that both sides share count once, so that each
/// point on the line parts it once.
fn joined_edges(vertices: &Vertices, joint: &Resolved) -> usize {
    let inner = |side| -> Vec<usize> {
        let stops = vertices.stops(side);
        let last = stops.len().saturating_sub(1);
        stops.into_iter().take(last).skip(1).map(|stop| vertices.root(stop)).collect()
    };
    let (a, b) = (inner(&joint.a), inner(&joint.b));
    let mut left: BTreeMap<usize, usize> = BTreeMap::new();
    for stop in &a {
        *left.entry(*stop).or_default() += 1;
    }
    let mut shared = 0;
    for stop in &b {
        if let Some(count) = left.get_mut(stop).filter(|count| **count > 0) {
            *count -= 1;
            shared += 1;
        }
    }
    a.len() + b.len() - shared + 1
}

/// Runs of the boundary grouped by the hole they go round: those that meet at a point belong together.
fn holes(vertices: &Vertices, boundary: &[(usize, usize)]) -> Vec<Vec<(usize, usize)>> {
    let mut sets = Vertices::new(&[boundary.len()]);
    let mut seen: BTreeMap<usize, usize> = BTreeMap::new();
    for (n, (face, run)) in boundary.iter().enumerate() {
        for point in [*run, run + 1] {
            let root = vertices.root(vertices.at(*face, point));
            let other = *seen.entry(root).or_insert(n);
            sets.join(n, other, 0);
        }
    }
    let mut by: BTreeMap<usize, Vec<(usize, usize)>> = BTreeMap::new();
    for (n, run) in boundary.iter().enumerate() {
        by.entry(sets.root(n)).or_default().push(*run);
    }
    let mut all: Vec<Vec<(usize, usize)>> = by.into_values().collect();
    all.sort();
    all
}

/// What a shell has to be: as its part says, else stuffed where a stuffing fills it or an opening is left in it.
fn form(model: &Model, part: &str, opening: bool) -> Option<Form> {
    let stated = model.parts.get(part).and_then(|part| part.form.as_ref()).map(|form| form.value);
    if let Some(form) = stated {
        return (form != Form::Flat).then_some(form);
    }
    let stuffing = model.stuffings.values().any(|stuffing| stuffing.part.as_ref().is_some_and(|one| one.value == part));
    (stuffing || opening).then_some(Form::Stuffed)
}

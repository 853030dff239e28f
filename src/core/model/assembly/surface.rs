//! The sewn surface: what every run is used for, and which seams are inside out.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::Model;

use super::follow::{Loose, follow};
use super::limb::{Limb, Sewn};
use super::resolve::Found;
use super::shell::{Shell, shells};
use super::vertices::Vertices;
use super::{Edging, Instance, Outlines, Resolved};

/// What a run is used for.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Account {
    /// Indices of the joints that sew it, as side or caught; twice the same index if one joint takes it twice.
    pub joints: Vec<usize>,
    /// Indices of the edgings that use it up (attachments).
    pub attached: Vec<usize>,
    /// Indices of the edgings that finish it.
    pub finished: Vec<usize>,
}

impl Account {
    /// Whether nothing at all is done with the run.
    pub fn is_empty(&self) -> bool {
        self.joints.is_empty() && self.attached.is_empty() && self.finished.is_empty()
    }
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
    /// Limbs that are caught by two plies.
    pub limbs: Vec<Limb>,
    /// The point of the sewn surface that each named point of each instance has become: equal numbers are one point.
    pub corners: Vec<Vec<usize>>,
    /// Pieces named where a run could not be found: nothing is said about what is left of them.
    pub unsure: BTreeSet<String>,
    /// Whether every outline is known and every joint was resolved; else shells are not judged.
    pub whole: bool,
}

impl Sewing {
    /// Follows every seam in the order of work.
    pub fn of(model: &Model, outlines: &Outlines, instances: &[Instance], found: &Found) -> Sewing {
        let (joints, edgings) = (found.joints.as_slice(), found.edgings.as_slice());
        let counts: Vec<usize> =
            instances.iter().map(|one| outlines.any(&one.piece).map_or(0, |outline| outline.points.len())).collect();
        let mut vertices = Vertices::new(&counts);
        let loose = follow(model, outlines, instances, joints, edgings, &mut vertices);
        let corner = |(face, count): (usize, &usize)| {
            (0..*count).map(|point| vertices.root(vertices.at(face, point))).collect::<Vec<_>>()
        };
        let shells = shells(model, instances, joints, &counts, &vertices);
        let stops = |side: &_| vertices.stops(side).into_iter().map(|stop| vertices.root(stop)).collect();
        let limbs = Sewn { model, instances, joints, shells: &shells, stops: &stops }.limbs();
        Sewing {
            accounts: accounts(&counts, joints, edgings),
            inside_out: (0..joints.len()).filter(|n| inside_out(instances, &joints[*n])).collect(),
            loose,
            shells,
            limbs,
            corners: counts.iter().enumerate().map(corner).collect(),
            whole: counts.iter().all(|count| *count > 0) && found.unsure.is_empty(),
            unsure: found.unsure.clone(),
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
        for run in joint.sides().flat_map(|side| &side.runs) {
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

/// Two sides meet right if they run oppositely round their faces; every run of a side the same way.
fn inside_out(instances: &[Instance], joint: &Resolved) -> bool {
    let Some(first) = joint.a.runs.first().map(|run| run.counter_clockwise(instances)) else { return false };
    joint.a.runs.iter().any(|run| run.counter_clockwise(instances) != first)
        || joint.b.runs.iter().any(|run| run.counter_clockwise(instances) == first)
}

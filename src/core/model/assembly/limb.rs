//! Limbs that a seam catches by both their plies: how these lie at the root, and which way each of them faces.

use std::collections::BTreeMap;

use crate::model::{Deed, JointKind, Model};

use super::{Caught, Instance, Resolved, Shell, Side};

/// Which way the right side of a layer faces in a seam.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Facing {
    /// Towards the needle.
    Up,
    /// Away from the needle.
    Down,
}

/// How the two plies of a limb are written at its root.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lie {
    /// As a limb lies whose right side is out: the first ply faces the needle, the second faces away from it.
    Outward,
    /// As a limb lies whose right side is in.
    Inward,
    /// One ply is walked against the other: the first or the second of the two.
    Twisted(usize),
}

/// A limb, sewn to itself, that a seam catches by two plies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Limb {
    /// Index of the joint that catches it.
    pub joint: usize,
    /// Its plies among the layers between, in needle order.
    pub plies: [usize; 2],
    /// How they are written.
    pub lie: Lie,
    /// Whether it is sewn and turned right side out before it is caught.
    pub turned: bool,
}

impl Limb {
    /// Which way a layer of its joint faces; none where the layer is not its own, or where that does not follow.
    pub fn facing(&self, layer: usize) -> Option<Facing> {
        let [first, second] = self.plies;
        match self.lie {
            Lie::Outward if self.turned && layer == first => Some(Facing::Up),
            Lie::Outward if self.turned && layer == second => Some(Facing::Down),
            _ => None,
        }
    }
}

/// What limbs are found from.
pub(super) struct Sewn<'a> {
    pub model: &'a Model,
    pub instances: &'a [Instance],
    pub joints: &'a [Resolved],
    pub shells: &'a [Shell],
    /// The vertices a side passes, each as the point it has become.
    pub stops: &'a dyn Fn(&Side) -> Vec<usize>,
}

impl Sewn<'_> {
    /// Every limb, by the joint that catches it.
    pub fn limbs(&self) -> Vec<Limb> {
        (0..self.joints.len()).flat_map(|joint| self.caught_by(joint)).collect()
    }

    fn caught_by(&self, at: usize) -> Vec<Limb> {
        let joint = &self.joints[at];
        let host = joint.a.runs.first().and_then(|run| self.shell_of(run.instance));
        let mut plies: BTreeMap<usize, Vec<(usize, &Side)>> = BTreeMap::new();
        for (layer, caught) in joint.between.iter().enumerate() {
            let Caught::Side(side) = caught else { continue };
            if let Some(shell) = side.runs.first().and_then(|run| self.shell_of(run.instance)) {
                plies.entry(shell).or_default().push((layer, side));
            }
        }
        plies.retain(|shell, _| Some(*shell) != host);
        let limb = |(shell, plies): (usize, Vec<(usize, &Side)>)| {
            let [(first, upper), (second, lower)] = plies.as_slice() else { return None };
            let lie = self.lie(joint.along(*first), upper, lower)?;
            let turned = self.is_turned(&self.shells[shell], &joint.joint);
            Some(Limb { joint: at, plies: [*first, *second], lie, turned })
        };
        plies.into_iter().filter_map(limb).collect()
    }

    fn shell_of(&self, instance: usize) -> Option<usize> {
        self.shells.iter().position(|shell| shell.faces.contains(&instance))
    }

    /// How two plies lie that meet at both ends of the root; none where they do not.
    fn lie(&self, along: &Side, upper: &Side, lower: &Side) -> Option<Lie> {
        let seam = along.runs.first()?.counter_clockwise(self.instances);
        let against = |side: &Side| {
            let first = side.runs.first()?.counter_clockwise(self.instances);
            side.runs.iter().all(|run| run.counter_clockwise(self.instances) == first).then_some(first != seam)
        };
        let lie = match (against(upper)?, against(lower)?) {
            (true, false) => Lie::Outward,
            (false, true) => Lie::Inward,
            (true, true) => Lie::Twisted(1),
            (false, false) => Lie::Twisted(0),
        };
        let (upper, lower) = ((self.stops)(upper), (self.stops)(lower));
        let ends = |stops: &[usize]| Some((*stops.first()?, *stops.last()?));
        let ((start, end), (first, last)) = (ends(&upper)?, ends(&lower)?);
        let met = if let Lie::Twisted(_) = lie { (last, first) } else { (first, last) };
        (start != end && met == (start, end)).then_some(lie)
    }

    /// Whether every seam of a limb is sewn, and the limb then turned, before a seam catches it.
    fn is_turned(&self, limb: &Shell, catching: &str) -> bool {
        let order = &self.model.work.order;
        let place = |id: &str| order.iter().position(|one| one.value == id);
        let seams = limb.joints.iter().map(|n| self.joints[*n].joint.as_str());
        let seams = seams.filter(|id| self.model.joints.get(*id).is_some_and(|one| one.kind == JointKind::Seam));
        let Some(sewn) = seams.map(place).collect::<Option<Vec<usize>>>().and_then(|all| all.into_iter().max()) else {
            return false;
        };
        let Some(caught) = place(catching) else { return false };
        let turns = |id: &str| {
            let step = self.model.steps.get(id).filter(|step| step.deed == Deed::Turn);
            let part = step.and_then(|step| step.part.as_ref());
            part.is_some_and(|part| limb.parts.iter().any(|(name, _)| *name == part.value))
        };
        order.iter().enumerate().any(|(at, one)| sewn < at && at < caught && turns(&one.value))
    }
}

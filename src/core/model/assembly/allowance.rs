//! The allowance along the sides of seams.

use crate::model::{Chain, Joint, Model, PathRef, SeamSide, Stated, Variant};
use crate::units::Quantity;

use super::lengths::sewn_cut;
use super::{Assembly, EdgeAllowance, Run};

impl Assembly {
    /// The allowance of a run of the layer that is sewn.
    pub fn allowance(&self, model: &Model, run: &Run, size: &str) -> Option<&EdgeAllowance> {
        let id = &self.instances.get(run.instance)?.piece;
        let cut = sewn_cut(model.pieces.get(id)?)?;
        let (from, to) = Run { forward: true, ..*run }.ends(&self.outlines, &self.instances)?;
        self.edges.get(id, size)?.between(&cut.entry.id.value, from, to)
    }

    /// What is stated of the allowance along one side of a seam, in the order of its edges. Where the seam could not be
    /// found, since an outline is the factory's to make, it is what is written for all edges of each such piece.
    pub fn allowances<'a>(
        &'a self,
        model: &'a Model,
        joint: &'a Joint,
        side: SeamSide,
        size: &str,
    ) -> Vec<&'a Stated<Quantity>> {
        let found = self.joints.iter().filter(|one| one.joint == joint.entry.id.value).map(|one| match side {
            SeamSide::A => &one.a,
            SeamSide::B => &one.b,
        });
        let runs: Vec<&Run> = found.flat_map(|side| &side.runs).collect();
        if !runs.is_empty() {
            let stated = |run| self.allowance(model, run, size)?.stated.as_ref();
            return runs.into_iter().filter_map(stated).collect();
        }
        let written = match side {
            SeamSide::A => &joint.a,
            SeamSide::B => &joint.b,
        };
        written.iter().flat_map(|chain| self.written(model, chain, size)).collect()
    }

    /// The same for a chain as it is written, piece by piece.
    fn written<'a>(&'a self, model: &'a Model, chain: &'a Chain, size: &str) -> Vec<&'a Stated<Quantity>> {
        let mut all = Vec::new();
        for run in &chain.runs {
            let Some(cut) = model.pieces.get(&run.piece).and_then(sewn_cut) else { continue };
            match (self.outlines.get(&run.piece, size), self.edges.get(&run.piece, size), &run.path) {
                (Ok(outline), Some(edges), PathRef::Points(points)) => {
                    let names: Vec<&str> = points.iter().filter_map(|point| point.on(outline)).collect();
                    let found =
                        names.windows(2).filter_map(|pair| edges.between(&cut.entry.id.value, pair[0], pair[1]));
                    all.extend(found.filter_map(|edge| edge.stated.as_ref()));
                }
                _ if cut.allowance.edges.is_empty() => {
                    let value = cut.allowance.all.as_ref();
                    all.extend(value.and_then(|value| value.of(Variant { size, colourway: "" })));
                }
                _ => {}
            }
        }
        all
    }
}

//! What follows from the model alone: outlines per size, instances, resolved runs, edges with their allowances, and the
//! sewn surface.
//!
//! Every count, seam length, lay and comparison reads the one list of [`Instance`]s made here.

mod allowance;
mod draft;
mod edge;
mod edges;
mod faces;
mod finder;
mod follow;
mod gap;
mod instance;
mod lengths;
mod limb;
mod mirror;
mod outlines;
mod partner;
mod points;
mod resolve;
mod run;
mod sequence;
pub(crate) mod shape;
mod shell;
mod surface;
mod traced;
mod trouble;
mod vertices;

pub use edge::{EdgeAllowance, Edges, Origin, PieceEdges};
pub use follow::Loose;
pub use gap::{Fault, Gap};
pub use instance::{Instance, instances};
pub use lengths::{Lengths, Unsewn, sew_inside, sewn_cut};
pub use limb::{Facing, Lie, Limb};
pub use outlines::{Outlines, Scale};
pub use run::{Caught, Edging, Resolved, Reverse, Run, Side};
pub use shell::Shell;
pub use surface::{Account, Sewing};
pub use trouble::{Trouble, TroubleKind};

use super::Model;

/// The assembled product.
#[derive(Debug, Clone)]
pub struct Assembly {
    /// Outlines by piece and size.
    pub outlines: Outlines,
    /// Allowances and corners of every edge, by piece and size.
    pub edges: Edges,
    /// Lengths of runs on the sew line, by piece and size.
    pub lengths: Lengths,
    /// Every piece of one product, by part, use, piece and copy.
    pub instances: Vec<Instance>,
    /// Seams and openings with their runs found, mirror images written out, once per use where a part is used often.
    pub joints: Vec<Resolved>,
    /// Finishes, attachments and topstitching with their runs found.
    pub edgings: Vec<Edging>,
    /// What could not be found, as facts for the rules.
    pub troubles: Vec<Trouble>,
    /// How each run is used, and the closed shells.
    pub sewing: Sewing,
}

impl Assembly {
    /// Assembles a model. Never fails: what cannot be resolved becomes a [`Trouble`].
    pub fn of(model: &Model) -> Assembly {
        let outlines = Outlines::of(model);
        let mut instances = instances(model);
        let mut troubles = Vec::new();
        let found = resolve::resolve(model, &outlines, &instances, &mut troubles);
        faces::turn_over(model, &mut instances, &found.joints);
        let sewing = Sewing::of(model, &outlines, &instances, &found);
        let bare = edges::bare(model, &outlines, &instances, &found, &sewing);
        let edges = Edges::of(model, &outlines, &bare, &mut troubles);
        let lengths = Lengths::of(model, &outlines, &edges);
        let (joints, edgings) = (found.joints, found.edgings);
        Assembly { outlines, edges, lengths, instances, joints, edgings, troubles, sewing }
    }
}

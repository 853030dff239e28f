//! Every place where a stitch is used, with what it is used for.

use crate::check::Context;
use crate::model::{EdgeFinishKind, JointKind, StitchUse};
use crate::source::Span;

/// A stitch in use.
pub struct StitchPlace<'a> {
    /// Id of the seam, opening, edge finish, attachment or topstitch.
    pub id: &'a str,
    /// The table that declares it: `seam`, `edge-finish`.
    pub what: &'static str,
    /// Where it is declared.
    pub span: Span,
    /// The stitch.
    pub stitch: &'a StitchUse,
    /// Whether a machine or hand must be told how to sew here: not where an edge stays raw or a zip closes.
    pub needed: bool,
}

/// All of them, by kind and id.
pub fn stitches<'a>(context: &Context<'a>) -> Vec<StitchPlace<'a>> {
    let model = context.model;
    let joints = model.joints.iter().map(|(id, joint)| {
        let machine = || {
            let by = joint.close.as_ref().and_then(|close| close.by.as_ref()).and_then(|by| by.known());
            by.is_some_and(|by| by.contains("machine"))
        };
        let (what, needed) = match joint.kind {
            JointKind::Seam => ("seam", true),
            JointKind::Opening => ("opening", machine()),
        };
        StitchPlace { id, what, span: joint.entry.span(), stitch: &joint.stitch, needed }
    });
    let finishes = model.edge_finishes.iter().map(|(id, finish)| {
        let kind = finish.kind.as_ref().map(|kind| kind.value);
        let needed = matches!(kind, Some(EdgeFinishKind::Hem | EdgeFinishKind::Bound | EdgeFinishKind::Overlocked));
        StitchPlace { id, what: "edge-finish", span: finish.entry.span(), stitch: &finish.stitch, needed }
    });
    let attaches = model.attaches.iter().map(|(id, attach)| StitchPlace {
        id,
        what: "attach",
        span: attach.entry.span(),
        stitch: &attach.stitch,
        needed: true,
    });
    let lines = model.topstitches.iter().map(|(id, line)| StitchPlace {
        id,
        what: "topstitch",
        span: line.entry.span(),
        stitch: &line.stitch,
        needed: true,
    });
    joints.chain(finishes).chain(attaches).chain(lines).collect()
}

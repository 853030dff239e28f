//! Everything of the specification that has an id, with the table that declares it.

use super::{Entry, JointKind, Model};

impl JointKind {
    /// The table that declares it.
    pub fn table(self) -> &'static str {
        match self {
            JointKind::Seam => "seam",
            JointKind::Opening => "opening",
        }
    }
}

impl Model {
    /// Every named thing with the table that declares it. A new table is one line here.
    pub fn entries(&self) -> Vec<(&'static str, &Entry)> {
        let mut all: Vec<(&'static str, &Entry)> = Vec::new();
        all.extend(self.parties.values().map(|one| ("party", &one.entry)));
        all.extend(self.sizes.iter().map(|one| ("size", &one.entry)));
        all.extend(self.colourways.values().map(|one| ("colourway", &one.entry)));
        all.extend(self.colours.values().map(|one| ("colour", &one.entry)));
        all.extend(self.articles.values().map(|one| (one.kind.word(), &one.entry)));
        all.extend(self.roles.values().map(|one| ("role", &one.entry)));
        all.extend(self.parts.values().map(|one| ("part", &one.entry)));
        all.extend(self.stuffings.values().map(|one| ("stuffing", &one.entry)));
        all.extend(self.pieces.values().map(|one| ("piece", &one.entry)));
        all.extend(self.stitches.values().map(|one| ("stitch", one)));
        all.extend(self.joints.values().map(|one| (one.kind.table(), &one.entry)));
        all.extend(self.edge_finishes.values().map(|one| ("edge-finish", &one.entry)));
        all.extend(self.topstitches.values().map(|one| ("topstitch", &one.entry)));
        all.extend(self.attaches.values().map(|one| ("attach", &one.entry)));
        all.extend(self.steps.values().map(|one| ("step", &one.entry)));
        all.extend(self.measures.values().map(|one| ("point-of-measure", &one.entry)));
        all.extend(self.views.values().map(|one| ("view", &one.entry)));
        all
    }
}

//! How a step of the work is done: with what, what to look at, and what to leave.

use crate::source::Spanned;

use super::{Model, Stated};

/// What a seam, a finish or any other step says of how it is done.
#[derive(Debug, Clone, Default)]
pub struct Means {
    /// The machine.
    pub machine: Option<Stated<String>>,
    /// What else is taken.
    pub tool: Option<Stated<String>>,
    /// What to look at before going on.
    pub check: Option<Stated<String>>,
    /// What must not be done.
    pub never: Option<Stated<String>>,
    /// Path of a picture below the root that shows how.
    pub picture: Option<Spanned<String>>,
}

impl Model {
    /// How each seam, opening, finish, topstitch, attachment and step is done.
    pub fn means(&self) -> impl Iterator<Item = &Means> {
        let joints = self.joints.values().map(|one| &one.means);
        joints
            .chain(self.edge_finishes.values().map(|one| &one.means))
            .chain(self.topstitches.values().map(|one| &one.means))
            .chain(self.attaches.values().map(|one| &one.means))
            .chain(self.steps.values().map(|one| &one.means))
    }

    /// How what the order of work names is done.
    pub fn means_of(&self, id: &str) -> Option<&Means> {
        let joint = self.joints.get(id).map(|one| &one.means);
        joint
            .or_else(|| self.edge_finishes.get(id).map(|one| &one.means))
            .or_else(|| self.topstitches.get(id).map(|one| &one.means))
            .or_else(|| self.attaches.get(id).map(|one| &one.means))
            .or_else(|| self.steps.get(id).map(|one| &one.means))
    }
}

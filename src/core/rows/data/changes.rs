//! What is new since the last sealed revision.

use serde::Serialize;

use super::super::cell::Cell;
use super::super::package::{Drawing, Head};
use crate::words::Phrase;

/// What changed, what followed, who asked for it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Changes {
    /// Title, name, lead.
    pub head: Head,
    /// Sealed revisions, the newest first: revision, stage, date, by whom, why, digest.
    pub past: Vec<Vec<Phrase>>,
    /// Changes by what they are about, as sheets are.
    pub groups: Vec<ChangeGroup>,
    /// Seams whose layers no longer match, and what could not be compared.
    pub warnings: Vec<Phrase>,
    /// Numbers that followed.
    pub followed: Vec<FollowedRow>,
    /// Outlines that differ so that it shows, laid over each other, in rows of two.
    pub overlays: Vec<Vec<OverlayCard>>,
    /// The other outlines: the piece, and what is said of it.
    pub undrawn: Vec<Vec<Phrase>>,
    /// What comments asked for: comment, what it asked, what changed.
    pub answers: Vec<Vec<Phrase>>,
    /// Changes that no comment asked for.
    pub unasked: Vec<Phrase>,
}

/// Changes under one heading.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ChangeGroup {
    /// The heading.
    pub title: Phrase,
    /// One row a value.
    pub rows: Vec<ChangeRow>,
}

/// One value before and after.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ChangeRow {
    /// The thing; empty where it is the one above.
    pub what: Phrase,
    /// The value.
    pub key: Phrase,
    /// Before.
    pub before: Cell,
    /// After.
    pub after: Cell,
    /// New, gone, tolerance widened and so on.
    pub remark: Phrase,
}

/// A number that followed.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct FollowedRow {
    /// Of what.
    pub what: Phrase,
    /// One for each size or colourway in which it differs: `S 0.026 → 0.027 m (+0.001)`.
    pub values: Vec<Phrase>,
}

/// An outline before and after.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OverlayCard {
    /// The piece, in which size.
    pub title: Phrase,
    /// Both outlines.
    pub drawing: Drawing,
    /// Area, largest distance and where, edges, points.
    pub text: Vec<Phrase>,
}

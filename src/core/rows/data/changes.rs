//! What is new since the last sealed revision.

use serde::Serialize;

use super::super::package::{Drawing, Head};

/// What changed, what followed, who asked for it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Changes {
    /// Title, name, lead.
    pub head: Head,
    /// Sealed revisions, the newest first: revision, stage, date, by whom, why, digest.
    pub past: Vec<Vec<String>>,
    /// Changes by what they are about, as sheets are.
    pub groups: Vec<ChangeGroup>,
    /// Seams whose layers no longer match, and what could not be compared.
    pub warnings: Vec<String>,
    /// Numbers that followed: what, before, after, difference.
    pub followed: Vec<Vec<String>>,
    /// Outlines that differ, laid over each other, in rows.
    pub overlays: Vec<Vec<OverlayCard>>,
    /// What comments asked for: comment, what it asked, what changed.
    pub answers: Vec<Vec<String>>,
    /// Changes that no comment asked for.
    pub unasked: Vec<String>,
}

/// Changes under one heading.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ChangeGroup {
    /// The heading.
    pub title: String,
    /// One row a value.
    pub rows: Vec<ChangeRow>,
}

/// One value before and after.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ChangeRow {
    /// The thing; empty where it is the one above.
    pub what: String,
    /// The value.
    pub key: String,
    /// Before.
    pub before: String,
    /// After.
    pub after: String,
    /// New, gone, tolerance widened and so on.
    pub remark: String,
}

/// An outline before and after.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OverlayCard {
    /// Width on paper, mm.
    pub width: f64,
    /// The piece, in which size.
    pub title: String,
    /// Both outlines.
    pub drawing: Drawing,
    /// Area, largest distance and where, edges, points.
    pub text: Vec<String>,
}

//! Sample rounds, comments and approvals, and what is new.

use serde::Serialize;

use super::super::package::{Drawing, Fact, Head};

/// One round of samples.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Round {
    /// Title, name, lead.
    pub head: Head,
    /// Kind of sample, revision it was made to, size, colourway, dates.
    pub facts: Vec<Fact>,
    /// Heads of the columns of readings: the pieces.
    pub pieces: Vec<String>,
    /// Points of measure.
    pub points: Vec<ReadPoint>,
    /// Masses, colours, grades, checks.
    pub others: Vec<ReadOther>,
    /// Readings against their limits, drawn.
    pub charts: Vec<Vec<ChartCard>>,
    /// Hints and what must be said.
    pub notes: Vec<String>,
}

/// A point of measure with its readings.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ReadPoint {
    /// Its id.
    pub number: String,
    /// Its name.
    pub name: String,
    /// Critical, reference, left or right.
    pub mark: String,
    /// Target.
    pub target: String,
    /// Limits.
    pub limits: String,
    /// One a piece; empty where it was not measured.
    pub readings: Vec<Reading>,
    /// Mean of the readings.
    pub mean: String,
    /// Largest less smallest.
    pub range: String,
    /// What the readings mean.
    pub verdict: String,
    /// Whether any is outside.
    pub out: bool,
}

/// One reading.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Reading {
    /// As read.
    pub text: String,
    /// Whether it is outside the limits.
    pub out: bool,
}

/// Something else that was looked at.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ReadOther {
    /// What.
    pub item: String,
    /// What is asked.
    pub asked: String,
    /// What was found.
    pub found: String,
    /// What that means.
    pub verdict: String,
    /// Whether it does not hold.
    pub out: bool,
}

/// The drawing of the readings of one point.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ChartCard {
    /// Width of the card, mm.
    pub width: f64,
    /// The readings against the limits.
    pub drawing: Drawing,
}

/// Comments and approvals.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comments {
    /// Title, name, lead.
    pub head: Head,
    /// How many are open, what blocks the next stage.
    pub facts: Vec<Fact>,
    /// The comments.
    pub rows: Vec<CommentRow>,
    /// The items that need an approval.
    pub approvals: Vec<ApprovalRow>,
    /// What blocks.
    pub notes: Vec<String>,
}

/// One comment.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct CommentRow {
    /// Its id.
    pub number: String,
    /// The item it is about.
    pub on: String,
    /// Its weight.
    pub weight: String,
    /// What was said.
    pub text: String,
    /// Who said it, when, in which round.
    pub by: String,
    /// Where it stands.
    pub state: String,
    /// What became of it, and in which revision.
    pub answer: String,
    /// Whether it is in the way of bulk.
    pub heavy: bool,
}

/// One item with its submissions.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ApprovalRow {
    /// What is approved.
    pub item: String,
    /// Whether it is required.
    pub needed: String,
    /// Each submission on its line.
    pub submissions: String,
    /// Where it stands.
    pub verdict: String,
    /// Whether it is still open.
    pub open: bool,
}

/// What is new.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Changes {
    /// Title, name, lead.
    pub head: Head,
    /// From which revision to which.
    pub facts: Vec<Fact>,
    /// Changes by kind of thing.
    pub groups: Vec<ChangeGroup>,
    /// Outlines over each other.
    pub overlays: Vec<Vec<OverlayCard>>,
    /// Revisions: index, date, stage, reason, digest.
    pub history: Vec<Vec<String>>,
    /// What must be said.
    pub notes: Vec<String>,
}

/// Changes of one kind of thing.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ChangeGroup {
    /// The kind.
    pub title: String,
    /// The changes.
    pub rows: Vec<ChangeRow>,
}

/// One change.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ChangeRow {
    /// The item.
    pub item: String,
    /// What of it.
    pub what: String,
    /// Before; empty where it is new.
    pub before: String,
    /// After; empty where it is gone.
    pub after: String,
}

/// A piece before and after.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OverlayCard {
    /// Width of the card, mm.
    pub width: f64,
    /// Code of the piece.
    pub code: String,
    /// Its name.
    pub name: String,
    /// What differs, in figures.
    pub text: String,
    /// Both outlines.
    pub drawing: Drawing,
}

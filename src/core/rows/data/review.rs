//! Samples, comments and approvals.

use serde::Serialize;

use super::super::cell::Cell;
use super::super::package::{Drawing, Fact, Head};
use crate::words::Phrase;

/// One sample: what was read on it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Samples {
    /// Title, name, lead.
    pub head: Head,
    /// What kind of sample, to which revision, when, by whom; how many readings are in and out.
    pub facts: Vec<Fact>,
    /// Heads of the columns of readings: the numbers of the pieces.
    pub pieces: Vec<String>,
    /// Points of measure and masses, one row each.
    pub rows: Vec<ReadRow>,
    /// Readings of further pieces.
    pub more: Vec<MoreReadings>,
    /// The head of the column of today's limits; empty where these judge.
    pub today: Phrase,
    /// Colours, checks and grades of fastness.
    pub beside: Vec<BesideRow>,
    /// What is to be asked about, and hints.
    pub notes: Vec<Phrase>,
}

/// Readings of one point.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ReadRow {
    /// Its number.
    pub number: String,
    /// Its name, with the side.
    pub name: Phrase,
    /// Critical, for reference, or empty.
    pub weight: Phrase,
    /// Target with its unit.
    pub target: Cell,
    /// Limits.
    pub limits: Cell,
    /// One for each piece.
    pub readings: Vec<Read>,
    /// All readings between the limits; none where nothing was read.
    pub chart: Option<Drawing>,
    /// Mean and range.
    pub mean: Cell,
    /// Greatest less least.
    pub range: Cell,
    /// In words.
    pub verdict: Phrase,
    /// Whether any reading is refused.
    pub out: bool,
    /// Limits of the specification, and how the readings stand to them where that differs; empty where these judge.
    pub today: Cell,
}

/// Readings of pieces that find no room in the first table.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct MoreReadings {
    /// The numbers of the pieces.
    pub pieces: Vec<String>,
    /// Number and name of the point, and its readings.
    pub rows: Vec<(String, Phrase, Vec<Read>)>,
}

/// One reading.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Read {
    /// As printed; a dash where it was not read.
    pub text: Cell,
    /// Whether it is refused.
    pub out: bool,
}

/// A colour, a check or a grade.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct BesideRow {
    /// Of what.
    pub what: Phrase,
    /// What was asked.
    pub asked: Cell,
    /// What was found.
    pub found: Cell,
    /// In words.
    pub verdict: Phrase,
    /// Whether it is refused.
    pub out: bool,
}

/// Comments, approvals and what is put right in bulk.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comments {
    /// Title, name, lead.
    pub head: Head,
    /// Comments, those that must change first.
    pub rows: Vec<CommentRow>,
    /// Approvals.
    pub approvals: Vec<ApprovalRow>,
    /// What is put right in bulk and looked at inline.
    pub checklist: Vec<Phrase>,
    /// What was lifted, by whom and until when.
    pub concessions: Vec<Phrase>,
}

/// One comment.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CommentRow {
    /// Its id.
    pub id: String,
    /// What it is about.
    pub about: Phrase,
    /// Must change, should change, note.
    pub weight: Phrase,
    /// Whether it is in the way of bulk.
    pub stops: bool,
    /// What it says.
    pub text: Phrase,
    /// Who, when, on which sample.
    pub by: Phrase,
    /// Where it stands.
    pub state: Phrase,
    /// The answer, the revision that answers, why it was dropped.
    pub answer: Phrase,
    /// Its picture.
    pub picture: Option<Drawing>,
}

/// One approval.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ApprovalRow {
    /// What is approved.
    pub what: Phrase,
    /// What kind of approval, in which colourway.
    pub kind: Phrase,
    /// Whether bulk needs it.
    pub required: Phrase,
    /// Submissions, one line each.
    pub submissions: Vec<Phrase>,
    /// Where it stands.
    pub standing: Phrase,
    /// Whether it is in the way of bulk.
    pub stops: bool,
}

//! The order of work: stages, and the steps of each.

use serde::Serialize;

use super::super::package::{Drawing, Fact, Head};
use super::Cell;
use crate::words::Phrase;

/// The order of work.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Construction {
    /// Title, name, lead.
    pub head: Head,
    /// Colourways, by their ids.
    pub colourways: Vec<String>,
    /// What it is sewn with.
    pub threads: Vec<ThreadRow>,
    /// Its stages, in order.
    pub stages: Vec<Stretch>,
}

/// One thread.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ThreadRow {
    /// What the stages call it.
    pub name: Phrase,
    /// What is bought for it.
    pub article: Phrase,
    /// Its colour in each colourway.
    pub colours: Vec<Cell>,
}

/// A stage: steps in a row that make the same thing.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Stretch {
    /// Its number and what is made: "Stage 2: Beak".
    pub title: Phrase,
    /// How most of it is stitched; what a step does otherwise is said there. Empty where nothing is stitched.
    pub same: Vec<Fact>,
    /// The state at its end; none where nothing is sewn.
    pub picture: Option<Drawing>,
    /// Whether the picture takes the width of a column.
    pub wide: bool,
    /// The steps.
    pub steps: Vec<Step>,
}

/// One step.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Step {
    /// Its number in the order of work.
    pub number: String,
    /// What is done: "Join box sides in a ring".
    pub title: Phrase,
    /// Edges, points, how; may be empty.
    pub text: Phrase,
    /// The edges as they are written; empty where the plies have them.
    pub codes: Phrase,
    /// Where it is done: the pieces in grey, what is sewn in bold.
    pub place: Option<Drawing>,
    /// Whether that takes the width of what is said.
    pub wide: bool,
    /// A picture of the user that shows how.
    pub picture: Option<Drawing>,
    /// The stack of a seam, from `crate::scene::stack`; `None` for other steps.
    pub stack: Option<Drawing>,
    /// The plies by the numbers in the drawing, in needle order.
    pub plies: Vec<Ply>,
    /// What is stitched otherwise than the stage says.
    pub differs: Vec<Fact>,
    /// Machine and tool.
    pub means: Vec<Fact>,
    /// Note; may be empty.
    pub note: Phrase,
    /// What to look at before going on; may be empty.
    pub check: Phrase,
    /// What must not be done; may be empty.
    pub never: Phrase,
    /// What samples showed that is to be put right in bulk.
    pub put_right: Vec<Phrase>,
}

/// One ply of a step.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Ply {
    /// The number in the drawing.
    pub number: String,
    /// What it is, and how it lies.
    pub text: Phrase,
    /// Its edges as they are written; empty for a trim.
    pub codes: Phrase,
}

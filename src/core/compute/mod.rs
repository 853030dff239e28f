//! Model and assembly to [`Figures`]: every number that a sheet, a workbook or a drawing prints. One file for each
//! family of numbers.
//!
//! Units are millimetres, square millimetres and grams throughout, other units where a field says so. A figure that
//! needs something unknown says [`Figure::NotYet`] with the reasons; a sum with an unknown part is itself not known.
//! Sums are made of unrounded numbers; a number is rounded once, to a millionth of its unit, where it is read.

mod counts;
mod dart;
pub mod drawn;
mod figure;
mod filling;
mod ground;
mod measures;
mod seams;
mod shapes;

pub use counts::{ArticleCount, Counts, CutCount, InstanceLine, PartCount, Way};
pub use drawn::Drawn;
pub use figure::{Figure, Number};
pub use filling::{Filling, Limited, Proposed, ZoneLine};
pub use ground::{Bought, ByVariant};
pub use measures::{MeasureLine, MeasureSize};
pub use seams::{CaughtSize, SeamFigures, SeamSize};
pub use shapes::{CutFigures, CutLineFigures, PieceSize, RunLength, SewFigures};

use std::collections::BTreeMap;

use serde::Serialize;

use crate::diag::Findings;
use crate::model::{Assembly, Model};

use ground::Ground;

/// Version of the format of `figures.json`; raised when a field changes its meaning or goes.
pub const FORMAT: u32 = 1;

/// Every computed number of one specification, written as `figures.json`. Fields are the keys with hyphens for
/// underscores.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Figures {
    /// Version of this format.
    pub format: u32,
    /// Size ids in their order.
    pub sizes: Vec<String>,
    /// Colourway ids.
    pub colourways: Vec<String>,
    /// How much of what is made.
    pub counts: Counts,
    /// Lengths and areas by piece, then by size.
    pub pieces: BTreeMap<String, BTreeMap<String, PieceSize>>,
    /// Lengths by seam and opening.
    pub seams: BTreeMap<String, SeamFigures>,
    /// Filling by size and colourway.
    pub filling: ByVariant<Filling>,
    /// The tolerance table by point of measure.
    pub measures: BTreeMap<String, MeasureLine>,
}

impl Figures {
    /// The text of `figures.json`: two spaces a level, keys in a fixed order, a line feed at the end.
    pub fn json(&self) -> String {
        // Writing to memory fails only for keys that are no text, and ours are.
        serde_json::to_string_pretty(self).map_or_else(|error| error.to_string(), |text| text + "\n")
    }
}

/// Computes every number, and the findings whose evidence is a computed number.
pub fn compute(model: &Model, assembly: &Assembly) -> (Figures, Findings) {
    let (figures, _, findings) = with_lines(model, assembly);
    (figures, findings)
}

/// [`compute`], with the sew and cut lines that the figures were measured on.
pub fn with_lines(model: &Model, assembly: &Assembly) -> (Figures, Drawn, Findings) {
    let drawn = Drawn::of(model, assembly);
    let ground = Ground { model, assembly, drawn: &drawn };
    let figures = Figures {
        format: FORMAT,
        sizes: model.sizes.iter().map(|size| size.entry.id.value.clone()).collect(),
        colourways: model.colourways.keys().cloned().collect(),
        counts: counts::counts(&ground),
        pieces: shapes::pieces(&ground),
        seams: seams::seams(&ground),
        filling: filling::filling(&ground),
        measures: measures::measures(&ground),
    };
    (figures, drawn, Findings::default())
}

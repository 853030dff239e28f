//! Every computed number of one specification, as `figures.json` has it.

use std::collections::BTreeMap;

use serde::Serialize;

use super::bill::Bill;
use super::counts::Counts;
use super::filling::Filling;
use super::input::ByVariant;
use super::mass::Mass;
use super::measures::MeasureLine;
use super::need::FabricNeed;
use super::seams::SeamFigures;
use super::shapes::PieceSize;
use super::thread::Thread;
use super::trims::TrimLine;
use crate::cutting::figures::LayFigures;
use crate::cutting::figures::dies;
use crate::orders::figures::OrderFigures;
use crate::samples::figures::SampleFigures;

/// Version of the format of `figures.json`; raised when a field changes its meaning or goes.
pub const FORMAT: u32 = 1;

/// Every computed number of one specification, written as `figures.json`. Fields are the keys with hyphens for
/// underscores; [`super::fields`] lists them with their units.
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
    /// Thread of one product, by size and colourway.
    pub thread: ByVariant<Thread>,
    /// Filling of one product.
    pub filling: ByVariant<Filling>,
    /// Trims of one product.
    pub trims: ByVariant<Vec<TrimLine>>,
    /// Lays of one product, each size by itself.
    pub lays: Vec<LayFigures>,
    /// Dies of what is cut by a press.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub dies: Vec<dies::Die>,
    /// Need of fabric for one product: from its lay, or an estimate by true cut area and a stated efficiency.
    pub fabric: ByVariant<Vec<FabricNeed>>,
    /// Mass of one product.
    pub mass: ByVariant<Mass>,
    /// What is bought for one product, in one order.
    pub bill: Bill,
    /// Orders: what is wanted; the cut plan and the material to buy once they are planned.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub orders: BTreeMap<String, OrderFigures>,
    /// The tolerance table by point of measure.
    pub measures: BTreeMap<String, MeasureLine>,
    /// What was asked, found and said of samples.
    #[serde(skip_serializing_if = "SampleFigures::is_empty")]
    pub samples: SampleFigures,
}

impl Figures {
    /// The text of `figures.json`: two spaces a level, keys in a fixed order, a line feed at the end.
    pub fn json(&self) -> String {
        // Writing to memory fails only for keys that are no text, and ours are.
        serde_json::to_string_pretty(self).map_or_else(|error| error.to_string(), |text| text + "\n")
    }
}

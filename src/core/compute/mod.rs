//! Model and assembly to [`Figures`]: every number that a sheet, a workbook or a drawing prints. One file for each
//! family of numbers.
//!
//! Units are millimetres, square millimetres and grams throughout, other units where a field says so. A figure that
//! needs something unknown says [`Figure::NotYet`] with the reasons; a sum with an unknown part is itself not known.
//! Sums are made of unrounded numbers; a number is rounded once, to a millionth of its unit, where it is read.

mod bill;
mod counts;
mod dart;
pub mod dies;
pub mod drawn;
mod edges;
pub mod fields;
mod figure;
mod filling;
mod ground;
pub mod lays;
mod mass;
mod measures;
mod need;
mod notch;
pub mod orders;
pub mod plan;
mod ratio;
mod rules;
pub mod samples;
mod seams;
mod shapes;
mod stitched;
mod thread;
mod trims;

pub use bill::{Bill, BillLine};
pub use counts::{ArticleCount, Counts, CutCount, InstanceLine, PartCount, Way};
pub use drawn::{Drawn, Lines, Shape};
pub use figure::{Figure, Number};
pub use filling::{Filling, Limited, Proposed, StuffingLine};
pub use ground::{Bought, ByVariant};
pub use lays::{How, LayFigures, Lays, Mix, Task};
pub use mass::{Mass, MassLine};
pub use measures::{MeasureLine, MeasureSize};
pub use need::FabricNeed;
pub use notch::{Astray, NotchMark};
pub use ratio::{Ratio, RatioBasis};
pub use seams::{Between, CaughtSize, SeamFigures, SeamSize};
pub use shapes::{CutFigures, CutLineFigures, PieceSize, RunLength, SewFigures};
pub use thread::{TAIL, Thread, ThreadLine, ThreadTotal, with_wastage};
pub use trims::{TrimLine, TrimUnit};

use std::collections::BTreeMap;

use serde::Serialize;

use crate::diag::{Findings, Rule};
use crate::model::{Assembly, Model};

use ground::Ground;

/// Version of the format of `figures.json`; raised when a field changes its meaning or goes.
pub const FORMAT: u32 = 1;

/// Every computed number of one specification, written as `figures.json`. Fields are the keys with hyphens for
/// underscores; [`fields`] lists them with their units.
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
    pub orders: BTreeMap<String, orders::OrderFigures>,
    /// The tolerance table by point of measure.
    pub measures: BTreeMap<String, MeasureLine>,
    /// What was asked, found and said of samples.
    #[serde(skip_serializing_if = "samples::SampleFigures::is_empty")]
    pub samples: samples::SampleFigures,
}

impl Figures {
    /// The text of `figures.json`: two spaces a level, keys in a fixed order, a line feed at the end.
    pub fn json(&self) -> String {
        // Writing to memory fails only for keys that are no text, and ours are.
        serde_json::to_string_pretty(self).map_or_else(|error| error.to_string(), |text| text + "\n")
    }
}

/// Rules whose evidence is a computed number.
pub const RULES: &[&Rule] = rules::RULES;

pub use rules::lift as lift_conceded;

/// What the rules here find, without the figures that need not be computed for it.
pub fn findings(model: &Model, assembly: &Assembly) -> Findings {
    if !model.orders.is_empty() {
        let Computed { mut figures, drawn, mut findings, .. } = with_lines(model, assembly);
        lays::plan_orders((model, assembly, &drawn), &mut figures);
        rules::planned(model, &figures, &mut findings);
        return findings;
    }
    let mut findings = Findings::default();
    let drawn = Drawn::of(model, assembly);
    let ground = Ground { model, assembly, drawn: &drawn };
    rules::run(&ground, &mut findings);
    let cuts = counts::counts(&ground).cuts;
    rules::laid(&ground, &cuts, &lays::lays(&ground, &cuts), &mut findings);
    rules::sampled(model, &samples::samples(model, &BTreeMap::new()), &mut findings);
    findings
}

/// Computes every number, and the findings whose evidence is a computed number.
pub fn compute(model: &Model, assembly: &Assembly) -> (Figures, Findings) {
    let computed = with_lines(model, assembly);
    (computed.figures, computed.findings)
}

/// What follows from a specification in numbers.
#[derive(Debug)]
pub struct Computed {
    /// Every number.
    pub figures: Figures,
    /// The sew and cut lines they were measured on.
    pub drawn: Drawn,
    /// What is laid of each fabric, with the lays that are kept.
    pub lays: Lays,
    /// Findings whose evidence is a computed number.
    pub findings: Findings,
}

/// [`compute`], with the sew and cut lines that the figures were measured on, and the lays.
pub fn with_lines(model: &Model, assembly: &Assembly) -> Computed {
    let drawn = Drawn::of(model, assembly);
    let ground = Ground { model, assembly, drawn: &drawn };
    let counts = counts::counts(&ground);
    let pieces = shapes::pieces(&ground);
    let seams = seams::seams(&ground);
    let thread = thread::thread(&ground);
    let filling = filling::filling(&ground);
    let trims = trims::trims(&ground, &seams);
    let lays = lays::lays(&ground, &counts.cuts);
    let fabric = need::fabric(&ground, &counts.cuts, &pieces, &lays);
    let parts = mass::Parts { cuts: &counts.cuts, pieces: &pieces, thread: &thread, filling: &filling, trims: &trims };
    let mass = mass::mass(&ground, &parts);
    let uses = bill::Uses { fabric: &fabric, thread: &thread, filling: &filling, trims: &trims, mass: &mass };
    let bill = bill::bill(&uses);
    let measures = measures::measures(&ground);
    let samples = samples::samples(model, &mass);
    let dies = dies::all(&ground, &counts.cuts);
    let sizes = model.sizes.iter().map(|size| size.entry.id.value.clone()).collect();
    let colourways = model.colourways.keys().cloned().collect();
    let figures = Figures {
        format: FORMAT,
        sizes,
        colourways,
        counts,
        pieces,
        seams,
        thread,
        filling,
        trims,
        lays: lays.figures(),
        dies,
        fabric,
        mass,
        bill,
        orders: orders::wanted(model),
        measures,
        samples,
    };
    let mut findings = Findings::default();
    rules::run(&ground, &mut findings);
    rules::laid(&ground, &figures.counts.cuts, &lays, &mut findings);
    rules::ordered(model, &figures, &mut findings);
    rules::sampled(model, &figures.samples, &mut findings);
    Computed { figures, drawn, lays, findings }
}

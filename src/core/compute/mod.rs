//! Model and assembly to [`Figures`]: every number that a sheet, a workbook or a drawing prints. One file for each
//! family of numbers.
//!
//! Units are millimetres, square millimetres and grams throughout, other units where a field says so. A figure that
//! needs something unknown says [`Figure::NotYet`] with the reasons; a sum with an unknown part is itself not known.
//! Sums are made of unrounded numbers; a number is rounded once, to a millionth of its unit, where it is read.

mod bill;
pub(crate) mod contour;
pub(crate) mod counts;
mod dart;
mod edges;
pub mod fields;
pub(crate) mod figure;
mod filling;
pub(crate) mod input;
mod lengths;
pub mod lines;
mod mass;
mod measures;
mod need;
mod notch;
pub(crate) mod number;
mod ratio;
pub(crate) mod reason;
pub(crate) mod record;
pub(crate) mod rules;
mod seams;
mod shapes;
mod stitches;
mod stretch;
mod thread;
mod trims;
mod widths;

pub use crate::cutting::figures::{How, LayFigures, LayTasks, Mix, Task};
pub use bill::{Bill, BillLine};
pub use contour::Shape;
pub use counts::{ArticleCount, Counts, CutCount, InstanceLine, PartCount, Way};
pub use edges::{CornerFigures, EdgeFigures};
pub use figure::{Figure, Number};
pub use filling::{Filling, Limited, Proposed, StuffingLine};
pub use input::{Bought, ByVariant};
pub use lines::{Drawn, Lines};
pub use mass::{Mass, MassLine};
pub use measures::{MeasureLine, MeasureSize};
pub use need::FabricNeed;
pub use notch::{Astray, NotchMark};
pub use ratio::{Ratio, RatioBasis};
pub use record::{FORMAT, Figures};
pub use seams::{Between, CaughtSize, Facing, SeamFigures, SeamSize};
pub use shapes::{CutFigures, CutLineFigures, EdgeLength, PieceSize, SewFigures};
pub use thread::{TAIL, Thread, ThreadLine, ThreadTotal, with_wastage};
pub use trims::{TrimLine, TrimUnit};
pub use widths::{Sides, Widths};

use crate::diag::{Findings, Rule};
use crate::model::{Assembly, Model};

use input::Ground;

/// Rules whose evidence is a computed number.
pub const RULES: &[&Rule] = rules::RULES;

/// What follows from a specification in numbers.
#[derive(Debug)]
pub struct Computed {
    /// Every number.
    pub figures: Figures,
    /// The sew and cut lines they were measured on.
    pub drawn: Drawn,
    /// What is laid of each fabric, with the lays that are kept.
    pub lays: LayTasks,
}

/// Computes every number but the cut plans of orders, which [`crate::orders::figures::plan_order`] adds.
pub fn compute(model: &Model, assembly: &Assembly) -> Computed {
    let drawn = Drawn::of(model, assembly);
    let ground = Ground { model, assembly, drawn: &drawn };
    let counts = counts::counts(&ground);
    let pieces = shapes::pieces(&ground);
    let seams = seams::seams(&ground);
    let thread = thread::thread(&ground);
    let filling = filling::filling(&ground);
    let trims = trims::trims(&ground, &seams);
    let lays = crate::cutting::figures::lays(&ground, &counts.cuts);
    let fabric = need::fabric(&ground, &counts.cuts, &pieces, &lays);
    let parts = mass::Parts { cuts: &counts.cuts, pieces: &pieces, thread: &thread, filling: &filling, trims: &trims };
    let mass = mass::mass(&ground, &parts);
    let uses = bill::Uses { fabric: &fabric, thread: &thread, filling: &filling, trims: &trims, mass: &mass };
    let bill = bill::bill(&uses);
    let measures = measures::measures(&ground);
    let filling = filling::readable(filling);
    let samples = crate::samples::figures::samples(model, &mass, &filling);
    let dies = crate::cutting::figures::dies::all(&ground, &counts.cuts);
    let sizes = model.sizes.iter().map(|size| size.entry.id.value.clone()).collect();
    let colourways = model.ways().into_iter().map(str::to_string).collect();
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
        orders: crate::orders::figures::wanted(model),
        measures,
        samples,
    };
    Computed { figures, drawn, lays }
}

/// The findings whose evidence is a computed number; those of a cut plan are [`crate::orders::figures::findings`].
pub fn findings(model: &Model, assembly: &Assembly, (figures, drawn, lays): (&Figures, &Drawn, &LayTasks)) -> Findings {
    let ground = Ground { model, assembly, drawn };
    let mut findings = Findings::default();
    rules::run(&ground, figures, &mut findings);
    crate::cutting::rules::laid(&ground, &figures.counts.cuts, lays, &mut findings);
    crate::orders::rules::ordered(model, figures, &mut findings);
    crate::samples::rules::sampled(model, &figures.samples, &mut findings);
    findings
}

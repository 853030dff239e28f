//! How much sewing thread a length of seam takes.
//!
//! Two ways. A thread maker's consumption guide gives one *ratio* (thread length over seam length, no unit) for each
//! stitch type, the least, at 7 stitches per centimetre of thin fabric. Textbook stitch *geometry* takes the thickness
//! of what is sewn into account, as it must be for plush: two layers 4 mm thick when pressed, at 4 stitches per
//! centimetre, take 5.2 times the seam length of lockstitch thread, not 2.5.
//!
//! Sources disagree: another guide of a thread maker has 5 instead of 4 for 101 and 5.5 instead of 7 for 304; 504 also
//! stands as `5 + 4S(W + T)`. No figure here replaces unpicking a sewn sample and measuring it.

use super::{Basis, Reference};

/// Ratio of one stitch type in the consumption guide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ratio {
    /// The stitch type (ISO 4915).
    pub stitch: &'static str,
    /// Thread length over seam length, all threads together, without wastage.
    pub ratio: f64,
    /// How well the ratio is known.
    pub basis: Basis,
    /// The part of it that is needle thread, 0 to 1, with its own basis; `None` where no source gives it.
    pub needle_share: Option<(f64, Basis)>,
}

/// What [`RATIOS`] follow.
pub const RATIO_SOURCE: Reference = Reference {
    text: "a thread maker's consumption guide as reproduced in a textbook: least consumption, 7 stitches per cm",
    basis: Basis::Seen,
};

/// The density at which [`RATIOS`] hold, in stitches per centimetre.
pub const RATIO_DENSITY_PER_CM: f64 = 7.0;

const fn row(stitch: &'static str, ratio: f64, basis: Basis, needle_share: Option<(f64, Basis)>) -> Ratio {
    Ratio { stitch, ratio, basis, needle_share }
}

/// The guide's ratios, in order of stitch numbers.
pub const RATIOS: &[Ratio] = &[
    row("101", 4.0, Basis::Seen, None),
    row("301", 2.5, Basis::Seen, Some((0.5, Basis::Seen))),
    row("304", 7.0, Basis::Memory, Some((0.5, Basis::Memory))),
    row("401", 5.5, Basis::Seen, Some((0.25, Basis::Seen))),
    row("406", 18.0, Basis::Seen, Some((0.3, Basis::Seen))),
    row("503", 12.0, Basis::Memory, Some((0.55, Basis::Memory))),
    row("504", 14.0, Basis::Seen, Some((0.2, Basis::Memory))),
    row("512", 18.0, Basis::Memory, Some((0.25, Basis::Memory))),
    row("516", 20.0, Basis::Seen, Some((0.2, Basis::Memory))),
    row("602", 25.0, Basis::Seen, Some((0.2, Basis::Seen))),
    row("605", 28.0, Basis::Seen, Some((0.3, Basis::Seen))),
];

/// The guide's ratio for a stitch type.
pub fn ratio(stitch: &str) -> Option<&'static Ratio> {
    RATIOS.iter().find(|row| row.stitch == stitch)
}

/// The textbook geometry of a stitch type: `ratio = constant + thickness · T·S + bight · W·S`, with the thickness T of
/// what is sewn, the bight W (width across the seam) and the density S in stitches per length. T, W and 1/S share one
/// unit of length, so the ratio has none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Geometry {
    /// The stitch type (ISO 4915).
    pub stitch: &'static str,
    /// Thread lying along the seam, in seam lengths.
    pub constant: f64,
    /// How often a stitch passes through the thickness.
    pub thickness: f64,
    /// How often a stitch crosses the bight; 0 for a straight line of stitches.
    pub bight: f64,
}

/// What [`GEOMETRIES`] follow.
pub const GEOMETRY_SOURCE: Reference = Reference {
    text: "textbook stitch geometry; two educational pages agree for 101, 301 and 401, and differ for 504",
    basis: Basis::Seen,
};

/// The formulas: 101 = 3 + 2TS, 301 = 2 + 2TS, 401 = 4 + 2TS, 504 = 3 + 4WS + 4TS.
pub const GEOMETRIES: &[Geometry] = &[
    Geometry { stitch: "101", constant: 3.0, thickness: 2.0, bight: 0.0 },
    Geometry { stitch: "301", constant: 2.0, thickness: 2.0, bight: 0.0 },
    Geometry { stitch: "401", constant: 4.0, thickness: 2.0, bight: 0.0 },
    Geometry { stitch: "504", constant: 3.0, thickness: 4.0, bight: 4.0 },
];

/// The geometry of a stitch type, where a textbook gives one.
pub fn geometry(stitch: &str) -> Option<&'static Geometry> {
    GEOMETRIES.iter().find(|geometry| geometry.stitch == stitch)
}

impl Geometry {
    /// Whether the formula needs a bight.
    pub fn has_bight(&self) -> bool {
        self.bight != 0.0
    }

    /// Thread length over seam length. `thickness_mm` is that of all plies together, pressed as the foot presses them;
    /// `bight_mm` is not read for a straight stitch; `per_mm` is the density in stitches per millimetre.
    pub fn ratio(&self, thickness_mm: f64, bight_mm: f64, per_mm: f64) -> f64 {
        let bight = if self.has_bight() { self.bight * bight_mm } else { 0.0 };
        self.constant + per_mm * (self.thickness * thickness_mm + bight)
    }
}

/// Thread left hanging at each end of a seam, in mm, for each end: least and most (common practice).
pub const TAIL_MM: (u32, u32) = (50, 70);

/// Added to computed thread for breaks, changes of bobbin and threading, in percent: least and most. Seen in the
/// consumption guide; a technical note of another thread maker has 15 to 20.
pub const WASTAGE_PERCENT: (u32, u32) = (10, 15);

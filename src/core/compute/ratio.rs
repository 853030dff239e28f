//! Thread length over seam length of a stitch type, and what it follows from.

use serde::Serialize;

use crate::standards::thread::{RATIO_DENSITY_PER_CM, geometry, ratio as guide};
use crate::words::{Phrase, english, say, words};

use super::reason::NO_RATIO;
use super::{Figure, Number};

words! {
    NO_GEOMETRY "ratio.no-geometry" = "no geometry of {stitch} is published";
    THICK_AT "ratio.thick-at" = "{thickness} mm thick at {density} stitches per cm";
    NOT_SHOWN "ratio.not-shown" = "the thickness is not shown";
    LEAST "ratio.least" = "for thin fabric at {density} stitches per cm, the least; {why}";
}

/// Thread length over seam length of one line of stitches.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Ratio {
    /// All threads of the stitch together, without tails and wastage.
    pub value: Number,
    /// What it follows.
    pub basis: RatioBasis,
    /// The conditions it holds under, or why it is only the guide's.
    #[serde(serialize_with = "english")]
    pub note: Phrase,
}

/// What a thread ratio follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum RatioBasis {
    /// Textbook stitch geometry with the stated thickness, density and bight.
    Geometry,
    /// A thread maker's consumption guide, for thin fabric.
    Guide,
}

/// The ratio of a stitch type: by geometry where everything it needs is known, else the guide's with its conditions.
/// `thickness` and `bight` in mm, `density` in stitches per mm.
pub(super) fn ratio(
    stitch: &str,
    thickness: &Figure<Number>,
    density: &Figure<Number>,
    bight: &Figure<Number>,
) -> Figure<Ratio> {
    let Some(formula) = geometry(stitch) else {
        return guided(stitch, say!(NO_GEOMETRY, stitch));
    };
    let bight = if formula.has_bight() { bight.clone() } else { Figure::Known(Number::default()) };
    let known = thickness.clone().with(density.clone(), |t, s| (t, s)).with(bight, |(t, s), w| (t, s, w));
    match known {
        Figure::Known((t, s, w)) => Figure::number(formula.ratio(t.raw(), w.raw(), s.raw())).map(|value| Ratio {
            value,
            basis: RatioBasis::Geometry,
            note: say!(THICK_AT, thickness = short(t), density = short(Number::new(s.raw() * 10.0))),
        }),
        // A guide's ratio would give a withheld thickness no protection, but says nothing of it either.
        Figure::Withheld => guided(stitch, NOT_SHOWN.into()),
        Figure::NotYet { why } => guided(stitch, Phrase::row(&why, "; ")),
    }
}

fn guided(stitch: &str, why: Phrase) -> Figure<Ratio> {
    match guide(stitch) {
        Some(row) => Figure::Known(Ratio {
            value: Number::new(row.ratio),
            basis: RatioBasis::Guide,
            note: say!(LEAST, density = RATIO_DENSITY_PER_CM.to_string(), why),
        }),
        None => Figure::not_yet(say!(NO_RATIO, stitch)),
    }
}

/// At most three decimals, for a remark.
fn short(number: Number) -> String {
    ((number.raw() * 1e3).round() / 1e3).to_string()
}

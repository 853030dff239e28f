//! Lengths of lays by the stated efficiency of each fabric, where nothing is laid.

use std::collections::BTreeSet;

use crate::compute::reason::NOT_SHOWN;
use crate::compute::{Figure, Figures};
use crate::cutting::figures::how;
use crate::geom::grid::snap;
use crate::model::{Model, Variant};
use crate::orders::plan::{Length, Mix};
use crate::standards::common;
use crate::words::{Phrase, say, words};

use super::laid::shortest;
use super::{Laid, LayLengths, Spreading};

words! {
    PLIES_TAKEN "plan.plies-taken" = "plies of {article} are not stated: {plies} (common practice)";
    ENDS_TAKEN "plan.ends-taken" = "ends of the plies of {article}: {length} mm (common practice)";
    NEED_UNKNOWN "plan.need-unknown" = "the need of {article} in size {size} is not known";
}

/// What is said where plies are taken for want of a statement.
pub(super) fn plies_taken(article: &str) -> Phrase {
    say!(PLIES_TAKEN, article, plies = PLIES)
}

/// Plies of a lay where nothing is stated.
pub const PLIES: u32 = common::PLIES_SHORT.high as u32;
/// Lost at the two ends of each ply together, µm.
const ENDS: i64 = 2_000 * common::PLY_END.high as i64;
/// Products in one lay at most, and at least where they would make a short one.
const SETS: (u32, u32) = (4, 12);
/// A lay is about this long or longer where products are small, µm (*common practice*).
const LONG: i64 = 2_000_000;

/// Lengths by the stated efficiency of each fabric: area / (cuttable width × efficiency). No lays.
#[derive(Debug)]
pub struct Estimate<'a> {
    /// The specification.
    pub model: &'a Model,
    /// Its figures: areas of what is cut.
    pub figures: &'a Figures,
}

impl LayLengths for Estimate<'_> {
    fn spreading(&mut self, of: &Laid<'_>) -> Spreading {
        let mut assumed = BTreeSet::new();
        let variant = Variant { size: of.sizes.first().map_or("", String::as_str), colourway: of.colourway };
        let how = self.model.articles.get(of.article).map(|article| how(self.model, article, variant));
        let plies = how.as_ref().and_then(|how| how.plies.known().copied()).filter(|plies| *plies > 0);
        let plies = plies.and_then(|plies| u32::try_from(plies).ok()).unwrap_or_else(|| {
            assumed.insert(plies_taken(of.article));
            PLIES
        });
        let end = how.as_ref().filter(|how| !how.assumed.contains_key("end")).map(|how| snap(how.end.raw()));
        let ends = end.map_or_else(
            || {
                assumed.insert(say!(ENDS_TAKEN, article = of.article, length = ENDS / 1_000));
                ENDS
            },
            |end| 2 * end,
        );
        let table = how.as_ref().and_then(|how| how.table).map(|table| snap(table.raw()));
        let products = how.as_ref().and_then(|how| how.products).and_then(|most| u32::try_from(most).ok());
        let reserve = how.as_ref().and_then(|how| how.reserve).map_or(0, |reserve| snap(reserve.raw()));
        let one = |at: usize| Mix { sets: (0..of.sizes.len()).map(|size| u32::from(size == at)).collect() };
        let longest = (0..of.sizes.len()).filter_map(|at| self.length(of, &one(at)).ok()).map(Length::get).max();
        let sets =
            longest.map_or(SETS.0, |longest| u32::try_from(LONG / longest).unwrap_or(SETS.1).clamp(SETS.0, SETS.1));
        let gap = (table.is_some() || products.is_some()).then_some(0);
        let shortest = shortest(how.as_ref());
        let (step, multiple, splice) = (1, 1, None);
        Spreading { plies, step, multiple, sets, ends, table, products, gap, shortest, reserve, splice, assumed }
    }

    fn length(&mut self, of: &Laid<'_>, mix: &Mix) -> Result<Length, Phrase> {
        let mut length = 0.0;
        for (size, sets) in of.sizes.iter().zip(&mix.sets).filter(|(_, sets)| **sets > 0) {
            let needs = self.figures.fabric.get(size).and_then(|by| by.get(of.colourway));
            let mine = |materials: &BTreeSet<String>| materials == of.materials;
            let need = needs.into_iter().flatten().find(|one| one.bought.article == of.article && mine(&one.materials));
            let need = need.ok_or_else(|| say!(NEED_UNKNOWN, article = of.article, size))?;
            match &need.length {
                Figure::Known(one) => length += one.raw() * f64::from(*sets),
                Figure::NotYet { why } => return Err(Phrase::row(why, "; ")),
                Figure::Withheld => return Err(NOT_SHOWN.into()),
            }
        }
        // Millimetres to whole µm, to the nearest: the sum of areas over a width is not exact.
        Ok(Length::Known(((length * 1e3).round() as i64).max(1)))
    }

    fn lay(&mut self, _: &Laid<'_>, _: &Mix) -> Option<i64> {
        None
    }

    fn is_estimate(&self) -> bool {
        true
    }
}

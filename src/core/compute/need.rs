//! How much of each fabric one product needs by area.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::cutting::figures::LayTasks;
use crate::model::Variant;
use crate::words::say;

use super::counts::CutCount;
use super::input::{Bought, ByVariant, Ground};
use super::number::{number, property};
use super::reason::{MATERIAL_OF, NO_SUCH_CUT, no_article};
use super::shapes::PieceSize;
use super::{Figure, Number};

/// The need of one fabric for one product.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct FabricNeed {
    /// The fabric.
    #[serde(flatten)]
    pub bought: Bought,
    /// What the pieces call it: roles, or the article itself.
    pub materials: BTreeSet<String>,
    /// Pieces cut from it for one product.
    pub pieces: Figure<u64>,
    /// True cut areas added, blocks where a piece is cut as a block, mm².
    pub area: Figure<Number>,
    /// Width that can be cut, mm.
    pub cuttable_width: Figure<Number>,
    /// Stated share of the usable fabric that becomes pieces, percent.
    pub efficiency: Figure<Number>,
    /// Length of fabric, mm: of the lay, shared by the products on it; as long as there is no lay, an estimate: area /
    /// (cuttable width × efficiency).
    pub length: Figure<Number>,
    /// Whether the length is an estimate.
    pub estimate: bool,
    /// Full width of the roll, mm.
    pub width: Figure<Number>,
    /// Mass of that length on the full width, g; an estimate if the length is one.
    pub mass: Figure<Number>,
}

/// Every cut of one piece and what it takes, with the material it is cut from.
pub(super) struct Taken<'a> {
    pub count: &'a CutCount,
    pub bought: Figure<Bought>,
    /// Area of material of one, mm².
    pub material_area: Figure<Number>,
    /// Area that stays in the product, mm².
    pub area: Figure<Number>,
}

type Pieces = BTreeMap<String, BTreeMap<String, PieceSize>>;

/// What every cut takes in one product.
pub(super) fn taken<'a>(
    ground: &Ground<'a>,
    cuts: &'a [CutCount],
    pieces: &Pieces,
    variant: Variant<'_>,
) -> Vec<Taken<'a>> {
    let each = |count: &'a CutCount| {
        let figures = pieces.get(&count.piece).and_then(|sizes| sizes.get(variant.size)?.cuts.get(&count.cut));
        let unknown = || Figure::not_yet(say!(NO_SUCH_CUT, piece = &count.piece, cut = &count.cut));
        let what = say!(MATERIAL_OF, of = format!("{} {}", count.piece, count.cut));
        Taken {
            count,
            bought: ground.bought(count.material.as_deref(), variant.colourway, what),
            material_area: figures.map_or_else(unknown, |cut| cut.material_area.clone()),
            area: figures.map_or_else(unknown, |cut| cut.line.as_ref().map(|line| line.area)),
        }
    };
    cuts.iter().map(each).collect()
}

/// An area taken as often as the cut is made.
pub(super) fn of_all(area: &Figure<Number>, total: &Figure<u64>) -> Figure<Number> {
    area.clone().by(total.clone().map(|total| Number::new(total as f64)))
}

pub(super) fn fabric(
    ground: &Ground<'_>,
    cuts: &[CutCount],
    pieces: &Pieces,
    lays: &LayTasks,
) -> ByVariant<Vec<FabricNeed>> {
    ground.by_variant(|variant| {
        let taken = taken(ground, cuts, pieces, variant);
        let mut by: BTreeMap<&Bought, Vec<&Taken<'_>>> = BTreeMap::new();
        for one in &taken {
            if let Figure::Known(bought) = &one.bought {
                by.entry(bought).or_default().push(one);
            }
        }
        by.into_iter().map(|(bought, all)| need(ground, bought, &all, variant, lays)).collect()
    })
}

fn need(ground: &Ground<'_>, bought: &Bought, all: &[&Taken<'_>], variant: Variant<'_>, lays: &LayTasks) -> FabricNeed {
    let property = |key: &str| match ground.article(bought) {
        Some(article) => number(property(article, key, variant)),
        None => Figure::not_yet(no_article(&bought.article)),
    };
    let area = Figure::sum(all.iter().map(|one| of_all(&one.material_area, &one.count.total)));
    let (cuttable_width, share, width) = (property("cuttable-width"), property("efficiency"), property("width"));
    let across = cuttable_width.clone().by(share.clone());
    let laid = lays.per_product(variant.size, variant.colourway, bought);
    let estimate = laid.known().is_none();
    let length = match estimate {
        true => area.clone().with(across, |area, across| area.raw() / across.raw()).then(Figure::number),
        false => laid,
    };
    FabricNeed {
        bought: bought.clone(),
        materials: all.iter().filter_map(|one| one.count.material.clone()).collect(),
        pieces: Figure::total(all.iter().map(|one| one.count.total.clone())),
        mass: length.clone().by(width.clone()).by(property("mass")),
        efficiency: share.times(100.0),
        area,
        cuttable_width,
        length,
        estimate,
        width,
    }
}

//! What is bought for one product in one order: the bill of materials.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::filling::Filling;
use super::input::{Bought, ByVariant};
use super::mass::Mass;
use super::need::FabricNeed;
use super::thread::Thread;
use super::trims::{TrimLine, TrimUnit};
use super::{Figure, Number};

/// What is bought for one product, in one order: fabric, thread, filling, trims, each by the ids of article and colour.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Bill {
    /// The lines.
    pub lines: Vec<BillLine>,
    /// Why something that is used stands in no line.
    pub missing: BTreeSet<String>,
}

/// One article in one colour.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct BillLine {
    /// `fabric`, `thread`, `filling` or `trim`.
    pub kind: &'static str,
    /// The article and its colour.
    #[serde(flatten)]
    pub bought: Bought,
    /// What `uses` are in: `mm` (fabric, thread, length goods), `g` (filling) or `pieces`.
    pub unit: &'static str,
    /// Whether the use is an estimate: fabric by a stated efficiency, thread by a guide.
    pub estimate: bool,
    /// Use for one product by size and colourway, that of thread with its wastage; a product without the article is absent.
    pub uses: ByVariant<Figure<Number>>,
    /// Thread only: the same without wastage.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub net: ByVariant<Figure<Number>>,
}

/// The figures a bill is made of.
pub(super) struct Uses<'a> {
    pub fabric: &'a ByVariant<Vec<FabricNeed>>,
    pub thread: &'a ByVariant<Thread>,
    pub filling: &'a ByVariant<Filling>,
    pub trims: &'a ByVariant<Vec<TrimLine>>,
    pub mass: &'a ByVariant<Mass>,
}

/// Place of a kind in the bill, and the kind.
type Place = (u8, &'static str, Bought);
/// Number of a kind in the bill, and its word.
type Kind = (u8, &'static str);

pub(super) fn bill(uses: &Uses<'_>) -> Bill {
    let mut lines: BTreeMap<Place, BillLine> = BTreeMap::new();
    type About = (&'static str, bool);
    let mut put = |size: &str, colourway: &str, at: Kind, bought: &Bought, about: About, use_: Figure<Number>| {
        let line = lines.entry((at.0, at.1, bought.clone())).or_insert_with(|| BillLine {
            kind: at.1,
            bought: bought.clone(),
            unit: about.0,
            estimate: false,
            uses: BTreeMap::new(),
            net: BTreeMap::new(),
        });
        line.estimate |= about.1;
        add(&mut line.uses, (size, colourway), use_);
    };
    for (size, colourway, all) in each(uses.fabric) {
        all.iter().for_each(|one| {
            let about = ("mm", one.estimate);
            put(size, colourway, (0, "fabric"), &one.bought, about, one.length.clone());
        });
    }
    for (size, colourway, thread) in each(uses.thread) {
        thread.totals.iter().for_each(|one| {
            let about = ("mm", thread.guided(&one.bought));
            put(size, colourway, (1, "thread"), &one.bought, about, one.needed.clone());
        });
    }
    for (size, colourway, filling) in each(uses.filling) {
        for stuffing in &filling.stuffings {
            if let Figure::Known(bought) = &stuffing.bought {
                put(size, colourway, (2, "filling"), bought, ("g", false), stuffing.all.target.clone());
            }
        }
    }
    for (size, colourway, trims) in each(uses.trims) {
        for one in trims {
            let unit = match one.unit {
                TrimUnit::Pieces => "pieces",
                TrimUnit::Mm => "mm",
            };
            put(size, colourway, (3, "trim"), &one.bought, (unit, false), one.total.clone());
        }
    }
    for (size, colourway, thread) in each(uses.thread) {
        for one in &thread.totals {
            if let Some(line) = lines.get_mut(&(1, "thread", one.bought.clone())) {
                add(&mut line.net, (size, colourway), one.net.clone());
            }
        }
    }
    Bill { lines: lines.into_values().collect(), missing: missing(uses.mass) }
}

/// Adds to the use of one product.
fn add(uses: &mut ByVariant<Figure<Number>>, (size, colourway): (&str, &str), more: Figure<Number>) {
    let by = uses.entry(size.to_string()).or_default();
    let sum = by.remove(colourway).unwrap_or(Figure::Known(Number::default()));
    by.insert(colourway.to_string(), Figure::sum([sum, more]));
}

fn missing(mass: &ByVariant<Mass>) -> BTreeSet<String> {
    let lines = each(mass).flat_map(|(_, _, mass)| &mass.lines);
    let unknown = lines.filter_map(|line| match &line.bought {
        Figure::NotYet { why } => Some(why.iter().map(crate::words::Phrase::english)),
        Figure::Known(_) | Figure::Withheld => None,
    });
    unknown.flatten().collect()
}

/// Every product: size, colourway, its figure.
fn each<T>(by: &ByVariant<T>) -> impl Iterator<Item = (&str, &str, &T)> {
    by.iter().flat_map(|(size, colourways)| {
        colourways.iter().map(move |(colourway, figure)| (size.as_str(), colourway.as_str(), figure))
    })
}

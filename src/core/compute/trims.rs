//! How much or how many of every trim one product takes.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::model::assembly::Caught;
use crate::model::{Article, ArticleKind, Held, TrimLayer, Variant};
use crate::units::Dimension;
use crate::words::say;

use super::figure::NOT_STATED;
use super::input::{Bought, ByVariant, Ground};
use super::number::{number, property, small};
use super::reason::{EDGE_UNKNOWN, EDGES_UNKNOWN, TRIM_LAPS_OF, TRIM_RATIO_OF, USE_OF};
use super::seams::SeamFigures;
use super::{Figure, Number};

/// One trim in one product.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct TrimLine {
    /// The trim.
    #[serde(flatten)]
    pub bought: Bought,
    /// Whether it is counted in pieces or measured in millimetres.
    pub unit: TrimUnit,
    /// Stated use by itself, pieces or mm; absent where none is stated but its length in seams is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stated: Option<Figure<Number>>,
    /// Length caught in seams and bound round edges, mm: edge length × ratio, and laps, for every image.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub in_seams: Option<Figure<Number>>,
    /// Use in one product, pieces or mm.
    pub total: Figure<Number>,
    /// Whether it hangs on the product or packs it and is no part of its mass: it is fitted by a step `bag`, `box` or `pack`, or
    /// its sort is one of these words, `polybag`, `carton` or `hangtag`.
    pub packing: bool,
}

/// What a trim is measured in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum TrimUnit {
    /// Pieces.
    Pieces,
    /// Millimetres.
    Mm,
}

/// Every trim that is used: those that state a use or lie in a seam.
pub(super) fn trims(ground: &Ground<'_>, seams: &BTreeMap<String, SeamFigures>) -> ByVariant<Vec<TrimLine>> {
    ground.by_variant(|variant| {
        let lengths = lengths(ground, seams, variant);
        let mut lines = Vec::new();
        for bought in named(ground, variant, &lengths) {
            if let Some(article) = ground.article(&bought) {
                let packing = packing(ground, article, variant);
                lines.push(line(article, lengths.get(&bought), bought, variant, packing));
            }
        }
        lines
    })
}

/// What is used as a trim in a colourway: by roles, in seams, or by the article itself.
fn named(ground: &Ground<'_>, variant: Variant<'_>, lengths: &BTreeMap<Bought, Figure<Number>>) -> Vec<Bought> {
    let mut all: Vec<Bought> = lengths.keys().cloned().collect();
    let model = ground.model;
    let closes = model.joints.values().filter_map(|joint| joint.close.as_ref()?.trim.as_ref());
    let steps = model.steps.values().filter_map(|step| step.trim.as_ref());
    let written = closes.chain(steps).map(|trim| &trim.value);
    let names = model.roles.keys().chain(written);
    all.extend(names.filter_map(|name| ground.bought(Some(name), variant.colourway, "").known().cloned()));
    for (id, article) in &ground.model.articles {
        let stated = article.quantity("use").is_some();
        if stated && !all.iter().any(|bought| bought.article == *id) && !anywhere(ground, id) {
            // Only one colour can be meant where only one is bought.
            let colour = match article.colours.as_slice() {
                [only] => Some(only.value.clone()),
                _ => None,
            };
            all.push(Bought { article: id.clone(), colour });
        }
    }
    all.retain(|bought| ground.article(bought).is_some_and(|article| article.kind == ArticleKind::Trim));
    all.sort();
    all.dedup();
    all
}

/// Whether a trim hangs on the product or packs it.
fn packing(ground: &Ground<'_>, article: &Article, variant: Variant<'_>) -> bool {
    let is =
        |word: &str| matches!(word.to_lowercase().as_str(), "bag" | "box" | "pack" | "polybag" | "carton" | "hangtag");
    let fitted = ground.model.steps.values().any(|step| {
        let trim = step.trim.as_ref().and_then(|trim| ground.model.resolve(&trim.value, variant.colourway));
        step.word.as_ref().is_some_and(|word| is(&word.value))
            && trim.is_some_and(|(one, _)| one.entry.id.value == article.entry.id.value)
    });
    fitted || article.text("type").and_then(|sort| sort.known(variant)).is_some_and(|sort| is(sort))
}

/// Whether a colourway gives the article to some role, so that others do without it.
fn anywhere(ground: &Ground<'_>, article: &str) -> bool {
    let written = ground.model.colourways.values().flat_map(|colourway| colourway.roles.values());
    written.map(|text| text.value.split('/').next().unwrap_or("").trim()).any(|name| name == article)
}

fn lengths(
    ground: &Ground<'_>,
    seams: &BTreeMap<String, SeamFigures>,
    variant: Variant<'_>,
) -> BTreeMap<Bought, Figure<Number>> {
    let mut all: BTreeMap<Bought, Figure<Number>> = BTreeMap::new();
    let mut add = |layer: &TrimLayer, run: Figure<Number>, times: u64, title: &str| {
        let Some((article, colour)) = ground.model.resolve(&layer.trim.value, variant.colourway) else { return };
        let bought = Bought { article: article.entry.id.value.clone(), colour: colour.map(ToString::to_string) };
        let length = used(layer, run, title).times(times as f64);
        let sum = all.remove(&bought).unwrap_or(Figure::Known(Number::default()));
        all.insert(bought, Figure::sum([sum, length]));
    };
    for (id, joint) in &ground.model.joints {
        let Some(seam) = seams.get(id) else { continue };
        let Some(size) = seam.sizes.get(variant.size) else { continue };
        let image = ground.assembly.joints.iter().find(|one| one.joint == *id);
        for (at, layer) in joint.between.iter().enumerate() {
            let Held::Trim(layer) = &layer.held else { continue };
            let unknown = || Figure::not_yet(say!(EDGES_UNKNOWN, title = joint.entry.title()));
            let place = image.and_then(|image| image.between.iter().position(|one| *one == Caught::Trim(at)));
            let caught = place.and_then(|place| size.caught.get(place));
            let run = caught.map_or_else(unknown, |caught| caught.length.clone());
            add(layer, run, seam.times.max(1), joint.entry.title());
        }
    }
    for (id, finish) in &ground.model.edge_finishes {
        let Some(tape) = &finish.tape else { continue };
        let edgings: Vec<_> = ground.assembly.edgings.iter().filter(|edging| edging.id == *id).collect();
        let unknown = || Figure::not_yet(say!(EDGE_UNKNOWN, title = finish.entry.title()));
        let run = edgings
            .first()
            .map_or_else(unknown, |edging| super::lengths::side_length(ground, &edging.side, variant.size));
        add(tape, run, edgings.len().max(1) as u64, finish.entry.title());
    }
    all
}

/// Length of trim for one run, mm.
fn used(layer: &TrimLayer, run: Figure<Number>, title: &str) -> Figure<Number> {
    let ratio = match &layer.ratio {
        None => Figure::Known(Number::new(1.0)),
        ratio => Figure::stated(ratio.as_ref(), say!(TRIM_RATIO_OF, title)).then(Figure::number),
    };
    let laps = match &layer.laps {
        None => Figure::Known(Number::default()),
        laps => number(Figure::stated(laps.as_ref(), say!(TRIM_LAPS_OF, title))),
    };
    Figure::sum([run.by(ratio), laps])
}

fn line(
    article: &Article,
    in_seams: Option<&Figure<Number>>,
    bought: Bought,
    variant: Variant<'_>,
    packing: bool,
) -> TrimLine {
    let stated = property(article, "use", variant);
    let pieces = stated.known().is_some_and(|quantity| quantity.dimension() == Dimension::Count);
    let unit = if pieces || (in_seams.is_none() && article.quantity("mass-per-length").is_none()) {
        TrimUnit::Pieces
    } else {
        TrimUnit::Mm
    };
    let own = article.quantity("use").is_some() || in_seams.is_none();
    let stated = own.then(|| stated.then(|quantity| Figure::number(small(&quantity))));
    let total = match (&stated, in_seams) {
        // A length in seams of a trim that is counted comes out of its pieces: it is not added to them.
        (Some(stated), _) if unit == TrimUnit::Pieces => stated.clone(),
        (Some(stated), Some(length)) => Figure::sum([stated.clone(), length.clone()]),
        (Some(stated), None) => stated.clone(),
        (None, Some(length)) => length.clone(),
        (None, None) => Figure::not_yet(say!(NOT_STATED, what = say!(USE_OF, title = article.entry.title()))),
    };
    TrimLine { bought, unit, stated, in_seams: in_seams.cloned(), total, packing }
}

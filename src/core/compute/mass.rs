//! The mass of one product, line by line.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::model::{ArticleKind, PointOfMeasure, Variant};
use crate::units::{Dimension, Rational};
use crate::words::{Phrase, say};

use super::counts::CutCount;
use super::filling::{Filling, Limited};
use super::input::{Bought, ByVariant, Ground};
use super::need::{of_all, taken};
use super::number::property;
use super::reason::{IT, TARGET_OF, THE_PROPERTY_OF, no_article};
use super::shapes::PieceSize;
use super::thread::Thread;
use super::trims::{TrimLine, TrimUnit};
use super::{Figure, Number};

/// The mass of one product.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Mass {
    /// What it is made of.
    pub lines: Vec<MassLine>,
    /// Everything cut from fabric.
    pub shell: Limited,
    /// The finished product, without hangtag and packing, as it is weighed and as a sample is judged: as a point of measure states
    /// it; else the sum of the lines, with the limits of the worst case, all lower limits added and all upper limits added. Limits
    /// are rounded inward to what the scale reads.
    pub product: Limited,
    /// The point of measure that states it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stated: Option<String>,
    /// The sum of the lines without packing.
    pub computed: Figure<Number>,
    /// The product with hangtag and packing, limits likewise.
    pub packed: Limited,
    /// Lines without a tolerance, which add their target to both limits, so that the true limits are wider.
    pub without_tolerance: Vec<String>,
}

/// One article's share of the mass.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct MassLine {
    /// `fabric`, `thread`, `filling` or `trim`.
    pub kind: &'static str,
    /// The article.
    pub bought: Figure<Bought>,
    /// Its mass in the product.
    pub mass: Limited,
    /// Whether it hangs on the product or packs it, and counts in `packed` only.
    pub packing: bool,
}

/// The figures a mass is made of.
pub(super) struct Parts<'a> {
    pub cuts: &'a [CutCount],
    pub pieces: &'a BTreeMap<String, BTreeMap<String, PieceSize>>,
    pub thread: &'a ByVariant<Thread>,
    pub filling: &'a ByVariant<Filling>,
    pub trims: &'a ByVariant<Vec<TrimLine>>,
}

pub(super) fn mass(ground: &Ground<'_>, parts: &Parts<'_>) -> ByVariant<Mass> {
    ground.by_variant(|variant| {
        let scale = scale(ground, variant);
        let fabric = fabric(ground, parts, variant);
        let shell = total(&fabric);
        let mut lines = fabric;
        lines.extend(threads(ground, parts, variant));
        lines.extend(fillings(parts, variant));
        lines.extend(trims(ground, parts, variant));
        let open = lines.iter().filter(|line| line.mass.target.known().is_some() && line.mass.lower.known().is_none());
        let without_tolerance = open.map(name).collect();
        let packed = total(&lines);
        let inside: Vec<MassLine> = lines.iter().filter(|line| !line.packing).cloned().collect();
        let (sum, packed, shell) = (total(&inside).readable(scale), packed.readable(None), shell.readable(None));
        let computed = sum.target.clone();
        let (stated, product) = stated(ground, variant).map_or((None, sum), |(id, product)| (Some(id), product));
        Mass { product, stated, computed, packed, shell, without_tolerance, lines }
    })
}

/// What the only point of measure that weighs the finished product says of it.
fn stated(ground: &Ground<'_>, variant: Variant<'_>) -> Option<(String, Limited)> {
    let weighed = |(id, point): (&String, &PointOfMeasure)| {
        point.state.as_ref()?.known().filter(|state| state.as_str() == "finished")?;
        let title = point.entry.title();
        let target = Figure::of(point.target.as_ref(), variant, say!(TARGET_OF, title));
        target.known().filter(|target| target.dimension() == Dimension::Mass)?;
        let limited = Limited::of(&target, title);
        limited.lower.known()?;
        Some((id.clone(), limited.readable(step(point, variant))))
    };
    let mut all = ground.model.measures.iter().filter_map(weighed);
    all.next().filter(|_| all.next().is_none())
}

/// The step, g, that a point which is weighed is read to.
fn step(point: &PointOfMeasure, variant: Variant<'_>) -> Option<Rational> {
    let step = point.read_to.as_ref()?.known(variant).filter(|step| step.dimension() == Dimension::Mass)?;
    step.si().checked_mul(Rational::whole(1_000))
}

/// The finest step, g, that a point of measure which is weighed is read to.
fn scale(ground: &Ground<'_>, variant: Variant<'_>) -> Option<Rational> {
    ground.model.measures.values().filter_map(|point| step(point, variant)).min()
}

/// Targets added, and limits where at least one line has any; a line without a tolerance adds its target.
fn total(lines: &[MassLine]) -> Limited {
    let any = lines.is_empty() || lines.iter().any(|line| line.mass.lower.known().is_some());
    let limit = |pick: fn(&Limited) -> &Figure<Number>| {
        let each = |line: &MassLine| match (&line.mass.target, pick(&line.mass)) {
            (Figure::Known(target), Figure::NotYet { .. }) => Figure::Known(*target),
            (_, limit) => limit.clone(),
        };
        match any {
            true => Figure::sum(lines.iter().map(each)),
            false => Figure::sum(lines.iter().map(|line| pick(&line.mass).clone())),
        }
    };
    Limited {
        target: Figure::sum(lines.iter().map(|line| line.mass.target.clone())),
        lower: limit(|mass| &mass.lower),
        upper: limit(|mass| &mass.upper),
    }
}

fn name(line: &MassLine) -> String {
    match &line.bought {
        Figure::Known(bought) => bought.article.clone(),
        _ => line.kind.to_string(),
    }
}

/// A property with its limits, in small units.
fn limited(ground: &Ground<'_>, bought: &Figure<Bought>, key: &str, variant: Variant<'_>) -> Limited {
    let value = bought.as_ref().then(|bought| match ground.article(bought) {
        Some(article) => property(article, key, variant),
        None => Figure::not_yet(no_article(&bought.article)),
    });
    let title = bought.known().map_or(IT.into(), |bought| Phrase::from(&bought.article));
    Limited::of(&value, say!(THE_PROPERTY_OF, key, title))
}

/// Each limit multiplied by an amount that has none.
fn scaled(each: &Limited, amount: &Figure<Number>) -> Limited {
    let times = |figure: &Figure<Number>| figure.clone().by(amount.clone());
    Limited { target: times(&each.target), lower: times(&each.lower), upper: times(&each.upper) }
}

fn fabric(ground: &Ground<'_>, parts: &Parts<'_>, variant: Variant<'_>) -> Vec<MassLine> {
    let mut areas: BTreeMap<Bought, Vec<Figure<Number>>> = BTreeMap::new();
    let mut lines = Vec::new();
    for one in taken(ground, parts.cuts, parts.pieces, variant) {
        let area = of_all(&one.area, &one.count.total);
        match one.bought {
            Figure::Known(bought) => areas.entry(bought).or_default().push(area),
            unknown => {
                let mass = Limited {
                    target: unknown.clone().map(|_| Number::default()),
                    lower: unknown.clone().map(|_| Number::default()),
                    upper: unknown.clone().map(|_| Number::default()),
                };
                lines.push(MassLine { kind: "fabric", bought: unknown, mass, packing: false });
            }
        }
    }
    let known = areas.into_iter().map(|(bought, areas)| {
        let bought = Figure::Known(bought);
        let mass = scaled(&limited(ground, &bought, "mass", variant), &Figure::sum(areas));
        MassLine { kind: ArticleKind::Fabric.word(), bought, mass, packing: false }
    });
    known.chain(lines).collect()
}

fn threads(ground: &Ground<'_>, parts: &Parts<'_>, variant: Variant<'_>) -> Vec<MassLine> {
    let Some(thread) = pick(parts.thread, variant) else { return Vec::new() };
    let mut sewn: BTreeMap<Bought, Vec<Figure<Number>>> = BTreeMap::new();
    let mut lines = Vec::new();
    let stitched = thread.lines.iter().map(|line| (&line.bought, &line.sewn));
    for (bought, length) in stitched.chain(thread.stated.iter().map(|one| (&one.bought, &one.length))) {
        match bought {
            Figure::Known(bought) => sewn.entry(bought.clone()).or_default().push(length.clone()),
            unknown => {
                let mass = scaled(&limited(ground, unknown, "fineness", variant), length);
                lines.push(MassLine { kind: "thread", bought: unknown.clone(), mass, packing: false });
            }
        }
    }
    let known = sewn.into_iter().map(|(bought, lengths)| {
        let bought = Figure::Known(bought);
        let mass = scaled(&limited(ground, &bought, "fineness", variant), &Figure::sum(lengths));
        MassLine { kind: ArticleKind::Thread.word(), bought, mass, packing: false }
    });
    known.chain(lines).collect()
}

fn fillings(parts: &Parts<'_>, variant: Variant<'_>) -> Vec<MassLine> {
    let stuffings = pick(parts.filling, variant).map_or(&[][..], |filling| &filling.stuffings);
    let line = |stuffing: &super::StuffingLine| MassLine {
        kind: ArticleKind::Filling.word(),
        bought: stuffing.bought.clone(),
        mass: stuffing.all.clone(),
        packing: false,
    };
    stuffings.iter().map(line).collect()
}

fn trims(ground: &Ground<'_>, parts: &Parts<'_>, variant: Variant<'_>) -> Vec<MassLine> {
    let lines = pick(parts.trims, variant).map_or(&[][..], Vec::as_slice);
    let line = |line: &TrimLine| {
        let key = match line.unit {
            TrimUnit::Pieces => "mass-each",
            TrimUnit::Mm => "mass-per-length",
        };
        let bought = Figure::Known(line.bought.clone());
        let mass = scaled(&limited(ground, &bought, key, variant), &line.total);
        MassLine { kind: ArticleKind::Trim.word(), bought, mass, packing: line.packing }
    };
    lines.iter().map(line).collect()
}

fn pick<'f, T>(by: &'f ByVariant<T>, variant: Variant<'_>) -> Option<&'f T> {
    by.get(variant.size)?.get(variant.colourway)
}

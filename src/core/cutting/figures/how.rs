//! How a fabric is spread and cut: what the specification says, and common practice where it says nothing.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::compute::number::{property, small};
use crate::compute::reason::PLIES_AT_ONCE;
use crate::compute::{Figure, Number};
use crate::model::{Article, Cutting, Method, Model, Spread, Stated, Variant};
use crate::standards::common::{self, Usual};
use crate::units::Quantity;
use crate::words::say;

/// How pieces may lie along the roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Direction {
    /// All one way.
    OneWay,
    /// Along the roll or against it.
    TwoWays,
    /// In quarter turns as well.
    AnyWay,
}

/// How one fabric is spread and cut. Lengths in mm.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct How {
    /// Id of the `[cutting]`; absent where none speaks of the fabric.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cutting: Option<String>,
    /// What cuts, as it is written.
    #[serde(serialize_with = "method")]
    pub method: Method,
    /// How plies lie, as it is written.
    #[serde(serialize_with = "spread")]
    pub spread: Spread,
    /// How pieces may lie.
    pub direction: Direction,
    /// Least distance between pieces.
    pub gap: Number,
    /// Kept free along both long edges.
    pub edge: Number,
    /// Kept free at both ends of a ply.
    pub end: Number,
    /// How far pieces may be turned off their grain, degrees.
    pub tilt: Number,
    /// Length of the table; absent where it is not stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub table: Option<Number>,
    /// Most plies cut at once.
    pub plies: Figure<u64>,
    /// Most products on one ply of an order; absent where it is not stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub products: Option<u64>,
    /// Shortest ply that is spread in an order, mm; absent where it is not stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shortest_ply: Option<Number>,
    /// Kept back of every roll; absent where it is not stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reserve: Option<Number>,
    /// What is common practice here, since the specification says nothing: by what it is, the value taken.
    pub assumed: BTreeMap<&'static str, String>,
}

fn method<S: serde::Serializer>(method: &Method, out: S) -> Result<S::Ok, S::Error> {
    out.serialize_str(method.word())
}

fn spread<S: serde::Serializer>(spread: &Spread, out: S) -> Result<S::Ok, S::Error> {
    out.serialize_str(spread.word())
}

/// The `[cutting]` that speaks of a fabric: the one that names it, else the one that names none.
pub(crate) fn cutting<'m>(model: &'m Model, fabric: &str) -> Option<&'m Cutting> {
    let names = |one: &&Cutting| one.fabrics.iter().any(|id| id.value == fabric);
    model.cuttings.values().find(names).or_else(|| model.cuttings.values().find(|one| one.fabrics.is_empty()))
}

/// How a fabric is spread and cut for one product.
pub(crate) fn how(model: &Model, fabric: &Article, variant: Variant<'_>) -> How {
    let id = fabric.entry.id.value.as_str();
    let cutting = cutting(model, id);
    let mut assumed = BTreeMap::new();
    let method = cutting.and_then(|one| one.method.as_ref()).map(|one| one.value);
    if method.is_none() {
        assumed.insert("method", Method::HandKnife.word().to_string());
    }
    let method = method.unwrap_or(Method::HandKnife);
    let spread = cutting.and_then(|one| one.spread.as_ref()).map(|one| one.value);
    if spread.is_none() {
        assumed.insert("spread", Spread::OneWay.word().to_string());
    }
    let mut length = |stated: fn(&Cutting) -> &Option<Stated<Quantity>>, what, usual: &Usual| {
        let known = cutting.and_then(|one| stated(one).as_ref()).and_then(Stated::known).map(small);
        Number::new(known.unwrap_or_else(|| {
            assumed.insert(what, format!("{} {}", usual.high, usual.unit));
            usual.high
        }))
    };
    let gap = length(|one| &one.gap, "gap", gap(method));
    let end = length(|one| &one.end, "end", &common::PLY_END);
    let plain = |stated: Option<&Stated<Quantity>>| stated.and_then(Stated::known).map(small);
    let edge = Number::new(plain(cutting.and_then(|one| one.edge.as_ref())).unwrap_or(0.0));
    let tilt = cutting.and_then(|one| one.tilt.as_ref()).and_then(Stated::known).copied().unwrap_or(0.0);
    let table = plain(cutting.and_then(|one| one.table.as_ref())).map(Number::new);
    let products = cutting.and_then(|one| one.products.as_ref()).and_then(Stated::known).map(|one| u64::from(*one));
    let shortest_ply = plain(cutting.and_then(|one| one.shortest_ply.as_ref())).map(Number::new);
    let reserve = plain(cutting.and_then(|one| one.reserve.as_ref())).map(Number::new);
    let plies = plies(cutting, fabric, variant, &mut assumed);
    How {
        cutting: cutting.map(|one| one.entry.id.value.clone()),
        method,
        spread: spread.unwrap_or(Spread::OneWay),
        direction: direction(fabric),
        gap,
        edge,
        end,
        tilt: Number::new(tilt),
        table,
        plies,
        products,
        shortest_ply,
        reserve,
        assumed,
    }
}

fn gap(method: Method) -> &'static Usual {
    match method {
        Method::HandKnife => &common::GAP_HAND,
        Method::AutomaticKnife => &common::GAP_AUTOMATIC,
        Method::Die => &common::GAP_DIE,
        Method::Laser => &common::GAP_LASER,
    }
}

/// How pieces may lie on a fabric: as it says; one way where it has pile, else two ways.
pub(crate) fn direction(fabric: &Article) -> Direction {
    let stated = fabric.text("direction").and_then(|value| value.all().next()).and_then(Stated::known);
    match stated.map(String::as_str) {
        Some("one way") => Direction::OneWay,
        Some("two ways") => Direction::TwoWays,
        Some("any way") => Direction::AnyWay,
        _ if fabric.quantity("pile").is_some() => Direction::OneWay,
        _ => Direction::TwoWays,
    }
}

/// The least of: what the height cuts, what the fabric allows, what the room allows. Where none is stated, what is usual
/// for the pile.
fn plies(
    cutting: Option<&Cutting>,
    fabric: &Article,
    variant: Variant<'_>,
    assumed: &mut BTreeMap<&'static str, String>,
) -> Figure<u64> {
    let known = |key: &str| property(fabric, key, variant).known().map(small);
    let height = cutting.and_then(|one| one.height.as_ref()).and_then(Stated::known).map(small);
    let ply = known("ply").or_else(|| known("thickness")).filter(|ply| *ply > 0.0);
    // A height that holds a whole number of plies holds that many.
    let by_height = height.zip(ply).map(|(height, ply)| (height / ply + 1e-9).floor().max(0.0) as u64);
    let own = known("plies").map(|plies| plies.max(0.0) as u64);
    let room = cutting.and_then(|one| one.plies.as_ref()).and_then(Stated::known).map(|plies| u64::from(*plies));
    if let Some(least) = [by_height, own, room].into_iter().flatten().min() {
        return Figure::Known(least);
    }
    match known("pile") {
        Some(pile) => {
            let usual = if pile <= common::SHORT_PILE.high { &common::PLIES_SHORT } else { &common::PLIES_LONG };
            assumed.insert("plies", format!("{}", usual.high));
            Figure::Known(usual.high as u64)
        }
        None => Figure::not_yet(say!(PLIES_AT_ONCE, fabric = fabric.entry.title())),
    }
}

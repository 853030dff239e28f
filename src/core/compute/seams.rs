//! Figures of seams, openings and attachments: lengths of the two sides, between notches, and of caught layers; which
//! way each layer faces.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::model::assembly::{self, Caught, Edging};
use crate::model::{Darts, Held, Joint, JointKind, SeamSide};
use crate::words::say;

use super::dart::bites;
use super::input::Ground;
use super::lengths::{line_length, side_length};
use super::reason::{EASE_OF, EDGES_UNKNOWN, RATIO_OF};
use super::stretch::stretches;
use super::widths::{Sides, Widths};
use super::{Figure, Number};

/// Which way the right side of a layer faces in a seam.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Facing {
    /// Towards the needle.
    Up,
    /// Away from the needle.
    Down,
    /// It follows from nothing that is stated.
    NotKnown,
}

/// One seam, opening or attachment.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SeamFigures {
    /// `seam`, `opening`, or `attach`: side `a` is the edge that is sewn on, side `b` the line it is sewn to.
    pub kind: &'static str,
    /// Whether both sides are one fabric, folded: a dart that is marked, not cut.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub fold: bool,
    /// Which way each layer faces, in needle order; nothing is said of openings and attachments.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub facing: Vec<Facing>,
    /// How often it is made in one product: once per use it is written for, and again for a mirror image.
    pub times: u64,
    /// Layers in needle order, both sides and what is caught.
    pub layers: u64,
    /// Of which side the allowance is printed.
    pub allowance_of: Sides,
    /// Lengths by size; all its images are the same length.
    pub sizes: BTreeMap<String, SeamSize>,
}

impl SeamFigures {
    /// Every width of its allowance, each once: size by size in this order, side `a` first.
    pub fn widths<'a>(&'a self, sizes: impl IntoIterator<Item = &'a str>) -> Vec<&'a str> {
        let mut all: Vec<&str> = Vec::new();
        for Widths { a, b } in sizes.into_iter().filter_map(|size| self.sizes.get(size)).map(|size| &size.allowance) {
            for width in a.iter().chain(b) {
                if !all.contains(&width.as_str()) {
                    all.push(width);
                }
            }
        }
        all
    }
}

/// One seam or opening in one size.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SeamSize {
    /// Allowance along both sides, as written.
    pub allowance: Widths,
    /// Length of side `a` on the sew line, mm.
    pub a: Figure<Number>,
    /// Length of side `b`, mm.
    pub b: Figure<Number>,
    /// `b` − `a`, mm.
    pub difference: Figure<Number>,
    /// How much longer the side with fullness is than the other, percent of the other; negative where it is shorter.
    /// The longer side where no ease, gather or stretch is stated.
    pub fullness: Figure<Number>,
    /// The most that is allowed, percent: of an ease, or what a gather or stretch comes to; absent where none is stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allowed: Option<Figure<Number>>,
    /// Length of the finished seam, mm: of the side without fullness, of the stretched length under an elastic, of the
    /// longer side where nothing is stated.
    pub sewn: Figure<Number>,
    /// `sewn` for all its images in one product, mm.
    pub sewn_in_product: Figure<Number>,
    /// What is caught, in needle order.
    pub caught: Vec<CaughtSize>,
    /// Stretches between the points and notches that meet, from the first end on; absent where both sides have not
    /// as many of them, or none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub between: Vec<Between>,
}

/// One stretch of a seam between two places that meet.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Between {
    /// Its edge among those of side `a`, from 1.
    pub edge: u64,
    /// The point of side `a` where it begins, or the last one before the notch where it begins.
    pub from: String,
    /// The notch where it begins, counted from that point; absent at the point itself.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from_notch: Option<u64>,
    /// The point of side `a` where it ends, or the last one before the notch where it ends.
    pub to: String,
    /// The notch where it ends, counted from that point; absent at the point itself.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to_notch: Option<u64>,
    /// Its length on side `a`, mm.
    pub a: Number,
    /// Its length on side `b`, mm.
    pub b: Number,
}

/// One caught layer in one size.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CaughtSize {
    /// The trim, as written; absent for the edge of a piece.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub trim: Option<String>,
    /// The length along which it is caught, mm, once.
    pub length: Figure<Number>,
}

/// Seams, openings and attachments by id.
pub(super) fn seams(ground: &Ground<'_>) -> BTreeMap<String, SeamFigures> {
    let mut all = BTreeMap::new();
    for (id, joint) in &ground.model.joints {
        let images: Vec<&assembly::Resolved> = ground.assembly.joints.iter().filter(|one| one.joint == *id).collect();
        let fold = images.first().is_some_and(|image| is_fold(ground, image));
        let kind = match joint.kind {
            JointKind::Seam => "seam",
            JointKind::Opening => "opening",
        };
        let mut sizes = ground.by_size(|size| seam_size(ground, joint, &images, size));
        if fold {
            // The cut line bridges the mouth: there is no edge that could have an allowance.
            sizes.values_mut().for_each(|size| size.allowance = Widths::default());
        }
        let facing = facing(ground, id, joint);
        let layers = 2 + joint.between.len() as u64;
        let allowance_of = Sides::of(sizes.values().map(|size| &size.allowance));
        let times = images.len() as u64;
        all.insert(id.clone(), SeamFigures { kind, fold, facing, times, layers, allowance_of, sizes });
    }
    for id in ground.model.attaches.keys() {
        let images: Vec<&Edging> = ground.assembly.edgings.iter().filter(|one| one.id == *id).collect();
        if let Some(first) = images.first().filter(|one| one.line.is_some()) {
            let sizes = ground.by_size(|size| attach_size(ground, first, images.len(), size));
            let (times, facing) = (images.len() as u64, Vec::new());
            let attach =
                SeamFigures { kind: "attach", fold: false, facing, times, layers: 2, allowance_of: Sides::None, sizes };
            all.insert(id.clone(), attach);
        }
    }
    all
}

/// Whether a seam closes a dart that reaches the sewer marked on whole fabric.
fn is_fold(ground: &Ground<'_>, joint: &assembly::Resolved) -> bool {
    let Some(instance) = joint.a.runs.first().and_then(|run| ground.assembly.instances.get(run.instance)) else {
        return false;
    };
    let marked = ground.model.pieces.get(&instance.piece).is_some_and(|piece| piece.darts == Darts::Marked);
    let Some(outline) = ground.assembly.outlines.any(&instance.piece) else { return false };
    marked && bites(ground.assembly, &instance.piece, outline).iter().any(|bite| bite.joint == joint.joint)
}

/// Sides face each other; the plies of a turned limb face outward. What else is caught may face either way.
fn facing(ground: &Ground<'_>, id: &str, joint: &Joint) -> Vec<Facing> {
    if joint.kind == JointKind::Opening {
        return Vec::new();
    }
    let limbs = || {
        let limbs = &ground.assembly.sewing.limbs;
        limbs.iter().filter(|limb| ground.assembly.joints.get(limb.joint).is_some_and(|one| one.joint == id))
    };
    let caught = |layer: usize| match limbs().find_map(|limb| limb.facing(layer)) {
        Some(assembly::Facing::Up) => Facing::Up,
        Some(assembly::Facing::Down) => Facing::Down,
        None => Facing::NotKnown,
    };
    let between = (0..joint.between.len()).map(caught);
    std::iter::once(Facing::Down).chain(between).chain([Facing::Up]).collect()
}

fn attach_size(ground: &Ground<'_>, edging: &Edging, images: usize, size: &str) -> SeamSize {
    let a = side_length(ground, &edging.side, size);
    let b = line_length(ground, edging, size, &edging.id);
    let longer = a.clone().with(b.clone(), |a, b| if a.raw() < b.raw() { b } else { a });
    SeamSize {
        allowance: Widths::default(),
        between: Vec::new(),
        difference: a.clone().with(b.clone(), |a, b| Number::new(b.raw() - a.raw())),
        fullness: a.clone().with(b.clone(), |a, b| (a.raw().max(b.raw()), a.raw().min(b.raw()))).then(share),
        allowed: None,
        sewn_in_product: longer.clone().times(images.max(1) as f64),
        sewn: longer,
        caught: Vec::new(),
        a,
        b,
    }
}

/// How much longer the first is, in percent of the second.
fn share((full, other): (f64, f64)) -> Figure<Number> {
    Figure::number((full - other) / other * 100.0)
}

fn seam_size(ground: &Ground<'_>, joint: &Joint, images: &[&assembly::Resolved], size: &str) -> SeamSize {
    let unknown = || Figure::not_yet(say!(EDGES_UNKNOWN, title = joint.entry.title()));
    let first = images.first();
    let a = first.map_or_else(unknown, |one| side_length(ground, &one.a, size));
    let b = first.map_or_else(unknown, |one| side_length(ground, &one.b, size));
    let sewn = sewn(joint, &a, &b);
    let caught = first.map_or(Vec::new(), |one| caught(ground, joint, one, size, &sewn));
    let between = first.map_or(Vec::new(), |one| stretches(ground, one, size)).into_iter().map(|one| Between {
        edge: one.edge,
        a: Number::new(one.a),
        b: Number::new(one.b),
        from: one.from.point,
        from_notch: one.from.notch,
        to: one.to.point,
        to_notch: one.to.notch,
    });
    SeamSize {
        allowance: Widths::of(ground, joint, size),
        between: between.collect(),
        difference: a.clone().with(b.clone(), |a, b| Number::new(b.raw() - a.raw())),
        fullness: fullness(joint, &a, &b),
        allowed: allowed(joint),
        sewn_in_product: sewn.clone().times(images.len().max(1) as f64),
        sewn,
        caught,
        a,
        b,
    }
}

/// The side that ease, gathering or elastic is stated for.
fn full_side(joint: &Joint) -> Option<SeamSide> {
    joint.ease.as_ref().or(joint.gather.as_ref()).or(joint.stretch.as_ref()).map(|ease| ease.side)
}

pub(super) fn sewn(joint: &Joint, a: &Figure<Number>, b: &Figure<Number>) -> Figure<Number> {
    match full_side(joint) {
        Some(SeamSide::A) => b.clone(),
        Some(SeamSide::B) => a.clone(),
        None => a.clone().with(b.clone(), |a, b| if a.raw() < b.raw() { b } else { a }),
    }
}

fn fullness(joint: &Joint, a: &Figure<Number>, b: &Figure<Number>) -> Figure<Number> {
    let side = full_side(joint);
    let both = a.clone().with(b.clone(), |a, b| (a.raw(), b.raw()));
    both.then(|(a, b)| match side {
        Some(SeamSide::A) => share((a, b)),
        Some(SeamSide::B) => share((b, a)),
        None => share((a.max(b), a.min(b))),
    })
}

fn allowed(joint: &Joint) -> Option<Figure<Number>> {
    let title = joint.entry.title();
    if let Some(ease) = &joint.ease {
        let amount = Figure::stated(Some(&ease.amount), say!(EASE_OF, title));
        return Some(amount.map(|amount| Number::new(amount.si_f64() * 100.0)));
    }
    let ratio = joint.gather.as_ref().or(joint.stretch.as_ref())?;
    let amount = Figure::stated(Some(&ratio.amount), say!(RATIO_OF, title));
    Some(amount.map(|amount| Number::new((amount.si_f64() - 1.0) * 100.0)))
}

fn caught(
    ground: &Ground<'_>,
    joint: &Joint,
    image: &assembly::Resolved,
    size: &str,
    sewn: &Figure<Number>,
) -> Vec<CaughtSize> {
    let stretch = |layer| image.place(layer).map_or(sewn.clone(), |on| side_length(ground, on, size));
    let line = |(layer, caught): (usize, &Caught)| match caught {
        Caught::Side(side) => CaughtSize { trim: None, length: side_length(ground, side, size) },
        Caught::Trim(at) => {
            let trim = match joint.between.get(*at).map(|layer| &layer.held) {
                Some(Held::Trim(trim)) => Some(trim.trim.value.clone()),
                _ => None,
            };
            CaughtSize { trim, length: stretch(layer) }
        }
    };
    image.between.iter().enumerate().map(line).collect()
}

//! Figures of seams and openings: lengths of the two sides, between notches, and of caught layers.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::model::assembly::{self, Caught};
use crate::model::{Joint, JointKind, Layer, SeamSide};
use crate::words::say;

use super::input::Ground;
use super::reason::{EASE_OF, EDGES_UNKNOWN, NO_EDGE, NO_PIECE, NO_SUCH_PIECE, RATIO_OF};
use super::widths::{Sides, Widths};
use super::{Figure, Number};

/// One seam or opening.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SeamFigures {
    /// `seam` or `opening`.
    pub kind: &'static str,
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
    /// The point or notch of side `a` where it begins.
    pub from: String,
    /// The point or notch of side `a` where it ends.
    pub to: String,
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

/// Seams and openings by id.
pub(super) fn seams(ground: &Ground<'_>) -> BTreeMap<String, SeamFigures> {
    let mut all = BTreeMap::new();
    for (id, joint) in &ground.model.joints {
        let images: Vec<&assembly::Resolved> = ground.assembly.joints.iter().filter(|one| one.joint == *id).collect();
        let kind = match joint.kind {
            JointKind::Seam => "seam",
            JointKind::Opening => "opening",
        };
        let sizes = ground.by_size(|size| seam_size(ground, joint, &images, size));
        let layers = 2 + joint.between.len() as u64;
        let allowance_of = Sides::of(sizes.values().map(|size| &size.allowance));
        all.insert(id.clone(), SeamFigures { kind, times: images.len() as u64, layers, allowance_of, sizes });
    }
    all
}

/// Length of a chain of runs on the sew lines of a size, mm.
pub(super) fn side_length(ground: &Ground<'_>, side: &assembly::Side, size: &str) -> Figure<Number> {
    Figure::sum(side.runs.iter().map(|run| run_length(ground, run, size)))
}

/// Length of one run on the sew line of a size, mm.
pub(super) fn run_length(ground: &Ground<'_>, run: &assembly::Run, size: &str) -> Figure<Number> {
    let Some(instance) = ground.assembly.instances.get(run.instance) else {
        return Figure::not_yet(NO_SUCH_PIECE);
    };
    let Some(lines) = ground.drawn.get(&instance.piece, size) else {
        return Figure::not_yet(say!(NO_PIECE, piece = &instance.piece));
    };
    let missing = || Figure::not_yet(say!(NO_EDGE, piece = &instance.piece));
    lines.runs.as_ref().then(|runs| runs.get(run.run).map_or_else(missing, |length| Figure::number(*length)))
}

fn seam_size(ground: &Ground<'_>, joint: &Joint, images: &[&assembly::Resolved], size: &str) -> SeamSize {
    let unknown = || Figure::not_yet(say!(EDGES_UNKNOWN, title = joint.entry.title()));
    let first = images.first();
    let a = first.map_or_else(unknown, |one| side_length(ground, &one.a, size));
    let b = first.map_or_else(unknown, |one| side_length(ground, &one.b, size));
    let sewn = sewn(joint, &a, &b);
    let caught = first.map_or(Vec::new(), |one| caught(ground, joint, one, size, &sewn));
    let between = first.map_or(Vec::new(), |one| stretches(ground, one, size)).into_iter().map(|one| Between {
        a: Number::new(one.a),
        b: Number::new(one.b),
        from: one.from,
        to: one.to,
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
    a.clone().with(b.clone(), |a, b| (a.raw(), b.raw())).then(|(a, b)| {
        let (full, other) = match side {
            Some(SeamSide::A) => (a, b),
            Some(SeamSide::B) => (b, a),
            None => (a.max(b), a.min(b)),
        };
        Figure::number((full - other) / other * 100.0)
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
    let stretch = || image.on.as_ref().map_or(sewn.clone(), |on| side_length(ground, on, size));
    let line = |caught: &Caught| match caught {
        Caught::Side(side) => CaughtSize { trim: None, length: side_length(ground, side, size) },
        Caught::Trim(at) => {
            let trim = match joint.between.get(*at) {
                Some(Layer::Trim(layer)) => Some(layer.trim.value.clone()),
                _ => None,
            };
            CaughtSize { trim, length: stretch() }
        }
    };
    image.between.iter().map(line).collect()
}

/// A stretch between two places of a seam that meet.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stretch {
    pub from: String,
    pub to: String,
    /// Length on side `a` and on side `b`, mm.
    pub a: f64,
    pub b: f64,
    /// Whether one of its ends is a notch.
    pub notched: bool,
}

/// A place along one side: its name, its distance from the first end, whether it is a notch.
type Stop = (String, f64, bool);

/// The stretches of a seam between its points and notches where both sides have as many, else between its points
/// alone where they have as many of those. None for a seam of a single stretch, or of unknown length.
pub(super) fn stretches(ground: &Ground<'_>, joint: &assembly::Resolved, size: &str) -> Vec<Stretch> {
    let both = stops(ground, &joint.a, size).zip(stops(ground, &joint.b, size));
    let Some((mut a, mut b)) = both else { return Vec::new() };
    if a.len() != b.len() {
        a.retain(|(.., notch)| !notch);
        b.retain(|(.., notch)| !notch);
    }
    if a.len() != b.len() || a.len() < 3 {
        return Vec::new();
    }
    let pairs = a.iter().zip(&b);
    let each = pairs.clone().zip(pairs.skip(1)).map(|((a, b), (next_a, next_b))| Stretch {
        from: a.0.clone(),
        to: next_a.0.clone(),
        a: next_a.1 - a.1,
        b: next_b.1 - b.1,
        notched: a.2 || b.2 || next_a.2 || next_b.2,
    });
    each.collect()
}

fn stops(ground: &Ground<'_>, side: &assembly::Side, size: &str) -> Option<Vec<Stop>> {
    let assembly = ground.assembly;
    let mut all: Vec<Stop> = Vec::new();
    let mut passed = 0.0;
    for run in &side.runs {
        let whole = run_length(ground, run, size).get()?;
        let (from, to) = run.ends(&assembly.outlines, &assembly.instances)?;
        if all.is_empty() {
            all.push((from.to_string(), 0.0, false));
        }
        let lines = ground.drawn.get(&assembly.instances.get(run.instance)?.piece, size)?;
        let here = lines.notches.known().into_iter().flatten().filter(|mark| mark.at.0 == run.run && mark.at.1 > 0.0);
        let along = here.map(|mark| if run.forward { mark.at.1 } else { whole - mark.at.1 });
        let mut inner: Vec<f64> = along.filter(|at| *at > 0.005 && *at < whole - 0.005).collect();
        inner.sort_by(f64::total_cmp);
        all.extend(inner.into_iter().map(|at| (format!("{from} + {at:.1} mm"), passed + at, true)));
        passed += whole;
        all.push((to.to_string(), passed, false));
    }
    Some(all)
}

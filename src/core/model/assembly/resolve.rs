//! Finds the runs of every seam, opening, edging and caught layer, and its mirror images.

use std::collections::BTreeSet;

use crate::model::{Chain, Held, Joint, Layer, Model, RunRef};
use crate::source::{Edit, Help};
use crate::words::{say, words};

use super::finder::Finder;
use super::instance::Index;
use super::{Caught, Edging, Instance, Outlines, Resolved, Reverse, Side, Trouble, TroubleKind};

words! {
    OWN_IMAGE "mirror.own-image" = "{id} is its own mirror image, so it would be sewn twice";
    NOT_NEEDED "mirror.not-needed" = "not needed here";
    TAKE_OUT "mirror.take-out" = "take `mirrored = true` out of {id}";
}

/// What was found, and what was not.
#[derive(Debug, Default)]
pub struct Found {
    /// Seams and openings.
    pub joints: Vec<Resolved>,
    /// Finishes, attachments, stitches.
    pub edgings: Vec<Edging>,
    /// Pieces named where something could not be found: nothing is said about their runs.
    pub unsure: BTreeSet<String>,
}

/// Finds the runs of every joint and edging. What cannot be found (an outline by factory, an unknown point) is left
/// out, and the pieces it names are noted.
pub fn resolve(model: &Model, outlines: &Outlines, instances: &[Instance], troubles: &mut Vec<Trouble>) -> Found {
    let index = Index::of(instances);
    let base = Finder { model, outlines, instances, index: &index, usage: "", mirrored: false };
    let mut found = Found::default();
    for (id, joint) in &model.joints {
        let first = found.joints.len();
        joints(&base, id, joint, &mut found, troubles);
        drop_own_image(joint, first, &mut found.joints, troubles);
    }
    edgings(&base, &mut found, troubles);
    found
}

fn joints(base: &Finder<'_>, id: &str, joint: &Joint, found: &mut Found, troubles: &mut Vec<Trouble>) {
    let chains: Vec<&Chain> =
        joint.a.iter().chain(&joint.b).chain(joint.on.iter()).chain(joint.between.iter().flat_map(written)).collect();
    let mirror = joint.mirrored.as_ref().is_some_and(|flag| flag.value);
    for (usage, image) in images(base.model, &chains, mirror) {
        let finder = Finder { usage: &usage, mirrored: image == Reverse::Mirrored, ..*base };
        match resolved(&finder, id, joint, image, troubles) {
            Some(one) => found.joints.push(one),
            None => found.unsure.extend(pieces(&chains)),
        }
    }
}

/// The edges that a caught layer is written with.
fn written(layer: &Layer) -> impl Iterator<Item = &Chain> {
    let held = match &layer.held {
        Held::Chain(chain) => Some(chain),
        Held::Trim(_) => None,
    };
    held.into_iter().chain(&layer.on)
}

fn pieces<'c>(chains: &'c [&Chain]) -> impl Iterator<Item = String> + 'c {
    chains.iter().flat_map(|chain| &chain.runs).map(|run| run.piece.clone())
}

/// `None` unless both sides, every caught edge and `on` were found; all of them are looked for, so that every trouble
/// is told at once.
fn resolved(
    finder: &Finder<'_>,
    id: &str,
    joint: &Joint,
    image: Reverse,
    troubles: &mut Vec<Trouble>,
) -> Option<Resolved> {
    let a = joint.a.as_ref().and_then(|chain| finder.side(chain, troubles));
    let b = joint.b.as_ref().and_then(|chain| finder.side(chain, troubles));
    let mut between = Vec::new();
    let mut places = Vec::new();
    for (n, layer) in joint.between.iter().enumerate() {
        between.push(match &layer.held {
            Held::Chain(chain) => finder.side(chain, troubles).map(Caught::Side),
            Held::Trim(_) => Some(Caught::Trim(n)),
        });
        places.push(stretch(finder, layer.on.as_ref(), troubles));
    }
    let on = stretch(finder, joint.on.as_ref(), troubles);
    let between = between.into_iter().collect::<Option<Vec<Caught>>>()?;
    let places = places.into_iter().collect::<Option<Vec<Option<Side>>>>()?;
    let usage = finder.usage.to_string();
    Some(Resolved { joint: id.to_string(), image, usage, a: a?, b: b?, between, places, on: on? })
}

/// The stretch that `on` names, if it names one; `None` where it was not found.
fn stretch(finder: &Finder<'_>, on: Option<&Chain>, troubles: &mut Vec<Trouble>) -> Option<Option<Side>> {
    match on {
        Some(chain) => finder.side(chain, troubles).map(Some),
        None => Some(None),
    }
}

/// A seam that is its own mirror image must not be written as mirrored: its images are taken out again.
fn drop_own_image(joint: &Joint, first: usize, joints: &mut Vec<Resolved>, troubles: &mut Vec<Trouble>) {
    let Some(flag) = &joint.mirrored else { return };
    let mut seen: BTreeSet<Vec<(usize, usize)>> = BTreeSet::new();
    let mut own = false;
    let tail = joints.split_off(first.min(joints.len()));
    for one in tail {
        let mut runs: Vec<(usize, usize)> =
            one.a.runs.iter().chain(&one.b.runs).map(|run| (run.instance, run.run)).collect();
        runs.sort_unstable();
        if seen.insert(runs) || one.image == Reverse::Written {
            joints.push(one);
        } else {
            own = true;
        }
    }
    if own {
        let id = &joint.entry.id.value;
        troubles.push(Trouble {
            kind: TroubleKind::Mirror,
            message: say!(OWN_IMAGE, id),
            span: flag.span,
            label: NOT_NEEDED.into(),
            help: Some(Help::with(say!(TAKE_OUT, id), Edit::take_out(flag.span).safe())),
        });
    }
}

/// The uses and images a written chain stands for: once per use of a part used several times if no use is named, and
/// once more with left and right exchanged if it is mirrored.
fn images(model: &Model, chains: &[&Chain], mirrored: bool) -> Vec<(String, Reverse)> {
    let runs = || chains.iter().flat_map(|chain| &chain.runs);
    let mut uses = vec![String::new()];
    if runs().all(|run| run.usage.is_none()) {
        let parts: BTreeSet<&str> = runs().filter_map(|run| part_of(model, run)).collect();
        if let (Some(part), None) = (parts.first(), parts.iter().nth(1))
            && let Some(part) = model.parts.get(*part)
        {
            uses = part.uses.iter().map(|usage| usage.name.clone()).collect();
        }
    }
    let mut all = Vec::new();
    for usage in uses {
        all.push((usage.clone(), Reverse::Written));
        if mirrored {
            all.push((usage, Reverse::Mirrored));
        }
    }
    all
}

fn part_of<'m>(model: &'m Model, run: &RunRef) -> Option<&'m str> {
    model.pieces.get(&run.piece)?.part.as_ref().map(|part| part.value.as_str())
}

/// An edge finish, attachment or topstitch as it is written.
struct Written<'m> {
    id: &'m str,
    edge: Option<&'m Chain>,
    line: Option<&'m RunRef>,
    mirrored: bool,
    joins: bool,
}

fn edgings(base: &Finder<'_>, found: &mut Found, troubles: &mut Vec<Trouble>) {
    let model = base.model;
    let flag = |flag: &Option<crate::source::Spanned<bool>>| flag.as_ref().is_some_and(|flag| flag.value);
    let finishes = model.edge_finishes.iter().map(|(id, one)| {
        let mirrored = flag(&one.mirrored);
        Written { id, edge: one.on.as_ref(), line: None, mirrored, joins: false }
    });
    let attaches = model.attaches.iter().map(|(id, one)| {
        let mirrored = flag(&one.mirrored);
        Written { id, edge: one.edge.as_ref(), line: one.on.as_ref(), mirrored, joins: true }
    });
    let stitches = model.topstitches.iter().map(|(id, one)| {
        let mirrored = flag(&one.mirrored);
        Written { id, edge: None, line: one.on.as_ref(), mirrored, joins: false }
    });
    for written in finishes.chain(attaches).chain(stitches) {
        edging(base, &written, found, troubles);
    }
    raw(base, found, troubles);
}

fn edging(base: &Finder<'_>, written: &Written<'_>, found: &mut Found, troubles: &mut Vec<Trouble>) {
    let on = written.line.map(|line| Chain { runs: vec![line.clone()], span: line.span });
    let chains: Vec<&Chain> = written.edge.into_iter().chain(on.as_ref()).collect();
    let Some(span) = chains.first().map(|chain| chain.span) else { return };
    for (usage, image) in images(base.model, &chains, written.mirrored) {
        let finder = Finder { usage: &usage, mirrored: image == Reverse::Mirrored, ..*base };
        let side = written.edge.map(|edge| finder.side(edge, troubles));
        let line = written.line.map(|line| finder.line(line, troubles));
        if side == Some(None) {
            found.unsure.extend(pieces(&chains));
        }
        let (side, line) = (side.flatten(), line.flatten());
        if side.is_none() && line.is_none() {
            continue;
        }
        let side = side.unwrap_or(Side { runs: Vec::new(), span, places: Vec::new() });
        found.edgings.push(Edging { id: written.id.to_string(), image, side, joins: written.joins, line });
    }
}

/// Raw edges hold for every instance of their piece.
fn raw(base: &Finder<'_>, found: &mut Found, troubles: &mut Vec<Trouble>) {
    for (id, piece) in &base.model.pieces {
        for run in &piece.raw {
            for at in base.index.piece(id) {
                match base.runs_of(*at, run, troubles) {
                    Some(runs) => {
                        let places = vec![run.span; runs.len()];
                        let side = Side { runs, span: run.span, places };
                        found.edgings.push(Edging {
                            id: id.clone(),
                            image: Reverse::Written,
                            side,
                            joins: false,
                            line: None,
                        });
                    }
                    None => {
                        found.unsure.insert(id.clone());
                    }
                }
            }
        }
    }
}

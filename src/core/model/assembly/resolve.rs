use crate::model::{Chain, Layer, Model, PathRef, RunRef};
use crate::source::Span;

use super::mirror::partner;
use super::{Instance, Outlines, Trouble, TroubleKind};

/// One run of one instance, walked one way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Run {
    /// Index into the instances.
    pub instance: usize,
    /// Index of the run in its outline.
    pub run: usize,
    /// Whether it is walked counter-clockwise as drawn.
    pub forward: bool,
}

/// One side of a seam: runs in the order they are walked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Side {
    /// The runs.
    pub runs: Vec<Run>,
    /// Where the side is written; a mirror image points at its original.
    pub span: Span,
    /// Place of the written stretch each run comes from.
    pub places: Vec<Span>,
}

/// Something caught in a seam.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Caught {
    /// Edges of pieces.
    Side(Side),
    /// Index of the trim layer among the joint's `between`.
    Trim(usize),
}

/// Which image of a written seam this is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reverse {
    /// As written.
    Written,
    /// Left and right exchanged.
    Mirrored,
}

/// A seam or opening whose runs were found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Resolved {
    /// Id of the joint.
    pub joint: String,
    /// As written, or its mirror image.
    pub image: Reverse,
    /// The use it is made for, where a part used several times is written once; otherwise empty.
    pub usage: String,
    /// First side.
    pub a: Side,
    /// Last side.
    pub b: Side,
    /// What is caught, in needle order.
    pub between: Vec<Caught>,
    /// The stretch of `a` along which caught layers lie, if they are shorter.
    pub on: Option<Side>,
}

/// An edge or line that is worked but joins nothing of the shell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edging {
    /// Id of the finish, attachment or stitch; of the piece for `raw`.
    pub id: String,
    /// The edge; empty for a stitch along an internal line.
    pub side: Side,
    /// Whether the edge is used up by it: an attached edge is, a finished one is not.
    pub joins: bool,
    /// Instances whose internal line is worked, with the line's id.
    pub line: Option<(usize, String)>,
}

/// Everything needed to find a run.
struct Finder<'a> {
    model: &'a Model,
    outlines: &'a Outlines,
    instances: &'a [Instance],
    /// The use meant where none is written.
    usage: &'a str,
    /// Whether the mirror image is looked for.
    mirrored: bool,
}

/// Finds the runs of every joint and edging. `None` results (outline by factory) are left out.
pub fn resolve(
    model: &Model,
    outlines: &Outlines,
    instances: &[Instance],
    troubles: &mut Vec<Trouble>,
) -> (Vec<Resolved>, Vec<Edging>) {
    let mut joints = Vec::new();
    for (id, joint) in &model.joints {
        let chains: Vec<&Chain> =
            joint.a.iter().chain(&joint.b).chain(joint.on.iter()).chain(caught(&joint.between)).collect();
        let mirror = joint.mirrored.as_ref().is_some_and(|flag| flag.value);
        for (usage, image) in images(model, &chains, mirror) {
            let finder = Finder { model, outlines, instances, usage: &usage, mirrored: image == Reverse::Mirrored };
            if let Some(found) = finder.joint(id, joint, image, troubles) {
                joints.push(found);
            }
        }
        check_mirror(id, joint, &joints, troubles);
    }
    let edgings = edgings(model, outlines, instances, troubles);
    troubles.dedup();
    (joints, edgings)
}

fn caught(layers: &[Layer]) -> impl Iterator<Item = &Chain> {
    layers.iter().filter_map(|layer| match layer {
        Layer::Chain(chain) => Some(chain),
        Layer::Trim(_) => None,
    })
}

/// A seam that is its own mirror image must not be written as mirrored.
fn check_mirror(id: &str, joint: &crate::model::Joint, joints: &[Resolved], troubles: &mut Vec<Trouble>) {
    let same: Vec<&Resolved> = joints.iter().filter(|one| one.joint == id).collect();
    let edges = |one: &Resolved| {
        let mut runs: Vec<(usize, usize)> =
            one.a.runs.iter().chain(&one.b.runs).map(|run| (run.instance, run.run)).collect();
        runs.sort_unstable();
        runs
    };
    let (Some(flag), [first, second, ..]) = (&joint.mirrored, same.as_slice()) else { return };
    if first.image != second.image && edges(first) == edges(second) {
        troubles.push(Trouble {
            kind: TroubleKind::Mirror,
            message: format!("{id} is its own mirror image, so it would be sewn twice"),
            span: flag.span,
            label: "not needed here".into(),
            help: Some(format!("take `mirrored = true` out of {id}")),
        });
    }
}

/// The uses and images a written chain stands for: once per use of a part used several times if no use is named, and
/// once more with left and right exchanged if it is mirrored.
fn images(model: &Model, chains: &[&Chain], mirrored: bool) -> Vec<(String, Reverse)> {
    let runs = || chains.iter().flat_map(|chain| &chain.runs);
    let mut uses = vec![String::new()];
    if runs().all(|run| run.usage.is_none()) {
        let mut parts: Vec<&str> = runs().filter_map(|run| part_of(model, run)).collect();
        parts.sort_unstable();
        parts.dedup();
        if let [part] = parts.as_slice()
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

fn edgings(model: &Model, outlines: &Outlines, instances: &[Instance], troubles: &mut Vec<Trouble>) -> Vec<Edging> {
    let mut all = Vec::new();
    let mut add = |id: &str, edge: Option<&Chain>, line: Option<&RunRef>, mirror: bool, joins: bool| {
        let on = line.map(|line| Chain { runs: vec![line.clone()], span: line.span });
        let chains: Vec<&Chain> = edge.into_iter().chain(on.as_ref()).collect();
        for (usage, image) in images(model, &chains, mirror) {
            let finder = Finder { model, outlines, instances, usage: &usage, mirrored: image == Reverse::Mirrored };
            let side = edge.and_then(|edge| finder.side(edge, troubles));
            let line = line.and_then(|line| finder.line(line, troubles));
            let Some(span) = edge.map(|edge| edge.span).or(line.as_ref().map(|_| chains[0].span)) else { continue };
            let empty = Side { runs: Vec::new(), span, places: Vec::new() };
            if side.is_some() || line.is_some() {
                all.push(Edging { id: id.to_string(), side: side.unwrap_or(empty), joins, line });
            }
        }
    };
    for (id, finish) in &model.finishes {
        add(id, finish.on.as_ref(), None, finish.mirrored.as_ref().is_some_and(|flag| flag.value), false);
    }
    for (id, attach) in &model.attaches {
        let mirror = attach.mirrored.as_ref().is_some_and(|flag| flag.value);
        add(id, attach.edge.as_ref(), attach.on.as_ref(), mirror, true);
    }
    for (id, stitch) in &model.stitches {
        add(id, None, stitch.on.as_ref(), stitch.mirrored.as_ref().is_some_and(|flag| flag.value), false);
    }
    all.extend(raw(model, outlines, instances, troubles));
    all
}

/// Raw edges hold for every instance of their piece.
fn raw(model: &Model, outlines: &Outlines, instances: &[Instance], troubles: &mut Vec<Trouble>) -> Vec<Edging> {
    let finder = Finder { model, outlines, instances, usage: "", mirrored: false };
    let mut all = Vec::new();
    for (id, piece) in &model.pieces {
        for run in &piece.raw {
            for (at, _) in instances.iter().enumerate().filter(|(_, one)| one.piece == *id) {
                if let Some(runs) = finder.walk(at, run, troubles) {
                    let places = vec![run.span; runs.len()];
                    all.push(Edging {
                        id: id.clone(),
                        side: Side { runs, span: run.span, places },
                        joins: false,
                        line: None,
                    });
                }
            }
        }
    }
    all
}

impl Finder<'_> {
    fn joint(
        &self,
        id: &str,
        joint: &crate::model::Joint,
        image: Reverse,
        troubles: &mut Vec<Trouble>,
    ) -> Option<Resolved> {
        let a = joint.a.as_ref().and_then(|chain| self.side(chain, troubles));
        let b = joint.b.as_ref().and_then(|chain| self.side(chain, troubles));
        let mut between = Vec::new();
        for (n, layer) in joint.between.iter().enumerate() {
            match layer {
                Layer::Chain(chain) => between.extend(self.side(chain, troubles).map(Caught::Side)),
                Layer::Trim(_) => between.push(Caught::Trim(n)),
            }
        }
        let on = joint.on.as_ref().and_then(|chain| self.side(chain, troubles));
        Some(Resolved { joint: id.to_string(), image, usage: self.usage.to_string(), a: a?, b: b?, between, on })
    }

    fn side(&self, chain: &Chain, troubles: &mut Vec<Trouble>) -> Option<Side> {
        let mut side = Side { runs: Vec::new(), span: chain.span, places: Vec::new() };
        let mut whole = true;
        for run in &chain.runs {
            match self.instance(run, troubles).and_then(|at| self.walk(at, run, troubles)) {
                Some(runs) => {
                    side.places.extend(runs.iter().map(|_| run.span));
                    side.runs.extend(runs);
                }
                None => whole = false,
            }
        }
        whole.then_some(side)
    }

    /// The internal line a stitch or attachment lies on: its instance and the line's id.
    fn line(&self, run: &RunRef, troubles: &mut Vec<Trouble>) -> Option<(usize, String)> {
        let PathRef::Line(line) = &run.path else { return None };
        let at = self.instance(run, troubles)?;
        let outline = self.outlines.any(&run.piece)?;
        if outline.lines.iter().any(|one| one.id == *line) {
            return Some((at, line.clone()));
        }
        troubles.push(Trouble {
            kind: TroubleKind::Unknown,
            message: format!("{} has no internal line called {line}", run.piece),
            span: run.span,
            label: "no such line".into(),
            help: None,
        });
        None
    }

    fn instance(&self, run: &RunRef, troubles: &mut Vec<Trouble>) -> Option<usize> {
        let Some(piece) = self.model.pieces.get(&run.piece) else {
            let help = nearest(&run.piece, self.model.pieces.keys()).map(|near| format!("did you mean `{near}`?"));
            troubles.push(unknown(format!("there is no piece {}", run.piece), run.span, help));
            return None;
        };
        let part = piece.part.as_ref().map_or("", |part| part.value.as_str());
        if let Some(written) = &run.part
            && written != part
        {
            let help = Some(format!("write `{part}` before the slash, or nothing"));
            troubles.push(unknown(format!("{} belongs to part {part}, not {written}", run.piece), run.span, help));
            return None;
        }
        let usage = run.usage.as_deref().unwrap_or(self.usage);
        let copies: Vec<usize> = (0..self.instances.len())
            .filter(|n| self.instances[*n].piece == run.piece && self.instances[*n].usage == usage)
            .collect();
        let at = match (&run.copy, copies.as_slice()) {
            (None, [one]) => Some(*one),
            (Some(copy), _) => copies.iter().copied().find(|n| self.instances[*n].copy == *copy),
            (None, _) => None,
        };
        let Some(at) = at else {
            troubles.push(self.unclear(run, part, &copies));
            return None;
        };
        Some(if self.mirrored { partner(self.instances, at) } else { at })
    }

    /// Why a run does not say which instance it means.
    fn unclear(&self, run: &RunRef, part: &str, copies: &[usize]) -> Trouble {
        let uses: Vec<&str> = self
            .model
            .parts
            .get(part)
            .map_or(Vec::new(), |part| part.uses.iter().map(|one| one.name.as_str()).collect());
        let names: Vec<&str> = copies.iter().map(|n| self.instances[*n].copy.as_str()).collect();
        match (&run.usage, &run.copy) {
            (Some(usage), _) if copies.is_empty() => {
                let help = format!("part {part} is used as {}", list(&uses));
                unknown(format!("part {part} has no use called {usage}"), run.span, Some(help))
            }
            (None, _) if copies.is_empty() => Trouble {
                kind: TroubleKind::Unclear,
                message: format!("{} does not say which use of part {part} it means", run.piece),
                span: run.span,
                label: "which one?".into(),
                help: uses.first().map(|name| format!("write `{part}.{name}/{}`", run.piece)),
            },
            (_, Some(copy)) => {
                let help = match names.as_slice() {
                    [""] => format!("{} is cut once: write `{}` alone", run.piece, run.piece),
                    _ => format!("{} has the copies {}", run.piece, list(&names)),
                };
                unknown(format!("{} has no copy called {copy}", run.piece), run.span, Some(help))
            }
            _ => Trouble {
                kind: TroubleKind::Unclear,
                message: format!("{} does not say which copy it means", run.piece),
                span: run.span,
                label: "which one?".into(),
                help: Some(format!("{} has the copies {}", run.piece, list(&names))),
            },
        }
    }

    /// The runs of an instance along the written points.
    fn walk(&self, at: usize, run: &RunRef, troubles: &mut Vec<Trouble>) -> Option<Vec<Run>> {
        let outline = self.outlines.any(&run.piece)?;
        let PathRef::Points(points) = &run.path else { return None };
        let exchange = self.exchanges(at, run);
        let mut names = Vec::new();
        for point in points {
            let image = |id: &str| outline.axis_images.get(id).cloned();
            let named = if point.image { image(&point.id) } else { Some(point.id.clone()) };
            let known = named.filter(|id| outline.point(id).is_some());
            let Some(id) = known else {
                let all: Vec<&str> = outline.points.iter().map(|one| one.id.as_str()).collect();
                let message = format!("{} has no point {}", run.piece, point.text());
                troubles.push(unknown(message, point.span, Some(format!("its points are {}", list(&all)))));
                return None;
            };
            names.push(if exchange { image(&id).unwrap_or(id) } else { id });
        }
        let mut runs = Vec::new();
        for pair in names.windows(2) {
            match outline.run_between(&pair[0], &pair[1]) {
                Ok(found) => runs.push(Run { instance: at, run: found.index, forward: found.forward }),
                Err(error) => {
                    troubles.push(Trouble {
                        kind: TroubleKind::Unclear,
                        message: format!("{}: {error}", run.piece),
                        span: run.span,
                        label: "a run goes from a point to its neighbour".into(),
                        help: None,
                    });
                    return None;
                }
            }
        }
        Some(runs)
    }

    /// Whether points are exchanged with their images: in a mirror image, where the instance that takes over is turned
    /// the same way as the one it stands for.
    fn exchanges(&self, at: usize, run: &RunRef) -> bool {
        if !self.mirrored {
            return false;
        }
        let original = (0..self.instances.len()).find(|n| {
            let one = &self.instances[*n];
            one.piece == run.piece
                && one.usage == run.usage.as_deref().unwrap_or(self.usage)
                && run.copy.as_ref().is_none_or(|copy| *copy == one.copy)
        });
        original.is_none_or(|n| self.instances[n].mirrored == self.instances[at].mirrored)
    }
}

fn unknown(message: String, span: Span, help: Option<String>) -> Trouble {
    Trouble { kind: TroubleKind::Unknown, message, span, label: "not declared".into(), help }
}

fn nearest<'a>(word: &str, all: impl Iterator<Item = &'a String>) -> Option<&'a String> {
    all.map(|one| (strsim::damerau_levenshtein(word, one), one))
        .filter(|(distance, one)| *distance <= 2.min(one.len().saturating_sub(1)))
        .min()
        .map(|(_, one)| one)
}

fn list(names: &[&str]) -> String {
    names.join(", ")
}

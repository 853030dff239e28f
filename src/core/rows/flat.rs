//! Where a step is done, and what is sewn at the end of a stage: pieces laid flat, their edges bold.

use std::collections::{BTreeMap, BTreeSet};

use crate::geom::{Affine, Outline};
use crate::model::assembly::{Instance, Reverse, Run, Side};
use crate::scene::{FlatPiece, FlatSeam, Segment, flat};
use crate::words::{Phrase, say, words};

use super::curves::{facing, segments};
use super::letters::Letters;
use super::package::{Drawing, ROOMS_PIECE, ROOMS_PLACE, ROOMS_PLACES, ROOMS_STATE};
use super::stages::Stage;
use super::view::View;

words! {
    PLACE "flat.place" = "Where: {pieces}, what is sewn in bold.";
    STATE "flat.state" = "What is sewn at the end of the stage: {pieces}.";
    NOT_DRAWN "flat.not-drawn" = "Not drawn, as they mirror others: {pieces}";
}

/// Pieces that are drawn beside what a stage says; more have the width of a column.
const BESIDE: usize = 4;
/// Pieces that are drawn beside the section of a step; more have the width of what is said.
const FEW: usize = 3;

/// What a step sews of one piece: edges in a row, or an internal line.
struct Touch<'a> {
    instance: usize,
    path: Way<'a>,
    letter: String,
    /// Whether it is no mirror image of what is written.
    written: bool,
}

/// What is sewn.
enum Way<'a> {
    Edges(&'a [Run]),
    Line(&'a str),
}

/// Where a step is done, and whether that takes the width of what is said; none where it is about no edge whose piece has a
/// shape.
pub fn place(view: &View<'_>, letters: &Letters, id: &str) -> Option<(Drawing, bool)> {
    let touched: Vec<Touch<'_>> = touched(view, letters, id).into_iter().filter(|one| one.written).collect();
    let mut pieces: Vec<(usize, FlatPiece)> = Vec::new();
    for one in &touched {
        add(view, &mut pieces, one, true);
    }
    let wide = pieces.len() > FEW;
    let rooms = match pieces.len() {
        0 | 1 => &ROOMS_PIECE,
        2..=FEW => &ROOMS_PLACE,
        _ => &ROOMS_PLACES,
    };
    Some((drawing(&pieces, rooms, |pieces| say!(PLACE, pieces))?, wide))
}

/// What is sewn at the end of a stage of the pieces that it works on; a part that comes into them is one piece of it.
pub fn state(view: &View<'_>, letters: &Letters, stage: &Stage<'_>) -> Option<Drawing> {
    let order = &view.model.work.order;
    let of = |n: usize| order.get(n).map_or(Vec::new(), |id| touched(view, letters, &id.value));
    let now: Vec<Touch<'_>> = stage.steps.iter().flat_map(|n| of(*n)).collect();
    let first = stage.steps.first().copied().unwrap_or_default();
    let before: Vec<Touch<'_>> = (0..first).flat_map(of).collect();
    let shown = Shown::of(view, stage, &now);
    let mut pieces: Vec<(usize, FlatPiece)> = Vec::new();
    for touch in now.iter().filter(|touch| shown.pieces.contains(&touch.instance)) {
        add(view, &mut pieces, touch, true);
    }
    for touch in before.iter().filter(|touch| shown.pieces.contains(&touch.instance)) {
        add(view, &mut pieces, touch, false);
    }
    for (part, at) in &shown.guests {
        let piece = pieces.iter_mut().find(|(one, _)| one == at);
        if let (Some((_, piece)), Some(part)) = (piece, view.model.parts.get(*part)) {
            piece.name = part.entry.title().to_string();
        }
    }
    let rooms = if pieces.len() > BESIDE { &ROOMS_STATE[1..] } else { &ROOMS_STATE };
    let mut drawing = drawing(&pieces, rooms, |pieces| say!(STATE, pieces))?;
    if !shown.mirrored.is_empty() {
        drawing.caption = say!(NOT_DRAWN, pieces = Phrase::list(shown.mirrored));
    }
    Some(drawing)
}

/// Which pieces show the state of a stage.
#[derive(Default)]
struct Shown<'a> {
    /// Those that are drawn.
    pieces: BTreeSet<usize>,
    /// Those that are not, as they mirror others.
    mirrored: BTreeSet<String>,
    /// Of parts that come in, the piece that stands for each: the first that is caught or sewn on.
    guests: BTreeMap<&'a str, usize>,
}

impl<'a> Shown<'a> {
    fn of(view: &View<'a>, stage: &Stage<'_>, now: &[Touch<'_>]) -> Self {
        let written = now.iter().filter(|touch| touch.written).map(|touch| touch.instance);
        let touched: Vec<(usize, &'a Instance)> =
            written.filter_map(|at| Some((at, view.assembly.instances.get(at)?))).collect();
        let drawn = |piece: &str| touched.iter().any(|(_, other)| other.piece == piece && !other.mirrored);
        let mut all = Shown::default();
        for (at, one) in &touched {
            let own = stage.parts.contains(one.part.as_str());
            if !(one.mirrored && drawn(&one.piece)) && (own || all.guests.entry(&one.part).or_insert(*at) == at) {
                all.pieces.insert(*at);
            }
        }
        let others = (0..).zip(&view.assembly.instances).filter(|(at, _)| !all.pieces.contains(at));
        let touches = |at: usize| now.iter().any(|touch| touch.instance == at);
        let left_out = |(at, one): (usize, &'a Instance)| {
            let own = stage.parts.contains(one.part.as_str());
            let shown = all.pieces.iter().filter_map(|at| view.assembly.instances.get(*at));
            let like = shown.into_iter().find(|other| other.piece == one.piece && other.mirrored != one.mirrored)?;
            match (like.usage == one.usage, own) {
                // Of a part that comes in, one piece is drawn for all.
                (true, true) => touches(at).then(|| one.short()),
                (true, false) => None,
                (false, _) => Some(format!("{}.{}", one.part, one.usage)),
            }
        };
        all.mirrored = others.filter_map(left_out).collect();
        all
    }
}

fn drawing(pieces: &[(usize, FlatPiece)], rooms: &[[f64; 2]], alt: impl Fn(Phrase) -> Phrase) -> Option<Drawing> {
    let pieces: Vec<FlatPiece> = pieces.iter().map(|(_, piece)| piece.clone()).collect();
    let names = Phrase::list(pieces.iter().map(|piece| &piece.name));
    let (lines, labels) = (!pieces.is_empty()).then(|| flat(&pieces, rooms, alt(names)))?.parted();
    Some(Drawing { lines: Some(lines), ..Drawing::of(labels, Phrase::none()) })
}

/// Everything that a seam, opening, finish, attachment or topstitch sews, in each of its images; of a part that is made once
/// more, as of the first.
fn touched<'a>(view: &View<'a>, letters: &Letters, id: &str) -> Vec<Touch<'a>> {
    let mut all = Vec::new();
    let mut usage: Option<&str> = None;
    for joint in view.assembly.joints.iter().filter(|joint| joint.joint == id) {
        if *usage.get_or_insert(&joint.usage) != joint.usage {
            continue;
        }
        let letter = letters.seam(joint);
        let written = joint.image == Reverse::Written;
        let edges = joint.sides().flat_map(|side| rows(view, side));
        all.extend(edges.map(|edges| touch(edges, &letter, written)));
    }
    let edging = |image: Reverse| view.assembly.edgings.iter().find(move |one| one.id == id && one.image == image);
    for edging in [Reverse::Written, Reverse::Mirrored].into_iter().filter_map(edging) {
        let letter = letters.edging(edging);
        let written = edging.image == Reverse::Written;
        all.extend(rows(view, &edging.side).map(|edges| touch(edges, &letter, written)));
        let line = edging.line.as_ref().map(|(instance, line)| (*instance, Way::Line(line)));
        all.extend(line.map(|(instance, path)| Touch { instance, path, letter, written }));
    }
    all
}

fn touch<'a>(edges: &'a [Run], letter: &str, written: bool) -> Touch<'a> {
    let instance = edges.first().map_or(0, |run| run.instance);
    Touch { instance, path: Way::Edges(edges), letter: letter.to_string(), written }
}

/// The runs of a side, those in a row that follow each other on one piece together.
fn rows<'a>(view: &View<'a>, side: &'a Side) -> impl Iterator<Item = &'a [Run]> + use<'a> {
    let (outlines, instances) = (&view.assembly.outlines, &view.assembly.instances);
    side.runs.chunk_by(move |one, next| {
        let ends = |run: &Run| run.ends(outlines, instances);
        one.instance == next.instance
            && matches!((ends(one), ends(next)), (Some((_, to)), Some((from, _))) if to == from)
    })
}

/// Adds what is sewn to its piece.
fn add(view: &View<'_>, pieces: &mut Vec<(usize, FlatPiece)>, touch: &Touch<'_>, now: bool) {
    let Some(instance) = view.assembly.instances.get(touch.instance) else { return };
    let Some((_, lines)) = view.shown(&instance.piece) else { return };
    let Some(sew) = lines.sew.known() else { return };
    let turn = facing(instance);
    let paths = paths(sew, &turn, &touch.path);
    let at = pieces.iter().position(|(at, _)| *at == touch.instance).unwrap_or_else(|| {
        let outline = segments(&sew.path.transformed(&turn), true);
        pieces.push((touch.instance, FlatPiece { name: instance.short(), outline, seams: Vec::new() }));
        pieces.len() - 1
    });
    let letter = if now { touch.letter.clone() } else { String::new() };
    let seam = FlatSeam { paths, letter, now };
    if let Some((_, piece)) = pieces.get_mut(at)
        && !piece.seams.iter().any(|one| one.paths == seam.paths)
    {
        piece.seams.push(seam);
    }
}

fn paths(sew: &Outline, turn: &Affine, way: &Way<'_>) -> Vec<Vec<Segment>> {
    match way {
        Way::Edges(edges) => {
            let all = sew.runs();
            let paths = edges.iter().filter_map(|run| all.get(run.run));
            paths.map(|run| segments(&run.path().transformed(turn), false)).collect()
        }
        Way::Line(id) => {
            let lines = sew.lines.iter().filter(|line| line.id == *id);
            lines.map(|line| segments(&line.path.transformed(turn), false)).collect()
        }
    }
}

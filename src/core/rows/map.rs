//! The map of the whole product: its pieces by part on one page, every edge with the letter of its seam.

use std::collections::BTreeMap;

use crate::geom::Outline;
use crate::model::assembly::{Edging, Instance};
use crate::model::{JointKind, Use};
use crate::scene::{Map, MapEdge, MapPiece, PiecePoint, overview};
use crate::words::{Phrase, say, words};

use super::curves::{facing, page, segments};
use super::letters::{self, Letters};
use super::package::{Drawing, ROOM_MAP};
use super::view::View;

words! {
    MAP "matching.map" = "Map of {part}: {pieces}. The table beside it says which edge meets which.";
    AT_SIZE "matching.at-size" = "Size {size}, 1:{scale}";
    AT_SCALE "matching.at-scale" = "1:{scale}";
    NO_SCALE "matching.no-scale" = "Not to scale: small pieces are drawn larger, to be read";
    MIRRORED "matching.mirrored" = "{name} mirrored";
    MADE "matching.made" = "{part}, drawn: {first}; made once more each: {others}";
    TIMES "matching.times" = "{piece} × {count}";
    LEFT_OUT "matching.left-out" = "Not on the map, for want of room: {letters}. The drawings of the pieces show them.";
}

/// The map in a height in mm, none where no outline is known; and what is said below it.
pub fn of(view: &View<'_>, letters: &Letters, height: f64) -> (Option<Drawing>, Vec<Phrase>) {
    let parts = parts(view);
    let made = parts.keys().filter_map(|part| note(view, part));
    let shown: Vec<MapPiece> = parts.values().flat_map(|own| pieces(view, letters, &drawn_ones(view, own))).collect();
    let names: Vec<&str> = shown.iter().map(|piece| piece.title.as_str()).collect();
    let alt = say!(MAP, part = view.text(view.model.style.name.as_ref()), pieces = Phrase::list(names));
    let Some(map) = overview(&shown, ROOM_MAP.width, height, alt) else { return (None, made.collect()) };
    let left = (!map.left.is_empty()).then(|| say!(LEFT_OUT, letters = Phrase::list(&map.left)));
    let notes = made.chain(left).collect();
    let caption = caption(view, &map);
    (Some(Drawing::of(map.scene, caption)), notes)
}

fn caption(view: &View<'_>, map: &Map) -> Phrase {
    let Some(scale) = map.scale.map(|scale| scale.to_string()) else { return NO_SCALE.into() };
    match (size(view), view.sizes().len()) {
        (Some(size), 2..) => say!(AT_SIZE, size = view.model.size(size).map_or(size, |one| one.entry.title()), scale),
        _ => say!(AT_SCALE, scale),
    }
}

/// The instances of the first use of every part.
fn parts<'a>(view: &View<'a>) -> BTreeMap<&'a str, Vec<usize>> {
    let mut all: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, one) in view.assembly.instances.iter().enumerate() {
        let first = view.model.parts.get(&one.part).and_then(|part| part.uses.first());
        if first.is_none_or(|usage| usage.name == one.usage) {
            all.entry(&one.part).or_default().push(at);
        }
    }
    all
}

/// Instances without the mirror images of others.
fn drawn_ones(view: &View<'_>, own: &[usize]) -> Vec<usize> {
    let one = |at: &usize| view.assembly.instances.get(*at);
    let drawn = |piece: &str| own.iter().filter_map(one).any(|other| other.piece == piece && !other.mirrored);
    let shown = |at: &usize| one(at).is_some_and(|instance| !instance.mirrored || !drawn(&instance.piece));
    own.iter().copied().filter(shown).collect()
}

/// How often a part is made, where it is made more than once.
fn note(view: &View<'_>, id: &str) -> Option<Phrase> {
    let part = view.model.parts.get(id)?;
    let named = |one: &Use| match one.mirrored {
        true => say!(MIRRORED, name = &one.name),
        false => Phrase::from(&one.name),
    };
    let [first, others @ ..] = part.uses.as_slice() else { return None };
    let others = Phrase::list(others.iter().map(named));
    (!others.is_empty()).then(|| say!(MADE, part = part.entry.title(), first = &first.name, others))
}

/// The first size in which any outline is known.
fn size<'a>(view: &View<'a>) -> Option<&'a str> {
    let known = |size: &&str| view.model.pieces.keys().any(|piece| view.drawn.sew(piece, size).known().is_some());
    view.sizes().into_iter().find(known)
}

/// The pieces of a part; copies that are drawn and sewn alike only once. A title says how many there are of a piece where it
/// is drawn once for several.
fn pieces(view: &View<'_>, letters: &Letters, own: &[usize]) -> Vec<MapPiece> {
    let mut all: Vec<(MapPiece, &Instance)> = Vec::new();
    for at in own {
        let Some(instance) = view.assembly.instances.get(*at) else { continue };
        let Some(piece) = piece(view, letters, *at, instance) else { continue };
        let same = |(one, other): &&mut (MapPiece, &Instance)| {
            other.piece == instance.piece && one.edges == piece.edges && one.lines == piece.lines
        };
        match all.iter_mut().find(same) {
            Some((one, _)) => one.title.push_str(&format!(", {}", instance.copy)),
            None => all.push((piece, instance)),
        }
    }
    let kinds: Vec<&str> = all.iter().map(|(_, instance)| instance.piece.as_str()).collect();
    let once = |piece: &str| kinds.iter().filter(|one| **one == piece).count() == 1;
    let titled = |(piece, instance): &(MapPiece, &Instance)| {
        let count = view.assembly.instances.iter().filter(|one| one.piece == instance.piece).count();
        let title = match count {
            2.. if once(&instance.piece) => {
                say!(TIMES, piece = &piece.title, count).in_language(view.model.style.languages.first)
            }
            _ => piece.title.clone(),
        };
        MapPiece { title, ..piece.clone() }
    };
    all.iter().map(titled).collect()
}

fn piece(view: &View<'_>, letters: &Letters, at: usize, instance: &Instance) -> Option<MapPiece> {
    let size = size(view)?;
    let drawn = view.drawn.sew(&instance.piece, size);
    let sew: &Outline = drawn.known()?;
    let turn = facing(instance);
    let runs = sew.runs();
    let edges = runs.iter().enumerate().map(|(run, path)| {
        let borne = letters::of_run(view, letters, (at, run));
        let images = images(view, at).into_iter().flat_map(|image| letters::of_run(view, letters, (image, run)));
        let mut joined: Vec<String> = borne.iter().map(|(letter, _)| letter.clone()).collect();
        for (letter, _) in images {
            let letter = letter.replace('′', "");
            if !joined.iter().any(|one| one.replace('′', "") == letter) {
                joined.push(letter);
            }
        }
        MapEdge {
            path: segments(&path.path().transformed(&turn), false),
            letter: joined.join(" "),
            forward: borne.first().map(|(_, run)| run.forward),
            open: open(view, (at, run)),
        }
    });
    let points = sew
        .points
        .iter()
        .filter_map(|one| Some(PiecePoint { name: one.id.clone(), at: page(turn.apply(sew.point(&one.id)?)) }));
    let lines = sew.lines.iter().filter_map(|line| {
        let on = |edging: &&Edging| edging.line.as_ref() == Some(&(at, line.id.clone()));
        let letter = view.assembly.edgings.iter().find(on).map(|edging| letters.edging(edging))?;
        Some((letter, segments(&line.path.transformed(&turn), false)))
    });
    let (edges, points, lines) = (edges.collect(), points.collect(), lines.collect());
    let several = view.model.parts.len() > 1;
    let part = view.model.parts.get(&instance.part).filter(|_| several).map_or("", |part| part.entry.title());
    Some(MapPiece { title: instance.short(), part: part.to_string(), edges, points, lines })
}

/// The mirror images of an instance in the same use of its part, which are left out of the map: what they alone bear is written at
/// the edges of this one.
fn images(view: &View<'_>, at: usize) -> Vec<usize> {
    let all = &view.assembly.instances;
    let Some(own) = all.get(at).filter(|one| !one.mirrored) else { return Vec::new() };
    let image =
        |one: &Instance| one.mirrored && one.piece == own.piece && (&one.part, &one.usage) == (&own.part, &own.usage);
    all.iter().enumerate().filter(|(_, one)| image(one)).map(|(n, _)| n).collect()
}

/// Whether a run is a side of an opening.
fn open(view: &View<'_>, run: (usize, usize)) -> bool {
    let joints = view.assembly.sewing.accounts.get(&run).map_or(&[][..], |account| account.joints.as_slice());
    let mut ids = joints.iter().filter_map(|n| view.assembly.joints.get(*n)).map(|joint| &joint.joint);
    ids.any(|id| view.model.joints.get(id).is_some_and(|joint| joint.kind == JointKind::Opening))
}

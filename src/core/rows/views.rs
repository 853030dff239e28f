//! The views with their call-outs.

use crate::model::View as Side;
use crate::scene::{At, Scene, balloon};
use crate::words::{Phrase, say, sheet as sentences, words};

use super::data::{Callout, Sheet, Views};
use super::package::{Drawing, Head, ROOM_VIEW, ROOM_VIEW_HALF, ROOM_VIEW_THIRD, Room};
use super::picture::placed;
use super::view::View;

words! {
    LEAD "views.lead" = "Pictures show the intent; figures and drawings at a stated scale decide.";
    MORE "views.more" = "{views} ({number})";
    SAID "views.said" = "{name}: {text}";
    CODED "views.coded" = "{name} ({id})";
    NO_TEXT "views.no-text" = "Picture {name}: no description is given.";
}

/// Views on a sheet.
const PER_SHEET: usize = 6;

/// As many sheets as the views need; call-outs are numbered through all of them.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let mut all: Vec<&Side> = view.model.views.values().filter(|side| side.picture.is_some()).collect();
    all.sort_by_key(|side| rank(&side.entry.id.value));
    let mut number = 0;
    let mut sheets = Vec::new();
    for (n, some) in all.chunks(PER_SHEET).enumerate() {
        let room = match some.len() {
            0..=2 => ROOM_VIEW_HALF,
            3 | 4 => ROOM_VIEW,
            _ => ROOM_VIEW_THIRD,
        };
        let mut callouts = Vec::new();
        let mut views = Vec::new();
        for side in some {
            let first = number + 1;
            number += side.callouts.len();
            views.extend(drawing(view, side, room, Some(first)));
            callouts.extend(side.callouts.iter().enumerate().map(|(at, one)| callout(view, first + at, one)));
        }
        if views.is_empty() {
            continue;
        }
        let name = match n {
            0 => sentences::VIEWS.into(),
            _ => say!(MORE, views = sentences::VIEWS, number = n + 1),
        };
        sheets.push(Sheet::Views(Views {
            head: Head { title: sentences::VIEWS_TITLE.into(), name, lead: LEAD.into() },
            views,
            callouts,
        }));
    }
    sheets
}

/// Views go round the product: the front first, then what one sees turning it; others by their ids.
fn rank(id: &str) -> usize {
    const ORDER: [&str; 8] = ["front", "left", "side", "right", "back", "top", "underside", "bottom"];
    ORDER.iter().position(|word| id.starts_with(word)).unwrap_or(ORDER.len())
}

fn callout(view: &View<'_>, number: usize, one: &crate::model::Callout) -> Callout {
    let item = one.item.as_ref().map(|item| (item, named(view, &item.value)));
    let text = view.text(one.text.as_ref());
    let text = match item {
        Some((item, name)) if text.is_empty() => name.unwrap_or_else(|| (&item.value).into()),
        Some((_, Some(name))) if name != text.into() => say!(SAID, name, text),
        _ => text.into(),
    };
    Callout { number: number.to_string(), text }
}

/// The name of whatever a call-out names; of pieces, as they are called by their codes on every sheet, the code too.
fn named(view: &View<'_>, id: &str) -> Option<Phrase> {
    let model = view.model;
    let piece = model.pieces.get(id).map(|one| &one.entry);
    let entry = piece
        .or_else(|| model.parts.get(id).map(|one| &one.entry))
        .or_else(|| model.articles.get(id).map(|one| &one.entry))
        .or_else(|| model.roles.get(id).map(|one| &one.entry))
        .or_else(|| model.joints.get(id).map(|one| &one.entry))
        .or_else(|| model.attaches.get(id).map(|one| &one.entry))
        .or_else(|| model.topstitches.get(id).map(|one| &one.entry))
        .or_else(|| model.edge_finishes.get(id).map(|one| &one.entry))
        .or_else(|| model.stuffings.get(id).map(|one| &one.entry))
        .or_else(|| model.steps.get(id).map(|one| &one.entry))?;
    Some(match (piece, &entry.name) {
        (Some(_), Some(name)) => say!(CODED, name = &name.value, id),
        (_, Some(name)) => (&name.value).into(),
        (Some(_), None) => id.into(),
        (None, None) => return None,
    })
}

/// A view fitted into a room, with numbered call-outs from `first` on if it shows any.
pub fn drawing(view: &View<'_>, side: &Side, room: Room, first: Option<usize>) -> Option<Drawing> {
    let path = side.picture.as_ref()?;
    let picture = view.model.pictures.get(&path.value)?;
    let factor = (room.width / picture.width).min(room.height / picture.height);
    let (width, height) = (picture.width * factor, picture.height * factor);
    let alt = match view.text(side.alt.as_ref()) {
        "" => say!(NO_TEXT, name = side.entry.title()),
        alt => alt.into(),
    };
    let mut scene = Scene::new(width, height, alt);
    let file = placed(view.model, &path.value)?;
    if let Some(first) = first {
        let spots: Vec<At> = side.callouts.iter().map(|one| spot(&scene, one.at.value)).collect();
        for (n, target) in spots.iter().enumerate() {
            let at = stand(&scene, &spots, *target);
            balloon(&mut scene, at, &(first + n).to_string(), *target);
        }
    }
    Some(Drawing { picture: Some(file), ..Drawing::of(scene, side.entry.title()) })
}

/// A spot given in hundredths from the top left, in mm of paper.
pub fn spot(scene: &Scene, at: [f64; 2]) -> At {
    [at[0] / 100.0 * scene.width, at[1] / 100.0 * scene.height]
}

/// Where the number of a call-out stands: away from the middle of the picture, inside its frame.
fn stand(scene: &Scene, spots: &[At], target: At) -> At {
    const AWAY: f64 = 11.0;
    const EDGE: f64 = 3.4;
    let middle = [scene.width / 2.0, scene.height / 2.0];
    let inside = |p: At| [p[0].clamp(EDGE, scene.width - EDGE), p[1].clamp(EDGE, scene.height - EDGE)];
    // Eight directions; the first is straight away from the middle, then turning to both sides.
    let turns = [0.0, 0.6, -0.6, 1.2, -1.2, 1.9, -1.9, 2.6];
    let from = [target[0] - middle[0], target[1] - middle[1]];
    let length = (from[0] * from[0] + from[1] * from[1]).sqrt();
    let out = if length < 1e-6 { [0.0, -1.0] } else { [from[0] / length, from[1] / length] };
    let candidates = turns.map(|turn| {
        let (sin, cos) = (libm::sin(turn), libm::cos(turn));
        let way = [out[0] * cos - out[1] * sin, out[0] * sin + out[1] * cos];
        inside([target[0] + way[0] * AWAY, target[1] + way[1] * AWAY])
    });
    let room = |at: &At| {
        let near = |p: &At| {
            let (dx, dy) = (p[0] - at[0], p[1] - at[1]);
            (dx * dx + dy * dy).sqrt()
        };
        spots.iter().map(near).fold(f64::INFINITY, f64::min).min(AWAY)
    };
    let mut best = candidates[0];
    for one in candidates {
        if room(&one) > room(&best) + 1e-9 {
            best = one;
        }
    }
    best
}

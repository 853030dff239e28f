//! How to lay the fabric: the lays of one product, each to scale.

use std::collections::BTreeSet;

use crate::compute::dies::{Die, Narrow};
use crate::compute::lays::{Direction, LayFigures, mix_text};
use crate::compute::{Figure, Number, Task};
use crate::model::{Method, Spread};
use crate::scene::{Codes, lay};
use crate::words::{number, sheet as words};

use super::data::{LayCard, LayGroup, Marker, Sheet};
use super::package::{Drawing, Fact, Head, ROOM_LAY};
use super::view::{View, capital, length, metres};
use super::written::{NOT_YET, figure};

/// One sheet with a card for every lay; none where nothing can be laid.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let both = view.lays.tasks.iter().zip(&view.figures.lays);
    let mut both: Vec<(&Task, &LayFigures)> = both.filter(|(task, _)| task.lay.is_some()).collect();
    // Sizes of one fabric stand together.
    both.sort_by_key(|(task, figures)| (figures.fabric.clone(), task.materials.clone()));
    if both.is_empty() {
        return Vec::new();
    }
    let head = Head {
        title: words::MARKER_TITLE.en.into(),
        name: words::MARKER.en.into(),
        lead: words::MARKER_LEAD.en.into(),
    };
    let dies = if view.order.is_none() { dies(view) } else { Vec::new() };
    let groups = both.chunk_by(|(a, one), (b, other)| one.fabric == other.fabric && a.materials == b.materials);
    vec![Sheet::Marker(Marker { head, groups: groups.map(|some| group(view, some)).collect(), dies })]
}

/// The lays of one fabric: what they share, then each.
pub fn group(view: &View<'_>, some: &[(&Task, &LayFigures)]) -> LayGroup {
    let Some((task, first)) = some.first() else { return LayGroup::default() };
    let cards: Vec<LayCard> = some.iter().map(|(task, figures)| card(task, figures)).collect();
    let rows = cards.chunks(2).map(<[LayCard]>::to_vec).collect();
    let mut notes = assumed(first);
    notes.extend(some.iter().filter_map(|(_, figures)| surplus(figures)));
    LayGroup {
        title: view.fabric_title(&task.bought.article, &task.materials).english(),
        facts: shared(view, some),
        rows,
        notes,
    }
}

fn card(task: &Task, figures: &LayFigures) -> LayCard {
    let drawing = task.lay.as_ref().map(|found| {
        let texts = [known_metres(&figures.length), number::mm(figures.width.get(), 0)];
        let scene =
            lay(&task.instance, found, [ROOM_LAY.width, ROOM_LAY.height], [&texts[0], &texts[1]], Codes::Numbers);
        let (lines, scene) = scene.parted();
        Drawing { lines: Some(lines), ..Drawing::of(scene, "") }
    });
    let numbered = task.instance.pieces.iter().enumerate();
    let legend: Vec<String> = numbered.map(|(number, piece)| format!("{} {}", number + 1, piece.id)).collect();
    LayCard { title: mix_text(&figures.mix), facts: facts(figures), drawing, legend: legend.join(", ") }
}

fn fact(label: &str, value: impl Into<String>) -> Fact {
    Fact { label: label.into(), value: value.into().into() }
}

/// What holds for every lay of a fabric.
fn shared(view: &View<'_>, some: &[(&Task, &LayFigures)]) -> Vec<Fact> {
    let Some((_, one)) = some.first() else { return Vec::new() };
    let how = &one.how;
    let plies = how.plies.known().map_or(NOT_YET.into(), |plies| format!("at most {plies}"));
    let mut all = vec![
        fact("Width laid", number::mm(one.width.get(), 0)),
        fact("Spread", spread(how.spread)),
        fact("Pieces lie", direction(how.direction)),
        fact("Cut by", capital(how.method.word())),
        fact("Between pieces, at ends", format!("{} and {}", mm(how.gap), mm(how.end))),
        fact("Plies at once", plies),
    ];
    if how.method == Method::Laser {
        all.push(fact("Cut from", "the back"));
    }
    if view.model.colourways.len() > 1 {
        let ways: BTreeSet<&str> = some.iter().flat_map(|(_, one)| &one.colourways).map(String::as_str).collect();
        all.push(fact("Colourways", ways.into_iter().collect::<Vec<_>>().join(", ")));
    }
    if how.tilt.get() > 0.0 {
        all.push(fact("Tilt", format!("at most {}°", length(how.tilt))));
    }
    if let Some(table) = how.table {
        all.push(fact("Table", number::with_unit(table.get() / 1000.0, 1, "m")));
    }
    all
}

fn facts(one: &LayFigures) -> Vec<Fact> {
    let used = one.used.get().map_or(NOT_YET.into(), |used| number::percent(used, 1));
    let layers = if one.layers > 1 { format!(" on each of {} plies", one.layers) } else { String::new() };
    let mut all =
        vec![fact("Length of a ply", known_metres(&one.length)), fact("Pieces", format!("{}{layers}", one.pieces))];
    if one.mix.len() == 1 {
        all.push(fact("Fabric for one product", known_metres(&one.per_product)));
    }
    all.push(fact("Becomes pieces", used));
    if matches!(one.how.method, Method::Laser | Method::AutomaticKnife) {
        all.push(fact("Path of the cut", metres(one.path)));
    }
    if let Some(struck) = &one.struck {
        let in_rows: u64 = struck.rows.iter().map(|row| row.strikes).sum();
        let single = if struck.single > 0 { format!(", {} single", struck.single) } else { String::new() };
        all.push(fact("Strikes", format!("{in_rows} in {} rows{single}", struck.rows.len())));
        if one.mix.len() == 1 {
            all.push(fact("Laid freely, for a knife", known_metres(&struck.free)));
        }
    }
    all
}

/// The dies that are made.
fn dies(view: &View<'_>) -> Vec<Vec<String>> {
    let row = |die: &Die| {
        let narrow = |one: &Narrow| {
            let what = if one.tongue { "tongue" } else { "gap" };
            format!("{what} {} wide over {}", mm(one.width), mm(one.length))
        };
        vec![
            die.piece.clone(),
            die.cut.clone(),
            die.size.clone(),
            die.dies.to_string(),
            die.strikes.to_string(),
            metres(die.rule),
            die.narrow.iter().map(narrow).collect::<Vec<_>>().join("; "),
        ]
    };
    view.figures.dies.iter().map(row).collect()
}

fn spread(spread: Spread) -> &'static str {
    match spread {
        Spread::OneWay => "One way, face up",
        Spread::FaceToFace => "Face to face",
        Spread::Folded => "Folded along its length",
    }
}

fn direction(direction: Direction) -> &'static str {
    match direction {
        Direction::OneWay => "All one way",
        Direction::TwoWays => "Along the roll, both ways",
        Direction::AnyWay => "Any way",
    }
}

fn known_metres(length: &Figure<Number>) -> String {
    length.known().map_or_else(|| figure(length, 0), |length| metres(*length))
}

fn mm(value: Number) -> String {
    format!("{} mm", length(value))
}

fn assumed(one: &LayFigures) -> Vec<String> {
    if one.how.assumed.is_empty() {
        return Vec::new();
    }
    let assumed: Vec<String> = one.how.assumed.iter().map(|(what, value)| format!("{what} {value}")).collect();
    vec![format!("Not stated, so common practice was taken: {}.", assumed.join(", "))]
}

fn surplus(one: &LayFigures) -> Option<String> {
    let surplus: Vec<String> = one.surplus.iter().map(|(piece, more)| format!("{piece} {more}")).collect();
    (!surplus.is_empty()).then(|| format!("Pairs of plies make more than is needed: {}.", surplus.join(", ")))
}

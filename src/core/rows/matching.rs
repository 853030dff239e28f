//! Which edges meet and how long they are: a map of all pieces with a letter a seam, and a line for every seam.

use crate::compute::{Between, Number, SeamSize};
use crate::model::Held;
use crate::model::assembly::{Caught, Edging, Resolved, Run, Side};
use crate::words::{Phrase, number, say, sheet, words};

use super::cell::Cell;
use super::data::{JoinLength, JoinRow, JoinTable, Matching, Sheet};
use super::letters::{self, Letters};
use super::map;
use super::package::{Head, ROOM_MAP};
use super::view::View;

words! {
    BETWEEN "matching.between" = "between them: {what}";
    ALONG "matching.along" = "{what}, along {line}";
    APART "matching.apart" = "{difference} ({share} %)";
    STRETCH "matching.stretch" = "{stretch}: {lengths}";
    UNEVEN "matching.uneven" = "{a} to {b}";
}

/// The most sizes whose lengths are side by side.
const SIZES: usize = 3;
/// Height of a map that the table is below, at least, and of both together, mm.
const LEAST_MAP: f64 = 50.0;
const TOGETHER: f64 = 128.0;
/// Height of one line of the table, and of a further one, mm.
const LINE: [f64; 2] = [4.6, 3.4];
/// Letters on a line of the name of a seam and of its edges.
const HOLDS: [usize; 2] = [26, 42];

/// About the height of a row of the table, mm.
fn height(row: &JoinRow) -> f64 {
    let lines = |text: &str, holds: usize| text.chars().count().div_ceil(holds).max(1);
    let wrapped = lines(&row.title.english(), HOLDS[0]).max(lines(&row.a, HOLDS[1])).max(lines(&row.b, HOLDS[1]));
    let more = usize::from(!row.between.is_empty() || !row.stretches.is_empty());
    LINE[0] + LINE[1] * (wrapped - 1 + more) as f64
}

/// One sheet, or none where nothing is sewn.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let letters = Letters::of(view);
    let rows = rows(view, &letters);
    if rows.is_empty() {
        return Vec::new();
    }
    let head =
        Head { title: sheet::MATCHING_TITLE.into(), name: sheet::MATCHING.into(), lead: sheet::MATCHING_LEAD.into() };
    let sizes = view.sizes();
    let left = TOGETHER - rows.iter().map(|(_, row)| height(row)).sum::<f64>();
    let apart = left < LEAST_MAP || sizes.len() > SIZES;
    let (map, notes) = map::of(view, &letters, if apart { ROOM_MAP.height } else { left });
    let tables = sizes.chunks(SIZES).enumerate().map(|(n, some)| table(view, &rows, some, n == 0)).collect();
    vec![Sheet::Matching(Matching { head, map, apart, notes, unit: "mm".into(), tables })]
}

/// The rows with the lengths in some sizes; what is said in words of all sizes is in the first table.
fn table(view: &View<'_>, rows: &[(String, JoinRow)], sizes: &[&str], first: bool) -> JoinTable {
    let row = |(id, row): &(String, JoinRow)| {
        let by_size = view.figures.seams.get(id).map(|seam| &seam.sizes);
        let lengths = sizes.iter().map(|size| by_size?.get(*size)).map(|one| one.map(length).unwrap_or_default());
        let mut row = JoinRow { lengths: lengths.collect(), ..row.clone() };
        if !first {
            (row.between, row.stretches) = (Phrase::none(), Phrase::none());
        }
        row
    };
    JoinTable { sizes: sizes.iter().map(|size| (*size).to_string()).collect(), rows: rows.iter().map(row).collect() }
}

/// Both sides in one size, and what they differ by.
fn length(one: &SeamSize) -> JoinLength {
    let cell = |value| Cell::figure(value, |value: &Number| Cell::fixed(*value, 1, ""));
    let (Some(a), Some(b)) = (one.a.known(), one.b.known()) else {
        return JoinLength { difference: cell(&one.difference).phrase(), ..JoinLength::default() };
    };
    let share = one.fullness.known().map_or_else(|| Cell::Dash, |value| Cell::fixed(*value, 1, "")).phrase();
    let apart = uneven(*a, *b).then(|| say!(APART, difference = cell(&one.difference).phrase(), share));
    JoinLength { a: cell(&one.a), b: cell(&one.b), difference: apart.unwrap_or_default() }
}

/// Whether two lengths differ as they are printed.
fn uneven(a: Number, b: Number) -> bool {
    let apart = Number::new(b.get() - a.get());
    number::number(apart, 1) != number::number(Number::new(0.0), 1)
}

/// Every seam by its letter with the id of its lengths, in the order of work. One that is there once more on the other side
/// says so; where things are caught in it, they are others there, and it has a row of its own.
fn rows(view: &View<'_>, letters: &Letters) -> Vec<(String, JoinRow)> {
    let mut rows: Vec<((Option<usize>, usize), String, JoinRow)> = Vec::new();
    let mut add = |id: &str, row: JoinRow| {
        let plain = row.letter.strip_suffix('′').filter(|_| row.between.is_empty());
        if let Some((_, _, first)) = rows.iter_mut().find(|(_, _, one)| plain == Some(&one.letter)) {
            first.also = row.letter;
        } else if rows.iter().all(|(_, _, one)| one.letter != row.letter) {
            rows.push(((letters.step(id), rows.len()), id.to_string(), row));
        }
    };
    // A use of a part that is made once more bears the letters of the first.
    let seen = |side: &Side| !side.runs.is_empty();
    for joint in view.assembly.joints.iter().filter(|joint| joint.sides().any(seen)) {
        add(&joint.joint, seam(view, letters, joint));
    }
    for edging in view.assembly.edgings.iter().filter(|edging| edging.joins) {
        add(&edging.id, attached(view, letters, edging));
    }
    // What has no edges yet is listed all the same.
    for id in view.figures.seams.keys() {
        add(id, named_row(view, letters, id, letters.plain(id).to_string()));
    }
    rows.sort_by_key(|(order, _, _)| (order.0.unwrap_or(usize::MAX), order.1));
    rows.into_iter().map(|(_, id, row)| (id, row)).collect()
}

/// A row with letter, name and step.
fn named_row(view: &View<'_>, letters: &Letters, id: &str, letter: String) -> JoinRow {
    let joint = view.model.joints.get(id).map(|joint| &joint.entry);
    let entry = joint.or_else(|| view.model.attaches.get(id).map(|attach| &attach.entry));
    let step = letters.step(id).map_or_else(String::new, |step| step.to_string());
    JoinRow { letter, title: entry.map_or(id, |entry| entry.title()).into(), step, ..JoinRow::default() }
}

fn attached(view: &View<'_>, letters: &Letters, edging: &Edging) -> JoinRow {
    let letter = letters.edging(edging);
    let line = edging.line.as_ref().map(|(at, id)| format!("{} @{id}", named(view, *at, false)));
    JoinRow {
        a: edges(view, &letter, &edging.side, false),
        b: line.unwrap_or_default(),
        ..named_row(view, letters, &edging.id, letter)
    }
}

fn seam(view: &View<'_>, letters: &Letters, joint: &Resolved) -> JoinRow {
    let letter = letters.seam(joint);
    let alone = alone(view, joint);
    JoinRow {
        a: edges(view, &letter, &joint.a, alone),
        b: edges(view, &letter, &joint.b, alone),
        between: between(view, &letter, joint),
        stretches: stretches(view, &letter, joint),
        ..named_row(view, letters, &joint.joint, letter)
    }
}

/// What is caught between the sides, and where.
fn between(view: &View<'_>, letter: &str, joint: &Resolved) -> Phrase {
    let written = view.model.joints.get(&joint.joint);
    let lies = |along: &Side, side: &Side| {
        listed(view, letter, letters::placed(letter, joint, along, side), |at| named(view, at, false))
    };
    let what = |(layer, caught): (usize, &Caught)| match caught {
        Caught::Side(side) => lies(joint.along(layer), side),
        Caught::Trim(at) => match written.and_then(|one| one.between.get(*at)).map(|layer| &layer.held) {
            Some(Held::Trim(trim)) => view.material(&trim.trim.value),
            _ => String::new(),
        },
    };
    // Layers in a row that lie along one stretch name it once.
    let mut rows: Vec<(Option<&Side>, Vec<String>)> = Vec::new();
    for layer in joint.between.iter().enumerate() {
        let place = joint.place(layer.0);
        match rows.last_mut().filter(|(last, _)| last.map(|side| &side.runs) == place.map(|side| &side.runs)) {
            Some((_, row)) => row.push(what(layer)),
            None => rows.push((place, vec![what(layer)])),
        }
    }
    let row = |(place, row): (Option<&Side>, Vec<String>)| match place {
        _ if row.iter().all(String::is_empty) => Phrase::none(),
        Some(side) => say!(ALONG, what = Phrase::row(row, "; "), line = lies(side, side)),
        None => Phrase::row(row, "; "),
    };
    let all = Phrase::row(rows.into_iter().map(row), "; ");
    if all.is_empty() { Phrase::none() } else { say!(BETWEEN, what = all) }
}

/// The stretches between points and notches that are uneven in some size, end at a notch, or have something caught along them.
fn stretches(view: &View<'_>, letter: &str, joint: &Resolved) -> Phrase {
    let Some(figures) = view.figures.seams.get(&joint.joint) else { return Phrase::none() };
    let first = view.sizes().into_iter().filter_map(|size| figures.sizes.get(size)).find(|one| one.between.len() > 1);
    let Some(first) = first else { return Phrase::none() };
    let caught: Vec<u64> = caught_edges(joint);
    let in_size = |n: usize, size: &str| figures.sizes.get(size).and_then(|one| one.between.get(n));
    let told = |(n, stretch): (usize, &Between)| {
        let apart = |size: &&str| in_size(n, size).is_some_and(|one| uneven(one.a, one.b));
        let cut = stretch.from_notch.or(stretch.to_notch).is_some();
        if !cut && !caught.contains(&stretch.edge) && !view.sizes().iter().any(apart) {
            return None;
        }
        let lengths = view.in_sizes(|size| in_size(n, size).map(both).unwrap_or_default());
        Some(say!(STRETCH, stretch = letters::stretch(letter, stretch), lengths))
    };
    Phrase::row(first.between.iter().enumerate().filter_map(told), "; ")
}

/// Both lengths of a stretch, or the one where they are alike.
fn both(one: &Between) -> Phrase {
    let [a, b] = [one.a, one.b].map(|value| Cell::fixed(value, 1, "").phrase());
    if uneven(one.a, one.b) { say!(UNEVEN, a, b) } else { a }
}

/// The edges of side `a`, by their place in it, along which something is caught; none where that is all of it.
fn caught_edges(joint: &Resolved) -> Vec<u64> {
    let on = joint.stretches().into_iter().flat_map(|on| &on.runs);
    let of_a = |run: &Run| joint.a.runs.iter().position(|one| (one.instance, one.run) == (run.instance, run.run));
    on.filter_map(of_a).map(|at| at as u64 + 1).collect()
}

/// Whether all sides of a seam are in one use of one part, so that it goes without saying.
fn alone(view: &View<'_>, joint: &Resolved) -> bool {
    let runs = joint.a.runs.iter().chain(&joint.b.runs);
    let mut uses = runs.filter_map(|run| view.assembly.instances.get(run.instance)).map(|one| (&one.part, &one.usage));
    let first = uses.next();
    uses.all(|one| Some(one) == first)
}

/// The edges of a side in order, numbered as on the map where there are several; each piece named once in a row.
fn edges(view: &View<'_>, letter: &str, side: &Side, alone: bool) -> String {
    let mut last = None;
    let name = |at: usize| {
        let again = last.replace(at) == Some(at);
        if again { String::new() } else { named(view, at, alone) }
    };
    listed(view, letter, letters::numbered(letter, side), name)
}

/// Runs with what they bear and the names of their pieces.
fn listed<'a>(
    view: &View<'_>,
    letter: &str,
    runs: impl IntoIterator<Item = (String, &'a Run)>,
    mut name: impl FnMut(usize) -> String,
) -> String {
    let line = |(borne, run): (String, &Run)| {
        let (from, to) = run.ends(&view.assembly.outlines, &view.assembly.instances)?;
        let place = if borne == letter { String::new() } else { borne };
        let said = [place, name(run.instance), format!("{from}–{to}")];
        Some(said.iter().filter(|one| !one.is_empty()).cloned().collect::<Vec<_>>().join(" "))
    };
    runs.into_iter().filter_map(line).collect::<Vec<_>>().join(", ")
}

/// An instance by its piece and copy, with its part where that is made more than once and is not said already.
fn named(view: &View<'_>, at: usize, alone: bool) -> String {
    let Some(one) = view.assembly.instances.get(at) else { return String::new() };
    let once = view.model.parts.get(&one.part).is_none_or(|part| part.uses.len() < 2);
    if once || alone { one.short() } else { one.text() }
}

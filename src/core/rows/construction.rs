//! The order of work in stages: each with the state at its end, and its steps as cards.

use crate::compute::StuffingLine;
use crate::model::assembly::Edging;
use crate::model::{Deed, Stuffing, UsedThread, Variant};
use crate::words::number::quantity;
use crate::words::{Phrase, say, sheet, words};

use super::article::value;
use super::cell::NOT_YET;
use super::choice::begun;
use super::data::{Construction, Sheet, Step, Stretch};
use super::flat;
use super::letters::Letters;
use super::package::{Drawing, Fact, Head, ROOM_SHOWN, ROOMS_STATE};
use super::picture::placed;
use super::step::{Made, again, plain, titled};
use super::stitched::{Stitched, common, differs};
use super::threads::threads;
use super::view::View;
use super::{filling, finishing, seam, stages, walk};
use crate::scene::Scene;

words! {
    LEAD "construction.lead" = "Each stage shows what is sewn at its end (bold: in this stage, with the letters of seam matching; thin: before) and says how most of it is stitched; a step says what differs. A stage has up to {most} steps; from {least} on, what comes into a part begins a new one. Beside a step are where it is and the seam cut through: plies are numbered from the needle down, hatching is the pile side, a double line the right side of other fabric. Seams are sewn right sides together unless a step says otherwise; also mirrored is once more with left and right exchanged. Codes are piece, copy and points: SIDE.l:n-c.";
    DEED "construction.deed" = "{deed}: {object}";
    MACHINE "construction.machine" = "Machine";
    TOOL "construction.tool" = "Tool";
    THREAD_USED "construction.thread-used" = "Thread in one product";
    USED "construction.used" = "{thread} {length}";
    SHOWN "construction.shown" = "Picture to the step: {step}.";
    LETTERED "construction.lettered" = "{title} ({letter})";
    ALONG "construction.along" = "along {edge}";
    ONTO "construction.onto" = "{edge} onto {line}";
    STUFF "construction.stuff" = "stuffing {stuffing}, {mass}";
    MASS "construction.mass" = "mass: {mass}";
    MASS_EACH "construction.mass-each" = "mass of each: {mass}";
    GRAMS "construction.grams" = "{mass} g";
    MASS_ELSEWHERE "construction.mass-elsewhere" = "mass on the filling sheet";
}

/// What a step may be.
const STEPS: [&str; 6] = ["seam", "opening", "edge-finish", "topstitch", "attach", "step"];

/// One sheet (it flows over as many pages as it needs), or none without an order of work.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let letters = Letters::of(view);
    let all = stages::stages(view);
    let mut stages: Vec<Stretch> = (1..).zip(&all).map(|(n, stage)| stretch(view, &letters, n, stage)).collect();
    // What is to be put right of a part is said where its making begins.
    for (at, stage) in all.iter().enumerate() {
        let begins = |part: &&&str| !all.iter().take(at).any(|before| before.parts.contains(**part));
        let points = stage.parts.iter().filter(begins).flat_map(|part| put_right(view, &["part"], part));
        if let Some(step) = stages.get_mut(at).and_then(|stage| stage.steps.first_mut()) {
            step.put_right.extend(points);
        }
    }
    if stages.is_empty() {
        return Vec::new();
    }
    let lengths = stages::Lengths::of(view.model);
    let head = Head {
        title: sheet::CONSTRUCTION_TITLE.into(),
        name: sheet::CONSTRUCTION.into(),
        lead: say!(LEAD, least = lengths.least.to_string(), most = lengths.most.to_string()),
    };
    vec![Sheet::Construction(Construction {
        head,
        colourways: view.model.ways().into_iter().map(str::to_string).collect(),
        threads: threads(view),
        stages,
    })]
}

fn stretch(view: &View<'_>, letters: &Letters, number: usize, stage: &stages::Stage<'_>) -> Stretch {
    let order = &view.model.work.order;
    let made = |n: &usize| step(view, letters, n + 1, &order.get(*n)?.value);
    let made: Vec<Made> = stage.steps.iter().filter_map(made).collect();
    let (mut steps, stitched): (Vec<Step>, Vec<Stitched>) =
        made.into_iter().map(|one| (one.step, one.stitched)).unzip();
    let same = common(&stitched);
    for (step, stitched) in steps.iter_mut().zip(&stitched) {
        step.differs = differs(&same, stitched);
    }
    let picture = flat::state(view, letters, stage);
    let wide = picture.as_ref().is_some_and(|one| one.scene.width > ROOMS_STATE[0][0]);
    Stretch { title: stages::title(view, number, stage), same, picture, wide, steps }
}

/// What samples showed of a thing that is to be put right in bulk.
fn put_right<'a>(view: &View<'a>, kinds: &'a [&str], id: &'a str) -> impl Iterator<Item = Phrase> + use<'a> {
    let about = move |about: &str| about.split_once('.').is_some_and(|(kind, one)| kinds.contains(&kind) && one == id);
    let points = view.samples.checklist.iter().filter(move |point| point.about.as_deref().is_some_and(about));
    points.map(|point| Phrase::from(&point.text))
}

fn step(view: &View<'_>, letters: &Letters, number: usize, id: &str) -> Option<Made> {
    let mut made = bare(view, id)?;
    let step = &mut made.step;
    step.number = number.to_string();
    step.title = view.marked(&STEPS, id, std::mem::take(&mut step.title));
    let stuffing = view.model.steps.get(id).and_then(|one| one.stuffing.as_ref());
    let stuffing = stuffing.into_iter().flat_map(|one| put_right(view, &["stuffing"], &one.value));
    step.put_right = put_right(view, &STEPS, id).chain(stuffing).collect();
    let letter = letters.plain(id);
    if !letter.is_empty() {
        step.title = say!(LETTERED, title = &step.title, letter);
    }
    if let Some((place, wide)) = flat::place(view, letters, id) {
        (step.place, step.wide) = (Some(place), wide);
    }
    if let Some(means) = view.model.means_of(id) {
        let facts = [(MACHINE, &means.machine), (TOOL, &means.tool)];
        let facts = facts.map(|(label, text)| (label, view.text(text.as_ref())));
        step.means =
            facts.into_iter().filter(|(_, text)| !text.is_empty()).map(|(l, text)| Fact::of(l, text)).collect();
        let used = means.threads.iter().map(|one| used(view, one));
        let used = Phrase::row(used.collect::<Vec<_>>(), "; ");
        step.means.extend((!used.is_empty()).then(|| Fact::of(THREAD_USED, used)));
        step.check = view.text(means.check.as_ref()).into();
        step.never = view.text(means.never.as_ref()).into();
        step.picture = means.picture.as_ref().and_then(|path| shown(view, &path.value, &step.title));
    }
    Some(made)
}

/// A thread with its length in one product.
fn used(view: &View<'_>, one: &UsedThread) -> Phrase {
    let ways = view.model.ways();
    let of = |size: &str, colourway: &str| match one.length.as_ref()?.of(Variant { size, colourway })?.known() {
        Some(length) => Some(Phrase::from(quantity(length))),
        None => Some(NOT_YET.into()),
    };
    let lengths = view.in_sizes(|size| {
        let mut all: Vec<Phrase> = Vec::new();
        let made = ways.iter().filter(|way| view.model.is_made(size, way));
        for length in made.filter_map(|way| of(size, way)) {
            if !all.contains(&length) {
                all.push(length);
            }
        }
        Phrase::row(all, " / ")
    });
    say!(USED, thread = view.material(&one.thread.value), length = lengths)
}

/// A picture of the user in its room.
fn shown(view: &View<'_>, path: &str, title: &Phrase) -> Option<Drawing> {
    let picture = view.model.pictures.get(path)?;
    let factor = (ROOM_SHOWN.width / picture.width).min(ROOM_SHOWN.height / picture.height);
    let scene = Scene::new(picture.width * factor, picture.height * factor, say!(SHOWN, step = title));
    Some(Drawing { picture: Some(placed(view.model, path)?), ..Drawing::of(scene, Phrase::none()) })
}

/// The step without what every step has.
fn bare(view: &View<'_>, id: &str) -> Option<Made> {
    let model = view.model;
    if let Some(joint) = model.joints.get(id) {
        return Some(seam::step(view, id, joint));
    }
    if let Some(finish) = model.edge_finishes.get(id) {
        return Some(finishing::step(view, finish));
    }
    if let Some(one) = model.topstitches.get(id) {
        let on = one.on.as_ref().map_or(String::new(), |run| view.written(run.span));
        let line = walk::edging(view, id)
            .map(|edging| say!(ALONG, edge = walk::line(view, edging, walk::every(one.on.iter()))));
        let text = Phrase::lines([line.unwrap_or_default(), again(&one.mirrored)]);
        return Some(plain(view, one.entry.title().into(), text, on, Some(&one.stitch), view.text(one.note.as_ref())));
    }
    if let Some(one) = model.attaches.get(id) {
        let edge = one.edge.as_ref().map_or(String::new(), |chain| view.written(chain.span));
        let on = one.on.as_ref().map_or(String::new(), |run| view.written(run.span));
        let every = walk::every(one.edge.iter().flat_map(|chain| &chain.runs).chain(&one.on));
        let walked =
            |one: &Edging| say!(ONTO, edge = walk::side(view, &one.side, every), line = walk::line(view, one, every));
        let text = Phrase::lines([walk::edging(view, id).map(walked).unwrap_or_default(), again(&one.mirrored)]);
        let codes = Phrase::lines([edge, on]);
        return Some(plain(
            view,
            one.entry.title().into(),
            text,
            codes,
            Some(&one.stitch),
            view.text(one.note.as_ref()),
        ));
    }
    let one = model.steps.get(id)?;
    let word = one.word.as_ref().map_or("", |word| word.value.as_str());
    let title = titled(&one.entry, || begun(word));
    Some(plain(view, title, what(view, one), Phrase::none(), None, view.text(one.note.as_ref())))
}

/// A trim with its width and where it goes.
fn fitted(view: &View<'_>, id: &str) -> Phrase {
    let stated = |key: &str| view.model.articles.get(id).map_or_else(Phrase::none, |one| value(view, one, key));
    Phrase::list([view.material(id).into(), stated("diameter"), stated("place")])
}

/// The user's own word for what is done, unless the name of the step says it.
fn own(one: &crate::model::Step, word: &str) -> Option<Phrase> {
    let named = one.entry.name.as_ref()?.value.to_lowercase();
    let said = word.to_lowercase().split(' ').all(|part| named.contains(part));
    (one.deed == Deed::Other && !said).then(|| begun(word))
}

/// The mass of a stuffing by size, where it is the same in every colourway.
fn mass(view: &View<'_>, id: &str) -> Phrase {
    let lines = |size: &str| -> Vec<&StuffingLine> {
        let ways = view.figures.filling.get(size).into_iter().flat_map(|ways| ways.values());
        ways.flat_map(|one| &one.stuffings).filter(|line| line.stuffing == id).collect()
    };
    let all: Vec<Vec<&StuffingLine>> = view.sizes().into_iter().map(lines).collect();
    if all.iter().any(|lines| lines.iter().any(|line| lines.first().is_none_or(|first| first.each != line.each))) {
        return MASS_ELSEWHERE.into();
    }
    let several = all.iter().flatten().any(|line| line.uses > 1);
    let target = |line: &&StuffingLine| filling::mass(&line.each).target.phrase();
    let mass = view.in_sizes(|size| {
        let mass = lines(size).first().map_or_else(Phrase::none, target);
        if mass.is_empty() { mass } else { say!(GRAMS, mass) }
    });
    if several { say!(MASS_EACH, mass) } else { say!(MASS, mass) }
}

/// What a step is done to.
fn what(view: &View<'_>, one: &crate::model::Step) -> Phrase {
    let title = |id: &str| view.model.parts.get(id).map_or(id.to_string(), |part| part.entry.title().to_string());
    // What is printed as its title; an id is not.
    let step = one.entry.name.as_ref().map_or("", |name| name.value.as_str()).to_lowercase();
    let said = |text: &str| step.contains(&text.to_lowercase());
    let stuffing = one.stuffing.as_ref().and_then(|stuffing| view.model.stuffings.get(&stuffing.value));
    let stuffed = |one: &Stuffing| {
        let (name, mass) = (one.entry.title(), mass(view, &one.entry.id.value));
        if said(name) { mass } else { say!(STUFF, stuffing = name, mass) }
    };
    let parts = [
        one.part.as_ref().map(|part| title(&part.value)).filter(|title| !said(title)).map(Phrase::from),
        stuffing.map(stuffed),
        one.trim.as_ref().map(|trim| fitted(view, &trim.value)),
    ];
    let object = Phrase::list(parts.into_iter().flatten().collect::<Vec<Phrase>>());
    match one.word.as_ref().and_then(|word| own(one, &word.value)) {
        Some(deed) if object.is_empty() => deed,
        Some(deed) => say!(DEED, deed, object),
        None => object,
    }
}

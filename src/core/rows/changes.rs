//! What is new since the last sealed revision: value by value, what followed, outlines laid over each other, and what
//! comments asked for against what changed.

use crate::revision::Since;
use crate::revision::chain::Link;
use crate::revision::compare::{self, Change, Followed, ItemChange, Overlay, State, group, groups, scoped};
use crate::scene::{Laid, overlay};
use crate::words::{number, sheet as words};

use super::cards::{rows, width};
use super::data::{ChangeGroup, ChangeRow, Changes, OverlayCard, Sheet};
use super::package::{Drawing, Head};
use super::view::{View, capital};
use super::written::date;

/// Room for one pair of outlines, mm.
const ROOM: [f64; 2] = [120.0, 96.0];
/// Values of a new thing that are listed; the rest stands on its own sheet.
const LISTED: usize = 6;
/// Height of the text of a card, mm, for putting cards of like height together.
const TEXT: f64 = 14.0;

/// One sheet, or none before anything was sealed.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let Some(since) = view.since else { return Vec::new() };
    let changes = &since.changes;
    let last = since.past.last().map_or("", |past| past.revision.as_str());
    let title = format!("{}{}{last}", words::CHANGES_TITLE.en, if last.is_empty() { "" } else { " since revision " });
    let lead = if changes.is_empty() { words::CHANGES_NONE.en } else { words::CHANGES_LEAD.en };
    let warnings = changes.unmatched.iter().map(|seam| capital(seam)).chain(changes.not_compared.iter().cloned());
    vec![Sheet::Changes(Changes {
        head: Head { title: title.into(), name: words::CHANGES.en.into(), lead: lead.into() },
        past: since.past.iter().rev().map(past).collect(),
        groups: groups().filter_map(|heading| of_group(changes, heading)).collect(),
        warnings: warnings.collect(),
        followed: changes.followed.iter().map(followed).collect(),
        overlays: overlays(changes),
        answers: answers(view, since),
        unasked: since.answers.unasked.iter().filter_map(|at| changes.items.get(*at)).map(named).collect(),
    })]
}

fn past(one: &Link) -> Vec<String> {
    let on = date(&one.date).unwrap_or_default();
    vec![one.revision.clone(), capital(&one.stage), on, one.by.clone(), one.reason.clone(), one.digest.short()]
}

fn of_group(changes: &compare::Changes, heading: &str) -> Option<ChangeGroup> {
    let items = changes.items.iter().filter(|item| group(item.kind) == heading && item.kind != "revision");
    let rows: Vec<ChangeRow> = items.flat_map(of_item).collect();
    (!rows.is_empty()).then(|| ChangeGroup { title: heading.into(), rows })
}

fn of_item(item: &ItemChange) -> Vec<ChangeRow> {
    let what = named(item);
    let whole = |remark: &str, after: String| ChangeRow {
        what: what.clone(),
        after,
        remark: remark.into(),
        ..ChangeRow::default()
    };
    let mut all = match &item.state {
        State::Added => {
            let facts = item.changes.iter().filter(|one| one.key != "name").take(LISTED).map(|change| {
                let value = change.after.as_deref().unwrap_or_default();
                format!("{} {value}", scoped(&change.key, &change.scope))
            });
            return vec![whole("new", facts.collect::<Vec<_>>().join("; "))];
        }
        State::Removed => return vec![whole("gone", String::new())],
        State::Renamed(was) => vec![whole(&format!("was {was}"), String::new())],
        State::Changed => Vec::new(),
    };
    for change in &item.changes {
        let what = if all.is_empty() { what.clone() } else { String::new() };
        all.push(of_value(what, change));
    }
    all
}

fn of_value(what: String, change: &Change) -> ChangeRow {
    ChangeRow {
        what,
        key: scoped(&change.key, &change.scope),
        before: change.before.clone().unwrap_or_default(),
        after: change.after.clone().unwrap_or_default(),
        remark: change.remark.as_ref().map_or("", |remark| remark.text()).into(),
    }
}

fn followed(one: &Followed) -> Vec<String> {
    let known = |value: &Option<String>| value.clone().unwrap_or_else(|| "–".into());
    // As many decimals as the numbers it is the difference of.
    let decimals = |value: &Option<String>| {
        let rest = value.as_deref().and_then(|text| text.split_once('.')).map_or("", |(_, rest)| rest);
        rest.chars().take_while(char::is_ascii_digit).count() as u32
    };
    let places = decimals(&one.before).max(decimals(&one.after));
    let sign = one.difference.map_or(String::new(), |difference| {
        let sign = if difference > 0.0 { "+" } else { "" };
        format!("{sign}{}", number::number(difference, places))
    });
    let what = format!("{} {}", capital(one.family), scoped(&one.what, &one.scope));
    vec![what.trim().into(), known(&one.before), known(&one.after), sign]
}

fn overlays(changes: &compare::Changes) -> Vec<Vec<OverlayCard>> {
    let cards = changes.overlays.iter().map(|one| {
        let card = card(one);
        ([card.width, card.drawing.scene.height + TEXT], card)
    });
    rows(cards)
}

fn card(one: &Overlay) -> OverlayCard {
    let size = one.size.as_ref().map_or(String::new(), |size| format!(", size {size}"));
    let distance = if one.differs { number::mm(one.farthest.distance, 1) } else { String::new() };
    let mut laid = Laid::of(&one.before.path, &one.after.path, (one.farthest.before, one.farthest.after), &distance);
    for name in one.after.names() {
        if let Some(place) = one.after.point(&name) {
            laid = laid.with_point(&name, place);
        }
    }
    let title = format!("{}{size}", one.piece);
    let alt = format!("Sew line of {title} before and after; farthest apart {distance} {}", one.place);
    let (scene, scale) = overlay(&laid, "50 mm", |_| ROOM, &alt);
    let caption = if scale < 1.0 { format!("{}:1", 1.0 / scale) } else { format!("1:{scale}") };
    OverlayCard { width: width(Some(&scene)), title, drawing: Drawing::of(scene, &caption), text: said(one) }
}

/// What is said under a pair of outlines.
fn said(one: &Overlay) -> Vec<String> {
    let mut all = Vec::new();
    if one.mirrored {
        all.push("Mirrored.".into());
    }
    if one.differs {
        let (before, after) = (one.area.0 / 100.0, one.area.1 / 100.0);
        let share = if before > 0.0 { (after / before - 1.0) * 100.0 } else { 0.0 };
        all.push(format!(
            "Farthest apart {} {}; area {} to {} ({}{}).",
            number::mm(one.farthest.distance, 1),
            one.place,
            number::cm2(before, 1),
            number::cm2(after, 1),
            if share > 0.0 { "+" } else { "" },
            number::percent(share, 1),
        ));
    }
    let run = |run: &compare::RunChange| {
        format!("{}-{} {} to {}", run.from, run.to, number::number(run.before, 1), number::mm(run.after, 1))
    };
    let runs: Vec<String> = one.runs.iter().map(run).collect();
    if !runs.is_empty() {
        all.push(format!("Edges: {}.", runs.join(", ")));
    }
    let moved = |moved: &compare::Moved| match (moved.by, moved.there) {
        (Some(by), _) if matches!(moved.what, "grain" | "pile") => {
            format!("{} by {}°", moved.what, number::number(by, 1))
        }
        (Some(by), _) => format!("{} {} by {}", moved.what, moved.id, number::mm(by, 1)),
        (None, true) => format!("{} {} new", moved.what, moved.id),
        (None, false) => format!("{} {} gone", moved.what, moved.id),
    };
    let things: Vec<String> = one.moved.iter().map(moved).collect();
    if !things.is_empty() {
        all.push(format!("Moved: {}.", things.join(", ")));
    }
    all
}

/// Comments that are met, then those that nothing answers.
fn answers(view: &View<'_>, since: &Since) -> Vec<Vec<String>> {
    let asked = |id: &str| {
        let line = view.samples.comments.iter().find(|comment| comment.comment == id);
        line.and_then(|line| line.text.clone()).unwrap_or_default()
    };
    let met = since.answers.answered.iter().map(|(id, items)| {
        let names = items.iter().filter_map(|at| since.changes.items.get(*at)).map(named);
        vec![id.clone(), asked(id), names.collect::<Vec<_>>().join(", ")]
    });
    let open = since.answers.unanswered.iter().map(|id| vec![id.clone(), asked(id), "nothing changed".into()]);
    met.chain(open).collect()
}

/// `Piece SIDE, Body side`.
fn named(item: &ItemChange) -> String {
    let kind = capital(&item.kind.replace('-', " "));
    let title =
        if item.title == item.id || item.title.is_empty() { String::new() } else { format!(", {}", item.title) };
    format!("{kind} {}{title}", item.id).trim().to_string()
}

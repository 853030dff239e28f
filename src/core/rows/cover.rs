//! The cover: who makes what for whom, in which sizes and colourways, and which statement goes before which.

use crate::diag::Severity;
use crate::model::{AgeGrade, Colourway as Way, CommentState};
use crate::words::{Phrase, head as heads, say, sheet as sentences, words};

use super::cell::Cell;
use super::choice::{begun, said};
use super::data::{Colourway, Cover, Obstacles, Sheet};
use super::numbers::numbers;
use super::package::{Fact, Head, ROOM_COVER};
use super::view::{View, capital};
use super::views::drawing;
use super::written::day;
use crate::revision::release::standing;
use crate::samples::rows::comments::concession;

words! {
    FROM_TO "cover.age-from-to" = "From {from} to {to}";
    FROM "cover.age-from" = "From {from}";
    TO "cover.age-to" = "Up to {to}";
    UNTITLED "cover.untitled" = "Untitled style";
    STYLE "cover.style" = "Style {id}";
    DATED "cover.dated" = "{revision} of {date}";
    OPEN "cover.open" = "Questions open";
    COMMENTS_OPEN "cover.comments-open" = "Comments open";
    TAG "cover.tag" = "Sealed sample, tag no.";
    WAY "cover.way" = "{id} · {name}";
    IN_THE_WAY "cover.in-the-way" = "In the way of {stage}: {count}";
    OF_A_RELEASE "cover.of-a-release" = "a release";
    NOTHING "cover.nothing" = "No finding is in the way of {stage}";
    TO_CONFIRM "cover.to-confirm" = "To be confirmed or approved first: {count} (page {sheet})";
    NOT_MADE "cover.not-made" = "not made";
    MORE "cover.more" = "and {count} more";
}

/// Stands for the page of the confirmation until the pages are laid out.
const CONFIRMATION: &str = "{sheet:confirmation}";
/// What is in the way that is listed; more are counted.
const LISTED: usize = 8;

/// The cover, always one sheet.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let style = &view.model.style;
    let name = match (view.text(style.name.as_ref()), view.text(style.id.as_ref())) {
        ("", "") => UNTITLED.into(),
        ("", id) => say!(STYLE, id),
        (name, _) => name.into(),
    };
    let lead = [view.text(style.product.as_ref()), view.text(style.note.as_ref())];
    let lead = Phrase::row(lead.map(capital), ". ");
    let front = view.model.views.get("front").or_else(|| view.model.views.values().next());
    vec![Sheet::Cover(Cover {
        head: Head { title: sentences::COVER_TITLE.into(), name, lead },
        document: heads::SPECIFICATION.into(),
        front: front.and_then(|front| drawing(view, front, ROOM_COVER, None)),
        facts: facts(view),
        numbers: numbers(view),
        parties: crate::parties::rows::rows(view),
        sizes: view.model.sizes.iter().map(|size| size.entry.title().to_string()).collect(),
        colourways: view
            .model
            .ways()
            .into_iter()
            .filter_map(|way| view.model.colourways.get(way))
            .map(|way| colourway(view, way))
            .collect(),
        obstacles: obstacles(view),
        concessions: view.samples.concessions.iter().map(concession).collect(),
    })]
}

/// What is in the way of the next stage: the list that `status` shows, in the words of the sheet of questions.
pub(crate) fn obstacles(view: &View<'_>) -> Obstacles {
    let (stage, findings) = match view.ahead {
        Some((stage, findings)) => (said(stage.word()), findings),
        None => (OF_A_RELEASE.into(), view.findings),
    };
    let standing = standing(findings);
    let mut list: Vec<Phrase> = standing.iter().take(LISTED).map(|finding| finding.message.clone().capital()).collect();
    if standing.len() > LISTED {
        list.push(say!(MORE, count = standing.len() - LISTED));
    }
    let title =
        if standing.is_empty() { say!(NOTHING, stage) } else { say!(IN_THE_WAY, stage, count = standing.len()) };
    let open = super::confirmation::open(view);
    let confirm = if open > 0 { say!(TO_CONFIRM, count = open, sheet = CONFIRMATION) } else { Phrase::none() };
    Obstacles { title, list, confirm }
}

fn facts(view: &View<'_>) -> Vec<Fact> {
    let (style, revision) = (&view.model.style, &view.model.revision);
    let destinations: Vec<String> = style.destinations.iter().map(|one| one.value.printed()).collect();
    let index = view.text(revision.id.as_ref());
    let dated = match view.date(revision.date.as_ref()) {
        Some(date) if !index.is_empty() => say!(DATED, revision = index, date),
        _ => index.into(),
    };
    let open = view.findings.count(Severity::Must) + view.findings.count(Severity::Should);
    let comments = view.samples.comments.iter().filter(|one| one.state == CommentState::Open.word()).count();
    let tags = view.samples.approvals.iter().filter_map(|one| one.sealed.as_ref()?.tag.clone());
    vec![
        Fact::of(heads::STYLE_NUMBER, view.text(style.id.as_ref())),
        Fact::of(heads::FACTORY_NUMBER, view.text(style.factory_number.as_ref())),
        Fact::of(heads::KIND, style.kind.as_ref().map_or_else(Phrase::none, |kind| begun(kind.value.word()))),
        Fact::of(heads::DESTINATIONS, Phrase::list(destinations)),
        Fact::of(heads::AGE, style.age.as_ref().map_or_else(Phrase::none, |age| grade(view, age))),
        Fact::of(heads::STAGE, begun(view.text(revision.stage.as_ref()))),
        Fact::of(heads::REVISION, dated),
        Fact::of(heads::REASON, view.text(revision.reason.as_ref())),
        Fact::of(heads::SEASON, view.text(style.season.as_ref())),
        Fact::of(heads::CREATOR, view.text(revision.by.as_ref())),
        Fact::of(heads::APPROVER, view.text(revision.approved.as_ref())),
        Fact::of(OPEN, Cell::count(open as u64)),
        Fact::of(COMMENTS_OPEN, Cell::count(comments as u64)),
        Fact::of(heads::ANSWER_BY, day(view.date(revision.answer.as_ref()))),
        Fact::of(TAG, Phrase::list(tags)),
    ]
}

/// `From 36 months, graded by ..`.
fn grade(view: &View<'_>, age: &AgeGrade) -> Phrase {
    let range = match (&age.from, &age.to) {
        (Some(from), Some(to)) => say!(FROM_TO, from = from.value.to_string(), to = to.value.to_string()),
        (Some(from), None) => say!(FROM, from = from.value.to_string()),
        (None, Some(to)) => say!(TO, to = to.value.to_string()),
        (None, None) => Phrase::none(),
    };
    Phrase::list([range, view.text(age.basis.as_ref()).into()])
}

fn colourway(view: &View<'_>, way: &Way) -> Colourway {
    let id = &way.entry.id.value;
    let name = if way.entry.name.is_some() { say!(WAY, id, name = way.entry.title()) } else { id.into() };
    let mut swatches: Vec<String> = Vec::new();
    for role in way.roles.keys() {
        let colour = view.model.resolve(role, id).and_then(|(_, colour)| view.model.colours.get(colour?));
        if let Some([r, g, b]) = colour.and_then(|colour| colour.screen.as_ref()?.known().copied()) {
            let hex = format!("#{r:02x}{g:02x}{b:02x}");
            if !swatches.contains(&hex) {
                swatches.push(hex);
            }
        }
    }
    Colourway { name, swatches, cells: view.sizes().into_iter().map(|size| made(view, size, id)).collect() }
}

fn made(view: &View<'_>, size: &str, way: &str) -> Cell {
    if view.model.is_made(size, way) { heads::YES.into() } else { NOT_MADE.into() }
}

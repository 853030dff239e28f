//! Which sheets and items a finding is about, told by where it points.

use crate::diag::Finding;
use crate::model::{Entry, Model};
use crate::source::Span;
use crate::words::{Phrase, Word, kind, say, sheet as words, words};

words! {
    PLACE "items.place" = "{sheet}: {item}";
    THING "items.thing" = "{kind} {title}";
    MORE "items.more" = "and {count} more";
    ORDER_OF_WORK "items.order-of-work" = "order of work";
    STITCH "items.stitch" = "stitch";
    CUTTING "items.cutting" = "cutting";
    SAMPLE "items.sample" = "sample";
    COMMENT "items.comment" = "comment";
    APPROVAL "items.approval" = "approval";
    CONCESSION "items.concession" = "concession";
}

/// What is no kind of thing with words of its own elsewhere.
const CALLED: [Word; 7] = [ORDER_OF_WORK, STITCH, CUTTING, SAMPLE, COMMENT, APPROVAL, CONCESSION];

/// Lines that are shown; a finding that points at more says how many.
const SHOWN: usize = 4;

/// A table of the specification: its kind, what people call it, where it begins.
type Table<'m> = (&'static str, &'m str, Span);

/// `Pieces: piece Side`, a line for each thing a finding points at.
pub fn concerned(model: &Model, finding: &Finding) -> Phrase {
    let tables = tables(model);
    let mut lines: Vec<Phrase> = Vec::new();
    for line in finding.places.iter().filter_map(|label| line(&tables, label.span)) {
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    if lines.is_empty() {
        lines.push(words::COVER.into());
    }
    if lines.len() > SHOWN {
        let more = lines.len() - SHOWN;
        lines.truncate(SHOWN);
        lines.push(say!(MORE, count = more));
    }
    Phrase::lines(lines)
}

/// The table that begins last before a place is the one it lies in; none in a drawing.
fn line(tables: &[Table<'_>], place: Span) -> Option<Phrase> {
    let before = tables.iter().filter(|(.., at)| at.file == place.file && at.start <= place.start);
    let (table, title, _) = before.max_by_key(|(.., at)| at.start)?;
    let called = kind::of(table).map(|kind| kind.one).or(CALLED.into_iter().find(|word| word.en == *table));
    let kind = called.map_or_else(|| (*table).into(), Phrase::from);
    let item = if title.is_empty() { kind } else { say!(THING, kind, title = *title) };
    Some(say!(PLACE, sheet = sheet(table), item))
}

/// The sheet that shows things of a kind.
fn sheet(table: &str) -> Word {
    match table {
        "piece" | "part" => words::PIECES,
        "seam" | "opening" | "edge-finish" | "stitch" | "topstitch" | "attach" | "step" | "order of work" => {
            words::CONSTRUCTION
        }
        "stuffing" => words::FILLING,
        "fabric" | "thread" | "filling" | "trim" | "colour" | "role" | "colourway" => words::BILL,
        "point-of-measure" => words::MEASUREMENTS,
        "size" => words::LENGTHS,
        "view" => words::VIEWS,
        "cutting" => words::MARKER,
        "sample" => words::SAMPLE,
        "comment" | "approval" | "concession" => words::COMMENTS,
        _ => words::COVER,
    }
}

fn tables(model: &Model) -> Vec<Table<'_>> {
    let mut all: Vec<Table<'_>> = Vec::new();
    all.extend(model.style.span.map(|span| ("style", "", span)));
    all.extend(model.revision.span.map(|span| ("revision", "", span)));
    all.extend(model.work.span.map(|span| ("order of work", "", span)));
    let named = model.entries().into_iter().chain(apart(model));
    all.extend(named.map(|(table, entry)| (table, entry.title(), entry.span())));
    all
}

/// What is declared beside the product itself: how it is cut, and what was said of samples.
fn apart(model: &Model) -> Vec<(&'static str, &Entry)> {
    let mut all: Vec<(&'static str, &Entry)> = Vec::new();
    all.extend(model.cuttings.values().map(|one| ("cutting", &one.entry)));
    all.extend(model.samples.samples.values().map(|one| ("sample", &one.entry)));
    all.extend(model.samples.comments.values().map(|one| ("comment", &one.entry)));
    all.extend(model.samples.approvals.values().map(|one| ("approval", &one.entry)));
    all.extend(model.samples.concessions.values().map(|one| ("concession", &one.entry)));
    all
}

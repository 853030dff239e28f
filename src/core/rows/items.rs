//! Which sheets and items a finding is about, told by where it points.

use crate::diag::Finding;
use crate::model::Model;
use crate::model::kind::Kind;
use crate::source::Span;
use crate::words::{Phrase, say, sheet as words, words};

words! {
    PLACE "items.place" = "{sheet}: {item}";
    THING "items.thing" = "{kind} {title}";
    MORE "items.more" = "and {count} more";
}

/// Lines that are shown; a finding that points at more says how many.
const SHOWN: usize = 4;

/// A table of the specification: its kind, what people call it, where it begins.
type Table<'m> = (&'static Kind, &'m str, Span);

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
    let (kind, title, _) = before.max_by_key(|(.., at)| at.start)?;
    let item = if title.is_empty() { kind.one.into() } else { say!(THING, kind = kind.one, title = *title) };
    Some(say!(PLACE, sheet = kind.sheet, item))
}

/// Every table of the specification with its place, for telling which one a place lies in.
fn tables(model: &Model) -> Vec<Table<'_>> {
    let once = model.once().map(|(kind, span)| (kind, "", span));
    once.chain(model.named().map(|(kind, entry)| (kind, entry.title(), entry.span()))).collect()
}

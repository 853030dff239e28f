//! How long the edges are that meet, in every size.

use crate::compute::{Number, SeamSize};
use crate::words::{Phrase, say, sheet, words};

use super::cell::Cell;
use super::data::{LengthRow, Sheet, Sizes};
use super::letters::{self, Letters};
use super::package::Head;
use super::view::View;

words! {
    OF_SIZES "sizes.of" = "Sizes: {sizes}";
}

/// The most sizes whose lengths stand side by side.
const COLUMNS: usize = 3;

/// A sheet for every three sizes; none where nothing is sewn.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let letters = Letters::of(view);
    let sheet = |(n, some): (usize, &[&str])| {
        let rows = lengths(view, &letters, some);
        let sizes: Vec<String> = some.iter().map(|size| titled(view, size).to_string()).collect();
        let name = match n {
            0 => sheet::LENGTHS.into(),
            _ => say!(OF_SIZES, sizes = Phrase::list(&sizes)),
        };
        let head = Head { title: sheet::LENGTHS_TITLE.into(), name, lead: sheet::LENGTHS_LEAD.into() };
        (!rows.is_empty()).then_some(Sheet::Sizes(Sizes { head, unit: "mm".into(), sizes, rows }))
    };
    view.sizes().chunks(COLUMNS).enumerate().filter_map(sheet).collect()
}

fn titled<'a>(view: &View<'a>, size: &'a str) -> &'a str {
    view.model.size(size).map_or(size, |one| one.entry.title())
}

/// Every seam with its stretches, in the order of their letters.
fn lengths(view: &View<'_>, letters: &Letters, sizes: &[&str]) -> Vec<LengthRow> {
    let seams = &view.figures.seams;
    let mut ids: Vec<&String> = seams.keys().collect();
    ids.sort_by_key(|id| (letters.plain(id).len(), letters.plain(id).to_string()));
    let mut all = Vec::new();
    for id in ids {
        let Some(seam) = seams.get(id) else { continue };
        let by_size: Vec<Option<&SeamSize>> = sizes.iter().map(|size| seam.sizes.get(*size)).collect();
        let joint = view.model.joints.get(id).map(|joint| &joint.entry);
        let title = joint.or_else(|| view.model.attaches.get(id).map(|attach| &attach.entry));
        let title = title.map_or(id.as_str(), |entry| entry.title());
        let whole = |one: &Option<&SeamSize>| match one {
            Some(one) => [&one.a, &one.b, &one.difference].map(|value| Cell::number(value, 1, "")),
            None => Default::default(),
        };
        let lengths = by_size.iter().map(whole).collect();
        all.push(LengthRow { letter: letters.plain(id).into(), title: title.into(), stretch: Phrase::none(), lengths });
        all.extend(stretches(letters.plain(id), &by_size));
    }
    all
}

/// The stretches between the points and notches of a seam; none where it has only one.
fn stretches(letter: &str, by_size: &[Option<&SeamSize>]) -> Vec<LengthRow> {
    let first = by_size.iter().flatten().find(|one| one.between.len() > 1);
    let stretches = first.map_or(&[][..], |one| one.between.as_slice());
    let row = |(n, stretch): (usize, &crate::compute::Between)| {
        let lengths = by_size.iter().map(|one| {
            let one = one.and_then(|one| one.between.get(n));
            one.map_or_else(Default::default, |one| {
                [one.a, one.b, difference(one.a, one.b)].map(|value| Cell::amount(value, 1, ""))
            })
        });
        let lengths = lengths.collect();
        LengthRow { stretch: letters::stretch(letter, stretch), lengths, ..LengthRow::default() }
    };
    stretches.iter().enumerate().map(row).collect()
}

fn difference(a: Number, b: Number) -> Number {
    Number::new(b.get() - a.get())
}

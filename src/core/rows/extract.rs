//! Contents by reader, and the sheets of one desk out of a package.

use std::collections::BTreeMap;

use super::data::Sheet;
use super::desk::{DESKS, Desk};
use super::package::{Bound, Contents, ContentsRow, Extract, Package};
use crate::words::{say, words};

words! {
    NOTE "extract.note" = "Extract for {desk}: {sheets} of the {all} sheets of this revision, with their page numbers. The whole package decides.";
}

/// The contents by reader: a row for each sheet.
pub(super) fn contents(sheets: &[Bound]) -> Contents {
    let row = |bound: &Bound| ContentsRow {
        name: bound.sheet.head().name.clone(),
        page: bound.page,
        read: DESKS.iter().map(|desk| bound.desks.contains(desk)).collect(),
    };
    Contents { desks: DESKS.iter().map(|desk| desk.word().into()).collect(), rows: sheets.iter().map(row).collect() }
}

/// The sheets of one desk out of a package whose sheets begin on the pages `starts` of `total`: with the page numbers that
/// they have there, so that it cannot be taken for the whole.
#[must_use]
pub fn extract(package: &Package, desk: Desk, starts: &[usize], total: usize) -> Package {
    let mut begins = BTreeMap::new();
    let mut all = package.sheets.clone();
    for (bound, start) in all.iter_mut().zip(starts) {
        bound.page = Some(*start);
        bound.follows = false;
        begins.entry(bound.sheet.kind()).or_insert(*start);
    }
    let contents = contents(&all);
    let sheets: Vec<Bound> =
        all.into_iter().filter(|bound| bound.desks.contains(&desk) || matches!(bound.sheet, Sheet::Cover(_))).collect();
    let note = say!(NOTE, desk = desk.word(), sheets = sheets.len(), all = package.sheets.len());
    Package { sheets, contents, extract: Some(Extract { note, total, starts: begins }), ..package.clone() }
}

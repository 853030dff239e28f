//! The desks that read a package, and which sheets each of them takes from it.

use std::collections::BTreeMap;

use serde::Serialize;

use super::data::Sheet;
use super::package::{Bound, Contents, ContentsRow, Extract, Package};
use crate::words::{Phrase, Word, say, words};

words! {
    BUYER "desk.buyer" = "buyer";
    PATTERN "desk.pattern" = "pattern";
    CUTTER "desk.cutter" = "cutter";
    LINE "desk.line" = "line";
    INSPECTOR "desk.inspector" = "inspector";
    PACKER "desk.packer" = "packer";
    REVIEWER "desk.reviewer" = "reviewer";
    EVERYBODY "desk.everybody" = "all desks";
    EXTRACT "desk.extract" = "Extract for {desk}: {sheets} of the {all} sheets of this revision, with their page numbers. The whole package decides.";
}

/// Somebody who works from a package.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Desk {
    /// Buys materials and trims.
    Buyer,
    /// Makes and grades the pattern.
    Pattern,
    /// Spreads and cuts.
    Cutter,
    /// Leads the sewing line.
    Line,
    /// Measures and inspects.
    Inspector,
    /// Labels and packs.
    Packer,
    /// Reviews the next sample.
    Reviewer,
}

use Desk::{Buyer, Cutter, Inspector, Line, Packer, Pattern, Reviewer};

/// All of them, in the order of the work.
pub const DESKS: [Desk; 7] = [Buyer, Pattern, Cutter, Line, Inspector, Packer, Reviewer];

impl Desk {
    /// What it is called on paper and on the command line.
    #[must_use]
    pub fn word(self) -> Word {
        match self {
            Buyer => BUYER,
            Pattern => PATTERN,
            Cutter => CUTTER,
            Line => LINE,
            Inspector => INSPECTOR,
            Packer => PACKER,
            Reviewer => REVIEWER,
        }
    }

    /// The desk of a name; `None` for any other word.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        DESKS.into_iter().find(|desk| desk.word().en == name)
    }
}

/// Who reads a sheet, for the foot of its pages.
pub(super) fn readers(desks: &[Desk]) -> Phrase {
    if desks.len() == DESKS.len() {
        return EVERYBODY.into();
    }
    Phrase::list(desks.iter().map(|desk| Phrase::from(desk.word())))
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
        begins.entry(bound.sheet.kind()).or_insert(*start);
    }
    let contents = contents(&all);
    let sheets: Vec<Bound> =
        all.into_iter().filter(|bound| bound.desks.contains(&desk) || matches!(bound.sheet, Sheet::Cover(_))).collect();
    let note = say!(EXTRACT, desk = desk.word(), sheets = sheets.len(), all = package.sheets.len());
    Package { sheets, contents, extract: Some(Extract { note, total, starts: begins }), ..package.clone() }
}

//! The view data of a package: what the templates read, every string final.
//!
//! Nothing here is computed from anything else here, and the templates compute nothing either: numbers
//! arrive rounded, dates written, units set apart. Strings may hold anything a user can type; they are
//! cleaned and checked against the fonts on the way to the page (`fonts::clean`), never read as markup.
//! A line break in a string (`\n`) breaks the line on the page, and `{sheet:bill}` becomes the number of the page
//! on which the first sheet of that kind begins, since nobody can know it before the pages are laid out.

use std::collections::BTreeMap;

use crate::words::{Languages, Phrase};
use serde::Serialize;

pub use super::block::{Drawing, Fact, Head, Picture};
use super::data::Sheet;
use super::desk::Desk;
use super::labels::Label;

/// A whole package.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Package {
    /// What the file says about itself.
    pub about: About,
    /// The fields at the foot of every sheet.
    pub title_block: TitleBlock,
    /// One plain line for the foot of every sheet, such as "Not released: 3 questions open (page {sheet:questions})";
    /// `None` once nothing stands in the way.
    pub not_released: Option<Phrase>,
    /// The languages it is printed in.
    #[serde(skip)]
    pub languages: Languages,
    /// Fixed wording by key, all of [`super::labels::labels`].
    pub labels: BTreeMap<&'static str, Label>,
    /// Which sheet is on which page, and who reads it.
    pub contents: Contents,
    /// The sheets in page order.
    pub sheets: Vec<Bound>,
    /// What says that this is only a part of a package; `None` for the whole.
    pub extract: Option<Extract>,
}

/// A sheet as it is bound into a package.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Bound {
    /// The sheet.
    #[serde(flatten)]
    pub sheet: Sheet,
    /// Who reads it, for the foot of its pages.
    pub readers: Phrase,
    /// The same, for contents and extracts.
    #[serde(skip)]
    pub desks: Vec<Desk>,
    /// Whether it holds drawings to scale, each with its scale.
    pub scaled: bool,
    /// Whether it begins below the sheet before it, if all of it fits there.
    pub follows: bool,
    /// The page it begins on; `None` in a whole package, where the engine counts.
    pub page: Option<usize>,
}

/// The contents by reader.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Contents {
    /// The desks, as heads of columns.
    pub desks: Vec<Phrase>,
    /// One row a sheet.
    pub rows: Vec<ContentsRow>,
}

/// One sheet in the contents.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ContentsRow {
    /// The name of the sheet.
    pub name: Phrase,
    /// The page it begins on; `None` where the engine counts.
    pub page: Option<usize>,
    /// Whether each desk reads it.
    pub read: Vec<bool>,
}

/// What an extract says of the package it was taken from.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Extract {
    /// For whom, and how much of the whole it is.
    pub note: Phrase,
    /// Pages of the whole.
    pub total: usize,
    /// The page on which the first sheet of each kind begins in the whole.
    pub starts: BTreeMap<String, usize>,
}

/// Metadata of the PDF file.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct About {
    /// Title of the document. Never empty.
    pub title: String,
    /// Who issues it.
    pub author: String,
    /// Language of the text as a two-letter code, `"en"` or `"zh"`.
    pub language: String,
    /// Date of issue as year, month, day.
    pub date: [u16; 3],
}

/// What the foot of a page says: fields of ISO 7200:2004 and what the trade adds to them; who made and approved the document
/// is on its first sheet.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct TitleBlock {
    /// Legal owner of the document.
    pub owner: String,
    /// Identification number of the document.
    pub number: String,
    /// Title: the product.
    pub title: Phrase,
    /// Date of issue, written out.
    pub date: String,
    /// Revision index.
    pub revision: String,
    /// The same with the sealed revisions before it: `C after B, A`.
    pub revisions: Phrase,
    /// Document status: the stage, `"Prototype"`.
    pub stage: Phrase,
    /// Our style number.
    pub style: String,
    /// The first ten characters of the digest of the inputs.
    pub digest: String,
}

/// A size of paper that a drawing must fit into, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// Room for the front picture on the cover.
pub const ROOM_COVER: Room = Room { width: 104.0, height: 110.0 };
/// Room for one view when a sheet holds up to two of them.
pub const ROOM_VIEW_HALF: Room = Room { width: 92.0, height: 118.0 };
/// Room for one view when a sheet holds three or four.
pub const ROOM_VIEW: Room = Room { width: 92.0, height: 70.0 };
/// Room for one view when a sheet holds more.
pub const ROOM_VIEW_THIRD: Room = Room { width: 68.0, height: 70.0 };
/// Width of a row of cards, mm.
pub const ROW: f64 = 257.0;
/// Air between cards of a row, mm.
pub const ROW_GAP: f64 = 4.0;
/// The least width of a card, mm: its name and count must be read.
pub const CARD_LEAST: f64 = 58.0;
/// Rooms for the state at the end of a stage, width and height, the first that is clear: beside what the stage says, or below.
pub const ROOMS_STATE: [[f64; 2]; 5] = [[62.0, 25.0], [124.0, 30.0], [124.0, 46.0], [124.0, 66.0], [124.0, 90.0]];
/// Rooms for where a step is done: beside its section.
pub const ROOMS_PLACE: [[f64; 2]; 3] = [[30.0, 16.0], [30.0, 30.0], [30.0, 44.0]];
/// The same of one piece.
pub const ROOMS_PIECE: [[f64; 2]; 3] = [[24.0, 14.0], [30.0, 18.0], [30.0, 30.0]];
/// The same of many pieces: above what is said.
pub const ROOMS_PLACES: [[f64; 2]; 3] = [[60.0, 20.0], [60.0, 36.0], [60.0, 54.0]];
/// Room for a picture to a step.
pub const ROOM_SHOWN: Room = Room { width: 30.0, height: 24.0 };
/// Room for the map of the whole product.
pub const ROOM_MAP: Room = Room { width: 257.0, height: 122.0 };

/// Height of a page that cards are packed on, mm, where the foot says that the package is not released.
pub const CARDS_HEIGHT: f64 = 168.0;
/// Room for one piece at 1:`denominator`: full size for small pieces only, the height of a sheet for the rest.
#[must_use]
pub fn room_piece(denominator: f64) -> [f64; 2] {
    if denominator <= 1.0 { [90.0, 92.0] } else { [ROW, 145.0] }
}

/// The same at half size or less, for pieces on which little is written.
#[must_use]
pub fn room_half(denominator: f64) -> [f64; 2] {
    if denominator <= 1.0 { [0.0; 2] } else { room_piece(denominator) }
}

/// Room for the picture of the measurements.
pub const ROOM_MEASURE: Room = Room { width: 60.0, height: 108.0 };

/// Page and frame in millimetres; the templates read them from the data, the lint from here.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Paper {
    /// Page width: A4 landscape.
    pub width: f64,
    /// Page height.
    pub height: f64,
    /// Frame: distance from the left edge, which is bound.
    pub left: f64,
    /// Frame: distance from the other edges.
    pub margin: f64,
    /// Height of the title block inside the frame, at its foot.
    pub block: f64,
    /// Air between the body and the title block.
    pub foot: f64,
    /// Room for the line above the title block that says that a package is not released.
    pub notice: f64,
}

/// The one paper a package is printed on. The binding edge follows ISO 5457 (20 mm, others 10 mm).
pub const PAPER: Paper =
    Paper { width: 297.0, height: 210.0, left: 20.0, margin: 10.0, block: 9.0, foot: 3.0, notice: 3.0 };

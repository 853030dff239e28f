//! What each sheet holds, one struct a sheet, in page order. [`Sheet`] lists them.

mod changes;
mod closing;
mod cutting;
mod ordered;
mod review;
mod work;

pub use changes::*;
pub use closing::*;
pub use cutting::*;
pub use ordered::*;
pub use review::*;
pub use work::*;

pub use super::sheet::Sheet;

use serde::Serialize;

use super::cell::Cell;
use super::package::{Drawing, Fact, Head};
use super::placed::Page;
use crate::parties::rows::PartyRow;
use crate::words::Phrase;

/// The cover.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cover {
    /// Title (the product), name and lead.
    pub head: Head,
    /// What the document is, above the name.
    pub document: Phrase,
    /// The front view; `None` prints a framed blank that asks for one.
    pub front: Option<Drawing>,
    /// Style numbers, destinations, age grade, stage, revision, seal tag and so on, in order.
    pub facts: Vec<Fact>,
    /// How much of what one product is.
    pub numbers: Vec<Fact>,
    /// Who has to do with the product.
    pub parties: Vec<PartyRow>,
    /// Sizes, the columns of the assortment.
    pub sizes: Vec<String>,
    /// Colourways, the rows of the assortment.
    pub colourways: Vec<Colourway>,
    /// What is in the way of the next stage.
    pub obstacles: Obstacles,
    /// Findings that were lifted, by whom and until when.
    pub concessions: Vec<Phrase>,
}

/// What is in the way of the next stage.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Obstacles {
    /// Of which stage, and how much; or that nothing is.
    pub title: Phrase,
    /// One line each.
    pub list: Vec<Phrase>,
    /// How much is to be confirmed first, and where; empty where nothing is.
    pub confirm: Phrase,
}

/// One row of the assortment.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Colourway {
    /// Code and name, "SAND · Sand with brick piping".
    pub name: Phrase,
    /// Screen colours, for the screen only: `"#c8b79a"`. Six hexadecimal digits or empty for none.
    pub swatches: Vec<String>,
    /// One cell per size: an order code, "yes", or "–".
    pub cells: Vec<Cell>,
}

/// The standing findings; the sheet is left out when there are none.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Questions {
    /// Title, name, lead.
    pub head: Head,
    /// One row each, must-findings first.
    pub rows: Vec<Question>,
}

/// One question.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Question {
    /// Its number.
    pub number: String,
    /// Whether it stops the release: drawn with a heavy bar.
    pub stops: bool,
    /// The question.
    pub text: Phrase,
    /// The sheet and the item it concerns, a line each: "Pieces: piece Side".
    pub concerns: Phrase,
}

/// The views.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Views {
    /// Title, name, lead.
    pub head: Head,
    /// At most six; more go on a second sheet.
    pub views: Vec<Drawing>,
    /// What the numbers in the views call out.
    pub callouts: Vec<Callout>,
}

/// One call-out.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Callout {
    /// The number in the drawing.
    pub number: String,
    /// What it names.
    pub text: Phrase,
}

/// The bill of materials, one table, and the colours it names.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Bill {
    /// Title, name, lead.
    pub head: Head,
    /// Colour columns. With the size columns at most six; more go on a second sheet.
    pub colourways: Vec<String>,
    /// Columns of use.
    pub sizes: Vec<String>,
    /// Groups of articles: fabric, thread, filling, trims.
    pub groups: Vec<BillGroup>,
    /// Every colour in use, once.
    pub colours: Vec<ColourRow>,
    /// Notes under the table.
    pub notes: Vec<Phrase>,
}

/// Articles of one kind.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct BillGroup {
    /// The kind, "Fabric".
    pub title: Phrase,
    /// The articles.
    pub articles: Vec<BillArticle>,
}

/// One article: described once, with a row for each colour.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct BillArticle {
    /// Its number in the bill.
    pub number: String,
    /// What it is called.
    pub item: Phrase,
    /// Everything that is stated of it; may be empty.
    pub details: Phrase,
    /// Article number; empty asks for it.
    pub article: Cell,
    /// Supplier; empty asks for it.
    pub supplier: Cell,
    /// What the owner asks for: least order, lead time, price; may be empty.
    pub asked: Phrase,
    /// Its colours.
    pub rows: Vec<BillRow>,
}

/// One colour of an article, in each colourway its own where they take the same length of it.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct BillRow {
    /// What it is used for; may be empty.
    pub place: Phrase,
    /// One colour per colourway.
    pub colours: Vec<Cell>,
    /// Use per product, one per size, without its unit; of thread net and with wastage, a line each.
    pub uses: Vec<Cell>,
    /// Unit of the use, a line for each line of it.
    pub unit: Phrase,
}

/// One colour.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct ColourRow {
    /// What it is called.
    pub name: Phrase,
    /// What it is matched to.
    pub reference: Phrase,
    /// Its CIELAB values; a dash where none are stated.
    pub lab: Cell,
    /// Largest difference that is accepted; a dash where none is stated.
    pub limit: Cell,
    /// The articles that are bought in it.
    pub articles: Phrase,
}

/// The pieces.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Pieces {
    /// Title, name, lead.
    pub head: Head,
    /// Unit of all cut sizes and allowances, "mm".
    pub unit: String,
    /// Unit of all areas, "m²".
    pub area: String,
    /// Columns of cut sizes and areas: the codes of the sizes; one without a code where there is one size only, or where they
    /// are too many to be side by side.
    pub sizes: Vec<String>,
    /// One row per cut.
    pub rows: Vec<PieceRow>,
    /// Totals by material; must agree with the bill.
    pub totals: Vec<PieceTotal>,
    /// What holds for all pieces, and what is said of each part.
    pub notes: Vec<Phrase>,
    /// What holds for every drawing that says nothing else: its scale and the sizes that are drawn.
    pub scale: Phrase,
    /// One card per piece, page after page.
    pub drawings: Vec<Page<PieceCard>>,
}

/// One cut of a piece.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct PieceRow {
    /// Code of the piece.
    pub code: String,
    /// Name of the piece, and of the cut where a piece has several.
    pub name: Phrase,
    /// Material it is cut from.
    pub material: Phrase,
    /// Those that lie as drawn, per product.
    pub drawn: Cell,
    /// Mirrored ones per product.
    pub mirrored: Cell,
    /// Those that are their own mirror image, per product.
    pub own: Cell,
    /// All of them per product.
    pub total: Cell,
    /// Cut size, width × height, one a column: `"504 × 504"`.
    pub sizes: Vec<Cell>,
    /// Allowance without its unit, `"10"`, or per edge `"10, top 15"`.
    pub allowance: Cell,
    /// Grain and pile where they are not those of all, and anything else; may be empty.
    pub note: Phrase,
}

/// A total by material.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct PieceTotal {
    /// The material.
    pub material: Phrase,
    /// Pieces that lie as drawn, per product.
    pub drawn: Cell,
    /// Mirrored pieces per product.
    pub mirrored: Cell,
    /// Pieces that are their own mirror image, per product.
    pub own: Cell,
    /// Pieces per product.
    pub total: Cell,
    /// Net area per product, one a column, without its unit.
    pub net: Vec<Cell>,
}

/// The drawing of one piece with what must be read beside it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PieceCard {
    /// Width of the card, mm.
    pub width: f64,
    /// Room for the text above the drawing, mm.
    pub top: f64,
    /// Code.
    pub code: String,
    /// Name.
    pub name: Phrase,
    /// The scale, where it is not that of the sheet.
    pub scale: Phrase,
    /// Scale and sizes of the drawing, for a file of its own.
    pub caption: Phrase,
    /// Count and material: "cut 2 · Cotton canvas".
    pub count: Phrase,
    /// The drawing. `None` prints "Shape by the factory".
    pub drawing: Option<Drawing>,
}

/// The box of signs.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Signs {
    /// Samples of the lines and marks in use, with their meanings.
    pub rows: Vec<LegendRow>,
}

/// One sign.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LegendRow {
    /// The sample, from `crate::scene::legend_sample`.
    pub sample: Drawing,
    /// Its meaning.
    pub text: Phrase,
}

/// Which edges meet, and how long they are.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Matching {
    /// Title, name, lead.
    pub head: Head,
    /// All pieces on one page; the caption states the scale. None where no outline is known.
    pub map: Option<Drawing>,
    /// Whether the table begins a page.
    pub apart: bool,
    /// Parts that are made more than once; what the map leaves out.
    pub notes: Vec<Phrase>,
    /// Unit of all lengths, "mm".
    pub unit: String,
    /// Every seam, for at most three sizes a table.
    pub tables: Vec<JoinTable>,
}

/// Every seam with its lengths in some sizes.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct JoinTable {
    /// Groups of columns of lengths: the sizes.
    pub sizes: Vec<String>,
    /// One row a seam.
    pub rows: Vec<JoinRow>,
}

/// One seam.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct JoinRow {
    /// Its letter.
    pub letter: String,
    /// The letter of its mirror image, where that is the same in all else; may be empty.
    pub also: String,
    /// Its name.
    pub title: Phrase,
    /// Its step in the order of work; may be empty.
    pub step: String,
    /// The edges of its first side in order.
    pub a: String,
    /// The edges of its second side in order.
    pub b: String,
    /// What is caught between; may be empty.
    pub between: Phrase,
    /// Lengths of stretches between points and notches that are uneven, end at a notch or have something caught; may be empty.
    pub stretches: Phrase,
    /// By size.
    pub lengths: Vec<JoinLength>,
}

/// Lengths of a seam in one size.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct JoinLength {
    /// First side.
    pub a: Cell,
    /// Second side.
    pub b: Cell,
    /// The second less the first, and percent, where there is any.
    pub difference: Phrase,
}

/// The filling.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Filling {
    /// Title, name, lead.
    pub head: Head,
    /// Sizes, the columns; at most three, more go on a second sheet.
    pub sizes: Vec<String>,
    /// Unit of all masses, "g".
    pub unit: String,
    /// One row per stuffing.
    pub rows: Vec<FillRow>,
    /// The product's mass and what it is made of, below the stuffings; its `how` says how it is weighed.
    pub sums: Vec<FillRow>,
    /// General points: fibre, firmness, how portions are weighed.
    pub facts: Vec<Fact>,
    /// Notes under the table.
    pub notes: Vec<Phrase>,
}

/// Masses of one stuffing or one sum.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct FillRow {
    /// Stuffing, or what is summed up.
    pub stuffing: Phrase,
    /// Material; may be empty.
    pub material: Phrase,
    /// How it is checked.
    pub how: Phrase,
    /// One per size.
    pub masses: Vec<Mass>,
}

/// A mass with its limits, without unit. Empty cells print as a ruled blank for the factory.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Mass {
    /// Target.
    pub target: Cell,
    /// Limits, `243–257`.
    pub limits: Cell,
}

/// The measurements. On the line one size lies beside the work, so give each size its own sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Measurements {
    /// Title, name, lead.
    pub head: Head,
    /// Pictures with numbered arrows; at most four.
    pub pictures: Vec<Drawing>,
    /// Whether they are above the table, not beside it.
    pub above: bool,
    /// Columns of limits, one per size on this sheet; at most two.
    pub sizes: Vec<String>,
    /// Unit of all values, "mm".
    pub unit: String,
    /// The points of measure.
    pub rows: Vec<Point>,
    /// Heads of the blank columns of each size.
    pub blanks: Vec<String>,
    /// How to measure: rest, tool, state.
    pub conditions: Vec<Phrase>,
}

/// One point of measure.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Point {
    /// Its number in the picture.
    pub number: String,
    /// Its name.
    pub name: Phrase,
    /// From where to where, how, in which state.
    pub how: Phrase,
    /// Whether a reading outside the limits rejects the product.
    pub critical: bool,
    /// Whether it is read left and right.
    pub pair: bool,
    /// One per size.
    pub limits: Vec<Mass>,
}

//! Laid-out pages as plain data: where each text, line, area and picture came to lie.
//!
//! All lengths are millimetres from the top left corner of the page, y down; type sizes are points.

/// A corner of a box.
pub type Corner = [f64; 2];

/// One page.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Page {
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// The kind of sheet the page belongs to, as in the view data: `"measurements"`.
    pub sheet: String,
    /// Everything on it in painting order.
    pub marks: Vec<Mark>,
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// A run of text in one font and size.
    Text(Run),
    /// A stroked or filled shape.
    Shape(Form),
    /// A picture by its corners.
    Picture([Corner; 4]),
}

/// A run of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The characters.
    pub text: String,
    /// The four corners of the ink, in order round the box; turned with the text.
    pub ink: [Corner; 4],
    /// Type size as printed, points.
    pub size: f64,
    /// Colour, red, green, blue from 0 to 255.
    pub colour: [u8; 3],
    /// Whether a character has no glyph.
    pub missing: bool,
}

/// A shape.
#[derive(Debug, Clone, PartialEq)]
pub struct Form {
    /// The corners of its box, without the stroke's width.
    pub corners: [Corner; 4],
    /// Width of the stroke, if it has one.
    pub stroke: Option<f64>,
    /// Colour of the fill, if it has one.
    pub fill: Option<[u8; 3]>,
}

impl Page {
    /// The runs of text in reading order.
    pub fn runs(&self) -> impl Iterator<Item = &Run> {
        self.marks.iter().filter_map(|mark| match mark {
            Mark::Text(run) => Some(run),
            Mark::Shape(_) | Mark::Picture(_) => None,
        })
    }
}

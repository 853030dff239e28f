//! Pictures of the product, the remarks on them, and the picture files behind them.

use std::sync::Arc;

use crate::source::Spanned;

use super::{Entry, Stated};

/// A remark with its place on a picture.
#[derive(Debug, Clone)]
pub struct Callout {
    /// Hundredths of width and height from the top left.
    pub at: Spanned<[f64; 2]>,
    /// The thing it names: a piece, trim, seam or other id.
    pub item: Option<Spanned<String>>,
    /// The remark.
    pub text: Option<Stated<String>>,
}

/// A picture of the product from one side.
#[derive(Debug, Clone)]
pub struct View {
    /// Id and name.
    pub entry: Entry,
    /// Path of the picture below the root.
    pub picture: Option<Spanned<String>>,
    /// What the picture shows, for those who cannot see it.
    pub alt: Option<Stated<String>>,
    /// Remarks.
    pub callouts: Vec<Callout>,
}

/// What a picture file is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Medium {
    /// Pixels, without loss.
    Png,
    /// Pixels.
    Jpeg,
    /// Lines.
    Svg,
}

impl Medium {
    /// The usual ending of a file's name.
    pub fn ending(self) -> &'static str {
        match self {
            Medium::Png => "png",
            Medium::Jpeg => "jpg",
            Medium::Svg => "svg",
        }
    }
}

/// One picture file, checked: it decodes, and its size is known.
#[derive(Debug, Clone)]
pub struct Picture {
    /// The file as it is on disk; of an SVG file only what is drawn, written again.
    pub bytes: Arc<[u8]>,
    /// What it is made of.
    pub medium: Medium,
    /// Width after orientation, in pixels or units of the drawing.
    pub width: f64,
    /// Height likewise.
    pub height: f64,
}

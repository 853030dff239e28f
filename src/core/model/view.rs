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

/// One picture file, checked: it decodes, and its size is known.
#[derive(Debug, Clone)]
pub struct Picture {
    /// The file as it is on disk.
    pub bytes: Arc<[u8]>,
    /// Width in pixels after orientation.
    pub width: u32,
    /// Height in pixels after orientation.
    pub height: u32,
}

//! How much a specification may hold. More is a mistake, or meant to stop whoever opens the folder: it is refused with one
//! finding, so that reading, checking and laying end.

/// Products of one line of an order. A larger order is several documents.
pub const MOST_PRODUCTS: u32 = 100_000;
/// Characters of a text: about a page of small print.
pub const MOST_LETTERS: usize = 5_000;
/// Things of one kind, such as pieces or steps.
pub const MOST_THINGS: usize = 2_000;
/// Sizes of a style.
pub const MOST_SIZES: usize = 40;
/// Colourways of a style.
pub const MOST_COLOURWAYS: usize = 100;

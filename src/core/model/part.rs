//! Parts, how often the product has them, and where filling goes.

use crate::source::{Span, Spanned};
use crate::units::Quantity;

use super::{Entry, Stated, Value};

/// What a part is once it is sewn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// A closed shell that is stuffed.
    Stuffed,
    /// A closed shell with one hole through it, stuffed.
    Ring,
    /// A closed shell that holds another part and stays openable.
    Cover,
    /// Not closed.
    Flat,
}

/// One use of a part in the product.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Use {
    /// Its name; empty for a part used once.
    pub name: String,
    /// Whether the whole part is the mirror image.
    pub mirrored: bool,
    /// Where it is written.
    pub span: Span,
}

/// A component made of pieces.
#[derive(Debug, Clone)]
pub struct Part {
    /// Id and name.
    pub entry: Entry,
    /// How often it is made; never empty.
    pub uses: Vec<Use>,
    /// What it is once sewn, if stated; otherwise it follows from its stuffings and openings.
    pub form: Option<Spanned<Form>>,
    /// A remark.
    pub note: Option<Stated<String>>,
}

/// Where filling goes.
#[derive(Debug, Clone)]
pub struct Stuffing {
    /// Id and name.
    pub entry: Entry,
    /// The stuffed part.
    pub part: Option<Spanned<String>>,
    /// The filling: role or article.
    pub filling: Option<Spanned<String>>,
    /// Mass for one use of the part.
    pub mass: Option<Value<Quantity>>,
    /// The step that the scale reads, by size.
    pub read_to: Option<Value<Quantity>>,
    /// How it is checked.
    pub check: Option<Stated<String>>,
    /// What the hand should feel, against what.
    pub firmness: Option<Stated<String>>,
    /// A remark.
    pub note: Option<Stated<String>>,
}

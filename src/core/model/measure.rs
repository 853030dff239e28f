//! Points of measure: the target, its tolerance, in what state and to what step each is read.

use crate::source::Spanned;
use crate::units::Quantity;

use super::{Entry, Stated, Value};

/// One point of measure.
#[derive(Debug, Clone)]
pub struct PointOfMeasure {
    /// Id and name.
    pub entry: Entry,
    /// From where to where, in words.
    pub method: Option<Stated<String>>,
    /// State it is measured in: cut, sewn, stuffed, finished, packed.
    pub state: Option<Stated<String>>,
    /// Target with tolerance, by size.
    pub target: Option<Value<Quantity>>,
    /// The step that can be read, by size.
    pub read_to: Option<Value<Quantity>>,
    /// It is there left and right: the largest difference of the two.
    pub difference: Option<Stated<Quantity>>,
    /// Bulk is refused for it.
    pub critical: Option<Spanned<bool>>,
    /// For reference only; never blocks.
    pub reference: Option<Spanned<bool>>,
    /// The view its arrow is drawn on.
    pub view: Option<Spanned<String>>,
    /// From and to on that view, in hundredths of its width and height from the top left.
    pub arrow: Option<Spanned<[[f64; 2]; 2]>>,
}

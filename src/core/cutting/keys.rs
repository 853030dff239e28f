//! Keys of `[cutting.ID]`: how fabric is spread and cut.

use crate::grammar::form::{Form, Key, key};
use crate::units::Dimension::Length;

/// What cuts.
pub const METHODS: &[&str] = &["hand knife", "automatic knife", "die", "laser"];
/// How plies lie on each other.
pub const SPREADS: &[&str] = &["one way", "face to face", "face to face, roll turned", "folded"];
/// Keys of `[cutting.ID]`.
pub(crate) fn cutting() -> Vec<Key> {
    vec![
        key(
            "fabrics",
            Form::set(Form::Refers(&["fabric"])),
            "The fabric it is for; by default every fabric that no other names",
        ),
        key("method", Form::Choice(METHODS), "What cuts; by default a hand knife"),
        key(
            "spread",
            Form::Choice(SPREADS),
            "How plies lie on each other; by default one way, face up. Roll turned: every ply is cut off, so that pile runs one way",
        ),
        key("gap", Form::Quantity(&[Length]), "Least distance between two pieces"),
        key("edge", Form::Quantity(&[Length]), "Kept free along both long edges of the cuttable width"),
        key("end", Form::Quantity(&[Length]), "Kept free at both ends of every ply"),
        key("tilt", Form::Number, "How far a piece may be turned off its grain, in degrees"),
        key("table", Form::Quantity(&[Length]), "Length of the table"),
        key("height", Form::Quantity(&[Length]), "Height that knife, die or laser cuts"),
        key("plies", Form::Whole, "Most plies in one spread"),
        key("products", Form::Whole, "Most products on one ply of an order; by default as many as the table holds"),
        key(
            "shortest-ply",
            Form::Quantity(&[Length]),
            "Shortest ply that is spread in an order where that buys no more; 500 mm by default",
        ),
        key("reserve", Form::Quantity(&[Length]), "Kept back of every roll, as for a test of its shade"),
        key("mix", Form::open(Form::Whole), "Products of each size laid together, to compare: { S = 2, L = 1 }"),
        key("note", Form::Text, "A remark for the cutting room"),
    ]
}

//! Keys of what is said about making: how fabric is cut, and orders.

use super::form::{Form, Key, key};
use crate::units::Dimension::{Count, Length, Percent};

/// What cuts.
pub const METHODS: &[&str] = &["hand knife", "automatic knife", "die", "laser"];
/// How plies lie on each other.
pub const SPREADS: &[&str] = &["one way", "face to face", "folded"];
/// Keys of `[cutting.ID]`.
pub(super) fn cutting() -> Vec<Key> {
    vec![
        key("fabrics", Form::Texts, "The fabric it is for; every fabric that no other names, unless said"),
        key("method", Form::Choice(METHODS), "What cuts; a hand knife unless said"),
        key("spread", Form::Choice(SPREADS), "How plies lie on each other; one way, face up, unless said"),
        key("gap", Form::Quantity(&[Length]), "Least distance between two pieces"),
        key("edge", Form::Quantity(&[Length]), "Kept free along both long edges of the cuttable width"),
        key("end", Form::Quantity(&[Length]), "Kept free at both ends of every ply"),
        key("tilt", Form::Number, "How far a piece may be turned off its grain, in degrees"),
        key("table", Form::Quantity(&[Length]), "Length of the table"),
        key("height", Form::Quantity(&[Length]), "Height that knife, die or laser cuts"),
        key("plies", Form::Whole, "Most plies in one spread"),
        key(
            "mix",
            Form::Open(Box::new(Form::Whole)),
            "Products of each size laid together, to compare: { S = 2, L = 1 }",
        ),
        key("note", Form::Text, "A remark for the cutting room"),
    ]
}

/// Keys of `[order.ID]`.
pub(super) fn order() -> Vec<Key> {
    let over = || key("over", Form::Quantity(&[Percent, Count]), "What may be delivered above the quantity: \"3 %\"");
    let short = || key("short", Form::Quantity(&[Percent, Count]), "What may be missing of the quantity: \"0 %\"");
    let line = vec![
        key("name", Form::Text, "Text for people"),
        key("was", Form::Id, "The id it had earlier"),
        key("size", Form::Id, "Size"),
        key("colourway", Form::Id, "Colourway"),
        key("destination", Form::Market, "Country or market it goes to, one of those the style lists"),
        key("date", Form::Date, "When it leaves the factory"),
        key("quantity", Form::Products, "Products ordered"),
        over(),
        short(),
        key("samples", Form::Products, "Products made on top for samples"),
        key("tests", Form::Products, "Products made on top that tests use up"),
        key("note", Form::Text, "A remark"),
    ];
    vec![
        key("number", Form::Text, "Its number"),
        key("po", Form::Text, "The customer's purchase order"),
        key("date", Form::Date, "When it was placed"),
        key("style", Form::Text, "The style number it is for"),
        key("revision", Form::Text, "The sealed revision it is made to"),
        key("cut-extra", Form::Quantity(&[Percent]), "Products cut on top against loss in making: \"2 %\""),
        over(),
        short(),
        key("surplus", Form::Text, "Whose the fabric is that is left over"),
        key("line", Form::Open(Box::new(Form::Table(line))), "What is ordered: [order.ID.line.ID]"),
        key("note", Form::Text, "A remark"),
    ]
}

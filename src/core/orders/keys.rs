//! Keys of `[order.ID]` and its lines.

use crate::grammar::form::{Form, Key, key};
use crate::units::Dimension::{Count, Percent};

/// Keys of `[order.ID]`.
pub(crate) fn order() -> Vec<Key> {
    let over = || key("over", Form::Quantity(&[Percent, Count]), "What may be delivered above the quantity: \"3 %\"");
    let short = || key("short", Form::Quantity(&[Percent, Count]), "What may be missing of the quantity: \"0 %\"");
    let line = vec![
        key("name", Form::Text, "Text for people"),
        key("was", Form::Former, "The id it had earlier"),
        key("size", Form::Refers(&["size"]), "Size"),
        key("colourway", Form::Refers(&["colourway"]), "Colourway"),
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
        key("line", Form::open(Form::Table(line)), "What is ordered: [order.ID.line.ID]"),
        key("note", Form::Text, "A remark"),
    ]
}

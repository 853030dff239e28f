//! The table `[party.ID]`.

use crate::grammar::keys::{Form, Kind, key, keyed};

/// What a party can be.
pub const ROLES: &[&str] =
    &["owner", "manufacturer", "factory", "importer", "responsible person", "laboratory", "sub-supplier"];

/// The table of a party.
pub fn party() -> Kind {
    let keys = vec![
        key("role", Form::Choices(ROLES), "What it has to do with the product; one word or several"),
        key("address", Form::Lines, "Postal address: one text, or a list of lines"),
        key("electronic", Form::Text, "Electronic address: e-mail or web"),
        key("number", Form::Text, "Registration number, with what it is a number of"),
        key("for", Form::Markets, "Destinations it answers for; by default every destination"),
        key("process", Form::Text, "What a sub-supplier does: printing, embroidery, dyeing"),
        key("note", Form::Text, "A remark"),
    ];
    keyed("party", keys, "Somebody who has to do with the product; [style] names its owner and factory")
}

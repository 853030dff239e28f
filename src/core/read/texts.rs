//! Every text of a table that a sheet may show, with its key and place.

use super::tree::{Fields, Kind, Node};

/// Keys that name a file; sheets do not show them.
const FILES: &[&str] = &["svg", "picture", "libraries"];

/// A text where it is written: its key, with those of the tables around it, and its value.
pub(super) type Found<'a> = (String, &'a str, &'a Node);

/// All texts of a table, in the order of its keys.
pub(super) fn texts(table: &Fields) -> Vec<Found<'_>> {
    let mut found = Vec::new();
    fields(table, "", &mut found);
    found
}

fn fields<'a>(fields: &'a Fields, outer: &str, out: &mut Vec<Found<'a>>) {
    for (name, (_, node)) in fields.iter().filter(|(name, _)| !FILES.contains(&name.as_str())) {
        // The long form of a value adds nothing to its key.
        let key = match (outer, name.as_str()) {
            ("", _) => name.clone(),
            (_, "value") => outer.to_string(),
            _ => format!("{outer}.{name}"),
        };
        value(node, &key, out);
    }
}

fn value<'a>(node: &'a Node, key: &str, out: &mut Vec<Found<'a>>) {
    match &node.kind {
        Kind::Text(text) => out.push((key.to_string(), text, node)),
        Kind::List(list) => list.iter().for_each(|one| value(one, key, out)),
        Kind::Table(inner) => fields(inner, key, out),
        Kind::Integer(_) | Kind::Float(_) | Kind::Flag(_) | Kind::Date(_) => {}
    }
}

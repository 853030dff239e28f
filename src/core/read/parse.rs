//! Parses all TOML files, as much of a broken one as can be read.

use super::reader::Reader;
use super::rules;
use super::tree::{Fields, Kind, Node, Trees, fields};
use crate::source::{FileId, Span, Work};

/// Parses every text file, taking in as much of a broken one as can be read.
pub fn parse(reader: &mut Reader) -> Trees {
    parse_from(reader, 0)
}

/// Parses the text files from the `first` one on.
pub fn parse_from(reader: &mut Reader, first: usize) -> Trees {
    let mut trees = Trees::default();
    let texts: Vec<(FileId, String)> =
        reader.sources.iter().skip(first).map(|(id, file)| (id, file.text.clone())).collect();
    for (id, text) in texts {
        reader.tally.add(Work::Parse);
        let (table, errors) = toml::de::DeTable::parse_recoverable(&text);
        for error in &errors {
            let range = error.span().unwrap_or(0..0);
            let span = Span { file: id, start: range.start, end: range.end };
            reader.findings.push(rules::syntax(error.message(), span));
            trees.broken.insert(id);
        }
        let fields = fields(table.get_ref(), id);
        own(&fields, &text, &mut reader.own);
        trees.files.push((id, fields));
    }
    trees
}

/// Places of what only the own edition shows, whatever becomes of it in reading: a value that cannot be read, or that
/// stands where nothing is expected, is no less private. An audience that is no word of ours is taken for the own one.
fn own(fields: &Fields, text: &str, found: &mut Vec<Span>) {
    let everyone = |node: &Node| matches!(&node.kind, Kind::Text(word) if word == "everyone");
    let own_table = fields.get("audience").is_some_and(|(_, node)| !everyone(node));
    for (key, (place, node)) in fields {
        match &node.kind {
            // Not in braces: from the key on, so that the key can be replaced with the value.
            _ if own_table && key == "value" => found.push(place.to(node.span)),
            _ => own_node(node, text, found),
        }
    }
}

fn own_node(node: &Node, text: &str, found: &mut Vec<Span>) {
    match &node.kind {
        Kind::Table(fields) => {
            let braces = text.get(node.span.start..node.span.end).is_some_and(|text| text.starts_with('{'));
            let mut inside = Vec::new();
            own(fields, text, &mut inside);
            match braces && fields.contains_key("audience") && !inside.is_empty() {
                true => found.push(node.span),
                false => found.append(&mut inside),
            }
        }
        Kind::List(list) => list.iter().for_each(|one| own_node(one, text, found)),
        _ => {}
    }
}

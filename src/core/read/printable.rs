//! Finds the texts with a character that no sheet can show, in every table and key.

use crate::glyphs;
use crate::source::{Sources, Span};

use super::declared::Declarations;
use super::reader::Reader;
use super::rules;
use super::tree::{Fields, Kind, Node};
use crate::grammar::keys;

/// Keys that name a file; sheets do not show them.
const FILES: &[&str] = &["svg", "picture", "libraries"];

impl Reader {
    /// Reports each text of what is declared that has such characters.
    pub(super) fn printable(&mut self, declared: &Declarations) {
        for (kind, things) in declared {
            for thing in things {
                let Some(of) = keys::kind(kind).map(|kind| kind.title(&thing.id.value)) else { continue };
                let mut found = Vec::new();
                fields(&thing.fields, "", &mut found);
                for (key, text, node) in found {
                    let span = place(&self.sources, node, text[0]);
                    self.findings.push(rules::character_not_printable(&key, &of, &text, span));
                }
            }
        }
    }
}

/// Key, characters and value of each such text of a table.
type Found<'a> = Vec<(String, Vec<char>, &'a Node)>;

fn fields<'a>(fields: &'a Fields, outer: &str, out: &mut Found<'a>) {
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

fn value<'a>(node: &'a Node, key: &str, out: &mut Found<'a>) {
    match &node.kind {
        Kind::Text(text) => {
            let missing = glyphs::missing(text);
            if !missing.is_empty() {
                out.push((key.to_string(), missing, node));
            }
        }
        Kind::List(list) => list.iter().for_each(|one| value(one, key, out)),
        Kind::Table(inner) => fields(inner, key, out),
        Kind::Integer(_) | Kind::Float(_) | Kind::Flag(_) | Kind::Date(_) => {}
    }
}

/// Where a character of a value is written; the whole value if it is written as an escape.
fn place(sources: &Sources, node: &Node, character: char) -> Span {
    let at = sources.text(node.span).find(character);
    at.map_or(node.span, |at| node.span.part(at, at + character.len_utf8()))
}

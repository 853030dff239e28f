//! One table while it is read: its fields, its known keys, and its name in findings.

use crate::source::Span;
use crate::words::Phrase;

use super::tree::{Fields, Node};
use crate::grammar::keys::Key;

/// One table being read: its fields, the keys it may have, and what it is called in findings.
#[derive(Debug, Clone, Copy)]
pub struct Section<'a> {
    /// What stands in it.
    pub fields: &'a Fields,
    /// What may stand in it.
    pub keys: &'a [Key],
    /// `piece SIDE`, `the style`.
    pub what: &'a Phrase,
    /// Where it is declared.
    pub span: Span,
}

impl<'a> Section<'a> {
    /// The value of a key, if it is written.
    pub fn node(&self, key: &str) -> Option<&'a Node> {
        #[cfg(test)]
        tests::note(self, key);
        self.fields.get(key).map(|(_, node)| node)
    }

    /// Where a key is written.
    pub fn key_span(&self, key: &str) -> Option<Span> {
        #[cfg(test)]
        tests::note(self, key);
        self.fields.get(key).map(|(span, _)| *span)
    }

    /// The declared key with this name.
    pub fn key(&self, name: &str) -> Option<&'a Key> {
        self.keys.iter().find(|key| key.name == name)
    }
}

#[cfg(test)]
mod tests {
    use std::cell::RefCell;
    use std::collections::{BTreeMap, BTreeSet};

    use super::Section;
    use crate::grammar::keys::{Form, Key, SHAPES, kinds};

    /// The keys of a table in a row, which tell it from others, and those that were asked for.
    type Asked = BTreeMap<String, BTreeSet<String>>;

    thread_local! {
        static ASKED: RefCell<Asked> = RefCell::default();
    }

    /// Notes that a reader asks a table for a key.
    pub(super) fn note(section: &Section<'_>, key: &str) {
        ASKED.with_borrow_mut(|asked| asked.entry(row(section.keys)).or_default().insert(key.to_string()));
    }

    fn row(keys: &[Key]) -> String {
        keys.iter().map(|key| key.name).collect::<Vec<_>>().join(" ")
    }

    /// The tables that stand in a table, by the key they stand behind.
    fn inner(keys: &[Key]) -> Vec<(&'static str, &[Key])> {
        let mut all: Vec<(&'static str, &[Key])> = Vec::new();
        for key in keys {
            match &key.form {
                Form::Table(keys) | Form::Either(_, keys) | Form::Tables(keys) | Form::Mixed(keys) => {
                    all.push((key.name, keys))
                }
                Form::Open(form) => {
                    if let Form::Table(keys) = form.as_ref() {
                        all.push((key.name, keys));
                    }
                }
                _ => {}
            }
        }
        all.retain(|(_, keys)| !keys.is_empty());
        all
    }

    /// A table with every table that may stand in it, and nothing else but what its reader needs to go on.
    fn written(keys: &[Key], start: &str) -> String {
        let mut fields: Vec<String> = if start.is_empty() { Vec::new() } else { vec![start.to_string()] };
        for key in keys {
            let Some((_, inside)) = inner(std::slice::from_ref(key)).pop() else { continue };
            let start = match key.name {
                "outline" => continue,
                "between" => "trim = \"x\"",
                "tape" => "trim = \"x\"",
                "block" => "width = \"1 mm\"",
                "callouts" => "at = \"1 % 1 %\"",
                "threads" => "thread = \"x\"",
                _ => "",
            };
            let table = written(inside, start);
            fields.push(match &key.form {
                Form::Tables(_) | Form::Mixed(_) => format!("{} = [{table}]", key.name),
                Form::Open(_) => format!("{} = {{ x = {table} }}", key.name),
                _ => format!("{} = {table}", key.name),
            });
        }
        format!("{{ {} }}", fields.join(", "))
    }

    /// A file with every kind of table, and with a piece for each sort of outline.
    fn file() -> String {
        let mut text = String::new();
        for kind in kinds() {
            let table = written(&kind.keys, "");
            let table = if kind.keyed { format!("{{ x = {table} }}") } else { table };
            if kind.name != "piece" {
                text.push_str(&format!("{} = {table}\n", kind.name));
            }
        }
        let piece = kinds().iter().find(|kind| kind.name == "piece").map_or(&[][..], |kind| &kind.keys);
        let shapes = SHAPES.iter().map(|shape| format!("{{ shape = \"{shape}\" }}"));
        for (at, outline) in shapes.chain(["{ svg = \"x.svg\" }".to_string()]).enumerate() {
            text.push_str(&format!("piece.P{at} = {}\n", written(piece, &format!("outline = {outline}"))));
        }
        text
    }

    /// Every table of the grammar with what it is called.
    fn tables(keys: &'static [Key], name: &str, out: &mut Vec<(String, &'static [Key])>) {
        out.push((name.to_string(), keys));
        for (key, inside) in inner(keys) {
            tables(inside, &format!("{name}.{key}"), out);
        }
    }

    /// A key that a reader asks for is in the grammar, and a key of the grammar is asked for.
    #[test]
    fn readers_and_grammar_have_the_same_keys() {
        let loaded = crate::read::texts(&[("all.toml", &file())]);
        assert!(loaded.broken.is_empty(), "{:?}", loaded.findings);
        let asked = ASKED.take();
        let mut all = Vec::new();
        kinds().iter().for_each(|kind| tables(&kind.keys, kind.name, &mut all));
        let mut wrong = Vec::new();
        for (name, keys) in all {
            let known: BTreeSet<String> = keys.iter().map(|key| key.name.to_string()).collect();
            let asked = asked.get(&row(keys)).cloned().unwrap_or_default();
            wrong.extend(
                known.difference(&asked).map(|key| format!("{name}.{key} is in the grammar, and nothing reads it")),
            );
            wrong
                .extend(asked.difference(&known).map(|key| format!("{name}.{key} is read, and is not in the grammar")));
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }
}

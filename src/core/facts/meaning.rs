//! What a written value means, so that two ways of writing one thing compare alike.

use std::collections::BTreeSet;

use crate::model::{Meaning, PathRef, RunRef, StatedEntry as Entry, Stretch};
use crate::source::Span;
use crate::standards::market::Market;
use crate::units::{Age, Quantity, Rational};

use crate::grammar::keys::{Form, Key};
use crate::read::Loaded;
use crate::read::chains::quiet;
use crate::read::tree::{Fields, Kind, Node};

/// Turns written values into meanings.
pub(crate) struct Words<'a> {
    /// What was read, for pictures.
    pub loaded: &'a Loaded,
    /// Sizes and colourways.
    pub codes: BTreeSet<String>,
}

impl Words<'_> {
    /// The meaning of one written value that is no table of its own, in the thing with this id.
    pub(crate) fn meaning(&self, id: &str, form: &Form, node: &Node) -> Meaning {
        match (&node.kind, form) {
            (Kind::List(list), _) => self.list(id, form, list),
            // A single one is a list of one.
            (Kind::Text(_), Form::List(_) | Form::Set(_) | Form::Mixed(_)) => {
                self.list(id, form, std::slice::from_ref(node))
            }
            (Kind::Text(text), _) => self.text(id, form, &single(text), node.span),
            (Kind::Integer(text) | Kind::Float(text), _) => number(text),
            (Kind::Flag(flag), _) => Meaning::Text(flag.to_string()),
            (Kind::Date(text), _) => Meaning::Text(text.clone()),
            (Kind::Table(fields), _) => self.fields(id, &[], fields),
        }
    }

    fn text(&self, id: &str, form: &Form, text: &str, span: Span) -> Meaning {
        match form {
            Form::Picture => self.picture(text),
            Form::Bought => Meaning::Bought(text.split('/').map(str::trim).collect::<Vec<_>>().join("/")),
            Form::Refers(tables) => Meaning::Refers(tables, text.to_string()),
            Form::Market => market(text),
            Form::Markets => Meaning::Set(vec![Entry { meaning: market(text), written: text.to_string() }]),
            Form::Choices(_) => Meaning::Set(vec![plain_text(text)]),
            Form::Age => Age::parse(text).map_or_else(|| Meaning::Text(text.to_string()), age),
            Form::Quantity(dimensions) => quantity(text, dimensions),
            Form::Number => number(text),
            Form::Chain => chain(text, None, span),
            Form::Edge => chain(text, Some(id), span),
            Form::Extent => extent(text, span),
            Form::Fibres if text.contains('%') => fibres(text),
            Form::Way => way(text),
            Form::Place => measured(text),
            Form::Either(one, _) | Form::ByEdge(one) | Form::ByPoint(one) => self.text(id, one, text, span),
            _ => Meaning::Text(text.to_string()),
        }
    }

    fn list(&self, id: &str, form: &Form, list: &[Node]) -> Meaning {
        let entries = |one: &Form| -> Vec<Entry> {
            list.iter().map(|node| Entry { meaning: self.meaning(id, one, node), written: written(node) }).collect()
        };
        match form {
            Form::Copies | Form::Choices(_) => Meaning::Set(list.iter().map(plain).collect()),
            Form::Markets => Meaning::Set(entries(&Form::Market)),
            Form::Lines => Meaning::Text(list.iter().map(written).collect::<Vec<_>>().join(", ")),
            Form::List(one) => Meaning::List(entries(one)),
            Form::Set(one) if matches!(**one, Form::Edge) => Meaning::Set(edges(entries(one))),
            Form::Set(one) => Meaning::Set(entries(one)),
            Form::Mixed(keys) => Meaning::List(self.mixed(id, keys, list)),
            Form::Tables(keys) => Meaning::Set(self.mixed(id, keys, list)),
            Form::Labs => Meaning::List(entries(&Form::Number)),
            _ => Meaning::Set(entries(&Form::Place)),
        }
    }

    /// Edges in a row, or tables with these keys.
    fn mixed(&self, id: &str, keys: &[Key], list: &[Node]) -> Vec<Entry> {
        let one = |node: &Node| match &node.kind {
            Kind::Table(fields) => self.fields(id, keys, fields),
            _ => self.meaning(id, &Form::Chain, node),
        };
        list.iter().map(|node| Entry { meaning: one(node), written: written(node) }).collect()
    }

    /// A table in a list: its keys with their meanings.
    fn fields(&self, id: &str, keys: &[Key], fields: &Fields) -> Meaning {
        let entries = fields.iter().map(|(name, (_, node))| {
            let form = keys.iter().find(|key| key.name == name).map_or(&Form::Text, |key| &key.form);
            let named = Entry { meaning: Meaning::Text(name.clone()), written: name.clone() };
            let value = Entry { meaning: self.meaning(id, form, node), written: written(node) };
            Entry { meaning: Meaning::List(vec![named, value]), written: format!("{name} {}", written(node)) }
        });
        Meaning::Set(entries.collect())
    }

    /// A picture is what it shows, not what its file is called.
    fn picture(&self, text: &str) -> Meaning {
        let path =
            if self.loaded.style.is_empty() { text.to_string() } else { format!("{}/{text}", self.loaded.style) };
        let bytes = self.loaded.closure.iter().find(|(name, _)| *name == path).map(|(_, bytes)| bytes);
        match bytes {
            Some(bytes) => {
                use sha2::{Digest, Sha256};
                let digest: String = Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect();
                Meaning::Text(digest)
            }
            None => Meaning::Text(text.to_string()),
        }
    }
}

fn written(node: &Node) -> String {
    match &node.kind {
        Kind::Text(text) => single(text),
        Kind::Integer(text) | Kind::Float(text) | Kind::Date(text) => text.clone(),
        Kind::Flag(flag) => flag.to_string(),
        Kind::List(list) => list.iter().map(written).collect::<Vec<_>>().join(" "),
        Kind::Table(fields) => {
            let each = fields.iter().map(|(key, (_, node))| format!("{key} {}", written(node)));
            each.collect::<Vec<_>>().join(", ")
        }
    }
}

fn plain(node: &Node) -> Entry {
    let meaning = match &node.kind {
        Kind::Integer(text) | Kind::Float(text) => number(text),
        _ => Meaning::Text(written(node)),
    };
    Entry { meaning, written: written(node) }
}

fn plain_text(text: &str) -> Entry {
    Entry { meaning: Meaning::Text(text.to_string()), written: text.to_string() }
}

/// A code and a name mean the same country.
fn market(text: &str) -> Meaning {
    Meaning::Text(Market::of(text).map_or_else(|| text.to_string(), |market| market.code.to_string()))
}

/// Years and months are the same age.
fn age(age: Age) -> Meaning {
    Meaning::Text(format!("{} months", age.months()))
}

fn number(text: &str) -> Meaning {
    Rational::parse(text.trim()).map_or_else(|| Meaning::Text(text.to_string()), Meaning::Number)
}

fn quantity(text: &str, dimensions: &[crate::units::Dimension]) -> Meaning {
    Quantity::parse(text, dimensions).map_or_else(|_| Meaning::Text(text.to_string()), Meaning::Quantity)
}

/// `80 % cotton, 20 % polyester`, in any order.
fn fibres(text: &str) -> Meaning {
    let part = |part: &str| Entry { meaning: measured(&part.replace('%', " % ")), written: single(part) };
    Meaning::Set(text.split(',').map(part).collect())
}

/// Text with quantities in it: `n-c 40 mm` means `n-c 4 cm`.
fn measured(text: &str) -> Meaning {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut out: Vec<String> = Vec::new();
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let pair = words.get(at + 1).and_then(|unit| Quantity::parse(&format!("{word} {unit}"), &[]).ok());
        match pair {
            Some(quantity) => {
                out.push(Meaning::Quantity(quantity).key());
                at += 2;
            }
            None => {
                out.push((*word).to_string());
                at += 1;
            }
        }
    }
    Meaning::Text(out.join(" "))
}

/// From one point to another: both ways are different.
fn way(text: &str) -> Meaning {
    Meaning::Text(text.split('-').map(str::trim).collect::<Vec<_>>().join("-"))
}

/// A length, or the edges it is as long as and what is added to them.
fn extent(text: &str, span: Span) -> Meaning {
    let Some(rest) = text.strip_prefix("along ") else { return quantity(text, &[crate::units::Dimension::Length]) };
    let (edges, more) = [" + ", " - "]
        .iter()
        .find_map(|sign| rest.split_once(sign).map(|(edges, more)| (edges, format!("{sign}{more}"))))
        .unwrap_or((rest, String::new()));
    let entry = |meaning| Entry { meaning, written: String::new() };
    Meaning::List(vec![entry(chain(edges, None, span)), entry(measured(&more))])
}

fn chain(text: &str, piece: Option<&str>, span: Span) -> Meaning {
    match quiet(text, piece, span) {
        Some(runs) => Meaning::Chain(runs.iter().flat_map(stretches).collect()),
        None => Meaning::Text(text.to_string()),
    }
}

fn stretches(run: &RunRef) -> Vec<Stretch> {
    let stretch = |from: String, to: String| Stretch {
        part: run.part.clone(),
        usage: run.usage.clone(),
        piece: run.piece.clone(),
        copy: run.copy.clone(),
        ends: (from, to),
    };
    match &run.path {
        PathRef::Points(points) => points.windows(2).map(|pair| stretch(pair[0].text(), pair[1].text())).collect(),
        PathRef::Line(line) => vec![stretch(format!("@{line}"), format!("@{line}"))],
    }
}

/// Every edge of the rows, by its two ends.
fn edges(rows: Vec<Entry>) -> Vec<Entry> {
    let each = |row: Entry| match row.meaning {
        Meaning::Chain(runs) => runs.into_iter().map(edge).collect(),
        _ => vec![row],
    };
    rows.into_iter().flat_map(each).collect()
}

fn edge(run: Stretch) -> Entry {
    let written = format!("{}-{}", run.ends.0, run.ends.1);
    Entry { meaning: Meaning::Edge(run.ends.0, run.ends.1), written }
}

/// On one line, spaces made single.
pub(crate) fn single(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

//! What a written value means, so that two ways of writing one thing compare alike.

use std::collections::BTreeSet;

use crate::model::{Meaning, PathRef, RunRef, StatedEntry as Entry, Stretch};
use crate::source::Span;
use crate::standards::market::Market;
use crate::units::{Age, Quantity, Rational};

use crate::grammar::keys::Form;
use crate::read::Loaded;
use crate::read::chains::quiet;
use crate::read::tree::{Fields, Kind, Node};

/// Lists whose order says something; the order of others does not.
const ORDERED: &[&str] = &["sizes", "order", "between", "lab", "arrow"];
/// What a role or an article is declared in.
const MATERIAL: &[&str] = &["role", "fabric", "thread", "filling", "trim"];

/// Turns written values into meanings.
pub(crate) struct Words<'a> {
    /// What was read, for pictures.
    pub loaded: &'a Loaded,
    /// Sizes and colourways.
    pub codes: BTreeSet<String>,
}

impl Words<'_> {
    /// The meaning of one written value that is no table.
    pub(crate) fn meaning(&self, kind: &str, id: &str, form: &Form, key: &str, node: &Node) -> Meaning {
        // The extra points of an outline have names of the user's own.
        let placed = key.starts_with("outline.points.");
        let last = if placed { "at" } else { key.rsplit('.').next().unwrap_or(key) };
        match &node.kind {
            Kind::Text(text) => self.text(kind, id, form, last, &single(text), node.span),
            Kind::Integer(text) | Kind::Float(text) => number(text),
            Kind::Flag(flag) => Meaning::Text(flag.to_string()),
            Kind::Date(text) => Meaning::Text(text.clone()),
            Kind::List(list) => self.list(id, form, last, list),
            Kind::Table(fields) => self.fields(id, fields),
        }
    }

    fn text(&self, kind: &str, id: &str, form: &Form, key: &str, text: &str, span: Span) -> Meaning {
        match form {
            _ if key == "picture" => self.picture(text),
            Form::Id if kind == "colourway" => {
                Meaning::Bought(text.split('/').map(str::trim).collect::<Vec<_>>().join("/"))
            }
            Form::Market => market(text),
            Form::Markets => Meaning::Set(vec![Entry { meaning: market(text), written: text.to_string() }]),
            Form::Choices(_) => Meaning::Set(vec![plain_text(text)]),
            Form::Age => Age::parse(text).map_or_else(|| Meaning::Text(text.to_string()), age),
            Form::Id => Meaning::Refers(tables(key), text.to_string()),
            Form::Quantity(dimensions) => quantity(text, dimensions),
            Form::Number => number(text),
            Form::Chain => chain(text, None, span),
            Form::Extent => extent(text, span),
            Form::TextOr(_) if key == "stitch" => Meaning::Refers(&["stitch"], text.to_string()),
            Form::TextOr(_) if key == "composition" => composition(text),
            Form::TextOr(_) if key == "allowance" => quantity(text, &[crate::units::Dimension::Length]),
            // A single text is a list of one.
            Form::Texts => self.entries(id, key, &[Node { span, kind: Kind::Text(text.to_string()) }]),
            _ if matches!(key, "pile" | "ground" | "backing" | "all") && text.contains('%') => composition(text),
            _ if matches!(key, "grain" | "pile" | "fold") => directed(text),
            _ if key == "at" => measured(text),
            _ => Meaning::Text(text.to_string()),
        }
    }

    fn list(&self, id: &str, form: &Form, key: &str, list: &[Node]) -> Meaning {
        match form {
            Form::Copies | Form::Choices(_) => Meaning::Set(list.iter().map(plain).collect()),
            Form::Markets => {
                Meaning::Set(list.iter().map(|one| Entry { meaning: market(&written(one)), ..plain(one) }).collect())
            }
            Form::Lines => Meaning::Text(list.iter().map(written).collect::<Vec<_>>().join(", ")),
            _ => self.entries(id, key, list),
        }
    }

    fn entries(&self, id: &str, key: &str, list: &[Node]) -> Meaning {
        let mut entries = Vec::new();
        for node in list {
            let meaning = match &node.kind {
                Kind::Text(text) => self.entry(id, key, &single(text), node.span),
                Kind::Table(fields) => self.fields(id, fields),
                _ => plain(node).meaning,
            };
            entries.push(Entry { meaning, written: written(node) });
        }
        if ORDERED.contains(&key) { Meaning::List(entries) } else { Meaning::Set(entries) }
    }

    fn entry(&self, id: &str, key: &str, text: &str, span: Span) -> Meaning {
        match key {
            "between" => chain(text, None, span),
            "raw" => match chain(text, Some(id), span) {
                Meaning::Chain(runs) => Meaning::Set(runs.into_iter().map(edge).collect()),
                other => other,
            },
            "order" => Meaning::Refers(&[], text.to_string()),
            "colours" => Meaning::Refers(&["colour"], text.to_string()),
            "fabrics" => Meaning::Refers(&["fabric"], text.to_string()),
            "lab" => number(text),
            _ => measured(text),
        }
    }

    /// A table in a list: its keys with their meanings.
    fn fields(&self, id: &str, fields: &Fields) -> Meaning {
        let entries = fields.iter().map(|(key, (_, node))| {
            let meaning = match (&node.kind, key.as_str()) {
                (Kind::Text(text), "trim" | "item") => Meaning::Refers(tables(key), single(text)),
                (Kind::List(list), _) => self.entries(id, key, list),
                (Kind::Text(text), "text" | "note") => Meaning::Text(single(text)),
                (Kind::Text(text), _) => measured(&single(text)),
                _ => plain(node).meaning,
            };
            let named = Entry { meaning: Meaning::Text(key.clone()), written: key.clone() };
            let value = Entry { meaning, written: written(node) };
            Entry { meaning: Meaning::List(vec![named, value]), written: format!("{key} {}", written(node)) }
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

/// The tables that declare what a key refers to; none for any.
fn tables(key: &str) -> &'static [&'static str] {
    match key {
        "material" | "filling" | "trim" | "thread" => MATERIAL,
        "owner" | "factory" => &["party"],
        "part" => &["part"],
        "stuffing" => &["stuffing"],
        "view" => &["view"],
        _ => &[],
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
fn composition(text: &str) -> Meaning {
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
fn directed(text: &str) -> Meaning {
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

fn edge(run: Stretch) -> Entry {
    let written = format!("{}-{}", run.ends.0, run.ends.1);
    Entry { meaning: Meaning::Edge(run.ends.0, run.ends.1), written }
}

/// On one line, spaces made single.
pub(crate) fn single(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

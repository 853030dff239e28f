//! The files as facts: what is stated of what, however it is written. One walk by the grammar for every kind of table.

mod meaning;

use crate::model::{Fact, Item, Meaning, Statements, kind};
use crate::source::{Sources, Span, Work};

use crate::grammar::keys;
use crate::grammar::keys::{Form, Key, Kind as TableKind};
use crate::read::Loaded;
use crate::read::chains::quiet_edge;
use crate::read::declared::Declared;
use crate::read::pieces::SHELL;
use crate::read::tree::{Fields, Kind, Node};
use crate::read::values::{BY_FACTORY, is_long};
use meaning::{Words, single};

/// Keys of a cut that may stand with its piece.
const SHORT: [&str; 5] = ["material", "allowance", "inside", "count", "block"];
/// What goes without saying: table (or `*`), key, value.
const USUAL: &[(&str, &str, &str)] = &[
    ("*", "mirrored", "text false"),
    ("*", "critical", "text false"),
    ("*", "reference", "text false"),
    ("*", "count", "number 1/1"),
    ("piece", "copies", "number 1/1"),
    ("part", "uses", "number 1/1"),
    ("piece", "darts", "text marked"),
    ("piece", "notch", "text slit"),
    ("piece", "outline.is", "text sew line"),
    ("fabric", "faces", "text right and wrong"),
    ("cutting", "method", "text hand knife"),
    ("cutting", "spread", "text one way"),
];
/// Keys that say where something is written, not what it is; and what is compared as it is drawn.
const UNSAID: &[&str] = &["was", "libraries", "outline.svg", "outline.corners"];

/// Everything the files state, for comparing two specifications. Orders are no part of it.
pub fn statements(loaded: &Loaded) -> Statements {
    loaded.tally.add(Work::State);
    let codes = loaded.model.sizes.iter().map(|size| size.entry.id.value.clone());
    let words = Words { loaded, codes: codes.chain(loaded.model.colourways.keys().cloned()).collect() };
    let mut items = Vec::new();
    for kind in keys::kinds().iter().filter(|kind| !kind::is_apart(kind.name)) {
        let mut things: Vec<&Declared> = loaded.declared.get(kind.name).into_iter().flatten().collect();
        things.sort_by(|a, b| a.id.value.cmp(&b.id.value));
        for thing in things {
            Walk { words: &words, sources: &loaded.sources, kind, id: &thing.id.value }.items(thing, &mut items);
        }
    }
    Statements { items }
}

/// The walk through one declared thing.
struct Walk<'a> {
    words: &'a Words<'a>,
    sources: &'a Sources,
    kind: &'static TableKind,
    id: &'a str,
}

/// Where in the thing the walk is.
#[derive(Clone, Default)]
struct At {
    key: String,
    scope: Option<String>,
}

impl At {
    fn inside(&self, key: &str) -> At {
        let key = if self.key.is_empty() { key.to_string() } else { format!("{}.{key}", self.key) };
        At { key, scope: self.scope.clone() }
    }
}

impl Walk<'_> {
    fn items(&self, thing: &Declared, out: &mut Vec<Item>) {
        let id = if self.kind.keyed { thing.id.value.clone() } else { String::new() };
        let mut item =
            Item { kind: self.kind.name, id, was: self.was(&thing.fields), span: thing.id.span, facts: Vec::new() };
        self.table(&self.kind.keys, self.kind.open.as_ref(), &thing.fields, &At::default(), &mut item.facts);
        let mut layers = Vec::new();
        if self.kind.name == "piece" {
            self.layers(&thing.fields, &mut item.facts, &mut layers);
        }
        item.one_way();
        out.push(item);
        out.append(&mut layers);
    }

    fn was(&self, fields: &Fields) -> Option<String> {
        match fields.get("was").map(|(_, node)| &node.kind) {
            Some(Kind::Text(text)) if self.kind.keyed => Some(text.trim().to_string()),
            _ => None,
        }
    }

    /// The layers of a piece: the shell as if it were written with the piece, each other one as a thing of its own.
    fn layers(&self, fields: &Fields, facts: &mut Vec<Fact>, out: &mut Vec<Item>) {
        let Some((_, Node { kind: Kind::Table(cuts), .. })) = fields.get("cut") else { return };
        let grammar = self.kind.keys.iter().find(|key| key.name == "cut").map(|key| &key.form);
        let Some(Form::Open(inner)) = grammar else { return };
        let Form::Table(keys) = inner.as_ref() else { return };
        for (id, (place, node)) in cuts {
            let Kind::Table(inner) = &node.kind else { continue };
            let mut found = Vec::new();
            self.table(keys, None, inner, &At::default(), &mut found);
            let named = found.iter().any(|fact| !SHORT.contains(&first(&fact.key)));
            if id == SHELL && !named && !fields.keys().any(|key| SHORT.contains(&key.as_str())) {
                facts.append(&mut found);
                continue;
            }
            let was = self.was(inner).map(|was| format!("{}.{was}", self.id));
            let id = format!("{}.{id}", self.id);
            out.push(Item { kind: "cut", id, was, span: *place, facts: found });
        }
    }

    /// The fields of a table, those of the grammar first, in its order.
    fn table(&self, keys: &[Key], open: Option<&Form>, fields: &Fields, at: &At, out: &mut Vec<Fact>) {
        for key in keys {
            if let Some((_, node)) = fields.get(key.name)
                && !(key.name == "cut" && self.kind.name == "piece")
            {
                self.value(&key.form, key.varies, node, &at.inside(key.name), out);
            }
        }
        for (name, (_, node)) in fields {
            if !keys.iter().any(|key| key.name == name) {
                // A key the grammar does not have is a finding, and still no reason to overlook a change.
                self.value(open.unwrap_or(&Form::Text), open.is_some(), node, &at.inside(name), out);
            }
        }
    }

    /// A value that may differ by size or colourway.
    fn value(&self, form: &Form, varies: bool, node: &Node, at: &At, out: &mut Vec<Fact>) {
        let Kind::Table(fields) = &node.kind else { return self.stated(form, node, at, out) };
        let coded = |code: &String| code == "else" || self.words.codes.contains(code);
        if !varies || fields.is_empty() || !fields.keys().all(coded) {
            return self.stated(form, node, at, out);
        }
        let outer = at.scope.as_ref();
        let chosen = outer.and_then(|scope| fields.get(scope).or_else(|| fields.get("else")));
        if let Some((_, inner)) = chosen {
            return self.stated(form, inner, at, out);
        }
        for (code, (_, inner)) in fields {
            let at = At { scope: Some(code.clone()), ..at.clone() };
            self.stated(form, inner, &at, out);
        }
    }

    /// A value in short or long form, or left to the factory.
    fn stated(&self, form: &Form, node: &Node, at: &At, out: &mut Vec<Fact>) {
        let factory = |node: &Node| matches!(&node.kind, Kind::Text(text) if text.trim() == BY_FACTORY);
        match &node.kind {
            _ if factory(node) => self.push(Meaning::ByFactory, node, at, out),
            Kind::Table(fields) if is_long(fields) && !matches!(form, Form::Open(_)) => {
                self.long(form, fields, node, at, out);
            }
            Kind::Table(fields) => self.inner(form, fields, node, at, out),
            _ => {
                let meaning = self.words.meaning(self.id, form, node);
                self.push(meaning, node, at, out);
            }
        }
    }

    fn long(&self, form: &Form, fields: &Fields, node: &Node, at: &At, out: &mut Vec<Fact>) {
        match fields.get("value") {
            Some((_, value)) => self.value(form, true, value, at, out),
            None if fields.contains_key("withheld") => self.push(Meaning::Withheld, node, at, out),
            None => self.push(Meaning::ByFactory, node, at, out),
        }
        for (key, usual) in [("binding", "required"), ("audience", "everyone")] {
            if let Some((_, node)) = fields.get(key)
                && !matches!(&node.kind, Kind::Text(text) if text.trim() == usual)
            {
                self.stated(&Form::Text, node, &at.inside(key), out);
            }
        }
    }

    /// A table with keys of its own.
    fn inner(&self, form: &Form, fields: &Fields, node: &Node, at: &At, out: &mut Vec<Fact>) {
        let last = at.key.rsplit('.').next().unwrap_or_default();
        match form {
            Form::ByEdge(one) => self.by_edge(one, fields, at, out),
            Form::ByPoint(one) => {
                for (name, (_, node)) in fields {
                    let at = if name == "all" { at.clone() } else { at.inside(name) };
                    self.value(one, false, node, &at, out);
                }
            }
            Form::Either(_, keys) | Form::Table(keys) => {
                if last == "outline" && (fields.contains_key("svg") || fields.contains_key("corners")) {
                    self.push(Meaning::Text("drawn".into()), node, at, out);
                }
                self.table(keys, None, fields, at, out);
            }
            Form::Open(inner) => {
                for (name, (_, node)) in fields {
                    self.value(inner, false, node, &at.inside(name), out);
                }
            }
            _ => self.push(Meaning::Text(self.raw(node.span)), node, at, out),
        }
    }

    /// `{ all = "5 mm", "b-n" = "7 mm" }`, one fact for each run between neighbours.
    fn by_edge(&self, form: &Form, fields: &Fields, at: &At, out: &mut Vec<Fact>) {
        for (name, (_, node)) in fields {
            if name == "all" {
                self.value(form, true, node, at, out);
                continue;
            }
            let points = quiet_edge(name, node.span).map_or(Vec::new(), |edge| edge.points);
            for pair in points.windows(2) {
                let (a, b) = (pair[0].text(), pair[1].text());
                let key = if a < b { format!("{a}-{b}") } else { format!("{b}-{a}") };
                self.value(form, true, node, &at.inside(&key), out);
            }
        }
    }

    fn push(&self, meaning: Meaning, node: &Node, at: &At, out: &mut Vec<Fact>) {
        let key = meaning.key();
        let usual = |(kind, name, value): &(&str, &str, &str)| {
            (*kind == "*" || *kind == self.kind.name) && *name == at.key && *value == key
        };
        if UNSAID.contains(&at.key.as_str()) || USUAL.iter().any(usual) {
            return;
        }
        let written = match (&node.kind, &meaning) {
            (_, Meaning::Text(text)) if text == "drawn" => text.clone(),
            (Kind::Text(text), _) => single(text),
            (_, Meaning::Set(entries) | Meaning::List(entries)) => {
                entries.iter().map(|entry| entry.written.as_str()).collect::<Vec<_>>().join(", ")
            }
            (_, Meaning::Withheld) => "withheld".into(),
            (_, Meaning::ByFactory) => BY_FACTORY.into(),
            _ => self.raw(node.span),
        };
        out.push(Fact { key: at.key.clone(), scope: at.scope.clone(), meaning, written, span: node.span });
    }

    fn raw(&self, span: Span) -> String {
        single(self.sources.text(span))
    }
}

/// The key of the outermost table.
fn first(key: &str) -> &str {
    key.split('.').next().unwrap_or(key)
}

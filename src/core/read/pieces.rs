//! Reads parts, where filling goes, and pieces with their copies, cuts and allowances.

use crate::model::{Allowance, Copy, Cut, Darts, Entry, Form, Model, Part, Piece, RunRef, Stuffing, Table, Use};
use crate::source::Spanned;
use crate::words::{say, words};

use super::declared::Declarations;
use super::reader::{Reader, is_id};
use super::rules;
use super::section::Section;
use super::tree::{Kind, Node};
use crate::grammar::keys::Form as KeyForm;

words! {
    BLOCK "read.pieces.block" = "the block";
    NUMBER "read.pieces.number" = "`{key}` is a number from 1 to 500";
    LIST_NAMES "read.pieces.list-names" = "or a list of names";
    NUMBER_LIST "read.pieces.number-list" = "a number or a list of names";
    NAME_COPY "read.pieces.name-copy" = "\"{text}\" is no name of a copy or use";
    WRITE_EXAMPLE "read.pieces.write-example" = "write for example \"l\" or \"r mirrored\"";
    LIST_EDGES "read.pieces.list-edges" = "a list of edges";
    TABLE_EACH "read.pieces.table-each" = "a table for each layer";
    CUT "read.pieces.cut" = "{what}, cut {id}";
}

/// The cut a piece has if its author names none.
pub const SHELL: &str = "shell";

impl Reader {
    /// Parts, stuffings and pieces.
    pub fn pieces(&mut self, declared: &Declarations, model: &mut Model) {
        model.parts = self.each(declared, "part", |reader, section, entry| reader.part(section, entry));
        model.stuffings = self.each(declared, "stuffing", |reader, section, entry| reader.stuffing(section, entry));
        let limit = self.disk.limits().pieces;
        let count = declared.get("piece").map_or(0, Vec::len);
        if count > limit {
            self.findings.push(rules::too_many(count, limit));
            return;
        }
        model.pieces = self.each(declared, "piece", |reader, section, entry| reader.piece(section, entry));
    }

    fn part(&mut self, section: &Section<'_>, entry: Entry) -> Part {
        let form = self.choice(section, "form").and_then(|word| {
            let form = match word.value.as_str() {
                "stuffed" => Form::Stuffed,
                "ring" => Form::Ring,
                "cover" => Form::Cover,
                "flat" => Form::Flat,
                _ => return None,
            };
            Some(Spanned::new(form, word.span))
        });
        let uses = self.copies(section, "uses").into_iter();
        let uses = uses.map(|copy| Use { name: copy.name, mirrored: copy.mirrored, span: copy.span }).collect();
        Part { entry, uses, form, note: self.text(section, "note") }
    }

    fn stuffing(&mut self, section: &Section<'_>, entry: Entry) -> Stuffing {
        Stuffing {
            entry,
            part: self.word(section, "part"),
            filling: self.word(section, "filling"),
            mass: self.quantity_by(section, "mass"),
            read_to: self.quantity_by(section, "read-to"),
            check: self.text(section, "check"),
            firmness: self.text(section, "firmness"),
            note: self.text(section, "note"),
        }
    }

    /// `3`, or `["l", "r mirrored"]`. One unnamed copy if nothing is written.
    fn copies(&mut self, section: &Section<'_>, key: &str) -> Vec<Copy> {
        let one = |span| vec![Copy { name: String::new(), mirrored: false, span }];
        let Some(node) = section.node(key) else { return one(section.span) };
        match &node.kind {
            Kind::Integer(text) => match text.parse::<u32>() {
                Ok(1) => one(node.span),
                Ok(count) if (2..=500).contains(&count) => {
                    (1..=count).map(|n| Copy { name: n.to_string(), mirrored: false, span: node.span }).collect()
                }
                _ => {
                    let message = say!(NUMBER, key);
                    self.findings.push(rules::bad_value(message, node.span, LIST_NAMES));
                    one(node.span)
                }
            },
            Kind::List(list) if !list.is_empty() => {
                let mut all: Vec<Copy> = Vec::new();
                for item in list {
                    if let Some(copy) = self.copy(key, item) {
                        match all.iter().find(|old| old.name == copy.name) {
                            Some(old) => {
                                let what = format!("`{}`", copy.name);
                                let finding = rules::duplicate_id(what, old.span, copy.span);
                                self.findings.push(finding);
                            }
                            None => all.push(copy),
                        }
                    }
                }
                if all.is_empty() { one(node.span) } else { all }
            }
            _ => {
                self.refuse::<()>(key, NUMBER_LIST, node);
                one(node.span)
            }
        }
    }

    fn copy(&mut self, key: &str, node: &Node) -> Option<Copy> {
        let text = self.plain_text(key, node)?;
        let (name, mirrored) = match text.split_once(' ') {
            Some((name, "mirrored")) => (name, true),
            Some(_) => ("", false),
            None => (text.as_str(), false),
        };
        if is_id(name, false) {
            return Some(Copy { name: name.to_string(), mirrored, span: node.span });
        }
        let message = say!(NAME_COPY, text);
        self.findings.push(rules::bad_value(message, node.span, WRITE_EXAMPLE));
        None
    }

    fn piece(&mut self, section: &Section<'_>, entry: Entry) -> Piece {
        let copies = self.copies(section, "copies");
        let darts = match self.choice(section, "darts").map(|word| word.value) {
            Some(word) if word == "cut" => Darts::Cut,
            _ => Darts::Marked,
        };
        Piece {
            part: self.word(section, "part"),
            copies,
            copies_span: section.node("copies").map(|node| node.span),
            outline: self.outline(section),
            cuts: self.cuts(section),
            corners: self.corner_styles(section),
            notches: self.notches(section),
            darts,
            darts_span: section.node("darts").map(|node| node.span),
            grain: self.edge(section, "grain"),
            pile: self.edge(section, "pile"),
            raw: self.raw(section, &entry.id.value),
            note: self.text(section, "note"),
            entry,
        }
    }

    fn raw(&mut self, section: &Section<'_>, piece: &str) -> Vec<RunRef> {
        let Some(node) = section.node("raw") else { return Vec::new() };
        let Kind::List(list) = &node.kind else {
            self.refuse::<()>("raw", LIST_EDGES, node);
            return Vec::new();
        };
        list.iter().filter_map(|one| self.chain_at("raw", one, Some(piece))).flat_map(|chain| chain.runs).collect()
    }

    /// The cuts of a piece: those written out, or the one shell whose keys stand with the piece.
    fn cuts(&mut self, section: &Section<'_>) -> Table<Cut> {
        let mut cuts = Table::new();
        let short = ["material", "allowance", "inside", "count", "block"];
        if let Some(key) = short.iter().find(|key| section.node(key).is_some()) {
            let place = section.key_span(key).unwrap_or(section.span);
            let id = Spanned::new(SHELL.to_string(), place);
            let entry = Entry { id, name: None, was: None };
            cuts.insert(SHELL.to_string(), self.cut(section, entry));
        }
        let Some(node) = section.node("cut") else { return cuts };
        let Kind::Table(fields) = &node.kind else {
            self.refuse::<()>("cut", TABLE_EACH, node);
            return cuts;
        };
        let keys = match section.key("cut").map(|key| &key.form) {
            Some(KeyForm::Open(inner)) => match inner.as_ref() {
                KeyForm::Table(keys) => keys.as_slice(),
                _ => &[],
            },
            _ => &[],
        };
        for (id, (place, node)) in fields {
            let Kind::Table(inner) = &node.kind else {
                self.refuse::<()>(id, super::tree::A_TABLE, node);
                continue;
            };
            let what = say!(CUT, what = section.what, id);
            let layer = Section { fields: inner, keys, what: &what, span: *place };
            self.report_unknown(&layer, false);
            let entry = self.entry(&layer, &Spanned::new(id.clone(), *place), true);
            let cut = self.cut(&layer, entry);
            if let Some(old) = cuts.insert(id.clone(), cut) {
                let finding = rules::duplicate_id(&what, old.entry.span(), *place);
                self.findings.push(finding);
            }
        }
        cuts
    }

    fn cut(&mut self, section: &Section<'_>, entry: Entry) -> Cut {
        let what = BLOCK.into();
        let block = self
            .table(section, "block", &what)
            .and_then(|inner| Some((self.quantity_by(&inner, "width")?, self.quantity_by(&inner, "height")?)));
        Cut {
            entry,
            material: self.word(section, "material"),
            allowance: self.allowance(section),
            inside: self.quantity_by(section, "inside"),
            count: self.whole(section, "count"),
            block,
        }
    }

    /// `"10 mm"`, by size, or `{ all = "5 mm", "b-n" = "7 mm" }`.
    fn allowance(&mut self, section: &Section<'_>) -> Allowance {
        let Some(node) = section.node("allowance") else { return Allowance::default() };
        let mut allowance = Allowance { span: Some(node.span), ..Allowance::default() };
        let an_edge = |key: &String| key == "all" || (key.contains('-') && !self.codes.contains(key));
        let Kind::Table(fields) = &node.kind else {
            allowance.all = self.length("allowance", node);
            return allowance;
        };
        if !fields.keys().any(an_edge) {
            allowance.all = self.length("allowance", node);
            return allowance;
        }
        for (name, (place, node)) in fields {
            let value = self.length("allowance", node);
            if name == "all" {
                allowance.all = value;
            } else if let (Some(edge), Some(value)) = (self.edge_ref(name, 0..name.len(), *place), value) {
                allowance.edges.push((edge, value));
            }
        }
        allowance.edges.sort_by_key(|(edge, _)| edge.span.start);
        allowance
    }

    /// A length at a node, by size if need be.
    pub fn length(&mut self, key: &str, node: &Node) -> Option<crate::model::Value<crate::units::Quantity>> {
        self.value(key, node, |reader, node| reader.plain_length(key, node))
    }
}

//! The state of one reading: declared things, codes, findings; finds tables and their keys.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::diag::{Findings, Levels, Severity};
use crate::model::kind::{self, Belongs};
use crate::model::{Entry, Model, StitchUse, Table};
use crate::source::{Edit, FileId, Sources, Span, Spanned, Tally, nearest};
use crate::words::{say, words};

use super::declared::{Declarations, Declared};
use super::disk::Disk;
use super::folders::{is_order, is_sample};
use super::loaded::Loaded;
use super::rules;
use super::section::Section;
use super::tree::{Fields, Kind, Trees};
use crate::grammar::keys;
use crate::grammar::keys::Kind as TableKind;
use crate::grammar::limits::{MOST_COLOURWAYS, MOST_THINGS};

words! {
    HOLDS_TABLE "read.reader.holds-table" = "[{name}] holds one table for each {name}";
    WRITE_ID "read.reader.write-id" = "write [{name}.ID] above the key";
    SEVERITY "read.reader.severity" = "severity cannot be \"{text}\"";
    MOST "read.reader.most" = "there are more than {most} {things}";
    FEWER "read.reader.fewer" = "what follows is not read: look whether a file was written by mistake";
    SHOULD_NOTE "read.reader.should-note" = "must, should, note or off";
}

/// Codes by which a value may differ.
#[derive(Debug, Default)]
pub struct Codes {
    /// Size ids in order.
    pub sizes: Vec<String>,
    /// Colourway ids.
    pub colourways: BTreeSet<String>,
}

impl Codes {
    /// Every code.
    pub fn all(&self) -> impl Iterator<Item = &str> {
        self.sizes.iter().chain(&self.colourways).map(String::as_str)
    }

    /// Whether a code is declared.
    pub fn contains(&self, code: &str) -> bool {
        self.all().any(|one| one == code)
    }

    /// What is left out of a value given for `written`: all sizes if it is by size, all colourways if by colourway.
    pub fn missing(&self, written: &[&str]) -> Vec<&str> {
        let by_size = self.sizes.iter().any(|code| written.contains(&code.as_str()));
        let by_colourway = self.colourways.iter().any(|code| written.contains(&code.as_str()));
        let sizes = self.sizes.iter().filter(|_| by_size);
        let colourways = self.colourways.iter().filter(|_| by_colourway && !by_size);
        sizes.chain(colourways).map(String::as_str).filter(|code| !written.contains(code)).collect()
    }
}

/// Tables whose ids become names of files: what has an id that cannot be one is not taken.
const FILED: [&str; 2] = ["piece", "order"];

/// The state of one reading.
#[derive(Debug)]
pub struct Reader {
    /// Loaded texts.
    pub sources: Sources,
    /// What was found so far.
    pub findings: Findings,
    /// Sizes and colourways.
    pub codes: Codes,
    /// Files, for pictures and the closure.
    pub disk: Disk,
    /// Severities the specification sets.
    pub levels: Levels,
    /// Where each severity is written.
    pub level_places: BTreeMap<String, Span>,
    /// Places of values that only the own edition shows.
    pub own: Vec<Span>,
    /// Stitches declared to be shared.
    pub stitches: Table<StitchUse>,
    /// Why the kept lays cannot be read.
    pub broken_lock: Option<String>,
    pub(super) broken: BTreeSet<FileId>,
    ordering: BTreeSet<FileId>,
    sampling: BTreeSet<FileId>,
    refused: BTreeSet<(String, String, String)>,
    /// Kinds of which there are more things than are read.
    crowded: BTreeSet<&'static str>,
    /// What is done is counted here.
    pub tally: Tally,
}

impl Reader {
    /// A reader over loaded files.
    pub fn new(mut disk: Disk, tally: &Tally) -> Self {
        let mut findings = Findings::default();
        disk.findings.drain(..).for_each(|finding| findings.push(finding));
        let sources = std::mem::take(&mut disk.sources);
        Reader {
            sources,
            findings,
            codes: Codes::default(),
            disk,
            levels: Levels::new(),
            level_places: BTreeMap::new(),
            own: Vec::new(),
            stitches: Table::new(),
            broken_lock: None,
            broken: BTreeSet::new(),
            ordering: BTreeSet::new(),
            sampling: BTreeSet::new(),
            refused: BTreeSet::new(),
            crowded: BTreeSet::new(),
            tally: tally.clone(),
        }
    }

    /// Reads everything into a model.
    pub fn model(&mut self, declared: &Declarations) -> Model {
        let mut model = Model::default();
        self.style(declared, &mut model);
        self.parties(declared, &mut model);
        self.articles(declared, &mut model);
        self.pieces(declared, &mut model);
        self.drawings(&mut model);
        self.stitches(declared, &mut model);
        self.seams(declared, &mut model);
        self.work(declared, &mut model);
        self.cuttings(declared, &mut model);
        self.measures(declared, &mut model);
        self.orders(declared, &mut model);
        self.samples(declared, &mut model);
        self.ledgers(declared, &mut model);
        self.views(declared, &mut model);
        self.lock(&mut model);
        self.severities(declared);
        self.printable(declared);
        self.placeholders(declared);
        model.refused = std::mem::take(&mut self.refused);
        model
    }

    /// Closes the reading.
    pub fn finish(self, model: Model, declared: Declarations) -> Loaded {
        let closure: Vec<(String, Arc<[u8]>)> = self.disk.files.into_iter().collect();
        Loaded {
            style: self.disk.style,
            root: self.disk.root,
            broken_lock: self.broken_lock,
            own: self.own,
            broken: self.broken,
            ordering: self.ordering,
            sampling: self.sampling,
            model,
            sources: self.sources,
            findings: self.findings,
            closure,
            levels: self.levels,
            level_places: self.level_places,
            declared,
            tally: self.tally,
        }
    }

    /// Merges the top-level tables of all files; one id twice is a finding, and the first declaration holds.
    pub(super) fn gather(&mut self, trees: Trees) -> Declarations {
        self.broken.extend(trees.broken);
        let mut all = Declarations::new();
        for (file, fields) in trees.files {
            self.gather_file(file, fields, &mut all);
        }
        all
    }

    pub(super) fn gather_file(&mut self, file: FileId, fields: Fields, all: &mut Declarations) {
        self.keep_apart(file, &fields);
        for (name, (place, node)) in fields {
            let Some(kind) = keys::kind(&name) else {
                if !self.broken.contains(&file) {
                    let known: Vec<&str> = keys::kinds().iter().map(|kind| kind.name).collect();
                    self.findings.push(rules::unknown_table(&name, &known, place));
                }
                continue;
            };
            let Kind::Table(inner) = node.kind else {
                self.refuse::<()>(&name, super::tree::A_TABLE, &node);
                continue;
            };
            if !kind.keyed {
                self.declare(kind, Declared { id: Spanned::new(name, place), fields: inner }, all);
                continue;
            }
            for (id, (place, node)) in inner {
                match node.kind {
                    Kind::Table(fields) => self.declare(kind, Declared { id: Spanned::new(id, place), fields }, all),
                    _ => {
                        let message = say!(HOLDS_TABLE, name = kind.name);
                        let help = say!(WRITE_ID, name = kind.name);
                        self.findings.push(rules::bad_value(message, place, help));
                    }
                }
            }
        }
    }

    /// Notes a file that holds orders, or what was said and measured of samples, and reports what else stands in it.
    fn keep_apart(&mut self, file: FileId, fields: &Fields) {
        let (order, said) = (first_of(fields, Belongs::Order), first_of(fields, Belongs::Sample));
        if order.is_some() {
            self.ordering.insert(file);
        }
        if said.is_some() {
            self.sampling.insert(file);
        }
        let beside = |own: Option<Span>, named: fn(&str) -> bool, belongs: Belongs| {
            (own.is_some() || named(self.path(file))).then(|| first_beside(fields, belongs)).flatten()
        };
        let beside_order = beside(order, is_order, Belongs::Order);
        let beside_sample = beside(said, is_sample, Belongs::Sample);
        let order = beside_order.map(|(name, place)| rules::order_in_style_file(name, place, order));
        let said = beside_sample.map(|(name, place)| rules::sample_in_style_file(name, place, said));
        order.into_iter().chain(said).for_each(|finding| self.findings.push(finding));
    }

    fn path(&self, file: FileId) -> &str {
        self.sources.file(file).map_or("", |file| file.path.as_str())
    }

    fn declare(&mut self, kind: &'static TableKind, new: Declared, all: &mut Declarations) {
        let list = all.entry(kind.name).or_default();
        if let Some(old) = list.iter().find(|old| old.id.value == new.id.value) {
            self.findings.push(rules::duplicate_id(kind.title(&new.id.value), old.id.span, new.id.span));
            return;
        }
        let most = if kind.name == "colourway" { MOST_COLOURWAYS } else { MOST_THINGS };
        if list.len() >= most {
            // One finding tells it, whatever follows.
            if self.crowded.insert(kind.name) {
                let message = say!(MOST, most, things = kind::of(kind.name).map_or(kind.name, |one| one.many.en));
                self.findings.push(rules::bad_value(message, new.id.span, FEWER));
            }
            return;
        }
        if kind.keyed && !is_id(&new.id.value, kind.hyphen) {
            self.findings.push(rules::bad_id(&new.id.value, kind::word(kind.name), kind.hyphen, new.id.span));
            if FILED.contains(&kind.name) {
                self.refused.insert((kind.name.to_string(), new.id.value, String::new()));
                return;
            }
        }
        list.push(new);
    }

    /// Reports keys of a section that nothing reads; `open` sections take any key.
    pub fn report_unknown(&mut self, section: &Section<'_>, open: bool) {
        if open {
            return;
        }
        for (name, (place, _)) in section.fields {
            if section.key(name).is_none() && !self.broken.contains(&place.file) {
                let known: Vec<&str> = section.keys.iter().map(|key| key.name).collect();
                let mut finding = rules::unknown_key(name, section.what, &known, *place);
                // What is written already is not written a second time.
                let free = |edit: &Edit| !section.fields.contains_key(&edit.text);
                finding.help.iter_mut().for_each(|help| help.edit = help.edit.take().filter(free));
                self.findings.push(finding);
            }
        }
    }

    /// Runs `read` over every declaration of a kind, with unknown keys reported.
    pub fn each<T>(
        &mut self,
        declared: &Declarations,
        kind: &'static str,
        mut read: impl FnMut(&mut Reader, &Section<'_>, Entry) -> T,
    ) -> Table<T> {
        let mut all = Table::new();
        let Some(kind) = keys::kind(kind) else { return all };
        for one in declared.get(kind.name).map_or(&[][..], Vec::as_slice) {
            let what = kind.title(&one.id.value);
            let section = Section { fields: &one.fields, keys: &kind.keys, what: &what, span: one.id.span };
            self.report_unknown(&section, kind.open.is_some());
            self.note_misspelt(kind, &section, &one.id.value);
            let before = self.findings.iter().count();
            let entry = self.entry(&section, &one.id, kind.keyed);
            all.insert(one.id.value.clone(), read(self, &section, entry));
            self.note_refused(kind, one, before);
        }
        all
    }

    /// Notes the keys that are written under a name that is near to theirs.
    fn note_misspelt(&mut self, kind: &TableKind, section: &Section<'_>, id: &str) {
        if kind.open.is_some() {
            return;
        }
        let strange = section.fields.keys().filter(|name| section.key(name).is_none());
        for near in strange.filter_map(|name| nearest(name, section.keys.iter().map(|key| key.name))) {
            if !section.fields.contains_key(near) {
                self.refused.insert((kind.name.to_string(), id.to_string(), near.to_string()));
            }
        }
    }

    /// Notes the keys that the findings since `before` are about.
    fn note_refused(&mut self, kind: &TableKind, one: &Declared, before: usize) {
        let places: Vec<Span> =
            self.findings.iter().skip(before).filter_map(|finding| Some(finding.places.first()?.span)).collect();
        for (key, (_, node)) in &one.fields {
            let inside = |place: &Span| {
                place.file == node.span.file && node.span.start <= place.start && place.end <= node.span.end
            };
            if places.iter().any(inside) {
                self.refused.insert((kind.name.to_string(), one.id.value.clone(), key.clone()));
            }
        }
    }

    /// Notes ids that were reported, so that nothing more is said of things that nobody can name by them.
    pub fn misnamed<'i>(&mut self, table: &str, ids: impl IntoIterator<Item = &'i String>) {
        self.refused.extend(ids.into_iter().map(|id| (table.to_string(), id.clone(), String::new())));
    }

    /// Id, name and former id of a declared thing.
    pub fn entry(&mut self, section: &Section<'_>, id: &Spanned<String>, named: bool) -> Entry {
        let name = if named { self.word(section, "name") } else { None };
        let was = if named { self.word(section, "was") } else { None };
        Entry { id: id.clone(), name, was }
    }

    fn severities(&mut self, declared: &Declarations) {
        let Some(list) = declared.get("severity") else { return };
        for one in list.clone() {
            for (code, (place, node)) in &one.fields {
                let Some(text) = self.plain_text(code, node) else { continue };
                let severity = match text.as_str() {
                    "must" => Some(Severity::Must),
                    "should" => Some(Severity::Should),
                    "note" => Some(Severity::Note),
                    "off" => None,
                    _ => {
                        let message = say!(SEVERITY, text);
                        self.findings.push(rules::bad_value(message, node.span, SHOULD_NOTE));
                        continue;
                    }
                };
                self.levels.insert(code.clone(), severity);
                self.level_places.insert(code.clone(), *place);
            }
        }
    }

    /// A place for things the files do not declare: the first byte of the first file.
    pub fn nowhere(&self) -> Span {
        Span { file: FileId(0), start: 0, end: 0 }
    }
}

/// Where the first table of a belonging begins.
fn first_of(fields: &Fields, belongs: Belongs) -> Option<Span> {
    let ours = fields.iter().find(|(name, _)| kind::tables(belongs).any(|table| table == *name));
    ours.map(|(_, (place, _))| *place)
}

/// The first table of the specification that belongs to something else.
fn first_beside(fields: &Fields, belongs: Belongs) -> Option<(&str, Span)> {
    let other = fields.iter().find(|(name, _)| kind::of(name).is_some_and(|kind| kind.belongs != belongs));
    other.map(|(name, (place, _))| (name.as_str(), *place))
}

/// Whether a text can be an id.
pub fn is_id(text: &str, hyphen: bool) -> bool {
    let mut chars = text.chars();
    chars.next().is_some_and(|c| c.is_ascii_alphabetic())
        && chars.all(|c| c.is_ascii_alphanumeric() || c == '_' || (hyphen && c == '-'))
}

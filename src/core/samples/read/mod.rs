//! Reads samples with their readings.

mod ledgers;

use crate::model::{Audience, Entry, Graded, LabReadings, Looked, Model, Reading, Readings, Sample, Table};
use crate::source::Spanned;
use crate::units::Dimension;
use crate::words::{say, words};

use crate::grammar::keys::{Form, Key};
use crate::read::declared::Declarations;
use crate::read::reader::Reader;
use crate::read::rules;
use crate::read::section::Section;
use crate::read::tree::{Fields, Kind, Node};

words! {
    READINGS "read.samples.readings" = "the readings";
    MASSES "read.samples.masses" = "the masses of the sample";
    TABLES "read.samples.tables" = "tables { .. }";
    TABLE_NAME "read.samples.table-name" = "a table { NAME = [..] }";
    LIST_READINGS "read.samples.list-readings" = "a list of readings";
    HELP "read.samples.help" = "write what was read, the tolerance is written with the target";
    MESSAGE "read.samples.message" = "a reading has no tolerance";
    LIST_TABLES "read.samples.list-tables" = "a list of tables { .. }";
    OF "read.samples.of" = "{key} of {what}";
}

impl Reader {
    /// Samples of samples.
    pub fn samples(&mut self, declared: &Declarations, model: &mut Model) {
        model.samples.samples = self.each(declared, "sample", |reader, section, entry| reader.sample(section, entry));
    }

    fn sample(&mut self, section: &Section<'_>, entry: Entry) -> Sample {
        let what = MASSES.into();
        let masses = self.table(section, "masses", &what);
        let mass = |reader: &mut Reader, key: &str| {
            let masses = masses.as_ref()?;
            let node = masses.node(key)?;
            let of = Spanned::new(key.to_string(), masses.key_span(key).unwrap_or(node.span));
            reader.readings(of, node, &[Dimension::Mass])
        };
        Sample {
            own: self.audience(section.span) == Audience::Own,
            kind: self.choice(section, "kind"),
            of: self.word(section, "of"),
            size: self.word(section, "size"),
            colourway: self.word(section, "colourway"),
            pieces: self.whole(section, "pieces"),
            material: self.choice(section, "material"),
            asked: self.date(section, "asked"),
            due: self.date(section, "due"),
            to: self.word(section, "to"),
            received: self.date(section, "received"),
            measured: self.date(section, "measured"),
            by: self.word(section, "by"),
            tool: self.word(section, "tool"),
            rest: self.quantity(section, "rest"),
            readings: self.all_readings(section, "readings"),
            finished: mass(self, "finished"),
            shell: mass(self, "shell"),
            stuffings: masses.as_ref().map_or_else(Table::new, |masses| self.all_readings(masses, "stuffings")),
            fabric: masses.as_ref().map_or_else(Table::new, |masses| self.all_readings(masses, "fabric")),
            colours: self.colours(section),
            checks: self.entries_of(section, "checks", Reader::looked),
            grades: self.entries_of(section, "grades", Reader::graded),
            note: self.word(section, "note"),
            entry,
        }
    }

    /// A table of the user's own names with readings.
    fn all_readings(&mut self, section: &Section<'_>, key: &str) -> Table<Readings> {
        let dimensions: &'static [Dimension] = match section.key(key).map(|key| &key.form) {
            Some(Form::Open(inner)) => match inner.as_ref() {
                Form::Readings(dimensions) => dimensions,
                _ => &[],
            },
            _ => &[],
        };
        let mut all = Table::new();
        for (name, (place, node)) in self.named(section, key) {
            if let Some(readings) = self.readings(Spanned::new(name.clone(), *place), node, dimensions) {
                all.insert(name.clone(), readings);
            }
        }
        all
    }

    /// The fields of a table of the user's own names.
    fn named<'a>(
        &mut self,
        section: &Section<'a>,
        key: &str,
    ) -> impl Iterator<Item = (&'a String, &'a (crate::source::Span, Node))> + use<'a> {
        let fields: Option<&'a Fields> = match section.node(key) {
            Some(Node { kind: Kind::Table(fields), .. }) => Some(fields),
            Some(node) => self.refuse(key, TABLE_NAME, node),
            None => None,
        };
        fields.into_iter().flatten()
    }

    /// One reading a piece, or left and right ones.
    fn readings(&mut self, of: Spanned<String>, node: &Node, dimensions: &'static [Dimension]) -> Option<Readings> {
        match &node.kind {
            Kind::List(list) => {
                let first = self.read_each(&of.value, list, dimensions);
                Some(Readings { of, first, right: None })
            }
            Kind::Table(fields) => {
                let what = READINGS.into();
                for (name, (place, _)) in fields.iter().filter(|(name, _)| !matches!(name.as_str(), "left" | "right")) {
                    self.findings.push(rules::unknown_key(name, &what, &["left", "right"], *place));
                }
                let mut side = |name: &str| match fields.get(name) {
                    Some((_, Node { kind: Kind::List(list), .. })) => self.read_each(&of.value, list, dimensions),
                    Some((_, node)) => self.refuse::<Vec<Reading>>(name, LIST_READINGS, node).unwrap_or_default(),
                    None => Vec::new(),
                };
                let (first, right) = (side("left"), side("right"));
                Some(Readings { of, first, right: Some(right) })
            }
            _ => self.refuse(&of.value, LIST_READINGS, node),
        }
    }

    /// Every reading at its place: one that cannot be read was reported, and counts as not read.
    fn read_each(&mut self, key: &str, list: &[Node], dimensions: &'static [Dimension]) -> Vec<Reading> {
        let read = |node: &Node| {
            if matches!(&node.kind, Kind::Text(text) if text.trim().is_empty()) {
                return Spanned::new(None, node.span);
            }
            let reading = self.plain_quantity(key, node, dimensions);
            if reading.as_ref().is_some_and(|reading| reading.tolerance.is_some()) {
                let help = HELP;
                self.findings.push(rules::bad_value(MESSAGE, node.span, help));
                return Spanned::new(None, node.span);
            }
            Spanned::new(reading, node.span)
        };
        list.iter().map(read).collect()
    }

    fn colours(&mut self, section: &Section<'_>) -> Table<LabReadings> {
        let mut all = Table::new();
        for (name, (place, node)) in self.named(section, "colours") {
            let list = self.labs(name, node);
            all.insert(name.clone(), LabReadings { of: Spanned::new(name.clone(), *place), list });
        }
        all
    }

    /// CIELAB readings: one as three texts, or a list of such, empty where a piece was not read.
    pub(crate) fn labs(&mut self, key: &str, node: &Node) -> Vec<Spanned<Option<[f64; 3]>>> {
        match &node.kind {
            Kind::List(list) if list.iter().any(|one| matches!(one.kind, Kind::List(_))) => {
                list.iter().map(|one| self.lab_or_none(key, one)).collect()
            }
            Kind::List(list) if list.is_empty() => Vec::new(),
            _ => vec![self.lab_or_none(key, node)],
        }
    }

    fn lab_or_none(&mut self, key: &str, node: &Node) -> Spanned<Option<[f64; 3]>> {
        let empty = matches!(&node.kind, Kind::List(list) if list.is_empty());
        Spanned::new(if empty { None } else { self.lab_at(key, node) }, node.span)
    }

    /// A list of tables.
    pub(crate) fn entries_of<T>(
        &mut self,
        section: &Section<'_>,
        key: &str,
        read: fn(&mut Reader, &Section<'_>) -> T,
    ) -> Vec<T> {
        let Some(node) = section.node(key) else { return Vec::new() };
        let keys: &[Key] = match section.key(key).map(|key| &key.form) {
            Some(Form::Tables(keys)) => keys,
            _ => &[],
        };
        let Kind::List(list) = &node.kind else {
            self.refuse::<()>(key, LIST_TABLES, node);
            return Vec::new();
        };
        let what = say!(OF, key, what = section.what);
        let mut all = Vec::new();
        for one in list {
            let Kind::Table(fields) = &one.kind else {
                self.refuse::<()>(key, TABLES, one);
                continue;
            };
            let inner = Section { fields, keys, what: &what, span: one.span };
            self.report_unknown(&inner, false);
            all.push(read(self, &inner));
        }
        all
    }

    fn looked(&mut self, section: &Section<'_>) -> Looked {
        Looked {
            text: self.word(section, "text"),
            result: self.choice(section, "result"),
            note: self.word(section, "note"),
            span: section.span,
        }
    }

    fn graded(&mut self, section: &Section<'_>) -> Graded {
        Graded {
            test: self.choice(section, "test"),
            of: self.word(section, "of"),
            grade: self.choice(section, "grade"),
            required: self.choice(section, "required"),
            span: section.span,
        }
    }
}

//! Reads the style, its revision, sizes, colourways and severities.

use crate::grammar::limits::MOST_SIZES;
use crate::model::{AgeGrade, Colourway, Entry, Model, Product, Revision, Size, Stated, Style, kind};
use crate::source::Spanned;
use crate::words::{Language, Languages, number, say, words};

use super::declared::Declarations;
use super::reader::{Reader, is_id};
use super::rules;
use super::section::Section;

words! {
    SIZES "read.style.sizes" = "a style has {most} sizes at most";
    TAKE_SOME_OUT "read.style.take-some-out" = "take some out: what follows is not read";
    SCALE "read.style.scale" = "the scale";
    TWO_FACTORS "read.style.scale-two-factors" = "a scale has a factor along and one across the grain";
    WRITE_SCALE "read.style.scale-write" = "write scale = { along = \"{factor}\", across = \"{factor}\" }";
    CODE "read.style.code" = "the code {id} of a size and a colourway";
    TWO "read.style.languages-two" = "a package has one language, or two different ones";
    NO_LANGUAGE "read.style.languages-unknown" = "backtack has no words in the language \"{tag}\"";
    ONE_OF "read.style.languages-one-of" = "write [\"en\"], [\"zh-Hans\"], or both in the order in which they are printed";
    AGE "read.style.age" = "the age grade";
    YOUNGER "read.style.age-younger" = "the age ends before it begins";
    NO_CELL "read.style.no-cell" = "`{cell}` is no size in a colourway of the style";
    WRITE_CELL "read.style.write-cell" = "write the size before the colourway: \"L/winter\"";
    OLDEST "read.style.age-oldest" = "`to` is the oldest it is meant for: write an age above `from`, or leave it out";
}

/// The size of a style that lists none.
const ONE_SIZE: &str = "one";
/// The colourway of a style that has none.
const ONLY: &str = "only";

impl Reader {
    /// Style, revision, sizes and colourways; also the codes by which values may differ.
    pub fn style(&mut self, declared: &Declarations, model: &mut Model) {
        let (mut listed, mut not_made, mut drawn) = (Vec::new(), Vec::new(), None);
        let styles = self.each(declared, "style", |reader, section, _| {
            listed = reader.list(section, "sizes");
            if let Some(first) = listed.get(MOST_SIZES) {
                reader.findings.push(rules::bad_value(say!(SIZES, most = MOST_SIZES), first.span, TAKE_SOME_OUT));
                listed.truncate(MOST_SIZES);
            }
            not_made = reader.list(section, "not-made");
            drawn = reader.word(section, "drawn");
            reader.head(section)
        });
        model.style = styles.into_values().next().unwrap_or_default();
        let revisions = self.each(declared, "revision", |reader, section, _| reader.revision(section));
        model.revision = revisions.into_values().next().unwrap_or_default();
        self.sizes(declared, model, &listed);
        if let Some(drawn) = drawn {
            let known: Vec<&str> = model.sizes.iter().map(|size| size.entry.id.value.as_str()).collect();
            if !known.contains(&drawn.value.as_str()) {
                self.findings.push(rules::unknown_code(&drawn.value, &known, &[], drawn.span));
            }
            model.style.drawn = Some(drawn);
        }
        self.colourways(declared, model);
        self.not_made(&not_made, model);
    }

    /// Cells of sizes and colourways that are not made.
    fn not_made(&mut self, listed: &[Spanned<String>], model: &mut Model) {
        for cell in listed {
            let known = cell.value.split_once('/').map(|(size, colourway)| (size.trim(), colourway.trim()));
            let known = known.filter(|(size, way)| model.size(size).is_some() && model.colourways.contains_key(*way));
            match known {
                Some((size, way)) => {
                    model.style.not_made.push(Spanned::new((size.to_string(), way.to_string()), cell.span));
                }
                None => self.findings.push(rules::bad_value(say!(NO_CELL, cell = &cell.value), cell.span, WRITE_CELL)),
            }
        }
    }

    fn head(&mut self, section: &Section<'_>) -> Style {
        Style {
            span: Some(section.span),
            id: self.text(section, "id"),
            name: self.text(section, "name"),
            product: self.text(section, "product"),
            kind: self.product(section),
            owner: self.word(section, "owner"),
            factory: self.word(section, "factory"),
            factory_number: self.text(section, "factory-number"),
            season: self.text(section, "season"),
            age: self.age_grade(section),
            destinations: self.markets(section, "destinations"),
            languages: self.languages(section),
            drawn: None,
            not_made: Vec::new(),
            note: self.text(section, "note"),
        }
    }

    fn product(&mut self, section: &Section<'_>) -> Option<Spanned<Product>> {
        let word = self.choice(section, "kind")?;
        let kind = Product::ALL.into_iter().find(|kind| kind.word() == word.value)?;
        Some(Spanned::new(kind, word.span))
    }

    fn age_grade(&mut self, section: &Section<'_>) -> Option<AgeGrade> {
        let what = AGE.into();
        let inner = self.table(section, "age", &what)?;
        let (from, to) = (self.age(&inner, "from"), self.age(&inner, "to"));
        if let (Some(from), Some(to)) = (&from, &to)
            && from.value.months() > to.value.months()
        {
            self.findings.push(rules::bad_value(YOUNGER, to.span, OLDEST));
        }
        Some(AgeGrade { from, to, basis: self.text(&inner, "basis"), span: inner.span })
    }

    /// One language or two, by their tags.
    fn languages(&mut self, section: &Section<'_>) -> Languages {
        let mut known = Vec::new();
        for tag in self.list(section, "languages") {
            match Language::of(&tag.value) {
                Some(language) if known.contains(&language) || known.len() == 2 => {
                    let finding = rules::bad_value(TWO, tag.span, ONE_OF);
                    self.findings.push(finding);
                }
                Some(language) => known.push(language),
                None => self.findings.push(rules::bad_value(say!(NO_LANGUAGE, tag = tag.value), tag.span, ONE_OF)),
            }
        }
        match known[..] {
            [first, second, ..] => Languages::both(first, second),
            [first] => Languages::only(first),
            [] => Languages::default(),
        }
    }

    fn revision(&mut self, section: &Section<'_>) -> Revision {
        let stage = self.choice(section, "stage");
        Revision {
            span: Some(section.span),
            id: self.text(section, "id"),
            date: self.date(section, "date"),
            stage: stage.map(|stage| Stated::plain(stage.value, stage.span)),
            by: self.text(section, "by"),
            approved: self.text(section, "approved"),
            reason: self.text(section, "reason"),
            answer: self.date(section, "answer"),
        }
    }

    /// Sizes in the order the style lists them, with what their own tables add.
    fn sizes(&mut self, declared: &Declarations, model: &mut Model, listed: &[Spanned<String>]) {
        let mut described =
            self.each(declared, "size", |reader, section, entry| Size { entry, scale: reader.scale(section) });
        for id in listed {
            if let Some(old) = model.sizes.iter().find(|size| size.entry.id.value == id.value) {
                let finding = rules::duplicate_id(kind::named("size", &id.value), old.entry.id.span, id.span);
                self.findings.push(finding);
                continue;
            }
            if !is_code(&id.value) {
                self.findings.push(rules::bad_id(&id.value, kind::word("size"), true, id.span));
            }
            model.sizes.push(described.remove(&id.value).unwrap_or_else(|| plain_size(id)));
        }
        for (id, left) in described {
            let known: Vec<&str> = listed.iter().map(|size| size.value.as_str()).collect();
            self.findings.push(rules::unknown_code(&id, &known, &[], left.entry.id.span));
        }
        if model.sizes.is_empty() {
            model.sizes.push(plain_size(&Spanned::new(ONE_SIZE.into(), self.nowhere())));
        }
        self.codes.sizes = model.sizes.iter().map(|size| size.entry.id.value.clone()).collect();
    }

    fn scale(&mut self, section: &Section<'_>) -> Option<Stated<(f64, f64)>> {
        let what = SCALE.into();
        let inner = self.table(section, "scale", &what)?;
        let factor = |one: Option<Stated<f64>>| one.and_then(|one| one.known().copied());
        let along = factor(self.number(&inner, "along"));
        let across = factor(self.number(&inner, "across"));
        if let (Some(along), Some(across)) = (along, across) {
            return Some(Stated::plain((along, across), inner.span));
        }
        // A factor that is written and could not be read is a finding of its own.
        if !["along", "across"].iter().all(|key| inner.node(key).is_some()) {
            let factor = along.or(across).unwrap_or(1.25);
            let factor = number::number(factor, number::places(factor, 4));
            self.findings.push(rules::bad_value(TWO_FACTORS, inner.span, say!(WRITE_SCALE, factor)));
        }
        None
    }

    fn colourways(&mut self, declared: &Declarations, model: &mut Model) {
        model.colourways = self.each(declared, "colourway", |reader, section, entry| reader.colourway(section, entry));
        self.codes.colourways = model.colourways.keys().cloned().collect();
        for colourway in model.colourways.values() {
            let id = &colourway.entry.id;
            if let Some(size) = model.sizes.iter().find(|size| size.entry.id.value == id.value) {
                let what = say!(CODE, id = &id.value);
                self.findings.push(rules::duplicate_id(what, size.entry.id.span, id.span));
            }
        }
        if model.colourways.is_empty() {
            let entry = plain_size(&Spanned::new(ONLY.into(), self.nowhere())).entry;
            let only = Colourway { entry, roles: Default::default(), keys: Default::default() };
            model.colourways.insert(ONLY.into(), only);
        }
    }

    fn colourway(&mut self, section: &Section<'_>, entry: Entry) -> Colourway {
        let mut colourway = Colourway { entry, roles: Default::default(), keys: Default::default() };
        for (role, (place, node)) in section.fields {
            if section.key(role).is_some() {
                continue;
            }
            if let Some(text) = self.plain_text(role, node) {
                colourway.roles.insert(role.clone(), Spanned::new(text, node.span));
                colourway.keys.insert(role.clone(), *place);
            }
        }
        colourway
    }
}

fn plain_size(id: &Spanned<String>) -> Size {
    Size { entry: Entry { id: id.clone(), name: None, was: None }, scale: None }
}

/// Sizes are often plain numbers.
fn is_code(text: &str) -> bool {
    is_id(text, true) || (!text.is_empty() && text.bytes().all(|b| b.is_ascii_alphanumeric()))
}

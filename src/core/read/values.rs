//! Reads values of every form: plain, long, by size, by colourway, left to the factory, private.

use crate::grammar::limits::{MOST_LETTERS, MOST_PRODUCTS};
use std::collections::BTreeMap;

use crate::model::{Audience, Binding, Given, Stated, Value};
use crate::source::{Span, Spanned};
use crate::units::{Date, Dimension, Quantity};
use crate::words::{Phrase, say, words};

use super::folders::is_private;
use super::reader::Reader;
use super::rules;
use super::section::Section;
use super::tree::{Fields, Kind, Node};
use crate::grammar::keys::Form;
use crate::source::nearest;

words! {
    LONG_FORM "read.values.long-form" = "the long form of `{key}`";
    TRUE_FALSE "read.values.true-false" = "true or false";
    COUNT "read.values.count" = "`{key}` is a whole number from 1 to 100 000";
    WRITE_EXAMPLE "read.values.write-example" = "write for example 2";
    WHOLE_NUMBER "read.values.whole-number" = "a whole number";
    QUANTITY "read.values.quantity" = "`{key}` is a whole number from 1 to {most}: what is more is several orders";
    WRITE_EXAMPLE_LEAVE "read.values.write-example-leave" = "write for example 400, or leave the key out";
    DAY_CALENDAR "read.values.day-calendar" = "`{key}` is {text}, which is no day of the calendar";
    FAR_YEAR "read.values.far-year" = "`{key}` is {text}, and the year {year} cannot be meant";
    WRITE_YEAR "read.values.write-year" = "write year, month and day: \"2026-11-20\"";
    DATE "read.values.date" = "a date";
    LIST_TEXTS "read.values.list-texts" = "a list of texts";
    WRITE "read.values.write" = "write \"{near}\"";
    ONE_OF "read.values.one-of" = "one of: {words}";
    WORDS_OF "read.values.words-of" = "`{key}` cannot be \"{word}\"";
    NUMBER "read.values.number" = "a number";
    FACTOR_ABOVE "read.values.factor-above" = "`{key}` is a factor above 0 and at most 1000";
    FACTOR_EXAMPLE "read.values.factor-example" = "write for example \"{near}\"";
    TABLE "read.values.table" = "a table { .. }";
    LONG_TEXT "read.values.long-text" = "`{key}` has {count} characters, and a text may have {most}";
    SHORTEN "read.values.shorten" = "shorten it, or put what it says into steps and notes of their own";
    EMPTY "read.values.empty" = "`{key}` is empty";
    WRITE_TEXT "read.values.write-text" = "write the text or leave the key out";
    TEXT_QUOTES "read.values.text-quotes" = "a text in quotes";
    QUANTITY_UNIT "read.values.quantity-unit" = "a quantity with its unit, in quotes";
    NOT_KNOWN "read.values.not-known" = "`{key}` cannot be \"{text}\"";
}

/// The text that leaves a value to the factory.
pub const BY_FACTORY: &str = "by factory";

/// Years that a date can be meant to be in: nothing that is made today was approved before, or is planned beyond.
const YEARS: std::ops::RangeInclusive<u16> = 1900..=2199;
/// Keys of the long form of a value.
const LONG: [&str; 4] = ["value", "binding", "audience", "withheld"];

/// The factor that is probably meant: a share in percent as a number.
fn as_factor(text: &str) -> String {
    let share = text.trim().strip_suffix('%').and_then(|share| crate::units::Rational::parse(share.trim()));
    let factor = share.map(|share| share.to_f64() / 100.0).filter(|factor| *factor > 0.0 && *factor <= 1000.0);
    let factor = factor.unwrap_or(1.25);
    crate::words::number::number(factor, crate::words::number::places(factor, 4))
}

impl Reader {
    /// Text, short or long form.
    pub fn text(&mut self, section: &Section<'_>, key: &str) -> Option<Stated<String>> {
        let node = section.node(key)?;
        self.stated(key, node, |reader, node| reader.plain_text(key, node))
    }

    /// Text that may differ by size or colourway.
    pub fn texts_by(&mut self, section: &Section<'_>, key: &str) -> Option<Value<String>> {
        let node = section.node(key)?;
        self.value(key, node, |reader, node| reader.plain_text(key, node))
    }

    /// A name, id or other text without a long form, with its place.
    pub fn word(&mut self, section: &Section<'_>, key: &str) -> Option<Spanned<String>> {
        let node = section.node(key)?;
        self.plain_text(key, node).map(|text| Spanned::new(text, node.span))
    }

    /// `true` or `false`.
    pub fn flag(&mut self, section: &Section<'_>, key: &str) -> Option<Spanned<bool>> {
        let node = section.node(key)?;
        match node.kind {
            Kind::Flag(flag) => Some(Spanned::new(flag, node.span)),
            _ => self.refuse(key, TRUE_FALSE, node),
        }
    }

    /// A whole number above zero.
    pub fn whole(&mut self, section: &Section<'_>, key: &str) -> Option<Stated<u32>> {
        let node = section.node(key)?;
        match &node.kind {
            Kind::Integer(text) => match text.parse::<u32>() {
                Ok(number) if number > 0 && number <= 100_000 => Some(Stated::plain(number, node.span)),
                _ => {
                    let message = say!(COUNT, key);
                    self.findings.push(rules::bad_value(message, node.span, WRITE_EXAMPLE));
                    None
                }
            },
            _ => self.refuse(key, WHOLE_NUMBER, node),
        }
    }

    /// A number of products, from 1 to 10 million.
    pub fn products(&mut self, section: &Section<'_>, key: &str) -> Option<Stated<u32>> {
        let node = section.node(key)?;
        let Kind::Integer(text) = &node.kind else { return self.refuse(key, WHOLE_NUMBER, node) };
        match text.parse::<u32>().ok().filter(|number| (1..=MOST_PRODUCTS).contains(number)) {
            Some(number) => Some(Stated::plain(number, node.span)),
            None => {
                let message = say!(QUANTITY, key, most = MOST_PRODUCTS as usize);
                self.findings.push(rules::bad_value(message, node.span, WRITE_EXAMPLE_LEAVE));
                None
            }
        }
    }

    /// A date as text or as a date of its own.
    pub fn date(&mut self, section: &Section<'_>, key: &str) -> Option<Stated<Date>> {
        let node = section.node(key)?;
        self.stated(key, node, |reader, node| {
            let (Kind::Text(text) | Kind::Date(text)) = &node.kind else { return reader.refuse(key, DATE, node) };
            let date = text.parse().ok().filter(|date: &Date| YEARS.contains(&date.year()));
            if date.is_none() {
                reader.findings.push(rules::bad_value(no_day(key, text), node.span, WRITE_YEAR));
            }
            date
        })
    }

    /// A quantity that may differ by size or colourway; the dimensions stand with the key.
    pub fn quantity_by(&mut self, section: &Section<'_>, key: &str) -> Option<Value<Quantity>> {
        let dimensions = dimensions(section, key)?;
        let node = section.node(key)?;
        self.value(key, node, |reader, node| reader.plain_quantity(key, node, dimensions))
    }

    /// A quantity that is the same for all.
    pub fn quantity(&mut self, section: &Section<'_>, key: &str) -> Option<Stated<Quantity>> {
        let dimensions = dimensions(section, key)?;
        let node = section.node(key)?;
        self.stated(key, node, |reader, node| reader.plain_quantity(key, node, dimensions))
    }

    /// A list of texts; a single text counts as a list of one.
    pub fn list(&mut self, section: &Section<'_>, key: &str) -> Vec<Spanned<String>> {
        let Some(node) = section.node(key) else { return Vec::new() };
        match &node.kind {
            Kind::Text(text) => vec![Spanned::new(text.clone(), node.span)],
            Kind::List(list) => {
                list.iter().filter_map(|one| Some(Spanned::new(self.plain_text(key, one)?, one.span))).collect()
            }
            _ => {
                self.refuse::<()>(key, LIST_TEXTS, node);
                Vec::new()
            }
        }
    }

    /// One of the words a key allows.
    pub fn choice(&mut self, section: &Section<'_>, key: &str) -> Option<Spanned<String>> {
        let word = self.word(section, key)?;
        let Some(Form::Choice(words)) = section.key(key).map(|key| &key.form) else { return Some(word) };
        if words.contains(&word.value.as_str()) {
            return Some(word);
        }
        let help = match nearest(&word.value, words.iter().copied()) {
            Some(near) => say!(WRITE, near),
            None => say!(ONE_OF, words = words.join(", ")),
        };
        self.findings.push(rules::bad_value(say!(WORDS_OF, key, word = word.value), word.span, help));
        None
    }

    /// A decimal factor written as text.
    pub fn number(&mut self, section: &Section<'_>, key: &str) -> Option<Stated<f64>> {
        let node = section.node(key)?;
        let (Kind::Text(text) | Kind::Float(text) | Kind::Integer(text)) = &node.kind else {
            return self.refuse(key, NUMBER, node);
        };
        let number = crate::units::Rational::parse(text.trim()).map(|number| number.to_f64());
        match number.filter(|number| *number > 0.0 && *number <= 1000.0) {
            Some(number) => Some(Stated::plain(number, node.span)),
            None => {
                let message = say!(FACTOR_ABOVE, key);
                self.findings.push(rules::bad_value(message, node.span, say!(FACTOR_EXAMPLE, near = as_factor(text))));
                None
            }
        }
    }

    /// A sub-table with its own keys; unknown keys are reported.
    pub fn table<'a>(&mut self, section: &Section<'a>, key: &str, what: &'a Phrase) -> Option<Section<'a>> {
        let node = section.node(key)?;
        let keys: &'a [crate::grammar::keys::Key] = match section.key(key).map(|key| &key.form) {
            Some(Form::Table(keys) | Form::Either(_, keys)) => keys,
            _ => &[],
        };
        match &node.kind {
            Kind::Table(fields) => {
                let inner = Section { fields, keys, what, span: node.span };
                self.report_unknown(&inner, false);
                Some(inner)
            }
            _ => self.refuse(key, TABLE, node),
        }
    }

    /// Text at a node, trimmed; empty text counts as a slip.
    pub fn plain_text(&mut self, key: &str, node: &Node) -> Option<String> {
        match &node.kind {
            Kind::Text(text) if text.chars().count() > MOST_LETTERS => {
                let message = say!(LONG_TEXT, key, count = text.chars().count(), most = MOST_LETTERS);
                self.findings.push(rules::bad_value(message, node.span, SHORTEN));
                None
            }
            Kind::Text(text) if !text.trim().is_empty() => Some(text.trim().to_string()),
            Kind::Text(_) => {
                let message = say!(EMPTY, key);
                self.findings.push(rules::bad_value(message, node.span, WRITE_TEXT));
                None
            }
            _ => self.refuse(key, TEXT_QUOTES, node),
        }
    }

    /// A length at a node.
    pub fn plain_length(&mut self, key: &str, node: &Node) -> Option<Quantity> {
        self.plain_quantity(key, node, &[Dimension::Length])
    }

    /// A quantity at a node.
    pub fn plain_quantity(&mut self, key: &str, node: &Node, dimensions: &'static [Dimension]) -> Option<Quantity> {
        match &node.kind {
            Kind::Text(text) => match Quantity::parse(text, dimensions) {
                Ok(quantity) => Some(quantity),
                Err(error) => {
                    let inside = self.inside(node.span, text);
                    self.findings.push(rules::bad_quantity(key, &error, node.span, inside));
                    None
                }
            },
            Kind::Integer(text) | Kind::Float(text) => {
                self.findings.push(rules::bare_number(key, text, dimensions, node.span));
                None
            }
            _ => self.refuse(key, QUANTITY_UNIT, node),
        }
    }

    /// The place of the text of a value or key without its quotes, if the source holds it without escapes.
    pub fn inside(&self, span: Span, text: &str) -> Option<Span> {
        let inside = Span { start: span.start + 1, end: span.end.checked_sub(1)?, ..span };
        let holds = |span: &Span| span.start <= span.end && self.sources.text(*span) == text;
        [span, inside].into_iter().find(holds)
    }

    /// Says that a value is of the wrong sort.
    pub fn refuse<T>(&mut self, key: &str, wanted: impl Into<Phrase>, node: &Node) -> Option<T> {
        self.findings.push(rules::wrong_kind(key, wanted, node.kind.word(), node.span));
        None
    }

    /// A value in short form, left to the factory, or in the long form with binding and audience.
    pub fn stated<T>(
        &mut self,
        key: &str,
        node: &Node,
        read: impl Fn(&mut Reader, &Node) -> Option<T>,
    ) -> Option<Stated<T>> {
        let audience = self.audience(node.span);
        match &node.kind {
            Kind::Text(text) if text.trim() == BY_FACTORY => {
                Some(Stated { given: Given::ByFactory, binding: Binding::FillIn, audience, span: node.span })
            }
            Kind::Table(fields) if is_long(fields) => self.long(key, fields, node.span, read),
            _ => {
                let given = Given::Known(read(self, node)?);
                Some(Stated { given, binding: Binding::Required, audience, span: node.span })
            }
        }
    }

    fn long<T>(
        &mut self,
        key: &str,
        fields: &Fields,
        span: Span,
        read: impl Fn(&mut Reader, &Node) -> Option<T>,
    ) -> Option<Stated<T>> {
        for (name, (place, _)) in fields.iter().filter(|(name, _)| !LONG.contains(&name.as_str())) {
            self.findings.push(rules::unknown_key(name, &say!(LONG_FORM, key), &LONG, *place));
        }
        let words = ["required", "confirm", "fill in", "information"];
        let bindings = [Binding::Required, Binding::Confirm, Binding::FillIn, Binding::Information];
        let binding = self.one_of("binding", fields, &words).map(|at| bindings[at]);
        let audience =
            self.one_of("audience", fields, &["everyone", "own"]).map(|at| [Audience::Everyone, Audience::Own][at]);
        let withheld = fields.get("withheld").and_then(|(_, node)| self.plain_text("withheld", node));
        let known = fields.get("value").map(|(_, node)| node);
        let left = |node: &Node| matches!(&node.kind, Kind::Text(text) if text.trim() == BY_FACTORY);
        let given = match (known, withheld) {
            (Some(node), _) if left(node) => Given::ByFactory,
            (Some(node), _) => Given::Known(read(self, node)?),
            (None, Some(digest)) => Given::Withheld(digest),
            (None, None) => Given::ByFactory,
        };
        let usual = if matches!(given, Given::ByFactory) { Binding::FillIn } else { Binding::Required };
        let audience = audience.unwrap_or_else(|| self.audience(span));
        Some(Stated { given, binding: binding.unwrap_or(usual), audience, span })
    }

    /// Position of a written word among those allowed.
    fn one_of(&mut self, key: &str, fields: &Fields, words: &[&str]) -> Option<usize> {
        let (_, node) = fields.get(key)?;
        let text = self.plain_text(key, node)?;
        let found = words.iter().position(|word| *word == text);
        if found.is_none() {
            let help = say!(ONE_OF, words = words.join(", "));
            self.findings.push(rules::bad_value(say!(NOT_KNOWN, key, text), node.span, help));
        }
        found
    }

    /// What stands in a file below `private/` is for the own edition unless it says otherwise.
    pub(crate) fn audience(&self, span: Span) -> Audience {
        let path = self.sources.file(span.file).map_or("", |file| file.path.as_str());
        if is_private(path) { Audience::Own } else { Audience::Everyone }
    }

    /// A value that may differ by size or colourway: `{ S = .., L = .. }`, every code present or `else`.
    pub fn value<T>(
        &mut self,
        key: &str,
        node: &Node,
        read: impl Fn(&mut Reader, &Node) -> Option<T> + Copy,
    ) -> Option<Value<T>> {
        let fields = match &node.kind {
            Kind::Table(fields) if !is_long(fields) => fields,
            _ => return self.stated(key, node, read).map(Value::same),
        };
        let mut value = Value { otherwise: None, by: BTreeMap::new(), span: node.span };
        let mut written = Vec::new();
        for (code, (place, inner)) in fields {
            written.push(code.as_str());
            if code == "else" {
                value.otherwise = self.stated(key, inner, read);
            } else if self.codes.contains(code) {
                if let Some(stated) = self.stated(key, inner, read) {
                    value.by.insert(code.clone(), (*place, stated));
                }
            } else {
                let known: Vec<&str> = self.codes.all().collect();
                let beside: Vec<&str> = fields.keys().map(String::as_str).collect();
                let finding = rules::unknown_code(code, &known, &beside, *place);
                self.findings.push(finding);
            }
        }
        if !written.contains(&"else") {
            let missing: Vec<&str> = self.codes.missing(&written);
            if !missing.is_empty() {
                let finding = rules::incomplete_value(key, &missing, node.span);
                self.findings.push(finding);
            }
        }
        Some(value)
    }
}

/// Why a text is no date: a year that nobody means, or no day at all.
fn no_day(key: &str, text: &str) -> Phrase {
    let year = text.trim().split('-').next().filter(|year| year.len() == 4).and_then(|year| year.parse::<u16>().ok());
    let shaped = text.trim().len() == 10;
    match year.filter(|year| shaped && !YEARS.contains(year)) {
        Some(year) => say!(FAR_YEAR, key, text, year = format!("{year:04}")),
        None => say!(DAY_CALENDAR, key, text),
    }
}

pub(crate) fn is_long(fields: &Fields) -> bool {
    !fields.is_empty() && LONG.iter().any(|key| fields.contains_key(*key))
}

fn dimensions(section: &Section<'_>, key: &str) -> Option<&'static [Dimension]> {
    match section.key(key)?.form {
        Form::Quantity(dimensions) => Some(dimensions),
        _ => None,
    }
}

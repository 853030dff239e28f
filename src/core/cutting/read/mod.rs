//! Reads how fabrics are spread and cut.

mod lock;

use std::collections::BTreeMap;

use crate::model::{Cutting, Entry, Method, Model, Spread, Stated};
use crate::source::Spanned;
use crate::words::{Phrase, number, say, words};

use crate::read::declared::Declarations;
use crate::read::reader::Reader;
use crate::read::rules;
use crate::read::section::Section;
use crate::read::tree::Kind;

words! {
    TABLE_SIZES "read.cutting.table-sizes" = "a table of sizes";
    GIVES_NUMBER "read.cutting.gives-number" = "`mix` gives a number of products from 1 to {most_mixed} for sizes of the style";
    WRITE_EXAMPLE "read.cutting.write-example" = "write for example { S = 2, L = 1 }";
    LAYS_SEVERAL "read.cutting.lays-several" = "`mix` lays several sizes together";
    NUMBER_DEGREES "read.cutting.number-degrees" = "a number of degrees";
    TOO_STEEP "read.cutting.too-steep" = "`{key}` lies between 0 and {steepest} degrees";
    STEEPNESS_EXAMPLE "read.cutting.steepness-example" = "write for example 3";
}

/// The largest tilt, in degrees.
const STEEPEST: f64 = 45.0;
/// Most products of a size laid together.
const MOST_MIXED: u64 = 100;

impl Reader {
    /// How fabric is spread and cut.
    pub fn cuttings(&mut self, declared: &Declarations, model: &mut Model) {
        model.cuttings = self.each(declared, "cutting", |reader, section, entry| reader.cutting(section, entry));
    }

    fn cutting(&mut self, section: &Section<'_>, entry: Entry) -> Cutting {
        Cutting {
            entry,
            fabrics: self.list(section, "fabrics"),
            method: self.meant(section, "method", &Method::ALL),
            spread: self.meant(section, "spread", &Spread::ALL),
            gap: self.quantity(section, "gap"),
            edge: self.quantity(section, "edge"),
            end: self.quantity(section, "end"),
            tilt: self.degrees(section, "tilt"),
            table: self.quantity(section, "table"),
            height: self.quantity(section, "height"),
            plies: self.whole(section, "plies"),
            products: self.whole(section, "products"),
            shortest_ply: self.quantity(section, "shortest-ply"),
            reserve: self.quantity(section, "reserve"),
            mix: self.mix(section),
            note: self.text(section, "note"),
        }
    }

    /// Products by size; at least two sizes of the style.
    fn mix(&mut self, section: &Section<'_>) -> BTreeMap<String, u64> {
        let Some(node) = section.node("mix") else { return BTreeMap::new() };
        let Kind::Table(fields) = &node.kind else {
            self.refuse::<()>("mix", TABLE_SIZES, node);
            return BTreeMap::new();
        };
        let mut mix = BTreeMap::new();
        for (size, (place, value)) in fields {
            let count = match &value.kind {
                Kind::Integer(text) => text.parse::<u64>().ok().filter(|count| (1..=MOST_MIXED).contains(count)),
                _ => None,
            };
            match count.filter(|_| self.codes.sizes.contains(size)) {
                Some(count) => drop(mix.insert(size.clone(), count)),
                None => {
                    let message = say!(GIVES_NUMBER, most_mixed = MOST_MIXED);
                    self.findings.push(rules::bad_value(message, *place, WRITE_EXAMPLE));
                }
            }
        }
        if mix.len() < 2 && fields.len() < 2 {
            let message = Phrase::from(LAYS_SEVERAL);
            self.findings.push(rules::bad_value(message, node.span, WRITE_EXAMPLE));
        }
        if mix.len() == fields.len() && mix.len() > 1 { mix } else { BTreeMap::new() }
    }

    /// A small angle in degrees, written as a number.
    fn degrees(&mut self, section: &Section<'_>, key: &str) -> Option<Stated<f64>> {
        let node = section.node(key)?;
        let (Kind::Text(text) | Kind::Float(text) | Kind::Integer(text)) = &node.kind else {
            return self.refuse(key, NUMBER_DEGREES, node);
        };
        let number = crate::units::Rational::parse(text.trim()).map(|number| number.to_f64());
        match number.filter(|number| (0.0..=STEEPEST).contains(number)) {
            Some(number) => Some(Stated::plain(number, node.span)),
            None => {
                let message = say!(TOO_STEEP, key, steepest = number::number(STEEPEST, 0));
                self.findings.push(rules::bad_value(message, node.span, STEEPNESS_EXAMPLE));
                None
            }
        }
    }

    /// A choice as what it means.
    pub(crate) fn meant<T: Copy>(&mut self, section: &Section<'_>, key: &str, all: &[(&str, T)]) -> Option<Spanned<T>> {
        let word = self.choice(section, key)?;
        let meant = all.iter().find(|(text, _)| *text == word.value).map(|(_, value)| *value);
        meant.map(|value| Spanned::new(value, word.span))
    }
}

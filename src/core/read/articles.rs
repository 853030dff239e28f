//! Reads articles, colours, fibres and roles.

use std::collections::BTreeMap;

use crate::model::property::{self, Holds, Property};
use crate::model::{Article, ArticleKind, Colour, Composition, Entry, Model, Role, Stated, Value, kind};
use crate::source::{Span, Spanned};
use crate::units::{Dimension, Quantity};
use crate::words::{say, words};

use super::declared::Declarations;
use super::reader::Reader;
use super::rules;
use super::section::Section;
use super::tree::{Kind, Node};

words! {
    COMPOSITION "read.articles.composition" = "the composition";
    ARTICLE "read.articles.article" = "the article {id} (a {one} and a {other})";
    SHARES "read.articles.shares" = "text such as \"80 % cotton, 20 % polyester\"";
    NO_SHARE "read.articles.no-share" = "`{text}` is not a share and a fibre";
    WRITE_SHARE "read.articles.write-share" = "write the share first: \"80 % cotton, 20 % polyester\"";
    THREE_NUMBERS "read.articles.three-numbers" = "three numbers as texts";
    WRITE_LAB "read.articles.write-lab" = "write L* from 0 to 100, then a* and b*: {key} = [\"52.1\", \"-3.4\", \"-12.0\"]";
    NO_LAB "read.articles.no-lab" = "`{key}` is no CIELAB colour";
    NO_SCREEN_COLOUR "read.articles.no-screen-colour" = "`screen` is no screen colour";
    WRITE_SCREEN_COLOUR "read.articles.write-screen-colour" = "write \"#4a5b6c\"";
}

const KINDS: [ArticleKind; 4] = [ArticleKind::Fabric, ArticleKind::Thread, ArticleKind::Filling, ArticleKind::Trim];

impl Reader {
    /// Colours, articles and roles.
    pub fn articles(&mut self, declared: &Declarations, model: &mut Model) {
        model.colours = self.each(declared, "colour", |reader, section, entry| reader.colour(section, entry));
        for kind in KINDS {
            let some = self.each(declared, kind.word(), |reader, section, entry| reader.article(section, entry, kind));
            for (id, article) in some {
                if let Some(old) = model.articles.get(&id) {
                    let what = say!(ARTICLE, id, one = kind::word(old.kind.word()), other = kind::word(kind.word()));
                    let finding = rules::duplicate_id(what, old.entry.span(), article.entry.span());
                    self.findings.push(finding);
                } else {
                    model.articles.insert(id, article);
                }
            }
        }
        model.roles =
            self.each(declared, "role", |reader, section, entry| Role { entry, note: reader.text(section, "note") });
    }

    fn article(&mut self, section: &Section<'_>, entry: Entry, kind: ArticleKind) -> Article {
        let mut properties = BTreeMap::new();
        for spec in property::of(kind) {
            let value = match spec.holds {
                Holds::Text => self.texts_by(section, spec.key).map(Property::Text),
                Holds::Word(_) => self
                    .choice(section, spec.key)
                    .map(|word| Property::Text(Value::same(Stated::plain(word.value, word.span)))),
                Holds::Quantity(..) => self.quantity_by(section, spec.key).map(Property::Quantity),
            };
            if let Some(value) = value {
                properties.insert(spec.key, value);
            }
        }
        Article {
            entry,
            kind,
            properties,
            composition: self.composition(section),
            colours: self.list(section, "colours"),
        }
    }

    fn composition(&mut self, section: &Section<'_>) -> Vec<Composition> {
        let Some(node) = section.node("composition") else { return Vec::new() };
        if let Kind::Text(text) = &node.kind {
            let layer = Spanned::new("all".to_string(), node.span);
            return vec![self.layer(layer, text, node)];
        }
        let what = COMPOSITION.into();
        let Some(inner) = self.table(section, "composition", &what) else { return Vec::new() };
        let mut layers = Vec::new();
        for key in inner.keys {
            let (Some(place), Some(node)) = (inner.key_span(key.name), inner.node(key.name)) else { continue };
            if let Kind::Text(text) = &node.kind {
                layers.push(self.layer(Spanned::new(key.name.to_string(), place), text, node));
            } else {
                self.refuse::<()>(key.name, SHARES, node);
            }
        }
        layers.sort_by(|a, b| a.layer.value.cmp(&b.layer.value));
        layers
    }

    /// `80 % cotton, 20 % polyester`.
    fn layer(&mut self, layer: Spanned<String>, text: &str, node: &Node) -> Composition {
        let inside = self.inside(node.span, text);
        let mut fibres = Vec::new();
        let mut at = 0;
        for part in text.split(',') {
            let place = inside.map_or(node.span, |inside| inside.part(at, at + part.len()));
            at += part.len() + 1;
            match fibre(part.trim(), place) {
                Some(fibre) => fibres.push(fibre),
                None => {
                    let message = say!(NO_SHARE, text = part.trim());
                    let help = WRITE_SHARE;
                    self.findings.push(rules::bad_value(message, place, help));
                }
            }
        }
        Composition { layer, fibres, span: node.span }
    }

    fn colour(&mut self, section: &Section<'_>, entry: Entry) -> Colour {
        Colour {
            entry,
            reference: self.text(section, "reference"),
            lab: self.lab(section),
            limit: self.number(section, "limit"),
            screen: self.screen(section),
        }
    }

    fn lab(&mut self, section: &Section<'_>) -> Option<Stated<[f64; 3]>> {
        let node = section.node("lab")?;
        self.lab_at("lab", node).map(|lab| Stated::plain(lab, node.span))
    }

    /// A colour in CIELAB at a node: three numbers.
    pub(crate) fn lab_at(&mut self, key: &str, node: &Node) -> Option<[f64; 3]> {
        let Kind::List(list) = &node.kind else { return self.refuse(key, THREE_NUMBERS, node) };
        let numbers: Vec<f64> = list.iter().filter_map(decimal).collect();
        match (<[f64; 3]>::try_from(numbers), list.len()) {
            (Ok(lab), 3) if (0.0..=100.0).contains(&lab[0]) && lab[1].abs() <= 150.0 && lab[2].abs() <= 150.0 => {
                Some(lab)
            }
            _ => {
                let help = say!(WRITE_LAB, key);
                self.findings.push(rules::bad_value(say!(NO_LAB, key), node.span, help));
                None
            }
        }
    }

    fn screen(&mut self, section: &Section<'_>) -> Option<Stated<[u8; 3]>> {
        let node = section.node("screen")?;
        let text = self.plain_text("screen", node)?;
        let hex = text.strip_prefix('#').filter(|hex| hex.len() == 6 && hex.bytes().all(|b| b.is_ascii_hexdigit()));
        let byte = |hex: &str, at: usize| u8::from_str_radix(&hex[at..at + 2], 16).unwrap_or(0);
        match hex {
            Some(hex) => Some(Stated::plain([byte(hex, 0), byte(hex, 2), byte(hex, 4)], node.span)),
            None => {
                self.findings.push(rules::bad_value(NO_SCREEN_COLOUR, node.span, WRITE_SCREEN_COLOUR));
                None
            }
        }
    }
}

fn decimal(node: &Node) -> Option<f64> {
    match &node.kind {
        Kind::Text(text) | Kind::Float(text) | Kind::Integer(text) => {
            crate::units::Rational::parse(text.trim()).map(|number| number.to_f64())
        }
        _ => None,
    }
}

/// A share and a fibre name.
fn fibre(part: &str, place: Span) -> Option<(Spanned<String>, Stated<Quantity>)> {
    let (share, name) = part.split_once('%')?;
    let share = Quantity::parse(&format!("{} %", share.trim()), &[Dimension::Percent]).ok()?;
    let name = name.trim();
    (!name.is_empty()).then(|| (Spanned::new(name.to_string(), place), Stated::plain(share, place)))
}

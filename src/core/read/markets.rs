//! Reads destinations, ages, lists of words and texts of several lines.

use crate::model::Stated;
use crate::source::{Edit, Help, Spanned};
use crate::standards::market::Market;
use crate::units::Age;
use crate::words::{Phrase, Word, say, words};

use super::reader::Reader;
use super::rules;
use super::section::Section;
use super::tree::{Kind, Node};
use crate::grammar::keys::Form;
use crate::source::nearest;

words! {
    NO_MARKET "read.markets.unknown" = "\"{text}\" is no country and no market that is known here";
    WRITE "read.markets.write" = "write \"{code}\", which is {name}";
    CODES "read.markets.codes" = "write the code of ISO 3166-1 or the English short name, \"NO\" or \"Norway\"; \"EU\" is the European Union";
    NO_AGE "read.markets.no-age" = "`{key}` is no age: \"{text}\"";
    AGES "read.markets.ages" = "write months or years, at most 99 years: \"36 months\", \"3 years\", \"0 months\"";
    NO_WORD "read.markets.no-word" = "`{key}` cannot be \"{text}\"";
    NEAR "read.markets.near" = "write \"{near}\"";
    ONE_OF "read.markets.one-of" = "one or several of: {words}";
    LIST_MARKETS "read.markets.list-markets" = "a list of codes or names of countries";
    LIST_WORDS "read.markets.list-words" = "one word or a list of words";
    LIST_LINES "read.markets.list-lines" = "a text or a list of lines";
}

/// What many write for the United Kingdom. ISO 3166-1 keeps it for that country, whose code is `GB` (from memory).
const KINGDOM: (&str, &str) = ("UK", "GB");

impl Reader {
    /// One country, or the European Union.
    pub fn market(&mut self, section: &Section<'_>, key: &str) -> Option<Spanned<Market>> {
        let node = section.node(key)?;
        self.market_at(key, node)
    }

    /// Several; one alone counts as a list of one.
    pub fn markets(&mut self, section: &Section<'_>, key: &str) -> Vec<Spanned<Market>> {
        let nodes = self.nodes(section, key, LIST_MARKETS);
        nodes.into_iter().filter_map(|node| self.market_at(key, node)).collect()
    }

    fn market_at(&mut self, key: &str, node: &Node) -> Option<Spanned<Market>> {
        let text = self.plain_text(key, node)?;
        if let Some(market) = Market::of(&text) {
            return Some(Spanned::new(market, node.span));
        }
        let help = match meant(&text) {
            Some(market) => {
                let help = say!(WRITE, code = market.code, name = market.short());
                Help::with(help, Edit::replace(node.span, format!("\"{}\"", market.code)))
            }
            None => CODES.into(),
        };
        self.findings.push(rules::bad_value(say!(NO_MARKET, text), node.span, help));
        None
    }

    /// An age in months or years.
    pub fn age(&mut self, section: &Section<'_>, key: &str) -> Option<Spanned<Age>> {
        let word = self.word(section, key)?;
        let age = Age::parse(&word.value);
        if age.is_none() {
            let message = say!(NO_AGE, key, text = word.value);
            self.findings.push(rules::bad_value(message, word.span, AGES));
        }
        age.map(|age| Spanned::new(age, word.span))
    }

    /// A text of one line or several.
    pub fn lines_of(&mut self, section: &Section<'_>, key: &str) -> Option<Stated<Vec<String>>> {
        let node = section.node(key)?;
        self.stated(key, node, |reader, node| match &node.kind {
            Kind::List(list) => list.iter().map(|line| reader.plain_text(key, line)).collect(),
            Kind::Text(_) => Some(vec![reader.plain_text(key, node)?]),
            _ => reader.refuse(key, LIST_LINES, node),
        })
    }

    /// One or several of the words a key allows.
    pub fn choices(&mut self, section: &Section<'_>, key: &str) -> Vec<Spanned<String>> {
        let Some(Form::Choices(words)) = section.key(key).map(|key| &key.form) else { return Vec::new() };
        let nodes = self.nodes(section, key, LIST_WORDS);
        let mut found = Vec::new();
        for node in nodes {
            match self.plain_text(key, node) {
                Some(text) if words.contains(&text.as_str()) => found.push(Spanned::new(text, node.span)),
                Some(text) => {
                    let help = match nearest(&text, words.iter().copied()) {
                        Some(near) => say!(NEAR, near),
                        None => say!(ONE_OF, words = Phrase::list(words.iter().copied())),
                    };
                    self.findings.push(rules::bad_value(say!(NO_WORD, key, text), node.span, help));
                }
                None => {}
            }
        }
        found
    }

    /// The entries of a list; anything else is a list of one. A table is no entry.
    fn nodes<'a>(&mut self, section: &Section<'a>, key: &str, wanted: Word) -> Vec<&'a Node> {
        let Some(node) = section.node(key) else { return Vec::new() };
        match &node.kind {
            Kind::List(list) => list.iter().collect(),
            Kind::Text(_) => vec![node],
            _ => {
                self.refuse::<()>(key, wanted, node);
                Vec::new()
            }
        }
    }
}

/// The market that a misspelt code or name means, if one is near. Codes are too short to be near each other.
fn meant(text: &str) -> Option<Market> {
    if text.eq_ignore_ascii_case(KINGDOM.0) {
        return Market::of(KINGDOM.1);
    }
    let names: Vec<&str> = Market::all().flat_map(|market| market.names().collect::<Vec<_>>()).collect();
    let near = (text.chars().count() > 2).then(|| nearest(text, names.iter().copied())).flatten()?;
    Market::of(near)
}

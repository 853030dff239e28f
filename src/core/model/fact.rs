//! Everything a specification states, one fact a value, so that two specifications can be compared by meaning.

use crate::source::Span;
use crate::units::{Quantity, Rational};

/// What a specification states, in the order of the grammar, then of ids.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Statements {
    /// Every declared thing; tables without an id, such as `[style]`, are one thing with an empty id.
    pub items: Vec<Item>,
}

/// One declared thing. A layer of a piece other than its shell is a thing of its own, of the kind `cut` and with the id
/// `PIECE.cut`.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Name of its table.
    pub kind: &'static str,
    /// Its id.
    pub id: String,
    /// The id it had in an earlier revision.
    pub was: Option<String>,
    /// Where it is declared.
    pub span: Span,
    /// What is stated of it, in the order of the grammar.
    pub facts: Vec<Fact>,
}

impl Item {
    /// The name for people, as it is written for all products; the id where there is none.
    pub fn title(&self) -> &str {
        self.facts.iter().find(|fact| fact.key == "name").map_or(&self.id, |fact| &fact.written)
    }

    /// The fact with this key that holds for all products.
    pub fn fact(&self, key: &str) -> Option<&Fact> {
        self.facts.iter().find(|fact| fact.key == key && fact.scope.is_none())
    }

    /// Turns all chains of the thing together, so that the first one begins at its lesser end: a seam walked from its
    /// other end is the same seam.
    pub fn one_way(&mut self) {
        if !matches!(self.kind, "seam" | "opening" | "edge-finish" | "topstitch" | "attach") {
            return;
        }
        let first = self.facts.iter().find_map(|fact| match &fact.meaning {
            Meaning::Chain(runs) => Some(runs),
            _ => None,
        });
        if first.is_some_and(|first| reversed(first) < *first) {
            self.facts.iter_mut().for_each(|fact| fact.meaning.turn());
        }
    }
}

/// One value.
#[derive(Debug, Clone, PartialEq)]
pub struct Fact {
    /// Key of the value, those of tables within tables joined by points: `mass`, `stitch.density`, `allowance.b-n`.
    pub key: String,
    /// The size or colourway it holds for, or `else`; none if it holds for all.
    pub scope: Option<String>,
    /// What it means.
    pub meaning: Meaning,
    /// How it is written, on one line.
    pub written: String,
    /// Where.
    pub span: Span,
}

/// What a value means, however it is written.
#[derive(Debug, Clone, PartialEq)]
pub enum Meaning {
    /// A quantity with its tolerance.
    Quantity(Quantity),
    /// A plain number.
    Number(Rational),
    /// Text or a word, spaces made single.
    Text(String),
    /// The id of something of one of these tables; no table stands for any.
    Refers(&'static [&'static str], String),
    /// The role of a colourway: `article/colour`.
    Bought(String),
    /// Runs in a row.
    Chain(Vec<Stretch>),
    /// Edges whose direction does not matter.
    Edge(String, String),
    /// Entries whose order does not matter.
    Set(Vec<Entry>),
    /// Entries in their order.
    List(Vec<Entry>),
    /// The factory says.
    ByFactory,
    /// Not shown in this edition.
    Withheld,
}

/// One entry of a list.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// What it means.
    pub meaning: Meaning,
    /// How it is written.
    pub written: String,
}

/// The stretch between two neighbours of a chain, or an internal line.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Stretch {
    /// Part and use before the slash, as far as written.
    pub part: Option<String>,
    /// The use, if named.
    pub usage: Option<String>,
    /// The piece.
    pub piece: String,
    /// The copy, if named.
    pub copy: Option<String>,
    /// The first and the last point, or the internal line twice.
    pub ends: (String, String),
}

impl Stretch {
    /// The same stretch walked the other way.
    #[must_use]
    pub fn turned(&self) -> Stretch {
        let (from, to) = self.ends.clone();
        Stretch { ends: (to, from), ..self.clone() }
    }
}

fn reversed(runs: &[Stretch]) -> Vec<Stretch> {
    runs.iter().rev().map(Stretch::turned).collect()
}

impl Meaning {
    fn turn(&mut self) {
        match self {
            Meaning::Chain(runs) => *runs = reversed(runs),
            Meaning::List(entries) | Meaning::Set(entries) => entries.iter_mut().for_each(|entry| entry.meaning.turn()),
            _ => {}
        }
    }

    /// A text that two values share exactly when they mean the same.
    pub fn key(&self) -> String {
        match self {
            Meaning::Quantity(quantity) => quantity_key(quantity),
            Meaning::Number(number) => format!("number {}/{}", number.numerator(), number.denominator()),
            Meaning::Text(text) => format!("text {text}"),
            Meaning::Refers(_, id) => format!("refers {id}"),
            Meaning::Bought(id) => format!("bought {id}"),
            Meaning::Chain(runs) => format!("chain {runs:?}"),
            Meaning::Edge(a, b) => format!("edge {} {}", a.min(b), a.max(b)),
            Meaning::Set(entries) => {
                let mut keys: Vec<String> = entries.iter().map(|entry| entry.meaning.key()).collect();
                keys.sort();
                format!("set {keys:?}")
            }
            Meaning::List(entries) => {
                let keys: Vec<String> = entries.iter().map(|entry| entry.meaning.key()).collect();
                format!("list {keys:?}")
            }
            Meaning::ByFactory => "by factory".into(),
            Meaning::Withheld => "withheld".into(),
        }
    }
}

/// Value and limits in the unit in which the dimension is held: `10 mm` is `1 cm`, and `200 mm ±5 %` is `200 mm ±10 mm`.
fn quantity_key(quantity: &Quantity) -> String {
    let exact = |number: Rational| format!("{}/{}", number.numerator(), number.denominator());
    let limits = quantity.limits().map(|limits| format!(" {} {}", exact(limits.lower), exact(limits.upper)));
    format!("{:?} {}{}", quantity.dimension(), exact(quantity.si()), limits.unwrap_or_default())
}

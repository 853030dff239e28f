//! What the grammar is made of: kinds of tables, their keys, and what a key takes.

use crate::model::kind;
use crate::units::Dimension;
use crate::words::Phrase;

/// What a key takes.
#[derive(Debug, Clone)]
pub enum Form {
    /// Text for people.
    Text,
    /// The id of a thing that one of these tables declares; of any where there are none.
    Refers(&'static [&'static str]),
    /// An article, or an article in one of its colours: `plush/soot`.
    Bought,
    /// The id that a thing had before.
    Former,
    /// A picture file below the style folder. What it shows is compared, not what it is called.
    Picture,
    /// From one named point to another, `sw-nw`.
    Way,
    /// A place that may be given with lengths: `n-c 40 mm`, `12 % 50 %`.
    Place,
    /// Fibres with their shares, in any order.
    Fibres,
    /// One edge of a piece.
    Edge,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// One of these words, or several of them.
    Choices(&'static [&'static str]),
    /// `true` or `false`.
    Flag,
    /// A whole number.
    Whole,
    /// A number of products.
    Products,
    /// A date, `2026-11-20`.
    Date,
    /// A quantity of one of these dimensions.
    Quantity(&'static [Dimension]),
    /// A decimal number as text.
    Number,
    /// Edges in a row.
    Chain,
    /// Several of these, one after the other; a single one is a list of one.
    List(Box<Form>),
    /// Several of these, in any order; a single one is a set of one.
    Set(Box<Form>),
    /// A text of one line or several: one text, or a list of lines.
    Lines,
    /// A country by its code or name, or the European Union.
    Market,
    /// Several of them.
    Markets,
    /// An age in months or years.
    Age,
    /// A table with these keys.
    Table(Vec<Key>),
    /// The first, or a table with these keys.
    Either(Box<Form>, Vec<Key>),
    /// One for every edge, or a table of edges with `all` for the rest.
    ByEdge(Box<Form>),
    /// One for every point, or a table of points with `all` for the rest.
    ByPoint(Box<Form>),
    /// A list of tables with these keys.
    Tables(Vec<Key>),
    /// A list, in its order, whose entries are edges in a row or tables with these keys.
    Mixed(Vec<Key>),
    /// A table whose keys are the user's own, each with this form.
    Open(Box<Form>),
    /// A number of copies or a list of names.
    Copies,
    /// A length, or the edges it is as long as: `along LID:n-e`.
    Extent,
    /// A list of `[id, x, y]`.
    Corners,
    /// Readings of these dimensions, one a piece, or left and right ones.
    Readings(&'static [Dimension]),
    /// CIELAB readings: three texts, or a list of such.
    Labs,
}

/// One key.
#[derive(Debug, Clone)]
pub struct Key {
    /// As written.
    pub name: &'static str,
    /// What it takes.
    pub form: Form,
    /// Whether it may differ by size or colourway.
    pub varies: bool,
    /// One line for the reference and the editor.
    pub doc: &'static str,
}

/// One kind of table.
#[derive(Debug, Clone)]
pub struct Kind {
    /// Table name.
    pub name: &'static str,
    /// Whether it is `[name.ID]`, one for each thing, or just `[name]`.
    pub keyed: bool,
    /// Whether ids may hold hyphens: not in chains, where a hyphen stands between points.
    pub hyphen: bool,
    /// Its keys.
    pub keys: Vec<Key>,
    /// What the user's own keys take, if it allows any.
    pub open: Option<Form>,
    /// One line for the reference and the editor.
    pub doc: &'static str,
}

impl Form {
    /// Several of `one`, one after the other.
    pub(crate) fn list(one: Form) -> Form {
        Form::List(Box::new(one))
    }

    /// Several of `one`, in any order.
    pub(crate) fn set(one: Form) -> Form {
        Form::Set(Box::new(one))
    }

    /// `one`, or a table with keys.
    pub(crate) fn or(one: Form, keys: Vec<Key>) -> Form {
        Form::Either(Box::new(one), keys)
    }

    /// A table with names of the user's own.
    pub(crate) fn open(one: Form) -> Form {
        Form::Open(Box::new(one))
    }
}

impl Kind {
    /// What one of its tables is called in findings: `piece SIDE`, `[style]`.
    pub fn title(&self, id: &str) -> Phrase {
        if self.keyed { kind::named(self.name, id) } else { Phrase::from(format!("[{}]", self.name)) }
    }
}

/// A key that is the same for every product.
pub(crate) fn key(name: &'static str, form: Form, doc: &'static str) -> Key {
    Key { name, form, varies: false, doc }
}

/// A key whose value may differ by size or colourway.
pub(crate) fn varying(name: &'static str, form: Form, doc: &'static str) -> Key {
    Key { name, form, varies: true, doc }
}

/// A table that stands once.
pub(crate) fn single(name: &'static str, keys: Vec<Key>, doc: &'static str) -> Kind {
    Kind { name, keyed: false, hyphen: true, keys, open: None, doc }
}

/// A table for each thing of its kind, which has a name and may have had another id.
pub(crate) fn keyed(name: &'static str, mut keys: Vec<Key>, doc: &'static str) -> Kind {
    keys.insert(0, key("name", Form::Text, "Text for people; without it the id is printed"));
    keys.insert(1, key("was", Form::Former, "The id it had in an earlier revision"));
    Kind { name, keyed: true, hyphen: true, keys, open: None, doc }
}

/// A kind of table whose ids hold no hyphen.
pub(crate) fn strict(mut kind: Kind) -> Kind {
    kind.hyphen = false;
    kind
}

//! The reference of the files: every table and key of the grammar, as a Markdown page and entry by entry.

use std::fmt::Write as _;

use crate::model::kind;
use crate::source::nearest;
use crate::units::{Dimension, Unit};
use crate::words::quantity;

use super::keys::{Form, Key, Kind, kinds};

/// One table or key of the reference.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its full name: `piece`, `piece.cut.allowance`.
    pub path: String,
    /// What it is.
    pub doc: &'static str,
    /// What it takes; of a table, how it is written.
    pub takes: String,
    /// Whether it may differ by size or colourway.
    pub varies: bool,
    /// The units it may be written in, if it is a quantity.
    pub units: String,
    /// Its own keys, in the order of the grammar.
    pub keys: Vec<Entry>,
}

/// A name that the reference does not have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unknown {
    /// What is wrong with it.
    pub what: String,
    /// The nearest entry there is.
    pub near: Option<String>,
    /// The table whose keys were searched; none where no table has the name.
    pub table: Option<String>,
}

/// Every table, in the order of the reference.
pub fn tables() -> impl Iterator<Item = Entry> {
    kinds().iter().map(of_table)
}

/// The entry with this name: `TABLE`, `TABLE.KEY`, `TABLE.KEY.KEY`. Where files have an id of the user, `ID` may stand.
///
/// # Errors
/// If there is no such table or key.
pub fn entry(path: &str) -> Result<Entry, Unknown> {
    let mut words = path.split('.').filter(|word| *word != "ID");
    let table = words.next().unwrap_or_default();
    let mut found = match kinds().iter().find(|kind| kind.name == table) {
        Some(kind) => of_table(kind),
        None => return Err(no_table(table)),
    };
    for word in words {
        match found.keys.iter().position(|key| last(&key.path) == word) {
            Some(place) => found = found.keys.swap_remove(place),
            None => return Err(no_key(&found, word)),
        }
    }
    Ok(found)
}

fn no_table(word: &str) -> Unknown {
    let tables: Vec<&str> = kinds().iter().map(|kind| kind.name).collect();
    let keys: Vec<&str> = kinds().iter().flat_map(|kind| kind.keys.iter().map(|key| key.name)).collect();
    let near = of_name(word)
        .or_else(|| nearest(word, tables.iter().copied()).map(str::to_string))
        .or_else(|| nearest(word, keys.iter().copied()).and_then(of_name));
    Unknown { what: format!("no table is called {word}"), near, table: None }
}

/// The full name of the first key that is called so.
fn of_name(word: &str) -> Option<String> {
    let kind = kinds().iter().find(|kind| kind.keys.iter().any(|key| key.name == word))?;
    Some(format!("{}.{word}", kind.name))
}

fn no_key(table: &Entry, word: &str) -> Unknown {
    let names: Vec<&str> = table.keys.iter().map(|key| last(&key.path)).collect();
    let near = nearest(word, names.iter().copied()).map(|name| format!("{}.{name}", table.path));
    Unknown { what: format!("{} has no key {word}", table.path), near, table: Some(table.path.clone()) }
}

fn last(path: &str) -> &str {
    path.rsplit('.').next().unwrap_or(path)
}

fn of_table(kind: &Kind) -> Entry {
    let takes = match (kind.keyed, kind.hyphen) {
        (false, _) => format!("[{}], once", kind.name),
        (true, true) => format!("[{}.ID], one for each", kind.name),
        (true, false) => format!("[{}.ID], one for each; the ID has no hyphen", kind.name),
    };
    let mut keys = of_keys(&kind.keys, kind.name);
    if let Some(form) = &kind.open {
        let path = format!("{}.{OWN}", kind.name);
        keys.push(Entry { path, doc: "A key of your own", ..of_form(form) });
    }
    Entry { path: kind.name.to_string(), doc: kind.doc, takes, varies: false, units: String::new(), keys }
}

/// Printed for a key whose name is the user's.
const OWN: &str = "...";

fn of_keys(keys: &[Key], above: &str) -> Vec<Entry> {
    keys.iter().map(|key| of_key(key, above)).collect()
}

fn of_key(key: &Key, above: &str) -> Entry {
    let path = format!("{above}.{}", key.name);
    let within = if matches!(key.form, Form::Open(_)) { format!("{path}.ID") } else { path.clone() };
    let keys = of_keys(inner(&key.form), &within);
    Entry { path, doc: key.doc, varies: key.varies, keys, ..of_form(&key.form) }
}

/// An entry that has no name yet.
fn of_form(form: &Form) -> Entry {
    let (takes, units) = (takes_of(form), units_of(form));
    Entry { path: String::new(), doc: "", takes, varies: false, units, keys: vec![] }
}

/// The keys inside a form.
fn inner(form: &Form) -> &[Key] {
    match form {
        Form::Table(keys) | Form::Either(_, keys) | Form::Tables(keys) | Form::Mixed(keys) => keys,
        Form::Open(one) => inner(one),
        _ => &[],
    }
}

/// What a form takes, in words.
fn takes_of(form: &Form) -> String {
    match form {
        Form::Text => "text".into(),
        Form::Refers([]) | Form::Former => "an id".into(),
        Form::Refers(tables) => {
            format!("the id of a {}", listed(&tables.iter().map(|one| kind::word(one).english()).collect::<Vec<_>>()))
        }
        Form::Bought => "article, or article/colour".into(),
        Form::Picture => "a file".into(),
        Form::Way => "two points: from-to".into(),
        Form::Place | Form::Edge | Form::Fibres => "text".into(),
        Form::Choice(words) => choice(words),
        Form::Choices(words) => format!("{}, or a list of such", choice(words)),
        Form::Flag => "true or false".into(),
        Form::Whole => "a whole number".into(),
        Form::Products => "a whole number of products".into(),
        Form::Date => "a date".into(),
        Form::Quantity(dimensions) => names(dimensions),
        Form::Number => "a decimal number".into(),
        Form::Chain => "edges in a row".into(),
        Form::List(one) | Form::Set(one) => several(one),
        Form::Lines => "text, or a list of lines".into(),
        Form::Market => "a country by its code or name, or EU".into(),
        Form::Markets => "countries by their codes or names, or EU".into(),
        Form::Age => "an age in months or years".into(),
        Form::Table(_) => "a table".into(),
        Form::Either(one, _) => format!("{}, or a table", takes_of(one)),
        Form::ByEdge(one) => format!("{}, or a table of them by edge", takes_of(one)),
        Form::ByPoint(one) => format!("{}, or a table of them by point", takes_of(one)),
        Form::Tables(_) => "a list of tables".into(),
        Form::Mixed(_) => "a list of texts or tables".into(),
        Form::Open(one) if matches!(**one, Form::Table(_)) => "a table for each name of your own".into(),
        Form::Open(one) => format!("a table with names of your own, each with {}", takes_of(one)),
        Form::Copies => "a whole number, or a list of names".into(),
        Form::Extent => "a length, or the edges it is as long as".into(),
        Form::Corners => "a list of [id, x, y]".into(),
        Form::Readings(dimensions) => format!("readings ({})", names(dimensions)),
        Form::Labs => "CIELAB values, or a list of such".into(),
    }
}

fn several(one: &Form) -> String {
    match one {
        Form::Refers([_, ..]) => takes_of(one).replacen("the id of a", "a list of ids of a", 1),
        Form::Refers(_) => "a list of ids".into(),
        Form::Number => "a list of numbers".into(),
        _ => "a list of texts".into(),
    }
}

fn choice(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
    listed(&quoted)
}

fn names(dimensions: &[Dimension]) -> String {
    let names: Vec<String> = dimensions.iter().map(|one| quantity::dimension(*one).en.to_string()).collect();
    listed(&names)
}

/// `a, b or c`.
fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} or {last}", first.join(", ")),
    }
}

fn units_of(form: &Form) -> String {
    let dimensions: &[Dimension] = match form {
        Form::Quantity(dimensions) | Form::Readings(dimensions) => dimensions,
        Form::Extent => &[Dimension::Length],
        Form::Open(one) | Form::ByEdge(one) => return units_of(one),
        _ => &[],
    };
    let units: Vec<&str> = dimensions.iter().flat_map(|one| one.units()).map(Unit::symbol).collect();
    units.join(", ")
}

/// What stands before the tables on the page.
const HEAD: &str = "\
# Reference: every table and key

`backtack explain --reference` prints this page, and `backtack explain piece.allowance` one entry of it.

- `[piece.ID]` is one table for each piece; you choose the ID. Keys of inner tables are written with points:
  `cut.ID.allowance` is the key `allowance` of `[piece.NAME.cut.ID]`.
- What may differ by size or colourway is written once, or as a table by code: `{ S = \"400 mm\", L = \"550 mm\" }`.
- A list with one text may be written as that text.
- Text, dates and quantities also have a long form, with binding and audience. See [Values](values.md).
- No key is required by the grammar. The [findings](findings.md) say what a factory still needs.

";

/// The whole reference as a Markdown page.
pub fn markdown() -> String {
    let mut page = HEAD.to_string();
    let tables: Vec<Entry> = tables().collect();
    page.push_str("| table | what it is |\n|---|---|\n");
    for table in &tables {
        let _ = writeln!(page, "| [`{0}`](#{0}) | {1} |", table.path, cell(table.doc));
    }
    for table in &tables {
        let _ = write!(page, "\n## {}\n\n{}. Written {}.\n\n", table.path, table.doc, table.takes);
        page.push_str("| key | takes | may differ | what it is |\n|---|---|---|---|\n");
        rows(&table.keys, table.path.len() + 1, &mut page);
    }
    page.push_str("\n## Units\n\n| what | units |\n|---|---|\n");
    for (dimension, units) in units() {
        let _ = writeln!(page, "| {dimension} | {units} |");
    }
    page
}

/// The rows of keys and of the keys inside them; `from` is where their names begin inside the table.
fn rows(keys: &[Entry], from: usize, page: &mut String) {
    for key in keys {
        let name = key.path.get(from..).unwrap_or(&key.path);
        let differs = if key.varies { "yes" } else { "" };
        let _ = writeln!(page, "| `{name}` | {} | {differs} | {} |", cell(&key.takes), cell(key.doc));
        rows(&key.keys, from, page);
    }
}

/// Text that ends no cell and is no markup.
fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('*', "\\*").replace('<', "\\<")
}

/// Every dimension with its units, in the order of the units.
fn units() -> Vec<(&'static str, String)> {
    let mut all: Vec<(Dimension, Vec<String>)> = Vec::new();
    for unit in Unit::ALL {
        let symbol = format!("`{}`", unit.symbol());
        match all.iter_mut().find(|(dimension, _)| *dimension == unit.dimension()) {
            Some((_, symbols)) => symbols.push(symbol),
            None => all.push((unit.dimension(), vec![symbol])),
        }
    }
    all.into_iter().map(|(dimension, symbols)| (quantity::dimension(dimension).en, symbols.join(", "))).collect()
}

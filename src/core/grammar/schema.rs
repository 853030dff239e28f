//! The grammar of the files as a JSON Schema (draft 2020-12), for editors that complete and check TOML with one.
//!
//! It says what may stand where, no more: whether ids exist and numbers agree is for the rules to say. So nothing is
//! required, and what the readers accept, the schema accepts. What several keys take is under `$defs` once, and so is every key
//! that several tables have, with its description: an editor reads a short schema again at each keystroke.

use serde_json::{Map, Value, json};

use super::keys::{Form, Key, Kind, kinds, outline};
use super::limits::MOST_PRODUCTS;
use super::shared;
use crate::standards::market::Market;
use crate::units::{Dimension, Unit};

/// An id where chains name it: a hyphen stands between points.
const ID: &str = "^[A-Za-z][A-Za-z0-9_]*$";
/// An id elsewhere.
const ID_HYPHEN: &str = "^[A-Za-z][A-Za-z0-9_-]*$";
/// Codes of sizes and colourways, and `else`.
const CODE: &str = "^[A-Za-z0-9][A-Za-z0-9_-]*$";
/// A number with its unit behind it, or left to the factory.
const QUANTITY: &str = "^\\s*by factory\\s*$|[0-9０-９].*[^0-9０-９.,\\s]";

/// Months or years.
const AGE: &str = "^\\s*[0-9]+ *(months?|years?)\\s*$";

/// The whole schema.
pub fn schema() -> Value {
    let tables: Map<String, Value> = kinds().iter().map(|kind| (kind.name.to_owned(), table(kind))).collect();
    shared::keys(json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Specification of a sewn product",
        "type": "object",
        "additionalProperties": false,
        "properties": tables,
        "$defs": forms(),
    }))
}

/// The schema as it is written to a file: one line for each table and each shared part.
pub fn written() -> String {
    let Value::Object(fields) = schema() else { return String::new() };
    let fields: Vec<String> =
        fields.iter().map(|(word, one)| format!("{}:{}", json!(word), lines(word, one))).collect();
    format!("{{\n{}\n}}\n", fields.join(",\n"))
}

/// A part of the whole schema: tables and shared parts a line each.
fn lines(word: &str, one: &Value) -> String {
    match one {
        Value::Object(parts) if matches!(word, "properties" | "$defs") => {
            let parts: Vec<String> = parts.iter().map(|(name, one)| format!("{}:{one}", json!(name))).collect();
            format!("{{\n{}\n}}", parts.join(",\n"))
        }
        other => other.to_string(),
    }
}

/// What many keys take, by the names that [`shared::form`] refers to.
fn forms() -> Value {
    let quantity = json!({ "type": "string", "pattern": QUANTITY });
    json!({
        "text": { "type": "string", "minLength": 1 },
        "texts": one_or_more(text()),
        "stated-text": stated(text()),
        "stated-text-by-code": by_code(shared::form("stated-text")),
        "quantity": quantity,
        "stated-quantity": stated(shared::form("quantity")),
        "stated-quantity-by-code": by_code(shared::form("stated-quantity")),
        "extent-by-code": by_code(any([shared::form("stated-quantity"), json!({ "type": "string", "pattern": "^along .+" })])),
        "binding": { "enum": ["required", "confirm", "fill in", "information"] },
        "audience": { "enum": ["everyone", "own"] },
        "market": market(),
        "outline": object(&outline()),
    })
}

/// A kind of table: the table itself, or one for each id.
fn table(kind: &Kind) -> Value {
    let mut one = object(&kind.keys);
    if let Some(open) = &kind.open {
        set(&mut one, "additionalProperties", form(open));
    }
    if !kind.keyed {
        set(&mut one, "description", json!(kind.doc));
        return one;
    }
    let pattern = if kind.name == "size" {
        CODE
    } else if kind.hyphen {
        ID_HYPHEN
    } else {
        ID
    };
    json!({
        "description": kind.doc,
        "type": "object",
        "additionalProperties": false,
        "patternProperties": { pattern: one },
    })
}

/// A table with these keys and no others.
fn object(keys: &[Key]) -> Value {
    let properties: Map<String, Value> = keys.iter().map(|key| (key.name.to_owned(), property(key))).collect();
    json!({ "type": "object", "additionalProperties": false, "properties": properties })
}

fn property(key: &Key) -> Value {
    let mut value = match (key.name, &key.form) {
        ("outline", _) => shape(),
        (_, Form::Quantity(_)) if key.varies => shared::form("stated-quantity-by-code"),
        (_, Form::Extent) if key.varies => shared::form("extent-by-code"),
        (_, Form::Text) if key.varies => shared::form("stated-text-by-code"),
        (_, of) if key.varies => by_code(form(of)),
        (_, of) => form(of),
    };
    if let Some(one) = value.get("$ref").cloned() {
        // Not beside the description: some editors read nothing beside a reference.
        value = json!({ "allOf": [{ "$ref": one }] });
    }
    let doc = match &key.form {
        Form::Quantity(dimensions) => format!("{}. Written with its unit: {}", key.doc, units(dimensions)),
        _ => key.doc.to_owned(),
    };
    set(&mut value, "description", json!(doc));
    value
}

/// What a form takes where it stands once.
fn form(form: &Form) -> Value {
    match form {
        Form::Text | Form::Date | Form::Picture | Form::Way | Form::Place => shared::form("stated-text"),
        Form::Refers(_) | Form::Bought | Form::Former | Form::Chain | Form::Edge | Form::Fibres => text(),
        Form::Choice(words) => json!({ "enum": words }),
        Form::Choices(words) => one_or_more(json!({ "enum": words })),
        Form::Flag => json!({ "type": "boolean" }),
        Form::Whole => json!({ "type": "integer", "minimum": 1, "maximum": 100_000 }),
        Form::Products => json!({ "type": "integer", "minimum": 1, "maximum": MOST_PRODUCTS }),
        Form::Quantity(_) => shared::form("stated-quantity"),
        Form::Number => json!({ "type": ["string", "number"] }),
        Form::List(one) | Form::Set(one) => one_or_more(listed(one)),
        Form::Lines => stated(shared::form("texts")),
        Form::Market => shared::form("market"),
        Form::Markets => one_or_more(shared::form("market")),
        Form::Age => json!({ "type": "string", "pattern": AGE }),
        Form::Table(keys) => object(keys),
        Form::Either(one, keys) => any([listed(one), object(keys)]),
        Form::ByEdge(one) => by_edge(one),
        Form::ByPoint(one) => any([listed(one), open(one)]),
        Form::Tables(keys) => json!({ "type": "array", "items": object(keys) }),
        Form::Mixed(keys) => {
            let one = any([text(), object(keys)]);
            any([one.clone(), json!({ "type": "array", "items": one })])
        }
        Form::Open(inner) => open(inner),
        Form::Copies => any([
            json!({ "type": "integer", "minimum": 1, "maximum": 500 }),
            json!({ "type": "array", "minItems": 1, "items": { "type": "string", "pattern": "^[A-Za-z][A-Za-z0-9_]*( mirrored)?$" } }),
        ]),
        Form::Extent => any([shared::form("stated-quantity"), json!({ "type": "string", "pattern": "^along .+" })]),
        Form::Corners => json!({ "type": "array", "items": corner() }),
        Form::Readings(_) => readings(),
        Form::Labs => {
            let one = json!({ "type": "array", "items": { "type": ["string", "number"] }, "maxItems": 3 });
            any([one.clone(), json!({ "type": "array", "items": one })])
        }
    }
}

/// A table of the user's own names. Placed points may differ by size.
fn open(inner: &Form) -> Value {
    let value = match inner {
        Form::Text | Form::Place => shared::form("stated-text-by-code"),
        other => form(other),
    };
    json!({ "type": "object", "additionalProperties": false, "patternProperties": { ID_HYPHEN: value } })
}

/// One of several, without a long form of its own.
fn listed(one: &Form) -> Value {
    match one {
        Form::Text | Form::Place => text(),
        other => form(other),
    }
}

fn one_or_more(one: Value) -> Value {
    any([one.clone(), json!({ "type": "array", "items": one })])
}

/// The codes, which an editor offers, or a name.
fn market() -> Value {
    let codes: Vec<&str> = Market::all().map(|market| market.code).collect();
    any([json!({ "enum": codes }), json!({ "type": "string", "minLength": 3 })])
}

/// One reading a piece, empty where it was not read; or both sides.
fn readings() -> Value {
    let one = any([json!({ "const": "" }), shared::form("quantity")]);
    let list = json!({ "type": "array", "items": one });
    let sides = json!({
        "type": "object",
        "additionalProperties": false,
        "properties": { "left": list.clone(), "right": list.clone() },
    });
    any([list, sides])
}

fn text() -> Value {
    shared::form("text")
}

fn any<const N: usize>(list: [Value; N]) -> Value {
    json!({ "anyOf": list.as_slice() })
}

/// A value in short form, or in the long form with its binding and audience.
fn stated(short: Value) -> Value {
    let long = json!({
        "type": "object",
        "additionalProperties": false,
        "minProperties": 1,
        "properties": {
            "value": short.clone(),
            "binding": shared::form("binding"),
            "audience": shared::form("audience"),
            "withheld": text(),
        },
    });
    any([short, long])
}

/// A value that may be written once or by size or colourway.
fn by_code(one: Value) -> Value {
    let by = json!({
        "type": "object",
        "additionalProperties": false,
        "minProperties": 1,
        "patternProperties": { CODE: one.clone() },
    });
    any([one, by])
}

/// An outline: a table, left to the factory, withheld, or one of these by size.
fn shape() -> Value {
    let withheld = json!({ "type": "object", "additionalProperties": false, "properties": { "withheld": text() } });
    by_code(any([json!({ "const": "by factory" }), shared::form("outline"), withheld]))
}

/// A corner of a polygon: its id, then x and y.
fn corner() -> Value {
    let length = shared::form("stated-quantity-by-code");
    json!({
        "type": "array",
        "minItems": 3,
        "maxItems": 3,
        "prefixItems": [{ "type": "string", "pattern": ID }, length.clone(), length],
    })
}

/// One for all edges, by size, or `all` with single edges.
fn by_edge(one: &Form) -> Value {
    let length = match one {
        Form::Quantity(_) => shared::form("stated-quantity-by-code"),
        other => by_code(form(other)),
    };
    let edges = json!({
        "type": "object",
        "additionalProperties": false,
        "properties": { "all": length.clone() },
        "patternProperties": { "-": length.clone() },
    });
    any([length, edges])
}

fn units(dimensions: &[Dimension]) -> String {
    dimensions.iter().flat_map(|dimension| dimension.units()).map(Unit::symbol).collect::<Vec<_>>().join(", ")
}

fn set(object: &mut Value, key: &str, value: Value) {
    if let Value::Object(fields) = object {
        fields.insert(key.to_owned(), value);
    }
}

//! Parts of the schema that are written once, under `$defs`, and referred to.

use std::collections::BTreeMap;

use serde_json::{Map, Value, json};

/// Where a schema holds others by names: those of keys, and those of patterns.
const PROPERTIES: &str = "properties";
/// Before the name of a key that several tables have.
const KEY: &str = "key-";

/// A reference to what many keys take.
pub(super) fn form(name: &str) -> Value {
    json!({ "$ref": format!("#/$defs/{name}") })
}

/// The schema with each key that it holds more than once, with the same description and form, under `$defs`.
pub(super) fn keys(schema: Value) -> Value {
    let mut counts = BTreeMap::new();
    count(&schema, &mut counts);
    let mut moved = Moved { counts, names: BTreeMap::new(), defs: Map::new() };
    let mut schema = moved.rewritten(schema);
    if let Some(Value::Object(defs)) = schema.get_mut("$defs") {
        defs.append(&mut moved.defs);
    }
    schema
}

/// How often each key is there with the same schema.
type Counts = BTreeMap<(String, String), usize>;

/// What is inside of a key that was there before is shared with it, and not counted again.
fn count(schema: &Value, counts: &mut Counts) {
    match schema {
        Value::Object(fields) => {
            for (word, inner) in fields {
                match inner {
                    Value::Object(keys) if word == PROPERTIES => keys.iter().for_each(|(key, one)| {
                        let times = counts.entry((key.clone(), one.to_string())).or_default();
                        *times += 1;
                        if *times == 1 {
                            count(one, counts);
                        }
                    }),
                    inner => count(inner, counts),
                }
            }
        }
        Value::Array(list) => list.iter().for_each(|one| count(one, counts)),
        _ => {}
    }
}

/// Takes keys out of their tables.
struct Moved {
    counts: Counts,
    /// Under which name each is kept.
    names: BTreeMap<(String, String), String>,
    defs: Map<String, Value>,
}

impl Moved {
    fn rewritten(&mut self, schema: Value) -> Value {
        match schema {
            Value::Object(fields) => {
                let each = fields.into_iter().map(|(word, inner)| match inner {
                    Value::Object(keys) if word == PROPERTIES => {
                        let keys = keys.into_iter().map(|(key, one)| (key.clone(), self.key(key, one)));
                        (word, Value::Object(keys.collect()))
                    }
                    inner => (word, self.rewritten(inner)),
                });
                Value::Object(each.collect())
            }
            Value::Array(list) => Value::Array(list.into_iter().map(|one| self.rewritten(one)).collect()),
            other => other,
        }
    }

    /// A key in its table: a reference if others have the same.
    fn key(&mut self, key: String, one: Value) -> Value {
        let what = (key, one.to_string());
        let shared = one.get("description").is_some() && self.counts.get(&what).is_some_and(|count| *count > 1);
        if !shared {
            return self.rewritten(one);
        }
        if let Some(name) = self.names.get(&what) {
            return form(name);
        }
        let alike = self.names.keys().filter(|(key, _)| *key == what.0).count();
        let name = if alike == 0 { format!("{KEY}{}", what.0) } else { format!("{KEY}{}-{}", what.0, alike + 1) };
        self.names.insert(what, name.clone());
        let one = self.rewritten(one);
        self.defs.insert(name.clone(), one);
        form(&name)
    }
}

//! The editor schema against the files that the readers accept. The validator below knows the few words the schema
//! uses; the schema itself is held against the standard by an independent validator where the project is tested.

use std::path::{Path, PathBuf};

use backtack_core::grammar::keys;
use backtack_core::grammar::schema::schema;
use backtack_core::read;
use serde_json::Value;

/// Every word of the schema that [`faults`] understands; a new one must be taught to it.
const WORDS: &[&str] = &[
    "$schema",
    "title",
    "description",
    "type",
    "properties",
    "patternProperties",
    "additionalProperties",
    "minProperties",
    "anyOf",
    "enum",
    "const",
    "items",
    "prefixItems",
    "minItems",
    "maxItems",
    "minimum",
    "maximum",
    "minLength",
    "pattern",
];

/// What in `value` the schema does not allow, by path.
fn faults(schema: &Value, value: &Value, path: &str, out: &mut Vec<String>) {
    if let Some(list) = schema["anyOf"].as_array() {
        let tries: Vec<Vec<String>> = list
            .iter()
            .map(|one| {
                let mut inner = Vec::new();
                faults(one, value, path, &mut inner);
                inner
            })
            .collect();
        if tries.iter().all(|inner| !inner.is_empty()) {
            out.extend(tries.into_iter().min_by_key(Vec::len).unwrap_or_default());
        }
    }
    let kinds: Vec<&str> = match &schema["type"] {
        Value::String(one) => vec![one],
        Value::Array(list) => list.iter().filter_map(Value::as_str).collect(),
        _ => vec![],
    };
    if !kinds.is_empty() && !kinds.iter().any(|kind| is(kind, value)) {
        out.push(format!("{path} is not {kinds:?}: {value}"));
        return;
    }
    if schema["enum"].as_array().is_some_and(|words| !words.contains(value)) {
        out.push(format!("{path} is none of the words: {value}"));
    }
    if schema.get("const").is_some_and(|word| word != value) {
        out.push(format!("{path} is not the word: {value}"));
    }
    if let Value::Object(fields) = value {
        for (key, inner) in fields {
            member(schema, key, inner, &format!("{path}.{key}"), out);
        }
    }
    if let Value::Array(list) = value {
        for (number, inner) in list.iter().enumerate() {
            let item = if schema["prefixItems"][number].is_object() {
                &schema["prefixItems"][number]
            } else {
                &schema["items"]
            };
            faults(item, inner, &format!("{path}[{number}]"), out);
        }
    }
}

fn member(schema: &Value, key: &str, value: &Value, path: &str, out: &mut Vec<String>) {
    if let Some(known) = schema["properties"].get(key) {
        faults(known, value, path, out);
        return;
    }
    let pattern = schema["patternProperties"].as_object().and_then(|all| all.iter().find(|(of, _)| fits(of, key)));
    match (pattern, &schema["additionalProperties"]) {
        (Some((_, inner)), _) => faults(inner, value, path, out),
        (None, Value::Bool(false)) => out.push(format!("{path} is no known key")),
        (None, other) => faults(other, value, path, out),
    }
}

/// The patterns of keys that the schema uses, by hand.
fn fits(pattern: &str, key: &str) -> bool {
    let all = |hyphen: bool| key.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'_' || (hyphen && b == b'-'));
    match pattern {
        "-" => key.contains('-'),
        "^[A-Za-z][A-Za-z0-9_]*$" => key.starts_with(|c: char| c.is_ascii_alphabetic()) && all(false),
        "^[A-Za-z][A-Za-z0-9_-]*$" => key.starts_with(|c: char| c.is_ascii_alphabetic()) && all(true),
        "^[A-Za-z0-9][A-Za-z0-9_-]*$" => key.starts_with(|c: char| c.is_ascii_alphanumeric()) && all(true),
        _ => panic!("the test does not know the pattern {pattern}"),
    }
}

fn is(kind: &str, value: &Value) -> bool {
    match kind {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "integer" => value.is_i64(),
        "number" => value.is_number(),
        _ => panic!("the test does not know the type {kind}"),
    }
}

fn check(text: &str) -> Vec<String> {
    let table: toml::Table = text.parse().unwrap();
    let mut out = Vec::new();
    faults(&schema(), &json(toml::Value::Table(table)), "", &mut out);
    out
}

/// Dates become texts, as editors hand them over.
fn json(value: toml::Value) -> Value {
    match value {
        toml::Value::Datetime(date) => Value::String(date.to_string()),
        toml::Value::Table(table) => Value::Object(table.into_iter().map(|(key, one)| (key, json(one))).collect()),
        toml::Value::Array(list) => Value::Array(list.into_iter().map(json).collect()),
        other => serde_json::to_value(other).unwrap(),
    }
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.is_dir() {
            files(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "toml") {
            found.push(path);
        }
    }
}

#[test]
fn the_schema_allows_every_example_and_the_starting_folder() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut found = Vec::new();
    files(&root.join("spec-examples"), &mut found);
    files(&root.join("src/cli/new"), &mut found);
    assert!(found.len() >= 5, "{found:?}");
    for path in found {
        let text = std::fs::read_to_string(&path).unwrap().replace("{name}", "\"A name\"");
        assert_eq!(check(&text), Vec::<String>::new(), "{}", path.display());
    }
}

#[test]
fn the_schema_allows_what_the_readers_accept() {
    for text in [
        "[style]\nname = { value = \"Puffin\", binding = \"confirm\", audience = \"own\" }",
        "[style]\nsizes = \"one\"\n[size.36]\nname = \"36\"",
        "[piece.A]\noutline = \"by factory\"\ncopies = [\"l\", \"r mirrored\"]",
        "[piece.A]\noutline = { S = \"by factory\", L = { shape = \"circle\", diameter = \"9 cm\" } }",
        "[piece.A]\noutline = { shape = \"circle\", diameter = { S = \"9 cm\", else = \"by factory\" } }\nallowance = { all = \"5 mm\", \"n-e\" = \"7 mm\" }",
        "[seam.s]\nbetween = [\"A:n-e\", { trim = \"cord\", ratio = 1.1, laps = \"2 cm\" }]",
        "[seam.s]\nbetween = [{ edge = [\"A:n-e\", \"B:n-e\"], on = \"C:p-q\" }, { trim = \"tag\", on = \"C:q-r\" }]",
        "[severity]\nunused-item = \"off\"",
        "[sample.r]\nreadings = { H = [\"\", \"9 mm\"], D = { left = [\"9 mm\"], right = [] } }\ncolours = { c = [[], [\"1\", \"2\", \"3\"]] }",
        "[approval.a]\nsubmissions = [{ lab = [\"1\", \"2\", \"3\"], verdict = \"approved\" }]\nsealed = { sets = \"buyer\" }",
        "[colourway.c]\nshell = \"plush/grey\"\nname = \"C\"",
    ] {
        assert_eq!(check(text), Vec::<String>::new(), "{text}");
    }
}

#[test]
fn the_schema_refuses_what_the_readers_refuse() {
    for (text, word) in [
        ("[stile]\nid = \"A\"", ".stile"),
        ("[style]\nids = \"A\"", ".style.ids"),
        ("[piece.A]\nmass = \"5 g\"", ".piece.A.mass"),
        ("[piece.A-B]\nname = \"x\"", ".piece.A-B"),
        ("[fabric.c]\nmass = 320", "mass"),
        ("[revision]\nstage = \"prototyp\"", ".revision.stage"),
        ("[seam.s]\nmirrored = \"yes\"", ".seam.s.mirrored"),
        ("[severity]\nunused-item = \"loud\"", ".severity.unused-item"),
        ("[style]\nname = { worth = \"x\" }", ".style.name"),
    ] {
        let found = check(text);
        assert!(found.iter().any(|fault| fault.contains(word)), "{text}: {found:?}");
        let loaded = read::texts(&[("style.toml", text)]);
        assert!(!loaded.findings.is_empty(), "the readers accept {text}");
    }
}

#[test]
fn every_table_and_key_of_the_grammar_is_in_the_schema() {
    let schema = schema();
    for kind in keys::kinds() {
        let table = &schema["properties"][kind.name];
        assert_eq!(table["description"], kind.doc);
        let one =
            if kind.keyed { table["patternProperties"].as_object().unwrap().values().next().unwrap() } else { table };
        for key in &kind.keys {
            let doc = one["properties"][key.name]["description"].as_str().unwrap_or("");
            assert!(doc.starts_with(key.doc), "{}.{}", kind.name, key.name);
        }
        assert_eq!(one["properties"].as_object().unwrap().len(), kind.keys.len());
    }
}

#[test]
fn the_test_knows_every_word_of_the_schema() {
    fn words(value: &Value, names: bool, out: &mut Vec<String>) {
        match value {
            Value::Object(fields) => {
                for (key, inner) in fields {
                    if !names {
                        out.push(key.clone());
                    }
                    words(inner, !names && matches!(key.as_str(), "properties" | "patternProperties"), out);
                }
            }
            Value::Array(list) => list.iter().for_each(|inner| words(inner, false, out)),
            _ => {}
        }
    }
    let mut found = Vec::new();
    words(&schema(), false, &mut found);
    for word in found {
        assert!(WORDS.contains(&word.as_str()), "{word}");
    }
}

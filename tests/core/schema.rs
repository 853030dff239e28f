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
    "$defs",
    "$ref",
    "description",
    "type",
    "properties",
    "patternProperties",
    "additionalProperties",
    "minProperties",
    "anyOf",
    "allOf",
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

/// What a reference of the whole schema leads to; anything else is itself.
fn found<'a>(whole: &'a Value, schema: &'a Value) -> &'a Value {
    let Some(to) = schema["$ref"].as_str() else { return schema };
    assert_eq!(schema.as_object().unwrap().len(), 1, "some editors read nothing beside a reference: {schema}");
    let name = to.strip_prefix("#/$defs/").unwrap();
    let one = &whole["$defs"][name];
    assert!(one.is_object(), "{to} leads nowhere");
    found(whole, one)
}

/// What in `value` the schema does not allow, by path.
fn faults(whole: &Value, schema: &Value, value: &Value, path: &str, out: &mut Vec<String>) {
    let schema = found(whole, schema);
    for one in schema["allOf"].as_array().into_iter().flatten() {
        faults(whole, one, value, path, out);
    }
    if let Some(list) = schema["anyOf"].as_array() {
        let tries: Vec<Vec<String>> = list
            .iter()
            .map(|one| {
                let mut inner = Vec::new();
                faults(whole, one, value, path, &mut inner);
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
    out.extend(measured(schema, value).map(|word| format!("{path} is against {word}: {value}")));
    if let Value::Object(fields) = value {
        for (key, inner) in fields {
            member((whole, schema), key, inner, &format!("{path}.{key}"), out);
        }
    }
    if let Value::Array(list) = value {
        for (number, inner) in list.iter().enumerate() {
            let item = if schema["prefixItems"][number].is_object() {
                &schema["prefixItems"][number]
            } else {
                &schema["items"]
            };
            faults(whole, item, inner, &format!("{path}[{number}]"), out);
        }
    }
}

fn member((whole, schema): (&Value, &Value), key: &str, value: &Value, path: &str, out: &mut Vec<String>) {
    if let Some(known) = schema["properties"].get(key) {
        faults(whole, known, value, path, out);
        return;
    }
    let pattern = schema["patternProperties"].as_object().and_then(|all| all.iter().find(|(of, _)| fits(of, key)));
    match (pattern, &schema["additionalProperties"]) {
        (Some((_, inner)), _) => faults(whole, inner, value, path, out),
        (None, Value::Bool(false)) => out.push(format!("{path} is no known key")),
        (None, other) => faults(whole, other, value, path, out),
    }
}

/// The word about size or spelling that a value is against.
fn measured(schema: &Value, value: &Value) -> Option<&'static str> {
    let limit = |word: &str| schema[word].as_u64();
    let size = |least: &'static str, most: &'static str, size: u64| {
        let small = limit(least).is_some_and(|limit| size < limit);
        let large = limit(most).is_some_and(|limit| size > limit);
        small.then_some(least).or(large.then_some(most))
    };
    match value {
        Value::String(text) => {
            let spelt = schema["pattern"].as_str().is_none_or(|pattern| spelt(pattern, text));
            size("minLength", "maxLength", text.chars().count() as u64).or((!spelt).then_some("pattern"))
        }
        Value::Array(list) => size("minItems", "maxItems", list.len() as u64),
        Value::Object(fields) => size("minProperties", "maxProperties", fields.len() as u64),
        Value::Number(number) => match number.as_u64() {
            Some(number) => size("minimum", "maximum", number),
            None => limit("minimum").map(|_| "minimum"),
        },
        _ => None,
    }
}

/// The patterns of values that the schema uses, by hand.
fn spelt(pattern: &str, text: &str) -> bool {
    let digit = |c: char| c.is_ascii_digit() || ('０'..='９').contains(&c);
    match pattern {
        "^\\s*by factory\\s*$|[0-9０-９].*[^0-9０-９.,\\s]" => {
            let from = text.find(digit).map(|at| &text[at..]);
            let unit = |c: char| !digit(c) && !matches!(c, '.' | ',') && !c.is_whitespace();
            text.trim() == "by factory" || from.is_some_and(|text| text.contains(unit))
        }
        "^\\s*[0-9]+ *(months?|years?)\\s*$" => {
            let number = text.trim().trim_end_matches(|c: char| c.is_ascii_alphabetic());
            let word = &text.trim()[number.len()..];
            let number = number.trim_end();
            let digits = !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit());
            digits && ["month", "months", "year", "years"].contains(&word)
        }
        "^along .+" => text.len() > 6 && text.starts_with("along "),
        "^[A-Za-z][A-Za-z0-9_]*( mirrored)?$" => {
            fits("^[A-Za-z][A-Za-z0-9_]*$", text.strip_suffix(" mirrored").unwrap_or(text))
        }
        other => fits(other, text),
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
    let whole = schema();
    faults(&whole, &whole, &json(toml::Value::Table(table)), "", &mut out);
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

/// Files of one slip each, a line each with `; ` between their lines; an independent validator must refuse them too.
const REFUSED: &str = include_str!("refused.txt");

#[test]
fn the_schema_refuses_what_the_readers_refuse() {
    let mut seen = 0;
    for line in REFUSED.lines() {
        let text = line.replace("; ", "\n");
        assert_ne!(check(&text), Vec::<String>::new(), "the schema allows {text}");
        let loaded = read::texts(&[("style.toml", &text)]);
        assert!(loaded.findings.iter().any(|one| one.rule.family == "files"), "the readers accept {text}");
        seen += 1;
    }
    assert!(seen > 30, "{seen}");
}

/// The slip is found where it is.
#[test]
fn the_schema_says_where() {
    for (text, word) in [
        ("[stile]\nid = \"A\"", ".stile"),
        ("[piece.A]\nmass = \"5 g\"", ".piece.A.mass"),
        ("[fabric.c]\nmass = 320", "mass"),
        ("[revision]\nstage = \"prototyp\"", ".revision.stage"),
        ("[severity]\nunused-item = \"loud\"", ".severity.unused-item"),
    ] {
        let found = check(text);
        assert!(found.iter().any(|fault| fault.contains(word)), "{text}: {found:?}");
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
            let doc = found(&schema, &one["properties"][key.name])["description"].as_str().unwrap_or("");
            assert!(doc.starts_with(key.doc), "{}.{}", kind.name, key.name);
        }
        assert_eq!(one["properties"].as_object().unwrap().len(), kind.keys.len());
    }
}

/// An editor reads all of it again and again.
const MOST_BYTES: usize = 100_000;

#[test]
fn the_schema_is_small() {
    let text = backtack_core::grammar::schema::written();
    assert!(text.len() <= MOST_BYTES, "{} bytes", text.len());
    assert_eq!(serde_json::from_str::<Value>(&text).unwrap(), schema());
    let repository = include_str!("../../docs/backtack-schema.json");
    assert!(repository == text, "write it again: cargo run -q -- schema > docs/backtack-schema.json");
}

/// Nothing is kept under `$defs` that nobody refers to, and a key that is there is shared.
#[test]
fn every_shared_part_is_used() {
    let whole = schema();
    let text = whole.to_string();
    for name in whole["$defs"].as_object().unwrap().keys() {
        let least = if name.starts_with("key-") { 2 } else { 1 };
        assert!(text.matches(&format!("\"#/$defs/{name}\"")).count() >= least, "{name}");
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
                    words(inner, !names && matches!(key.as_str(), "properties" | "patternProperties" | "$defs"), out);
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

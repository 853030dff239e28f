//! Whatever is entered is printed: every key of the grammar has a marked value in a style that enters them all, and the
//! value is on a sheet of the package or of the order's document, or the key is on the list of those that need no paper.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};

use backtack_core::cutting::figures::{Effort, PRODUCT, SIZES, Search, search};
use backtack_core::grammar::keys::{Form, Key, kind, kinds};
use backtack_core::pipeline::{self, Earlier, Edition};
use backtack_core::read::Loaded;
use backtack_core::words::{Languages, printed};
use serde_json::Value;

/// What the files are called in the style, and beside this file.
const FILES: [(&str, &str); 4] = [
    ("style.toml", "style.toml"),
    ("sewing.toml", "sewing.toml"),
    ("samples/said.toml", "said.toml"),
    ("orders/spring.toml", "order.toml"),
];
/// What a line of the list begins with where the sheets do not print the key yet.
const NOT_YET: &str = "not yet";

fn file(name: &str) -> Vec<u8> {
    std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/core/printed").join(name)).unwrap()
}

fn text(name: &str) -> String {
    String::from_utf8(file(name)).unwrap()
}

/// Keys that need no paper, each with its reason.
fn listed() -> BTreeMap<String, String> {
    let list = text("paper.txt");
    let lines: Vec<&str> = list.lines().filter(|line| !line.is_empty() && !line.starts_with('#')).collect();
    let all: BTreeMap<String, String> = lines
        .iter()
        .map(|line| line.split_once(": ").unwrap())
        .map(|(key, why)| (key.to_owned(), why.to_owned()))
        .collect();
    assert_eq!(all.len(), lines.len(), "a key is listed twice");
    all
}

/// A key with the texts that a sheet prints of its value.
struct Marked {
    path: String,
    shown: Vec<String>,
    /// Whether the line tells them.
    told: bool,
    line: String,
}

/// Lines of the files that enter a key: those that tell what is printed of it, else the first.
fn marked() -> Vec<Marked> {
    let mut all: Vec<Marked> = Vec::new();
    for (_, name) in FILES {
        let mut table: Vec<String> = Vec::new();
        for line in text(name).lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
            if line.starts_with('[') {
                table = line.trim_matches(['[', ']']).split('.').map(str::to_owned).collect();
                continue;
            }
            let (written, shown) =
                line.split_once("#:").map_or((line, None), |(written, shown)| (written, Some(shown)));
            let (key, value) = written.split_once(" = ").unwrap();
            let names: Vec<&str> = table.iter().map(String::as_str).chain(key.split('.')).collect();
            let shown = shown.map_or_else(
                || vec![plain(value.trim().trim_matches('"'))],
                |shown| shown.split(" | ").map(|one| plain(one.trim())).collect(),
            );
            let told = line.contains("#:");
            for path in paths(&names) {
                all.push(Marked { path, shown: shown.clone(), told, line: written.trim().to_owned() });
            }
        }
    }
    let told: BTreeSet<String> = all.iter().filter(|one| one.told).map(|one| one.path.clone()).collect();
    let mut seen = BTreeSet::new();
    all.retain(|one| one.told || !told.contains(&one.path) && seen.insert(one.path.clone()));
    all
}

/// Spaces and signs of units as a file has them.
fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ").replace('²', "2").replace('µ', "u")
}

/// What a table and its keys are called in the grammar, without the names that are the user's own. A value that is a table of
/// two keys on one line stands for both.
fn paths(names: &[&str]) -> Vec<String> {
    let of = kind(names[0]).unwrap_or_else(|| panic!("no table {names:?}"));
    let rest = if of.keyed { &names[2..] } else { &names[1..] };
    match of.keys.iter().any(|key| key.name == rest[0]) {
        true => below(of.name, &of.keys, rest),
        false => vec![format!("{}.NAME", of.name)],
    }
}

fn below(above: &str, keys: &[Key], names: &[&str]) -> Vec<String> {
    let key = keys.iter().find(|key| key.name == names[0]).unwrap_or_else(|| panic!("no key {above} {names:?}"));
    let path = format!("{above}.{}", key.name);
    let (form, rest) = match &key.form {
        Form::Open(inner) => (inner.as_ref(), names.get(2..).unwrap_or_default()),
        form => (form, &names[1..]),
    };
    match inner(form) {
        Some(keys) if !rest.is_empty() => below(&path, keys, rest),
        Some(keys) if matches!(key.name, "ease" | "gather" | "stretch") => {
            let amount = if key.name == "ease" { "up_to" } else { "ratio" };
            keys.iter()
                .map(|key| key.name)
                .filter(|name| ["side", amount].contains(name))
                .map(|name| format!("{path}.{name}"))
                .collect()
        }
        _ => vec![path],
    }
}

fn inner(form: &Form) -> Option<&[Key]> {
    match form {
        Form::Table(keys) | Form::Either(_, keys) | Form::Tables(keys) | Form::Mixed(keys) => Some(keys),
        _ => None,
    }
}

/// Every key of the grammar; what takes a table is known by the keys of it.
fn grammar() -> BTreeSet<String> {
    fn add(above: &str, keys: &[Key], all: &mut BTreeSet<String>) {
        for key in keys {
            let path = format!("{above}.{}", key.name);
            let form = match &key.form {
                Form::Open(inner) => inner.as_ref(),
                form => form,
            };
            match inner(form) {
                Some(keys) => add(&path, keys, all),
                None => {
                    all.insert(path);
                }
            }
        }
    }
    let mut all = BTreeSet::new();
    for kind in kinds() {
        add(kind.name, &kind.keys, &mut all);
        all.extend(kind.open.as_ref().map(|_| format!("{}.NAME", kind.name)));
    }
    all
}

/// The marked style with lays kept for it: without a lay no sheet says how fabric is laid.
fn loaded() -> Loaded {
    let read: Vec<(&str, Vec<u8>)> = FILES
        .into_iter()
        .chain([("side.png", "side.png"), ("drawn.svg", "drawn.svg"), ("library/extra.toml", "extra.toml")])
        .map(|(path, name)| (path, file(name)))
        .collect();
    let mut files: Vec<(&str, &[u8])> = read.iter().map(|(path, bytes)| (*path, bytes.as_slice())).collect();
    let first = crate::closure("", files.iter().copied());
    let checked = crate::checked(&first);
    let mut lock = first.model.lock.clone();
    for of in [PRODUCT, SIZES] {
        for task in checked.lays.kept_as(of) {
            // The first lay that is found will do.
            let asked = AtomicBool::new(false);
            let stop = || asked.swap(true, Ordering::Relaxed);
            let how =
                Search { effort: Effort::Quick, again: false, longer: false, stop: &stop, observe: &|_, _, _| {} };
            search(&[task], of, &mut lock, &how);
        }
    }
    let text = lock.text();
    files.push(("backtack.lock", text.as_bytes()));
    crate::closure("", files)
}

/// Every text of a document but what is only read aloud, a line each.
fn texts(edition: &Edition<'_>) -> String {
    const UNSEEN: [&str; 3] = ["alt", "labels", "about"];
    fn add(value: &Value, all: &mut String) {
        match value {
            Value::String(text) => *all += &format!("{}\n", plain(text).replace('\n', " ")),
            Value::Array(list) => list.iter().for_each(|one| add(one, all)),
            Value::Object(map) => {
                // The lines of a drawing are a picture.
                let seen = |key: &str, one: &Value| !UNSEEN.contains(&key) && (key != "lines" || !one.is_string());
                map.iter().filter(|(key, one)| seen(key, one)).for_each(|(_, one)| add(one, all));
            }
            _ => {}
        }
    }
    let mut all = String::new();
    let data = serde_json::to_value(crate::document(edition)).unwrap();
    add(&printed(data, Languages::default()), &mut all);
    all
}

/// Whether a text is there as words and numbers of its own: `4.1` is not in `14.1` or `4.15`.
fn holds(paper: &str, text: &str) -> bool {
    let part = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
    paper.match_indices(text).any(|(at, _)| {
        let mut before = paper[..at].chars().rev();
        let mut after = paper[at + text.len()..].chars();
        let (last, next) = (before.next(), after.next());
        let runs_on = next == Some('.') && after.next().is_some_and(|c| c.is_ascii_digit());
        !part(last) && last != Some('.') && !part(next) && !runs_on
    })
}

/// What is missing on paper of the texts of a key.
fn missing<'m>(marked: &'m Marked, package: &str, order: &str) -> Vec<&'m str> {
    let on_paper = |text: &&String| match marked.path.starts_with("order.") {
        true => holds(order, text),
        false => holds(package, text) || holds(order, text),
    };
    marked.shown.iter().filter(|text| !on_paper(text)).map(String::as_str).collect()
}

#[test]
fn every_key_is_printed_or_needs_no_paper() {
    let (all, list, grammar) = (marked(), listed(), grammar());
    let reason = |path: &str| list.get(path).or_else(|| list.get(&format!("*.{}", path.rsplit('.').next()?)));
    let entered: BTreeSet<&String> = all.iter().map(|one| &one.path).collect();
    let bare: Vec<_> = grammar.iter().filter(|path| !entered.contains(path)).collect();
    assert!(bare.is_empty(), "give each a marked value: {bare:#?}");
    let unknown: Vec<_> = list.keys().filter(|path| !path.starts_with("*.") && !grammar.contains(*path)).collect();
    assert!(unknown.is_empty(), "no keys: {unknown:?}");
    let loaded = loaded();
    let checked = crate::checked(&loaded);
    let package = texts(&pipeline::edition(&loaded, &checked, &Earlier::default()).unwrap());
    let order = texts(&pipeline::order(&loaded, &checked, "spring").unwrap());
    let mut wrong = Vec::new();
    for one in all.iter().filter(|one| grammar.contains(&one.path)) {
        let missing = missing(one, &package, &order);
        match reason(&one.path) {
            None if !missing.is_empty() => {
                wrong.push(format!("not printed: {}, {missing:?} of {}", one.path, one.line))
            }
            Some(why) if missing.is_empty() && !why.starts_with(NOT_YET) => {
                wrong.push(format!("printed, so not to be listed: {}", one.path));
            }
            _ => {}
        }
    }
    assert!(wrong.is_empty(), "{}\n{package}\n-- order --\n{order}", wrong.join("\n"));
}

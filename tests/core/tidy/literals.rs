//! Rows hold no English, and what rows and findings are made of holds no sentence: what is printed is declared as words, so
//! that every language has it.

use std::collections::BTreeSet;

use super::{code, sources};

/// Where rows lie: in a folder or file of that name, of all or of a subject.
const ROWS: &str = "src/core/";

/// Folders and files that make what rows and findings say: shapes, quantities, figures, their reasons, what differs.
const MAKERS: &[&str] = &[
    "compute/",
    "cutting/figures/",
    "geom/",
    "model/assembly/",
    "orders/figures/",
    "orders/plan/",
    "revision/compare/",
    "samples/figures/",
    "units/",
];

/// Files among them that are for the terminal or say what a field or a rule is, in English alone. What rules print is held
/// by another test.
const ENGLISH_ONLY: &[&str] =
    &["compute/fields.rs", "compute/fields/", "compute/rules/", "revision/compare/print.rs", "units/date.rs"];

/// What they hold with a space in it that is no sentence: words a file may choose, names of lays, parts of keys.
const SPACED: &[(&str, &[&str])] = &[
    ("compute/edges.rs", &["fold back"]),
    ("compute/stitches.rs", &["hook and loop"]),
    ("cutting/figures/how.rs", &["any way", "one way", "two ways"]),
    ("cutting/figures/search.rs", &[", in rows"]),
    ("cutting/figures/task.rs", &[" and "]),
    ("orders/figures/lays.rs", &["order {order}"]),
    ("revision/compare/followed.rs", &["stuffing {}"]),
    ("revision/compare/items.rs", &["outline {} {}"]),
    ("samples/figures/sample.rs", &["change in colour"]),
    ("units/fold.rs", &["per mille"]),
    ("units/tolerance.rs", &["±max({first}, {second})"]),
    ("units/unit.rs", &["unit factors have denominators above zero"]),
];

/// Symbols of units, the same in every language.
const UNITS: &[&str] = &["kg", "mm", "pc"];

/// Literals that no page prints: tables, keys and ids of the specification, names of virtual files, letters of seams.
const KEYS: &[(&str, &[&str])] = &[
    ("article.rs", &["all", "article", "lead-time", "minimum-order", "note", "price", "supplier", "type", "use"]),
    ("bill.rs", &["article", "colour", "embroider", "fabric", "filling", "supplier", "thread", "trim"]),
    ("changes.rs", &["name", "revision"]),
    ("cover.rs", &["front"]),
    (
        "construction.rs",
        &["attach", "diameter", "edge-finish", "opening", "part", "place", "seam", "step", "stuffing", "topstitch"],
    ),
    ("fabric.rs", &["price"]),
    ("filling.rs", &["fibre-type", "fineness", "particle", "recycled", "staple", "stuffing"]),
    ("letters.rs", &["ABCDEFGHJKLMNPQRSTUVWXYZ"]),
    ("marker.rs", &["cuttable-width", "piece"]),
    ("measurements.rs", &["point-of-measure"]),
    ("picture.rs", &["comments/{}", "pictures/{:03}.{}"]),
    ("pieces.rs", &["piece"]),
    ("purchases.rs", &["article", "cuttable-width", "lead-time", "minimum-order", "supplier", "width"]),
    ("samples.rs", &["difference", "fabric.", "finished", "shell"]),
    ("step.rs", &["pile"]),
    ("threads.rs", &["article"]),
    ("view.rs", &["colour", "part", "piece", "point-of-measure", "role", "sample", "seam", "stuffing"]),
    ("views.rs", &["back", "bottom", "front", "left", "right", "side", "top", "underside"]),
    ("walk.rs", &["left", "right"]),
];

/// The literals of code that say something, each with its line: outside of declared words, attributes and comments.
fn literals(text: &str) -> Vec<String> {
    let code = without_words(&code(text));
    let mut all = Vec::new();
    let mut rest = code.as_str();
    while let Some(at) = rest.find(['"', '\'', '#', '/']) {
        let (sign, behind) = rest[at..].split_at(1);
        rest = match sign {
            "\"" => {
                let end = closing(behind);
                all.push(behind[..end].to_string());
                &behind[(end + 1).min(behind.len())..]
            }
            // A quoted character, which may be a quote; a lifetime has no second one so near.
            "'" => {
                let end = behind.char_indices().skip(1).take(2).find(|(_, c)| *c == '\'');
                end.map_or(behind, |(end, _)| &behind[end + 1..])
            }
            "#" if behind.starts_with('[') => behind.split_once("]\n").map_or("", |(_, rest)| rest),
            "/" if behind.starts_with('/') => behind.split_once('\n').map_or("", |(_, rest)| rest),
            _ => behind,
        };
    }
    all.retain(|literal| says_something(literal));
    all
}

/// Where a string ends that has begun.
fn closing(text: &str) -> usize {
    let mut escaped = false;
    let end = text.char_indices().find(|(_, c)| {
        let end = *c == '"' && !escaped;
        escaped = *c == '\\' && !escaped;
        end
    });
    end.map_or(text.len(), |(end, _)| end)
}

/// The code without its blocks of declared words.
fn without_words(code: &str) -> String {
    let mut parts = code.split("words! {");
    let first = parts.next().unwrap_or_default().to_string();
    parts.fold(first, |out, part| out + part.split_once("\n}").map_or("", |(_, rest)| rest))
}

/// Whether two letters stand side by side, outside of the names of arguments and of escapes.
fn says_something(literal: &str) -> bool {
    let mut plain = String::new();
    let mut depth = 0;
    let mut chars = literal.chars();
    while let Some(c) = chars.next() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            '\\' => drop(chars.next()),
            _ if depth == 0 => plain.push(c),
            _ => {}
        }
    }
    let letters: Vec<bool> = plain.chars().map(char::is_alphabetic).collect();
    letters.windows(2).any(|pair| pair == [true, true])
}

#[test]
fn the_reader_of_literals_reads_them() {
    let text = "//! \"Module\"\nwords! {\n    A \"key\" = \"Word\";\n}\n#[cfg(feature = \"no\")]\nfn f() {\n    // \"Comment\"\n    \
                let a = [\"cut line\", \"{name}: {}\", \"\\u{a0}m\\\"et\"]; // \"Behind\"\n    b.trim('\"'); say(\"mm\")\n}\n\
                #[cfg(test)]\nmod tests { const A: &str = \"Test\"; }\n";
    assert_eq!(literals(text), ["cut line", "\\u{a0}m\\\"et", "mm"]);
}

#[test]
fn rows_hold_no_english() {
    let (mut wrong, mut seen) = (Vec::new(), Vec::new());
    for (path, text) in sources() {
        let inside = path.strip_prefix(ROWS).filter(|inside| inside.contains("rows/") || *inside == "parties/rows.rs");
        let Some(name) = inside.map(|inside| inside.rsplit_once("rows/").map_or(inside, |(_, name)| name)) else {
            continue;
        };
        let keys = KEYS.iter().find(|(file, _)| *file == name).map_or(&[] as &[&str], |(_, keys)| keys);
        let found = literals(&text);
        let other = found.iter().filter(|one| !keys.contains(&one.as_str()) && !UNITS.contains(&one.as_str()));
        wrong.extend(other.map(|one| format!("{name}: \"{one}\"")));
        seen.extend(found.into_iter().map(|one| (name.to_owned(), one)));
    }
    // Files of one name share their exceptions.
    let needed = |name: &str, key: &str| seen.iter().any(|(file, one)| file == name && one == key);
    let all = KEYS.iter().flat_map(|(name, keys)| keys.iter().map(move |key| (*name, *key)));
    let idle: Vec<String> =
        all.filter(|(name, key)| !needed(name, key)).map(|(name, key)| format!("{name}: {key}")).collect();
    assert!(wrong.is_empty(), "words that no other language can have; declare them with words!:\n{}", wrong.join("\n"));
    assert!(idle.is_empty(), "exceptions that are no longer needed:\n{}", idle.join("\n"));
}

/// The literals of a file that read like a sentence: letters, and a space between what is printed.
fn sentences(text: &str) -> Vec<String> {
    literals(text).into_iter().filter(|one| one.contains(' ')).collect()
}

#[test]
fn a_sentence_is_told_from_a_key() {
    let text = "fn f() {\n    key(\"lead-time\"); Err(format!(\"{id} has no cut\")); why(\"it is open\"); format!(\"{a} {b}\")\n}\n";
    assert_eq!(sentences(text), ["{id} has no cut", "it is open"]);
}

#[test]
fn what_rows_and_findings_are_made_of_holds_no_sentence() {
    let (mut wrong, mut idle) = (Vec::new(), Vec::new());
    let mut read = BTreeSet::new();
    for (path, text) in sources() {
        let Some(name) = path.strip_prefix(ROWS) else { continue };
        let Some(maker) = MAKERS.iter().find(|maker| name.starts_with(**maker)) else { continue };
        if ENGLISH_ONLY.iter().any(|one| name.starts_with(one)) {
            continue;
        }
        read.insert(*maker);
        let known = SPACED.iter().find(|(file, _)| *file == name).map_or(&[] as &[&str], |(_, known)| known);
        let found = sentences(&text);
        let other = found.iter().filter(|one| !known.contains(&one.as_str()));
        wrong.extend(other.map(|one| format!("{name}: \"{one}\"")));
        idle.extend(
            known.iter().filter(|key| !found.iter().any(|one| one == *key)).map(|key| format!("{name}: {key}")),
        );
    }
    assert_eq!(read.len(), MAKERS.len(), "folders that are no longer there: {read:?}");
    assert!(
        wrong.is_empty(),
        "sentences that no other language can have; declare them with words!:\n{}",
        wrong.join("\n")
    );
    assert!(idle.is_empty(), "exceptions that are no longer needed:\n{}", idle.join("\n"));
}

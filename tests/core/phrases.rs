//! Every fixed text of the program is a word with a key: the keys are unique, the texts of other languages belong to
//! them, and no finding is written past them.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use backtack_core::model::kind;
use backtack_core::standards::stitch::{Class, STITCHES};
use backtack_core::standards::{Basis, safety};
use backtack_core::words::{LANGUAGES, names};

/// Folders whose findings are made of words.
const FINDINGS: &[&str] = &["check", "compute/rules", "cutting", "orders", "parties", "read", "revision", "samples"];

/// Calls and their argument that is shown to the user.
const SHOWN: &[(&str, usize)] = &[
    ("Finding::new", 1),
    (".at", 1),
    (".help", 0),
    ("Help::with", 0),
    ("rules::bad_value", 0),
    ("rules::bad_value", 2),
    (".refuse", 1),
];

/// Calls that hand on what they are given.
const THROUGH: &[&str] = &["format!", "Some", "Ok", "Err", "Phrase::from", "String::from", ".join", ""];

/// Variables that hold what is shown.
const HELD: &[&str] = &["message", "help", "label"];

fn sources(folder: &str) -> Vec<(String, String)> {
    let top = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut folders = vec![top.join("src").join(folder)];
    let mut all = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                all.push((path.display().to_string(), std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    all.sort();
    all
}

/// Key and text of each line of the blocks of `words!` in a file.
fn declared(text: &str) -> Vec<(String, String)> {
    let mut all = Vec::new();
    let mut inside = false;
    for line in text.lines().map(str::trim).filter(|line| !line.contains('$')) {
        let opens = ["words! {", "crate::words! {", "words! { list:", "crate::words! { list:"].contains(&line);
        inside = (inside || opens) && line != "}";
        if !inside || opens || line.is_empty() || line.starts_with("//") {
            continue;
        }
        let parts: Option<(&str, &str)> = line.split_once(" \"").and_then(|(_, rest)| rest.split_once("\" = \""));
        let (key, rest) = parts.unwrap_or_else(|| panic!("one word a line: {line}"));
        let text = rest.strip_suffix("\";").unwrap_or_else(|| panic!("one word a line: {line}"));
        all.push((key.to_string(), text.to_string()));
    }
    all
}

/// Every word of the program by its key.
fn words() -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    let kinds = kind::KINDS.iter().flat_map(|kind| [kind.one, kind.many]);
    let kinds = kinds.map(|word| (word.key.to_string(), word.en.to_string())).collect::<Vec<_>>();
    let bases = [Basis::Seen, Basis::Memory, Basis::Derived, Basis::CommonPractice];
    let bases = bases.map(|basis| (basis.key().to_string(), basis.words().to_string()));
    let texts = safety::CAUTIONS.iter().flat_map(|one| one.keys.into_iter().zip([one.title, one.text]));
    let cautions = texts.chain([(safety::DEFERRAL_KEY, safety::DEFERRAL)]);
    let cautions = cautions.map(|(key, text)| (key.to_string(), text.to_string())).collect::<Vec<_>>();
    let classes = [Class::SingleChain, Class::Hand, Class::Lock, Class::MultiChain, Class::Overedge, Class::Cover];
    let classes = classes.map(|class| (class.key().to_string(), class.name().to_string()));
    let stitches = STITCHES.iter().map(|one| (one.key.to_string(), one.name.to_string())).chain(classes);
    let stitches = stitches.collect::<Vec<_>>();
    let found = sources("").into_iter().flat_map(|(_, text)| declared(&text));
    for (key, text) in found.chain(kinds).chain(bases).chain(cautions).chain(stitches) {
        assert_eq!(all.insert(key.clone(), text), None, "{key} is the key of two words");
    }
    all
}

#[test]
fn every_key_is_the_key_of_one_word() {
    let words = words();
    assert!(words.len() > 900, "{}", words.len());
    for key in words.keys() {
        let shape = |part: &str| {
            let known = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
            part.starts_with(|c: char| c.is_ascii_lowercase()) && !part.ends_with('-') && part.chars().all(known)
        };
        assert!(key.split('.').all(shape), "{key}");
    }
}

#[test]
fn what_another_language_says_belongs_to_a_word() {
    let words = words();
    for (key, text) in LANGUAGES.iter().flat_map(|language| language.texts()) {
        let english = words.get(key).unwrap_or_else(|| panic!("{key} is the key of no word"));
        assert_eq!(names(text), names(english), "the arguments of {key}");
    }
}

/// A bracket that is open: what is called, how many arguments lie behind, and where it stands.
struct Open {
    call: String,
    argument: usize,
    at: usize,
}

/// What is called before a bracket: `.at`, `Finding::new`, `format!`.
fn call(before: &str) -> String {
    let word = |c: char| c.is_alphanumeric() || matches!(c, '_' | ':' | '!');
    let before = before.strip_suffix("::<()>").unwrap_or(before);
    let name = before.rsplit(|c| !word(c)).next().unwrap_or_default();
    let method = before.strip_suffix(name).is_some_and(|rest| rest.ends_with('.'));
    if method { format!(".{name}") } else { name.to_string() }
}

/// Literals that are shown to the user and are no words.
fn written(source: &str) -> Vec<String> {
    let text = source.split("#[cfg(test)]").next().unwrap_or_default();
    let mut open: Vec<Open> = Vec::new();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(c) = text[at..].chars().next() {
        let rest = &text[at..];
        let length = match c {
            '/' if rest.starts_with("//") => rest.find('\n').unwrap_or(rest.len()),
            '\'' => quoted_char(rest),
            '"' => {
                let length = quoted(rest);
                let pattern = rest[length..].trim_start().starts_with("=>");
                if !pattern && has_letters(&rest[..length]) && is_shown(text, at, &open) {
                    found.push(rest[..length].to_string());
                }
                length
            }
            '(' | '[' | '{' => {
                let call = if c == '(' { call(&text[..at]) } else { String::new() };
                open.push(Open { call, argument: 0, at });
                1
            }
            ')' | ']' | '}' => {
                open.pop();
                1
            }
            ',' => {
                open.last_mut().into_iter().for_each(|open| open.argument += 1);
                1
            }
            other => other.len_utf8(),
        };
        at += length;
    }
    found
}

/// The length of a literal with its quotes.
fn quoted(text: &str) -> usize {
    let mut escaped = false;
    let end = text.char_indices().skip(1).find(|(_, c)| {
        let ends = *c == '"' && !escaped;
        escaped = *c == '\\' && !escaped;
        ends
    });
    end.map_or(text.len(), |(at, _)| at + 1)
}

/// The length of a character between quotes, or of the mark of a lifetime.
fn quoted_char(text: &str) -> usize {
    let mut chars = text.char_indices().skip(1);
    match (chars.next(), chars.next()) {
        (Some((_, '\\')), Some((at, c))) => {
            text[at + c.len_utf8()..].find('\'').map_or(1, |end| at + c.len_utf8() + end + 1)
        }
        (Some(_), Some((at, '\''))) => at + 1,
        _ => 1,
    }
}

/// Two letters in a row outside of braces, where arguments stand, and apart from escapes.
fn has_letters(literal: &str) -> bool {
    let mut depth = 0;
    let bare: String = literal
        .replace("\\n", " ")
        .chars()
        .filter(|c| {
            depth += i32::from(*c == '{') - i32::from(*c == '}');
            depth == 0
        })
        .collect();
    bare.as_bytes().windows(2).any(|pair| pair.iter().all(u8::is_ascii_alphabetic))
}

/// Whether what stands at a place reaches the user: as an argument of such a call, or by way of a variable.
fn is_shown(text: &str, place: usize, open: &[Open]) -> bool {
    let held = |at: usize| {
        let statement = text[..at].rsplit([';', '{', '}']).next().unwrap_or_default().trim_start();
        let name = statement.strip_prefix("let ").and_then(|rest| rest.split_once(" = ")).map(|(name, _)| name);
        name.is_some_and(|name| HELD.contains(&name))
    };
    let mut at = place;
    for frame in open.iter().rev() {
        if SHOWN.contains(&(frame.call.as_str(), frame.argument)) || held(at) {
            return true;
        }
        if !THROUGH.contains(&frame.call.as_str()) {
            return false;
        }
        at = frame.at.saturating_sub(frame.call.len());
    }
    held(at)
}

#[test]
fn findings_are_made_of_words() {
    let mut wrong = Vec::new();
    for (path, text) in FINDINGS.iter().flat_map(|folder| sources(&format!("core/{folder}"))) {
        wrong.extend(written(&text).into_iter().map(|literal| format!("{path}: {literal}")));
    }
    assert!(wrong.is_empty(), "declare these as words:\n{}", wrong.join("\n"));
}

#[test]
fn what_is_written_past_the_words_is_found() {
    let told: BTreeSet<String> = written(
        r#"fn f() {
            let message = format!("one {id}");
            let help = match x { "silent" => "two".to_string(), _ => format!("three {}", list.join(" and ")) };
            let key = "silent";
            Finding::new(&RULE, message).at(span, if y { "four" } else { "" }).help(Help::with("five", Edit::line(at, "silent = 1")));
            self.refuse::<()>("silent", "six", node);
            // .help("silent")
            finding.at(model.piece("silent").span, 'x').help(format!("{id}: {}", '"')).at(s, say!(WORD, key = "silent"))
        }"#,
    )
    .into_iter()
    .collect();
    let wanted = ["\"one {id}\"", "\"two\"", "\"three {}\"", "\" and \"", "\"four\"", "\"five\"", "\"six\""];
    assert_eq!(told, wanted.into_iter().map(str::to_string).collect());
}

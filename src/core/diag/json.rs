//! Prints findings for other programs.
//!
//! ```text
//! { "format": 1,
//!   "counts": { "must": 1, "should": 0, "note": 0, "files": 5 },
//!   "findings": [
//!     { "folder": "cushion",                 the folder as it was named on the command line
//!       "code": "bare-number",               the rule; never renamed
//!       "severity": "must",                  must, should or note, after the user's overrides
//!       "message": "...",                    one sentence
//!       "places": [                          the one to change first; empty if the finding is about the whole folder
//!         { "file": "cushion/style.toml",
//!           "line": 3, "column": 9,          from 1; columns count characters (Unicode code points)
//!           "end_line": 3, "end_column": 12, one past the last character
//!           "start_byte": 41, "end_byte": 44,  from 0, in the UTF-8 text; the end is one past the last byte
//!           "label": "..." } ],              may be empty
//!       "help": ["..."],                     what to write instead
//!       "edits": [                           only where a help is a change of the text
//!         { "help": 0,                       which one, from 0
//!           "file": "cushion/style.toml",
//!           "line": 3, "column": 9, "end_line": 3, "end_column": 12,  as those of a place; an insertion ends where it begins
//!           "start_byte": 41, "end_byte": 44,
//!           "replacement": "...",            what stands there afterwards
//!           "safe": false } ],               whether what is meant is certain: `check --fix` makes these
//!       "conceded": "..." } ] }                only where somebody concedes it: who, why and for what; it is in no count
//! ```
//! A later version that only adds keys keeps the number; one that changes or drops a key raises it.

use serde::Serialize;

use super::place::Lines;
use super::plain::unseen;
use super::{Finding, Folder, Severity};
use crate::source::Help;

/// The version of the format that [`print()`] writes.
pub const FORMAT: u32 = 1;

#[derive(Serialize)]
struct Document<'a> {
    format: u32,
    counts: Counts,
    findings: Vec<Entry<'a>>,
}

#[derive(Serialize)]
struct Counts {
    must: usize,
    should: usize,
    note: usize,
    files: usize,
}

#[derive(Serialize)]
struct Entry<'a> {
    folder: &'a str,
    code: &'a str,
    severity: Severity,
    message: String,
    places: Vec<Spot>,
    help: Vec<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    edits: Vec<Change<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    conceded: Option<String>,
}

#[derive(Serialize)]
struct Spot {
    file: String,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    start_byte: usize,
    end_byte: usize,
    label: String,
}

#[derive(Serialize)]
struct Change<'a> {
    help: usize,
    file: String,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    start_byte: usize,
    end_byte: usize,
    replacement: &'a str,
    safe: bool,
}

/// All findings as one JSON document, in pure printable text.
///
/// # Errors
/// Passes on what the serialiser reports; none is known for these types.
pub fn print(folders: &[Folder<'_>]) -> Result<String, serde_json::Error> {
    let count = |severity| folders.iter().map(|folder| folder.findings.count(severity)).sum();
    let document = Document {
        format: FORMAT,
        counts: Counts {
            must: count(Severity::Must),
            should: count(Severity::Should),
            note: count(Severity::Note),
            files: folders.iter().map(|folder| folder.sources.iter().count()).sum(),
        },
        findings: folders.iter().flat_map(entries).collect(),
    };
    Ok(escape(&serde_json::to_string_pretty(&document)?))
}

fn entries<'a>(folder: &Folder<'a>) -> Vec<Entry<'a>> {
    let lines = Lines::new(*folder);
    folder.findings.iter().map(|finding| entry(finding, folder.name, &lines)).collect()
}

fn entry<'a>(finding: &'a Finding, folder: &'a str, lines: &Lines<'_>) -> Entry<'a> {
    let places = lines.places(&finding.places).into_iter().map(|(place, label)| Spot {
        file: lines.path(place.file),
        line: place.line,
        column: place.column,
        end_line: place.end_line,
        end_column: place.end_column,
        start_byte: place.start,
        end_byte: place.end,
        label: label.text.english(),
    });
    Entry {
        folder,
        code: finding.rule.code,
        severity: finding.severity,
        message: finding.message.english(),
        places: places.collect(),
        help: finding.help.iter().map(|help| help.text.english()).collect(),
        edits: finding.help.iter().enumerate().filter_map(|(at, help)| change(at, help, lines)).collect(),
        conceded: finding.concession.as_ref().map(|conceded| conceded.text.english()),
    }
}

fn change<'a>(at: usize, help: &'a Help, lines: &Lines<'_>) -> Option<Change<'a>> {
    let edit = help.edit.as_ref()?;
    let place = lines.place(edit.span)?;
    Some(Change {
        help: at,
        file: lines.path(place.file),
        line: place.line,
        column: place.column,
        end_line: place.end_line,
        end_column: place.end_column,
        start_byte: place.start,
        end_byte: place.end,
        replacement: &edit.text,
        safe: edit.safe,
    })
}

/// Escapes what the serialiser leaves as it is but a terminal may act on. These characters only occur inside strings,
/// where an escape means the same.
pub(crate) fn escape(json: &str) -> String {
    let mut out = String::with_capacity(json.len() + 1);
    for c in json.chars() {
        if matches!(c, '\u{7f}'..='\u{9f}') || unseen(c) {
            for unit in c.encode_utf16(&mut [0; 2]) {
                out.push_str(&format!("\\u{unit:04x}"));
            }
        } else {
            out.push(c);
        }
    }
    out.push('\n');
    out
}

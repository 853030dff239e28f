//! Prints findings as SARIF 2.1.0, the open exchange format for such results (OASIS Standard, 27 March 2020), which
//! editors and code hosts show beside the text. The clauses named below are of that standard.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::json::escape;
use super::place::{Lines, Place};
use super::{Finding, Folder, Rule, Severity};
use crate::words::Phrase;

/// All findings as one log with one run. Columns count code points, as in the other printers; the log says so, since without
/// `columnKind` (3.14.17) a reader would take them for code units of UTF-16.
///
/// # Errors
/// Passes on what the serialiser reports; none is known for this value.
pub fn print(folders: &[Folder<'_>]) -> Result<String, serde_json::Error> {
    let rules = rules(folders);
    let results: Vec<Value> = folders.iter().flat_map(|folder| results(folder, &rules)).collect();
    let log = json!({
        "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
        "version": "2.1.0",
        "runs": [{
            "tool": { "driver": {
                "name": "backtack",
                "semanticVersion": env!("CARGO_PKG_VERSION"),
                "rules": rules.values().copied().map(descriptor).collect::<Vec<_>>(),
            } },
            "columnKind": "unicodeCodePoints",
            "results": results,
        }],
    });
    Ok(escape(&serde_json::to_string_pretty(&log)?))
}

/// The rules that found something, by code; a result names its rule by the index in this order (3.27.6).
fn rules<'a>(folders: &[Folder<'a>]) -> BTreeMap<&'static str, &'static Rule> {
    let findings = folders.iter().flat_map(|folder| folder.findings.iter());
    findings.map(|finding| (finding.rule.code, finding.rule)).collect()
}

/// The standard's three levels (3.27.10) in the order of ours.
fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Must => "error",
        Severity::Should => "warning",
        Severity::Note => "note",
    }
}

/// A reporting descriptor (3.49).
fn descriptor(rule: &Rule) -> Value {
    json!({
        "id": rule.code,
        "shortDescription": { "text": rule.summary },
        "fullDescription": { "text": rule.explanation },
        "help": { "text": format!("{}\nSource: {}", rule.explanation, rule.source) },
        "defaultConfiguration": { "level": level(rule.severity) },
        "properties": { "tags": [rule.family] },
    })
}

fn results(folder: &Folder<'_>, rules: &BTreeMap<&'static str, &'static Rule>) -> Vec<Value> {
    let lines = Lines::new(*folder);
    folder.findings.iter().map(|finding| result(finding, folder, &lines, rules)).collect()
}

/// A result (3.27). The first place is its location, since one change there puts it right; the others are related
/// locations. Help lines follow the message, whose first sentence stands alone where space is short (3.11.3).
fn result(
    finding: &Finding,
    folder: &Folder<'_>,
    lines: &Lines<'_>,
    rules: &BTreeMap<&'static str, &'static Rule>,
) -> Value {
    let mut places =
        lines.places(&finding.places).into_iter().map(|(place, label)| location(place, &label.text.english(), lines));
    let first = places.next().unwrap_or_else(|| whole(folder));
    let helps = finding.help.iter().map(|help| &help.text);
    let text = std::iter::once(&finding.message).chain(helps).map(Phrase::english).collect::<Vec<_>>().join("\n");
    let mut result = json!({
        "ruleId": finding.rule.code,
        "ruleIndex": rules.keys().position(|code| *code == finding.rule.code),
        "level": level(finding.severity),
        "message": { "text": text },
        "locations": [first],
    });
    let related: Vec<Value> = places.collect();
    if !related.is_empty() {
        result["relatedLocations"] = Value::Array(related);
    }
    if let Some(conceded) = &finding.concession {
        // A suppression by those who use the program (3.35.2).
        result["suppressions"] = json!([{ "kind": "external", "justification": conceded.text.english() }]);
    }
    result
}

fn location(place: Place<'_>, label: &str, lines: &Lines<'_>) -> Value {
    let mut location = json!({ "physicalLocation": {
        "artifactLocation": { "uri": uri(&lines.path(place.file)) },
        "region": {
            "startLine": place.line,
            "startColumn": place.column,
            "endLine": place.end_line,
            "endColumn": place.end_column,
        },
    } });
    if !label.is_empty() {
        location["message"] = json!({ "text": label });
    }
    location
}

/// Where a finding about a whole folder lies.
fn whole(folder: &Folder<'_>) -> Value {
    let uri = uri(&format!("{}/", folder.name.trim_end_matches('/')));
    json!({ "physicalLocation": { "artifactLocation": { "uri": uri } } })
}

/// A path as a relative reference (RFC 3986): everything but unreserved characters and `/` percent-encoded as UTF-8.
fn uri(path: &str) -> String {
    let mut out = String::with_capacity(path.len());
    for byte in path.replace('\\', "/").bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => out.push(char::from(byte)),
            _ => out.push_str(&format!("%{byte:02X}")),
        }
    }
    out
}

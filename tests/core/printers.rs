//! The three printers of findings. Hostile text is checked against the Unicode character classes it must not contain;
//! the SARIF document against the clauses of the OASIS standard named beside each check.

use backtack_core::diag::{Finding, Findings, Folder, Rule, Severity, json, plain, plain_lines, sarif, text};
use backtack_core::source::{Edit, FileId, Help, Sources, Span};
use serde_json::Value;

static CROSSED: Rule = Rule {
    code: "limits-cross",
    family: "measure",
    severity: Severity::Must,
    summary: "The limits of a measurement leave nothing between them",
    explanation: "Limits are rounded inward to the step that can be read.",
    failing: "",
    passing: "",
    source: "common practice",
};

static PILE: Rule = Rule { code: "pile-without-direction", family: "material", severity: Severity::Should, ..CROSSED };

const STYLE: &str = "[style]\r\nid = \"BN-01\"\r\nname = \"海鹦\tpuffin\"\r\npile = \"9 mm\"\r\n";
const POINTS: &str = "[point-of-measure.H1]\nvalue = \"60.5 mm ±0.4 mm\"\n";

struct Case {
    sources: Sources,
    findings: Findings,
}

impl Case {
    fn new() -> Self {
        let mut sources = Sources::default();
        sources.add("measurements.toml", POINTS);
        sources.add("style.toml", STYLE);
        Case { sources, findings: Findings::default() }
    }

    fn at(&self, word: &str) -> Span {
        let found = self.sources.iter().find_map(|(id, file)| file.text.find(word).map(|at| (id, at)));
        let (file, start) = found.expect("the word stands in one of the files");
        Span { file, start, end: start + word.len() }
    }

    fn push(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    fn folder(&self) -> Folder<'_> {
        Folder { name: "puffin", root: "puffin", findings: &self.findings, sources: &self.sources }
    }

    fn text(&self, color: bool) -> String {
        text::print(&[self.folder()], text::Style { color, width: 100 })
    }

    fn json(&self) -> Value {
        serde_json::from_str(&json::print(&[self.folder()]).unwrap()).unwrap()
    }

    fn sarif(&self) -> Value {
        serde_json::from_str(&sarif::print(&[self.folder()]).unwrap()).unwrap()
    }
}

/// One finding with two places in one file and one in another, one without a place, one on a line with a tab.
fn usual() -> Case {
    let mut case = Case::new();
    let (value, id) = (case.at("60.5 mm ±0.4 mm"), case.at("BN-01"));
    case.push(
        Finding::new(&CROSSED, "head width leaves nothing between 61 mm and 60 mm")
            .at(value, "read to 1 mm")
            .at(id, "the style that sets the step")
            .at(case.at("9 mm"), "")
            .help("widen the tolerance:\n  value = \"60.5 mm ±1 mm\""),
    );
    case.push(Finding::new(&PILE, "no fabric says which way its pile lies").help("pile-direction = \"down\""));
    case.push(Finding::new(&PILE, "“海鹦” has no pile").at(case.at("puffin"), "after a tab and wide characters"));
    case
}

#[test]
fn text_shows_every_place() {
    insta::assert_snapshot!("text", usual().text(false));
}

#[test]
fn colour_changes_nothing_but_the_codes() {
    let case = usual();
    let coloured = case.text(true);
    assert!(coloured.contains("\u{1b}[1m\u{1b}[35mmust[limits-cross]"), "{coloured:?}");
    let mut bare = String::new();
    let mut rest = coloured.as_str();
    while let Some((before, after)) = rest.split_once("\u{1b}[") {
        bare.push_str(before);
        rest = after.split_once('m').unwrap().1;
    }
    bare.push_str(rest);
    assert_eq!(bare, case.text(false));
}

#[test]
fn crlf_is_one_line_end_and_never_shown() {
    let out = usual().text(false);
    assert!(out.contains("puffin/measurements.toml:2:10"), "{out}");
    assert!(!out.contains('\r') && !out.contains('␍'), "{out}");
}

#[test]
fn tally_counts_and_agrees_in_number() {
    let case = usual();
    assert_eq!(text::tally(&[case.folder()]), "1 must, 2 should, 0 notes in 2 files");
    assert_eq!(text::tally(&[case.folder(), case.folder()]), "2 must, 4 should, 0 notes in 4 files of 2 folders");
    let mut sources = Sources::default();
    sources.add("style.toml", "");
    let mut findings = Findings::default();
    findings.push(Finding { severity: Severity::Note, ..Finding::new(&PILE, "x") });
    let one = Folder { name: "a", root: "", findings: &findings, sources: &sources };
    assert_eq!(text::tally(&[one]), "0 must, 0 should, 1 note in 1 file");
}

/// Control characters (category Cc) but line ends, bidi formatting characters of UAX 9 and zero-width characters.
fn dangerous(c: char) -> bool {
    (c.is_control() && c != '\n')
        || ('\u{202a}'..='\u{202e}').contains(&c)
        || ('\u{2066}'..='\u{2069}').contains(&c)
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{61c}' | '\u{feff}' | '\u{2028}' | '\u{2029}')
}

fn hostile() -> Case {
    let all: String =
        ('\0'..='\u{9f}').filter(|c| c.is_control()).chain("\u{202e}\u{2066}\u{200f}\u{feff}".chars()).collect();
    let mut sources = Sources::default();
    let file = sources.add(format!("a{all}.toml"), format!("x = \"{all}\"\ny = \"\u{9b}2J\" # \u{1b}]0;title\u{7}"));
    let mut findings = Findings::default();
    let place = Span { file, start: 5, end: 5 + all.len() };
    findings.push(
        Finding::new(&CROSSED, format!("bad {all}")).at(place, format!("here {all}")).help(format!("write {all}")),
    );
    findings.push(Finding::new(&CROSSED, all));
    Case { sources, findings }
}

#[test]
fn nothing_hostile_reaches_the_terminal() {
    let case = hostile();
    let folder = Folder { name: "f\u{1b}[31m", root: "r\u{1b}[31m", ..case.folder() };
    let out = text::print(&[folder], text::Style { color: false, width: 80 });
    assert_eq!(out.chars().find(|c| dangerous(*c)), None, "{out:?}");
    for document in [json::print(&[folder]).unwrap(), sarif::print(&[folder]).unwrap()] {
        assert_eq!(document.chars().find(|c| dangerous(*c)), None, "{document:?}");
    }
    assert!(out.contains("f␛[31m"), "{out}");
}

#[test]
fn json_keeps_hostile_text_exactly() {
    let case = hostile();
    let json = case.json();
    let all = &case.findings.iter().nth(1).unwrap().message;
    assert_eq!(json["findings"][0]["message"], format!("bad {all}"));
    assert_eq!(json["findings"][0]["places"][0]["label"], format!("here {all}"));
}

#[test]
fn plain_replaces_and_keeps() {
    assert_eq!(plain("a\u{1b}[31m\r\n\tb\u{9b}\u{202e}c\u{7f}"), "a␛[31m␍␊␉b��c␡");
    assert_eq!(plain("海鹦 ±5 – ›"), "海鹦 ±5 – ›");
    assert_eq!(plain_lines("a\r\n\tb\u{1b}"), "a\n    b␛");
}

#[test]
fn long_lines_are_trimmed_and_keep_their_column() {
    let mut sources = Sources::default();
    let text = format!("x = \"{}\" # {}\n", "海".repeat(300_000), "z".repeat(3_000_000));
    let start = 5 + 3 * 200_000;
    let file = sources.add("a.toml", text);
    let mut findings = Findings::default();
    findings.push(Finding::new(&CROSSED, "m").at(Span { file, start, end: start + 6 }, "here"));
    findings.push(Finding::new(&CROSSED, "whole").at(Span { file, start: 0, end: start + 6 }, "here"));
    let folder = Folder { name: "f", root: ".", findings: &findings, sources: &sources };
    let out = text::print(&[folder], text::Style { color: false, width: 60 });
    assert!(out.contains("a.toml:1:200006"), "{out}");
    assert!(out.contains(" ━━━━ here"), "two wide characters are four columns: {out}");
    assert!(out.lines().all(|line| line.chars().count() <= 130), "{out}");
}

#[test]
fn places_outside_the_text_are_brought_inside() {
    let mut case = Case::new();
    let far = Span { file: FileId(0), start: 9_999, end: 10_000 };
    let unknown = Span { file: FileId(7), start: 0, end: 1 };
    let inside = case.at("±");
    let split = Span { file: inside.file, start: inside.start + 1, end: inside.start + 1 };
    let turned = Span { file: inside.file, start: inside.end, end: inside.start };
    case.push(
        Finding::new(&CROSSED, "end of file")
            .at(far, "end")
            .at(unknown, "nowhere")
            .at(split, "half")
            .at(turned, "back"),
    );
    let out = case.text(false);
    assert!(out.contains("━ end") && out.contains("half") && out.contains("back"), "{out}");
    let places = case.json()["findings"][0]["places"].as_array().unwrap().clone();
    assert_eq!(places.len(), 3, "the unknown file has no place");
    assert_eq!((&places[1]["start_byte"], &places[1]["end_byte"]), (&inside.start.into(), &inside.end.into()));
}

#[test]
fn a_place_over_several_lines_is_bracketed() {
    let mut case = Case::new();
    let (from, to) = (case.at("style]"), case.at("pile ="));
    case.push(Finding::new(&CROSSED, "table").at(Span { end: to.end, ..from }, "all of this"));
    insta::assert_snapshot!("lines", case.text(false));
}

#[test]
fn json_counts_characters_and_bytes() {
    let json = usual().json();
    assert_eq!(json["format"], 1);
    assert_eq!(json["counts"], serde_json::json!({ "must": 1, "should": 2, "note": 0, "files": 2 }));
    // name = "海鹦<tab>puffin": 8 + 2 + 1 characters before, 8 + 6 + 1 bytes after the 9 + 14 of the first two lines.
    let place = &json["findings"][2]["places"][0];
    assert_eq!((&place["line"], &place["column"], &place["end_column"]), (&3.into(), &12.into(), &18.into()));
    assert_eq!((&place["start_byte"], &place["end_byte"]), (&38.into(), &44.into()));
    insta::assert_snapshot!("json", json::print(&[usual().folder()]).unwrap());
}

#[test]
fn sarif_follows_the_standard() {
    let log = usual().sarif();
    assert_eq!(log["version"], "2.1.0", "3.13.2");
    let run = &log["runs"][0];
    assert_eq!(run["columnKind"], "unicodeCodePoints", "3.14.17");
    let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
    for result in run["results"].as_array().unwrap() {
        let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        assert_eq!(rules[index]["id"], result["ruleId"], "3.27.6: the index finds the rule");
        assert!(["error", "warning", "note"].contains(&result["level"].as_str().unwrap()), "3.27.10");
        assert_eq!(result["locations"].as_array().unwrap().len(), 1, "3.27.12: one place to change");
        let uri = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"].as_str().unwrap();
        assert!(uri.chars().all(|c| c.is_ascii_graphic()), "RFC 3986: {uri}");
    }
    assert_eq!(run["results"][0]["relatedLocations"].as_array().unwrap().len(), 2);
    insta::assert_snapshot!("sarif", sarif::print(&[usual().folder()]).unwrap());
}

#[test]
fn sarif_encodes_paths() {
    let mut sources = Sources::default();
    let file = sources.add("海 100%.toml", "x");
    let mut findings = Findings::default();
    findings.push(Finding::new(&CROSSED, "m").at(Span { file, start: 0, end: 1 }, ""));
    let folder = Folder { name: "f", root: "a\\b", findings: &findings, sources: &sources };
    let log: Value = serde_json::from_str(&sarif::print(&[folder]).unwrap()).unwrap();
    let uri = &log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"];
    // 海 is U+6D77, in UTF-8 E6 B5 B7 (Unicode Standard, table 3-6).
    assert_eq!(uri, "a/b/%E6%B5%B7%20100%25.toml");
}

/// A help that is a change of the text is printed with its place, in characters and bytes; other helps are words alone.
#[test]
fn json_prints_the_edits() {
    let mut case = Case::new();
    let help = Help::with("write \"8 mm\"", Edit::replace(case.at("\"9 mm\""), "\"8 mm\"").safe());
    case.push(Finding::new(&PILE, "which way?").at(case.at("pile"), "").help("say it").help(help));
    case.push(Finding::new(&PILE, "no edit").help("say it"));
    let json = case.json();
    let start = STYLE.find("\"9 mm\"").unwrap();
    let wanted = serde_json::json!([{
        "help": 1, "file": "puffin/style.toml",
        "line": 4, "column": 8, "end_line": 4, "end_column": 14,
        "start_byte": start, "end_byte": start + 6,
        "replacement": "\"8 mm\"", "safe": true,
    }]);
    assert_eq!(json["findings"][0]["edits"], wanted);
    assert_eq!(json["findings"][0]["help"], serde_json::json!(["say it", "write \"8 mm\""]));
    assert!(json["findings"][1].get("edits").is_none());
}

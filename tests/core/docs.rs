//! The pages for users: links lead somewhere, printed files are read without a finding, named rules are there.

use std::collections::BTreeMap;
use std::path::Path;

use backtack_core::diag::{Rule, manual};
use backtack_core::{read, rules};

use crate::readme::blocks;

/// Written by the program, with examples that are meant to fail.
const FINDINGS: &str = "docs/findings.md";

/// Every page: path from the top, and text.
fn pages() -> BTreeMap<String, String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let guides = std::fs::read_dir(root.join("docs")).unwrap().map(|entry| entry.unwrap().file_name());
    let guides = guides.map(|name| format!("docs/{}", name.to_string_lossy())).filter(|name| name.ends_with(".md"));
    let top = ["README.md", "DEVELOPERS.md", "CHANGELOG.md"].map(str::to_string);
    top.into_iter()
        .chain(guides)
        .map(|name| {
            let text = std::fs::read_to_string(root.join(&name)).unwrap();
            (name, text)
        })
        .collect()
}

/// A page without its fenced blocks.
fn prose(page: &str) -> String {
    page.split("\n```").step_by(2).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_page_of_findings_is_what_the_rules_say() {
    let told = "write it again: cargo run -q -- explain --findings > docs/findings.md";
    let page = &pages()[FINDINGS];
    assert!(*page == manual::markdown(&rules::all()), "docs/findings.md is not what the rules say; {told}");
}

/// The anchors of the headings of a page, as forges make them.
fn anchors(page: &str) -> Vec<String> {
    let heads = prose(page);
    let heads = heads.lines().filter(|line| line.starts_with('#')).map(|line| line.trim_start_matches('#').trim());
    let kept = |c: &char| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_');
    heads.map(|head| head.to_lowercase().chars().filter(kept).collect::<String>().replace(' ', "-")).collect()
}

#[test]
fn every_link_leads_somewhere() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let pages = pages();
    let mut seen = 0;
    for (name, text) in pages.iter().filter(|(name, _)| *name != FINDINGS) {
        let prose = prose(text);
        for link in prose.split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
            let (file, anchor) = link.split_once('#').unwrap_or((link, ""));
            let folder = root.join(name).parent().unwrap().to_path_buf();
            let target = if file.is_empty() { root.join(name) } else { folder.join(file) };
            assert!(target.exists(), "{name} links to {link}");
            if !anchor.is_empty() {
                let there = anchors(&std::fs::read_to_string(&target).unwrap());
                assert!(there.iter().any(|one| one == anchor), "{name} links to {link}, but there is no such heading");
            }
            seen += 1;
        }
    }
    assert!(seen > 40, "{seen}");
    for guide in pages.keys().filter(|name| name.starts_with("docs/")) {
        assert!(pages["README.md"].contains(&format!("({guide})")), "README.md does not link to {guide}");
    }
}

/// Where a block would be written: orders and samples have folders of their own.
fn home(block: &str) -> &'static str {
    match block {
        block if block.contains("[order.") => "orders/one.toml",
        block if block.contains("[sample.") || block.contains("[concession.") => "samples/one.toml",
        _ => "one.toml",
    }
}

/// What blocks speak of, unless they say it themselves.
const AROUND: [(&str, &str); 2] =
    [("[style]", "[style]\nsizes = [\"S\", \"L\"]\n"), ("[stitch.", "[stitch.plain]\ntype = \"301\"\n")];

/// Each block alone: that its tables, keys and values are those of the grammar, not that it is a whole specification.
#[test]
fn every_printed_file_is_read_without_a_finding() {
    let mut seen = 0;
    for (name, text) in pages().iter().filter(|(name, _)| *name != FINDINGS) {
        for block in blocks(text, "toml") {
            let rest: Vec<&str> =
                AROUND.iter().filter(|(head, _)| !block.contains(head)).map(|(_, text)| *text).collect();
            let loaded = read::texts(&[(home(&block), &block), ("around.toml", &rest.join("\n"))]);
            // What else a block names need not be there: pieces, drawings, libraries.
            let grammar = |rule: &Rule| rule.family == "files" && !matches!(rule.code, "unreadable-file" | "bad-path");
            let findings = loaded.findings.iter().filter(|one| grammar(one.rule));
            let said: Vec<String> = findings.map(|one| format!("{}: {}", one.rule.code, one.message)).collect();
            assert!(said.is_empty(), "{name}: {said:#?} in\n{block}");
            seen += 1;
        }
    }
    assert!(seen > 20, "{seen}");
}

/// Codes are named in brackets behind the mistake: (`open-outline`).
#[test]
fn every_named_rule_is_there() {
    let mut seen = 0;
    for (name, text) in pages().iter().filter(|(name, _)| *name != FINDINGS) {
        for named in text.split("(`").skip(1).filter_map(|rest| rest.split("`)").next()) {
            for code in named.split("`, `") {
                let word = !code.is_empty() && code.chars().all(|c| c.is_ascii_lowercase() || c == '-');
                if word && code.contains('-') {
                    assert!(rules::find(code).is_some(), "{name} names the rule {code}");
                    seen += 1;
                }
            }
        }
    }
    assert!(seen >= 8, "{seen}");
}

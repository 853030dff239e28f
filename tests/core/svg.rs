//! Drawings of outlines: files as vector editors write them, closed forms, invariances, hostile files.

mod closed;
mod hostile;
mod moved;
mod stranger;
mod styles;
mod views;

use backtack_core::diag::Severity;
use backtack_core::geom::Outline;
use backtack_core::model::Assembly;
use backtack_core::read::{self, Loaded};

/// A style with the piece SIDE drawn in `side.svg`.
const STYLE: &str = "[piece.SIDE]\noutline = { svg = \"side.svg\" }\n";

fn load(svg: &str) -> Loaded {
    read::texts(&[("style.toml", STYLE), ("side.svg", svg)])
}

/// The outline of SIDE in a drawing.
fn outline(svg: &str) -> Outline {
    let loaded = load(svg);
    let assembly = Assembly::of(&loaded.model);
    match assembly.outlines.get("SIDE", "one") {
        Ok(outline) => outline.clone(),
        Err(gap) => panic!("{gap:?}\n{:?}\n{svg}", loaded.findings),
    }
}

/// What is found in a drawing and its outline: severity and code.
fn found(svg: &str) -> Vec<String> {
    let loaded = load(svg);
    let findings = crate::checked(&loaded).findings;
    let own = findings
        .iter()
        .filter(|one| ["outline", "files"].contains(&one.rule.family) || one.rule.code == "outline-defect");
    own.map(|one| format!("{} {}", one.severity.word(), one.rule.code)).collect()
}

/// Only what a clean drawing of a bare piece has.
fn nothing_found(svg: &str) {
    let loaded = load(svg);
    let bad: Vec<String> = loaded
        .findings
        .iter()
        .filter(|one| one.rule.family == "outline" && one.severity != Severity::Note)
        .map(|one| one.message.english())
        .collect();
    assert!(bad.is_empty(), "{bad:?}\n{svg}");
}

/// A page of 200 × 200 mm with the gauge and what is given.
fn page(inside: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"200mm\" height=\"200mm\" viewBox=\"0 0 200 200\">\n\
         <line id=\"gauge\" x1=\"10\" y1=\"190\" x2=\"110\" y2=\"190\"/>\n{inside}\n</svg>\n"
    )
}

/// A point marker.
fn dot(id: &str, x: f64, y: f64) -> String {
    format!("<circle id=\"SIDE.{id}\" cx=\"{x}\" cy=\"{y}\" r=\"1\"/>\n")
}

//! The walk-through of the README, from the starting files to a bag without findings: its own text blocks are followed.

use backtack_core::diag::{Folder, text};
use backtack_core::model::Assembly;
use backtack_core::read;

const README: &str = include_str!("../../README.md");
const CHECKING: &str = include_str!("../../docs/checking.md");
const STYLE: &str = include_str!("../../src/cli/new/bag/style.toml");
const MATERIALS: &str = include_str!("../../src/cli/new/bag/materials.toml");
const PIECES: &str = include_str!("../../src/cli/new/bag/pieces.toml");
const MEASURES: &str = include_str!("../../src/cli/new/bag/measurements.toml");
const PANEL: &str = include_str!("../../src/cli/new/bag/outlines/panel.svg");
const LINING: &str = include_str!("../../src/cli/new/bag/lining.toml");
const SEAMS: &str = include_str!("../../src/cli/new/bag/seams.toml");

/// The fenced blocks of one language on a page, in order.
pub fn blocks(page: &str, language: &str) -> Vec<String> {
    let mut all = Vec::new();
    let mut lines = page.lines();
    while let Some(line) = lines.next() {
        let Some(found) = line.strip_prefix("```") else { continue };
        let block: Vec<&str> = lines.by_ref().take_while(|line| *line != "```").collect();
        if found == language {
            all.push(block.join("\n"));
        }
    }
    all
}

/// A text with everything from `start` up to `end` replaced.
fn instead(whole: &str, start: &str, end: &str, new: &str) -> String {
    let from = whole.find(start).unwrap();
    let to = from + whole[from..].find(end).unwrap();
    format!("{}{new}{}", &whole[..from], &whole[to..])
}

/// What `check my-bag` prints for the README's pieces, seams and measurements.
fn printed(change: impl Fn(String) -> String) -> String {
    let toml = blocks(README, "toml");
    let seams = instead(SEAMS, "# A seam joins", "# Steps of the work", &format!("{}\n\n", toml[1]));
    let order = seams.find("[work]").unwrap();
    let seams = change(format!("{}{}", &seams[..order], toml[2]));
    let pieces = change(toml[0].clone());
    let own = STYLE.replace("{name}", "\"my-bag\"").replace(" (change me)", "");
    let style = own.replace("lining = \"lawn/clay\"\n", "");
    assert!(own.len() > style.len());
    // Without the picture, as the README allows: the view is the last table, its arrow belongs to the measurement.
    let measures = toml[3].split("[view.front]").next().unwrap();
    let shown = |line: &&str| !line.starts_with("view =") && !line.starts_with("arrow =");
    let measures: Vec<&str> = measures.lines().filter(shown).collect();
    let measures = measures.join("\n");
    let files = [
        ("style.toml", style.as_str()),
        ("materials.toml", MATERIALS),
        ("pieces.toml", &pieces),
        ("seams.toml", &seams),
        ("measurements.toml", &measures),
    ];
    checked(&files)
}

/// What `check my-bag` prints for these files.
fn checked(files: &[(&str, &str)]) -> String {
    let loaded = read::texts(files);
    let findings = crate::checked(&loaded).findings;
    let folder = Folder { name: "my-bag", root: "my-bag", findings: &findings, sources: &loaded.sources };
    // Numbers keep to their units by no-break spaces, which nobody types into a page.
    text::print(&[folder], text::Style { color: false, width: 80 }).replace('\u{a0}', " ")
}

fn turned(text: String) -> String {
    text.replace("BASE:n-w-s-e-n", "BASE:n-e-s-w-n")
}

/// The output block that begins so, of the README or the guide to findings.
fn shown(start: &str) -> String {
    let all = [README, CHECKING].into_iter().flat_map(|page| blocks(page, ""));
    all.into_iter().find(|block| block.starts_with(start)).unwrap()
}

#[test]
fn mistake_of_the_walk_through_is_found_as_shown() {
    let found = printed(|text| text);
    assert!(found.contains(&shown("must[inside-out-seam]")), "{found}");
}

#[test]
fn wrong_circle_is_found_as_shown() {
    let found = printed(|text| turned(text).replace("\"240 mm\" }", "\"250 mm\" }"));
    assert!(found.contains(&shown("must[seam-lengths-differ]")), "{found}");
}

/// The files that `new` writes ask what the README shows first.
#[test]
fn starting_files_lack_only_what_their_owner_knows() {
    let style = STYLE.replace("{name}", "\"my-bag\"");
    let files = [
        ("style.toml", style.as_str()),
        ("materials.toml", MATERIALS),
        ("pieces.toml", PIECES),
        ("lining.toml", LINING),
        ("seams.toml", SEAMS),
        ("measurements.toml", MEASURES),
        ("outlines/panel.svg", PANEL),
    ];
    let ahead = "In the way of counter sample: 1, see `backtack status my-bag`";
    assert_eq!(format!("{}{ahead}", checked(&files)), shown("should[no-view]"));
}

/// The panel as drawn is the rectangle its comment names.
#[test]
fn starting_panel_is_the_rectangle_it_says() {
    let loaded = read::texts(&[("pieces.toml", PIECES), ("outlines/panel.svg", PANEL)]);
    let assembly = Assembly::of(&loaded.model);
    let panel = assembly.outlines.get("PANEL", "one").unwrap();
    assert_eq!((panel.bbox().width(), panel.bbox().height()), (380.0, 420.0));
    assert_eq!(panel.perimeter(), 1600.0);
    assert!(PIECES.contains("width = \"380 mm\", height = \"420 mm\""));
}

/// Without a picture, one question is left, as at the beginning of the walk-through; the drawing is no longer asked for.
#[test]
fn bag_of_the_walk_through_lacks_only_its_picture() {
    let shown = shown("should[no-view]");
    let asked = shown.split("\n\n").next().unwrap();
    assert_eq!(printed(turned).trim(), format!("{asked}\n\n0 must, 1 should, 0 notes in 5 files"));
}

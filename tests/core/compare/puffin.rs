//! Two revisions of a whole product.

use std::path::Path;

use backtack_core::read::Loaded;
use backtack_core::revision::compare::{Changes, Marks, text};

use super::changed;

fn puffin(edit: impl Fn(&str, &mut String)) -> Loaded {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/puffin");
    let loaded = crate::folder(&folder).unwrap();
    let files: Vec<(String, Vec<u8>)> = loaded
        .closure
        .iter()
        .map(|(path, bytes)| {
            let mut bytes = bytes.to_vec();
            if let Ok(mut text) = String::from_utf8(bytes.clone()) {
                edit(path, &mut text);
                bytes = text.into_bytes();
            }
            (path.clone(), bytes)
        })
        .collect();
    crate::closure(&loaded.style, files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())))
}

fn changes(edit: impl Fn(&str, &mut String)) -> Changes {
    changed(&puffin(|_, _| {}), &puffin(edit))
}

/// Every drawing moved by 7 mm and 3 mm through a group round all of it; remarks and empty lines in every file.
#[test]
fn moved_drawings_and_remarks_are_no_change() {
    let found = changes(|path, text| {
        if path.contains("outlines/") {
            let head = text.find("<svg").and_then(|at| text[at..].find('>').map(|end| at + end + 1)).unwrap();
            text.insert_str(head, "<g transform=\"translate(7 3)\">");
            *text = text.replace("</svg>", "</g></svg>");
        } else if path.ends_with(".toml") {
            *text = text.replace("\n[", "\n# a remark\n\n[");
        }
    });
    assert!(found.is_empty() && found.overlays.is_empty(), "{}", text(&found, 100));
}

/// A revision as a second sample round would bring it.
#[test]
fn a_revision_as_it_is_printed() {
    let found = changes(|path, text| {
        let edits: &[(&str, &str)] = match path {
            "style.toml" => &[("id = \"C\"", "id = \"D\""), ("2026-11-02", "2026-11-25")],
            "pieces.toml" => {
                &[("L = \"140 g ±5 %\"", "L = \"150 g ±4 %\""), ("\"u-v\" = \"10 mm\"", "\"u-v\" = \"12 mm\"")]
            }
            "measurements.toml" => &[("S = \"102 mm ±4 mm\"", "S = \"102 mm ±5 mm\"")],
            "materials.toml" => &[("mass = \"300 g/m2 ±5 %\"", "mass = \"320 g/m2 ±5 %\"")],
            "seams.toml" => &[("NM 80, light ball", "NM 75, light ball")],
            _ => &[],
        };
        for (from, to) in edits {
            assert!(text.contains(from), "{path}: {from}");
            *text = text.replace(from, to);
        }
    });
    insta::assert_snapshot!("puffin", text(&found, 80));
    let marks = Marks::of(&found);
    assert!(marks.key("stuffing", "fill", "mass") && marks.thing("mass", "") && !marks.thing("piece", "BELLY"));
}

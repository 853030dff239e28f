//! Cautions on the sheet and findings about the same things come from one judgement.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use backtack_core::read;
use backtack_core::rows::data::Sheet;
use backtack_core::standards::safety;
use backtack_core::standards::things::{CORDS, FILM, SMALL_PARTS, Things};

/// The door stop of the fixtures as a toy from birth, with one more trim of a type.
fn toy_with(kind: &str) -> BTreeMap<String, Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/rules/base");
    let mut files = BTreeMap::new();
    for entry in fs::read_dir(&folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|extension| extension != "toml") {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        let text = text.replace("kind = \"household textile\"", "kind = \"toy\"").replace("\"granules\"", "\"sand\"");
        files.insert(path.file_name().unwrap().to_str().unwrap().to_string(), text.into_bytes());
    }
    let trim = format!("[trim.thing]\nname = \"One more\"\ntype = \"{kind}\"\nuse = \"1 pc\"\nmass-each = \"1 g\"\n");
    files.insert("thing.toml".into(), trim.into_bytes());
    files
}

/// The codes of what is found at that trim, and the titles of the cautions on the sheet.
fn told(kind: &str) -> (Vec<&'static str>, Vec<String>) {
    let files = toy_with(kind);
    let list: Vec<(&str, &[u8])> = files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())).collect();
    let loaded = read::files(&list);
    let checked = crate::checked(&loaded);
    let here = |file| loaded.sources.file(file).is_some_and(|file| file.path == "thing.toml");
    let codes = checked.findings.iter().filter(|one| one.places.first().is_some_and(|place| here(place.span.file)));
    let codes = codes.map(|one| one.rule.code).collect();
    let sheets = crate::sheets(&loaded, &checked);
    let safety =
        sheets.into_iter().find_map(|sheet| if let Sheet::Safety(safety) = sheet { Some(safety) } else { None });
    (codes, safety.unwrap().columns.iter().flatten().map(|row| row.title.english()).collect())
}

/// Every caution that things call for, with the rule about them.
const JUDGED: [(&Things, &safety::Caution, &str); 3] = [
    (&SMALL_PARTS, &safety::SMALL_PARTS, "small-parts"),
    (&CORDS, &safety::CORDS, "cord-length"),
    (&FILM, &safety::BAG_FILM, "bag-film"),
];

#[test]
fn a_trim_with_a_finding_has_its_caution_and_one_with_a_caution_has_its_finding() {
    let near = ["eyelet", "needlecord patch", "bag ring", "paper bag", "label", "beading", "filmy label"];
    let named = JUDGED.iter().flat_map(|(things, ..)| things.anywhere.iter().chain(things.alone));
    for kind in named.chain(&near) {
        let (codes, titles) = told(kind);
        for (things, caution, code) in JUDGED {
            let expected = things.are(kind);
            assert_eq!(codes.contains(&code), expected, "{kind}: {code} of {codes:?}");
            assert_eq!(titles.iter().any(|title| title == caution.title), expected, "{kind}: {titles:?}");
        }
    }
    assert!(near.iter().all(|kind| JUDGED.iter().all(|(things, ..)| !things.are(kind))));
}

#[test]
fn words_are_found_wherever_they_are_and_in_the_plural() {
    let (codes, titles) = told("Safety eyes, 12 mm, black");
    assert!(codes.contains(&"small-parts") && titles.iter().any(|title| title == "Small parts"));
    let (codes, titles) = told("Bags");
    assert!(codes.contains(&"bag-film") && titles.iter().any(|title| title == "Bags and film"));
}

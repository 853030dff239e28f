//! What `build` and `new` leave on the disk: whole files, or what was there before.

use backtack::cli::output::{Item, Output};
use backtack::cli::{build, new};

use crate::folder::Scratch;

fn temporary(files: &[String]) -> Vec<&String> {
    files.iter().filter(|name| name.ends_with(".part")).collect()
}

#[test]
fn a_failed_write_leaves_what_was_there() {
    let scratch = Scratch::new();
    let items: Vec<Item> = ["a", "deep/b", "c"]
        .iter()
        .map(|name| Item { path: scratch.path(name), bytes: format!("new {name}").into_bytes() })
        .collect();
    let count = Output::new();
    count.write(&items).unwrap();
    assert!(count.steps() >= 3 * 4, "each file is made, written, put on the disk and named");
    for step in 1..=count.steps() {
        let old = Scratch::new();
        old.write("a", "old a");
        old.write("c", "old c");
        let items: Vec<Item> = items
            .iter()
            .map(|item| Item {
                path: old.path(item.path.strip_prefix(scratch.path("")).unwrap().to_str().unwrap()),
                ..item.clone()
            })
            .collect();
        let failed = Output::failing(step).write(&items).unwrap_err();
        assert!(failed.to_string().starts_with("cannot write ") && failed.to_string().ends_with("the disk is full"));
        let files = old.files();
        assert!(temporary(&files).is_empty(), "step {step} leaves {files:?}");
        for name in files {
            let text = String::from_utf8(old.read(&name)).unwrap();
            assert!(text == format!("old {name}") || text == format!("new {name}"), "step {step}: {name} holds {text}");
        }
        // Until everything is on the disk nothing has a new name.
        if step <= count.steps() - items.len() {
            assert_eq!((old.read("a"), old.read("c")), (b"old a".to_vec(), b"old c".to_vec()), "step {step}");
        }
    }
}

#[test]
fn a_failed_start_leaves_no_half_folder() {
    for step in 1..=15 {
        let scratch = Scratch::new();
        new::start(&scratch.path("bag"), "Bag", &Output::failing(step)).unwrap_err();
        assert_eq!(scratch.files(), Vec::<String>::new(), "step {step}");
    }
}

#[test]
fn a_build_writes_everything_or_nothing() {
    let scratch = Scratch::new();
    scratch.bag("");
    let loaded = backtack::read(&scratch.path("bag")).unwrap();
    let checked = backtack::check(&loaded, &Default::default(), false);
    let package = backtack::render(&loaded, &checked).unwrap();
    let count = Output::new();
    build::write(&package, &scratch.path("whole"), "x", None, &count).unwrap();
    let files = 2 + package.drawings.len();
    assert_eq!(scratch.files().iter().filter(|name| name.starts_with("whole/")).count(), files);
    for step in [1, 2, 3, 4, count.steps() / 2, count.steps() - files] {
        build::write(&package, &scratch.path("broken"), "x", None, &Output::failing(step)).unwrap_err();
        let left = scratch.files();
        assert!(!left.iter().any(|name| name.starts_with("broken/")), "step {step} leaves {left:?}");
    }
}

#[test]
fn a_build_takes_the_drawings_of_things_that_are_gone_away_and_nothing_else() {
    let scratch = Scratch::new();
    scratch.bag("");
    for name in ["piece-GONE.svg", "step-99.svg", "matching-99.svg", "sizes-GONE.svg", "mine.svg", "piece-notes.txt"] {
        scratch.write(&format!("bag/out/drawings/{name}"), "old");
    }
    assert_eq!(scratch.run(&["build", "bag"]).code, 0);
    let files = scratch.files();
    let there = |name: &str| files.contains(&format!("bag/out/drawings/{name}"));
    let gone = ["piece-GONE.svg", "step-99.svg", "matching-99.svg", "sizes-GONE.svg"];
    assert!(!gone.iter().any(|name| there(name)), "{files:?}");
    assert!(there("mine.svg") && there("piece-notes.txt"), "{files:?}");
}

#[test]
fn build_writes_the_package_and_says_where() {
    let scratch = Scratch::new();
    scratch.bag("");
    let ran = scratch.run(&["build", "bag"]);
    assert_eq!((ran.code, ran.out.as_str()), (0, "bag/out/ST-01-A.pdf\n"));
    assert!(ran.err.contains("should[no-view]") && ran.err.contains("0 must"), "{ran:?}");
    assert!(scratch.read("bag/out/ST-01-A.pdf").starts_with(b"%PDF-"));
    let figures: serde_json::Value = serde_json::from_slice(&scratch.read("bag/out/figures.json")).unwrap();
    assert_eq!(figures["format"], backtack_core::compute::FORMAT);
    assert!(scratch.files().iter().any(|name| name == "bag/out/drawings/piece-PANEL.svg"));
    // What was built is no input of the next build, wherever it is written.
    let first = scratch.read("bag/out/ST-01-A.pdf");
    assert_eq!(scratch.run(&["build", "bag", "--out", "elsewhere"]).out, "elsewhere/ST-01-A.pdf\n");
    assert_eq!(first, scratch.read("elsewhere/ST-01-A.pdf"));
}

#[test]
fn build_with_a_must_finding_still_writes_and_exits_with_one() {
    let scratch = Scratch::new();
    scratch.bag("[fabric.felt]\nwidht = \"900 mm\"\n");
    let ran = scratch.run(&["build", "bag"]);
    assert_eq!((ran.code, ran.out.as_str()), (1, "bag/out/ST-01-A.pdf\n"), "{ran:?}");
    assert!(ran.err.contains("must[unknown-key]"));
    assert!(scratch.read("bag/out/ST-01-A.pdf").starts_with(b"%PDF-"));
}

#[test]
fn build_that_cannot_write_says_so_in_one_line() {
    let scratch = Scratch::new();
    scratch.bag("");
    scratch.write("taken", "mine");
    scratch.run(&["build", "bag", "--out", "taken"]).refused("cannot write taken");
    assert_eq!(scratch.read("taken"), b"mine");
}

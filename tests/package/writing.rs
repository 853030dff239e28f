//! What `build` and `new` leave on the disk: whole files, or what was there before.

use backtack::cli::output::{Item, Output};
use backtack::cli::{build, new};
use backtack_core::pipeline::{self, Source};

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
        new::start(&scratch.path("bag"), &new::KINDS[0], "Bag", &Output::failing(step)).unwrap_err();
        assert_eq!(scratch.files(), Vec::<String>::new(), "step {step}");
    }
}

#[test]
fn a_build_writes_everything_or_nothing() {
    let scratch = Scratch::new();
    scratch.bag("");
    let loaded = pipeline::read(&Source::Folder(&scratch.path("bag")), &Default::default()).unwrap();
    let checked = pipeline::check(&loaded, &Default::default(), false);
    let package = backtack::render(&loaded, &checked, &Default::default()).unwrap();
    let count = Output::new();
    build::write(&package, &scratch.path("whole"), "x", None, &count).unwrap();
    // The PDF, the figures, the list of drawings.
    let files = 3 + package.drawings.len();
    assert_eq!(scratch.files().iter().filter(|name| name.starts_with("whole/")).count(), files);
    for step in [1, 2, 3, 4, count.steps() / 2, count.steps() - files] {
        build::write(&package, &scratch.path("broken"), "x", None, &Output::failing(step)).unwrap_err();
        let left = scratch.files();
        assert!(!left.iter().any(|name| name.starts_with("broken/")), "step {step} leaves {left:?}");
    }
}

/// Three pieces beside those of the bag, loose on the table.
const LOOSE: &str = "[severity]\nno-view = \"off\"\n[part.loose]\n[piece.GONE]\npart = \"loose\"\n\
    outline = { shape = \"rectangle\", width = \"90 mm\", height = \"60 mm\" }\n[piece.CHANGED]\npart = \"loose\"\n\
    outline = { shape = \"rectangle\", width = \"80 mm\", height = \"60 mm\" }\n[piece.LOST]\npart = \"loose\"\n\
    outline = { shape = \"rectangle\", width = \"70 mm\", height = \"60 mm\" }\n";

#[test]
fn a_build_takes_the_drawings_of_things_that_are_gone_away_and_nothing_else() {
    let scratch = Scratch::new();
    scratch.bag(LOOSE);
    let drawing = |name: &str| format!("bag/out/drawings/{name}");
    // The user's own, with names as a build gives them.
    let own = ["piece-all.svg", "step-99.svg", "matching-99.svg", "sizes-OLD.svg", "mine.svg", "piece-notes.txt"];
    own.iter().for_each(|name| scratch.write(&drawing(name), "mine"));
    assert_ne!(scratch.run(&["build", "bag"]).code, 2);
    let there = |name: &str| scratch.files().contains(&drawing(name));
    assert!(["GONE", "CHANGED", "LOST"].iter().all(|id| there(&format!("piece-{id}.svg"))), "{:?}", scratch.files());
    let mut changed = scratch.read(&drawing("piece-CHANGED.svg"));
    changed.extend(b"<!-- mine -->");
    scratch.write(&drawing("piece-CHANGED.svg"), &changed);
    std::fs::remove_file(scratch.path(&drawing("piece-LOST.svg"))).unwrap();
    scratch.write("bag/more.toml", "");
    assert_eq!(scratch.run(&["build", "bag"]).code, 0);
    assert!(!there("piece-GONE.svg"), "{:?}", scratch.files());
    assert!(scratch.read(&drawing("piece-CHANGED.svg")) == changed, "what was changed is the user's");
    own.iter().for_each(|name| assert_eq!(scratch.read(&drawing(name)), b"mine", "{name}"));
    let list = String::from_utf8(scratch.read(&drawing(".written"))).unwrap();
    assert!(list.contains("  piece-PANEL.svg\n"), "{list}");
    assert!(!["GONE", "CHANGED", "LOST", "all", "mine"].iter().any(|id| list.contains(id)), "{list}");
    // Once it is off the list it stays, whatever comes.
    assert_eq!(scratch.run(&["build", "bag"]).code, 0);
    assert!(there("piece-CHANGED.svg") && there("piece-all.svg"));
}

/// A list from somebody else names files elsewhere, with the right digest.
#[test]
fn a_list_of_drawings_takes_nothing_away_from_elsewhere() {
    let scratch = Scratch::new();
    scratch.bag("");
    scratch.write("bag/out/precious.svg", "mine");
    let digest = backtack_core::revision::sha256(b"mine").hex();
    let far = scratch.path("bag/out/precious.svg").to_string_lossy().into_owned();
    let lines =
        ["../precious.svg", "./../precious.svg", "..\\precious.svg", &far].map(|name| format!("{digest}  {name}\n"));
    scratch.write("bag/out/drawings/.written", format!("<<<<<<< ours\nno digest  at all\n{}", lines.concat()));
    assert_eq!(scratch.run(&["build", "bag"]).code, 0);
    assert_eq!(scratch.read("bag/out/precious.svg"), b"mine");
}

#[test]
fn what_the_style_is_read_from_is_never_written_over() {
    let scratch = Scratch::new();
    scratch.bag("");
    let pieces = String::from_utf8(scratch.read("bag/pieces.toml")).unwrap();
    let outline = scratch.read("bag/outlines/panel.svg");
    scratch.write("bag/drawings/piece-all.svg", &outline);
    std::fs::remove_file(scratch.path("bag/outlines/panel.svg")).unwrap();
    let moved = pieces.replace("outlines/panel.svg", "drawings/piece-all.svg");
    assert_ne!(moved, pieces);
    scratch.write("bag/pieces.toml", moved);
    let before = scratch.files();
    // However the folder is named, and whether the names are the same or not.
    for out in ["bag", "bag/../bag", "bag/outlines/.."] {
        scratch.run(&["build", "bag", "--out", out]).refused("the style reads piece-all.svg there");
    }
    assert_eq!(scratch.files(), before);
    assert_eq!(scratch.run(&["build", "bag"]).code, 0, "elsewhere it is built");
    assert!(scratch.read("bag/drawings/piece-all.svg") == outline);
    // A picture that has the name of the package.
    let scratch = Scratch::new();
    scratch.bag("[view.front]\nalt = \"Front\"\npicture = \"ST-01-A.pdf\"\n");
    scratch.write("bag/ST-01-A.pdf", "a picture of mine");
    scratch.run(&["build", "bag", "--out", "bag"]).refused("the style is read from this file");
    assert_eq!(scratch.read("bag/ST-01-A.pdf"), b"a picture of mine");
}

#[test]
fn an_output_folder_may_hold_the_specification_where_no_name_is_the_same() {
    let scratch = Scratch::new();
    scratch.bag("");
    scratch.write("bag/drawings/piece-all.svg", "mine");
    assert_eq!(scratch.run(&["build", "bag", "--out", "bag"]).code, 0);
    assert_eq!(scratch.run(&["build", "bag", "--out", "bag"]).code, 0);
    assert_eq!(scratch.read("bag/drawings/piece-all.svg"), b"mine");
    assert!(scratch.files().contains(&"bag/drawings/piece-PANEL.svg".to_string()));
}

/// A stranger's folder, or the PDF it was made to, names a piece and an order by a path.
#[test]
fn no_id_leads_out_of_the_output_folder() {
    let scratch = Scratch::new();
    scratch.bag(
        "[part.loose]\n[piece.\"/../../../../EVIL\"]\npart = \"loose\"\n\
         outline = { shape = \"rectangle\", width = \"90 mm\", height = \"60 mm\" }\n",
    );
    scratch.write("bag/orders/evil.toml", "[order.\"/../../../EVIL\"]\nnumber = \"1\"\n");
    // Both names are to be had: the system looks whether the folders on the way are there.
    scratch.write("bag/out/drawings/piece-/keep", "");
    scratch.write("bag/out/order-/keep", "");
    scratch.write("bag/out/ST-01-A-order-/keep", "");
    let built = scratch.run(&["build", "bag"]);
    assert_eq!(built.code, 1, "{built:?}");
    assert!(built.err.contains("must[bad-id]") && built.err.contains("2 must"), "{built:?}");
    scratch.run(&["build", "bag", "--order", "/../../../EVIL"]).refused("there is no order /../../../EVIL");
    let files = scratch.files();
    assert!(!files.iter().any(|name| name.contains("EVIL")), "{files:?}");
}

#[test]
fn a_name_is_one_plain_component() {
    let folder = std::path::Path::new("out");
    let bad = [
        "",
        ".",
        "..",
        "../x",
        "a/b",
        "/x",
        "a\\b",
        "C:x",
        "a:b",
        "x\0",
        "a\nb",
        "\u{7f}",
        "\u{85}",
        ".x",
        "x.",
        "x ",
        "CON",
        "con.svg",
        "Aux.tar.gz",
        "nul .svg",
        "COM1",
        "lpt9.pdf",
        "com¹.svg",
        "CONIN$",
        "a?b",
        "a*b",
        "a\"b",
        "<a>",
        "a|b",
    ];
    for name in bad {
        let refused = Item::named(folder, name, "x").unwrap_err().to_string();
        assert!(refused.starts_with("cannot name a file ") && !refused.contains('\n'), "{name:?}: {refused}");
    }
    Item::named(folder, &"x".repeat(256), "x").unwrap_err();
    for name in ["piece-A_1.svg", "ST-01-A.pdf", "Größe 1.svg", "console.svg", "com.svg", "com10.svg", "x..y"] {
        assert_eq!(Item::named(folder, name, "x").unwrap().path, folder.join(name));
    }
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

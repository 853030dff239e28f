//! The way through: where a specification may come from, texts that are not saved, safe edits, what is counted.

mod mending;

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use backtack_core::diag::{Folder, Levels, text};
use backtack_core::pipeline::{self, Earlier, ReadError, Source};
use backtack_core::read::{Loaded, Unsaved};
use backtack_core::revision::{seal, stored};
use backtack_core::source::{Tally, Work};

/// A folder of a test's own, removed at its end.
struct Scratch(PathBuf);

impl Scratch {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("backtack-pipeline-{}-{name}", std::process::id()));
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).unwrap();
        Scratch(path)
    }

    fn write(&self, files: &BTreeMap<String, Vec<u8>>) {
        for (name, bytes) in files {
            let path = self.0.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, bytes).unwrap();
        }
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// Every file below a folder, by its path.
fn files(root: &Path) -> BTreeMap<String, Vec<u8>> {
    let (mut all, mut open) = (BTreeMap::new(), vec![root.to_path_buf()]);
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(&folder).unwrap().flatten() {
            let path = entry.path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
                all.insert(name, fs::read(&path).unwrap());
            }
        }
    }
    all
}

fn base() -> BTreeMap<String, Vec<u8>> {
    files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/rules/base"))
}

fn printed(loaded: &Loaded) -> String {
    let findings = crate::checked(loaded).findings;
    let folder = Folder { name: "style", root: "style", findings: &findings, sources: &loaded.sources };
    text::print(&[folder], text::Style { color: false, width: 120 })
}

/// Texts over a folder give what the folder would give with them saved: a changed file, new ones, a broken one, a library
/// that is not there yet, a style below that takes its files with it, files that nobody reads. Nothing is written.
#[test]
fn unsaved_texts_count_as_if_they_were_saved() {
    let style = String::from_utf8(base()["style.toml"].clone()).unwrap();
    let with_library = style.replacen("[style]\n", "[style]\nlibraries = [\"shared\"]\n", 1);
    assert_ne!(style, with_library);
    let cases: [&[(&str, &str)]; 6] = [
        &[("cushion/more.toml", "[fabric.felt]\nwidht = \"海鹦😀\"\n")],
        &[
            ("cushion/a/b.toml", "[fabric.felt]\nmass = 5\n"),
            ("cushion/style.toml", &style.replace("name = ", "nmae = ")),
        ],
        &[("cushion/style.toml", "[style\n")],
        &[("cushion/style.toml", &with_library), ("shared/a.toml", "[fabric.felt]\nwdith = \"1 m\"\n")],
        &[("cushion/sub/style.toml", "[style]\nid = 4\n"), ("cushion/sub/x.toml", "[x]\n")],
        &[("cushion/out/x.toml", "[x]\n"), ("cushion/.git/x.toml", "[x]\n"), ("cushion/.x.toml", "[x]\n")],
    ];
    for (number, case) in cases.iter().enumerate() {
        let saved = Scratch::new(&format!("saved-{number}"));
        let plain = Scratch::new(&format!("plain-{number}"));
        for scratch in [&saved, &plain] {
            scratch.write(&BTreeMap::from([("backtack-root.toml".into(), Vec::new())]));
            scratch.write(&base().into_iter().map(|(path, bytes)| (format!("cushion/{path}"), bytes)).collect());
        }
        let texts: Unsaved = case.iter().map(|(path, text)| (path.to_string(), text.to_string())).collect();
        saved.write(&texts.iter().map(|(path, text)| (path.clone(), text.clone().into_bytes())).collect());
        let before = files(&plain.0);
        let source = Source::Unsaved { folder: &plain.0.join("cushion"), texts: &texts };
        let over = pipeline::read(&source, &Tally::default()).unwrap();
        let read = crate::folder(&saved.0.join("cushion")).unwrap();
        assert_eq!(printed(&over), printed(&read), "case {number}");
        assert_eq!(over.closure, read.closure, "case {number}");
        assert_eq!(files(&plain.0), before, "nothing is written");
        assert_eq!(number < 4, printed(&over) != printed(&crate::folder(&plain.0.join("cushion")).unwrap()));
    }
}

/// A folder, the same files in memory and their archive are one specification; a sealed file gives its own edition and its
/// package the factory's.
#[test]
fn a_specification_is_the_same_wherever_it_is_from() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/rules/base");
    let loaded = crate::folder(&folder).unwrap();
    let members: Vec<(&str, &[u8])> =
        loaded.closure.iter().map(|(path, bytes)| (path.as_str(), bytes.as_ref())).collect();
    let zip = stored(members.iter().copied()).unwrap();
    for source in [Source::Files { style: "", files: &members }, Source::Archive { style: "", bytes: &zip }] {
        let other = pipeline::read(&source, &Tally::default()).unwrap();
        assert_eq!(other.closure, loaded.closure);
        assert_eq!(printed(&other), printed(&loaded));
    }
    let sealed = include_bytes!("../sealed/bag.sealed");
    let own = pipeline::read(&Source::Sealed(sealed), &Tally::default()).unwrap();
    let pdf = seal::verified(sealed).unwrap().pdf;
    let shown = pipeline::read(&Source::Package(pdf), &Tally::default()).unwrap();
    assert!(own.model.pieces.contains_key("PANEL") && shown.model.pieces.contains_key("PANEL"));
    assert!(own.closure.len() > shown.closure.len() || own.closure != shown.closure);
}

#[test]
fn what_cannot_be_read_says_of_what_kind_it_is() {
    let none = std::env::temp_dir().join("backtack-there-is-none");
    let error = |source: Source<'_>| pipeline::read(&source, &Tally::default()).unwrap_err();
    assert!(matches!(error(Source::Folder(&none)), ReadError::Folder(_)));
    assert!(matches!(error(Source::Archive { style: "", bytes: b"PK" }), ReadError::Archive(_)));
    assert!(matches!(error(Source::Sealed(b"PK")), ReadError::Sealed(_)));
    assert!(matches!(error(Source::Package(b"%PDF-")), ReadError::Package(_)));
    assert!(!error(Source::Sealed(b"PK")).to_string().is_empty());
}

fn counts(tally: &Tally) -> [usize; 5] {
    [Work::Read, Work::Assemble, Work::Compute, Work::Judge, Work::State].map(|work| tally.count(work))
}

/// Where nothing is kept back, the factory's edition is what was read; else it is read once more, and so is what was sealed
/// before.
#[test]
fn an_edition_is_read_once() {
    let read = |extra: &[(&str, &[u8])], tally: &Tally| {
        let base = base();
        let mut files: Vec<(&str, &[u8])> =
            base.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())).collect();
        files.extend(extra);
        pipeline::read(&Source::Files { style: "", files: &files }, tally).unwrap()
    };
    let private: &[(&str, &[u8])] = &[("private/cost.toml", b"[fabric.secret]\n")];
    for (extra, sealed, wanted) in [
        // Rules are asked once more of each, for what is in the way of the next stage.
        (&[][..], false, [1, 1, 1, 2, 0]),
        (private, false, [2, 2, 2, 4, 0]),
        (&[][..], true, [2, 2, 2, 3, 2]),
        (private, true, [3, 3, 3, 5, 2]),
    ] {
        let tally = Tally::default();
        let loaded = read(extra, &tally);
        let checked = pipeline::check(&loaded, &Levels::new(), false);
        let last = sealed.then(|| read(&[], &tally));
        let edition = pipeline::edition(&loaded, &checked, &Earlier { past: Vec::new(), last }).unwrap();
        assert_eq!(edition.since.is_some(), sealed);
        assert_eq!(counts(&tally), wanted);
        assert!(edition.shown().closure.iter().all(|(path, _)| !path.starts_with("private/")));
    }
}

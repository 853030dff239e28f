//! Reading a folder: what is taken in, what is skipped, and that nothing stops at the first problem.

use std::fs;
use std::path::PathBuf;

use backtack_core::model::{Binding, Given, Variant};
use backtack_core::read::{self, Loaded};
use proptest::prelude::*;

/// A scratch folder that removes itself.
struct Scratch(PathBuf);

impl Scratch {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("backtack-read-{}-{name}", std::process::id()));
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).expect("scratch folder");
        Scratch(path)
    }

    fn write(&self, name: &str, text: impl AsRef<[u8]>) -> &Self {
        let path = self.0.join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("folder");
        fs::write(path, text).expect("file");
        self
    }

    fn read(&self, below: &str) -> Loaded {
        crate::folder(&self.0.join(below)).expect("a folder")
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn codes(loaded: &Loaded) -> Vec<&str> {
    loaded.findings.iter().map(|finding| finding.rule.code).collect()
}

fn one(text: &str) -> Loaded {
    read::texts(&[("style.toml", text)])
}

#[test]
fn tables_merge_over_files_and_one_id_twice_is_found() {
    let a = "[part.body]\n[piece.TOP]\npart = \"body\"\n";
    let b = "[piece.BOTTOM]\npart = \"body\"\n[piece.TOP]\npart = \"body\"\n";
    let loaded = read::texts(&[("a.toml", a), ("b/c.toml", b)]);
    assert_eq!(loaded.model.pieces.keys().collect::<Vec<_>>(), ["BOTTOM", "TOP"]);
    assert_eq!(codes(&loaded), ["duplicate-id"]);
    let places = &loaded.findings.iter().next().expect("one").places;
    assert_eq!(places.iter().map(|p| loaded.sources.line_column(p.span).0).collect::<Vec<_>>(), [3, 2]);
}

#[test]
fn several_errors_come_in_one_pass() {
    let loaded =
        one("[fabric.c]\nmass = \"320 gsm\"\nmas = \"1\"\nwidth = 1500\n[colour.x]\nlab = [\"1\"]\n[peice.A]\n");
    // The unknown table comes first, since files are gathered before anything is understood.
    assert_eq!(codes(&loaded), ["unknown-key", "bad-value", "unknown-key", "bad-unit", "bare-number"]);
}

#[test]
fn a_syntax_error_silences_unknown_keys_of_its_file_only() {
    let broken = "[fabric.c]\nmass = \"320 g/m2\nmas = \"1\"\n";
    let loaded = read::texts(&[("a.toml", broken), ("b.toml", "[fabric.d]\nmas = \"1\"\n")]);
    let codes = codes(&loaded);
    assert!(codes.contains(&"not-toml"), "{codes:?}");
    assert_eq!(codes.iter().filter(|code| **code == "unknown-key").count(), 1, "{codes:?}");
}

#[test]
fn values_have_a_long_form_and_can_differ_by_size() {
    let loaded = one(
        "[style]\nsizes = [\"S\", \"L\"]\n[part.p]\n[stuffing.z]\npart = \"p\"\nmass = { S = \"1 g\", L = { value = \"2 g\", binding = \"confirm\" } }\n\
         [stuffing.y]\nmass = \"by factory\"\n[stuffing.x]\nmass = { withheld = \"ab12\" }\n",
    );
    assert_eq!(codes(&loaded), Vec::<&str>::new());
    let mass = |stuffing: &str, size| {
        let variant = Variant { size, colourway: "only" };
        loaded.model.stuffings[stuffing].mass.as_ref().expect("a mass").of(variant).expect("stated").clone()
    };
    assert_eq!(mass("z", "L").binding, Binding::Confirm);
    assert_eq!(mass("z", "S").known().expect("known").text, "1 g");
    assert_eq!(mass("y", "S").given, Given::ByFactory);
    assert_eq!(mass("x", "S").given, Given::Withheld("ab12".into()));
}

#[test]
fn a_size_left_out_or_unknown_is_found() {
    let loaded = one("[style]\nsizes = [\"S\", \"L\"]\n[stuffing.z]\nmass = { S = \"1 g\", XL = \"2 g\" }\n");
    assert_eq!(codes(&loaded), ["unknown-code", "incomplete-value"]);
}

#[test]
fn output_sealed_revisions_hidden_folders_and_nested_styles_are_skipped() {
    let scratch = Scratch::new("skip");
    scratch.write("style.toml", "[part.a]\n").write("more/parts.toml", "[part.b]\n");
    for skipped in ["out/x.toml", "revisions/x.toml", ".hidden/x.toml", "other/style.toml", "other/more.toml"] {
        scratch.write(skipped, "[part.no]\n");
    }
    let loaded = scratch.read("");
    assert_eq!(loaded.model.parts.keys().collect::<Vec<_>>(), ["a", "b"]);
    assert_eq!(
        loaded.closure.iter().map(|(path, _)| path.as_str()).collect::<Vec<_>>(),
        ["more/parts.toml", "style.toml"]
    );
}

#[test]
fn shared_libraries_lie_below_the_root() {
    let scratch = Scratch::new("root");
    scratch.write("backtack-root.toml", "").write("library/fabric.toml", "[fabric.plush]\nmass = \"320 g/m2\"\n");
    scratch.write("styles/seal/style.toml", "[style]\nlibraries = [\"library\", \"../out\", \"nothing.toml\"]\n");
    let loaded = scratch.read("styles/seal");
    assert!(loaded.model.articles.contains_key("plush"));
    assert_eq!(codes(&loaded), ["bad-path", "bad-path"]);
    let closure: Vec<&str> = loaded.closure.iter().map(|(path, _)| path.as_str()).collect();
    assert_eq!(closure, ["library/fabric.toml", "styles/seal/style.toml"]);
}

#[cfg(unix)]
#[test]
fn links_that_lead_out_are_not_followed() {
    let scratch = Scratch::new("links");
    let outside = Scratch::new("outside");
    outside.write("secret.toml", "[part.secret]\n");
    scratch.write("style.toml", "[view.front]\npicture = \"front.png\"\n");
    std::os::unix::fs::symlink(outside.0.join("secret.toml"), scratch.0.join("more.toml")).expect("link");
    std::os::unix::fs::symlink(outside.0.join("secret.toml"), scratch.0.join("front.png")).expect("link");
    let loaded = scratch.read("");
    assert!(loaded.model.parts.is_empty());
    assert_eq!(codes(&loaded), ["unreadable-file", "unreadable-file"]);
}

/// An id that cannot be used names no file: what bears it is not taken. Where no file is named after it, it is.
#[test]
fn what_would_name_a_file_by_a_refused_id_is_not_taken() {
    let loaded = read::texts(&[
        ("pieces.toml", "[piece.\"../../x\"]\n[piece.SIDE]\n[view.\"left side\"]\n"),
        ("orders/spring.toml", "[order.\"../../spring\"]\n[order.autumn]\n"),
    ]);
    let refused = loaded.findings.iter().filter(|one| one.rule.code == "bad-id").count();
    assert_eq!(refused, 3, "{:?}", loaded.findings);
    assert_eq!(loaded.model.pieces.keys().collect::<Vec<_>>(), ["SIDE"]);
    assert_eq!(loaded.model.orders.keys().collect::<Vec<_>>(), ["autumn"]);
    assert!(loaded.model.is_misnamed("../../x") && !loaded.model.is_misnamed("SIDE"));
    assert!(loaded.model.views.contains_key("left side") && !loaded.model.is_misnamed("left side"));
    let unknown = backtack_core::editions::order_edition(&loaded, "../../spring").expect_err("it is not taken");
    assert_eq!(unknown.to_string(), "there is no order ../../spring; there are: autumn");
}

#[test]
fn files_that_are_no_text_or_too_large_are_named() {
    let scratch = Scratch::new("large");
    scratch.write("a.toml", b"\xff\xfe[\0s\0").write("b.toml", vec![b'#'; (8 << 20) + 1]).write("c.toml", "[part.a]\n");
    let loaded = scratch.read("");
    assert_eq!(codes(&loaded), ["unreadable-file", "unreadable-file"]);
    assert!(loaded.model.parts.contains_key("a"));
}

#[test]
fn a_byte_order_mark_and_windows_lines_are_fine() {
    let loaded = one("\u{feff}[part.a]\r\nname = \"A\"\r\n");
    assert_eq!(codes(&loaded), Vec::<&str>::new());
    assert_eq!(loaded.model.parts["a"].entry.title(), "A");
}

#[test]
fn deep_nesting_is_refused_without_a_crash() {
    let deep = format!("[piece.A]\noutline = {}1{}\n", "[".repeat(50_000), "]".repeat(50_000));
    assert!(codes(&one(&deep)).contains(&"not-toml"));
    let tables = format!("a{} = 1\n", ".a".repeat(50_000));
    assert!(!codes(&one(&tables)).is_empty());
}

#[test]
fn a_folder_that_is_not_there_is_one_clear_line() {
    let error = crate::folder(&std::env::temp_dir().join("backtack-there-is-none")).expect_err("nothing there");
    assert!(error.to_string().ends_with("there is no such folder"), "{error}");
}

proptest! {
    /// No text can make the reader panic, alone or inside a key that parses further.
    #[test]
    fn no_text_panics(text in "\\PC{0,60}") {
        one(&text);
        let quoted = format!("{text:?}");
        for key in ["[seam.a]\na", "[fabric.c]\nmass", "[piece.A]\ncopies", "[piece.A]\nraw", "[view.v]\npicture", "[fabric.c]\ncomposition", "[point-of-measure.h]\narrow", "[revision]\ndate"] {
            one(&format!("{key} = {quoted}\n"));
            one(&format!("{key} = [{quoted}]\n"));
            one(&format!("{key} = {{ value = {quoted} }}\n"));
        }
    }
}

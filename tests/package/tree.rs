//! One build of the engine serves the program and its tests: crates that the engine is made of must have the same
//! features whether test dependencies are there or not, else `cargo run` and `cargo test` compile it once each.

use std::collections::BTreeMap;
use std::process::Command;

/// Packages and their features, as cargo resolves them for some packages and kinds of dependencies.
fn features(arguments: &[&str]) -> BTreeMap<String, String> {
    let output = Command::new(env!("CARGO"))
        .args(["tree", "--offline", "--locked", "--prefix", "none", "--format", "{p}|{f}"])
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout)
        .unwrap()
        .lines()
        .filter_map(|line| line.split_once('|'))
        .map(|(name, features)| {
            let name: Vec<&str> = name.split(' ').take(2).collect();
            (name.join(" "), features.trim_end_matches(" (*)").to_string())
        })
        .collect()
}

#[test]
fn the_tests_change_no_crate_that_the_engine_is_made_of() {
    let run = features(&["--package", "backtack", "--edges", "normal,build"]);
    let tests = features(&["--workspace", "--edges", "normal,build,dev"]);
    let engine = features(&[
        "--package",
        "typst",
        "--package",
        "typst-pdf",
        "--package",
        "typst-layout",
        "--edges",
        "normal,build",
    ]);
    assert!(engine.len() > 100, "{}", engine.len());
    for name in engine.keys() {
        assert_eq!(run.get(name), tests.get(name), "{name} is compiled twice");
    }
}

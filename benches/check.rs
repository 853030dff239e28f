//! How long `check` takes for a thousand different style folders, and whether that grows in proportion.
//!
//! `cargo bench --bench check`

#![allow(clippy::disallowed_methods, clippy::print_stdout, reason = "a measurement keeps time and folders of its own")]
#![allow(clippy::expect_used, reason = "a measurement that cannot be made stops")]

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

const COUNT: usize = 1000;

/// The example, every folder with its own style number, lengths and masses.
fn folders(root: &Path) -> Vec<PathBuf> {
    let example = Path::new(env!("CARGO_MANIFEST_DIR")).join("spec-examples/floor-cushion");
    (0..COUNT)
        .map(|number| {
            let folder = root.join(format!("style{number:04}"));
            copy(&example, &folder, number);
            folder
        })
        .collect()
}

fn copy(from: &Path, to: &Path, number: usize) {
    std::fs::create_dir_all(to).expect("the folder for temporary files can be written");
    for entry in std::fs::read_dir(from).expect("the example is there").flatten() {
        let (path, name) = (entry.path(), entry.file_name());
        if path.is_dir() && name != "out" {
            copy(&path, &to.join(name), number);
        } else if path.extension().is_some_and(|ending| ending == "toml") {
            let text = std::fs::read_to_string(&path).expect("the example is text");
            std::fs::write(to.join(name), varied(&text, number)).expect("there is room for a copy");
        } else if path.is_file() {
            std::fs::copy(&path, to.join(name)).expect("there is room for a copy");
        }
    }
}

/// Every length in mm grows by the same small share, so that seams still fit and no two folders are alike.
fn varied(text: &str, number: usize) -> String {
    let mut out = String::with_capacity(text.len() + 1024);
    let mut rest = text;
    while let Some(at) = rest.find(" mm") {
        let head = &rest[..at];
        let number_length = head.bytes().rev().take_while(|b| b.is_ascii_digit() || *b == b'.').count();
        let start = head.len() - number_length;
        out.push_str(&head[..start]);
        match head[start..].parse::<f64>() {
            Ok(value) => out.push_str(&format!("{:.3}", value * (1.0 + number as f64 * 0.00001))),
            Err(_) => out.push_str(&head[start..]),
        }
        out.push_str(" mm");
        rest = &rest[at + 3..];
    }
    out.push_str(rest);
    out.replace("HF-118", &format!("HF-{number}"))
}

/// One run of the command over some folders.
fn run(folders: &[PathBuf]) -> Duration {
    let start = Instant::now();
    let status = std::process::Command::new(env!("CARGO_BIN_EXE_backtack"))
        .args(["check", "--format", "json"])
        .args(folders)
        .stdout(std::process::Stdio::null())
        .status()
        .expect("the program runs");
    assert!(status.code().is_some_and(|code| code <= 1), "every folder can be checked");
    start.elapsed()
}

/// The shortest of some runs: what the machine can do when nothing else disturbs.
fn best(folders: &[PathBuf]) -> f64 {
    (0..3).map(|_| run(folders).as_secs_f64()).fold(f64::INFINITY, f64::min)
}

fn main() {
    let root = std::env::temp_dir().join(format!("backtack-bench-{}", std::process::id()));
    let folders = folders(&root);
    run(&folders[..10]);
    let half = best(&folders[..COUNT / 2]);
    let whole = best(&folders);
    println!("check, {} folders: {half:.2} s", COUNT / 2);
    println!("check, {COUNT} folders: {whole:.2} s ({:.2} ms each; limit 10 s)", whole * 1000.0 / COUNT as f64);
    println!("twice the folders: {:.3} times the time (2 is linear; limit 2.2)", whole / half);
    let _ = std::fs::remove_dir_all(root);
}

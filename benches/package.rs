//! What a package costs beside the engine's own compile and export, cold time, and memory.
//!
//! `cargo bench --bench package`

#![allow(clippy::disallowed_methods, clippy::print_stdout, reason = "a measurement keeps time and files of its own")]
#![allow(clippy::expect_used, reason = "a measurement that cannot be made stops")]

use std::path::{Path, PathBuf};
use std::time::Instant;

use backtack::render::engine;
use backtack_core::diag::Levels;
use backtack_core::pipeline::{self, Checked, Sealing, Source};
use backtack_core::read::Loaded;
use backtack_core::revision::manifest::Title;
use backtack_core::revision::seal::verified;

const RUNS: usize = 7;

fn seconds(work: impl FnOnce()) -> f64 {
    let start = Instant::now();
    work();
    start.elapsed().as_secs_f64()
}

fn best(mut work: impl FnMut()) -> f64 {
    (0..RUNS).map(|_| seconds(&mut work)).fold(f64::INFINITY, f64::min)
}

/// The whole way from the folder to the bytes.
fn package(folder: &Path) {
    let loaded = pipeline::read(&Source::Folder(folder), &Default::default()).expect("the example is there");
    let checked = pipeline::check(&loaded, &Levels::new(), false);
    let package = backtack::render(&loaded, &checked, &Default::default()).expect("the example typesets");
    assert!(!package.pdf.is_empty());
}

/// Peak memory of a process that is still there, bytes; only Linux tells.
fn peak() -> Option<f64> {
    let text = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = text.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse::<f64>().ok().map(|kilobytes| kilobytes * 1024.0)
}

/// The command in a fresh process: nothing is warm but the disk.
fn cold(folder: &Path, out: &Path) {
    let status = std::process::Command::new(env!("CARGO_BIN_EXE_backtack"))
        .arg("build")
        .arg(folder)
        .arg("--out")
        .arg(out)
        .stdout(std::process::Stdio::null())
        .stderr(std::process::Stdio::null())
        .status()
        .expect("the program runs");
    assert!(status.code().is_some_and(|code| code <= 1), "the example builds");
}

/// One example: what its package costs beside the engine.
fn measured(name: &str) {
    let folder: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("spec-examples").join(name);
    println!("{name}");
    let loaded = pipeline::read(&Source::Folder(&folder), &Default::default()).expect("the example is there");
    let checked = pipeline::check(&loaded, &Levels::new(), false);
    let job = backtack::job(&loaded, &checked).expect("the view data can be written");
    // In turn, so that a slow minute is one for both.
    let (mut alone, mut whole) = (f64::INFINITY, f64::INFINITY);
    for _ in 0..2 * RUNS {
        alone = alone.min(seconds(|| drop(engine::run(&job).expect("the example typesets"))));
        whole = whole.min(seconds(|| package(&folder)));
    }
    let reading = best(|| {
        pipeline::read(&Source::Folder(&folder), &Default::default()).expect("the example is there");
    });
    let checking = best(|| {
        pipeline::check(&loaded, &Levels::new(), false);
    });
    let filling = best(|| {
        backtack::job(&loaded, &checked).expect("the view data can be written");
    });
    println!("  reading: {reading:.3} s; checking and computing: {checking:.3} s");
    println!("  the factory's edition read and checked again, sheets and pictures: {filling:.3} s");
    println!("  engine, compile and export: {alone:.3} s");
    println!("  package, folder to bytes:   {whole:.3} s, {:.3} times the engine (limit 1.25)", whole / alone);
    sealing(&loaded, &checked);
    let out = std::env::temp_dir().join(format!("backtack-bench-{}", std::process::id()));
    let command = best(|| cold(&folder, &out));
    println!("  command, fresh process:     {command:.3} s (limit 1.5 s)");
    let _ = std::fs::remove_dir_all(out);
}

/// What a seal adds to a package, and how long 200 revisions of this size take to verify, one after the other.
fn sealing(loaded: &Loaded, checked: &Checked) {
    let text = |text: &str| text.to_owned();
    let title = Title {
        tool: text("0.1.0"),
        style: text("S"),
        revision: text("A"),
        stage: text("bulk"),
        date: "2026-11-20".parse().expect("a date"),
        by: text("M. Oake"),
        reason: text("a measurement"),
    };
    let sealing = Sealing { title, secret: &[7; 32], earlier: &Default::default() };
    let seal = || backtack::seal(loaded, checked, &sealing).expect("the example can be sealed").bytes;
    let (mut built, mut sealed) = (f64::INFINITY, f64::INFINITY);
    for _ in 0..RUNS {
        built = built.min(seconds(|| {
            drop(backtack::render(loaded, checked, &Default::default()).expect("the example typesets"))
        }));
        sealed = sealed.min(seconds(|| drop(seal())));
    }
    let bytes = seal();
    let verify = best(|| drop(verified(&bytes).expect("it is as it was sealed")));
    println!("  sealed: {sealed:.3} s, {:.3} times the package (limit 1.15)", sealed / built);
    println!("  verified: {:.4} s, 200 of {} kB in {:.2} s (limit 2 s)", verify, bytes.len() / 1000, 200.0 * verify);
}

fn main() {
    // Before anything else is made: one build is what the command needs. The largest example.
    package(&Path::new(env!("CARGO_MANIFEST_DIR")).join("spec-examples/puffin"));
    match peak() {
        Some(bytes) => println!("memory of one build: {:.0} MB (limit 250 MB)", bytes / 1e6),
        None => println!("memory: this system does not tell"),
    }
    ["floor-cushion", "puffin"].into_iter().for_each(measured);
}

//! What reading drawings and offsetting their outlines costs: the puffin in both sizes, and a folder of 2,000 pieces.
//!
//! `cargo bench -p backtack-core --bench outlines`

#![allow(clippy::disallowed_methods, clippy::print_stdout, reason = "a measurement keeps time of its own")]
#![allow(clippy::expect_used, reason = "a measurement that cannot be made stops")]

use std::fmt::Write;
use std::path::Path;
use std::time::Instant;

use backtack_core::compute::Drawn;
use backtack_core::diag::Levels;
use backtack_core::model::Assembly;
use backtack_core::pipeline::{self, Checked, compare};
use backtack_core::read::{self, Loaded, Unsaved};
use backtack_core::revision::compare::text;
use backtack_core::source::Tally;

const RUNS: usize = 11;
/// Pieces of the large folder.
const PIECES: usize = 2_000;

fn best(runs: usize, mut work: impl FnMut()) -> f64 {
    let timed = |_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64()
    };
    (0..runs).map(timed).fold(f64::INFINITY, f64::min)
}

/// Reads, and offsets every outline in every size.
fn offset(read: impl Fn() -> Loaded) {
    let loaded = read();
    let assembly = Assembly::of(&loaded.model);
    let drawn = Drawn::of(&loaded.model, &assembly);
    assert!(drawn.refused.is_empty(), "{:?}", drawn.refused.first());
    let pieces = &loaded.model.pieces;
    let sizes = &loaded.model.sizes;
    let known = pieces.keys().all(|piece| {
        let lines = |size: &str| drawn.get(piece, size).is_some_and(|lines| lines.sew.known().is_some());
        sizes.iter().all(|size| lines(&size.entry.id.value))
    });
    assert!(known, "every outline is made");
}

/// What commands make of it.
fn checked(loaded: &Loaded) -> Checked {
    pipeline::check(loaded, &Levels::new(), false)
}

/// The whole check, figures with it.
fn check(loaded: &Loaded) {
    let figures = checked(loaded).figures;
    assert_eq!(figures.pieces.len(), loaded.model.pieces.len());
}

/// Two revisions read, checked and compared, every outline a little larger in the later one.
fn compared(read: impl Fn() -> Loaded) {
    let earlier = read();
    let changed = read().closure.iter().map(|(path, bytes)| (path.clone(), edited(path, bytes))).collect::<Vec<_>>();
    let files = changed.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice()));
    let later = read::closure(&earlier.style, files, &Tally::default());
    let changes = compare((&earlier, &checked(&earlier)), (&later, &checked(&later)));
    assert!(!changes.overlays.is_empty() && !text(&changes, 80).is_empty());
}

/// Drawings a thousandth larger, which keeps the gauge within its limit, so that every outline is laid over another.
fn edited(path: &str, bytes: &[u8]) -> Vec<u8> {
    let Some(svg) = std::str::from_utf8(bytes).ok().filter(|_| path.contains("outlines/")) else {
        return bytes.to_vec();
    };
    let head = svg.find("<svg").and_then(|at| svg[at..].find('>').map(|end| at + end + 1)).expect("it is a drawing");
    let (start, rest) = svg.split_at(head);
    format!("{start}<g transform=\"scale(1.001)\">{}", rest.replace("</svg>", "</g></svg>")).into_bytes()
}

/// A style of many curved pieces, each of another shape, in two sizes.
fn large() -> Vec<(String, String)> {
    let mut svg = String::from(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300mm\" height=\"300mm\" viewBox=\"0 0 300 300\">\n\
         <line id=\"gauge\" x1=\"10\" y1=\"290\" x2=\"110\" y2=\"290\"/>\n",
    );
    let mut toml = String::from(
        "[style]\nid = \"LARGE\"\nname = \"Many pieces\"\n\
         [size.S]\nname = \"Small\"\n[size.L]\nname = \"Large\"\nscale = { along = \"120 %\", across = \"115 %\" }\n\
         [part.body]\nform = \"flat\"\n\
         [fabric.plush]\nname = \"Plush\"\nmass = \"300 g/m2\"\nwidth = \"1500 mm\"\ncuttable-width = \"1450 mm\"\n",
    );
    for n in 0..PIECES {
        let (w, h) = (60.0 + (n % 97) as f64, 50.0 + (n % 89) as f64);
        let bulge = 10.0 + (n % 13) as f64;
        let (x, y) = (40.0, 40.0);
        writeln!(
            svg,
            "<path id=\"P{n}\" d=\"M{x} {y}c{} {} {} {} {w} 0 {bulge} {} {bulge} {} 0 {h} {} {bulge} {} {bulge} -{w} 0z\"/>",
            w * 0.3, -bulge, w * 0.7, -bulge, h * 0.3, h * 0.7, -w * 0.3, -w * 0.7,
        )
        .expect("text grows");
        let dots = [("a", x, y), ("b", x + w, y), ("c", x + w, y + h), ("d", x, y + h)];
        for (id, x, y) in dots {
            writeln!(svg, "<circle id=\"P{n}.{id}\" cx=\"{x}\" cy=\"{y}\" r=\"1\"/>").expect("text grows");
        }
        writeln!(svg, "<line id=\"P{n}.grain\" x1=\"60\" y1=\"80\" x2=\"60\" y2=\"60\"/>").expect("text grows");
        write!(
            toml,
            "[piece.P{n}]\nname = \"Piece {n}\"\npart = \"body\"\noutline = {{ svg = \"all.svg\" }}\n\
             material = \"plush\"\nallowance = \"6 mm\"\nraw = [\"a-b-c-d-a\"]\n",
        )
        .expect("text grows");
    }
    svg.push_str("</svg>\n");
    vec![("all.svg".into(), svg), ("style.toml".into(), toml)]
}

fn main() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/puffin");
    let puffin = || read::folder(&folder, &Unsaved::new(), &Tally::default()).expect("the example is there");
    let reading = best(RUNS, || drop(puffin()));
    let whole = best(RUNS, || offset(puffin));
    println!("puffin, read: {:.1} ms", reading * 1e3);
    println!("puffin, read and offset in both sizes: {:.1} ms (limit 60)", whole * 1e3);
    let loaded = puffin();
    println!("puffin, checked with its figures: {:.1} ms", best(RUNS, || check(&loaded)) * 1e3);
    println!(
        "puffin, two revisions read, checked and compared: {:.1} ms (limit 300)",
        best(RUNS, || compared(puffin)) * 1e3
    );
    let files = large();
    let texts: Vec<(&str, &str)> = files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
    let large = || read::texts(&texts);
    println!("{PIECES} pieces, read and offset in two sizes: {:.2} s (limit 3)", best(3, || offset(large)));
    let loaded = large();
    println!("{PIECES} pieces, checked with figures: {:.2} s", best(1, || check(&loaded)));
}

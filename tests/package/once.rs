//! Nothing is parsed, read, computed or asked twice in one command: what each of them does, counted.

use std::ffi::OsString;

use backtack_core::source::{Tally, Work};

use crate::folder::Scratch;

/// Readings, assemblies, computations, rounds of rules, and specifications taken apart for a comparison.
type Counts = [usize; 5];

/// What a command does. It must not fail.
fn counted(scratch: &Scratch, arguments: &[&str]) -> (Counts, usize) {
    let tally = Tally::default();
    let named = |argument: &&str| match scratch.path(argument) {
        path if path.exists() => path.into_os_string(),
        _ => OsString::from(argument),
    };
    let all = std::iter::once(OsString::from("backtack")).chain(arguments.iter().map(named));
    let code = format!("{:?}", backtack::cli::main(all, &tally));
    assert!(!code.contains("(2)"), "{arguments:?} cannot be run");
    let counts = [Work::Read, Work::Assemble, Work::Compute, Work::Judge, Work::State].map(|work| tally.count(work));
    (counts, tally.count(Work::Parse))
}

fn counts(scratch: &Scratch, arguments: &[&str]) -> Counts {
    counted(scratch, arguments).0
}

/// A bag that is built and sealed, its lays kept.
fn bag() -> Scratch {
    let scratch = Scratch::new();
    scratch.bag("[severity]\nno-view = \"off\"\n");
    assert_eq!(scratch.run(&["build", "bag"]).code, 0);
    scratch
}

fn revise(scratch: &Scratch, from: &str, to: &str) {
    let text = String::from_utf8(scratch.read("bag/style.toml")).unwrap();
    assert!(text.contains(&format!("id = \"{from}\"")), "{text}");
    scratch.write("bag/style.toml", text.replace(&format!("id = \"{from}\""), &format!("id = \"{to}\"")));
}

#[test]
fn one_specification_is_read_and_checked_once() {
    let scratch = bag();
    let files = scratch.files().iter().filter(|path| path.ends_with(".toml")).count();
    // What is in the way of the next stage is asked of the same outlines and figures.
    assert_eq!(counted(&scratch, &["check", "bag"]), ([1, 1, 1, 2, 0], files));
    assert_eq!(counted(&scratch, &["check", "bag", "bag"]), ([2, 2, 2, 4, 0], 2 * files));
    // The factory gets all of it, so that its edition is the own one; the cover says what is in the way of the next stage.
    assert_eq!(counted(&scratch, &["build", "bag"]), ([1, 1, 1, 2, 0], files));
    assert_eq!(counts(&scratch, &["lay", "bag", "--effort", "quick"]), [1, 1, 1, 1, 0]);
    assert_eq!(
        counts(&scratch, &["sample", "new", "bag", "first", "--kind", "prototype", "--pieces", "1"]),
        [1, 1, 1, 1, 0]
    );
    assert_eq!(counts(&scratch, &["status", "bag"]), [1, 1, 1, 2, 0]);
}

/// Each further edition that means something else costs one reading: the factory's where something is kept back, that of
/// the revision before, that of an order.
#[test]
fn every_further_edition_is_read_and_checked_once() {
    let scratch = bag();
    let seal = |name: &str| counts(&scratch, &["seal", "bag", name, "--by", "Maren Oake", "--reason", "Samples"]);
    assert_eq!(seal("A"), [1, 1, 1, 2, 0]);
    revise(&scratch, "A", "B");
    assert_eq!(counts(&scratch, &["build", "bag"]), [2, 2, 2, 3, 2], "own and A");
    scratch.write("bag/private/cost.toml", "# Tuppence\n");
    assert_eq!(counts(&scratch, &["build", "bag"]), [3, 3, 3, 5, 2], "own, the factory's and A");
    let order =
        "[order.one]\ncut-extra = \"0 %\"\n[order.one.line.a]\nsize = \"one\"\ncolourway = \"plain\"\nquantity = 40\n";
    scratch.write("bag/orders/one.toml", order);
    scratch.run(&["build", "bag", "--order", "one"]);
    assert_eq!(counts(&scratch, &["build", "bag", "--order", "one"]), [4, 4, 4, 6, 2], "and that of the order");
    assert_eq!(seal("B"), [3, 3, 3, 5, 2]);
    assert_eq!(counts(&scratch, &["compare", "bag/revisions/A.sealed", "bag"]), [2, 2, 2, 2, 2]);
}

/// Lays that are found change figures and what is said of them, not what is read and sewn.
#[test]
fn new_lays_are_only_computed_with() {
    let scratch = bag();
    std::fs::remove_file(scratch.path("bag/backtack.lock")).unwrap();
    assert_eq!(counts(&scratch, &["build", "bag"]), [1, 1, 2, 3, 0]);
}

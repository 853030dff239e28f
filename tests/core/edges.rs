//! Edges named by points: allowances, corners and notches, from the words of the file to every figure.

use backtack_core::compute::{self, Figure, Figures};
use backtack_core::diag::Finding;
use backtack_core::model::assembly::Origin;
use backtack_core::model::{Assembly, SeamSide};
use backtack_core::read::{self, Loaded};

/// A sheet with a long name beside a short one: e and f, f1; and r, s.
const SHEET: &str = "{ shape = \"polygon\", corners = [[\"e\", \"0 mm\", \"0 mm\"], [\"f\", \"80 mm\", \"0 mm\"], [\"f1\", \"120 mm\", \
                     \"20 mm\"], [\"r\", \"120 mm\", \"90 mm\"], [\"s\", \"0 mm\", \"90 mm\"]] }";
/// Half a leaf, opened out about its middle: t, a~, b~ on the other side.
const LEAF: &str = "{ shape = \"polygon\", corners = [[\"m\", \"0 mm\", \"0 mm\"], [\"a\", \"40 mm\", \"10 mm\"], [\"b\", \"50 mm\", \
                    \"60 mm\"], [\"t\", \"0 mm\", \"90 mm\"]], fold = \"t-m\" }";

struct Made {
    loaded: Loaded,
    assembly: Assembly,
    figures: Figures,
}

/// A style of two sizes with one piece `P`, with keys of its own and more tables.
fn made(outline: &str, keys: &str) -> Made {
    let head = "[style]\nsizes = [\"S\", \"L\"]\n[part.p]\nform = \"flat\"\n[fabric.c]\n[thread.t]\n";
    let text = format!("{head}[piece.P]\npart = \"p\"\nmaterial = \"c\"\noutline = {outline}\n{keys}");
    let loaded = read::texts(&[("style.toml", &text)]);
    let assembly = Assembly::of(&loaded.model);
    let figures = compute::compute(&loaded.model, &assembly).figures;
    Made { loaded, assembly, figures }
}

impl Made {
    /// Allowance by edge as `figures.json` has it, with its origin.
    fn edges(&self, size: &str) -> Vec<String> {
        let one = |edge: &compute::EdgeFigures| {
            let width = edge.allowance.get().map_or("?".to_string(), |width| width.to_string());
            format!("{}-{} {width} {}", edge.from, edge.to, edge.origin)
        };
        self.figures.pieces["P"][size].cuts["shell"].edges.iter().map(one).collect()
    }

    /// What is found of a family of codes: what is said, and what is underlined.
    fn found(&self, codes: &[&str]) -> Vec<(String, String)> {
        let all = crate::checked(&self.loaded).findings;
        let place = |finding: &Finding| self.loaded.sources.text(finding.places[0].span).to_string();
        let some = all.iter().filter(|one| codes.contains(&one.rule.code));
        some.map(|one| (one.message.english(), place(one))).collect()
    }
}

#[test]
fn a_longer_edge_covers_each_of_its_runs() {
    let one = made(SHEET, "allowance = { all = \"5 mm\", \" s - r \" = \"7 mm\", \"e-f-f1\" = \"9 mm\" }");
    assert_eq!(one.edges("S"), ["e-f 9 own", "f-f1 9 own", "f1-r 5 all", "r-s 7 own", "s-e 5 all"]);
    assert_eq!(one.found(&["bad-value", "unknown-id", "unclear-edge", "allowance-missing"]), []);
    // The cut is 80 to 120 wide: 9 below, 7 above, 5 on both sides.
    let line = one.figures.pieces["P"]["S"].cuts["shell"].line.known().expect("a cut line");
    assert_eq!((line.width.get(), line.height.get()), (130.0, 106.0));
    // Without `all` the two edges that are left out are named.
    let some = made(SHEET, "allowance = { \"s-r\" = \"7 mm\", \"e-f-f1\" = \"9 mm\" }");
    assert_eq!(some.edges("L")[2..], ["f1-r ? missing", "r-s 7 own", "s-e ? missing"]);
    let missing = some.found(&["allowance-missing"]);
    assert_eq!(missing[0].0, "piece P has no seam allowance on f1-r, s-e");
}

#[test]
fn an_edge_is_no_part_of_a_name() {
    let one = made(SHEET, "allowance = { all = \"5 mm\", \"e-f\" = \"7 mm\" }");
    assert_eq!(one.edges("S")[..2], ["e-f 7 own", "f-f1 5 all"]);
}

#[test]
fn mirror_images_have_allowances_and_corners() {
    let keys = "allowance = { all = \"5 mm\", \"b~-a~\" = \"8 mm\" }\ncorners = { \"a~\" = \"fold back a~-b~\", b = \"round\" \
                }\nnotches = [\"b~\", \"a~ - b~ 20 mm\"]";
    let one = made(LEAF, keys);
    let found = one.found(&["bad-value", "unknown-id", "unclear-edge", "notch-off-edge"]);
    assert_eq!(found, []);
    let eight: Vec<String> = one.edges("S").into_iter().filter(|edge| edge.contains(" 8 ")).collect();
    assert_eq!(eight, ["b~-a~ 8 own"]);
    let corner = |point: &str| {
        let corners = &one.figures.pieces["P"]["S"].corners;
        corners.iter().find(|corner| corner.point == point).map(|corner| (corner.style, corner.worked))
    };
    assert_eq!(corner("a~"), Some(("fold back", Some("before"))), "a~ ends the edge b~-a~, anticlockwise");
    assert_eq!(corner("b"), Some(("round", None)));
    assert_eq!(corner("t"), Some(("mitre", None)));
}

#[test]
fn raw_edges_are_bare_unless_something_is_stated_for_them() {
    let one = made(SHEET, "raw = [\"e-f-f1\"]\nallowance = { all = \"5 mm\", \"f-f1\" = \"2 mm\" }");
    assert_eq!(one.edges("S")[..3], ["e-f 0 bare", "f-f1 2 own", "f1-r 5 all"]);
    // What is bare needs no allowance.
    let rest = made(SHEET, "raw = [\"e-f-f1\"]\nallowance = { \"f1-r-s-e\" = \"5 mm\" }");
    assert_eq!(rest.found(&["allowance-missing"]), []);
    assert_eq!(rest.assembly.edges.get("P", "S").expect("edges").cuts["shell"][0].origin, Origin::Bare);
}

#[test]
fn what_is_no_edge_is_said_at_its_part() {
    let read = |keys: &str| made(SHEET, keys).found(&["bad-value", "bad-unit"]);
    let said = |keys: &str, message: &str, place: &str| {
        assert_eq!(read(keys), [(message.to_string(), place.to_string())], "{keys}");
    };
    said("allowance = { all = \"5 mm\", \"e--f\" = \"7 mm\" }", "`e--f`: a point is missing", "e--f");
    said("allowance = { all = \"5 mm\", e-2f = \"7 mm\" }", "`e-2f`: `2f` is no point", "e-2f");
    said("allowance = { all = \"5 mm\", ef = \"7 mm\" }", "`ef`: an edge needs two points", "ef");
    said("allowance = \"5 mm\"\ncorners = { f = \"step e-\" }", "`e-`: a point is missing", "e-");
    said("allowance = \"5 mm\"\ncorners = { f = \"step e-f-f1\" }", "`e-f-f1` is more than one edge", "e-f-f1");
    said("allowance = \"5 mm\"\ncorners = { f = \"step r-s\" }", "the edge does not meet this corner", "r-s");
    said("allowance = \"5 mm\"\ncorners = { \"f 1\" = \"step\" }", "`f 1` is no point", "f 1");
    said("allowance = \"5 mm\"\nnotches = [\"e-f-f1 40 mm\"]", "`e-f-f1` is more than one edge", "e-f-f1");
    said("allowance = \"5 mm\"\nnotches = [\"e-f\"]", "a notch is on an edge", "\"e-f\"");
}

#[test]
fn what_the_outline_does_not_have_is_said_once() {
    let found = |keys: &str| made(SHEET, keys).found(&["unknown-id", "unclear-edge", "notch-off-edge"]);
    let said = |keys: &str, message: &str, place: &str| {
        assert_eq!(found(keys), [(message.to_string(), place.to_string())], "{keys}");
    };
    let no = |key: &str, point: &str| {
        format!("the {key} of piece P names the point `{point}`, which its outline does not have")
    };
    said("allowance = { all = \"5 mm\", \"e - g\" = \"7 mm\" }", &no("allowance", "g"), "g");
    said("allowance = { all = \"5 mm\", \"e~-f\" = \"7 mm\" }", &no("allowance", "e~"), "e~");
    said("allowance = \"5 mm\"\ncorners = { g = \"round\" }", &no("corner", "g"), "g");
    said("allowance = \"5 mm\"\ncorners = { f = \"step f-g\" }", &no("corner", "g"), "g");
    said("allowance = \"5 mm\"\nnotches = [\"g-f 40 mm\"]", &no("notch", "g"), "g");
    said("allowance = \"5 mm\"\nnotches = [\"g\"]", &no("notch", "g"), "g");
    let far = found("allowance = { all = \"5 mm\", \"e-r\" = \"7 mm\" }");
    assert_eq!(far.len(), 1, "{far:?}");
    assert!(far[0].0.starts_with("the allowance of piece P names the edge e-r: "), "{far:?}");
    let far = found("allowance = \"5 mm\"\nnotches = [\"e-r 40 mm\"]");
    assert_eq!(far.len(), 1, "{far:?}");
    said(
        "allowance = { all = \"5 mm\", \"e-f-f1\" = \"7 mm\", \"f1-f\" = \"8 mm\" }",
        "P has two allowances for the edge f-f1",
        "f1-f",
    );
    said(
        "corners = { f = \"round\", \" f\" = \"step\" }\nallowance = \"5 mm\"",
        "P has two styles for the corner f",
        "f",
    );
}

#[test]
fn an_allowance_by_size_reaches_figures_and_seams() {
    let keys = "copies = [\"l\", \"r mirrored\"]\nallowance = { all = \"5 mm\", \"s-r\" = { S = \"6 mm\", L = \"8 mm\" } }\n\
                [piece.Q]\npart = \"p\"\nmaterial = \"c\"\noutline = \"by factory\"\nallowance = \"9 mm\"\n\
                [seam.top]\na = \"P.l:r-s\"\nb = \"P.r:r-s\"\n[seam.low]\na = \"P.l:e-f-f1\"\nb = \"Q:a-b\"\n";
    let one = made(SHEET, keys);
    assert_eq!(one.edges("S")[3], "r-s 6 own");
    assert_eq!(one.edges("L")[3], "r-s 8 own");
    let along = |seam: &str, side: SeamSide, size: &str| -> Vec<String> {
        let joint = &one.loaded.model.joints[seam];
        let all = one.assembly.allowances(&one.loaded.model, joint, side, size);
        all.into_iter().map(|stated| stated.known().expect("known").written()).collect()
    };
    assert_eq!(along("top", SeamSide::A, "S"), ["6 mm"]);
    assert_eq!(along("top", SeamSide::B, "L"), ["8 mm"]);
    // The seam of the piece whose pattern the factory makes is not found, its allowances are.
    assert_eq!(along("low", SeamSide::A, "L"), ["5 mm", "5 mm"]);
    assert_eq!(along("low", SeamSide::B, "L"), ["9 mm"]);
    assert!(matches!(one.figures.seams["low"].sizes["L"].a, Figure::NotYet { .. }));
}

#[test]
fn comparison_takes_an_edge_by_its_runs() {
    let facts = |allowance: &str| -> Vec<String> {
        let one = made(SHEET, &format!("allowance = {allowance}"));
        let statements = backtack_core::facts::statements(&one.loaded);
        let piece = statements.items.iter().find(|item| item.kind == "piece").expect("the piece");
        let some = piece.facts.iter().filter(|fact| fact.key.starts_with("allowance"));
        some.map(|fact| format!("{} {}", fact.key, fact.meaning.key()))
            .collect::<std::collections::BTreeSet<_>>()
            .into_iter()
            .collect()
    };
    let long = facts("{ all = \"5 mm\", \"e-f-f1\" = \"7 mm\" }");
    assert_eq!(long.len(), 3, "{long:?}");
    assert_eq!(long, facts("{ \"f1 - f\" = \"7 mm\", all = \"5 mm\", \"f-e\" = \"0.7 cm\" }"));
}

#[test]
fn figures_say_which_side_is_printed() {
    let with = |p: &str, q: &str| {
        let keys = format!(
            "{p}\n[piece.Q]\npart = \"p\"\nmaterial = \"c\"\noutline = {SHEET}\n{q}\n[seam.top]\na = \"P:r-s\"\nb = \"Q:r-s\"\n"
        );
        let seam = made(SHEET, &keys).figures.seams["top"].clone();
        let json = serde_json::to_value(seam.allowance_of).expect("a word");
        let widths = seam.widths(["S", "L"]).join(" / ");
        (json.as_str().expect("a word").to_string(), seam.sizes["L"].allowance.clone(), widths)
    };
    let widths = |a: &[&str], b: &[&str]| {
        let [a, b] = [a, b].map(|all| all.iter().map(ToString::to_string).collect());
        compute::Widths { a, b }
    };
    let by_size = "allowance = { all = \"5 mm\", \"r-s\" = { S = \"6 mm\", L = \"0.8 cm\" } }";
    let (plain, none) = ("allowance = \"6 mm\"", "raw = [\"r-s\"]");
    let said = |word: &str, a: &[&str], b: &[&str], all: &str| (word.to_string(), widths(a, b), all.to_string());
    assert_eq!(with(by_size, by_size), said("alike", &["0.8 cm"], &["0.8 cm"], "6 mm / 0.8 cm"));
    // They are the same in one size alone: each is printed.
    assert_eq!(with(by_size, plain), said("each", &["0.8 cm"], &["6 mm"], "6 mm / 0.8 cm"));
    assert_eq!(with(plain, none), said("a", &["6 mm"], &[], "6 mm"));
    assert_eq!(with(none, plain), said("b", &[], &["6 mm"], "6 mm"));
    assert_eq!(with(none, none), said("none", &[], &[], ""));
}

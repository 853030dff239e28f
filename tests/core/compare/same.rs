//! What is no change, as properties.

use proptest::prelude::*;

use super::{BASE, between};

/// The tables of a text, each with its heading.
fn tables(text: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for line in text.lines() {
        if line.starts_with('[') || all.is_empty() {
            all.push(String::new());
        }
        let last = all.last_mut().unwrap();
        last.push_str(line);
        last.push('\n');
    }
    all
}

fn same(files: &[(&str, &str)]) {
    let changes = between(&[("bag.toml", BASE)], files);
    assert!(changes.is_empty() && changes.overlays.is_empty(), "{changes:#?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Tables in any order, in any of three files, with remarks and spaces between them.
    #[test]
    fn order_files_and_remarks(order in Just(tables(BASE)).prop_shuffle(), homes in prop::collection::vec(0..3_usize, 64)) {
        let mut files = [String::new(), String::new(), String::new()];
        for (table, home) in order.iter().zip(&homes) {
            files[*home].push_str(&format!("# a remark\n\n{}   \n", table.replace(" = ", "  =  ")));
        }
        let names = ["a.toml", "more/b.toml", "z.toml"];
        let files: Vec<(&str, &str)> = names.into_iter().zip(files.iter().map(String::as_str)).collect();
        same(&files);
    }
}

/// The same value in another unit or form.
const SAME: &[(&str, &str)] = &[
    ("\"1500 mm\"", "\"150 cm\""),
    ("\"1500 mm\"", "\"1.5 m\""),
    ("\"1500 mm\"", "{ S = \"1500 mm\", L = \"150 cm\" }"),
    ("\"1500 mm\"", "{ warm = \"1500 mm\", else = \"1500 mm\" }"),
    ("\"1500 mm\"", "{ value = \"1500 mm\" }"),
    ("\"1500 mm\"", "{ value = \"1500 mm\", binding = \"required\", audience = \"everyone\" }"),
    ("±5 mm", "+5/-5 mm"),
    ("300 g/m2 ±5 %", "300 g/m2 ±15 g/m2"),
    ("\"4 st/cm\"", "\"10.16 st/in\""),
    ("80 % cotton, 20 % linen", "20% linen,  80 % cotton"),
    ("80 % cotton, 20 % linen\"", "80 % cotton, 20 % linen\"\n\"mass\" = \"300 g/m2 ±5 %\"#"),
    ("[\"Norway\", \"Iceland\"]", "[\"IS\", \"NO\"]"),
    ("\"FRONT:nw-sw-se-ne\"", "\"FRONT:nw-sw, sw-se, se-ne\""),
    ("sw-se 40 mm", "sw-se 4 cm"),
    ("\"ne-nw\" = \"30 mm\"", "\"nw-ne\" = \"30 mm\""),
    ("stitch = \"lock\"\n[edge-finish", "mirrored = false\nstitch = \"lock\"\n[edge-finish"),
    ("width = \"200 mm\", height", "width = \"20 cm\", height"),
    ("[piece.FRONT]\npart = \"bag\"\n", "[piece.FRONT]\ncount = 1\npart = \"bag\"\ncopies = 1\ndarts = \"marked\"\n"),
];

#[test]
fn another_way_to_write_the_same_is_no_change() {
    for (from, to) in SAME.iter().filter(|(_, to)| !to.contains('#')) {
        assert!(BASE.contains(from), "{from}");
        same(&[("bag.toml", &BASE.replace(from, to))]);
    }
}

/// Both sides of a seam walked from the other end.
#[test]
fn a_seam_from_its_other_end_is_no_change() {
    let text = BASE.replace("FRONT:nw-sw-se-ne", "FRONT:ne-se-sw-nw").replace("BACK:ne-se-sw-nw", "BACK:nw-sw-se-ne");
    same(&[("bag.toml", &text)]);
    // One side alone is twisted.
    let text = BASE.replace("FRONT:nw-sw-se-ne", "FRONT:ne-se-sw-nw");
    assert!(!between(&[("bag.toml", BASE)], &[("bag.toml", &text)]).is_empty());
}

/// The keys of a shell may stand with the piece or in its own table.
#[test]
fn a_shell_may_be_written_out() {
    let short = "material = \"body\"\noutline = { shape = \"rectangle\", width = \"200 mm\", height = \"300 mm\" }\nallowance = { all = \"10 mm\", \"ne-nw\" = \"30 mm\" }\ngrain = \"sw-nw\"\nnotches";
    let long = "cut.shell.material = \"body\"\noutline = { shape = \"rectangle\", width = \"200 mm\", height = \"300 mm\" }\ncut.shell.allowance = { all = \"10 mm\", \"ne-nw\" = \"30 mm\" }\ngrain = \"sw-nw\"\nnotches";
    assert!(BASE.contains(short));
    same(&[("bag.toml", &BASE.replace(short, long))]);
}

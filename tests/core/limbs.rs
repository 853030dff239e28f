//! Limbs that are there left and right, as the guide to seams writes them.

use std::path::Path;

use backtack_core::diag::{Finding, Severity};

use crate::readme::blocks;

/// The toy round the legs of the guide: two sides, a belly, and what is done.
const AROUND: &str = "[style]\nid = \"V\"\nsizes = [\"S\"]\n[part.body]\nform = \"stuffed\"\n\
    [piece.SIDE]\npart = \"body\"\ncopies = [\"l\", \"r mirrored\"]\nallowance = \"5 mm\"\n\
    outline = { svg = \"toy.svg\", is = \"sew line\" }\n\
    [piece.BELLY]\npart = \"body\"\nallowance = \"5 mm\"\n\
    outline = { svg = \"toy.svg\", is = \"sew line\", fold = \"n-w\" }\n\
    [seam.back]\na = \"SIDE.l:f-h\"\nb = \"SIDE.r:f-h\"\n\
    [opening.mouth]\na = \"SIDE.l:h-g\"\nb = \"SIDE.r:h-g\"\nclose = { by = \"hand\", note = \"ladder stitch\" }\n\
    [step.turn_leg]\ndo = \"turn\"\npart = \"leg\"\n[step.turn]\ndo = \"turn\"\npart = \"body\"\n";

/// Side and belly have the same lower edge, the leg is open from p to q.
const DRAWING: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"400mm\" height=\"400mm\" viewBox=\"0 0 400 400\">\
    <path id=\"SIDE\" d=\"M 20 150 L 80 180 L 120 180 L 220 150 L 70 40 Z\"/>\
    <circle id=\"SIDE.f\" cx=\"20\" cy=\"150\" r=\"1\"/><circle id=\"SIDE.l1\" cx=\"80\" cy=\"180\" r=\"1\"/>\
    <circle id=\"SIDE.l2\" cx=\"120\" cy=\"180\" r=\"1\"/><circle id=\"SIDE.g\" cx=\"220\" cy=\"150\" r=\"1\"/>\
    <circle id=\"SIDE.h\" cx=\"70\" cy=\"40\" r=\"1\"/>\
    <path id=\"BELLY\" d=\"M 20 350 L 80 320 L 120 320 L 220 350 Z\"/>\
    <circle id=\"BELLY.n\" cx=\"20\" cy=\"350\" r=\"1\"/><circle id=\"BELLY.m1\" cx=\"80\" cy=\"320\" r=\"1\"/>\
    <circle id=\"BELLY.m2\" cx=\"120\" cy=\"320\" r=\"1\"/><circle id=\"BELLY.w\" cx=\"220\" cy=\"350\" r=\"1\"/>\
    <path id=\"LEG\" d=\"M 300 100 L 340 100 L 345 160 L 290 160 Z\"/>\
    <circle id=\"LEG.p\" cx=\"300\" cy=\"100\" r=\"1\"/><circle id=\"LEG.q\" cx=\"340\" cy=\"100\" r=\"1\"/>\
    <circle id=\"LEG.t\" cx=\"345\" cy=\"160\" r=\"1\"/></svg>";

const ORDER: &str = "\"leg\", \"turn_leg\", \"back\", \"belly\", \"turn\", \"mouth\"";

/// What is found of the sewing of the toy with the legs of the guide, changed.
fn found(changes: &[(&str, &str)], order: &str) -> Vec<Finding> {
    let page = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/seams.md");
    let page = std::fs::read_to_string(page).unwrap();
    let block = blocks(&page, "toml").into_iter().find(|block| block.contains("[piece.LEG]")).unwrap();
    let drawn = "[piece.LEG]\nallowance = \"5 mm\"\noutline = { svg = \"toy.svg\", is = \"sew line\" }\n";
    let legs = changes.iter().fold(block.replace("[piece.LEG]\n", drawn), |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replace(from, to)
    });
    let around = format!("{AROUND}[work]\norder = [{order}]\n");
    let files = [("a.toml", around.as_bytes()), ("legs.toml", legs.as_bytes()), ("toy.svg", DRAWING.as_bytes())];
    let loaded = crate::closure("", files);
    let checked = crate::checked(&loaded);
    let told = |one: &&Finding| ["files", "outline", "reference", "sewing"].contains(&one.rule.family);
    checked.findings.iter().filter(told).filter(|one| one.severity == Severity::Must).cloned().collect()
}

fn codes(findings: &[Finding]) -> Vec<&str> {
    findings.iter().map(|one| one.rule.code).collect()
}

fn helps(findings: &[Finding]) -> Vec<String> {
    findings.iter().flat_map(|one| &one.help).map(|help| help.text.english()).collect()
}

#[test]
fn legs_as_the_guide_writes_them_are_sewn() {
    let found = found(&[], ORDER);
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn a_right_leg_that_is_not_mirrored_is_told_how() {
    let found = found(&[("\"right mirrored\"", "\"right\"")], ORDER);
    let helps = helps(&found);
    let told = "write uses = [\"left\", \"right mirrored\"] in [part.leg]";
    assert!(
        codes(&found).contains(&"limb-twisted-at-root") && helps.iter().any(|help| help.contains(told)),
        "{helps:#?}"
    );
}

#[test]
fn a_ply_that_is_not_mirrored_is_told_how() {
    let plain = ("\"i mirrored\"", "\"i\"");
    let told = "copies = [\"o\", \"i mirrored\"] in [piece.LEG]";
    for changes in [&[plain][..], &[plain, ("\"LEG.i:p-t-q\"", "\"LEG.i:q-t-p\"")]] {
        let helps = helps(&found(changes, ORDER));
        assert!(helps.iter().any(|help| help.contains(told)), "{helps:#?}");
    }
}

#[test]
fn a_leg_that_is_caught_first_gets_one_order_and_it_is_sound() {
    let late = found(&[], "\"back\", \"belly\", \"leg\", \"turn_leg\", \"turn\", \"mouth\"");
    assert_eq!(codes(&late), ["caught-before-sewn"]);
    let sound = "\"back\", \"leg\", \"turn_leg\", \"belly\", \"turn\", \"mouth\"";
    assert_eq!(helps(&late), [format!("write order = [{sound}]")]);
    assert!(found(&[], sound).is_empty());
    let early = found(&[], "\"turn_leg\", \"leg\", \"back\", \"belly\", \"turn\", \"mouth\"");
    assert!(codes(&early).contains(&"turned-before-sewn"), "{early:#?}");
}

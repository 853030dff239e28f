//! One pair for each kind of change.

use backtack_core::revision::compare::{Marks, Remark, State, json};
use backtack_core::words::Phrase;

use super::edited;

fn english(text: &Option<Phrase>) -> Option<String> {
    text.as_ref().map(Phrase::english)
}

/// What stands under the headings of things, without what followed.
fn stated(pairs: &[(&str, &str)]) -> String {
    let (_, text) = edited(pairs);
    let end = text.find("What follows").unwrap_or(text.len());
    text[..end].trim().to_string()
}

#[test]
fn a_text_is_changed() {
    assert_eq!(stated(&[("\"Small bag\"", "\"Bag\"")]), "Style\n  ~ [style] name: Small bag -> Bag");
}

#[test]
fn a_quantity_is_changed_and_said_as_written() {
    assert_eq!(
        stated(&[("width = \"1500 mm\"", "width = \"152 cm\"")]),
        "Materials\n  ~ fabric canvas width: 1500 mm -> 152 cm"
    );
}

#[test]
fn tolerances_are_widened_narrowed_shifted_added_removed() {
    let target = |to: &str| stated(&[("360 mm ±5 mm", to)]);
    let line = |rest: &str| format!("Measurements\n  ~ point-of-measure H target L: 360 mm ±5 mm -> {rest}");
    assert_eq!(target("360 mm ±6 mm"), line("360 mm ±6 mm (tolerance\n      widened)"));
    assert_eq!(target("360 mm ±1 %"), line("360 mm ±1 % (tolerance\n      narrowed)"));
    assert_eq!(
        target("360 mm +6/-4 mm"),
        line("360 mm +6/-4 mm (tolerance\n      widened on one side, narrowed on the other)")
    );
    assert_eq!(target("360 mm"), line("360 mm (tolerance removed)"));
    // The target alone: nothing is said of the tolerance.
    assert_eq!(target("365 mm ±5 mm"), line("365 mm ±5 mm"));
    // The same share of another target is the same tolerance; another share is compared as a share.
    let mass = |to: &str| edited(&[("300 g/m2 ±5 %", to)]).0.items[0].changes[0].remark.clone();
    assert_eq!(mass("400 g/m2 ±5 %"), None);
    assert_eq!(mass("400 g/m2 ±4 %"), Some(Remark::Narrowed));
    assert_eq!(mass("400 g/m2 ±15 g/m2"), None);
    assert_eq!(mass("400 g/m2 ±16 g/m2"), Some(Remark::Widened));
    let (changes, _) = edited(&[("fineness = \"40 tex\"", "fineness = \"40 tex ±5 %\"")]);
    assert_eq!(changes.items[0].changes[0].remark, Some(Remark::ToleranceAdded));
}

#[test]
fn a_value_by_size_is_told_for_the_sizes_it_changed_in() {
    let both = stated(&[("{ S = \"300 mm ±5 mm\", L = \"360 mm ±5 mm\" }", "\"300 mm ±5 mm\"")]);
    assert_eq!(both, "Measurements\n  ~ point-of-measure H target L: 360 mm ±5 mm -> 300 mm ±5 mm");
    let colour = stated(&[("width = \"1500 mm\"", "width = { warm = \"1500 mm\", cold = \"1400 mm\" }")]);
    assert_eq!(colour, "Materials\n  ~ fabric canvas width cold: 1500 mm -> 1400 mm");
}

#[test]
fn things_are_added_and_removed() {
    let (changes, text) = edited(&[("[step.turn]", "[step.press]\ndo = \"press\"\nnote = \"Flat\"\n[step.turn]")]);
    assert!(text.starts_with("Sewing\n  + step press: do press; note Flat"), "{text}");
    assert_eq!(changes.items[0].state, State::Added);
    let gone = stated(&[("[step.turn]\ndo = \"turn\"\npart = \"bag\"\n", "")]);
    assert_eq!(gone, "Sewing\n  - step turn");
}

/// Renaming a piece changes no seam that names it, no count, no outline.
#[test]
fn a_thing_is_renamed_by_was() {
    let (changes, text) = edited(&[
        ("[piece.BACK]", "[piece.REAR]\nwas = \"BACK\""),
        ("\"BACK:ne-se", "\"REAR:ne-se"),
        ("BACK:ne-nw", "REAR:ne-nw"),
    ]);
    assert_eq!(text, "Pieces\n  = piece REAR, was BACK");
    assert_eq!(changes.items[0].state, State::Renamed("BACK".into()));
    assert!(changes.overlays.is_empty() && changes.followed.is_empty(), "{changes:#?}");
}

#[test]
fn materials_sizes_and_seams_are_renamed_too() {
    let fabric = edited(&[("fabric.canvas]", "fabric.duck]\nwas = \"canvas\""), ("canvas/", "duck/")]).1;
    assert_eq!(fabric, "Materials\n  = fabric duck, was canvas");
    let role = edited(&[
        ("role.body]", "role.outer]\nwas = \"body\""),
        ("body = ", "outer = "),
        ("\"body\"", "\"outer\""),
        ("was = \"outer\"", "was = \"body\""),
    ]);
    assert_eq!(role.1, "Materials\n  = role outer, was body");
    let size = edited(&[("size.L]", "size.XL]\nwas = \"L\""), ("\"L\"]", "\"XL\"]"), (" L = ", " XL = ")]).1;
    assert_eq!(size, "Style\n  ~ [style] sizes: L -> XL (after S)\n  = size XL, was L");
    let seam = edited(&[("seam.side]", "seam.flank]\nwas = \"side\""), ("[\"side\"", "[\"flank\"")]).1;
    assert_eq!(seam, "Sewing\n  = seam flank, was side");
}

#[test]
fn an_order_and_a_list_are_told_by_what_differs() {
    let moved = stated(&[("\"turn\", \"hem\"]", "\"hem\", \"turn\"]")]);
    assert_eq!(moved, "Sewing\n  ~ [work] order: turn, hem -> hem, turn (order)");
    let set = stated(&[("[\"Norway\", \"Iceland\"]", "[\"FO\", \"NO\"]")]);
    assert_eq!(set, "Style\n  ~ [style] destinations: Iceland -> FO");
    let fibres = stated(&[("80 % cotton, 20 % linen", "80 % cotton, 20 % hemp")]);
    assert_eq!(fibres, "Materials\n  ~ fabric canvas composition: 20 % linen -> 20 % hemp");
}

#[test]
fn a_chain_is_changed_by_where_it_runs() {
    let text = stated(&[("on = \"FRONT:ne-nw, BACK:ne-nw\"", "on = \"FRONT:ne-nw\"")]);
    assert_eq!(text, "Sewing\n  ~ edge-finish hem on: FRONT:ne-nw, BACK:ne-nw -> FRONT:ne-nw");
}

#[test]
fn an_allowance_is_told_by_its_run() {
    let text = stated(&[(
        "[piece.BACK]\npart = \"bag\"\nmaterial = \"body\"\noutline = { shape = \"rectangle\", width = \"200 mm\", height = \"300 mm\" }\nallowance = { all = \"10 mm\", \"ne-nw\" = \"30 mm\" }",
        "[piece.BACK]\npart = \"bag\"\nmaterial = \"body\"\noutline = { shape = \"rectangle\", width = \"200 mm\", height = \"300 mm\" }\nallowance = { all = \"8 mm\", \"nw-ne\" = \"25 mm\" }",
    )]);
    assert_eq!(text, "Pieces\n  ~ piece BACK allowance: 10 mm -> 8 mm\n  ~ piece BACK allowance ne-nw: 30 mm -> 25 mm");
}

#[test]
fn what_is_left_to_the_factory_is_a_change() {
    let text = stated(&[("fineness = \"40 tex\"", "fineness = \"by factory\"")]);
    assert_eq!(text, "Materials\n  ~ thread sewing fineness: 40 tex -> by factory");
    let text = stated(&[("fineness = \"40 tex\"", "fineness = { value = \"40 tex\", binding = \"confirm\" }")]);
    assert_eq!(text, "Materials\n  ~ thread sewing fineness binding: added confirm");
}

/// 200 × 300 becomes 210 × 300 in S and 252 × 360 in L. The fabric of one panel with its allowances grows from
/// 220 × 340 to 230 × 340 mm, so that both need, in S, 2 × 230 × 340 mm² / (1,480 mm × 80 %) = 132.1 mm instead of 126.4.
#[test]
fn what_follows_a_wider_panel() {
    let (changes, _) = edited(&[("width = \"200 mm\"", "width = \"210 mm\"")]);
    let fabric: Vec<_> = changes.followed.iter().filter(|one| one.family == "fabric").collect();
    let s = fabric.iter().find(|one| one.what == "canvas/red" && one.scope == ["S/warm"]).unwrap();
    assert_eq!(english(&s.before).as_deref(), Some("≈\u{a0}0.126\u{a0}m"));
    assert_eq!(english(&s.after).as_deref(), Some("≈\u{a0}0.132\u{a0}m"));
    let marks = Marks::of(&changes);
    assert!(marks.key("piece", "FRONT", "outline") && marks.thing("fabric", "canvas/red"));
    assert!(!marks.thing("seam", "side"));
}

#[test]
fn a_count_and_limits_follow() {
    let (changes, _) = edited(&[("360 mm ±5 mm", "360 mm ±6 mm")]);
    let limits: Vec<_> = changes.followed.iter().filter(|one| one.family == "limits").collect();
    assert_eq!(limits.len(), 1);
    assert_eq!(
        (english(&limits[0].before).as_deref(), english(&limits[0].after).as_deref()),
        (Some("355–365\u{a0}mm"), Some("354–366\u{a0}mm"))
    );
    assert_eq!(limits[0].scope, ["L"]);
    let (changes, _) = edited(&[("[piece.BACK]\n", "[piece.BACK]\ncount = 2\n")]);
    let pieces: Vec<_> = changes.followed.iter().filter(|one| one.family == "pieces").collect();
    let told: Vec<_> = pieces
        .iter()
        .map(|one| (one.what.clone(), english(&one.before).unwrap(), english(&one.after).unwrap()))
        .collect();
    let wanted = [("", "2", "3"), ("BACK", "1", "2")].map(|(what, a, b)| (what.into(), a.into(), b.into()));
    assert_eq!(told, wanted);
}

#[test]
fn a_seam_that_no_longer_matches_is_named() {
    let narrow = "[piece.BACK]\npart = \"bag\"\nmaterial = \"body\"\noutline = { shape = \"rectangle\", width = \"2";
    let (changes, text) = edited(&[(&format!("{narrow}00 mm"), &format!("{narrow}06 mm"))]);
    assert_eq!(changes.unmatched.len(), 1, "{changes:#?}");
    assert!(text.contains("Seams that no longer match\n  ! side in size S:") || text.contains("  ! side"), "{text}");
}

#[test]
fn json_has_a_format_and_every_change() {
    let (changes, _) = edited(&[("width = \"1500 mm\"", "width = \"152 cm\"")]);
    let value: serde_json::Value = serde_json::from_str(&json(&changes)).unwrap();
    assert_eq!(value["format"], 1);
    assert_eq!(value["same"], false);
    assert_eq!(value["items"][0]["changes"][0]["before"], "1500 mm");
    assert_eq!(value["items"][0]["changes"][0]["after"], "152 cm");
}

/// A new size and a new colourway: what is stated for them alone, and what one product of them takes.
#[test]
fn a_new_size_and_a_new_colourway_are_told_with_what_they_take() {
    let (changes, text) = edited(&[
        ("sizes = [\"S\", \"L\"]", "sizes = [\"S\", \"L\", \"XL\"]"),
        ("[size.L]", "[size.XL]\nscale = { along = \"1.5\", across = \"1.5\" }\n[size.L]"),
        ("L = \"360 mm ±5 mm\"", "L = \"360 mm ±5 mm\", XL = \"450 mm ±5 mm\""),
    ]);
    assert!(text.contains("  + size XL: scale along 1.5; scale across 1.5"), "{text}");
    assert!(text.contains("  ~ point-of-measure H target XL: added 450 mm ±5 mm"), "{text}");
    assert!(text.contains("  limits H XL: none -> 445–455 mm"), "{text}");
    // 300 × 450 with its allowances is 320 × 490: 2 × 320 × 490 / (1,480 × 80 %) = 264.9 mm.
    assert!(text.contains("  fabric canvas/red XL/warm: none -> ≈ 0.265 m"), "{text}");
    assert!(!text.contains(" S:") && changes.overlays.is_empty(), "{text}");
    let (_, text) = edited(&[("[colourway.cold]", "[colourway.dark]\nbody = \"canvas/blue\"\n[colourway.cold]")]);
    assert!(text.contains("  + colourway dark: body canvas/blue"), "{text}");
    assert!(text.contains("  fabric canvas/blue S/dark: none -> "), "{text}");
}

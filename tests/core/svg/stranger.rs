//! What someone draws who has the read-me only: a mouse of three pieces, and the read-me's own picture.

use std::path::Path;

use backtack_core::compute;
use backtack_core::diag::{Findings, Folder, Severity, text};
use backtack_core::geom::length;
use backtack_core::model::Assembly;
use backtack_core::read::{self, Loaded};

use super::load;

const PICTURE: &str = include_str!("outline.svg");

/// Everything that is found in a folder.
fn checked(loaded: &Loaded) -> (Assembly, Findings) {
    let checked = crate::checked(loaded);
    (checked.assembly, checked.findings)
}

fn mouse() -> Loaded {
    crate::folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/core/svg/mouse")).unwrap()
}

#[test]
fn the_mouse_gets_through() {
    let loaded = mouse();
    let (assembly, findings) = checked(&loaded);
    let folder = Folder { name: "mouse", root: "mouse", findings: &findings, sources: &loaded.sources };
    let printed = text::print(&[folder], text::Style { color: false, width: 120 });
    assert!(findings.iter().all(|one| one.severity != Severity::Must), "{printed}");
    assert!(findings.iter().all(|one| one.rule.family != "outline"), "{printed}");
    let [shell] = assembly.sewing.shells.as_slice() else { panic!("one shell: {:?}", assembly.sewing.shells) };
    assert_eq!((shell.faces.len(), shell.euler(), shell.boundary.len()), (3, 2, 0));
}

/// An arc of 100 mm radius over a chord of 120 mm is 200 asin(0.6) mm long, on the side and on both edges of the gusset.
#[test]
fn the_mouse_fits_together() {
    let (assembly, _) = checked(&mouse());
    let wanted = 200.0 * libm::asin(0.6);
    let side = assembly.outlines.get("SIDE", "one").unwrap();
    let gusset = assembly.outlines.get("GUSSET", "one").unwrap();
    let long = |outline: &backtack_core::geom::Outline, a: &str, b: &str| {
        outline.length_of(outline.run_between(a, b).unwrap().index)
    };
    let edges = [
        long(side, "n", "t"),
        long(gusset, "n", "l") + long(gusset, "l", "t"),
        long(gusset, "n", "r") + long(gusset, "r", "t"),
    ];
    for edge in edges {
        assert!((edge - wanted).abs() < 1e-4, "{edge} is not {wanted}");
    }
    assert_eq!(side.notches.len(), 1);
    assert_eq!(gusset.notches.len(), 2);
    assert_eq!(side.marks.iter().map(|mark| mark.id.as_str()).collect::<Vec<_>>(), ["eye"]);
    // The gusset lies upright on its page, and its grain goes up.
    let (from, to) = gusset.grain.unwrap();
    assert!((from.x - to.x).abs() < 1e-9 && to.y > from.y);
}

/// Drawn notches are cut without being written as well: the side's in the middle of its arc, on the normal, 6 mm outside.
#[test]
fn the_mouse_has_its_notches() {
    let loaded = mouse();
    let (assembly, _) = checked(&loaded);
    let drawn = compute::Drawn::of(&loaded.model, &assembly);
    let marks = |piece: &str| drawn.get(piece, "one").unwrap().notches.known().unwrap().clone();
    assert_eq!(marks("GUSSET").len(), 2);
    let [mark] = marks("SIDE").try_into().unwrap();
    let side = assembly.outlines.get("SIDE", "one").unwrap();
    let half = side.length_of(side.run_between("n", "t").unwrap().index) / 2.0;
    assert!((mark.at.1 - half).abs() < 1e-3, "{mark:?}");
    assert!((mark.sew.distance(mark.cut) - 6.0).abs() < 0.01, "{mark:?}");
    assert!((mark.cut.x - mark.sew.x).abs() < 0.01 && mark.cut.y < mark.sew.y, "{mark:?}");
}

/// Where the cut line is drawn, a notch drawn on it stands on the sew line square to it.
#[test]
fn notches_of_a_drawn_cut_line() {
    let dots = [("a", 50.0, 150.0), ("b", 150.0, 150.0), ("c", 150.0, 50.0), ("d", 50.0, 50.0)];
    let dots: String = dots.iter().map(|(id, x, y)| super::dot(id, *x, *y)).collect();
    let notch = "<line id=\"SIDE.notch.k\" x1=\"90\" y1=\"147\" x2=\"90\" y2=\"153\"/>";
    let svg = super::page(&format!("<rect id=\"SIDE\" x=\"50\" y=\"50\" width=\"100\" height=\"100\"/>{dots}{notch}"));
    let toml = "[fabric.felt]\n[part.p]\n[piece.SIDE]\npart = \"p\"\nmaterial = \"felt\"\nallowance = \"10 mm\"\n\
                outline = { svg = \"side.svg\", is = \"cut line\" }\n";
    let loaded = read::texts(&[("style.toml", toml), ("side.svg", &svg)]);
    let assembly = Assembly::of(&loaded.model);
    let drawn = compute::Drawn::of(&loaded.model, &assembly);
    let [mark] = drawn.get("SIDE", "one").unwrap().notches.known().unwrap().clone().try_into().unwrap();
    let near = |at: backtack_core::geom::Point, x: f64, y: f64| (at.x - x).abs() < 0.01 && (at.y - y).abs() < 0.01;
    assert!(near(mark.sew, 90.0, -140.0) && near(mark.cut, 90.0, -150.0), "{mark:?}");
}

/// Where the cut line is drawn, a notch drawn at a named point is that of the point, on both edges of its corner.
#[test]
fn a_notch_at_a_corner_of_a_drawn_cut_line() {
    let dots = [("a", 50.0, 150.0), ("b", 150.0, 150.0), ("c", 150.0, 50.0), ("d", 50.0, 50.0)];
    let dots: String = dots.iter().map(|(id, x, y)| super::dot(id, *x, *y)).collect();
    let notch = "<line id=\"SIDE.notch.k\" x1=\"47\" y1=\"153\" x2=\"53\" y2=\"147\"/>";
    let svg = super::page(&format!("<rect id=\"SIDE\" x=\"50\" y=\"50\" width=\"100\" height=\"100\"/>{dots}{notch}"));
    let toml = "[fabric.felt]\n[part.p]\n[piece.SIDE]\npart = \"p\"\nmaterial = \"felt\"\nallowance = \"10 mm\"\n\
                outline = { svg = \"side.svg\", is = \"cut line\" }\n";
    let loaded = read::texts(&[("style.toml", toml), ("side.svg", &svg)]);
    let assembly = Assembly::of(&loaded.model);
    let drawn = compute::Drawn::of(&loaded.model, &assembly);
    let marks = drawn.get("SIDE", "one").unwrap().notches.known().unwrap().clone();
    let mut cuts: Vec<(i64, i64)> =
        marks.iter().map(|mark| (mark.cut.x.round() as i64, mark.cut.y.round() as i64)).collect();
    cuts.sort_unstable();
    // By hand: the sew line's corner is (60, -140); its edges run on meet the cut line straight below and straight left.
    assert_eq!(cuts, [(50, -140), (60, -150)]);
    assert!(marks.iter().all(|mark| mark.sew.x == 60.0 && mark.sew.y == -140.0));
}

/// The picture of the guide shows one shape of every kind, and the reader takes each for what the guide calls it.
#[test]
fn the_picture_reads_as_the_guide_says() {
    super::nothing_found(PICTURE);
    let outline = super::outline(PICTURE);
    assert_eq!(outline.names(), ["n", "t", "v", "w"]);
    assert!(outline.grain.is_some() && outline.pile.is_some());
    let ids = |marks: &[backtack_core::geom::Mark]| marks.iter().map(|mark| mark.id.clone()).collect::<Vec<_>>();
    assert_eq!(ids(&outline.marks), ["eye"]);
    assert_eq!(ids(&outline.notches), ["m"]);
    assert_eq!(outline.lines.iter().map(|line| line.id.as_str()).collect::<Vec<_>>(), ["ear"]);
    let loaded = load(PICTURE);
    let drawing = loaded.model.drawings.values().next().unwrap();
    let gauge = &drawing.named("gauge").unwrap().paths[0];
    assert!((length(gauge) - 100.0).abs() < 1e-9);
    let guide = include_str!("../../../docs/outlines.md");
    assert!(guide.contains("(../tests/core/svg/outline.svg)"));
    // Every name in the picture is on the page.
    for id in PICTURE.split("id=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
        assert!(guide.contains(&format!("`{id}`")), "docs/outlines.md does not say what {id} is");
    }
}

//! Outlines laid over each other, against closed cases.

use backtack_core::geom::{Affine, Outline, Point, shape};
use backtack_core::revision::compare::{ACCURACY, Overlay, farthest, register};
use backtack_core::scene::{Item, Laid, Line, overlay};
use proptest::prelude::*;

use super::between;

/// A style with one piece of this outline.
fn piece(outline: &str) -> String {
    format!(
        "[style]\nid = \"A\"\nname = \"N\"\n[role.m]\n[part.p]\n[piece.P]\npart = \"p\"\nmaterial = \"m\"\nallowance \
         = \"5 mm\"\noutline = {outline}\n"
    )
}

fn overlays(before: &str, after: &str) -> Vec<Overlay> {
    let (before, after) = (piece(before), piece(after));
    between(&[("a.toml", &before)], &[("a.toml", &after)]).overlays
}

fn polygon(corners: &[(&str, f64, f64)]) -> String {
    let each: Vec<String> = corners.iter().map(|(id, x, y)| format!("[\"{id}\", \"{x} mm\", \"{y} mm\"]")).collect();
    format!("{{ shape = \"polygon\", corners = [{}] }}", each.join(", "))
}

const SQUARE: [(&str, f64, f64); 4] = [("a", 0.0, 0.0), ("b", 100.0, 0.0), ("c", 100.0, 100.0), ("d", 0.0, 100.0)];

/// Three corners agree, so that the fourth has moved by the whole 3 mm: √(1.8² + 2.4²). The area grows by half the base
/// b-d times the share of the move square to it: (1.8 + 2.4) × 100 / 2 = 210 mm².
#[test]
fn a_corner_moved_by_three_millimetres() {
    let mut moved = SQUARE;
    moved[2] = ("c", 101.8, 102.4);
    let all = overlays(&polygon(&SQUARE), &polygon(&moved));
    let [one] = &all[..] else { panic!("{all:#?}") };
    assert!((one.farthest.distance - 3.0).abs() <= ACCURACY, "{}", one.farthest.distance);
    assert_eq!(one.place.english(), "at c");
    assert!((one.area.1 - one.area.0 - 210.0).abs() < 1e-6, "{:?}", one.area);
    assert_eq!(one.moved.len(), 1);
    assert!((one.moved[0].by.unwrap() - 3.0).abs() < 1e-9);
    // b-c: from 100 to √(1.8² + 102.4²).
    let run = one.runs.iter().find(|run| run.from == "b").unwrap();
    assert!((run.after - (1.8_f64.powi(2) + 102.4_f64.powi(2)).sqrt()).abs() < 1e-9);
}

/// A circle on its centre: everywhere 3 mm; the area grows by π (53² - 50²).
#[test]
fn a_radius_grown_by_three_millimetres() {
    let all =
        overlays("{ shape = \"circle\", diameter = \"100 mm\" }", "{ shape = \"circle\", diameter = \"106 mm\" }");
    let [one] = &all[..] else { panic!("{all:#?}") };
    assert!((one.farthest.distance - 3.0).abs() <= ACCURACY, "{}", one.farthest.distance);
    let grown = std::f64::consts::PI * (53.0_f64.powi(2) - 50.0_f64.powi(2));
    assert!((one.area.1 - one.area.0 - grown).abs() < grown * 1e-3, "{:?}", one.area);
}

/// A square that grows by 2 mm lies on its centre: 1 mm a side, √2 mm at a corner; the area grows by 102² - 100².
#[test]
fn a_square_grown_by_two_millimetres() {
    let square = |side: f64| format!("{{ shape = \"rectangle\", width = \"{side} mm\", height = \"{side} mm\" }}");
    let all = overlays(&square(100.0), &square(102.0));
    let [one] = &all[..] else { panic!("{all:#?}") };
    assert!((one.farthest.distance - 2.0_f64.sqrt()).abs() <= ACCURACY, "{}", one.farthest.distance);
    assert!((one.area.1 - one.area.0 - 404.0).abs() < 1e-6);
    assert!(one.place.english().starts_with("at "), "{}", one.place);
    assert!(one.runs.iter().all(|run| (run.after - run.before - 2.0).abs() < 1e-9) && one.runs.len() == 4);
}

/// A point that slides along its edge leaves the line as it is, and is told by itself.
#[test]
fn a_point_slides_along_its_edge() {
    let at = |place: &str| {
        format!(
            "{{ shape = \"rectangle\", width = \"100 mm\", height = \"50 mm\", points = {{ p = \"sw-se {place}\" }} }}"
        )
    };
    let all = overlays(&at("40 mm"), &at("45 mm"));
    let [one] = &all[..] else { panic!("{all:#?}") };
    assert!(!one.differs);
    assert_eq!(one.moved.len(), 1);
    assert_eq!((one.moved[0].what, one.moved[0].id.as_str()), ("point", "p"));
    assert!((one.moved[0].by.unwrap() - 5.0).abs() < 1e-6, "{:?}", one.moved);
    // Half of the length is the same place in this size, however it is written.
    assert!(overlays(&at("50 mm"), &at("50 %")).is_empty());
}

#[test]
fn a_mirror_image_is_named_as_one() {
    let shape: [(&str, f64, f64); 4] = [("a", 0.0, 0.0), ("b", 100.0, 0.0), ("c", 70.0, 60.0), ("d", 0.0, 40.0)];
    let image = shape.map(|(id, x, y)| (id, -x, y));
    let all = overlays(&polygon(&shape), &polygon(&image));
    assert!(all.len() == 1 && all[0].mirrored && all[0].farthest.distance > 1.0, "{all:#?}");
}

/// What is below the printed digit is no change, what is above it is.
#[test]
fn the_accuracy_is_that_of_print() {
    let wide = |width: &str| format!("{{ shape = \"rectangle\", width = \"{width}\", height = \"100 mm\" }}");
    assert!(overlays(&wide("100 mm"), &wide("100.06 mm")).is_empty());
    assert_eq!(overlays(&wide("100 mm"), &wide("100.2 mm")).len(), 1);
}

fn blob() -> Outline {
    let corner = |id: &str, x: f64, y: f64| (id.to_string(), Point::new(x, y));
    shape::polygon(&[
        corner("a", 0.0, 0.0),
        corner("b", 120.0, 5.0),
        corner("c", 90.0, 80.0),
        corner("d", 40.0, 95.0),
        corner("e", -10.0, 60.0),
    ])
    .unwrap()
}

proptest! {
    /// Moved and turned anywhere: registered to the micrometre.
    #[test]
    fn a_moved_drawing_is_the_same(angle in 0.0..6.3_f64, x in -900.0..900.0_f64, y in -900.0..900.0_f64) {
        let map = Affine::rotation(angle).then(Affine::translation(Point::new(x, y)));
        let (before, up) = (blob(), Point::new(0.0, 1.0));
        let after = before.transformed(&map).unwrap();
        let found = register(&before, &after, (up, up));
        prop_assert!(found.left < 1e-6, "{}", found.left);
        prop_assert!((found.map.determinant() - 1.0).abs() < 1e-9);
    }

    /// Corners in any order of starting, the other way round, moved: no change.
    #[test]
    fn a_polygon_from_another_start_or_the_other_way_round(first in 0..4_usize, back in any::<bool>(), x in -300..300_i32) {
        let mut corners = SQUARE.map(|(id, px, py)| (id, px + f64::from(x), py - f64::from(x)));
        corners[2].2 += 25.0;
        let before = polygon(&corners.map(|(id, px, py)| (id, px - f64::from(x), py + f64::from(x))));
        corners.rotate_left(first);
        if back {
            corners.reverse();
        }
        let all = overlays(&before, &polygon(&corners));
        prop_assert!(all.is_empty(), "{all:#?}");
    }
}

/// The largest distance found by looking every tenth of a millimetre along one line at every edge of the other.
fn looked_up(these: &Outline, others: &Outline) -> f64 {
    let edges = |outline: &Outline| {
        let runs = outline.runs();
        runs.iter().map(|run| (run.start, run.segments[0].end())).collect::<Vec<_>>()
    };
    let off =
        |point: Point| edges(others).iter().map(|(a, b)| point.distance_to_edge(*a, *b)).fold(f64::INFINITY, f64::min);
    let along = |(a, b): &(Point, Point)| {
        let steps = (a.distance(*b) * 10.0).ceil() as u32;
        (0..=steps).map(|n| off(a.lerp(*b, f64::from(n) / f64::from(steps)))).fold(0.0, f64::max)
    };
    edges(these).iter().map(along).fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    /// The search that leaves places out finds what looking everywhere finds.
    #[test]
    fn the_largest_distance_is_the_largest(dx in -25.0..25.0_f64, dy in -25.0..25.0_f64, turn in -0.2..0.2_f64) {
        let before = blob();
        let mut corners: Vec<(String, Point)> =
            before.points.iter().map(|one| (one.id.clone(), before.point(&one.id).unwrap())).collect();
        corners[2].1 = corners[2].1 + Point::new(dx, dy);
        let after = shape::polygon(&corners).unwrap().transformed(&Affine::rotation(turn)).unwrap();
        let found = farthest(&before.path, &after.path, ACCURACY).distance;
        let looked = looked_up(&before, &after).max(looked_up(&after, &before));
        prop_assert!((found - looked).abs() <= ACCURACY + 0.05, "{found} {looked}");
    }
}

/// A drawing moved and turned on its page, its path reversed, its file renamed.
#[test]
fn a_drawing_is_what_it_draws() {
    let points = |p: [(f64, f64); 4]| {
        let mark = |(id, (x, y)): (&str, (f64, f64))| format!("<circle id=\"P.{id}\" cx=\"{x}\" cy=\"{y}\" r=\"1\"/>");
        ["a", "b", "c", "d"].into_iter().zip(p).map(mark).collect::<String>()
    };
    let svg = |path: &str, at: [(f64, f64); 4]| {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300mm\" height=\"300mm\" viewBox=\"0 0 300 300\"><path \
             id=\"P\" d=\"{path}\"/>{}</svg>",
            points(at)
        )
    };
    let one =
        svg("M10 10 H110 C130 30 130 60 110 80 H10 Z", [(10.0, 10.0), (110.0, 10.0), (110.0, 80.0), (10.0, 80.0)]);
    // Turned by a quarter about the origin and moved, drawn the other way round.
    let turn = |(x, y): (f64, f64)| (250.0 - y, x + 20.0);
    let [a, b, c, d] = [(10.0, 10.0), (110.0, 10.0), (110.0, 80.0), (10.0, 80.0)].map(turn);
    let (e, f) = (turn((130.0, 30.0)), turn((130.0, 60.0)));
    let path = format!(
        "M{} {} L{} {} L{} {} C{} {} {} {} {} {} Z",
        a.0, a.1, d.0, d.1, c.0, c.1, f.0, f.1, e.0, e.1, b.0, b.1
    );
    let other = svg(&path, [a, b, c, d]);
    let (before, after) = (piece("{ svg = \"one.svg\" }"), piece("{ svg = \"two/other.svg\" }"));
    let old = [("a.toml", before.as_str()), ("one.svg", one.as_str())];
    let new = [("a.toml", after.as_str()), ("two/other.svg", other.as_str())];
    let changes = between(&old, &new);
    assert!(changes.is_empty() && changes.not_compared.is_empty(), "{changes:#?}");
    // The same with one corner elsewhere is a change, although nothing written differs.
    let (circle, moved) = (format!("cx=\"{}\" cy=\"{}\"", d.0, d.1), format!("cx=\"{}\" cy=\"{}\"", d.0 - 1.0, d.1));
    let third =
        other.replace(&circle, &moved).replace(&format!("L{} {}", d.0, d.1), &format!("L{} {}", d.0 - 1.0, d.1));
    let new = [("a.toml", after.as_str()), ("two/other.svg", third.as_str())];
    let changes = between(&old, &new);
    assert_eq!(changes.overlays.len(), 1, "{changes:#?}");
    assert!((changes.overlays[0].farthest.distance - 1.0).abs() <= ACCURACY);
    assert_eq!(changes.items[0].changes[0].key, "outline");
    // One that cannot be made is no silent "no change".
    let crossed = piece("{ svg = \"none.svg\" }");
    let changes = between(&old, &[("a.toml", crossed.as_str())]);
    assert!(!changes.is_empty() && changes.not_compared.len() == 1, "{changes:#?}");
}

/// The earlier outline dashed, the later one solid, the largest distance with its length, the scale of the drawing.
#[test]
fn an_overlay_is_drawn() {
    let mut moved = SQUARE;
    moved[2] = ("c", 101.8, 102.4);
    let all = overlays(&polygon(&SQUARE), &polygon(&moved));
    let one = &all[0];
    let ends = (one.farthest.before, one.farthest.after);
    let mut laid = Laid::of(&one.before.path, &one.after.path, ends, "3.0 mm");
    for point in &one.after.points {
        laid = laid.with_point(&point.id, one.after.point(&point.id).unwrap());
    }
    let (scene, scale) = overlay(&laid, "50 mm", |_| [90.0, 90.0], "A square before and after");
    assert!(
        (scale - 2.0).abs() < 1e-12 && scene.width <= 90.0 && scene.height <= 90.0,
        "{scale} {} {}",
        scene.width,
        scene.height
    );
    let lines: Vec<Line> =
        scene.items.iter().filter_map(|item| if let Item::Path(path) = item { path.line } else { None }).collect();
    assert_eq!(lines.iter().filter(|line| **line == Line::Former).count(), 1);
    assert_eq!(lines.iter().filter(|line| **line == Line::Outline).count(), 1);
    assert!(!Line::Former.style().dash.is_empty() && Line::Outline.style().dash.is_empty());
    let texts: Vec<&str> = scene
        .items
        .iter()
        .filter_map(|item| if let Item::Label(label) = item { Some(label.text.as_str()) } else { None })
        .collect();
    for wanted in ["3.0 mm", "50 mm", "a", "b", "c", "d"] {
        assert!(texts.contains(&wanted), "{texts:?}");
    }
}

//! However a shape is drawn, it is the same shape: properties over random outlines.
//!
//! Backwards and from another start it keeps its bits. Through transformations and units it keeps its place to a
//! millionth of a millimetre: what the rounding of a double leaves, and a thousandth of the grid.

use backtack_core::geom::{Outline, Path, Point, Segment};
use proptest::prelude::*;

use super::outline;

/// A corner and the two control points on the way to the next.
type Corner = [Point; 3];

/// Rounded outlines of five to nine corners about (100, 100), in mm and y down.
fn outlines() -> impl Strategy<Value = Vec<Corner>> {
    let polar =
        |angle: f64, radius: f64| Point::new(100.0 + radius * libm::cos(angle), 100.0 + radius * libm::sin(angle));
    prop::collection::vec((40.0..70.0, 40.0..70.0), 5..10).prop_map(move |radii| {
        let step = 2.0 * std::f64::consts::PI / radii.len() as f64;
        let next = radii.iter().cycle().skip(1);
        let each = radii.iter().zip(next).enumerate().map(|(n, ((corner, control), (after, _)))| {
            let at = |share: f64, radius: f64| polar(step * (n as f64 + share), radius);
            [at(0.0, *corner), at(0.33, *control), at(0.67, 0.5 * (control + after))]
        });
        each.collect()
    })
}

/// The path of the corners from one of them on, each place moved by a map.
fn data(corners: &[Corner], first: usize, map: &dyn Fn(Point) -> Point) -> Path {
    let count = corners.len();
    let start = map(corners[first][0]);
    let segments = (0..count).map(|n| {
        let [_, a, b] = corners[(first + n) % count];
        Segment::Cubic(map(a), map(b), map(corners[(first + n + 1) % count][0]))
    });
    Path::new(start, segments.collect())
}

fn written(path: &Path) -> String {
    let mut text = format!("M {} {}", path.start.x, path.start.y);
    for segment in &path.segments {
        if let Segment::Cubic(a, b, end) = segment {
            text.push_str(&format!(" C {} {} {} {} {} {}", a.x, a.y, b.x, b.y, end.x, end.y));
        }
    }
    text + " Z"
}

/// The outline and its points within what stands round them, on a page with the given size.
fn drawing(path: &Path, corners: &[Corner], map: &dyn Fn(Point) -> Point, around: (&str, &str), page: &str) -> String {
    let dots = corners.iter().enumerate().map(|(n, corner)| {
        let at = map(corner[0]);
        format!("<circle id=\"SIDE.p{n}\" cx=\"{}\" cy=\"{}\" r=\"0.1\"/>\n", at.x, at.y)
    });
    let (before, after) = around;
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" {page}>\n{before}<path id=\"SIDE\" d=\"{}\"/>\n{}{after}</svg>",
        written(path),
        dots.collect::<String>()
    )
}

const PAGE: &str = "width=\"200mm\" height=\"200mm\" viewBox=\"0 0 200 200\"";

fn plain(corners: &[Corner]) -> Outline {
    outline(&drawing(&data(corners, 0, &|p| p), corners, &|p| p, ("", ""), PAGE))
}

/// Every run as a row of places.
fn runs(outline: &Outline) -> Vec<(String, String, Vec<Point>)> {
    let row = |path: Path| {
        let on = |(start, segment): (Point, &Segment)| {
            (0..16).map(|n| segment.point_at(start, f64::from(n) / 16.0)).collect::<Vec<_>>()
        };
        path.pieces().flat_map(on).collect()
    };
    let each = outline.runs().into_iter().map(|run| {
        let (from, to) = run.ends();
        (from, to, row(run.path()))
    });
    each.collect()
}

/// Whether two outlines lie on each other but for what rounding leaves.
fn same(a: &Outline, b: &Outline) -> Result<(), TestCaseError> {
    let (a, b) = (runs(a), runs(b));
    prop_assert_eq!(a.len(), b.len());
    for (one, other) in a.iter().zip(&b) {
        prop_assert_eq!((&one.0, &one.1, one.2.len()), (&other.0, &other.1, other.2.len()));
        for (p, q) in one.2.iter().zip(&other.2) {
            prop_assert!(p.distance(*q) < 1e-6, "{:?} {:?}", p, q);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn backwards_and_from_another_start(corners in outlines(), first in 0_usize..5) {
        let wanted = plain(&corners);
        let path = data(&corners, first, &|p| p);
        let moved = outline(&drawing(&path, &corners, &|p| p, ("", ""), PAGE));
        prop_assert_eq!(runs(&moved), runs(&wanted));
        let back = outline(&drawing(&path.reversed(), &corners, &|p| p, ("", ""), PAGE));
        // A curve run backwards passes the same places, computed in the other order.
        same(&back, &wanted)?;
        prop_assert_eq!(back.names(), wanted.names());
    }

    #[test]
    fn mirrored_within_a_group(corners in outlines()) {
        let map = |p: Point| Point::new(200.0 - p.x, p.y);
        let around = ("<g transform=\"matrix(-1 0 0 1 200 0)\">", "</g>");
        same(&outline(&drawing(&data(&corners, 0, &map), &corners, &map, around, PAGE)), &plain(&corners))?;
    }

    #[test]
    fn turned_scaled_and_moved_by_groups(
        corners in outlines(), degrees in -180.0..180.0, scale in 0.05..20.0, dx in -300.0..300.0, dy in -300.0..300.0
    ) {
        let (sin, cos) = (libm::sin(f64::to_radians(degrees)), libm::cos(f64::to_radians(degrees)));
        // What is undone by the groups from the outside in: move, turn, scale.
        let map = |p: Point| {
            let p = p - Point::new(dx, dy);
            Point::new((p.x * cos + p.y * sin) / scale, (p.y * cos - p.x * sin) / scale)
        };
        let before = format!(
            "<g transform=\"translate({dx} {dy})\"><g transform=\"rotate({degrees})\"><g transform=\"scale({scale})\">"
        );
        let nested = drawing(&data(&corners, 0, &map), &corners, &map, (&before, "</g></g></g>"), PAGE);
        let wanted = plain(&corners);
        same(&outline(&nested), &wanted)?;
        let one = format!("<g transform=\"translate({dx},{dy}) rotate({degrees}), scale({scale})\">");
        same(&outline(&drawing(&data(&corners, 0, &map), &corners, &map, (&one, "</g>"), PAGE)), &wanted)?;
    }

    /// Units by their definitions: CSS Values and Units, section 6.2.
    #[test]
    fn in_every_unit(corners in outlines(), unit in 0.01..100.0, x in -500.0..500.0, y in -500.0..500.0) {
        let wanted = plain(&corners);
        for (name, per_mm) in
            [("mm", 1.0), ("cm", 0.1), ("in", 1.0 / 25.4), ("pt", 72.0 / 25.4), ("pc", 6.0 / 25.4), ("px", 96.0 / 25.4), ("", 96.0 / 25.4)]
        {
            let side = 200.0 * per_mm;
            // User units as large as one likes, from a corner where one likes.
            let view = 200.0 / unit;
            let page = format!("width=\"{side}{name}\" height=\"{side}{name}\" viewBox=\"{x} {y} {view} {view}\"");
            let map = |p: Point| Point::new(p.x / unit + x, p.y / unit + y);
            same(&outline(&drawing(&data(&corners, 0, &map), &corners, &map, ("", ""), &page)), &wanted)?;
        }
        // Without a viewBox user units are pixels.
        let map = |p: Point| p * (96.0 / 25.4);
        same(&outline(&drawing(&data(&corners, 0, &map), &corners, &map, ("", ""), "width=\"20cm\" height=\"20cm\"")), &wanted)?;
    }
}

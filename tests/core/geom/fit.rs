//! Curves fitted back through cut lines.

use super::offset::{ell, polygon};
use backtack_core::geom::{Corner, CutLine, Outline, Path, Point, Segment, flatten, grid, measure, offset, shape};

const MITRE: Corner = Corner::Mitre { limit: 3.0 };

fn cut(outline: &Outline, width: f64, corner: Corner) -> CutLine {
    offset::outset(outline, &vec![width; outline.runs().len()], corner).expect("a cut line")
}

fn only(line: &CutLine) -> Path {
    let curves = line.curves();
    assert_eq!(curves.len(), 1);
    curves.into_iter().next().expect("a path")
}

fn pieces(path: &Path) -> (usize, usize) {
    let curves = path.segments.iter().filter(|segment| matches!(segment, Segment::Cubic(..))).count();
    (path.segments.len() - curves, curves)
}

/// Places on every segment of a path.
fn sampled(path: &Path) -> Vec<Point> {
    let on = |(start, segment): (Point, &Segment)| {
        let segment = *segment;
        (0..50).map(move |n| segment.point_at(start, f64::from(n) / 50.0))
    };
    path.pieces().flat_map(on).collect()
}

/// The offset of a circle is a circle: every place of the fitted line is on it within 0.01 mm, and few curves do.
#[test]
fn circles_become_circles() {
    for diameter in [4.0, 20.0, 300.0, 2_000.0] {
        let line = cut(&shape::circle(diameter).expect("a circle"), 6.0, MITRE);
        let path = only(&line);
        let off = |p: &Point| (p.norm() - diameter / 2.0 - 6.0).abs();
        let worst = sampled(&path).iter().map(off).fold(0.0, f64::max);
        assert!(worst <= 0.01, "{diameter}: {worst}");
        let (lines, curves) = pieces(&path);
        assert!(lines == 0 && curves <= 40, "{diameter}: {lines} lines, {curves} curves");
        assert!(path.closed());
    }
}

/// Straight pieces stay lines, corners stay corners, arcs at corners become arcs.
#[test]
fn straight_pieces_stay_straight() {
    assert_eq!(pieces(&only(&cut(&ell(), 7.0, MITRE))), (6, 0));
    let round = only(&cut(&shape::rectangle(80.0, 120.0).expect("a panel"), 6.0, Corner::Round));
    let (lines, curves) = pieces(&round);
    assert!(lines == 4 && (8..=16).contains(&curves), "{lines} lines, {curves} curves");
    // By hand: 80 · 120 + 2 · 6 · 200 + 36π.
    let area = measure::signed_area(&round);
    assert!((area - (9_600.0 + 2_400.0 + 36.0 * std::f64::consts::PI)).abs() < 0.05, "{area}");
}

/// Every curve passes the corners of its contour within 0.01 mm and the contour passes every place of the curve.
#[test]
fn curves_and_contours_are_one_line() {
    let outlines = [
        shape::gore(6, 120.0).expect("a gore"),
        shape::ellipse(300.0, 120.0).expect("an oval"),
        shape::rounded_rectangle(300.0, 200.0, 25.0).expect("a panel"),
        polygon(&[("a", 0.0, 0.0), ("b", 90.0, 10.0), ("c", 40.0, 15.0), ("d", 20.0, 80.0)]),
    ];
    for outline in outlines {
        for corner in [MITRE, Corner::Round] {
            let line = cut(&outline, 5.0, corner);
            let path = only(&line);
            let contour = line.single().expect("one contour");
            let far = |p: &Point| {
                let edges = contour.edges().map(|(a, b)| p.distance_to_edge(a.point(), b.point()));
                edges.fold(f64::INFINITY, f64::min)
            };
            let worst = sampled(&path).iter().map(far).fold(0.0, f64::max);
            assert!(worst <= 0.01, "{worst}");
            let flat = flatten(&path, 0.000_5);
            let back = |p: &grid::GridPoint| {
                let edges = flat.iter().zip(flat.iter().cycle().skip(1));
                edges.map(|(a, b)| p.point().distance_to_edge(*a, *b)).fold(f64::INFINITY, f64::min)
            };
            assert!(contour.points.iter().map(back).fold(0.0, f64::max) <= 0.006);
            assert!(
                path.segments.len() * 3 <= contour.points.len().max(24),
                "{} of {}",
                path.segments.len(),
                contour.points.len()
            );
        }
    }
}

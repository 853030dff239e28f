//! Cut lines against worked polygons, closed forms and an independent offset.

use backtack_core::geom::{self, Corner, CutLine, Outline, Point, grid, offset, shape};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::Overlay;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::style::{LineJoin, OutlineStyle};
use std::f64::consts::PI;

const MITRE: Corner = Corner::Mitre { limit: 4.0 };

pub fn polygon(corners: &[(&str, f64, f64)]) -> Outline {
    let points: Vec<_> = corners.iter().map(|(id, x, y)| ((*id).to_owned(), Point::new(*x, *y))).collect();
    shape::polygon(&points).expect("a polygon")
}

/// Allowances by the ends of runs, in the outline's own order.
fn by_run(outline: &Outline, widths: &[(&str, &str, f64)]) -> Vec<f64> {
    let mut found = vec![f64::NAN; widths.len()];
    for (a, b, width) in widths {
        found[outline.run_between(a, b).expect("neighbours").index] = *width;
    }
    found
}

fn corners(line: &CutLine) -> Vec<(f64, f64)> {
    let only = line.single().expect("one contour");
    only.to_points().iter().map(|point| (point.x, point.y)).collect()
}

fn size(line: &CutLine) -> (f64, f64) {
    let (low, high) = line.single().expect("one contour").bbox().expect("corners");
    (grid::millimetres(high.x - low.x), grid::millimetres(high.y - low.y))
}

/// By hand: 80 + 2 · 6 and 120 + 2 · 6.
#[test]
fn rectangle_grows_and_shrinks_by_its_allowance() {
    let panel = shape::rectangle(80.0, 120.0).expect("a panel");
    let cut = offset::outset(&panel, &[6.0; 4], MITRE).expect("a cut line");
    assert_eq!(size(&cut), (92.0, 132.0));
    assert_eq!(corners(&cut), [(-46.0, -66.0), (46.0, -66.0), (46.0, 66.0), (-46.0, 66.0)]);
    let sew = offset::inset(&shape::rectangle(92.0, 132.0).expect("a panel"), &[6.0; 4], MITRE).expect("a sew line");
    assert_eq!(size(&sew), (80.0, 120.0));
}

/// By hand: each side moves by its own allowance, corners stay square.
#[test]
fn rectangle_with_four_allowances() {
    let panel = shape::rectangle(80.0, 120.0).expect("a panel");
    let widths = by_run(&panel, &[("nw", "ne", 20.0), ("ne", "se", 5.0), ("se", "sw", 0.0), ("sw", "nw", 10.0)]);
    let cut = offset::outset(&panel, &widths, MITRE).expect("a cut line");
    assert_eq!(corners(&cut), [(-50.0, -60.0), (45.0, -60.0), (45.0, 80.0), (-50.0, 80.0)]);
    let sew = offset::inset(&panel, &widths, MITRE).expect("a sew line");
    assert_eq!(corners(&sew), [(-30.0, -60.0), (35.0, -60.0), (35.0, 40.0), (-30.0, 40.0)]);
}

/// By hand, 10 mm round a square of 100: a quarter circle, or the corner cut off 10 mm from it.
#[test]
fn corner_styles_have_their_areas() {
    let square = shape::rectangle(100.0, 100.0).expect("a square");
    let area = |corner| offset::outset(&square, &[10.0; 4], corner).expect("a cut line").area();
    let strips = 100.0 * 100.0 + 4.0 * 100.0 * 10.0;
    assert!((area(MITRE) - (strips + 4.0 * 100.0)).abs() < 1e-6);
    // Arcs are pieces within 0.0025 mm, along 20π mm.
    assert!((area(Corner::Round) - (strips + PI * 100.0)).abs() < 0.16);
    // The tip beyond the chord is a right triangle of height 10·√2 − 10, area height².
    let tip = (10.0 * 2.0_f64.sqrt() - 10.0).powi(2);
    assert!((area(Corner::Square) - (strips + 4.0 * (100.0 - tip))).abs() < 0.05);
}

/// Circle geometry: the offset of a circle is a circle.
#[test]
fn circles_stay_circles() {
    for diameter in [20.0, 300.0] {
        let disc = shape::circle(diameter).expect("a circle");
        let out = offset::outset(&disc, &[8.0; 4], MITRE).expect("a cut line");
        let inside = offset::inset(&disc, &[8.0; 4], MITRE).expect("a sew line");
        for (line, radius) in [(out, diameter / 2.0 + 8.0), (inside, diameter / 2.0 - 8.0)] {
            for point in line.single().expect("one contour").to_points() {
                assert!((point.norm() - radius).abs() < 0.01, "{} from {radius}", point.norm());
            }
            assert!((line.area() / (PI * radius * radius) - 1.0).abs() < 6e-3 / radius);
        }
    }
}

/// The gap from 1 mm steps along each run to the cut line, away from corners, is its allowance.
fn keeps_allowances(outline: &Outline, widths: &[f64], corner: Corner) {
    let cut = offset::outset(outline, widths, corner).expect("a cut line");
    let margin = widths.iter().copied().fold(0.0, f64::max) * 1.5 + 1.0;
    let mut seen = 0;
    for (index, width) in widths.iter().enumerate() {
        let length = outline.length_of(index);
        let mut s = margin;
        while s < length - margin {
            let (point, normal) = outline.along_run(index, s).expect("on the run");
            let nearest = |p: Point| {
                let edges = cut.contours.iter().flat_map(grid::Polygon::edges);
                edges.map(|(a, b)| p.distance_to_edge(a.point(), b.point())).fold(f64::INFINITY, f64::min)
            };
            assert!(
                nearest(point + normal * *width) <= 0.01,
                "{index} at {s}: off by {}",
                nearest(point + normal * *width)
            );
            assert!((nearest(point) - width).abs() <= 0.01, "{index} at {s}: {} for {width}", nearest(point));
            s += 1.0;
            seen += 1;
        }
    }
    assert!(seen > 20, "only {seen} samples");
}

pub fn ell() -> Outline {
    polygon(&[
        ("a", 0.0, 0.0),
        ("b", 120.0, 0.0),
        ("c", 120.0, 60.0),
        ("d", 60.0, 60.0),
        ("e", 60.0, 120.0),
        ("f", 0.0, 120.0),
    ])
}

#[test]
fn every_run_keeps_its_allowance() {
    for corner in [Corner::FoldBack(geom::Worked::Before), Corner::FoldBack(geom::Worked::After)] {
        keeps_allowances(&ell(), &[5.0, 10.0, 0.0, 7.0, 12.0, 3.0], corner);
    }
    for corner in [MITRE, Corner::Round, Corner::Square, Corner::Step(geom::Worked::Wider)] {
        keeps_allowances(&ell(), &[5.0, 10.0, 0.0, 7.0, 12.0, 3.0], corner);
        keeps_allowances(&shape::circle(200.0).expect("a circle"), &[5.0, 10.0, 0.0, 12.0], corner);
        keeps_allowances(&shape::gore(6, 300.0).expect("a gore"), &[5.0, 10.0, 5.0, 8.0], corner);
        keeps_allowances(
            &shape::rounded_rectangle(300.0, 200.0, 40.0).expect("a panel"),
            &[6.0, 15.0, 9.0, 6.0],
            corner,
        );
        keeps_allowances(&shape::ellipse(300.0, 120.0).expect("an oval"), &[10.0; 4], corner);
    }
}

/// Equal allowances against the one-distance offset of `i_overlay`, an independent construction.
#[test]
fn equal_allowances_match_a_uniform_offset() {
    let outlines = [
        ell(),
        shape::circle(80.0).expect("a circle"),
        shape::gore(5, 120.0).expect("a gore"),
        shape::ellipse(150.0, 40.0).expect("an oval"),
    ];
    for outline in outlines {
        let flat: Vec<[f64; 2]> = geom::flatten(&outline.path, 0.001).iter().map(|p| [p.x, p.y]).collect();
        let widths = vec![6.0; outline.runs().len()];
        for (sign, join) in [(1.0, LineJoin::Miter(0.05)), (-1.0, LineJoin::Miter(0.05)), (1.0, LineJoin::Round(0.01))]
        {
            let style = OutlineStyle::new(6.0 * sign).line_join(join);
            let shapes = flat.outline_fixed_scale(&style, 1000.0).expect("in range");
            let other: Vec<Vec<[f64; 2]>> = shapes.into_iter().flatten().collect();
            let corner =
                if matches!(style.join, LineJoin::Round(_)) { Corner::Round } else { Corner::Mitre { limit: 60.0 } };
            let own = if sign > 0.0 {
                offset::outset(&outline, &widths, corner).expect("a cut line")
            } else {
                offset::inset(&outline, &widths, corner).expect("a sew line")
            };
            let apart = difference(&own, &other);
            assert!(apart < 0.004 * outline.perimeter(), "{apart} mm² apart");
        }
    }
}

/// Area of the symmetric difference in mm².
fn difference(own: &CutLine, other: &[Vec<[f64; 2]>]) -> f64 {
    use i_overlay::i_float::int::point::IntPoint;
    let own: Vec<Vec<IntPoint<i64>>> =
        own.contours.iter().map(|c| c.points.iter().map(|p| IntPoint::new(p.x, p.y)).collect()).collect();
    let other: Vec<Vec<IntPoint<i64>>> =
        other.iter().map(|c| c.iter().map(|p| IntPoint::new(grid::snap(p[0]), grid::snap(p[1]))).collect()).collect();
    let shapes = Overlay::<i64>::from_subj_and_clip(&own, &other).overlay(OverlayRule::Xor, FillRule::NonZero);
    let polygon = |contour: Vec<IntPoint<i64>>| grid::Polygon {
        points: contour.iter().map(|p| grid::GridPoint::new(p.x, p.y)).collect(),
    };
    shapes.into_iter().flatten().map(polygon).map(|p| p.area()).sum()
}

/// By hand: 10 mm meets 5 mm at a corner of 5°. A mitre would stand 58 mm along the edge; the
/// narrow strip runs on to the end of the wide one instead, and steps.
#[test]
fn shallow_corners_step() {
    let turn = 5.0_f64.to_radians();
    let far = (200.0 * turn.cos(), 200.0 * turn.sin());
    let strip = polygon(&[("a", -200.0, 0.0), ("p", 0.0, 0.0), ("b", far.0, far.1), ("c", -200.0, 150.0)]);
    let widths = by_run(&strip, &[("a", "p", 10.0), ("p", "b", 5.0), ("b", "c", 5.0), ("c", "a", 5.0)]);
    let cut = offset::outset(&strip, &widths, MITRE).expect("a cut line");
    let found = corners(&cut);
    let has = |x: f64, y: f64| found.iter().any(|p| (p.0 - x).abs() < 0.0011 && (p.1 - y).abs() < 0.0011);
    assert!(has(0.0, -10.0), "{found:?}");
    assert!(has(0.0, -5.0 / turn.cos()), "{found:?}");
    keeps_allowances(&strip, &widths, MITRE);
}

/// By hand: at a corner of 60° that points inward, a 9 mm strip meets the line of a bare edge
/// 9 / sin 60° = 10.392 mm along it, and not square to its own end.
#[test]
fn unequal_allowances_meet_at_inward_corners() {
    let (sin, cos) = (60.0_f64.to_radians().sin(), 60.0_f64.to_radians().cos());
    let notch = polygon(&[
        ("a", -100.0, 0.0),
        ("p", 0.0, 0.0),
        ("b", 100.0 * cos, -100.0 * sin),
        ("c", 200.0, 100.0),
        ("d", -100.0, 100.0),
    ]);
    let mut widths = vec![0.0; 5];
    widths[notch.run_between("a", "p").expect("neighbours").index] = 9.0;
    let cut = offset::outset(&notch, &widths, MITRE).expect("a cut line");
    let meeting = (9.0 / sin * cos, -9.0);
    let has = |x: f64, y: f64| corners(&cut).iter().any(|p| (p.0 - x).abs() < 0.0011 && (p.1 - y).abs() < 0.0011);
    assert!(has(meeting.0, meeting.1), "{:?}", corners(&cut));
    assert!(!has(0.0, -9.0));
}

/// By hand: the tip of a 20° spike lies 1 / sin 10° = 5.76 allowances out, beyond a limit of 4.
#[test]
fn mitres_are_cut_off_at_their_limit() {
    let half = 10.0_f64.to_radians();
    let (x, y) = (100.0 * half.cos(), 100.0 * half.sin());
    let spike = polygon(&[("t", 0.0, 0.0), ("u", x, -y), ("v", x, y)]);
    let left = |limit| {
        let cut = offset::outset(&spike, &[5.0; 3], Corner::Mitre { limit }).expect("a cut line");
        cut.single().expect("one contour").bbox().expect("corners").0.x
    };
    assert_eq!(left(4.0), -20_000);
    assert!((left(6.0) as f64 / 1000.0 + 5.0 / half.sin()).abs() < 0.001);
}

#[test]
fn an_edge_that_vanishes_is_named() {
    let house = polygon(&[
        ("a", 0.0, 0.0),
        ("b", 100.0, 0.0),
        ("c", 100.0, 50.0),
        ("d", 52.0, 98.0),
        ("e", 48.0, 98.0),
        ("f", 0.0, 50.0),
    ]);
    let gone = offset::inset(&house, &[10.0; 6], MITRE);
    let Err(geom::OffsetError::Vanished { run, .. }) = gone else {
        panic!("{gone:?}");
    };
    assert_eq!(run, ("d".into(), "e".into()));
    let narrow = shape::rectangle(10.0, 100.0).expect("a strip");
    assert!(matches!(offset::inset(&narrow, &[6.0; 4], MITRE), Err(geom::OffsetError::Vanished { .. })));
    assert!(offset::inset(&narrow, &[4.0; 4], MITRE).is_ok());
}

#[test]
fn allowances_are_checked() {
    let sheet = shape::rectangle(50.0, 50.0).expect("a sheet");
    assert!(matches!(offset::outset(&sheet, &[5.0; 3], MITRE), Err(geom::OffsetError::Count { runs: 4, found: 3 })));
    assert!(offset::outset(&sheet, &[5.0, 5.0, -1.0, 5.0], MITRE).is_err());
    assert!(offset::outset(&sheet, &[5.0, 5.0, f64::NAN, 5.0], MITRE).is_err());
    assert!(offset::outset(&sheet, &[5.0; 4], Corner::Mitre { limit: 0.5 }).is_err());
    let none = offset::outset(&sheet, &[0.0; 4], MITRE).expect("the sheet itself");
    assert_eq!(size(&none), (50.0, 50.0));
}

/// Out and in again: the sew line of the cut line is the outline, with its points.
#[test]
fn sew_lines_keep_their_points() {
    for outline in [ell(), shape::rectangle(80.0, 50.0).expect("a sheet"), shape::circle(90.0).expect("a circle")] {
        let widths = vec![6.0; outline.runs().len()];
        let sew = offset::sew_line(&outline, &widths, MITRE).expect("a sew line");
        assert_eq!(sew.names(), outline.names());
        assert_eq!(sew.axis_images, outline.axis_images);
        for run in 0..widths.len() {
            let shorter = outline.length_of(run) - sew.length_of(run);
            assert!(shorter.abs() < 12.001, "{shorter}");
        }
    }
    let disc = shape::circle(90.0).expect("a circle");
    let sew = offset::sew_line(&disc, &[6.0; 4], MITRE).expect("a sew line");
    for run in 0..4 {
        assert!((sew.length_of(run) - PI * 78.0 / 4.0).abs() < 0.01, "{}", sew.length_of(run));
    }
    assert!(sew.point("n").expect("n").distance(Point::new(0.0, 39.0)) < 0.01);
    let sheet =
        offset::sew_line(&shape::rectangle(80.0, 50.0).expect("a sheet"), &[6.0; 4], MITRE).expect("a sew line");
    assert_eq!(sheet.point("ne"), Some(Point::new(34.0, 19.0)));
}

/// Points in the middle of a straight side or of a curve stay opposite their old place.
#[test]
fn sew_lines_keep_points_between_corners() {
    use geom::Place;
    let sheet = shape::rectangle(80.0, 50.0).expect("a sheet");
    let sheet = sheet.with_point("m", "nw", "ne", Place::Share(0.5)).expect("m");
    let sheet = sheet.with_point("q", "m", "ne", Place::Distance(10.0)).expect("q");
    let sew = offset::sew_line(&sheet, &[6.0; 6], MITRE).expect("a sew line");
    assert_eq!(sew.point("m"), Some(Point::new(0.0, 19.0)));
    assert_eq!(sew.point("q"), Some(Point::new(10.0, 19.0)));
    assert_eq!(sew.point("ne"), Some(Point::new(34.0, 19.0)));
    let disc = shape::circle(90.0).expect("a circle").with_point("q", "e", "n", Place::Share(0.5)).expect("q");
    let sew = offset::sew_line(&disc, &[6.0; 5], MITRE).expect("a sew line");
    let middle = 39.0 / 2.0_f64.sqrt();
    assert!(sew.point("q").expect("q").distance(Point::new(middle, middle)) < 0.002);
    let run = sew.run_between("e", "q").expect("neighbours");
    assert!((sew.length_of(run.index) - PI * 78.0 / 8.0).abs() < 0.005);
}

/// The cut line of a mirrored or moved piece is its mirrored or moved cut line, to the grid.
#[test]
fn cut_lines_follow_their_piece() {
    let piece = ell();
    let widths: Vec<f64> = vec![5.0, 10.0, 0.0, 7.0, 12.0, 3.0];
    let own = offset::outset(&piece, &widths, MITRE).expect("a cut line");
    let moved = piece.transformed(&geom::Affine::translation(Point::new(1234.5, -77.25))).expect("moved");
    assert_eq!(offset::outset(&moved, &widths, MITRE).expect("a cut line").area(), own.area());
    let mirrored = piece.mirrored();
    let runs = piece.runs();
    let ends: Vec<_> =
        runs.iter().zip(&widths).map(|(run, width)| (run.from.as_str(), run.to.as_str(), *width)).collect();
    let widths = by_run(&mirrored, &ends);
    assert_eq!(offset::outset(&mirrored, &widths, MITRE).expect("a cut line").area(), own.area());
}

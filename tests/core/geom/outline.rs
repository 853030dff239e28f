//! Named points, folds, symmetries and what must not depend on how an outline was drawn.

use backtack_core::geom::{self, Outline, Path, Place, Point, Segment, ShapeError, grid, shape};
use proptest::prelude::*;
use sha2::{Digest, Sha256};

use super::offset::{ell, polygon};

/// A half shield: the fold is the upright edge from `top` to `foot`, the side a curve.
fn half(x: f64) -> Outline {
    let start = Point::new(x, 0.0);
    let path = Path::new(
        start,
        vec![
            Segment::Line(Point::new(x + 30.0, 10.0)),
            Segment::Cubic(Point::new(x + 60.0, 30.0), Point::new(x + 50.0, 80.0), Point::new(x + 20.0, 100.0)),
            Segment::Line(Point::new(x, 100.0)),
            Segment::Line(start),
        ],
    );
    let points = [("foot", x, 0.0), ("hip", x + 30.0, 10.0), ("neck", x + 20.0, 100.0), ("top", x, 100.0)];
    let points: Vec<_> = points.iter().map(|(id, x, y)| ((*id).to_owned(), Point::new(*x, *y))).collect();
    Outline::from_path(path, &points).expect("a half")
}

#[test]
fn halves_open_at_their_fold() {
    for x in [0.0, 12.25] {
        let half = half(x);
        let whole = half.unfolded("top", "foot").expect("a whole");
        assert!((whole.area() - 2.0 * half.area()).abs() < 1e-9 * whole.area());
        assert_eq!(whole.names(), ["foot", "hip", "neck", "top", "neck~", "hip~"]);
        assert_eq!(whole.axis_images["hip"], "hip~");
        assert_eq!(whole.axis_images["hip~"], "hip");
        assert_eq!(whole.axis_images["top"], "top");
        let side = |a: &str, b: &str| whole.length_of(whole.run_between(a, b).expect("neighbours").index);
        assert!((side("hip", "neck") - side("hip~", "neck~")).abs() < 1e-12);
        assert_eq!(whole.point("hip~"), Some(Point::new(x - 30.0, 10.0)));
        assert!(whole.is_symmetric(0.01));
        assert_eq!(whole.point_images(0.01).expect("images"), whole.axis_images);
        assert!(whole.turn_at("top").expect("top").abs() < 1e-9, "meets its fold square");
        assert!(whole.turn_at("foot").expect("foot") > 10.0, "has a kink at its foot");
        let turned = half.transformed(&geom::Affine::rotation(0.4)).expect("turned");
        let turned = turned.unfolded("foot", "top").expect("a whole");
        assert!((turned.area() - whole.area()).abs() < 1e-6);
        assert!(turned.is_symmetric(0.01));
    }
}

#[test]
fn folds_must_be_straight() {
    let half = half(0.0);
    let Err(ShapeError::FoldNotStraight { run, deviation }) = half.unfolded("hip", "neck") else {
        panic!("the side is curved");
    };
    assert_eq!(run, ("hip".into(), "neck".into()));
    assert!(deviation > 1.0);
    assert!(matches!(half.unfolded("hip", "top"), Err(ShapeError::Run(_))));
}

#[test]
fn points_are_placed_along_runs() {
    let sheet = shape::rectangle(80.0, 120.0).expect("a sheet");
    let one = sheet.with_point("c", "nw", "ne", Place::Distance(10.0)).expect("a point");
    assert_eq!(one.point("c"), Some(Point::new(-30.0, 60.0)));
    assert!(!one.axis_images.contains_key("c"));
    let two = one.with_point("d", "c", "ne", Place::Share(60.0 / 70.0)).expect("a point");
    assert_eq!(two.axis_images["c"], "d");
    assert_eq!(two.axis_images["d"], "c");
    let middle = sheet.with_point("m", "ne", "nw", Place::Share(0.5)).expect("a point");
    assert_eq!(middle.axis_images["m"], "m");
    assert_eq!(two.area(), sheet.area());
    assert!(matches!(sheet.with_point("ne", "nw", "ne", Place::Share(0.5)), Err(ShapeError::IdTaken { .. })));
    assert!(matches!(sheet.with_point("c", "nw", "ne", Place::Distance(81.0)), Err(ShapeError::OutsideRun { .. })));
    assert!(matches!(sheet.with_point("c", "nw", "ne", Place::Distance(f64::NAN)), Err(ShapeError::OutsideRun { .. })));
    assert!(matches!(sheet.with_point("c", "nw", "ne", Place::Distance(79.6)), Err(ShapeError::TooClose { .. })));
    let disc = shape::circle(100.0).expect("a circle");
    let marked = disc.with_point("q", "n", "e", Place::Share(0.25)).expect("a point");
    let quarter = disc.length_of(0);
    let part = |a: &str, b: &str| marked.length_of(marked.run_between(a, b).expect("neighbours").index);
    assert!((part("n", "q") - quarter / 4.0).abs() < 1e-9);
    assert!((part("q", "e") - quarter * 0.75).abs() < 1e-9);
}

#[test]
fn drawn_points_are_moved_onto_the_curve() {
    let path = shape::ellipse(100.0, 60.0).expect("an oval").path;
    let named = |points: &[(&str, f64, f64)]| -> Vec<(String, Point)> {
        points.iter().map(|(id, x, y)| ((*id).to_owned(), Point::new(*x, *y))).collect()
    };
    let points = named(&[("a", 50.2, 0.0), ("b", 0.0, 29.7), ("c", -30.0, -24.2)]);
    let drawn = Outline::from_path(path.clone(), &points).expect("an outline");
    assert_eq!(drawn.point("a"), Some(Point::new(50.0, 0.0)));
    let c = drawn.point("c").expect("c");
    assert!((c.x * c.x / 2500.0 + c.y * c.y / 900.0 - 1.0).abs() < 1e-6, "{c:?}");
    assert_eq!(drawn.runs().len(), 3);
    let far = named(&[("a", 51.0, 0.0)]);
    assert!(matches!(Outline::from_path(path.clone(), &far), Err(ShapeError::OffOutline { .. })));
    let near = named(&[("a", 50.0, 0.0), ("b", 50.0, 0.3)]);
    assert!(matches!(Outline::from_path(path.clone(), &near), Err(ShapeError::TooClose { .. })));
    let mut open = path;
    open.segments.pop();
    assert!(matches!(Outline::from_path(open, &points), Err(ShapeError::Open { .. })));
}

#[test]
fn scaling_keeps_points_and_drops_false_images() {
    let disc = shape::circle(100.0).expect("a circle");
    let oval = disc.scaled(1.4, 1.2, Point::new(0.0, 1.0)).expect("an oval");
    assert!((oval.bbox().height() - 140.0).abs() < 1e-9 && (oval.bbox().width() - 120.0).abs() < 1e-9);
    assert_eq!(oval.axis_images, disc.axis_images);
    let slanted = disc.scaled(1.4, 1.2, Point::new(1.0, 1.0)).expect("an oval");
    assert!(slanted.axis_images.is_empty());
    assert!((slanted.area() / disc.area() - 1.4 * 1.2).abs() < 1e-12);
    assert!(disc.scaled(0.0, 1.0, Point::new(0.0, 1.0)).is_err());
    assert!(disc.scaled(1e9, 1.0, Point::new(0.0, 1.0)).is_err());
}

/// The bytes of a fixed set of flattened shapes on the grid. A change here changes every sealed
/// figure that rests on geometry, and must be meant.
#[test]
fn flattening_gives_the_same_bytes() {
    let outlines = [
        shape::circle(123.4),
        shape::ellipse(300.0, 77.7),
        shape::gore(6, 60.0),
        shape::rounded_rectangle(400.0, 250.0, 33.3),
        half(3.0).unfolded("top", "foot"),
        shape::ellipse(300.0, 77.7).expect("an oval").transformed(&geom::Affine::rotation(0.3)),
    ];
    let mut digest = Sha256::new();
    for outline in outlines {
        for point in geom::flatten(&outline.expect("a shape").path, 0.01) {
            let point = grid::GridPoint::nearest(point);
            digest.update(point.x.to_le_bytes());
            digest.update(point.y.to_le_bytes());
        }
    }
    let found: String = digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect();
    assert_eq!(found, "f79e1bbe66632a64c42c67259da250202c971993b4c0f15d0a7b6fd43c80da0c");
}

/// Star-shaped polygons with 3 to 9 corners, so that none crosses itself.
fn stars() -> impl Strategy<Value = Outline> {
    proptest::collection::vec((20.0_f64..200.0, 0.1_f64..1.0), 3..9)
        .prop_map(|spokes| {
            let total: f64 = spokes.iter().map(|(_, gap)| gap).sum();
            let mut angle = 0.0;
            let mut corners = Vec::new();
            for (index, (radius, gap)) in spokes.iter().enumerate() {
                angle += gap / total * std::f64::consts::TAU;
                corners.push((format!("p{index}"), Point::new(radius * angle.cos(), radius * angle.sin())));
            }
            shape::polygon(&corners)
        })
        .prop_filter_map("narrow", Result::ok)
}

fn lengths(outline: &Outline) -> Vec<(String, String, f64)> {
    let ordered = |run: geom::Run, length| {
        if run.from < run.to { (run.from, run.to, length) } else { (run.to, run.from, length) }
    };
    let mut found: Vec<_> =
        outline.runs().into_iter().enumerate().map(|(index, run)| ordered(run, outline.length_of(index))).collect();
    found.sort_by(|a, b| (&a.0, &a.1).cmp(&(&b.0, &b.1)));
    found
}

fn redrawn(outline: &Outline, path: Path) -> Outline {
    let points: Vec<_> =
        outline.names().into_iter().map(|id| (id.clone(), outline.point(&id).expect("its own point"))).collect();
    Outline::from_path(path, &points).expect("the same outline")
}

proptest! {
    #[test]
    fn drawing_order_changes_nothing(outline in stars(), first in 0_usize..9) {
        prop_assert_eq!(&redrawn(&outline, outline.path.reversed()), &outline);
        prop_assert_eq!(&redrawn(&outline, outline.path.rotated(first)), &outline);
    }

    #[test]
    fn mirroring_keeps_lengths_and_area(outline in stars()) {
        let image = outline.mirrored();
        prop_assert_eq!(lengths(&image), lengths(&outline));
        prop_assert!((image.area() - outline.area()).abs() <= 1e-12 * outline.area());
        prop_assert!(geom::measure::signed_area(&image.path) > 0.0);
        let points = |outline: &Outline| {
            let mut points: Vec<_> = outline.names().into_iter().map(|id| (outline.point(&id).map(|p| (p.x, p.y)), id)).collect();
            points.sort_by(|a, b| a.1.cmp(&b.1));
            points
        };
        prop_assert_eq!(points(&image.mirrored()), points(&outline));
    }

    #[test]
    fn allowances_add_their_strips(outline in stars(), width in 0.5_f64..8.0) {
        let runs = outline.runs().len();
        let cut = geom::offset::outset(&outline, &vec![width; runs], geom::Corner::Round).expect("a cut line");
        // Steiner: at most perimeter × width + π width² is added, all of it if convex.
        let most = outline.area() + outline.perimeter() * width + std::f64::consts::PI * width * width;
        // The grid and the pieces of an arc each move the line by at most 0.0005 mm.
        let most = most + 0.001 * cut.perimeter();
        prop_assert!(cut.area() > outline.area() && cut.area() < most, "{} {}", cut.area(), most);
        for contour in &cut.contours {
            prop_assert!(contour.crossing().is_none());
        }
    }

    /// Against every pair of edges met by solving for the parameters in whole numbers.
    #[test]
    fn crossings_match_all_pairs(points in proptest::collection::vec((0_i64..12, 0_i64..12), 4..8)) {
        let points = points.into_iter().map(|(x, y)| grid::GridPoint::new(x, y)).collect();
        let ring = grid::Polygon { points }.tidied();
        let edges: Vec<_> = ring.edges().collect();
        let count = edges.len();
        let pairs = (0..count).flat_map(|i| (i + 1..count).map(move |j| (i, j)));
        let meets = |(i, j): (usize, usize)| {
            let (first, second) = (edges[i], edges[j]);
            if (j == i + 1) || (i == 0 && j + 1 == count) {
                let (before, after) = if j == i + 1 { (first, second) } else { (second, first) };
                return folds_back(before, after);
            }
            share_a_point(first, second)
        };
        prop_assert_eq!(ring.crossing().is_some(), count > 2 && pairs.into_iter().any(meets));
    }
}

type Pair = (grid::GridPoint, grid::GridPoint);

fn vector((a, b): Pair) -> (i64, i64) {
    (b.x - a.x, b.y - a.y)
}

fn folds_back(before: Pair, after: Pair) -> bool {
    let ((a, b), (c, d)) = (vector(before), vector(after));
    a * d - b * c == 0 && a * c + b * d < 0
}

/// Solves first.0 + s · u = second.0 + t · v with s and t in 0..=1.
fn share_a_point(first: Pair, second: Pair) -> bool {
    let (u, v) = (vector(first), vector(second));
    let w = vector((first.0, second.0));
    let det = u.0 * v.1 - u.1 * v.0;
    if det != 0 {
        let within = |n: i64| (0..=det.abs()).contains(&(n * det.signum()));
        return within(w.0 * v.1 - w.1 * v.0) && within(w.0 * u.1 - w.1 * u.0);
    }
    let overlap = |a: i64, b: i64, c: i64, d: i64| a.min(b) <= c.max(d) && c.min(d) <= a.max(b);
    w.0 * u.1 - w.1 * u.0 == 0
        && overlap(first.0.x, first.1.x, second.0.x, second.1.x)
        && overlap(first.0.y, first.1.y, second.0.y, second.1.y)
}

#[test]
fn touching_counts_as_crossing() {
    let points = [(0, 0), (100, 0), (100, 100), (50, 0), (0, 100)];
    let ring = grid::Polygon { points: points.iter().map(|(x, y)| grid::GridPoint::new(*x, *y)).collect() };
    let crossing = ring.crossing().expect("it touches its base");
    assert!(crossing.touches);
    assert_eq!(crossing.at, Point::new(0.05, 0.0));
    let square =
        grid::Polygon::from_points(&geom::flatten(&shape::rectangle(10.0, 10.0).expect("a square").path, 0.01));
    let smaller = grid::Polygon::from_points(&geom::flatten(&shape::rectangle(10.0, 9.0).expect("a sheet").path, 0.01));
    assert!(square.contains(&smaller) && !smaller.contains(&square));
}

#[test]
fn an_ell_of_equal_legs_is_symmetric_with_its_points() {
    let images = ell().point_images(0.01).expect("the axis through the corner");
    assert_eq!(images["a"], "a");
    assert_eq!(images["b"], "f");
    assert_eq!(images["c"], "e");
    let longer = polygon(&[
        ("a", 0.0, 0.0),
        ("b", 130.0, 0.0),
        ("c", 130.0, 60.0),
        ("d", 60.0, 60.0),
        ("e", 60.0, 120.0),
        ("f", 0.0, 120.0),
    ]);
    assert!(!longer.is_symmetric(0.05));
}

/// The polygon with every edge moved out by `width`: by hand, a corner with the unit normals m and
/// n moves by (m + n) · width / (1 + m · n).
fn moved_out(outline: &Outline, width: f64) -> Option<Outline> {
    let runs = outline.runs();
    let normal = |run: &geom::Run| (run.path().end() - run.start).unit().map(Point::right);
    let corner = |(before, run): (&geom::Run, &geom::Run)| {
        let (m, n) = (normal(before)?, normal(run)?);
        Some((run.from.clone(), run.start + (m + n) * (width / (1.0 + m.dot(n)))))
    };
    let pairs = runs.iter().cycle().skip(runs.len() - 1).zip(&runs);
    shape::polygon(&pairs.map(corner).collect::<Option<Vec<_>>>()?).ok()
}

proptest! {
    /// Moving out by hand and taking the allowance off again gives the outline, point for point.
    #[test]
    fn sew_lines_undo_allowances(outline in stars(), width in 0.5_f64..4.0) {
        let Some(cut) = moved_out(&outline, width) else {
            return Ok(());
        };
        let keeps_edges = cut.runs().iter().zip(outline.runs()).all(|(wide, narrow)| {
            (wide.path().end() - wide.start).dot(narrow.path().end() - narrow.start) > 0.0
        });
        // Beyond a spike's mitre limit the tip is lost; spikes are left to the worked example.
        let blunt = outline.names().iter().all(|id| outline.turn_at(id).is_some_and(|turn| turn < 150.0));
        if !keeps_edges || !blunt {
            return Ok(());
        }
        let widths = vec![width; outline.points.len()];
        let mitre = geom::Corner::Mitre { limit: 100.0 };
        let sewn = geom::offset::sew_line(&cut, &widths, mitre).expect("the outline again");
        prop_assert_eq!(sewn.names(), outline.names());
        for id in outline.names() {
            let off = sewn.point(&id).expect("named").distance(outline.point(&id).expect("named"));
            // Lines on the grid meet the less exactly, the flatter the corner.
            let turn = outline.turn_at(&id).expect("named").to_radians().sin().abs();
            prop_assert!(off < 0.003 / turn.max(1e-3), "{} is off by {} at a turn of {}", id, off, turn);
        }
        let again = geom::offset::outset(&sewn, &widths, mitre).expect("the cut line again");
        prop_assert!((again.area() - cut.area()).abs() < 0.002 * cut.perimeter(), "{} {}", again.area(), cut.area());
    }

    #[test]
    fn cut_lines_never_cross(outline in stars(), widths in proptest::collection::vec(0_u8..4, 9)) {
        let widths: Vec<f64> = widths.iter().take(outline.points.len()).map(|w| f64::from(*w) * 3.0).collect();
        let mitre = geom::Corner::Mitre { limit: 4.0 };
        let mut lines = vec![geom::offset::outset(&outline, &widths, mitre).expect("a cut line")];
        for corner in [geom::Corner::Step(geom::Worked::Wider), geom::Corner::FoldBack(geom::Worked::After)] {
            lines.extend(geom::offset::outset(&outline, &widths, corner));
        }
        lines.extend(geom::offset::inset(&outline, &widths, mitre));
        for contour in lines.iter().flat_map(|line| &line.contours) {
            prop_assert!(contour.crossing().is_none(), "{:?}", contour.crossing());
        }
    }
}
/// Closed curves round the origin: every third side straight, the others cubics of any tightness.
fn blobs() -> impl Strategy<Value = Outline> {
    let spoke = (40.0_f64..120.0, 0.3_f64..1.0, 0.2_f64..1.3);
    proptest::collection::vec(spoke, 3..8).prop_map(|spokes| blob(&spokes)).prop_filter_map("crossed", Result::ok)
}

fn blob(spokes: &[(f64, f64, f64)]) -> Result<Outline, ShapeError> {
    let total: f64 = spokes.iter().map(|(_, gap, _)| gap).sum();
    let mut angle = 0.0;
    let mut joints = Vec::new();
    for (radius, gap, reach) in spokes {
        let out = Point::new(f64::cos(angle), f64::sin(angle));
        let step = gap / total * std::f64::consts::TAU;
        joints.push((out * *radius, out.left() * (radius * step / 3.0 * reach)));
        angle += step;
    }
    let mut segments = Vec::new();
    for (index, ((a, u), (b, v))) in joints.iter().zip(joints.iter().cycle().skip(1)).enumerate() {
        let straight = index % 3 == 2;
        segments.push(if straight { Segment::Line(*b) } else { Segment::Cubic(*a + *u, *b - *v, *b) });
    }
    let path = Path::new(joints[0].0, segments);
    let named: Vec<_> = joints.iter().enumerate().map(|(index, (at, _))| (format!("p{index}"), *at)).collect();
    Outline::from_path(path, &named)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// From samples away from the ends of each run, the cut line is at its allowance, or farther
    /// out where another strip covers the place.
    #[test]
    fn curves_keep_their_allowances(outline in blobs(), widths in proptest::collection::vec(0_u8..4, 8)) {
        let widths: Vec<f64> = widths.iter().take(outline.points.len()).map(|w| f64::from(*w) * 3.0).collect();
        let mitre = geom::Corner::Mitre { limit: 4.0 };
        let cut = geom::offset::outset(&outline, &widths, mitre).expect("a cut line");
        let edges: Vec<_> = cut.contours.iter().flat_map(grid::Polygon::edges).collect();
        for contour in &cut.contours {
            prop_assert!(contour.crossing().is_none(), "{:?}", contour.crossing());
        }
        for (index, width) in widths.iter().enumerate() {
            let length = outline.length_of(index);
            for distance in (1..20).map(|k| length * f64::from(k) / 20.0).filter(|d| *d > 15.0 && *d < length - 15.0) {
                let (point, normal) = outline.along_run(index, distance).expect("on the run");
                let place = point + normal * *width;
                let off = edges.iter().map(|(a, b)| place.distance_to_edge(a.point(), b.point())).fold(f64::INFINITY, f64::min);
                let covered = cut.contours.first().is_some_and(|c| c.side(grid::GridPoint::nearest(place)) == grid::Side::Inside);
                prop_assert!(off < 0.006 || covered, "run {} at {}: off by {}", index, distance, off);
            }
        }
        if let Ok(sewn) = geom::offset::sew_line(&outline, &widths, mitre) {
            prop_assert_eq!(sewn.names(), outline.names());
            prop_assert!(sewn.area() <= outline.area());
        }
    }
}

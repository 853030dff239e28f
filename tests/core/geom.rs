//! Plane geometry against closed forms.

mod corner;
mod fit;
mod offset;
mod outline;
mod table;

use backtack_core::geom::{self, Measure, Outline, Point, RunError, ShapeError, grid, shape};
use std::f64::consts::PI;

fn close(found: f64, expected: f64, relative: f64) {
    let error = (found - expected).abs();
    assert!(error <= relative * expected.abs().max(1e-12), "{found} is not {expected}: off by {error:e}");
}

fn run_length(outline: &Outline, from: &str, to: &str) -> f64 {
    outline.length_of(outline.run_between(from, to).expect("neighbours").index)
}

#[test]
fn rectangle_has_its_sides() {
    let sheet = shape::rectangle(80.0, 120.0).expect("a rectangle");
    assert_eq!(sheet.area(), 9600.0);
    assert_eq!(sheet.perimeter(), 400.0);
    assert_eq!(run_length(&sheet, "nw", "ne"), 80.0);
    assert_eq!(run_length(&sheet, "se", "ne"), 120.0);
    assert_eq!(sheet.point("nw"), Some(Point::new(-40.0, 60.0)));
    assert_eq!(sheet.axis_images["nw"], "ne");
    assert_eq!((sheet.bbox().width(), sheet.bbox().height()), (80.0, 120.0));
}

/// Circle geometry: circumference πd, area πd²/4.
#[test]
fn circle_in_closed_form() {
    for diameter in [1.0, 60.0, 450.0] {
        let disc = shape::circle(diameter).expect("a circle");
        close(disc.perimeter(), PI * diameter, 1e-7);
        close(disc.area(), PI * diameter * diameter / 4.0, 1e-7);
        close(run_length(&disc, "n", "e"), PI * diameter / 4.0, 1e-7);
        for (point, segment) in disc.path.pieces() {
            for step in 0..=20 {
                let radius = segment.point_at(point, f64::from(step) / 20.0).norm();
                close(radius, diameter / 2.0, 1e-6);
            }
        }
    }
}

/// The complete elliptic integral by the arithmetic-geometric mean: perimeter =
/// 2π/M(a,b) · (a² − Σ 2^(n−1) cₙ²). Source: DLMF 19.8.6 and 19.9.9.
fn ellipse_perimeter(a: f64, b: f64) -> f64 {
    let (mut x, mut y, mut power) = (a, b, 0.5);
    let mut sum = power * (a * a - b * b);
    while (x - y).abs() > 1e-14 * x {
        let c = (x - y) / 2.0;
        (x, y) = ((x + y) / 2.0, (x * y).sqrt());
        power *= 2.0;
        sum += power * c * c;
    }
    2.0 * PI / x * (a * a - sum)
}

#[test]
fn ellipse_against_the_elliptic_integral() {
    close(ellipse_perimeter(5.0, 5.0), 10.0 * PI, 1e-14);
    for (width, height) in [(300.0, 200.0), (200.0, 300.0), (100.0, 10.0)] {
        let oval = shape::ellipse(width, height).expect("an ellipse");
        let (a, b) = (f64::max(width, height) / 2.0, f64::min(width, height) / 2.0);
        close(oval.perimeter(), ellipse_perimeter(a, b), 1e-7);
        close(oval.area(), PI * a * b, 1e-7);
    }
}

/// Straight sides and four quarter circles.
#[test]
fn rounded_rectangle_in_closed_form() {
    let (w, h, r) = (300.0, 200.0, 25.0);
    let panel = shape::rounded_rectangle(w, h, r).expect("a panel");
    close(panel.area(), w * h - (4.0 - PI) * r * r, 1e-8);
    close(panel.perimeter(), 2.0 * (w + h) - 8.0 * r + 2.0 * PI * r, 1e-8);
    close(run_length(&panel, "nw", "ne"), w - 2.0 * r + PI * r / 2.0, 1e-8);
    let corner = panel.point("ne").expect("ne");
    let inset = r - r / 2.0_f64.sqrt();
    assert!(corner.distance(Point::new(w / 2.0 - inset, h / 2.0 - inset)) < 1e-9);
}

/// Gores of a sphere: all of them together have its area 4πr² (Archimedes); the edge is the arc
/// of a cosine curve, here by Simpson's rule with 20,000 steps.
#[test]
fn gores_against_sphere_and_simpson() {
    for (count, diameter) in [(6, 60.0), (8, 300.0), (2, 100.0), (12, 65.0)] {
        let gore = shape::gore(count, diameter).expect("a gore");
        let r = diameter / 2.0;
        close(gore.area() * f64::from(count), 4.0 * PI * r * r, 1e-6);
        close(gore.bbox().height(), PI * r, 1e-12);
        close(gore.bbox().width(), 2.0 * PI * r / f64::from(count), 1e-9);
        let half = PI * r / f64::from(count);
        let speed = |phi: f64| (r * r + (half * phi.sin()).powi(2)).sqrt();
        let steps = 20_000;
        let h = PI / f64::from(steps);
        let weight = |i: i32| {
            if i == 0 || i == steps {
                1.0
            } else if i % 2 == 1 {
                4.0
            } else {
                2.0
            }
        };
        let simpson = (0..=steps).map(|i| weight(i) * speed(f64::from(i) * h - PI / 2.0)).sum::<f64>() * h / 3.0;
        let edge = run_length(&gore, "s", "e") + run_length(&gore, "e", "n");
        close(edge, simpson, 1e-6);
    }
}

#[test]
fn shapes_refuse_what_cannot_be() {
    assert!(matches!(shape::rectangle(0.0, 5.0), Err(ShapeError::NotPositive { what: Measure::Width, .. })));
    assert!(matches!(shape::circle(f64::NAN), Err(ShapeError::NotPositive { .. })));
    assert!(matches!(shape::circle(20_001.0), Err(ShapeError::TooLarge { .. })));
    assert!(matches!(shape::rounded_rectangle(10.0, 10.0, 5.1), Err(ShapeError::RadiusTooLarge { .. })));
    assert!(matches!(shape::rounded_rectangle(10.0, 10.0, 0.0), Err(ShapeError::NotPositive { .. })));
    assert!(shape::rounded_rectangle(10.0, 10.0, 5.0).is_ok());
    assert!(matches!(shape::gore(1, 60.0), Err(ShapeError::TooFewGores { found: 1 })));
    let point = |id: &str, x: f64, y: f64| (id.to_owned(), Point::new(x, y));
    let bow = [point("a", 0.0, 0.0), point("b", 10.0, 10.0), point("c", 10.0, 0.0), point("d", 0.0, 10.0)];
    let Err(ShapeError::SelfCrossing { first, second, at }) = shape::polygon(&bow) else {
        panic!("a bow tie crosses itself");
    };
    assert_eq!((first, second), (("a".into(), "b".into()), ("c".into(), "d".into())));
    assert_eq!(at, Point::new(5.0, 5.0));
    let twice = [point("a", 0.0, 0.0), point("b", 10.0, 0.0), point("a", 5.0, 9.0)];
    assert!(matches!(shape::polygon(&twice), Err(ShapeError::IdTaken { .. })));
    let flat = [point("a", 0.0, 0.0), point("b", 10.0, 0.0), point("c", 5.0, 0.0)];
    assert!(shape::polygon(&flat).is_err());
}

#[test]
fn runs_need_neighbours() {
    let disc = shape::circle(100.0).expect("a circle");
    assert!(disc.run_between("e", "n").expect("neighbours").forward);
    let back = disc.run_between("n", "e").expect("neighbours");
    assert!(!back.forward);
    assert_eq!(disc.runs()[back.index].ends(), ("e".into(), "n".into()));
    let Err(RunError::NotNeighbours { anticlockwise, clockwise, .. }) = disc.run_between("e", "w") else {
        panic!("e and w are opposite");
    };
    assert_eq!((anticlockwise, clockwise), (vec!["n".to_owned()], vec!["s".to_owned()]));
    assert!(matches!(disc.run_between("e", "x"), Err(RunError::UnknownPoint { .. })));
}

#[test]
fn grid_rounds_halves_away_from_zero() {
    assert_eq!([0.0005, -0.0005, 0.0004, 12.3456].map(grid::snap), [1, -1, 0, 12346]);
    let square = geom::flatten(&shape::rectangle(10.0, 10.0).expect("a square").path, 0.01);
    let square = grid::Polygon::from_points(&square);
    assert_eq!(square.area2(), 2 * 10_000 * 10_000);
    assert_eq!(square.side(grid::GridPoint::new(5_000, 0)), grid::Side::Edge);
    assert_eq!(square.side(grid::GridPoint::new(4_999, 4_999)), grid::Side::Inside);
    assert_eq!(square.side(grid::GridPoint::new(5_001, 0)), grid::Side::Outside);
    assert!(square.crossing().is_none());
}

#[test]
fn symmetric_shapes_are_found() {
    let turn = |outline: Outline| outline.transformed(&geom::Affine::rotation(0.7)).expect("turned");
    for outline in [
        shape::rectangle(80.0, 120.0),
        shape::rectangle(80.0, 80.0),
        shape::circle(50.0),
        shape::ellipse(50.0, 20.0),
        shape::gore(6, 60.0),
        shape::rounded_rectangle(50.0, 20.0, 3.0),
    ] {
        let outline = outline.expect("a shape");
        assert!(outline.is_symmetric(0.05));
        assert!(turn(outline.clone()).is_symmetric(0.05));
        assert!(outline.point_images(0.05).is_some());
    }
    let point = |id: &str, x: f64, y: f64| (id.to_owned(), Point::new(x, y));
    let scalene = [point("a", 0.0, 0.0), point("b", 30.0, 0.0), point("c", 5.0, 20.0)];
    assert!(!shape::polygon(&scalene).expect("a triangle").is_symmetric(0.05));
    let slanted = [point("a", 0.0, 0.0), point("b", 30.0, 0.0), point("c", 40.0, 20.0), point("d", 10.0, 20.0)];
    assert!(!shape::polygon(&slanted).expect("a parallelogram").is_symmetric(0.05));
    let isosceles = [point("a", 0.0, 0.0), point("b", 30.0, 0.0), point("c", 15.0, 40.0)];
    let isosceles = turn(shape::polygon(&isosceles).expect("a triangle"));
    assert!(isosceles.is_symmetric(0.05));
    assert_eq!(isosceles.point_images(0.05).expect("images")["a"], "b");
}

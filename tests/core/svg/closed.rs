//! Curves of drawings against closed forms. Lengths and areas of circle, segment and parabola are textbook geometry; the
//! perimeter of an ellipse is worked by the arithmetic-geometric mean (DLMF 19.8), which shares nothing with the reader.

use std::f64::consts::PI;

use backtack_core::geom::{Path, Point, length, measure};

use super::{load, page};

/// The one line of SIDE in a page of millimetres.
fn path(shape: &str) -> Path {
    let loaded = load(&page(shape));
    let drawing = loaded.model.drawings.values().next().unwrap_or_else(|| panic!("{shape}"));
    drawing.named("SIDE").unwrap_or_else(|why| panic!("{why:?} {shape}")).paths[0].clone()
}

fn drawn(data: &str) -> Path {
    path(&format!("<path id=\"SIDE\" d=\"{data}\"/>"))
}

fn close(found: f64, wanted: f64, relative: f64) {
    assert!((found - wanted).abs() <= relative * wanted.abs(), "{found} is not {wanted}");
}

/// Many places on a line, in the y-down coordinates of the file.
fn places(path: &Path) -> Vec<Point> {
    let on = |(start, segment): (Point, &backtack_core::geom::Segment)| {
        (0..=32)
            .map(|n| segment.point_at(start, f64::from(n) / 32.0))
            .map(|p| Point::new(p.x, -p.y))
            .collect::<Vec<_>>()
    };
    path.pieces().flat_map(on).collect()
}

/// How far the worst place is off an ellipse, as a share of its radii.
fn off(path: &Path, centre: Point, radii: (f64, f64), degrees: f64) -> f64 {
    let (sin, cos) = (libm::sin(degrees.to_radians()), libm::cos(degrees.to_radians()));
    let each = places(path).into_iter().map(|place| {
        let from = place - centre;
        let (u, v) = (from.x * cos + from.y * sin, from.y * cos - from.x * sin);
        (libm::hypot(u / radii.0, v / radii.1) - 1.0).abs()
    });
    each.fold(0.0, f64::max)
}

/// 2π (a² − Σ 2ⁿ⁻¹ cₙ²) / M(a, b), with cₙ of the arithmetic-geometric mean M.
fn perimeter(a: f64, b: f64) -> f64 {
    let (mut x, mut y, mut sum, mut weight) = (a, b, 0.5 * (a * a - b * b), 1.0);
    for _ in 0..8 {
        let c = 0.5 * (x - y);
        (x, y) = (0.5 * (x + y), (x * y).sqrt());
        sum += weight * c * c;
        weight *= 2.0;
    }
    2.0 * PI * (a * a - sum) / x
}

#[test]
fn the_mean_gives_the_perimeter_of_a_circle() {
    close(perimeter(50.0, 50.0), 100.0 * PI, 1e-14);
    // Ramanujan's second approximation is good to 1e-9 for so round an ellipse.
    let (a, b) = (60.0, 45.0);
    let h = ((a - b) / (a + b)) * ((a - b) / (a + b));
    close(perimeter(a, b), PI * (a + b) * (1.0 + 3.0 * h / (10.0 + (4.0 - 3.0 * h).sqrt())), 1e-9);
}

#[test]
fn arcs_are_exact_to_a_millionth_of_the_radius() {
    for radius in [0.5, 7.3, 50.0, 90.0] {
        let (l, r) = (100.0 - radius, 100.0 + radius);
        let ring = drawn(&format!("M {l} 100 A {radius} {radius} 0 0 1 {r} 100 A {radius} {radius} 0 1 1 {l} 100 Z"));
        assert!(off(&ring, Point::new(100.0, 100.0), (radius, radius), 0.0) < 1e-6);
        close(length(&ring), 2.0 * PI * radius, 1e-7);
        close(measure::signed_area(&ring).abs(), PI * radius * radius, 1e-7);
        let basic = path(&format!("<circle id=\"SIDE\" cx=\"100\" cy=\"100\" r=\"{radius}\"/>"));
        assert!(off(&basic, Point::new(100.0, 100.0), (radius, radius), 0.0) < 1e-6);
    }
}

/// An ellipse whose axes are turned: every place lies on it, and length and area are those of the closed form.
#[test]
fn turned_ellipses_are_exact() {
    for degrees in [-350.0, -30.0, 0.0, 17.0, 45.0, 90.0, 133.0] {
        for (a, b) in [(60.0, 45.0), (80.0, 8.0), (20.0, 70.0)] {
            let (sin, cos) = (libm::sin(f64::to_radians(degrees)), libm::cos(f64::to_radians(degrees)));
            // From one end of the first axis to the other and back.
            let (x0, y0, x1, y1) = (100.0 - a * cos, 100.0 - a * sin, 100.0 + a * cos, 100.0 + a * sin);
            let ring =
                drawn(&format!("M {x0} {y0} A {a} {b} {degrees} 0 0 {x1} {y1} A {a} {b} {degrees} 0 0 {x0} {y0} Z"));
            let worst = off(&ring, Point::new(100.0, 100.0), (a, b), degrees);
            assert!(worst < 1e-6, "{a} {b} {degrees}: {worst}");
            close(length(&ring), perimeter(a, b), 1e-6);
            close(measure::signed_area(&ring).abs(), PI * a * b, 1e-6);
        }
    }
}

/// All four arcs over one chord: radius 50, chord 60, so that the centre lies 40 off it and half the angle is asin 0.6.
#[test]
fn flags_choose_the_arc() {
    let half = libm::asin(0.6);
    let segment = 1250.0 * (2.0 * half - libm::sin(2.0 * half));
    for (large, sweep, below) in [(0, 0, 10.0), (0, 1, -10.0), (1, 0, 90.0), (1, 1, -90.0)] {
        let arc = drawn(&format!("M 70 100 A 50 50 0 {large} {sweep} 130 100 Z"));
        let (long, area) = match large {
            0 => (100.0 * half, segment),
            _ => (100.0 * (PI - half), 2500.0 * PI - segment),
        };
        close(length(&arc), long + 60.0, 1e-7);
        close(measure::signed_area(&arc).abs(), area, 1e-7);
        let bounds = measure::bbox(&arc);
        let reach = if below > 0.0 { -bounds.min.y - 100.0 } else { -bounds.max.y - 100.0 };
        assert!((reach - below).abs() < 1e-5, "{large} {sweep}: {reach}");
    }
}

/// SVG 2, appendix B.2.5: radii that do not reach grow alike until they do, negative ones count without their sign, and
/// with none the arc is a straight line.
#[test]
fn radii_are_corrected() {
    for radius in ["10", "-10", "40", "39.999"] {
        let half = drawn(&format!("M 60 100 A {radius} {radius} 0 0 1 140 100 Z"));
        close(length(&half), 40.0 * PI + 80.0, 1e-7);
        assert!(
            off(
                &drawn(&format!("M 60 100 A {radius} {radius} 0 0 1 140 100")),
                Point::new(100.0, 100.0),
                (40.0, 40.0),
                0.0
            ) < 1e-6
        );
    }
    // 20 × 10 over a chord of 80 along its first axis grows to 40 × 20.
    let half = drawn("M 60 100 A 20 10 0 0 0 140 100 Z");
    close(measure::signed_area(&half).abs(), PI * 40.0 * 20.0 / 2.0, 1e-6);
    for flat in ["M 60 100 A 0 10 0 0 1 140 100 L 100 150 Z", "M 60 100 A 10 0 30 1 1 140 100 L 100 150 Z"] {
        close(measure::signed_area(&drawn(flat)).abs(), 2000.0, 1e-12);
    }
    // An arc to where it starts draws nothing.
    assert_eq!(drawn("M 60 100 A 10 10 0 1 1 60 100 L 140 100 L 100 150 Z").segments.len(), 3);
}

/// A quadratic curve is a parabola: two thirds of its triangle (Archimedes), and the textbook length of its arc.
#[test]
fn parabolas_have_their_length_and_area() {
    for (chord, height) in [(100.0_f64, 50.0_f64), (120.0, 5.0), (30.0, 80.0)] {
        let top = 180.0 - 2.0 * height;
        let curve = drawn(&format!("M 20 180 q {} {} {chord} 0 z", chord / 2.0, top - 180.0));
        let slant = (chord * chord + 16.0 * height * height).sqrt();
        let arc = 0.5 * slant + chord * chord / (8.0 * height) * libm::log((4.0 * height + slant) / chord);
        close(length(&curve), arc + chord, 1e-6);
        close(measure::signed_area(&curve).abs(), 2.0 / 3.0 * chord * height, 1e-12);
    }
}

/// The curve (0, 0) (0, h) (w, h) (w, 0) bounds 0.6 w h: the integral of 3 h t (1 − t) · 6 w t (1 − t). `S` and `T` go on
/// with the mirrored control point, so that a wave has as much above its axis as below.
#[test]
fn cubic_curves_have_their_area() {
    close(measure::signed_area(&drawn("M 50 100 C 50 60 130 60 130 100 Z")).abs(), 0.6 * 80.0 * 40.0, 1e-12);
    let wave = "M 20 100 c 0 -40 60 -40 60 0 s 60 40 60 0 V 170 H 20 z";
    close(measure::signed_area(&drawn(wave)).abs(), 120.0 * 70.0, 1e-12);
    let wave = "M 20 100 q 30 -40 60 0 t 60 0 V 170 H 20 z";
    close(measure::signed_area(&drawn(wave)).abs(), 120.0 * 70.0, 1e-12);
    // After another command the control point is where the pen is.
    let straight = "M 20 100 L 80 100 t 60 0 V 170 H 20 z";
    close(measure::signed_area(&drawn(straight)).abs(), 120.0 * 70.0, 1e-12);
}

/// A rectangle with corners of 10 × 5: area less four corners of (1 − π/4) of their box. SVG 2, 10.2: radii are at most
/// half a side, and one stands for both.
#[test]
fn rounded_rectangles_have_their_area() {
    let corner = 1.0 - PI / 4.0;
    let of = |more: &str| path(&format!("<rect id=\"SIDE\" x=\"20\" y=\"30\" width=\"80\" height=\"60\" {more}/>"));
    let area = |more: &str| measure::signed_area(&of(more)).abs();
    close(area(""), 4800.0, 1e-12);
    close(area("rx=\"10\" ry=\"5\""), 4800.0 - 4.0 * 50.0 * corner, 1e-8);
    close(area("rx=\"10\""), 4800.0 - 4.0 * 100.0 * corner, 1e-8);
    close(area("ry=\"500\""), PI * 40.0 * 30.0, 1e-6);
}

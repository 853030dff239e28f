//! Styles of corners against polygons worked by hand.

use super::offset::polygon;
use backtack_core::geom::{Corner, Corners, OffsetError, Outline, Worked, offset, shape};
use std::f64::consts::PI;

/// At `b` the outline turns by the angle of the triangle 3-4-5: cosine 0.6, sine 0.8. At `c` by its supplement.
fn quad() -> Outline {
    polygon(&[("a", 0.0, 0.0), ("b", 100.0, 0.0), ("c", 130.0, 40.0), ("d", 0.0, 40.0)])
}

fn at(point: &str, corner: Corner) -> Corners {
    Corners { at: [(point.to_owned(), corner)].into(), ..Corners::default() }
}

/// The corners of the cut line, in the order they are met from the lower left one.
fn cut(outline: &Outline, widths: [f64; 4], corners: &Corners) -> Vec<(f64, f64)> {
    let line = offset::outset(outline, &widths, corners).expect("a cut line");
    line.single().expect("one contour").to_points().iter().map(|point| (point.x, point.y)).collect()
}

fn near(found: Vec<(f64, f64)>, wanted: &[(f64, f64)]) {
    let close = |(a, b): (&(f64, f64), &(f64, f64))| (a.0 - b.0).abs() < 0.003 && (a.1 - b.1).abs() < 0.003;
    let start = found.iter().position(|point| close((point, &wanted[0]))).unwrap_or_else(|| panic!("{found:?}"));
    let turned: Vec<_> = found.iter().cycle().skip(start).take(found.len()).copied().collect();
    assert_eq!(turned.len(), wanted.len(), "{turned:?}");
    assert!(turned.iter().zip(wanted).all(close), "{turned:?} instead of {wanted:?}");
}

// At c both cut lines of 8 mm meet at c + 8 · (1 + 0.6) / 0.8 = 16 along b-c: (139.6, 52.8) less 8 across: (146, 48).
const C: (f64, f64) = (146.0, 48.0);

/// The offset lines of both edges meet (8 − 8 · 0.6) / 0.8 = 4 mm past `b`.
#[test]
fn mitre() {
    let line = cut(&quad(), [8.0; 4], &Corners::default());
    near(line, &[(-8.0, -8.0), (104.0, -8.0), C, (-8.0, 48.0)]);
    // Within 1 allowance of b: square to the bisector, whose direction is (1, −2) / √5, at 8 mm: along the edge
    // (8 mm below b) where x + 2 · 8 = 8√5.
    let line = cut(&quad(), [8.0; 4], &at("b", Corner::Mitre { limit: 1.0 }));
    let x = 8.0 * 5.0_f64.sqrt() - 16.0;
    assert_eq!(line.len(), 5);
    assert!(line.iter().any(|point| (point.0 - 100.0 - x).abs() < 0.003 && point.1 == -8.0), "{line:?}");
}

/// The sew line a-b run on meets the cut line of b-c 8 / 0.8 = 10 mm past b. There the allowance ends square.
#[test]
fn step() {
    let line = cut(&quad(), [8.0; 4], &at("b", Corner::Step(Worked::Before)));
    near(line.clone(), &[(-8.0, -8.0), (110.0, -8.0), (110.0, 0.0), C, (-8.0, 48.0)]);
    // Of equal allowances the edge before the point is worked.
    assert_eq!(line, cut(&quad(), [8.0; 4], &at("b", Corner::Step(Worked::Wider))));
    // The other way: b-c run back by 10 is (94, −8); 8 square to it (100.4, −12.8).
    let line = cut(&quad(), [8.0; 4], &at("b", Corner::Step(Worked::After)));
    near(line, &[(-8.0, -8.0), (94.0, -8.0), (100.4, -12.8), C, (-8.0, 48.0)]);
}

/// The allowance of a-b, folded up along y = 0, must end on the cut line of b-c: its end (116, −8) comes to lie on
/// (116, 8), and (116, 8) − (110, 0) is along b-c, (0.6, 0.8).
#[test]
fn fold_back() {
    let line = cut(&quad(), [8.0; 4], &at("b", Corner::FoldBack(Worked::Before)));
    near(line, &[(-8.0, -8.0), (116.0, -8.0), (110.0, 0.0), C, (-8.0, 48.0)]);
    // The other way: b-c run back by 10 is (94, −8), by (8 + 8 · 0.6) / 0.8 = 16 and 8 across (96.8, −17.6).
    let line = cut(&quad(), [8.0; 4], &at("b", Corner::FoldBack(Worked::After)));
    near(line, &[(-8.0, -8.0), (94.0, -8.0), (96.8, -17.6), C, (-8.0, 48.0)]);
}

/// Beyond a right angle the mirrored end lies behind the corner: the strip is cut back. At c, 20 mm of b-c: it ends
/// (8 − 20 · 0.6) / 0.8 = −5 mm past c at (143, 24), whose image at b-c is (111, 48), on the cut line of c-d.
#[test]
fn fold_back_behind_the_corner() {
    let line = cut(&quad(), [8.0, 20.0, 8.0, 8.0], &at("c", Corner::FoldBack(Worked::Wider)));
    // At b, 8 and 20 mm would meet behind the end of b-c, so that the wide strip ends square at b, (116, −12), and the
    // narrow one runs on to it, 8 / 0.6 mm out from b.
    let b = (100.0 + 8.0 / 0.6 * 0.8, -8.0);
    near(line, &[(-8.0, -8.0), b, (116.0, -12.0), (143.0, 24.0), (136.0, 48.0), (-8.0, 48.0)]);
    // Mirrored, the worked edge comes after the corner.
    let line = cut(&quad().mirrored(), [8.0, 8.0, 20.0, 8.0], &at("c", Corner::FoldBack(Worked::Wider)));
    near(line, &[(8.0, 48.0), (-136.0, 48.0), (-143.0, 24.0), (-116.0, -12.0), (-b.0, -8.0), (8.0, -8.0)]);
    // 80 mm would have to end (8 − 80 · 0.6) / 0.8 = −50 mm past c; b-c is only just that long, so 90 mm cannot.
    let corners = at("c", Corner::FoldBack(Worked::Wider));
    let Err(OffsetError::Worked { id, back }) = offset::outset(&quad(), &[8.0, 90.0, 8.0, 8.0], &corners) else {
        panic!("the edge is too short")
    };
    assert_eq!((id.as_str(), back), ("c", 57.5));
}

/// At a right angle all three are the same corner.
#[test]
fn right_angles_know_no_difference() {
    let panel = shape::rectangle(80.0, 120.0).expect("a panel");
    let mitred = offset::outset(&panel, &[6.0; 4], Corners::default()).expect("a cut line");
    for corner in [Corner::Step(Worked::Before), Corner::FoldBack(Worked::After)] {
        let other = offset::outset(&panel, &[6.0; 4], corner).expect("a cut line");
        assert!((other.area() - mitred.area()).abs() < 0.01);
    }
}

/// A quarter circle at one corner, mitres at three: 100² + 4 · 100 · 10 + 3 · 10² + 25π.
#[test]
fn one_corner_has_a_style_of_its_own() {
    let square = shape::rectangle(100.0, 100.0).expect("a square");
    let line = offset::outset(&square, &[10.0; 4], at("ne", Corner::Round)).expect("a cut line");
    assert!((line.area() - (14_300.0 + 25.0 * PI)).abs() < 0.04, "{}", line.area());
    // Cut off square 10 mm from the corner, the corner loses the square of the tip beyond: 10√2 − 10.
    let line = offset::outset(&square, &[10.0; 4], at("ne", Corner::Square)).expect("a cut line");
    assert!((line.area() - (14_400.0 - (200.0_f64.sqrt() - 10.0).powi(2))).abs() < 0.02, "{}", line.area());
}

/// Turns of 19° and 21° with 5 and 10 mm: below 20° the cut line steps square at the point whatever the style, above
/// it follows the style.
#[test]
fn shallow_corners_step_at_the_point() {
    for (degrees, steps) in [(19.0_f64, true), (21.0, false)] {
        let (sin, cos) = degrees.to_radians().sin_cos();
        let bent =
            polygon(&[("a", 0.0, 0.0), ("b", 100.0, 0.0), ("c", 100.0 + 100.0 * cos, 100.0 * sin), ("d", 0.0, 150.0)]);
        for style in [Corner::Mitre { limit: 3.0 }, Corner::Step(Worked::Wider), Corner::Round] {
            let line = cut(&bent, [10.0, 5.0, 5.0, 5.0], &at("b", style));
            let square = line.iter().any(|p| (p.0 - 100.0).abs() < 0.003 && (p.1 + 10.0).abs() < 0.003)
                && line.iter().any(|p| (p.0 - 100.0).abs() < 0.003 && (p.1 + 5.0 / cos).abs() < 0.003);
            let stepped = matches!(style, Corner::Step(_));
            assert_eq!(square, steps || !stepped && 10.0 * cos > 5.0, "{degrees}° {style:?}: {line:?}");
        }
    }
}

//! Drawings: the table of lines, hatches, curves, and the SVG file.

use backtack_core::scene::{
    At, Fill, Item, LINES, Label, Line, PieceOutline, Scene, Segment, StackPly, StackSeam, circle, closed, hatch,
    piece, stack, svg,
};

/// Each meaning has one style, none thinner than an office printer holds (0.18 mm).
#[test]
fn every_line_has_one_printable_style() {
    for style in LINES {
        assert_eq!(LINES.iter().filter(|other| other.line == style.line).count(), 1);
        assert_eq!(style.line.style(), style);
        assert!(style.width >= 0.18 && (style.ink >= 60 || style.line == Line::Halo), "{style:?}");
        assert!(style.dash.len() % 2 == 0, "dashes and gaps come in pairs: {style:?}");
    }
}

/// Closed form: lines at pitch p through an area A have a total length of about A / p; for a rectangle of
/// 20 by 10 at 0° and pitch 1 it is exactly ten lines of 20.
#[test]
fn a_hatch_fills_a_rectangle() {
    let rectangle = [[0.0, 0.0], [20.0, 0.0], [20.0, 10.0], [0.0, 10.0]];
    let strokes = hatch(&rectangle, 0.0, 1.0);
    assert_eq!(strokes.len(), 20);
    assert!((length(&strokes) - 200.0).abs() < 1e-9);
    let slanted = length(&hatch(&rectangle, 60.0, 0.01));
    assert!((slanted - 200.0 / 0.01).abs() < 100.0, "{slanted}");
}

#[test]
fn a_hatch_of_nothing_is_empty() {
    assert!(hatch(&[[0.0, 0.0], [1.0, 0.0]], 0.0, 1.0).is_empty());
    assert!(hatch(&[[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]], 0.0, 0.0).is_empty());
}

fn length(strokes: &[Segment]) -> f64 {
    let ends: Vec<At> = strokes
        .iter()
        .filter_map(|s| match s {
            Segment::Move(p) | Segment::Line(p) => Some(*p),
            Segment::Cubic(..) | Segment::Close => None,
        })
        .collect();
    ends.chunks(2).map(|pair| ((pair[1][0] - pair[0][0]).powi(2) + (pair[1][1] - pair[0][1]).powi(2)).sqrt()).sum()
}

/// Closed form: every point of a circle lies at its radius. The four-arc circle errs by at most 0.0273 %.
#[test]
fn a_circle_is_round() {
    let mut last = [0.0; 2];
    for segment in circle([3.0, 4.0], 100.0) {
        match segment {
            Segment::Move(p) => last = p,
            Segment::Cubic(a, b, end) => {
                for step in 0..=20 {
                    let (t, s) = (f64::from(step) / 20.0, 1.0 - f64::from(step) / 20.0);
                    let at = [0, 1].map(|i| {
                        s * s * s * last[i] + 3.0 * s * s * t * a[i] + 3.0 * s * t * t * b[i] + t * t * t * end[i]
                    });
                    let radius = ((at[0] - 3.0).powi(2) + (at[1] - 4.0).powi(2)).sqrt();
                    assert!((radius - 100.0).abs() < 0.028, "{radius}");
                }
                last = end;
            }
            Segment::Line(_) | Segment::Close => {}
        }
    }
}

/// The file is in true millimetres: size in mm, one unit a millimetre, numbers on the 1 µm grid.
#[test]
fn an_svg_file_is_in_true_millimetres_and_escapes_text() {
    let mut scene = Scene::new(210.0, 100.5, "A <b> & \"c\"");
    scene.line(Line::Sew, [10.0, 20.0], [60.000_000_4, 20.0]);
    scene.label(Label::new("</text><script>\u{0}\u{1b}", [5.0, 5.0]));
    let out = svg(&scene);
    assert!(out.contains("width=\"210mm\" height=\"100.5mm\" viewBox=\"0 0 210 100.5\""), "{out}");
    assert!(out.contains("d=\"M10 20L60 20\""), "{out}");
    assert!(out.contains("stroke-width=\"0.25\"") && out.contains("stroke-dasharray=\"3 0.75\""), "{out}");
    assert!(out.contains("<title>A &lt;b&gt; &amp; &quot;c&quot;</title>"), "{out}");
    assert!(out.contains(">&lt;/text&gt;&lt;script&gt;</text>"), "{out}");
}

/// At 1:5 a piece of 500 by 100 mm is drawn 100 by 20 mm, wherever its own origin lies.
#[test]
fn a_piece_is_drawn_at_its_scale() {
    let outline = PieceOutline {
        cut: closed(&[[7.0, 7.0], [507.0, 7.0], [507.0, 107.0], [7.0, 107.0]]),
        width_text: "500".into(),
        height_text: "100".into(),
        bar: 50.0,
        bar_text: "50 mm".into(),
        alt: "A rectangle".into(),
        ..PieceOutline::default()
    };
    let drawn = piece(&outline, 5.0);
    let cut = drawn.items.iter().find_map(|item| match item {
        Item::Path(path) if path.line == Some(Line::Cut) => Some(path),
        Item::Path(_) | Item::Label(_) => None,
    });
    let [Segment::Move(a), Segment::Line(b), Segment::Line(c), ..] = cut.expect("a cut line").segments[..] else {
        panic!("a rectangle of lines")
    };
    assert!((b[0] - a[0] - 100.0).abs() < 1e-9 && (c[1] - b[1] - 20.0).abs() < 1e-9);
    assert!(drawn.width > 100.0 && drawn.height > 20.0);
}

/// In needle order from the top: the numbers of the plies go down the page.
#[test]
fn a_stack_is_drawn_in_needle_order() {
    let ply = |number: &str, bead| StackPly { number: number.into(), bead, ..StackPly::default() };
    let seam = StackSeam {
        plies: vec![ply("1", false), ply("2", true), ply("3", false)],
        stitch: "301".into(),
        ..StackSeam::default()
    };
    let heights: Vec<f64> = stack(&seam)
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Label(label) if label.text.len() == 1 => Some(label.at[1]),
            Item::Label(_) | Item::Path(_) => None,
        })
        .collect();
    assert_eq!(heights.len(), 3);
    assert!(heights.is_sorted(), "{heights:?}");
}

#[test]
fn json_numbers_are_on_the_grid() {
    let mut scene = Scene::new(1.0, 1.0, "x");
    scene.path(Some(Line::Cut), Fill::None, vec![Segment::Move([0.123_456_7, -0.000_01]), Segment::Close]);
    let json = serde_json::to_string(&scene).expect("a scene is JSON");
    assert!(json.contains(r#"["m",0.123,0.0],["z"]"#), "{json}");
}

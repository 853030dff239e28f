//! Drawings: the table of lines, hatches, curves, and the SVG file.

use backtack_core::scene::{
    At, Fill, InnerLine, Item, LINES, Label, Line, Map, MapEdge, MapPiece, NestSize, NotchForm, PieceNotch,
    PieceOutline, PiecePoint, PieceSeam, PileSide, Scene, Segment, StackPly, StackSeam, circle, closed, frame, hatch,
    meet, open, overview, passes, piece, stack, strokes, svg,
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
    let out = svg(&scene, backtack_core::words::Languages::default());
    assert!(out.contains("width=\"210mm\" height=\"100.5mm\" viewBox=\"0 0 210 100.5\""), "{out}");
    assert!(out.contains("d=\"M10 20L60 20\""), "{out}");
    assert!(out.contains("stroke-width=\"0.18\"") && out.contains("stroke-dasharray=\"2.16 0.9\""), "{out}");
    assert!(out.contains("<title>A &lt;b&gt; &amp; &quot;c&quot;</title>"), "{out}");
    assert!(out.contains(">&lt;/text&gt;&lt;script&gt;</text>"), "{out}");
}

/// Limits 194 and 206: readings on a limit lie on its line, one outside lies beyond it and is full, each at its own height.
#[test]
fn readings_lie_where_their_numbers_say() {
    use backtack_core::scene::{Chart, ChartReading, Fill, readings};
    let one = |value: Option<f64>, out: bool| ChartReading { value, out };
    let list = vec![one(Some(194.0), false), one(Some(206.0), false), one(Some(210.0), true), one(None, false)];
    let chart = Chart {
        target: Some(200.0),
        lower: Some(194.0),
        upper: Some(206.0),
        readings: list,
        alt: "Four readings".into(),
    };
    let drawn = readings(&chart);
    assert_eq!(drawn.alt.english(), "Four readings");
    let mut limits = Vec::new();
    let mut marks = Vec::new();
    for item in &drawn.items {
        let Item::Path(path) = item else { continue };
        let Some(Segment::Move(at)) = path.segments.first() else { continue };
        match (path.line, path.fill) {
            (Some(Line::Outline), Fill::None) => limits.push(at[0]),
            (Some(Line::Outline), Fill::Paper) => marks.push((at[0] - 0.65, at[1], false)),
            (None, Fill::Ink) => marks.push((at[0] + 0.65, at[1], true)),
            _ => {}
        }
    }
    assert_eq!((limits.len(), marks.len()), (2, 3), "a piece that was not read has no mark");
    assert!((marks[0].0 - limits[0]).abs() < 1e-9 && (marks[1].0 - limits[1]).abs() < 1e-9, "{limits:?} {marks:?}");
    assert!(marks[2].2 && !marks[1].2, "a full mark is outside");
    let scale = (limits[1] - limits[0]) / 12.0;
    assert!((marks[2].0 - limits[1] - 4.0 * scale).abs() < 1e-9);
    assert!(marks[1].1 - marks[0].1 > 0.5, "equal readings are seen beside one another");
    assert!(marks.iter().all(|(x, ..)| *x > 0.0 && *x < drawn.width));
    let empty = readings(&Chart { target: None, lower: None, upper: None, readings: Vec::new(), alt: "None".into() });
    assert!(empty.items.is_empty() && empty.width > 0.0 && empty.height > 0.0);
}

/// At 1:5 a piece of 500 by 100 mm is drawn 100 by 20 mm, wherever its own origin lies.
#[test]
fn a_piece_is_drawn_at_its_scale() {
    let outline = PieceOutline {
        cut: closed(&[[7.0, 7.0], [507.0, 7.0], [507.0, 107.0], [7.0, 107.0]]),
        width_text: "500".into(),
        height_text: "100".into(),
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

/// A crowded piece: twelve points, three of them within 4 mm of paper, notches, a mark, a line, an opening.
fn crowded() -> PieceOutline {
    let point = |name: &str, x: f64, y: f64| PiecePoint { name: name.into(), at: [x, y] };
    let notch = |x: f64, form| PieceNotch {
        sew: [x, 6.0],
        cut: [x, 0.0],
        tip: [x, if form == NotchForm::Slit { 3.0 } else { -3.0 }],
        form,
    };
    PieceOutline {
        others: Vec::new(),
        seams: Vec::new(),
        pile_text: String::new(),
        code: "FLANK".into(),
        cut: closed(&[[0.0, 0.0], [200.0, 0.0], [200.0, 120.0], [0.0, 120.0]]),
        sew: closed(&[[6.0, 6.0], [194.0, 6.0], [194.0, 114.0], [6.0, 114.0]]),
        points: vec![
            point("nw", 6.0, 6.0),
            point("n1", 96.0, 6.0),
            point("n2", 100.0, 6.0),
            point("n3", 104.0, 6.0),
            point("ne", 194.0, 6.0),
            point("e1", 194.0, 50.0),
            point("e2", 194.0, 56.0),
            point("se", 194.0, 114.0),
            point("chin", 120.0, 114.0),
            point("throat", 112.0, 114.0),
            point("sw", 6.0, 114.0),
            point("w", 6.0, 60.0),
        ],
        notches: vec![notch(60.0, NotchForm::Slit), notch(70.0, NotchForm::Outward)],
        marks: vec![point("eye", 40.0, 40.0), point("button", 44.0, 44.0)],
        inner: vec![InnerLine {
            line: Line::Topstitch,
            segments: open(&[[20.0, 90.0], [180.0, 90.0]]),
            name: "@smile".into(),
        }],
        openings: vec![([[40.0, 114.0], [100.0, 114.0]], "opening 60".into())],
        remarks: vec![point("allowance 10", 70.0, 114.0)],
        grain: Some([0.0, -1.0]),
        pile: Some([0.3, 1.0]),
        width_text: "200".into(),
        height_text: "120".into(),
        alt: "A crowded piece".into(),
    }
}

fn labels(scene: &Scene) -> Vec<&Label> {
    let all = scene.items.iter().filter_map(|item| match item {
        Item::Label(label) => Some(label),
        Item::Path(_) => None,
    });
    all.collect()
}

fn lines(scene: &Scene, wanted: &[Line]) -> Vec<[At; 2]> {
    let paths = scene.items.iter().filter_map(|item| match item {
        Item::Path(path) if path.line.is_some_and(|line| wanted.contains(&line)) => Some(path),
        Item::Path(_) | Item::Label(_) => None,
    });
    paths.flat_map(|path| strokes(&path.segments)).collect()
}

/// No two labels share an area, all are inside the drawing, and none lies on the outline, at two scales.
#[test]
fn labels_of_a_crowded_piece_are_apart_and_off_its_outline() {
    for scale in [1.0, 2.0] {
        let scene = piece(&crowded(), scale);
        let labels = labels(&scene);
        assert!(labels.len() >= 12 + 2 + 1 + 1 + 1 + 1 + 3, "{}", labels.len());
        let outline = lines(&scene, &[Line::Cut, Line::Sew, Line::Notch]);
        for (n, label) in labels.iter().enumerate() {
            let own = frame(label);
            let within = own[0].iter().all(|c| *c >= 0.0) && own[1][0] <= scene.width && own[1][1] <= scene.height;
            assert!(within, "{} at 1:{scale} leaves the drawing", label.text);
            assert!(!outline.iter().any(|line| passes(line, &own)), "{} at 1:{scale} lies on a line", label.text);
            for other in labels.iter().skip(n + 1) {
                assert!(!meet(&own, &frame(other)), "{} meets {} at 1:{scale}", label.text, other.text);
            }
        }
    }
}

/// A piece with many short edges: its letters decide the scale, and none covers another.
#[test]
fn letters_of_a_map_are_apart() {
    let corners: Vec<At> = (0..16)
        .map(|n| f64::from(n) * std::f64::consts::TAU / 16.0)
        .map(|angle| [60.0 * libm::cos(angle), 60.0 * libm::sin(angle)])
        .collect();
    let edge = |n: usize| MapEdge {
        path: open(&[corners[n], corners[(n + 1) % 16]]),
        letter: format!("A{}", n + 1),
        forward: Some(n.is_multiple_of(2)),
        open: false,
    };
    let points = corners.iter().enumerate().map(|(n, at)| PiecePoint { name: format!("p{n}"), at: *at });
    let disc = MapPiece {
        title: "DISC".into(),
        part: String::new(),
        edges: (0..16).map(edge).collect(),
        points: points.collect(),
        lines: Vec::new(),
    };
    let map = overview(&[disc.clone(), disc.clone()], 200.0, 120.0, "Two discs").expect("room for both");
    assert_eq!(map.scale, Some(1.5), "at 1:1 there is room for one");
    assert_eq!(map.left, Vec::<String>::new());
    letters_apart(&map);
    // At 1:8 sixteen letters have 3 mm each: those without a place are said.
    let crowded = overview(&vec![disc.clone(); 24], 200.0, 120.0, "Many discs").expect("room for all");
    letters_apart(&crowded);
    let shown = labels(&crowded.scene).iter().filter(|label| label.text.starts_with('A')).count();
    assert_eq!(shown + crowded.left.len(), 24 * 16);
    assert!(!crowded.left.is_empty());
}

fn letters_apart(map: &Map) {
    let labels = labels(&map.scene);
    let edges = lines(&map.scene, &[Line::Outline]);
    for (n, label) in labels.iter().enumerate() {
        for other in labels.iter().skip(n + 1) {
            assert!(!meet(&frame(label), &frame(other)), "{} meets {}", label.text, other.text);
        }
        assert!(!edges.iter().any(|line| passes(line, &frame(label))), "{} lies on an edge", label.text);
    }
}

/// A small piece with many letters is drawn larger than the rest, and then there is no scale to state.
#[test]
fn a_small_piece_with_many_letters_is_drawn_larger() {
    let side = |at: usize| {
        let corners = [[0.0, 0.0], [0.0, 30.0], [30.0, 30.0], [30.0, 0.0]];
        [corners[at], corners[(at + 1) % 4]]
    };
    let square = |factor: f64| MapPiece {
        title: "P".into(),
        edges: (0..4)
            .map(|at| MapEdge {
                path: open(&side(at).map(|p| [p[0] * factor, p[1] * factor])),
                letter: format!("B{at}"),
                forward: Some(true),
                open: false,
            })
            .collect(),
        ..MapPiece::default()
    };
    let alike = overview(&[square(10.0), square(10.0)], 200.0, 120.0, "Alike").expect("room");
    assert_eq!(alike.scale, Some(3.5));
    let apart = overview(&[square(20.0), square(1.0)], 200.0, 120.0, "Apart").expect("room");
    assert_eq!((apart.scale, apart.left.len()), (None, 0));
    let sides = lines(&apart.scene, &[Line::Outline]);
    let length = |line: &[At; 2]| ((line[1][0] - line[0][0]).powi(2) + (line[1][1] - line[0][1]).powi(2)).sqrt();
    assert!(sides.iter().all(|side| length(side) >= 9.99), "each letter has 10 mm: {sides:?}");
}

/// A corner of a square with its lower left corner at the origin.
fn corner(side: f64) -> Vec<Segment> {
    closed(&[[0.0, 0.0], [0.0, -side], [side, -side], [side, 0.0]])
}

/// Another size is true to scale about the point it shares with the drawn one, has a line of its own and its code.
#[test]
fn sizes_are_laid_on_their_shared_point() {
    let large = NestSize { code: "L".into(), cut: corner(150.0) };
    let outline = PieceOutline {
        cut: corner(100.0),
        width_text: "100".into(),
        height_text: "100".into(),
        others: vec![large],
        ..PieceOutline::default()
    };
    let scene = piece(&outline, 2.0);
    let (small, large) = (lines(&scene, &[Line::Cut]), lines(&scene, &[Line::Second]));
    assert_eq!(small[0][0], large[0][0], "both begin at the shared corner");
    assert!(
        (small[0][0][1] - small[0][1][1] - 50.0).abs() < 1e-9 && (large[0][0][1] - large[0][1][1] - 75.0).abs() < 1e-9
    );
    let texts: Vec<&str> = labels(&scene).iter().map(|label| label.text.as_str()).collect();
    assert_eq!(texts.iter().filter(|text| **text == "L").count(), 1, "{texts:?}");
    assert!(!texts.contains(&"50 mm"), "one bar a sheet, none in each drawing");
}

/// The letter of a seam lies outside of its edge, and its arrowhead points the way the seam runs.
#[test]
fn letters_lie_outside_and_heads_point_along_the_seam() {
    let edge =
        |from: At, to: At, letter: &str, forward| PieceSeam { path: open(&[from, to]), letter: letter.into(), forward };
    let outline = PieceOutline {
        cut: corner(100.0),
        seams: vec![
            edge([0.0, 0.0], [100.0, 0.0], "A", Some(true)),
            edge([100.0, 0.0], [100.0, -100.0], "B2", Some(false)),
        ],
        ..PieceOutline::default()
    };
    let scene = piece(&outline, 2.0);
    let cut = lines(&scene, &[Line::Cut]).concat();
    let most = |axis: usize| cut.iter().map(|at| at[axis]).fold(0.0, f64::max);
    let high = [most(0), most(1)];
    let at = |text: &str| {
        labels(&scene).into_iter().find(|label| label.text == text).map(|label| label.at).expect("a letter")
    };
    assert!(at("A")[1] > high[1] && at("B2")[0] > high[0], "{high:?}");
    let heads: Vec<[At; 2]> = scene
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Path(path) if path.line.is_none() && path.fill == Fill::Ink && path.segments.len() == 4 => {
                let point = |n: usize| match path.segments[n] {
                    Segment::Move(at) | Segment::Line(at) => at,
                    _ => [f64::NAN; 2],
                };
                let (tip, a, b) = (point(0), point(1), point(2));
                Some([tip, [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])]])
            }
            _ => None,
        })
        .filter(|[tip, _]| (tip[1] - high[1]).abs() < 1e-6 || (tip[0] - high[0]).abs() < 1e-6)
        .collect();
    assert!(heads.iter().any(|[tip, back]| (tip[1] - high[1]).abs() < 1e-6 && tip[0] > back[0]), "A runs to the right");
    assert!(
        heads.iter().any(|[tip, back]| (tip[0] - high[0]).abs() < 1e-6 && tip[1] > back[1]),
        "B runs back, downwards"
    );
}

/// Pile is one bold arrow with its name; grain is thin with a head at each end, so that nobody takes it for the nap.
#[test]
fn grain_and_pile_cannot_be_taken_for_each_other() {
    let outline = PieceOutline {
        cut: corner(100.0),
        grain: Some([0.0, 1.0]),
        pile: Some([0.0, 1.0]),
        pile_text: "PILE".into(),
        ..PieceOutline::default()
    };
    let scene = piece(&outline, 2.0);
    let style = |line: Line| line.style().width;
    assert!(style(Line::Pile) >= 3.0 * style(Line::Grain));
    assert_eq!(lines(&scene, &[Line::Pile]).len(), 1);
    let grain = lines(&scene, &[Line::Grain]).concat();
    let filled = scene.items.iter().filter_map(|item| match item {
        Item::Path(path) if path.line.is_none() && path.fill == Fill::Ink => match path.segments[0] {
            Segment::Move(at) => Some(at),
            _ => None,
        },
        _ => None,
    });
    let near =
        filled.filter(|tip| grain.iter().any(|end| (tip[0] - end[0]).abs() < 1e-6 && (tip[1] - end[1]).abs() < 3.0));
    assert_eq!(near.count(), 2, "a head at each end of the grain");
    assert!(labels(&scene).iter().any(|label| label.text == "PILE"));
}

/// The right side of plain fabric is a second line on the side it faces; pile is its own right side.
#[test]
fn the_right_side_of_a_ply_is_drawn() {
    let lines_of = |face, pile| {
        let ply = StackPly { number: "1".into(), face, pile, bead: false };
        let scene = stack(&StackSeam { plies: vec![ply], ..StackSeam::default() });
        lines(&scene, &[Line::Notch]).iter().map(|line| line[0][1]).collect::<Vec<f64>>()
    };
    let (up, down) = (lines_of(PileSide::Up, PileSide::None), lines_of(PileSide::Down, PileSide::None));
    assert!(up.len() == 1 && down.len() == 1 && up[0] < down[0], "{up:?} {down:?}");
    assert!(lines_of(PileSide::Up, PileSide::Up).is_empty());
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

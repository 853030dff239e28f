//! Corners, darts, notches and sizes as a specification writes them.

use backtack_core::compute::{self, Drawn, Figures, NotchMark};
use backtack_core::geom::{Path, Point, measure};
use backtack_core::model::Assembly;
use backtack_core::model::assembly::Gap;
use backtack_core::read;

/// Findings, figures and lines of a specification.
fn made(text: &str) -> (Vec<String>, Figures, Drawn) {
    let loaded = read::texts(&[("style.toml", text)]);
    let assembly = Assembly::of(&loaded.model);
    let gaps = assembly.outlines.gaps().map(|(piece, size, gap)| match gap {
        Gap::Defect { message, .. } => format!("{piece} {size}: {message}"),
        other => format!("{piece} {size}: {other:?}"),
    });
    let mut said: Vec<String> = loaded.findings.iter().map(|one| one.message.english()).chain(gaps).collect();
    let computed = compute::compute(&loaded.model, &assembly);
    let findings = compute::findings(&loaded.model, &assembly, (&computed.figures, &computed.drawn, &computed.lays));
    said.extend(findings.iter().map(|one| format!("{}: {}", one.rule.code, one.message)));
    (said, computed.figures, computed.drawn)
}

/// One piece with keys of its own.
fn piece(outline: &str, keys: &str) -> (Vec<String>, Figures, Drawn) {
    let head = "[style]\nsizes = [\"S\"]\n[part.p]\nform = \"flat\"\n[fabric.c]\n";
    made(&format!("{head}[piece.P]\npart = \"p\"\nmaterial = \"c\"\noutline = {outline}\n{keys}"))
}

fn cut(drawn: &Drawn, size: &str) -> Vec<Path> {
    drawn.cut("P", size, "shell").known().expect("a cut line").paths.clone()
}

/// Width and height of the cut line.
fn extent(drawn: &Drawn, size: &str) -> (f64, f64) {
    let bounds = measure::bbox(&cut(drawn, size)[0]);
    let round = |mm: f64| (mm * 1e6).round() / 1e6;
    (round(bounds.width()), round(bounds.height()))
}

fn corners(drawn: &Drawn) -> Vec<Point> {
    cut(drawn, "S")[0].pieces().map(|(start, _)| start).collect()
}

fn marks(drawn: &Drawn, size: &str) -> Vec<NotchMark> {
    drawn.get("P", size).expect("lines").notches.known().expect("notches").clone()
}

fn near(found: Point, x: f64, y: f64) {
    assert!(found.distance(Point::new(x, y)) < 0.003, "{found:?} instead of ({x}, {y})");
}

const QUAD: &str = "{ shape = \"polygon\", corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"b\", \"100 mm\", \"0 mm\"], [\"c\", \"130 mm\", \
                    \"40 mm\"], [\"d\", \"0 mm\", \"40 mm\"]] }";

/// The polygons of `geom::corner`, by the words of the file.
#[test]
fn corner_styles_are_read() {
    let line = |corners_written: &str| {
        let (said, _, drawn) = piece(QUAD, &format!("allowance = \"8 mm\"\ncorners = {corners_written}"));
        assert_eq!(said, [""; 0]);
        corners(&drawn)
    };
    let has = |line: &[Point], x: f64, y: f64| line.iter().any(|p| p.distance(Point::new(x, y)) < 0.003);
    assert!(has(&line("\"mitre\""), 104.0, -8.0));
    assert!(has(&line("{ all = \"round\", b = \"step\" }"), 110.0, 0.0));
    assert!(!has(&line("{ all = \"round\", b = \"step\" }"), 146.0, 48.0));
    assert!(has(&line("{ b = \"fold back\" }"), 116.0, -8.0));
    assert!(has(&line("{ b = \"fold back b-c\" }"), 96.8, -17.6));
    assert!(has(&line("{ b = \"fold back a-b\" }"), 116.0, -8.0));
    let said = |corners: &str| piece(QUAD, &format!("allowance = \"8 mm\"\ncorners = {corners}")).0;
    assert_eq!(said("\"pointed\""), ["\"pointed\" is no style of a corner"]);
    assert_eq!(said("{ b = \"step c-d\" }"), ["the edge does not meet this corner"]);
    assert_eq!(said("\"mitre 0.5\""), ["\"mitre 0.5\" is no style of a corner"]);
}

/// A sewn V 20 wide and 40 deep with 5 mm: the legs are 44.72 long... its lines moved 5 mm towards each other meet
/// where 5 mm are left across each: the sine of half its angle is 10 / √1700.
#[test]
fn a_cut_dart_is_shallower_than_the_sewn_one() {
    let dart = |half: f64, keys: &str| {
        let shape = format!(
            "{{ shape = \"polygon\", corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"b\", \"200 mm\", \"0 mm\"], [\"e\", \"200 mm\", \
             \"100 mm\"], [\"c\", \"{} mm\", \"100 mm\"], [\"p\", \"100 mm\", \"60 mm\"], [\"d\", \"{} mm\", \"100 mm\"], [\"f\", \"0 mm\", \
             \"100 mm\"]] }}",
            100.0 + half,
            100.0 - half
        );
        piece(&shape, &format!("allowance = \"5 mm\"\n{keys}\n[seam.dart]\na = \"P:c-p\"\nb = \"P:d-p\""))
    };
    // 20 wide: the leg has slope 4, the cut V its tip 5·√1700/10 above the sewn tip and its top at 105.
    let (_, _, drawn) = dart(10.0, "darts = \"cut\"");
    let lowest = corners(&drawn).into_iter().filter(|p| (p.x - 100.0).abs() < 0.01).map(|p| p.y).fold(105.0, f64::min);
    assert!((lowest - (60.0 + 5.0 * 1_700.0_f64.sqrt() / 10.0)).abs() < 0.01, "{lowest}");
    // Below the sewn edge it is 40 − 20.6 = 19.4 deep.
    assert!((100.0 - lowest - 19.38).abs() < 0.01, "{lowest}");
    // 8 wide the lines meet 5·√1616/4 = 50 mm above the tip, above the cut edge: no V is left.
    let (_, _, drawn) = dart(4.0, "darts = \"cut\"");
    assert_eq!(extent(&drawn, "S"), (210.0, 110.0));
    assert!(corners(&drawn).iter().all(|p| p.x < 0.0 || p.x > 200.0), "{:?}", corners(&drawn));
    // Marked, the mouth is bridged whatever the width.
    for half in [10.0, 4.0] {
        let (_, _, drawn) = dart(half, "");
        assert_eq!(corners(&drawn).len(), 4);
        assert_eq!(drawn.sew("P", "S").known().expect("a sew line").points.len(), 7);
    }
}

/// On an 80 × 120 mm panel with 6 mm.
#[test]
fn notches_stand_on_the_normal_and_at_corners_on_edges_run_on() {
    let panel = "{ shape = \"rectangle\", width = \"80 mm\", height = \"120 mm\" }";
    let keys = "allowance = \"6 mm\"\nnotches = [\"nw-ne 30 mm\", \"se-ne 25 %\", \"sw\"]\nnotch-depth = \"2 mm\"";
    let (said, _, drawn) = piece(panel, keys);
    assert_eq!(said, [""; 0]);
    let all = marks(&drawn, "S");
    assert_eq!(all.len(), 4, "{:?}", drawn.astray);
    near(all[0].sew, -10.0, 60.0);
    near(all[0].cut, -10.0, 66.0);
    near(all[0].tip, -10.0, 64.0);
    near(all[1].sew, 40.0, -30.0);
    near(all[1].cut, 46.0, -30.0);
    // At the corner: nw-sw runs on down, se-sw runs on to the left, each to the cut line.
    near(all[2].cut, -40.0, -66.0);
    near(all[3].cut, -46.0, -60.0);
    assert!(all[2].corner && all[3].corner);
    let (_, _, drawn) = piece(panel, &format!("notch = \"outward\"\n{keys}"));
    near(marks(&drawn, "S")[0].tip, -10.0, 68.0);
    let (_, _, drawn) = piece(panel, &keys.replace("notch-depth = \"2 mm\"", "notch = \"none\""));
    near(marks(&drawn, "S")[0].tip, -10.0, 66.0);
    let (said, _, _) = piece(panel, "allowance = \"6 mm\"\nnotches = [\"nw-ne 90 mm\"]");
    assert!(said.iter().any(|one| one.contains("lies outside it")), "{said:?}");
}

/// At a slanted side the notch is not at the nearest point of the cut line but on the normal: where allowances differ
/// or the edge is curved both are not the same. On a circle the normal is the radius.
#[test]
fn notches_on_a_curve_follow_the_radius() {
    let disc = "{ shape = \"circle\", diameter = \"100 mm\" }";
    let (said, _, drawn) = piece(disc, "allowance = \"6 mm\"\nnotches = [\"n-e 50 %\", \"s\"]");
    assert_eq!(said, [""; 0]);
    let all = marks(&drawn, "S");
    let r = 56.0 / 2.0_f64.sqrt();
    near(all[0].cut, r, r);
    near(all[1].cut, 0.0, -56.0);
    assert!(!all[1].corner);
}

/// A panel of 80 × 120 mm with 6 mm: 92 × 132; at 0.70 its sew line is 56 × 84 and its cut line 68 × 96; at 1.25
/// 100 × 150 and 112 × 162. The allowance stays, whichever line is drawn.
#[test]
fn a_size_scales_the_sew_line_and_keeps_the_allowance() {
    let sizes = "[style]\nsizes = [\"M\", \"S\", \"L\"]\n[size.S]\nscale = { along = \"0.70\", across = \"0.70\" }\n[size.L]\nscale = { \
                 along = \"1.25\", across = \"1.25\" }\n[part.p]\nform = \"flat\"\n[fabric.c]\n[piece.P]\npart = \"p\"\nmaterial = \
                 \"c\"\nallowance = \"6 mm\"\ngrain = \"sw-nw\"\nnotches = [\"nw-ne 20 mm\", \"nw-ne 50 %\"]\noutline = ";
    for drawn_line in [
        "{ shape = \"rectangle\", width = \"80 mm\", height = \"120 mm\" }",
        "{ shape = \"rectangle\", width = \"92 mm\", height = \"132 mm\", is = \"cut line\" }",
    ] {
        let (_, _, drawn) = made(&format!("{sizes}{drawn_line}"));
        for (size, width, height) in [("M", 80.0, 120.0), ("S", 56.0, 84.0), ("L", 100.0, 150.0)] {
            assert_eq!(extent(&drawn, size), (width + 12.0, height + 12.0), "{size} {drawn_line}");
            let sew = drawn.sew("P", size).known().expect("a sew line").bbox();
            assert!((sew.width() - width).abs() < 1e-6 && (sew.height() - height).abs() < 1e-6, "{size}: {sew:?}");
            // A stated distance stays, a share grows with the edge.
            let all = marks(&drawn, size);
            near(all[0].sew, -width / 2.0 + 20.0, height / 2.0);
            near(all[1].sew, 0.0, height / 2.0);
        }
    }
}

/// A lid and the strip round it: quarter arcs of an ellipse scaled 1.4 by 1.2 and a strip that follows it.
fn lid(strip: &str, more: &str) -> String {
    format!(
        "[style]\nsizes = [\"M\", \"L\"]\n[size.L]\nscale = {{ along = \"1.4\", across = \"1.2\" }}\n[part.p]\nform = \
         \"flat\"\n[fabric.c]\n[piece.LID]\npart = \"p\"\nmaterial = \"c\"\nallowance = \"6 mm\"\noutline = {{ shape = \
         \"circle\", diameter = \"200 mm\" }}\n[piece.STRIP]\npart = \"p\"\nmaterial = \"c\"\nallowance = \"6 \
         mm\"\noutline = {{ shape = \"rectangle\", {strip} }}\n{more}"
    )
}

fn run(figures: &Figures, piece: &str, size: &str, from: &str, to: &str) -> f64 {
    let sew = figures.pieces[piece][size].sew.known().expect("a sew line");
    let found = sew.edges.iter().find(|run| [(from, to), (to, from)].contains(&(&run.from, &run.to))).expect("a run");
    found.length.get()
}

/// Scaled, the lid is an ellipse of 240 × 280 mm: 200π · 1.2 or · 1.4 would miss by the −7 % and +8.5 % of unequal
/// scaling; the strip that follows is as long as the ellipse, and as high as its own scale says.
#[test]
fn a_length_follows_edges_in_every_size() {
    let (said, figures, _) = made(&lid("width = \"along LID:n-e-s-w-n\", height = \"50 mm\"", ""));
    assert!(said.iter().all(|one| one.starts_with("size-scaled-too-far")), "{said:?}");
    let round = |size: &str| {
        ["n-e", "e-s", "s-w", "w-n"].map(|run_| {
            let (from, to) = run_.split_once('-').expect("a run");
            run(&figures, "LID", size, from, to)
        })
    };
    for (size, high) in [("M", 50.0), ("L", 70.0)] {
        let wanted: f64 = round(size).iter().sum();
        assert!((run(&figures, "STRIP", size, "nw", "ne") - wanted).abs() < 1e-5, "{size}");
        assert!((run(&figures, "STRIP", size, "nw", "sw") - high).abs() < 1e-9, "{size}");
    }
    // Ramanujan's first approximation of the ellipse, good to 1e-9 at this flatness.
    let (a, b) = (140.0_f64, 120.0_f64);
    let ellipse = std::f64::consts::PI * (3.0 * (a + b) - ((3.0 * a + b) * (a + 3.0 * b)).sqrt());
    let long = run(&figures, "STRIP", "L", "nw", "ne");
    assert!((long - ellipse).abs() < 0.001, "{long} instead of {ellipse}");
}

/// More or less than the edge: 2 % of 200π, 8 mm less, and a circle the other way round.
#[test]
fn what_follows_may_be_longer_or_shorter() {
    let pi = std::f64::consts::PI;
    for (more, wanted) in [(" + 2 %", 204.0 * pi), (" - 8 mm", 200.0 * pi - 8.0), (" + 3 mm", 200.0 * pi + 3.0)] {
        let text = lid(&format!("width = \"along LID:n-e-s-w-n{more}\", height = \"50 mm\""), "");
        let (_, figures, _) = made(&text);
        assert!((run(&figures, "STRIP", "M", "nw", "ne") - wanted).abs() < 1e-4, "{more}");
    }
    let round = "[piece.DISC]\npart = \"p\"\nmaterial = \"c\"\nallowance = \"6 mm\"\noutline = { shape = \"circle\", \
                 circumference = \"along STRIP:nw-ne\" }";
    let (said, figures, drawn) = made(&lid("width = \"300 mm\", height = \"50 mm\"", round));
    assert!(said.iter().all(|one| one.starts_with("size-scaled-too-far")), "{said:?}");
    for (size, wanted) in [("M", 300.0), ("L", 360.0)] {
        let quarter = run(&figures, "DISC", size, "n", "e");
        assert!((quarter - wanted / 4.0).abs() < 1e-4, "{size}: {quarter}");
        // It stays a circle where the size is scaled unequally.
        let bounds = drawn.sew("DISC", size).known().expect("a sew line").bbox();
        assert!((bounds.width() - bounds.height()).abs() < 1e-9);
    }
}

#[test]
fn following_in_a_circle_is_refused() {
    let gap = |strip: &str, more: &str| made(&lid(strip, more)).0.join("\n");
    let own = gap("width = \"along STRIP:nw-sw\", height = \"50 mm\"", "");
    assert!(own.contains("STRIP follows STRIP"), "{own}");
    let two = "[piece.A]\npart = \"p\"\nmaterial = \"c\"\nallowance = \"6 mm\"\noutline = { shape = \"rectangle\", width = \
               \"along STRIP:nw-ne\", height = \"9 mm\" }";
    let said = gap("width = \"along A:nw-ne\", height = \"50 mm\"", two);
    assert!(said.contains("A follows STRIP follows A"), "{said}");
    let said = gap("width = \"along LOST:nw-ne\", height = \"50 mm\"", "");
    assert!(said.contains("there is no piece LOST"), "{said}");
    let said = gap("width = \"along LID:n-s\", height = \"50 mm\"", "");
    assert!(said.contains("LID: "), "{said}");
}

/// Points of the drawn size grow with it; a fixed distance, or one given for the size, stays.
#[test]
fn points_keep_their_place_or_their_distance() {
    let strip = "width = \"300 mm\", height = \"50 mm\", points = { p = \"nw-ne 100 mm\", q = \"nw-ne 40 mm fixed\", r = { L = \
                 \"sw-se 30 mm\", else = \"sw-se 30 mm\" }, s = \"nw-ne 250 mm fixed\" }";
    let (said, figures, _) = made(&lid(strip, ""));
    assert!(said.iter().all(|one| one.starts_with("size-scaled-too-far")), "{said:?}");
    for (size, p, right) in [("M", 100.0, 300.0), ("L", 120.0, 360.0)] {
        assert!((run(&figures, "STRIP", size, "nw", "q") - 40.0).abs() < 1e-6, "{size}");
        assert!((run(&figures, "STRIP", size, "q", "p") - (p - 40.0)).abs() < 1e-6, "{size}");
        assert!((run(&figures, "STRIP", size, "p", "s") - (250.0 - p)).abs() < 1e-6, "{size}");
        assert!((run(&figures, "STRIP", size, "s", "ne") - (right - 250.0)).abs() < 1e-6, "{size}");
        assert!((run(&figures, "STRIP", size, "sw", "r") - 30.0).abs() < 1e-6, "{size}");
    }
}

/// Points refer to points in any order, over edges that others part; what hangs on a fixed distance is fixed too.
#[test]
fn points_refer_to_points_in_any_order() {
    let strip = "width = \"300 mm\", height = \"50 mm\", points = { a = \"nw-b 50 %\", b = \"nw-c 50 %\", c = \"nw-ne 200 mm\", d = \
                 \"sw-e 50 %\", e = \"sw-se 80 mm fixed\", f = \"e-sw 10 mm\", g = \"nw-c 25 mm\" }";
    let (said, figures, _) = made(&lid(strip, ""));
    assert!(said.iter().all(|one| one.starts_with("size-scaled-too-far")), "{said:?}");
    for (size, grown) in [("M", 1.0), ("L", 1.2)] {
        let near = |from: &str, to: &str, mm: f64| {
            let found = run(&figures, "STRIP", size, from, to);
            assert!((found - mm).abs() < 0.002, "{size} {from}-{to}: {found}");
        };
        near("nw", "g", 25.0 * grown);
        near("g", "a", 25.0 * grown);
        near("a", "b", 50.0 * grown);
        near("b", "c", 100.0 * grown);
        near("sw", "d", 40.0);
        near("d", "f", 30.0);
        near("f", "e", 10.0);
    }
    let gap = |points: &str| {
        made(&lid(&format!("width = \"300 mm\", height = \"50 mm\", points = {points}"), "")).0.join("\n")
    };
    let said = gap("{ a = \"nw-c 50 %\", b = \"a-ne 10 mm\", c = \"b-ne 10 mm\", d = \"a-ne 5 mm\" }");
    assert!(
        said.contains("the points a, c and b refer to each other in a circle: a lies on nw-c, c lies on b-ne"),
        "{said}"
    );
    assert!(gap("{ a = \"nw-a 50 %\" }").contains("the point a refers to itself"));
    assert!(gap("{ a = \"nw-x 5 mm\" }").contains("no point `x`"));
    assert!(gap("{ a = \"nw-x 5 mm fixed\" }").contains("no point `x`"));
}

/// A panel is its own mirror image; with a notch off its middle it is not, so that copies turned over count apart.
#[test]
fn notches_make_a_left_and_a_right() {
    let counted = |notches: &str| {
        let panel = "{ shape = \"rectangle\", width = \"80 mm\", height = \"120 mm\" }";
        let keys =
            format!("copies = [\"l\", \"r mirrored\"]\nallowance = \"6 mm\"\ngrain = \"sw-nw\"\nnotches = {notches}");
        let (_, figures, _) = piece(panel, &keys);
        *figures.counts.cuts[0].own_image.known().expect("known")
    };
    assert!(counted("[]"));
    assert!(counted("[\"nw-ne 50 %\", \"sw\", \"se\"]"));
    assert!(counted("[\"nw-ne 20 mm\", \"ne-nw 20 mm\"]"));
    assert!(!counted("[\"nw-ne 20 mm\"]"));
}

/// A body of 120 × 100 mm with an arm at its side, on fabric of 10 mm pile: three piles are 30 mm across the sew line.
#[test]
fn limbs_are_judged_by_the_circle_that_fits() {
    let found = |width: f64, long: f64| {
        let (low, high) = (50.0 - width / 2.0, 50.0 + width / 2.0);
        let far = 120.0 + long;
        let corners = [
            ("a", 0.0, 0.0),
            ("b", 120.0, 0.0),
            ("c", 120.0, low),
            ("d", far, low),
            ("e", far, high),
            ("f", 120.0, high),
            ("g", 120.0, 100.0),
            ("h", 0.0, 100.0),
        ];
        let list: Vec<String> =
            corners.iter().map(|(id, x, y)| format!("[\"{id}\", \"{x} mm\", \"{y} mm\"]")).collect();
        let (said, ..) = made(&format!(
            "[style]\nsizes = [\"S\"]\n[part.p]\nform = \"stuffed\"\n[fabric.c]\npile = \"10 mm\"\n[piece.P]\npart = \"p\"\nmaterial \
             = \"c\"\npile = \"h-a\"\nallowance = \"5 mm\"\noutline = {{ shape = \"polygon\", corners = [{}] }}",
            list.join(", ")
        ));
        said.into_iter().filter(|one| one.starts_with("thin-limb")).collect::<Vec<_>>()
    };
    let said = found(29.0, 80.0);
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(
        said[0].contains("cut less than 40.0 mm wide") && (said[0].contains("near d") || said[0].contains("near e")),
        "{said:?}"
    );
    assert_eq!(found(31.0, 80.0), [""; 0]);
    // A stub no longer than it is wide is turned with the body.
    assert_eq!(found(29.0, 25.0), [""; 0]);
}

/// The cut V of the dart test above, drawn: its sewn V is 20 mm wide and 40 mm deep again, whatever the style of corners.
#[test]
fn corners_of_a_drawn_cut_line_are_corners_of_the_sew_line() {
    let tip = 60.0 + 5.0 * 1_700.0_f64.sqrt() / 10.0;
    let half = (105.0 - tip) / 4.0;
    let shape = format!(
        "{{ shape = \"polygon\", is = \"cut line\", corners = [[\"a\", \"-5 mm\", \"-5 mm\"], [\"b\", \"205 mm\", \"-5 mm\"], [\"e\", \
         \"205 mm\", \"105 mm\"], [\"c\", \"{:.4} mm\", \"105 mm\"], [\"p\", \"100 mm\", \"{tip:.4} mm\"], [\"d\", \"{:.4} mm\", \"105 \
         mm\"], [\"f\", \"-5 mm\", \"105 mm\"]] }}",
        100.0 + half,
        100.0 - half
    );
    let dart = "darts = \"cut\"\n[seam.dart]\na = \"P:c-p\"\nb = \"P:d-p\"";
    for style in ["mitre", "round"] {
        let (_, _, drawn) = piece(&shape, &format!("allowance = \"5 mm\"\ncorners = \"{style}\"\n{dart}"));
        let sew = (*drawn.sew("P", "S").known().expect("a sew line")).clone();
        let place = |id: &str| sew.point(id).expect("a point");
        assert!(place("p").distance(Point::new(100.0, 60.0)) < 0.01, "{:?}", place("p"));
        assert!(place("c").distance(Point::new(110.0, 100.0)) < 0.01, "{:?}", place("c"));
        assert!(place("d").distance(Point::new(90.0, 100.0)) < 0.01, "{:?}", place("d"));
    }
}

/// The mouth of a marked dart is notched on the line that bridges it; its legs lie inside the cut line.
#[test]
fn marked_darts_are_notched_at_their_mouth() {
    let shape = "{ shape = \"polygon\", corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"b\", \"200 mm\", \"0 mm\"], [\"e\", \"200 mm\", \"100 mm\"], \
                 [\"c\", \"110 mm\", \"100 mm\"], [\"p\", \"100 mm\", \"60 mm\"], [\"d\", \"90 mm\", \"100 mm\"], [\"f\", \"0 mm\", \"100 mm\"]] }";
    let made =
        |keys: &str| piece(shape, &format!("allowance = \"5 mm\"\n{keys}\n[seam.dart]\na = \"P:c-p\"\nb = \"P:d-p\""));
    let (said, _, drawn) = made("notches = [\"c\", \"d\", \"e-c 45 mm\"]");
    assert_eq!(said, [""; 0]);
    let all = marks(&drawn, "S");
    for (mark, x) in all.iter().zip([110.0, 90.0, 155.0]) {
        near(mark.sew, x, 100.0);
        near(mark.cut, x, 105.0);
        near(mark.tip, x, 102.0);
    }
    let (said, ..) = made("notches = [\"c-p 10 mm\"]");
    assert!(said.iter().any(|one| one.starts_with("notch-off-edge")), "{said:?}");
    // Cut out, the leg has a cut line of its own, 5 mm to its left.
    let (said, _, drawn) = made("notches = [\"c-p 10 mm\", \"d-p 10 mm\"]\ndarts = \"cut\"");
    assert!(said.len() == 1 && said[0].starts_with("dart-too-narrow"), "{said:?}");
    let mark = &marks(&drawn, "S")[0];
    assert!((mark.sew.distance(mark.cut) - 5.0).abs() < 0.01);
}

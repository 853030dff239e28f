//! One drawing, written by hand in the manners of several kinds of editors: all read to the same outline.
//!
//! SIDE is 80 mm wide and 60 mm high with an arched top: a (0, 0), b (80, 0), c (80, 40), t (40, 60) on the arch, d (0, 40)
//! and y up. Grain from (40, 10) to (40, 30), pile downwards beside it, a line `smile`, a mark `eye`, a notch `n` on a-b.

use backtack_core::geom::{Outline, Point};

use super::{nothing_found, outline};

/// A page in mm, ids on everything: what one writes by hand.
const PLAIN: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="150mm" viewBox="0 0 200 150">
  <line id="gauge" x1="10" y1="140" x2="110" y2="140" stroke="black"/>
  <path id="SIDE" d="M 20 100 H 100 V 60 C 80 33.333333333333336 40 33.333333333333336 20 60 Z" fill="none" stroke="#000"/>
  <circle id="SIDE.a" cx="20" cy="100" r="1"/>
  <circle id="SIDE.b" cx="100" cy="100" r="1"/>
  <circle id="SIDE.c" cx="100" cy="60" r="1"/>
  <circle id="SIDE.t" cx="60" cy="40" r="1"/>
  <circle id="SIDE.d" cx="20" cy="60" r="1"/>
  <line id="SIDE.grain" x1="60" y1="90" x2="60" y2="70"/>
  <line id="SIDE.pile" x1="70" y1="70" x2="70" y2="90"/>
  <polyline id="SIDE.line.smile" points="40,80 60,85 80,80"/>
  <circle id="SIDE.mark.eye" cx="50" cy="65" r="2"/>
  <line id="SIDE.notch.n" x1="50" y1="97" x2="50" y2="103"/>
</svg>
"##;

/// Layers with labels, ids the editor made, `style` attributes, a group moved, relative path data, a page in mm with a
/// viewBox in mm: the manner of a free desktop editor.
const LABELS: &str = r##"<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<!-- Created by hand, in the manner of an editor -->
<svg
   width="200mm"
   height="150mm"
   viewBox="0 0 200 150"
   version="1.1"
   id="svg5"
   xmlns:ed="http://example.org/namespaces/editor"
   xmlns="http://www.w3.org/2000/svg"
   xmlns:svg="http://www.w3.org/2000/svg">
  <ed:namedview id="namedview7" pagecolor="#ffffff" ed:document-units="mm"><ed:grid type="xygrid" id="grid9"/></ed:namedview>
  <defs id="defs2"><ed:path-effect effect="spiro" id="path-effect12"/></defs>
  <g ed:label="Layer 1" ed:groupmode="layer" id="layer1" transform="translate(10,20)">
    <path
       style="fill:none;stroke:#000000;stroke-width:0.264583px;stroke-linecap:butt"
       d="m 10,80 h 80 v -40 c -20,-26.666666666666668 -60,-26.666666666666668 -80,0 z"
       id="path123"
       ed:label="SIDE" />
    <g id="g44" transform="translate(-10,-20)">
      <circle style="fill:#ff0000" id="path200" cx="20" cy="100" r="0.9" ed:label="SIDE.a" />
      <circle style="fill:#ff0000" id="path200-3" cx="100" cy="100" r="0.9" ed:label="SIDE.b" />
      <circle style="fill:#ff0000" id="path200-5" cx="100" cy="60" r="0.9" ed:label="SIDE.c" />
      <ellipse style="fill:#ff0000" id="path202" cx="60" cy="40" rx="0.9" ry="1.1" ed:label="SIDE.t" />
      <circle style="fill:#ff0000" id="path200-6" cx="20" cy="60" r="0.9" ed:label="SIDE.d" />
    </g>
    <path style="fill:none;stroke:#000" d="M 50,70 V 50" id="path301" ed:label="SIDE.grain" />
    <path style="fill:none;stroke:#000" d="m 60,50 v 20" id="path302" ed:label="SIDE.pile" />
    <path style="fill:none;stroke:#000" d="m 30,60 20,5 20,-5" id="path303" ed:label="SIDE.line.smile" />
    <path style="fill:none;stroke:#000" d="m 38,45 h 4 m -2,-2 v 4" id="path304" ed:label="SIDE.mark.eye" />
    <path style="fill:none;stroke:#000" d="m 40,83 v -6" id="path305" ed:label="SIDE.notch.n" />
  </g>
  <g ed:label="Notes" ed:groupmode="layer" id="layer2" style="display:none">
    <text id="text1" x="10" y="10">a hidden layer may say what it likes</text>
  </g>
  <path id="rect9" ed:label="gauge" d="M 10,140 H 110" style="stroke:#000" />
</svg>
"##;

/// Escaped ids, classes in a stylesheet, points for units, commas saved, a public document type, copies numbered: the
/// manner of a drawing program for print. 1 mm is 72/25.4 pt.
fn print_program() -> String {
    let mm = |value: f64| value * 72.0 / 25.4;
    let dot = |id: &str, x: f64, y: f64| {
        format!("\t\t<circle id=\"SIDE_x2E_{id}\" class=\"st1\" cx=\"{}\" cy=\"{}\" r=\"2.8\"/>\n", mm(x), mm(y))
    };
    let dots: String =
        [("a", 20.0, 100.0), ("b", 100.0, 100.0), ("c", 100.0, 60.0), ("t", 60.0, 40.0), ("d", 20.0, 60.0)]
            .iter()
            .map(|(id, x, y)| dot(id, *x, *y))
            .collect();
    let line = |id: &str, a: (f64, f64), b: (f64, f64)| {
        let (a, b) = ((mm(a.0), mm(a.1)), (mm(b.0), mm(b.1)));
        format!("\t<line id=\"{id}\" class=\"st0\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>\n", a.0, a.1, b.0, b.1)
    };
    format!(
        "<?xml version=\"1.0\" encoding=\"utf-8\"?>\n\
         <!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd\">\n\
         <svg version=\"1.1\" id=\"Layer_1\" xmlns=\"http://www.w3.org/2000/svg\" \
         xmlns:xlink=\"http://www.w3.org/1999/xlink\" x=\"0px\" y=\"0px\" width=\"{w}pt\" height=\"{h}pt\" \
         viewBox=\"0 0 {w} {h}\" style=\"enable-background:new 0 0 566 425;\" xml:space=\"preserve\">\n\
         <style type=\"text/css\">\n\t.st0{{fill:none;stroke:#000000;stroke-miterlimit:10;}}\n\t.st1{{fill:#ED1C24;}}\n\
         \t.st2{{display:none;}}\n</style>\n\
         <g id=\"Outlines\">\n\
         \t<path id=\"SIDE_1_\" class=\"st0\" d=\"M{x0},{y1}H{x1}V{y0}C{c1},{cy},{c0},{cy},{x0},{y0}V{y1}z\"/>\n\
         \t<g id=\"Points\">\n{dots}\t</g>\n{lines}\
         \t<polyline id=\"SIDE_x2E_line_x2E_smile\" class=\"st0\" points=\"{p0},{q0} {p1},{q1} {p2},{q0} \"/>\n\
         \t<ellipse id=\"SIDE_x2E_mark_x2E_eye\" class=\"st0\" cx=\"{ex}\" cy=\"{ey}\" rx=\"3\" ry=\"3\"/>\n</g>\n\
         <g id=\"Old\" class=\"st2\">\n\t<rect id=\"SIDE\" width=\"100\" height=\"100\"/>\n</g>\n</svg>\n",
        w = mm(200.0),
        h = mm(150.0),
        x0 = mm(20.0),
        x1 = mm(100.0),
        y0 = mm(60.0),
        y1 = mm(100.0),
        c0 = mm(40.0),
        c1 = mm(80.0),
        cy = mm(100.0 / 3.0),
        p0 = mm(40.0),
        p1 = mm(60.0),
        p2 = mm(80.0),
        q0 = mm(80.0),
        q1 = mm(85.0),
        ex = mm(50.0),
        ey = mm(65.0),
        lines = line("gauge", (10.0, 140.0), (110.0, 140.0))
            + &line("SIDE_x2E_grain", (60.0, 90.0), (60.0, 70.0))
            + &line("SIDE_x2E_pile", (70.0, 70.0), (70.0, 90.0))
            + &line("SIDE_x2E_notch_x2E_n", (50.0, 97.0), (50.0, 103.0)),
    )
}

/// A page in pixels, a group named as the piece with short names, `data-name`, a group flipped by a matrix: the manner
/// of a design program. 96 px are an inch.
fn pixels() -> String {
    let px = |value: f64| value * 96.0 / 25.4;
    let mut inside = String::new();
    for (id, x, y) in
        [("a", 20.0, 100.0), ("b", 100.0, 100.0), ("c", 100.0, 60.0), ("t", 60.0, 40.0), ("d", 20.0, 60.0)]
    {
        // Drawn upside down, and turned back by the group.
        inside.push_str(&format!("<circle id=\"{id}\" cx=\"{}\" cy=\"{}\" r=\"4\" fill=\"red\"/>\n", px(x), px(-y)));
    }
    let path = |id: &str, d: &[(char, &[f64])]| {
        let data: String = d
            .iter()
            .map(|(letter, numbers)| {
                let signed = |(n, v): (usize, &f64)| px(if n % 2 == 1 { -v } else { *v }).to_string();
                format!("{letter}{} ", numbers.iter().enumerate().map(signed).collect::<Vec<_>>().join(" "))
            })
            .collect();
        format!("<path {id} d=\"{data}\" stroke=\"black\"/>\n")
    };
    let cy = 100.0 / 3.0;
    inside += &path(
        "id=\"outline\"",
        &[
            ('M', &[100.0, 60.0]),
            ('L', &[100.0, 100.0]),
            ('L', &[20.0, 100.0]),
            ('L', &[20.0, 60.0]),
            ('C', &[40.0, cy, 80.0, cy, 100.0, 60.0]),
        ],
    );
    inside += &path("id=\"grain\"", &[('M', &[60.0, 90.0]), ('L', &[60.0, 70.0])]);
    inside += &path("id=\"Vector_7\" data-name=\"pile\"", &[('M', &[70.0, 70.0]), ('L', &[70.0, 90.0])]);
    inside += &path("id=\"line.smile\"", &[('M', &[40.0, 80.0]), ('L', &[60.0, 85.0]), ('L', &[80.0, 80.0])]);
    inside += &path("id=\"notch.n\"", &[('M', &[50.0, 97.0]), ('L', &[50.0, 103.0])]);
    inside += &format!("<circle id=\"mark.eye\" cx=\"{}\" cy=\"{}\" r=\"6\"/>\n", px(50.0), px(-65.0));
    format!(
        "<svg width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" fill=\"none\" xmlns=\"http://www.w3.org/2000/svg\">\n\
         <g id=\"Frame 1\">\n<g id=\"SIDE\" transform=\"matrix(1 0 0 -1 0 0)\">\n{inside}</g>\n\
         <rect id=\"gauge\" x=\"10\" y=\"10\" width=\"0\" height=\"5\"/>\n\
         <line id=\"gauge\" x1=\"{g0}\" y1=\"5\" x2=\"{g1}\" y2=\"5\"/>\n</g>\n</svg>\n",
        w = px(200.0),
        h = px(150.0),
        g0 = px(10.0),
        g1 = px(110.0),
    )
}

/// Everything in `defs` and drawn through `use`, turned, scaled, moved; centimetres and a viewBox that starts elsewhere.
const USED: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"
     width="20cm" height="15cm" viewBox="-100 -50 400 300">
  <title>Drawn once, used twice</title>
  <defs>
    <g id="parts">
      <path id="outline" d="M0 0 L80 0 L80 40 C60 66.66666666666667 20 66.66666666666667 0 40 z"/>
      <use id="a" href="#dot"/>
      <use id="b" href="#dot" x="80"/>
      <use id="c" xlink:href="#dot" x="80" y="40"/>
      <use id="t" href="#dot" x="40" y="60"/>
      <use id="d" href="#dot" y="40"/>
      <line id="grain" x1="40" y1="10" x2="40" y2="30"/>
      <line id="pile" x1="50" y1="30" x2="50" y2="10"/>
      <polyline id="line.smile" points="20 20 40 15 60 20"/>
      <use id="mark.eye" href="#dot" x="30" y="35"/>
      <line id="notch.n" x1="30" y1="-3" x2="30" y2="3"/>
    </g>
    <circle id="dot" r="1"/>
  </defs>
  <g transform="translate(40 60) scale(2)">
    <g transform="rotate(180)"><g transform="scale(-1 1)">
      <use id="SIDE" href="#parts" transform="translate(0 -100)"/>
    </g></g>
  </g>
  <g transform="rotate(30 50 50)"><line id="gauge" x2="200"/></g>
</svg>
"##;

/// Names, their places, everything else with a place, area and perimeter.
type Settled = (Vec<String>, Vec<Point>, Vec<(String, Point)>, f64, f64);

/// The same at the origin: outlines are compared wherever they lie on their page.
fn settled(outline: &Outline) -> Settled {
    let origin = outline.point("a").unwrap();
    let at = |point: Point| {
        let moved = point - origin;
        Point::new((moved.x * 1e6).round() / 1e6 + 0.0, (moved.y * 1e6).round() / 1e6 + 0.0)
    };
    let points = outline.names().iter().map(|id| at(outline.point(id).unwrap())).collect();
    let mut more = Vec::new();
    for (what, ends) in [("grain", outline.grain), ("pile", outline.pile)] {
        let (a, b) = ends.unwrap_or_else(|| panic!("no {what}"));
        more.extend([(format!("{what} from"), at(a)), (format!("{what} to"), at(b))]);
    }
    for line in &outline.lines {
        let ends = std::iter::once(line.path.start).chain(line.path.segments.iter().map(|one| one.end()));
        more.extend(ends.map(|end| (line.id.clone(), at(end))));
    }
    more.extend(outline.marks.iter().chain(&outline.notches).map(|mark| (mark.id.clone(), at(mark.at))));
    let round = |value: f64| (value * 1e6).round() / 1e6;
    (outline.names(), points, more, round(outline.area()), round(outline.perimeter()))
}

#[test]
fn the_plain_drawing_reads_as_it_is_meant() {
    let (names, points, more, area, _) = settled(&outline(PLAIN));
    assert_eq!(names, ["a", "b", "c", "t", "d"]);
    let at = |x: f64, y: f64| Point::new(x, y);
    assert_eq!(points, [at(0.0, 0.0), at(80.0, 0.0), at(80.0, 40.0), at(40.0, 60.0), at(0.0, 40.0)]);
    // The arch over its chord, by hand: with the height h = 80/3 of the control points, the integral of y dx is
    // 180 h (1/6 + 2/30) = 42 h = 1120 mm².
    let more: Vec<_> = more.iter().map(|(id, at)| (id.as_str(), at.x, at.y)).collect();
    let wanted = [
        ("grain from", 40.0, 10.0),
        ("grain to", 40.0, 30.0),
        ("pile from", 50.0, 30.0),
        ("pile to", 50.0, 10.0),
        ("smile", 20.0, 20.0),
        ("smile", 40.0, 15.0),
        ("smile", 60.0, 20.0),
        ("eye", 30.0, 35.0),
        ("n", 30.0, 0.0),
    ];
    assert_eq!(more, wanted);
    assert!((area - 4320.0).abs() < 1e-6, "{area}");
}

#[test]
fn every_manner_reads_the_same() {
    let wanted = settled(&outline(PLAIN));
    let files = [
        ("labels", LABELS.to_string()),
        ("print program", print_program()),
        ("pixels", pixels().replace("<rect id=\"gauge\" x=\"10\" y=\"10\" width=\"0\" height=\"5\"/>\n", "")),
        ("an empty shape has no name", pixels()),
        ("used", USED.to_string()),
        ("carriage returns", PLAIN.replace('\n', "\r\n")),
        ("a byte order mark", format!("\u{feff}{PLAIN}")),
    ];
    for (manner, svg) in files {
        assert_eq!(settled(&outline(&svg)), wanted, "{manner}");
        nothing_found(&svg);
    }
}

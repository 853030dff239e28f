//! Views drawn as SVG: what is handed on of them, what is refused, and call-outs on their shapes.

use backtack_core::model::{Medium, Picture};
use backtack_core::read::{self, Loaded};

/// In the manner of an editor: metadata, comments, labels, a hidden layer, a stylesheet, classes, data of its own.
const WREN: &str = r##"<?xml version="1.0" encoding="UTF-8"?>
<!-- drawn for Quillfeather -->
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" xmlns:ed="http://example.org/editor"
     width="120mm" height="60mm" viewBox="0 0 240 120" fill="none" ed:docname="/home/quillfeather/wren.svg">
  <title>Quillfeather</title><desc>secret</desc>
  <metadata><author xmlns="http://example.org/meta">Quillfeather</author></metadata>
  <style>/* secret */ .wing { fill: #a0522d; stroke: BLACK; stroke-width: 2px; -secret: yes } #tail { fill: url(#sky) }</style>
  <defs>
    <linearGradient id="sky" gradientUnits="userSpaceOnUse" x2="240"><stop offset="0" stop-color="#fff"/><stop offset="100%" style="stop-color:navy;stop-opacity:.5"/></linearGradient>
    <pattern id="quillfeather-dots" width="10" height="10" patternUnits="userSpaceOnUse"><circle cx="5" cy="5" r="2" fill="red"/></pattern>
    <clipPath id="half"><rect width="120" height="120"/></clipPath>
    <path id="feather" d="M0 0 h10 l-5 20 z" class="secret"/>
  </defs>
  <g id="body" ed:label="Quillfeather's bird" transform="translate(10 10)" data-note="secret" onclick="">
    <ellipse id="wing" class="wing secret" cx="60" cy="40" rx="30" ry="20"/>
    <path id="tail" d="M 100,40 l 40 -10 v 20 z" aria-label="secret"/>
    <use xlink:href="#feather" x="20" y="5" fill="green"/>
    <rect id="breast" x="10" y="50" width="20" height="20" fill="url(#quillfeather-dots) red" clip-path="url(#half)"/>
  </g>
  <g style="display:none"><text>secret</text><path d="M0 0 H240"/></g>
  <ed:guide secret="1"/>
</svg>
"##;

/// The same as it reaches the engine.
const CLEAN: &str = concat!(
    r##"<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="1000" height="500" "##,
    r##"viewBox="0 0 240 120"><g fill="none"><defs>"##,
    r##"<linearGradient id="s1" x2="240" gradientUnits="userSpaceOnUse"><stop offset="0" stop-color="#ffffff"/>"##,
    r##"<stop offset="100%" stop-color="#000080" stop-opacity=".5"/></linearGradient>"##,
    r##"<pattern id="s2" width="10" height="10" patternUnits="userSpaceOnUse">"##,
    r##"<circle cx="5" cy="5" r="2" fill="#ff0000"/></pattern>"##,
    r##"<clipPath id="s3"><rect width="120" height="120"/></clipPath>"##,
    r##"<path id="s4" d="M0 0 h10 l-5 20 z"/></defs>"##,
    r##"<g transform="translate(10 10)">"##,
    r##"<ellipse cx="60" cy="40" rx="30" ry="20" fill="#a0522d" stroke="#000000" stroke-width="2px"/>"##,
    r##"<path d="M 100,40 l 40 -10 v 20 z" fill="url(#s1)"/>"##,
    r##"<use x="20" y="5" xlink:href="#s4" fill="#008000"/>"##,
    r##"<rect x="10" y="50" width="20" height="20" clip-path="url(#s3)" fill="url(#s2)"/>"##,
    r##"</g></g></svg>"##,
);

fn load(svg: &str, more: &str) -> Loaded {
    let view = format!("[view.front]\npicture = \"front.svg\"\nalt = \"A wren\"\n{more}");
    read::texts(&[("view.toml", &view), ("front.svg", svg)])
}

fn codes(loaded: &Loaded) -> Vec<String> {
    let of = |code: &str| ["bare-number", "not-toml"].contains(&code);
    loaded.findings.iter().map(|one| one.rule.code.to_string()).filter(|code| !of(code)).collect()
}

fn picture(loaded: &Loaded) -> Option<&Picture> {
    loaded.model.pictures.get("front.svg")
}

fn written(svg: &str) -> String {
    let loaded = load(svg, "");
    let shown = picture(&loaded).unwrap_or_else(|| panic!("{:?}", loaded.findings));
    String::from_utf8(shown.bytes.to_vec()).unwrap()
}

/// A view with one thing in it.
fn holding(inside: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 10 10\"><path d=\"M0 0H10\" stroke=\"red\"/>{inside}</svg>"
    )
}

#[test]
fn what_is_drawn_is_kept_and_nothing_else() {
    let svg = WREN.replace(" onclick=\"\"", "");
    let loaded = load(&svg, "");
    assert_eq!(codes(&loaded), Vec::<String>::new());
    let shown = picture(&loaded).unwrap();
    assert_eq!((shown.medium, shown.width, shown.height), (Medium::Svg, 240.0, 120.0));
    assert_eq!(std::str::from_utf8(&shown.bytes).unwrap(), CLEAN);
    let kept: Vec<&str> = loaded.closure.iter().map(|(path, _)| path.as_str()).collect();
    assert_eq!(kept, ["front.svg", "view.toml"]);
}

#[test]
fn what_was_written_anew_stays_as_it_is() {
    assert_eq!(written(CLEAN).replace("<g><g ", "<g "), CLEAN.replace("</g></svg>", "</g></g></svg>"));
}

#[test]
fn refused_content_is_refused_with_its_cure_and_does_not_reach_the_engine() {
    let cases = [
        ("<text>Wren</text>", "turn it into paths"),
        ("<image width=\"5\" height=\"5\" href=\"data:image/png;base64,AAAA\"/>", "trace what is needed"),
        ("<script>alert(1)</script>", "delete it"),
        ("<path d=\"M0 0H1\" onclick=\"alert(1)\"/>", "delete it"),
        ("<use href=\"other.svg#a\"/>", "embed what is needed"),
        ("<style>@import url(http://example.org/a.css);</style>", "embed what is needed"),
        ("<path d=\"M0 0H1\" fill=\"url(http://example.org/a.svg#b)\"/>", "embed what is needed"),
        ("<path d=\"M0 0H1\" clip-path=\"url(other.svg#b)\"/>", "embed what is needed"),
        ("<animate attributeName=\"x\"/>", "delete it"),
        ("<foreignObject width=\"5\" height=\"5\"/>", "delete it"),
    ];
    for (inside, cure) in cases {
        let loaded = load(&holding(inside), "");
        assert_eq!(codes(&loaded), ["refused-content"], "{inside}");
        let help =
            loaded.findings.iter().flat_map(|one| one.help.iter().map(|help| help.text.english())).collect::<String>();
        assert!(help.contains(cure), "{inside}: {help}");
        let text = String::from_utf8(picture(&loaded).unwrap().bytes.to_vec()).unwrap();
        for word in ["text", "image", "script", "onclick", "http://example", "other", "animate", "foreign", "style"] {
            assert!(!text.contains(word), "{inside}: {text}");
        }
    }
    let entities = format!("<!DOCTYPE svg [ <!ENTITY a \"b\"> ]>{}", holding(""));
    assert_eq!(codes(&load(&entities, "")), ["refused-content"]);
    assert!(picture(&load(&entities, "")).is_none());
}

#[test]
fn what_is_not_understood_is_said() {
    for inside in [
        "<g filter=\"url(#a)\"/>",
        "<path d=\"M0 0H1\" style=\"mix-blend-mode:multiply\"/>",
        "<svg width=\"5\" height=\"5\"/>",
        "<style>.a .b { fill: red }</style>",
        "<style>path { transform: rotate(5deg) }</style>",
    ] {
        let loaded = load(&holding(inside), "");
        let found = codes(&loaded);
        assert!(!found.is_empty() && found.iter().all(|code| code == "content-ignored"), "{inside}: {found:?}");
    }
    assert_eq!(codes(&load(&holding("<g clip-path=\"url(#a)\" mask=\"none\"/>"), "")), Vec::<String>::new());
}

#[test]
fn a_view_needs_a_page_and_sound_data() {
    let bare = "<svg xmlns=\"http://www.w3.org/2000/svg\"><path d=\"M0 0H1\"/></svg>";
    let flat = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 10 0.0001\"/>";
    let loops = holding("<g id=\"a\"><use href=\"#a\"/></g>");
    let broken = holding("<path d=\"M0 0 L 1\"/>");
    for svg in [bare, flat, "hello", "<svg/>", &loops, &broken, &holding("<rect width=\"1e300\" height=\"1\"/>")] {
        let loaded = load(svg, "callouts = [{ at = \"wing\", text = \"x\" }]\n");
        assert_eq!(codes(&loaded), ["broken-drawing"], "{svg}");
        assert!(picture(&loaded).is_none());
    }
    let pixels = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"96\" height=\"1in\"><path d=\"M0 0H1\"/></svg>";
    let shown = written(pixels);
    assert!(shown.contains("viewBox=\"0 0 96 96\""), "{shown}");
}

/// Patterns in patterns, and `use` within them, would grow without end in the engine.
#[test]
fn patterns_and_uses_cannot_grow_without_end() {
    let many = |fill: &str| format!("<rect width=\"1\" height=\"1\" fill=\"url(#{fill})\"/>").repeat(20);
    let nested = holding(&format!(
        "<pattern id=\"a\" width=\"1\" height=\"1\">{}</pattern><pattern id=\"b\" width=\"1\" height=\"1\">{}</pattern>{}",
        many("b"),
        many("a"),
        many("a"),
    ));
    let shown = written(&nested);
    assert_eq!(shown.matches("url(#s1)").count(), 20, "{shown}");
    assert!(!shown.contains("url(#s2)"));
    let large = "<rect width=\"1\" height=\"1\"/>".repeat(600);
    let times = "<rect width=\"1\" height=\"1\" fill=\"url(#a)\"/>".repeat(600);
    let product = holding(&format!("<pattern id=\"a\" width=\"1\" height=\"1\">{large}</pattern>{times}"));
    assert_eq!(codes(&load(&product, "")), ["broken-drawing"]);
}

#[test]
fn call_outs_stand_on_named_shapes() {
    let svg = WREN.replace(" onclick=\"\"", "");
    let loaded = load(&svg, "callouts = [{ at = \"wing\", text = \"a\" }, { at = \"30 % 20 %\", text = \"b\" }]\n");
    assert_eq!(codes(&loaded), Vec::<String>::new());
    let view = &loaded.model.views["front"];
    // By hand: the wing's centre is (70, 50) of 240 × 120.
    let spots: Vec<[f64; 2]> = view.callouts.iter().map(|one| one.at.value).collect();
    let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
    assert!(near(spots[0][0], 7000.0 / 240.0) && near(spots[0][1], 5000.0 / 120.0), "{spots:?}");
    assert_eq!(spots[1], [30.0, 20.0]);
    let wrong = load(&svg, "callouts = [{ at = \"wnig\", text = \"a\" }]\n");
    assert_eq!(codes(&wrong), ["bad-value"]);
    let help: String = wrong.findings.iter().flat_map(|one| one.help.iter().map(|help| help.text.english())).collect();
    assert!(help.contains("wing"), "{help}");
    let twice = load(
        &svg.replace("id=\"tail\"", "ed:label=\"wing\" id=\"path4\""),
        "callouts = [{ at = \"wing\", text = \"a\" }]\n",
    );
    assert_eq!(codes(&twice), Vec::<String>::new(), "an id comes before a label");
    let outside = load(&svg.replace("cx=\"60\"", "cx=\"600\""), "callouts = [{ at = \"wing\", text = \"a\" }]\n");
    assert_eq!(codes(&outside), ["bad-value"]);
}

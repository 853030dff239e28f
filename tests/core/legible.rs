//! Drawings of the examples as they are printed: what is written on them can be read.

use std::path::Path;

use backtack_core::rows::data::Sheet;
use backtack_core::scene::{Fill, Frame, Item, Line, Scene, Segment, frame, meet, passes, strokes};

/// Lines that no text may cross.
const LINES: [Line; 10] = [
    Line::Cut,
    Line::Sew,
    Line::Second,
    Line::Third,
    Line::Fourth,
    Line::Layer,
    Line::Block,
    Line::Topstitch,
    Line::Fold,
    Line::Outline,
];

/// The ring round a letter is larger than this, mm; the mark of a point is smaller.
const RING: f64 = 3.5;

/// The drawings of pieces and maps, each with its name.
fn drawings(example: &str) -> Vec<(String, Scene)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(example);
    let loaded = crate::folder(&folder).unwrap();
    let sheets = crate::sheets(&loaded, &crate::checked(&loaded));
    let mut all = Vec::new();
    for sheet in sheets {
        match sheet {
            Sheet::Pieces(pieces) => {
                let cards = pieces.drawings.into_iter().flat_map(|page| page.cards).map(|placed| placed.card);
                all.extend(cards.filter_map(|card| Some((format!("{example} {}", card.code), card.drawing?.scene))));
            }
            Sheet::Matching(joins) => all.extend(joins.map.map(|map| (format!("{example} map"), map.scene))),
            _ => {}
        }
    }
    all
}

/// Everything that makes a label hard to read: it leaves the drawing, meets another one, or lies on a line that shows.
fn faults(scene: &Scene) -> Vec<String> {
    let mut all = hidden(scene);
    for (n, item) in scene.items.iter().enumerate() {
        let Item::Label(label) = item else { continue };
        let own = frame(label);
        if own[0].iter().any(|at| *at < 0.0) || own[1][0] > scene.width || own[1][1] > scene.height {
            all.push(format!("`{}` leaves the drawing", label.text));
        }
        for (other_at, other) in scene.items.iter().enumerate() {
            match other {
                Item::Label(other) if other_at > n && meet(&own, &frame(other)) => {
                    all.push(format!("`{}` meets `{}`", label.text, other.text));
                }
                Item::Path(path) if path.line.is_some_and(|line| LINES.contains(&line)) => {
                    let crossed = strokes(&path.segments).iter().any(|line| passes(line, &own));
                    if crossed && !covered(&scene.items[other_at..n.max(other_at)], &own) {
                        all.push(format!("`{}` lies on a line {:?}", label.text, path.line));
                    }
                }
                _ => {}
            }
        }
    }
    all
}

/// Arrowheads that the ring round a letter lies on.
fn hidden(scene: &Scene) -> Vec<String> {
    let paths = || scene.items.iter().filter_map(|item| if let Item::Path(path) = item { Some(path) } else { None });
    let around = |segments: &[Segment]| -> Frame {
        let points = strokes(segments).concat();
        let end = |pick: fn(f64, f64) -> f64, start: f64| {
            [0, 1].map(|axis| points.iter().map(|at| at[axis]).fold(start, pick))
        };
        [end(f64::min, f64::INFINITY), end(f64::max, f64::NEG_INFINITY)]
    };
    let is_ring = |frame: &Frame| frame[1][0] - frame[0][0] > RING && frame[1][1] - frame[0][1] > RING;
    let rings = paths().filter(|path| path.fill == Fill::Paper && path.line == Some(Line::Placement));
    let mut all = Vec::new();
    for ring in rings.map(|path| around(&path.segments)).filter(is_ring) {
        let mut heads = paths().filter(|path| path.fill == Fill::Ink && path.line.is_none());
        if heads.any(|path| strokes(&path.segments).iter().any(|line| passes(line, &ring))) {
            all.push(format!("a letter lies on an arrowhead at {:?}", ring[0]));
        }
    }
    all
}

/// Whether something white is painted over a place.
fn covered(items: &[Item], place: &Frame) -> bool {
    items.iter().any(|item| match item {
        Item::Path(path) if path.fill == Fill::Paper => {
            let points: Vec<[f64; 2]> = strokes(&path.segments).concat();
            let end =
                |axis: usize, pick: fn(f64, f64) -> f64, start| points.iter().map(|at| at[axis]).fold(start, pick);
            (0..2).all(|axis| {
                end(axis, f64::min, f64::INFINITY) <= place[0][axis]
                    && end(axis, f64::max, f64::NEG_INFINITY) >= place[1][axis]
            })
        }
        _ => false,
    })
}

#[test]
fn nothing_that_is_written_crosses_a_line_or_leaves_its_drawing() {
    let mut all = Vec::new();
    for example in ["puffin", "floor-cushion", "juggling-ball"] {
        let drawings = drawings(example);
        assert!(drawings.len() > 2, "{example}");
        for (name, scene) in drawings {
            all.extend(faults(&scene).into_iter().map(|fault| format!("{name}: {fault}")));
        }
    }
    assert!(all.is_empty(), "{}", all.join("\n"));
}

/// The map of each example bears the letter of every seam.
#[test]
fn the_map_bears_every_letter() {
    for example in ["puffin", "floor-cushion", "juggling-ball"] {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(example);
        let loaded = crate::folder(&folder).unwrap();
        let sheets = crate::sheets(&loaded, &crate::checked(&loaded));
        let found = sheets.into_iter().find_map(|sheet| match sheet {
            Sheet::Matching(one) => Some(one),
            _ => None,
        });
        let joins = found.expect("a sheet of seam matching");
        let map = joins.map.expect("a map");
        let texts: Vec<String> = map
            .scene
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Label(label) => Some(label.text.clone()),
                Item::Path(_) => None,
            })
            .collect();
        let borne = |letter: &str| {
            let of = |text: &str| text.trim_end_matches(|c: char| c.is_ascii_digit()) == letter;
            texts.iter().flat_map(|text| text.split(' ')).any(of)
        };
        for row in joins.tables.iter().flat_map(|table| &table.rows) {
            assert!(borne(&row.letter), "{example}: {} of {texts:?}", row.letter);
        }
    }
}

//! Views and pieces: the drawings of the cushion.

use backtack_core::rows::data::{
    JoinLength, JoinRow, JoinTable, LegendRow, Matching, PieceCard, PieceRow, PieceTotal, Pieces, Signs, Views,
};
use backtack_core::rows::package::{CARD_LEAST, Drawing, Picture, ROOM_MAP, room_piece};
use backtack_core::rows::placed::{Page, Placed};
use backtack_core::scene::{
    At, Fill, InnerLine, Line, MapEdge, MapPiece, NestSize, NotchForm, PieceNotch, PieceOutline, PiecePoint, PieceSeam,
    Scene, Segment, balloon, circle, closed, legend_sample, nest_sample, open, overview, piece, scale_for,
};

use super::{call, head, plain};

/// A cushion seen from above and a little from the side.
pub(super) fn box_view(width: f64, height: f64, alt: &str) -> Scene {
    let mut scene = Scene::new(width, height, alt);
    let (cx, top) = (width / 2.0, 10.0);
    let (hw, hh, deep) = (width * 0.38, height * 0.26, height * 0.2);
    let rim = vec![
        Segment::Move([cx - hw, top + hh]),
        Segment::Cubic([cx - hw * 0.5, top + hh * 0.25], [cx - hw * 0.25, top], [cx, top]),
        Segment::Cubic([cx + hw * 0.25, top], [cx + hw * 0.5, top + hh * 0.25], [cx + hw, top + hh]),
        Segment::Cubic([cx + hw * 0.5, top + hh * 1.75], [cx + hw * 0.25, top + 2.0 * hh], [cx, top + 2.0 * hh]),
        Segment::Cubic([cx - hw * 0.25, top + 2.0 * hh], [cx - hw * 0.5, top + hh * 1.75], [cx - hw, top + hh]),
        Segment::Close,
    ];
    scene.path(Some(Line::Outline), Fill::None, rim);
    for x in [cx - hw, cx + hw] {
        scene.line(Line::Outline, [x, top + hh], [x, top + hh + deep]);
    }
    let lower = vec![
        Segment::Move([cx - hw, top + hh + deep]),
        Segment::Cubic(
            [cx - hw * 0.5, top + hh * 1.75 + deep],
            [cx - hw * 0.25, top + 2.0 * hh + deep],
            [cx, top + 2.0 * hh + deep],
        ),
        Segment::Cubic(
            [cx + hw * 0.25, top + 2.0 * hh + deep],
            [cx + hw * 0.5, top + hh * 1.75 + deep],
            [cx + hw, top + hh + deep],
        ),
    ];
    scene.stroke(Line::Outline, lower);
    scene.line(Line::Outline, [cx, top + 2.0 * hh], [cx, top + 2.0 * hh + deep]);
    balloon(&mut scene, [width - 5.0, 8.0], "1", [cx + hw * 0.4, top + hh * 0.9]);
    balloon(&mut scene, [5.0, 8.0], "2", [cx - hw * 0.62, top + hh * 0.55]);
    balloon(&mut scene, [width - 5.0, height - 6.0], "3", [cx + hw * 0.6, top + hh * 1.4 + deep * 0.6]);
    scene
}

pub(super) fn views() -> Views {
    let view = |alt: &str, caption: &str| plain(box_view(84.0, 54.0, alt), caption);
    Views {
        head: head("What it looks like", "Views", "Numbers are those of the bill of materials."),
        views: vec![
            view("Cushion from the front and above.", "From the front"),
            view("Cushion from the back, zip visible.", "From the back"),
            view("Cushion from the left side.", "From the left"),
            photograph(),
        ],
        callouts: vec![
            call("1", "Top panel, cotton canvas, grain towards the front"),
            call("2", "Piping over 4 mm cord, all round the top and the bottom edge"),
            call("3", "Box side, joined at the four corners; the zip lies in the back one"),
        ],
    }
}

/// A picture below a scene that calls a place out.
fn photograph() -> Drawing {
    let mut scene = Scene::new(72.0, 54.0, "The hand of the fabric, photographed close.");
    balloon(&mut scene, [8.0, 8.0], "1", [30.0, 24.0]);
    Drawing {
        picture: Some(Picture { file: "pictures/weave.jpg".into() }),
        ..Drawing::of(scene, "The hand of the fabric")
    }
}

fn square(w: f64, h: f64, inset: f64) -> Vec<Segment> {
    closed(&[[inset, inset], [w - inset, inset], [w - inset, h - inset], [inset, h - inset]])
}

fn outline(code: &str, w: f64, h: f64) -> PieceOutline {
    let corner = |name: &str, at: At| PiecePoint { name: name.into(), at };
    PieceOutline {
        code: code.into(),
        cut: square(w, h, 0.0),
        sew: square(w, h, 10.0),
        points: vec![
            corner("nw", [10.0, 10.0]),
            corner("ne", [w - 10.0, 10.0]),
            corner("se", [w - 10.0, h - 10.0]),
            corner("sw", [10.0, h - 10.0]),
        ],
        notches: vec![PieceNotch {
            sew: [w / 2.0, 10.0],
            cut: [w / 2.0, 0.0],
            tip: [w / 2.0, 3.0],
            form: NotchForm::Slit,
        }],
        grain: Some([0.0, 1.0]),
        pile: None,
        width_text: format!("{w}"),
        height_text: format!("{h}"),
        others: vec![NestSize { code: "L".into(), cut: square(w * 1.2, h * 1.2, 0.0) }],
        seams: vec![PieceSeam {
            path: open(&[[10.0, 10.0], [10.0, h - 10.0]]),
            letter: "A".into(),
            forward: Some(true),
        }],
        pile_text: "PILE".into(),
        alt: format!("Piece {code}: rectangle, cut {w} by {h} mm, allowance 10 mm, grain along its height.").into(),
        ..PieceOutline::default()
    }
}

fn disc() -> PieceOutline {
    let mut out = outline("PATCH", 160.0, 160.0);
    out.cut = circle([80.0, 80.0], 80.0);
    out.sew = circle([80.0, 80.0], 74.0);
    out.points.clear();
    out.notches.clear();
    let inner = |line, segments, name: &str| InnerLine { line, segments, name: name.into() };
    out.inner = vec![
        inner(Line::Topstitch, circle([80.0, 80.0], 30.0), "@ring"),
        inner(Line::Fold, open(&[[10.0, 80.0], [150.0, 80.0]]), ""),
    ];
    out.openings = vec![([[60.0, 151.0], [100.0, 151.0]], "40".into())];
    out.pile = Some([0.0, 1.0]);
    out
}

fn drawn(outline: &PieceOutline) -> Drawing {
    let scale = scale_for(outline, room_piece);
    plain(piece(outline, scale), &format!("Size M, 1:{scale}, mm"))
}

/// Two pieces and the seam between them.
pub(super) fn joins() -> Matching {
    let edge = |from: At, to: At, letter: &str| MapEdge {
        path: open(&[from, to]),
        letter: letter.into(),
        forward: (!letter.is_empty()).then_some(true),
        open: letter == "B",
    };
    let square = |title: &str, letters: [&str; 4]| {
        let corners = [[0.0, 0.0], [0.0, 120.0], [120.0, 120.0], [120.0, 0.0]];
        let edges = (0..4).map(|n| edge(corners[n], corners[(n + 1) % 4], letters[n])).collect();
        let points = corners.iter().zip(["nw", "sw", "se", "ne"]);
        let points = points.map(|(at, name)| PiecePoint { name: name.into(), at: *at }).collect();
        MapPiece {
            title: title.into(),
            part: String::new(),
            edges,
            points,
            lines: vec![("C".into(), open(&[[30.0, 60.0], [90.0, 60.0]]))],
        }
    };
    let pieces = [square("TOP", ["A1", "A2", "B", ""]), square("BOT", ["A1", "A2", "B", ""])];
    let map = overview(&pieces, ROOM_MAP.width, ROOM_MAP.height, "Top and bottom of the cushion.").expect("room");
    let scale = map.scale.expect("one scale");
    let length =
        |a: &str, b: &str, difference: &str| JoinLength { a: a.into(), b: b.into(), difference: difference.into() };
    let row = |letter: &str, title: &str, a: &str, b: &str| JoinRow {
        letter: letter.into(),
        also: String::new(),
        title: title.into(),
        step: "4".into(),
        a: a.into(),
        b: b.into(),
        between: "between them: piping over 4 mm cord".into(),
        stretches: "A1 nw – sw: S 500.0 to 502.0, L 600.0 to 602.0".into(),
        lengths: vec![length("1000.0", "1004.0", "4.0 (0.4 %)"), length("1200.0", "1200.0", "")],
    };
    Matching {
        head: head("Which edge meets which, and how long they are", "Seam matching", "One letter is one seam."),
        map: Some(plain(map.scene, &format!("1:{scale}"))),
        apart: true,
        notes: vec!["Cover, drawn: left; made once more each: right".into()],
        unit: "mm".into(),
        tables: vec![JoinTable {
            sizes: vec!["M".into(), "L".into()],
            rows: vec![
                row("A", "Seam all round", "A1 TOP nw–sw, A2 sw–se", "A1 BOT nw–sw, A2 sw–se"),
                row("B", "Zip opening", "TOP se–ne", "BOT se–ne"),
            ],
        }],
    }
}

/// A card on a page of its own.
fn paged(card: PieceCard) -> Page<PieceCard> {
    let height = card.top + card.drawing.as_ref().map_or(14.0, |one| one.scene.height);
    Page { height, cards: vec![Placed { at: [0.0; 2], card }] }
}

#[allow(clippy::too_many_lines, reason = "one table of view data")]
pub(super) fn pieces() -> Pieces {
    let row = |code: &str, name: &str, material: &str, l: &str, r: &str, t: &str, size: &str| PieceRow {
        code: code.into(),
        name: name.into(),
        material: material.into(),
        drawn: l.into(),
        mirrored: r.into(),
        own: if l == "–" { t.into() } else { "–".into() },
        total: t.into(),
        sizes: size.split('\n').map(Into::into).collect(),
        allowance: "10".into(),
        note: "".into(),
    };
    let card = |outline: &PieceOutline, name: &str, count: &str| {
        let drawing = drawn(outline);
        PieceCard {
            width: drawing.scene.width.ceil().max(CARD_LEAST),
            top: 10.0,
            code: outline.code.clone(),
            name: name.into(),
            scale: "Scale 1:10".into(),
            caption: "Scale 1:10".into(),
            count: count.into(),
            drawing: Some(drawing),
        }
    };
    let total = |material: &str, t: &str, net: &str| PieceTotal {
        material: material.into(),
        drawn: "–".into(),
        mirrored: "–".into(),
        own: t.into(),
        total: t.into(),
        net: net.split(" · ").map(Into::into).collect(),
    };
    let mut rows = vec![
        row("TOP", "Top panel", "1 Cotton canvas", "–", "–", "1", "520 × 520\n620 × 620"),
        row("BOT", "Bottom panel", "1 Cotton canvas", "–", "–", "1", "520 × 520\n620 × 620"),
        row("SIDE", "Box side", "1 Cotton canvas", "–", "–", "3", "520 × 140\n620 × 140"),
        row("ZIPA", "Back side, upper half", "1 Cotton canvas", "1", "1", "2", "520 × 85\n620 × 85"),
        row("PIP", "Piping strip", "2 Cotton canvas, bias", "–", "–", "2", "2060 × 40\n2460 × 40"),
        row("INN", "Inner panel", "4 Cotton cambric", "–", "–", "2", "540 × 540\n640 × 640"),
        row("INS", "Inner side", "4 Cotton cambric", "–", "–", "4", "540 × 145\n640 × 145"),
    ];
    rows[4].note = "45° to the grain".into();
    rows[3].note = "mirror image for the right one".into();
    Pieces {
        notes: Vec::new(),
        head: head(
            "What to cut",
            "Pieces",
            "Counts are for one product. Left and right are written out; nothing is only mirrored. Sizes are cut sizes, width × height.",
        ),
        unit: "mm".into(),
        area: "m²".into(),
        sizes: vec!["M".into(), "L".into()],
        rows,
        totals: vec![
            total("1 Cotton canvas", "7", "0.812 · 1.148"),
            total("2 Cotton canvas, bias", "2", "0.164 · 0.200"),
            total("4 Cotton cambric", "6", "0.790 · 1.122"),
        ],
        scale: "Scale 1:5 unless a piece says another; M with all its lines, L by the cut line".into(),
        drawings: vec![
            card(&outline("TOP", 520.0, 520.0), "Top panel", "1 piece from 1 Cotton canvas"),
            card(&disc(), "Base patch", "1 piece from 1 Cotton canvas"),
            card(&outline("SIDE", 520.0, 140.0), "Box side", "3 pieces from 1 Cotton canvas"),
            card(&outline("ZIPA", 520.0, 85.0), "Back side, upper half", "2 pieces, 1 left and 1 right"),
            card(&outline("INS", 540.0, 145.0), "Inner side", "4 pieces from 4 Cotton cambric"),
            PieceCard {
                width: CARD_LEAST,
                top: 10.0,
                code: "PIP".into(),
                name: "Piping strip".into(),
                scale: "".into(),
                caption: "".into(),
                count: "2 pieces from 2 Cotton canvas, on the bias".into(),
                drawing: None,
            },
        ]
        .into_iter()
        .map(paged)
        .collect(),
    }
}

/// The box of signs.
pub fn signs() -> Signs {
    let sample = |line: Line, text: &str| LegendRow { sample: plain(legend_sample(line, text), ""), text: text.into() };
    Signs {
        rows: vec![
            sample(Line::Cut, "cut line"),
            LegendRow { sample: plain(nest_sample(0, "L"), ""), text: "L".into() },
            sample(Line::Sew, "sew line"),
            sample(Line::Fold, "fold"),
            sample(Line::Topstitch, "stitching inside a piece"),
            sample(Line::Placement, "placement"),
            sample(Line::Grain, "grain"),
            sample(Line::Pile, "pile: the way it lies"),
            sample(Line::Notch, "notch"),
        ],
    }
}

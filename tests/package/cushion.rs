//! A made-up cushion as view data: invented, but as full as a real package.

use std::collections::BTreeMap;

use backtack::render::labels::labels;
use backtack::render::package::{About, Drawing, Fact, Head, Package, Picture, ROOM_PIECE, TitleBlock};
use backtack::render::sheets::{
    Bill, BillGroup, BillRow, Callout, Colourway, Confirmation, Construction, Cover, FillRow, Filling, LegendRow, Mass,
    Measurements, PieceCard, PieceRow, PieceTotal, Pieces, Point, Question, Questions, Sheet, Step, Views,
};
use backtack_core::scene::{
    At, Fill, Line, PieceOutline, PiecePoint, PileSide, Scene, Segment, StackPly, StackSeam, arrow, balloon, closed,
    dimension, legend_sample, open, piece, scale_for, stack,
};
use backtack_core::words::Language;

/// The whole package, with standing questions.
pub fn package() -> Package {
    Package {
        about: About {
            title: "Floor cushion Tarn FC-2041, revision B".into(),
            author: "Marrow & Fold (invented)".into(),
            language: "en".into(),
            date: [2026, 3, 9],
        },
        title_block: title_block(),
        not_released: Some("Not released: 3 questions open (sheet {sheet:questions})".into()),
        labels: labels(Language::English),
        sheets: vec![
            Sheet::Cover(cover()),
            Sheet::Questions(questions()),
            Sheet::Views(views()),
            Sheet::Bill(bill()),
            Sheet::Pieces(pieces()),
            Sheet::Construction(construction()),
            Sheet::Filling(filling()),
            Sheet::Measurements(measurements("M", 0.0)),
            Sheet::Measurements(measurements("L", 100.0)),
            Sheet::Confirmation(confirmation()),
        ],
    }
}

/// A made-up photograph: noise in the colours of the cloth.
pub fn pictures() -> BTreeMap<String, Vec<u8>> {
    BTreeMap::from([("pictures/weave.jpg".to_owned(), include_bytes!("weave.jpg").to_vec())])
}

fn title_block() -> TitleBlock {
    TitleBlock {
        owner: "Marrow & Fold (invented)".into(),
        number: "SPEC-FC-2041".into(),
        title: "Floor cushion Tarn".into(),
        supplement: "box sides, piping, washable cover".into(),
        date: "9 Mar 2026".into(),
        revision: "B".into(),
        language: "en".into(),
        creator: "I. Lindqvist".into(),
        approver: String::new(),
        kind: "Product specification".into(),
        stage: "Prototype".into(),
        style: "FC-2041".into(),
        factory_style: "HX-7719".into(),
        season: "AW 26".into(),
        digest: "3f9a1c07be".into(),
    }
}

fn head(title: &str, name: &str, lead: &str) -> Head {
    Head { title: title.into(), name: name.into(), lead: lead.into() }
}

fn fact(label: &str, value: &str) -> Fact {
    Fact { label: label.into(), value: value.into() }
}

fn call(number: &str, text: &str) -> Callout {
    Callout { number: number.into(), text: text.into() }
}

fn lines(list: &[&str]) -> Vec<String> {
    list.iter().map(|&s| s.to_owned()).collect()
}

fn plain(scene: Scene, caption: &str) -> Drawing {
    Drawing { picture: None, scene, caption: caption.into() }
}

fn cover() -> Cover {
    let colourway = |name: &str, swatches: &[&str]| Colourway {
        name: name.into(),
        swatches: lines(swatches),
        cells: lines(&["HX-7719-M", "HX-7719-L"]),
    };
    Cover {
        head: head(
            "Floor cushion Tarn",
            "Specification package",
            "Square box cushion with piped edges, zip in the back side, separate filled inner.",
        ),
        front: Some(plain(
            box_view(104.0, 76.0, "Front view of the cushion from above: a square box with piped edges."),
            "Front, not to scale",
        )),
        facts: vec![
            fact("Our style number", "FC-2041"),
            fact("Factory number", "HX-7719"),
            fact("Season", "AW 26"),
            fact("Stage", "Prototype"),
            fact("Revision", "B of 9 Mar 2026"),
            fact("Destinations", "EU, UK"),
            fact("Age grade", "Not a toy"),
            fact("Answers by", "20 Mar 2026"),
            fact("Sealed sample, tag no.", ""),
        ],
        sizes: lines(&["M", "L"]),
        colourways: vec![
            colourway("SAND · Sand, brick piping", &["#cbb994", "#9c4a32"]),
            colourway("INK · Ink, chalk piping", &["#273043", "#e9e4d8"]),
        ],
        covers: lines(&[
            "Every sheet of this package in revision B, digest 3f9a1c07be.",
            "The two files attached to it.",
            "Not the quantities of any order.",
        ]),
        precedence: lines(&[
            "The sealed sample, for hand and look.",
            "The figures in the tables.",
            "The drawings.",
            "Everything said elsewhere.",
        ]),
        cautions: lines(&[
            "Filling and cover must meet the flammability rules of each destination: have an accredited laboratory confirm it before bulk.",
        ]),
    }
}

/// A cushion seen from above and a little from the side.
fn box_view(width: f64, height: f64, alt: &str) -> Scene {
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

fn questions() -> Questions {
    let row = |number: &str, weight: &str, text: &str, help: &str, place: &str, code: &str| Question {
        number: number.into(),
        weight: weight.into(),
        stops: weight == "must",
        text: text.into(),
        help: help.into(),
        place: place.into(),
        code: code.into(),
    };
    Questions {
        head: head(
            "What is still open",
            "Questions",
            "Please answer on this sheet or in writing by 20 Mar 2026. A question marked \"must\" stops the release.",
        ),
        rows: vec![
            row(
                "1",
                "must",
                "The zip is 420 mm long, and the opening it closes is 400 mm on size M.",
                "Give the zip per size, or lengthen the opening to 420 mm.",
                "trims.toml, line 31\nseams.toml, line 58",
                "layers-differ",
            ),
            row(
                "2",
                "must",
                "The piping cord has no colour in colourway INK.",
                "Write `INK = \"Chalk\"` in the colourway table.",
                "colours.toml, line 12",
                "cloth-without-colour",
            ),
            row(
                "3",
                "must",
                "The inner is filled, but size L states no mass.",
                "Write the mass with its tolerance: `L = \"2600 g ±5 %\"`.",
                "filling.toml, line 9",
                "filling-without-mass",
            ),
            row(
                "4",
                "should",
                "The cloth states no shrinkage across its width.",
                "Ask the mill for the relaxation shrinkage in both directions.",
                "materials.toml, line 4",
                "missing-shrinkage",
            ),
        ],
    }
}

fn views() -> Views {
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
    let mut scene = Scene::new(72.0, 54.0, "The hand of the cloth, photographed close.");
    balloon(&mut scene, [8.0, 8.0], "1", [30.0, 24.0]);
    Drawing {
        picture: Some(Picture { file: "pictures/weave.jpg".into() }),
        scene,
        caption: "The hand of the cloth".into(),
    }
}

fn bill() -> Bill {
    let row =
        |n: &str, item: &str, article: &str, supplier: &str, colours: [&str; 2], uses: [&str; 2], unit: &str| BillRow {
            number: n.into(),
            item: item.into(),
            article: article.into(),
            supplier: supplier.into(),
            colours: lines(&colours),
            uses: lines(&uses),
            unit: unit.into(),
        };
    let group = |title: &str, rows: Vec<BillRow>| BillGroup { title: title.into(), rows };
    Bill {
        head: head(
            "What to buy",
            "Bill of materials",
            "Net use: the true cut area or length of one product, without any loss. Green rules are for the factory.",
        ),
        colourways: lines(&["SAND", "INK"]),
        sizes: lines(&["M", "L"]),
        groups: vec![
            group(
                "Shell cloth",
                vec![
                    row(
                        "1",
                        "Cotton canvas, top, bottom, sides\n320 g/m², 150 cm",
                        "CV-320-150",
                        "Free, same hand",
                        ["Sand 14", "Ink 02"],
                        ["0.812", "1.148"],
                        "m²",
                    ),
                    row(
                        "2",
                        "Piping strip, on the bias",
                        "CV-320-150",
                        "as 1",
                        ["Brick 07", "Chalk 01"],
                        ["0.164", "0.200"],
                        "m²",
                    ),
                ],
            ),
            group(
                "Inner cloth",
                vec![row(
                    "4",
                    "Cotton cambric, down-proof, inner",
                    "CB-130",
                    "",
                    ["white", "white"],
                    ["0.790", "1.122"],
                    "m²",
                )],
            ),
            group(
                "Thread",
                vec![
                    row(
                        "5",
                        "Core-spun polyester, ticket 75, all seams",
                        "CS-75",
                        "Free",
                        ["Sand 14", "Ink 02"],
                        ["38.4", "46.9"],
                        "m",
                    ),
                    row(
                        "6",
                        "Core-spun polyester, ticket 120, overlock",
                        "CS-120",
                        "Free",
                        ["white", "white"],
                        ["61.2", "75.0"],
                        "m",
                    ),
                ],
            ),
            group(
                "Filling",
                vec![row(
                    "7",
                    "Polyester ball fibre, 7 dtex, siliconised",
                    "",
                    "",
                    ["white", "white"],
                    ["1850", "2600"],
                    "g",
                )],
            ),
            group(
                "Trims",
                vec![
                    row(
                        "3",
                        "Coil zip no. 5, closed end, auto-lock slider",
                        "Z5-CE",
                        "Nominated: see sheet {sheet:questions}",
                        ["Sand 14", "Ink 02"],
                        ["1", "1"],
                        "pc",
                    ),
                    row("8", "Cord for piping, cotton, 4 mm", "PC-4", "Free", ["raw", "raw"], ["4.12", "4.92"], "m"),
                    row(
                        "9",
                        "Care label, woven, centre fold",
                        "CL-2041",
                        "Nominated",
                        ["white", "white"],
                        ["1", "1"],
                        "pc",
                    ),
                    row(
                        "10",
                        "Polybag 60 × 60 cm, 50 µm, printed warning",
                        "PB-60",
                        "Free",
                        ["clear", "clear"],
                        ["1", "1"],
                        "pc",
                    ),
                ],
            ),
        ],
        notes: lines(&["An empty article or supplier asks the factory for its proposal."]),
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
        notches: vec![[[w / 2.0, 10.0], [w / 2.0, 0.0]]],
        grain: Some([0.0, 1.0]),
        pile: None,
        width_text: format!("{w}"),
        height_text: format!("{h}"),
        bar: 50.0,
        bar_text: "50 mm".into(),
        alt: format!("Piece {code}: rectangle, cut {w} by {h} mm, allowance 10 mm, grain along its height."),
        ..PieceOutline::default()
    }
}

fn disc() -> PieceOutline {
    let mut out = outline("PATCH", 160.0, 160.0);
    out.cut = backtack_core::scene::circle([80.0, 80.0], 80.0);
    out.sew = backtack_core::scene::circle([80.0, 80.0], 74.0);
    out.points.clear();
    out.notches.clear();
    out.inner = vec![
        (Line::Stitching, backtack_core::scene::circle([80.0, 80.0], 30.0)),
        (Line::Fold, open(&[[10.0, 80.0], [150.0, 80.0]])),
    ];
    out.pile = Some([0.0, 1.0]);
    out
}

fn drawn(outline: &PieceOutline) -> Drawing {
    let scale = scale_for(outline, ROOM_PIECE.width, ROOM_PIECE.height);
    plain(piece(outline, scale), &format!("Size M, 1:{scale}, mm"))
}

fn pieces() -> Pieces {
    let row = |code: &str, name: &str, material: &str, l: &str, r: &str, t: &str, size: &str| PieceRow {
        code: code.into(),
        name: name.into(),
        material: material.into(),
        left: l.into(),
        right: r.into(),
        total: t.into(),
        size: size.into(),
        allowance: "10".into(),
        direction: "grain along height".into(),
        note: String::new(),
    };
    let card = |outline: &PieceOutline, name: &str, count: &str| PieceCard {
        code: outline.code.clone(),
        name: name.into(),
        count: count.into(),
        drawing: Some(drawn(outline)),
    };
    let sample = |line: Line, text: &str| LegendRow { sample: plain(legend_sample(line, text), ""), text: text.into() };
    let total = |material: &str, t: &str, net: &str| PieceTotal {
        material: material.into(),
        left: "–".into(),
        right: "–".into(),
        total: t.into(),
        net: net.into(),
    };
    let mut rows = vec![
        row("TOP", "Top panel", "1 Cotton canvas", "–", "–", "1", "M 520 × 520\nL 620 × 620"),
        row("BOT", "Bottom panel", "1 Cotton canvas", "–", "–", "1", "M 520 × 520\nL 620 × 620"),
        row("SIDE", "Box side", "1 Cotton canvas", "–", "–", "3", "M 520 × 140\nL 620 × 140"),
        row("ZIPA", "Back side, upper half", "1 Cotton canvas", "1", "1", "2", "M 520 × 85\nL 620 × 85"),
        row("PIP", "Piping strip", "2 Cotton canvas, bias", "–", "–", "2", "M 2060 × 40\nL 2460 × 40"),
        row("INN", "Inner panel", "4 Cotton cambric", "–", "–", "2", "M 540 × 540\nL 640 × 640"),
        row("INS", "Inner side", "4 Cotton cambric", "–", "–", "4", "M 540 × 145\nL 640 × 145"),
    ];
    rows[4].direction = "45° to the grain".into();
    rows[3].note = "mirror image for the right one".into();
    Pieces {
        head: head(
            "What to cut",
            "Pieces",
            "Counts are for one product. Left and right are written out; nothing is only mirrored. Sizes are cut sizes, width × height.",
        ),
        unit: "mm".into(),
        rows,
        totals: vec![
            total("1 Cotton canvas", "7", "M 0.812 m² · L 1.148 m²"),
            total("2 Cotton canvas, bias", "2", "M 0.164 m² · L 0.200 m²"),
            total("4 Cotton cambric", "6", "M 0.790 m² · L 1.122 m²"),
        ],
        drawings: vec![
            card(&outline("TOP", 520.0, 520.0), "Top panel", "1 piece from 1 Cotton canvas"),
            card(&outline("SIDE", 520.0, 140.0), "Box side", "3 pieces from 1 Cotton canvas"),
            card(
                &outline("ZIPA", 520.0, 85.0),
                "Back side, upper half",
                "2 pieces, 1 left and 1 right, from 1 Cotton canvas",
            ),
            card(&disc(), "Base patch", "1 piece from 1 Cotton canvas"),
            card(&outline("INS", 540.0, 145.0), "Inner side", "4 pieces from 4 Cotton cambric"),
            PieceCard {
                code: "PIP".into(),
                name: "Piping strip".into(),
                count: "2 pieces from 2 Cotton canvas, on the bias".into(),
                drawing: None,
            },
        ],
        legend: vec![
            sample(Line::Cut, "cut line"),
            sample(Line::Sew, "sew line"),
            sample(Line::Fold, "fold"),
            sample(Line::Stitching, "stitching inside a piece"),
            sample(Line::Placement, "placement"),
            sample(Line::Grain, "grain"),
            sample(Line::Pile, "pile: the way it lies"),
            sample(Line::Notch, "notch"),
        ],
    }
}

fn construction() -> Construction {
    let ply = |number: &str, pile: PileSide, bead: bool| StackPly { number: number.into(), pile, bead };
    let seam = |plies: Vec<StackPly>, stitch: &str| {
        let seam = StackSeam {
            plies,
            stitch: stitch.into(),
            allowance: "10 mm".into(),
            alt: "Stack of the seam in needle order.".into(),
        };
        Some(plain(stack(&seam), ""))
    };
    let step = |n: &str, title: &str, text: &str| Step {
        number: n.into(),
        title: title.into(),
        text: text.into(),
        ..Step::default()
    };
    let sewn = |mut step: Step, stack: Option<Drawing>, plies: Vec<Callout>| {
        step.stack = stack;
        step.plies = plies;
        step.stitch = "301".into();
        step.density = "3.5 st/cm".into();
        step.allowance = "10 mm".into();
        step.thread = "5 Core-spun polyester, ticket 75".into();
        step
    };
    let two = || vec![ply("1", PileSide::Down, false), ply("2", PileSide::Up, false)];
    let three = || vec![ply("1", PileSide::Down, false), ply("2", PileSide::None, true), ply("3", PileSide::Up, false)];
    Construction {
        head: head(
            "What to sew, in this order",
            "Construction",
            "Plies are numbered from the needle down; hatching marks the face or pile side. Backtack 10 mm at both ends of each seam.",
        ),
        steps: vec![
            step("1", "Overlock all edges of the cover", "504, thread 6, trim nothing off."),
            sewn(
                step(
                    "2",
                    "Set the zip between the halves of the back side",
                    "ZIPA:a–b to the zip tape, both sides; slider closed at the left.",
                ),
                seam(two(), "301"),
                vec![call("1", "ZIPA, face down"), call("2", "zip tape, face up")],
            ),
            sewn(
                step("3", "Join the box sides in a ring", "SIDE.1:ne–se to SIDE.2:nw–sw, and on; 4 seams."),
                seam(two(), "301"),
                vec![call("1", "SIDE.1, face down"), call("2", "SIDE.2, face up")],
            ),
            sewn(
                step("4", "Pipe the top panel", "Start in the middle of the back edge; overlap the strip 30 mm."),
                seam(vec![ply("1", PileSide::None, true), ply("2", PileSide::Up, false)], "301"),
                vec![call("1", "PIP over cord 8"), call("2", "TOP:nw–ne–se–sw–nw, face up")],
            ),
            sewn(
                step("5", "Sew the ring to the top panel", "Corners A–A to D–D; leave nothing open."),
                seam(three(), "301"),
                vec![
                    call("1", "SIDE ring, upper edge, face down"),
                    call("2", "PIP, sewn on in step 4"),
                    call("3", "TOP, face up"),
                ],
            ),
            sewn(
                step("6", "Sew the ring to the bottom panel", "Zip half open, so that the cover can be turned."),
                seam(three(), "301"),
                vec![
                    call("1", "SIDE ring, lower edge, face down"),
                    call("2", "PIP, sewn on in step 4"),
                    call("3", "BOT, face up"),
                ],
            ),
            Step {
                note: "Corners pushed out from inside with a blunt tool.".into(),
                ..step("7", "Turn the cover", "Through the zip.")
            },
            step("8", "Fill the inner and close it", "Weigh the portion first (sheet {sheet:filling})."),
        ],
    }
}

fn mass(target: &str, limits: &str) -> Mass {
    Mass { target: target.into(), limits: limits.into() }
}

fn filling() -> Filling {
    let row = |zone: &str, material: &str, how: &str, masses: Vec<Mass>| FillRow {
        zone: zone.into(),
        material: material.into(),
        how: how.into(),
        masses,
    };
    Filling {
        head: head(
            "What to fill it with",
            "Filling",
            "Weigh each portion before it goes in; write the reading in the green column.",
        ),
        sizes: lines(&["M", "L"]),
        unit: "g".into(),
        rows: vec![
            row(
                "Inner, middle",
                "7 Polyester ball fibre",
                "portion weighed before stuffing",
                vec![mass("1450", "1378–1522"), mass("2050", "1948–2152")],
            ),
            row(
                "Inner, four corners together",
                "7 Polyester ball fibre",
                "portion weighed before stuffing",
                vec![mass("400", "380–420"), mass("550", "523–577")],
            ),
        ],
        sums: vec![
            row(
                "Filling, all zones",
                "",
                "sum of the portions",
                vec![mass("1850", "1758–1942"), mass("2600", "2471–2729")],
            ),
            row("Shell, without filling", "", "mean of 5 shells, by the factory", vec![mass("", ""), mass("", "")]),
            row("Product", "", "finished, without hangtag", vec![mass("2540", "2410–2670"), mass("3480", "3310–3650")]),
        ],
        facts: vec![
            fact("Fibre", "7 dtex × 64 mm, hollow, siliconised, virgin"),
            fact("Firmness", "as the sealed sample, by hand"),
            fact("Scale", "readable to 1 g"),
            fact("Fibre lot", ""),
        ],
        notes: lines(&["Zone masses of a closed cushion can only be had by opening it: the portions are the check."]),
    }
}

fn measurements(size: &str, more: f64) -> Measurements {
    let mut scene = Scene::new(74.0, 74.0, "Cushion from above and from the side with the points of measure 1 to 4.");
    let rect = closed(&[[14.0, 8.0], [58.0, 8.0], [58.0, 42.0], [14.0, 42.0]]);
    scene.path(Some(Line::Outline), Fill::None, rect);
    scene.rect(Some(Line::Outline), Fill::None, [14.0, 54.0], 44.0, 12.0);
    arrow(&mut scene, Line::Dimension, [36.0, 25.0], [14.0, 25.0]);
    arrow(&mut scene, Line::Dimension, [36.0, 25.0], [58.0, 25.0]);
    for (number, from, to) in [("1", [36.0, 31.0], [30.0, 25.0]), ("4", [70.0, 14.0], [58.0, 8.0])] {
        balloon(&mut scene, from, number, to);
    }
    dimension(&mut scene, [14.0, 42.0], [14.0, 8.0], 5.0, "");
    balloon(&mut scene, [4.0, 25.0], "2", [9.0, 25.0]);
    dimension(&mut scene, [58.0, 54.0], [58.0, 66.0], 4.0, "");
    balloon(&mut scene, [70.0, 60.0], "3", [62.0, 60.0]);
    let limits = |mm: f64, tol: f64| vec![mass(&format!("{mm}"), &format!("{}–{}", mm - tol, mm + tol))];
    let row = |n: &str, name: &str, how: &str, critical: bool, limits: Vec<Mass>| Point {
        number: n.into(),
        name: name.into(),
        how: how.into(),
        critical,
        limits,
    };
    Measurements {
        head: head(
            &format!("What to measure: size {size}"),
            "Measurements",
            "Filled, zip closed, 24 h after unpacking, shaken once, lying on a table. Write each reading; circle what is out.",
        ),
        picture: Some(plain(scene, "")),
        sizes: lines(&[size]),
        unit: "mm".into(),
        rows: vec![
            row("1", "Width of the top", "seam to seam, straight, through the middle", true, limits(500.0 + more, 7.0)),
            row("2", "Depth of the top", "seam to seam, straight, through the middle", true, limits(500.0 + more, 7.0)),
            row("3", "Height of the side", "piping to piping, at the middle of the front", false, limits(120.0, 5.0)),
            row(
                "4",
                "Diagonal",
                "corner to corner along the surface; the two differ by at most 10",
                false,
                limits(715.0 + more, 10.0),
            ),
            row("5", "Zip, opening", "between the stops, zip open", true, limits(420.0, 5.0)),
            row("6", "Piping, thickness", "calliper, no pressure, three places", false, limits(6.0, 1.0)),
        ],
        blanks: lines(&["1", "2", "3", "4", "5"]),
        conditions: lines(&[
            "Steel tape, readable to 1 mm.",
            "Limits are rounded inward to 1 mm.",
            "A reading on a limit is good.",
        ]),
    }
}

fn confirmation() -> Confirmation {
    Confirmation {
        head: head(
            "What to confirm and sign",
            "Confirmation",
            "Tick one box a line; write a proposal where yours differs. Sign, and set the chop across the edge of the sheets.",
        ),
        items: vec![
            call("1", "The materials of sheet {sheet:bill} are available in the colours named."),
            call("2", "The construction of sheet {sheet:construction} can be made as drawn."),
            call("3", "The limits of measurement, from sheet {sheet:measurements} on, can be held in bulk."),
            call("4", "The filling masses of sheet {sheet:filling} can be held in bulk."),
            call("5", "The open questions of sheet {sheet:questions} are answered."),
        ],
        required: vec![
            fact("Swatches of items 1 and 2, both colourways", "20 × 20 cm each"),
            fact("Prototype, size M, colourway SAND", "2 pieces"),
            fact("Fibre declaration of item 7", "by the supplier"),
        ],
        signed: vec![
            fact("Style", "FC-2041 / HX-7719"),
            fact("Revision", "B of 9 Mar 2026"),
            fact("Digest", "3f9a1c07be"),
            fact("Stage", "Prototype"),
        ],
        parties: lines(&["For the buyer", "For the factory"]),
    }
}

//! A made-up cushion as view data: invented, but as full as a real package.

mod order;
mod review;
mod shape;
mod tables;
mod work;

use std::collections::BTreeMap;

use backtack_core::parties::rows::PartyRow;
use backtack_core::rows::data::{
    Callout, CautionRow, Chain, ChainStep, Colourway, Cover, DieRow, Fabric, Guide, LayCard, LayGroup, Marker,
    Obstacles, Plan, PlanGroup, PlanRow, Purchases, Question, Questions, Safety, Sheet,
};
use backtack_core::rows::labels::labels;
use backtack_core::rows::package::{About, Bound, Contents, ContentsRow, Drawing, Fact, Head, Package, TitleBlock};
use backtack_core::rows::placed::{Page, Placed};
use backtack_core::scene::Scene;
use backtack_core::words::{Languages, Phrase};

use shape::{box_view, joins, pieces, signs, views};
use tables::{bill, confirmation, filling, measurements};
use work::construction;

/// The whole package, with standing questions.
pub fn package() -> Package {
    let sheets = sheets();
    Package {
        about: About {
            title: "Floor cushion Tarn FC-2041, revision B".into(),
            author: "Marrow & Fold (invented)".into(),
            language: "en".into(),
            date: [2026, 3, 9],
        },
        title_block: title_block(),
        not_released: Some("Not released: 3 questions open (sheet {sheet:questions})".into()),
        languages: Languages::default(),
        labels: labels(Languages::default()),
        contents: contents(&sheets),
        sheets,
        extract: None,
    }
}

/// All sheets, as they are bound.
fn sheets() -> Vec<Bound> {
    let sheets = vec![
        Sheet::Cover(cover()),
        Sheet::Guide(guide()),
        Sheet::Changes(review::changes()),
        Sheet::Questions(questions()),
        Sheet::Comments(review::comments()),
        Sheet::Samples(review::samples()),
        Sheet::Views(views()),
        Sheet::Bill(bill()),
        Sheet::Pieces(pieces()),
        Sheet::Matching(joins()),
        Sheet::Marker(lays()),
        Sheet::Construction(construction()),
        Sheet::Filling(filling()),
        Sheet::Measurements(measurements("M", 0.0)),
        Sheet::Measurements(measurements("L", 100.0)),
        Sheet::Safety(safety()),
        Sheet::Confirmation(confirmation()),
        Sheet::Plan(plan()),
        Sheet::Fabric(fabric()),
        Sheet::Bundles(order::bundles()),
        Sheet::Strikes(order::strikes()),
        Sheet::Spreading(order::spreading()),
    ];
    let bound = |sheet| Bound {
        sheet,
        readers: "cutter, line".into(),
        desks: Vec::new(),
        scaled: true,
        follows: false,
        page: None,
    };
    sheets.into_iter().map(bound).collect()
}

fn contents(sheets: &[Bound]) -> Contents {
    let row =
        |bound: &Bound| ContentsRow { name: bound.sheet.head().name.clone(), page: None, read: vec![true, false] };
    Contents { desks: vec!["cutter".into(), "line".into()], rows: sheets.iter().map(row).collect() }
}

/// A made-up photograph: noise in the colours of the fabric.
pub fn pictures() -> BTreeMap<String, Vec<u8>> {
    BTreeMap::from([("pictures/weave.jpg".to_owned(), include_bytes!("../weave.jpg").to_vec())])
}

fn title_block() -> TitleBlock {
    TitleBlock {
        owner: "Marrow & Fold (invented)".into(),
        number: "SPEC-FC-2041".into(),
        title: "Floor cushion Tarn".into(),
        date: "9 Mar 2026".into(),
        revision: "B".into(),
        revisions: "B after A".into(),
        stage: "Prototype".into(),
        style: "FC-2041".into(),
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

fn lines<T: for<'t> From<&'t str>>(list: &[&str]) -> Vec<T> {
    list.iter().map(|&s| T::from(s)).collect()
}

fn plain(scene: Scene, caption: &str) -> Drawing {
    Drawing::of(scene, caption)
}

fn cover() -> Cover {
    let colourway = |name: &str, swatches: &[&str]| Colourway {
        name: name.into(),
        swatches: lines(swatches),
        cells: lines(&["HX-7719-M", "HX-7719-L"]),
    };
    Cover {
        head: head(
            "What this is, and what it asks of you",
            "Floor cushion Tarn",
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
        parties: vec![
            PartyRow {
                role: "Legal owner, Manufacturer".into(),
                name: "Marrow & Fold (invented)".into(),
                address: "1 Sample Lane\nSampletown\nhello@marrow.example".into(),
            },
            PartyRow { role: "Factory".into(), name: "Example Sewing (invented)".into(), address: "".into() },
        ],
        document: "Specification for manufacture".into(),
        obstacles: Obstacles {
            confirm: "To be confirmed first: 3 (sheet {sheet:confirmation})".into(),
            title: "In the way of counter sample: 1".into(),
            list: lines(&["The fibre of the filling is not declared"]),
        },
        concessions: vec![
            "Bag-film is conceded by M. Example on 2026-03-01: no bag. For 40 pieces, until 2026-06-30.".into(),
        ],
        sizes: lines(&["M", "L"]),
        colourways: vec![
            colourway("SAND · Sand, brick piping", &["#cbb994", "#9c4a32"]),
            colourway("INK · Ink, chalk piping", &["#273043", "#e9e4d8"]),
        ],
        numbers: vec![fact("Pieces cut", "9 of 5 kinds"), fact("Filling", "M 900 g, L 1500 g")],
    }
}

fn guide() -> Guide {
    Guide {
        head: head("What codes mean", "How to read this", ""),
        codes: vec![call("SIDE.l", "Copy l as it is drawn.")],
        signs: vec![call("△", "Changed.")],
        lines: signs(),
        blank: "A dashed box is filled in by hand.".into(),
        bar: "What has a bar beside it stops a release.".into(),
        digest: "The digest is that of the files.".into(),
        precedence: lines(&[
            "The sealed sample, for hand and look.",
            "The figures in the tables.",
            "The drawings.",
            "Everything said elsewhere.",
        ]),
        deciding: "The English text decides.".into(),
    }
}

fn safety() -> Safety {
    let row = |title: &str, text: &str, follows: &str| CautionRow {
        title: title.into(),
        text: text.into(),
        follows: follows.into(),
    };
    Safety {
        head: head("What to take care of", "Safety", "The usual cautions."),
        columns: vec![
            vec![row("Needles", "Needles are handed out one for one; a broken one is logged.", "common practice")],
            vec![row(
                "Film",
                "Bags have holes, and carry the warning of the destination.",
                "the law of the destination",
            )],
        ],
        deferral: "The law of the destination and an accredited laboratory decide.".into(),
    }
}

fn questions() -> Questions {
    let row = |number: &str, stops: bool, text: &str, concerns: &str| Question {
        number: number.into(),
        stops,
        text: text.into(),
        concerns: concerns.into(),
    };
    Questions {
        head: head(
            "What is still open",
            "Questions",
            "Please answer on this sheet or in writing by 20 Mar 2026. A question with a bar beside it stops the release.",
        ),
        rows: vec![
            row(
                "1",
                true,
                "The zip is 420 mm long, and the opening it closes is 400 mm on size M.",
                "Bill of materials: trim Coil zip\nConstruction: opening Back",
            ),
            row("2", true, "The piping cord has no colour in colourway INK.", "Bill of materials: colourway INK"),
            row("3", true, "The inner is filled, but size L states no mass.", "Filling: stuffing Inner"),
            row("4", false, "The fabric states no shrinkage across its width.", "Bill of materials: fabric Canvas"),
        ],
    }
}

fn lays() -> Marker {
    let fact = |label: &str, value: &str| Fact { label: label.into(), value: value.into() };
    let card = LayCard {
        width: 83.0,
        top: 14.0,
        title: "M × 6".into(),
        facts: vec![vec![fact("Length of a ply", "1.250 m")], vec![fact("Fabric for one product", "0.208 m")]],
        drawing: None,
        scale: "1:20".into(),
        legend: "1 SIDE, 2 BASE".into(),
    };
    let group = LayGroup {
        title: "Outer fabric".into(),
        cells: lines(&["1480", "Hand knife"]),
        notes: vec!["Not stated, so common practice was taken: gap 5 mm.".into()],
    };
    let head = Head { title: "How to lay the fabric".into(), name: "Marker (lay plan)".into(), lead: "".into() };
    let die = DieRow {
        piece: "SIDE".into(),
        cut: "shell".into(),
        by: vec![["1".into(), "4".into(), "1.640".into()]],
        narrow: "tongue 4.2 mm wide over 11.0 mm".into(),
    };
    let placed = |x: f64| Placed { at: [x, 0.0], card: card.clone() };
    let page = Page { height: 30.0, cards: vec![placed(0.0), placed(87.0)] };
    Marker {
        head,
        shared: vec![fact("Spread", "One way, face up")],
        columns: lines(&["Width laid, mm", "Cut by"]),
        groups: vec![group],
        pages: vec![page],
        sizes: lines(&["M"]),
        dies: vec![die],
    }
}

fn plan() -> Plan {
    let row = PlanRow {
        lay: "1".into(),
        makes: "M × 4, L × 2".into(),
        length: "4.250 m".into(),
        plies: "10 Sand".into(),
        numbers: "roll 1: 1–10".into(),
        bundles: "1–6".into(),
        pieces: "240".into(),
        products: "M sand: 40\nL sand: 20".into(),
    };
    let group = PlanGroup { title: "Outer fabric".into(), text: "at most 10 plies at once".into(), rows: vec![row] };
    let line = lines(&["M", "sand", "Norway", "2026-05-04", "60", "60–62", "61", "61", "0"]);
    let head = Head { title: "How to cut the order".into(), name: "Cut plan".into(), lead: "".into() };
    let facts = vec![Fact { label: "Order no.".into(), value: "A-118".into() }];
    Plan {
        head,
        status: order::status(),
        facts,
        groups: vec![group],
        lines: vec![line],
        notes: vec!["One size a lay would take 3 lays.".into()],
    }
}

fn fabric() -> Fabric {
    let step = |step: &str, result: &str, heavy| ChainStep {
        step: step.into(),
        working: "that / 0.97".into(),
        result: result.into(),
        heavy,
    };
    let steps = vec![step("Spread", "42.500 m", false), step("To order", "50.000 m", true)];
    let chain = Chain { title: "Outer fabric, Sand".into(), text: "from lays".into(), steps };
    let head = Head { title: "How much fabric to order".into(), name: "Fabric to order".into(), lead: "".into() };
    let heads = ["Fabric", "Colour", "Supplier", "Article", "Full width", "Cuttable width", "Needed as delivered, m"];
    let more = ["To order, m", "Rolls", "Mass, kg", "Minimum order", "Left over, m", "Lead time"];
    let cells =
        ["Outer fabric", "Sand", "Any mill (invented)", "OF-1", "1500 mm", "1480 mm", "42.500", "50.000", "1", "15.0"];
    let list = Purchases {
        columns: heads.into_iter().chain(more).map(Phrase::from).collect(),
        rows: vec![cells.into_iter().chain(["30 m", "7.500", "14 d"]).map(Into::into).collect()],
    };
    Fabric { head, list, chains: vec![chain.clone(), chain], notes: Vec::new() }
}

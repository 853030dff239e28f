//! The sheets that are tables: bill, filling, measurements, confirmation.

use backtack_core::rows::data::{
    Bill, BillArticle, BillGroup, BillRow, Blank, ColourRow, Confirmation, FillRow, Filling, Mass, Measurements, Point,
    Required,
};
use backtack_core::scene::{Fill, Line, Scene, arrow, balloon, closed, dimension};

use super::{call, fact, head, lines, plain};

/// An article of the bill from its cells, divided by bars: number, item, article, supplier, two colours, two uses, unit.
fn article(cells: &str) -> BillArticle {
    let cells: Vec<String> = cells.split('|').map(|cell| cell.trim().replace("//", "\n")).collect();
    let cell = |n: usize| cells.get(n).map_or("", String::as_str);
    BillArticle {
        number: cell(0).into(),
        item: cell(1).into(),
        details: "".into(),
        article: cell(2).into(),
        supplier: cell(3).into(),
        asked: cell(9).into(),
        rows: vec![BillRow {
            place: "".into(),
            colours: vec![cell(4).into(), cell(5).into()],
            uses: vec![cell(6).into(), cell(7).into()],
            unit: cell(8).into(),
        }],
    }
}

pub(super) fn bill() -> Bill {
    let group = |title: &str, rows: &[&str]| BillGroup {
        title: title.into(),
        articles: rows.iter().map(|r| article(r)).collect(),
    };
    Bill {
        head: head(
            "What to buy",
            "Bill of materials",
            "Net use: the true cut area or length of one product, without any loss. Ruled blanks are for the factory.",
        ),
        colourways: lines(&["SAND", "INK"]),
        sizes: lines(&["M", "L"]),
        groups: vec![
            group(
                "Shell fabric",
                &[
                    "1 | Cotton canvas, top, bottom, sides//320 g/m², 150 cm | CV-320-150 | Free, same hand | Sand 14 | Ink 02 | 0.812 | 1.148 | m²",
                    "2 | Piping strip, on the bias | CV-320-150 | as 1 | Brick 07 | Chalk 01 | 0.164 | 0.200 | m²",
                ],
            ),
            group(
                "Inner fabric",
                &["4 | Cotton cambric, down-proof, inner | CB-130 | | white | white | 0.790 | 1.122 | m²"],
            ),
            group(
                "Thread",
                &[
                    "5 | Core-spun polyester, ticket 75, all seams | CS-75 | Free | Sand 14 | Ink 02 | 38.4 | 46.9 | m",
                    "6 | Core-spun polyester, ticket 120, overlock | CS-120 | Free | white | white | 61.2 | 75.0 | m",
                ],
            ),
            group("Filling", &["7 | Polyester ball fibre, 7 dtex, siliconised | | | white | white | 1850 | 2600 | g"]),
            group(
                "Trims",
                &[
                    "3 | Coil zip no. 5, closed end, auto-lock slider | Z5-CE | Nominated: see sheet {sheet:questions} | Sand 14 | Ink 02 | 1 | 1 | pc",
                    "8 | Cord for piping, cotton, 4 mm | PC-4 | Free | raw | raw | 4.12 | 4.92 | m",
                    "9 | Care label, woven, centre fold | CL-2041 | Nominated | white | white | 1 | 1 | pc",
                    "10 | Polybag 60 × 60 cm, 50 µm, printed warning | PB-60 | Free | clear | clear | 1 | 1 | pc",
                ],
            ),
        ],
        colours: vec![ColourRow {
            name: "Sand 14".into(),
            reference: "Swatch 14".into(),
            lab: "L* 78.0, a* 2.0, b* 14.0".into(),
            limit: "CIEDE2000 at most 1.50".into(),
            articles: "Cotton canvas".into(),
        }],
        notes: lines(&["An empty article or supplier asks the factory for its proposal."]),
    }
}

fn mass(target: &str, limits: &str) -> Mass {
    Mass { target: target.into(), limits: limits.into() }
}

pub(super) fn filling() -> Filling {
    let row = |stuffing: &str, material: &str, how: &str, masses: Vec<Mass>| FillRow {
        stuffing: stuffing.into(),
        material: material.into(),
        how: how.into(),
        masses,
    };
    Filling {
        head: head(
            "What to fill it with",
            "Filling",
            "Weigh each portion before it goes in; write the reading in the ruled column.",
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
                "Filling, all stuffings",
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
        notes: lines(&[
            "Stuffing masses of a closed cushion can only be had by opening it: the portions are the check.",
        ]),
    }
}

pub(super) fn measurements(size: &str, more: f64) -> Measurements {
    let mut scene = Scene::new(58.0, 74.0, "Cushion from above and from the side with the points of measure 1 to 4.");
    let rect = closed(&[[10.0, 8.0], [46.0, 8.0], [46.0, 42.0], [10.0, 42.0]]);
    scene.path(Some(Line::Outline), Fill::None, rect);
    scene.rect(Some(Line::Outline), Fill::None, [10.0, 54.0], 36.0, 12.0);
    arrow(&mut scene, Line::Dimension, [28.0, 25.0], [10.0, 25.0]);
    arrow(&mut scene, Line::Dimension, [28.0, 25.0], [46.0, 25.0]);
    for (number, from, to) in [("1", [28.0, 31.0], [24.0, 25.0]), ("4", [54.0, 14.0], [46.0, 8.0])] {
        balloon(&mut scene, from, number, to);
    }
    dimension(&mut scene, [10.0, 42.0], [10.0, 8.0], 4.0, "");
    balloon(&mut scene, [3.4, 25.0], "2", [6.0, 25.0]);
    dimension(&mut scene, [46.0, 54.0], [46.0, 66.0], 4.0, "");
    balloon(&mut scene, [54.6, 60.0], "3", [50.0, 60.0]);
    let limits = |mm: f64, tol: f64| vec![mass(&format!("{mm}"), &format!("{}–{}", mm - tol, mm + tol))];
    let row = |n: &str, name: &str, how: &str, critical: bool, limits: Vec<Mass>| Point {
        number: n.into(),
        name: name.into(),
        how: how.into(),
        critical,
        pair: true,
        limits,
    };
    Measurements {
        head: head(
            "What to measure",
            &format!("Measurements, size {size}"),
            "Filled, zip closed, 24 h after unpacking, shaken once, lying on a table. Write each reading; circle what is out.",
        ),
        pictures: vec![plain(scene, "")],
        above: false,
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

fn required(label: &str, value: &str, done: bool) -> Required {
    Required { label: label.into(), value: value.into(), done }
}

pub(super) fn confirmation() -> Confirmation {
    Confirmation {
        covers: [
            "Every sheet of this package in revision B, digest 3f9a1c07be.",
            "The two files attached to it.",
            "Not the quantities of any order.",
        ]
        .map(Into::into)
        .to_vec(),
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
            required("Swatches of items 1 and 2, both colourways", "20 × 20 cm each", false),
            required("Prototype, size M, colourway SAND", "2 pieces", false),
            required("Fibre declaration of item 7", "by the supplier", true),
        ],
        checklist: vec!["piping: joined at the back, 20 mm from the zip".into()],
        sealed: vec![vec![fact("Seal tag no.", "FC-0001"), fact("Place", "at the workshop")]],
        manifest: "0123456789abcdef".repeat(4),
        blanks: vec![Blank {
            sheet: "Bill of materials".into(),
            what: "price of 13 articles".into(),
            page: "{sheet:bill}".into(),
        }],
        answer: vec![fact("Answer by", "23 Mar 2026"), fact("Answered by (name)", ""), fact("Date", "")],
        deviation: "We deviate from what is written here as follows.".into(),
        deviations: ["Sheet", "Point", "What we make instead"].map(Into::into).to_vec(),
        signed: vec![
            fact("Style", "FC-2041 / HX-7719"),
            fact("Revision", "B of 9 Mar 2026"),
            fact("Digest", "3f9a1c07be"),
            fact("Stage", "Prototype"),
        ],
        parties: lines(&["For the buyer", "For the factory"]),
    }
}

//! What the document of an order says: what stops it, what it is made to, what is in each piece of a lay, bundles, dies.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path as File;

use backtack_core::compute::Shape;
use backtack_core::cutting::figures::same::same;
use backtack_core::geom::{Affine, Path, Point};
use backtack_core::model::{Issued, Namesake};
use backtack_core::orders::figures::LayLine;
use backtack_core::pipeline::order;
use backtack_core::read::{self, Loaded};
use backtack_core::rows::data::{Bundles, Plan, Sheet, Spreading, Status};
use backtack_core::rows::{Cell, traced};

fn cushion() -> Loaded {
    crate::folder(&File::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/floor-cushion")).unwrap()
}

fn sheets(loaded: &Loaded, id: &str) -> Vec<Sheet> {
    let checked = crate::checked(loaded);
    crate::document(&order(loaded, &checked, id).unwrap()).sheets.into_iter().map(|bound| bound.sheet).collect()
}

fn plan(sheets: &[Sheet]) -> &Plan {
    sheets.iter().find_map(|sheet| if let Sheet::Plan(one) = sheet { Some(one) } else { None }).unwrap()
}

fn bundles(sheets: &[Sheet]) -> &Bundles {
    sheets.iter().find_map(|sheet| if let Sheet::Bundles(one) = sheet { Some(one) } else { None }).unwrap()
}

fn spreading(sheets: &[Sheet]) -> &Spreading {
    sheets.iter().find_map(|sheet| if let Sheet::Spreading(one) = sheet { Some(one) } else { None }).unwrap()
}

fn said(status: &Status) -> String {
    let lines = status.stops.iter().chain(&status.made_to).map(|line| line.english());
    std::iter::once(status.title.english()).chain(lines).collect::<Vec<_>>().join("|")
}

const MAT: &str = "[style]\nid = \"X-1\"\nname = \"Mat\"\n[revision]\nid = \"B\"\n[piece.MAT]\noutline = { shape = \"rectangle\", width \
                   = \"300 mm\", height = \"200 mm\" }\nallowance = \"10 mm\"\n";
const ORDER: &str = "[order.one]\nrevision = \"A\"\n[order.one.line.a]\nquantity = 50\n";

/// The first sheet names the sealed revision with its day and its digest, and says whether this is it; one that is not sealed,
/// none that is cited.
#[test]
fn the_revision_an_order_is_made_to() {
    let status = |order: &str, cited: Option<Namesake>| {
        let mut loaded = read::texts(&[("style.toml", MAT), ("orders/one.toml", order)]);
        let cited = cited.map(|one| ("A".to_string(), one));
        loaded.model.issued = Some(Issued { cited: cited.into_iter().collect(), ..Issued::default() });
        said(&plan(&sheets(&loaded, "one")).status)
    };
    let sealed = |changed: &[&str]| Namesake {
        date: "2026-10-01".into(),
        digest: "ab12".into(),
        changed: changed.iter().map(|one| (*one).to_string()).collect(),
        broken: None,
    };
    let same = status(ORDER, Some(sealed(&[])));
    assert!(same.contains("Made to revision A, sealed on 2026-10-01, digest ab12."), "{same}");
    assert!(same.contains("What this document was made from is that revision."), "{same}");
    let other = status(ORDER, Some(sealed(&["pieces.toml", "style.toml"])));
    assert!(other.contains("is not that revision. These files differ: pieces.toml, style.toml."), "{other}");
    let broken = Namesake { broken: Some("it is cut off".into()), ..sealed(&[]) };
    assert!(status(ORDER, Some(broken)).contains("The sealed file of revision A cannot be read"));
    assert!(status(ORDER, None).contains("Revision A is not sealed"));
    assert!(status(&ORDER.replace("revision = \"A\"\n", ""), None).contains("The order names no revision"));
}

/// What must be settled is listed on the first sheet. What only the own edition shows is said to be there, and not what it is.
#[test]
fn what_stops_an_order_is_listed() {
    let status = |style: &str, order: &str| {
        let loaded = read::texts(&[("style.toml", style), ("orders/one.toml", order)]);
        plan(&sheets(&loaded, "one")).status.clone()
    };
    let wrong = status(MAT, &format!("{ORDER}colour = \"red\"\n"));
    assert_eq!(wrong.title.english(), "Not released: do not cut. To be settled first:");
    assert!(said(&wrong).contains("colour"), "{}", said(&wrong));
    let own = format!("{MAT}[fabric.felt]\nprice = {{ value = \"dear 4321\", audience = \"own\" }}\nwidht = \"1 m\"\n");
    let own = said(&status(&own, ORDER));
    assert!(own.contains("widht") && !own.contains("4321"), "{own}");
}

/// The lays that the plan of the cushion's order spreads.
fn lays(loaded: &Loaded) -> (Vec<LayLine>, Vec<String>, BTreeMap<String, f64>) {
    let checked = crate::checked(loaded);
    let edition = order(loaded, &checked, "autumn").unwrap();
    let figures = &edition.seen().figures;
    let plan = figures.orders["autumn"].fabrics.iter().flat_map(|fabric| fabric.plan.known().unwrap().lays.clone());
    let lengths = figures.lays.iter().map(|lay| (lay.title.clone(), lay.length.get().unwrap()));
    (plan.collect(), crate::viewed(&edition, traced), lengths.collect())
}

/// A lay at true scale is as wide as it is long, in mm; white below; it says what it is; and every piece bears the number of its
/// product, each product as often as it has pieces.
#[test]
fn a_lay_at_true_scale() {
    let (_, files, lengths) = lays(&cushion());
    assert!(!files.is_empty() && files.len() == lengths.len(), "{} of {}", files.len(), lengths.len());
    let mut found = BTreeSet::new();
    for (name, text) in files.iter().enumerate() {
        let svg = roxmltree::Document::parse(text).unwrap();
        let root = svg.root_element();
        let side = |key: &str| root.attribute(key).unwrap().strip_suffix("mm").unwrap().parse::<f64>().unwrap();
        let length = lengths.values().find(|length| (**length - side("width")).abs() < 0.001);
        found.insert(length.unwrap_or_else(|| panic!("{name} is {} mm wide", side("width"))).to_bits());
        assert_eq!(root.attribute("viewBox").unwrap(), format!("0 0 {} {}", side("width"), side("height")));
        let ground = root.children().find(|one| one.has_tag_name("path")).unwrap();
        assert_eq!((ground.attribute("fill"), ground.attribute("stroke")), (Some("#fff"), Some("none")));
        let texts: Vec<&str> =
            svg.descendants().filter(|one| one.has_tag_name("text")).filter_map(|one| one.text()).collect();
        let all = texts.join("|");
        for wanted in ["HF-118", "HF-2026-118", "Scale 1:1", "lay "] {
            assert!(all.contains(wanted), "no {wanted} in {name}: {all}");
        }
        let mut products: BTreeMap<u64, u64> = BTreeMap::new();
        for text in &texts {
            let digits: String = text.chars().take_while(char::is_ascii_digit).collect();
            if let Ok(product) = digits.parse() {
                *products.entry(product).or_default() += 1;
            }
        }
        let pieces: BTreeSet<u64> = products.values().copied().collect();
        assert_eq!(pieces.len(), 1, "{name}: {products:?}");
        assert_eq!(products.keys().copied().collect::<Vec<_>>(), (1..=products.len() as u64).collect::<Vec<_>>());
    }
    assert_eq!(found.len(), lengths.values().map(|one| one.to_bits()).collect::<BTreeSet<_>>().len());
}

/// The cells of some rows.
fn texts(rows: &[Vec<Cell>]) -> Vec<Vec<String>> {
    rows.iter().map(|row| row.iter().map(|cell| cell.phrase().english()).collect()).collect()
}

/// From and to of `3–7`, or of `3`.
fn ends(text: &str) -> (u64, u64) {
    let (first, last) = text.split_once('–').unwrap_or((text, text));
    (first.parse().unwrap(), last.parse().unwrap())
}

/// Every bundle of the plan is in the list once, its products and pieces too; each row of the record is a roll of a lay, and
/// all of them together are all plies.
#[test]
fn bundles_and_rolls_are_all_listed() {
    let loaded = cushion();
    let (plan, ..) = lays(&loaded);
    let sheets = sheets(&loaded, "autumn");
    let (mut products, mut pieces, mut count) = (0, 0, 0);
    for group in &bundles(&sheets).groups {
        let mut next = 1;
        for row in texts(&group.rows) {
            let (first, last) = ends(&row[1]);
            assert_eq!(first, next, "{row:?}");
            assert_eq!(ends(&row[2]).1 - ends(&row[2]).0, last - first, "a bundle for each product: {row:?}");
            next = last + 1;
            count += last + 1 - first;
            products += (last + 1 - first) * row[7].parse::<u64>().unwrap();
            pieces += (last + 1 - first) * row[8].parse::<u64>().unwrap();
        }
    }
    assert_eq!(count, plan.iter().map(|lay| lay.bundles.len() as u64).sum::<u64>());
    assert_eq!(products, plan.iter().map(|lay| lay.products).sum::<u64>());
    assert_eq!(pieces, plan.iter().map(|lay| lay.pieces).sum::<u64>());
    let record = spreading(&sheets);
    let rows: Vec<Vec<String>> = record.groups.iter().flat_map(|group| texts(&group.rows)).collect();
    let plies: u64 = rows.iter().filter_map(|row| row[2].parse::<u64>().ok()).sum();
    assert_eq!(plies, plan.iter().map(|lay| lay.plies).sum::<u64>());
    assert_eq!((record.planned.len(), record.asked.len()), (5, 7));
}

fn shape(corners: &[(f64, f64)], way: Affine) -> Shape {
    let points = corners.iter().chain(corners.first()).map(|(x, y)| Point::new(*x, *y));
    let line = Path::polyline(points).transformed(&way);
    let outline = backtack_core::geom::measure::signed_area(&line).abs();
    let point = |(x, y): &(f64, f64)| Point::new(*x, *y);
    let sides = corners.iter().zip(corners.iter().cycle().skip(1));
    let perimeter = sides.map(|(a, b)| point(a).distance(point(b))).sum();
    Shape { paths: vec![line], area: outline, perimeter }
}

/// Turned by 3-4-5 and moved, an L is the same die; mirrored it is not, unless the mirror image will do. An L whose foot is 1 mm
/// longer on one side and shorter on the other is another one.
#[test]
fn dies_of_one_shape() {
    let foot = [(0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (20.0, 20.0), (20.0, 90.0), (0.0, 90.0)];
    let near = [(0.0, 0.0), (61.0, 0.0), (61.0, 20.0), (20.0, 20.0), (20.0, 89.0), (0.0, 89.0)];
    let plain = Affine { xx: 1.0, xy: 0.0, yx: 0.0, yy: 1.0, dx: 0.0, dy: 0.0 };
    let turned = Affine { xx: 0.6, xy: -0.8, yx: 0.8, yy: 0.6, dx: 12.0, dy: -7.0 };
    let image = Affine { xx: -0.6, xy: 0.8, yx: 0.8, yy: 0.6, dx: 3.0, dy: 5.0 };
    let one = shape(&foot, plain);
    assert!(same(&one, &shape(&foot, turned), false) && !same(&one, &shape(&foot, turned), true));
    assert!(same(&one, &shape(&foot, image), true) && !same(&one, &shape(&foot, image), false));
    assert!(!same(&one, &shape(&near, plain), false));
    // A square is its own mirror image, whichever corner comes first.
    let square = [(0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0)];
    let later = [(50.0, 0.0), (50.0, 50.0), (0.0, 50.0), (0.0, 0.0)];
    assert!(same(&shape(&square, plain), &shape(&later, turned), true));
}

/// Two felt squares of one size on two pieces are one die, in whichever size of the product they are cut; one that differs has
/// its own.
#[test]
fn dies_that_serve_for_several_pieces() {
    let style = "[style]\nid = \"X-1\"\nname = \"Mat\"\n[fabric.felt]\nwidth = \"900 mm\"\ncuttable-width = \"880 mm\"\nmass = \
                 \"300 g/m2\"\n[role.top]\n[colourway.a]\ntop = \"felt\"\n[cutting.press]\nmethod = \"die\"\n";
    let piece = |id: &str, width: u32| {
        format!(
            "[piece.{id}]\nmaterial = \"top\"\nallowance = \"0 mm\"\noutline = {{ shape = \"rectangle\", width = \"{width} mm\", \
             height = \"50 mm\" }}\n"
        )
    };
    let text = format!("{style}{}{}{}", piece("A", 50), piece("B", 50), piece("C", 52));
    let loaded = read::texts(&[("style.toml", &text)]);
    let checked = crate::checked(&loaded);
    let dies: Vec<(&str, u64, Option<&str>)> = checked
        .figures
        .dies
        .iter()
        .map(|die| (die.piece.as_str(), die.dies, die.same.as_ref().map(|one| one.piece.as_str())))
        .collect();
    assert_eq!(dies, [("A", 1, None), ("B", 0, Some("A")), ("C", 1, None)]);
}

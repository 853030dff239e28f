//! What sheets say, as rows: what is stated is printed, in the user's order, each limit as one number, and what is open.

use backtack_core::compute::Figures;
use backtack_core::model::Stage;
use backtack_core::pipeline::{Checked, Earlier, edition};
use backtack_core::read::{self, Loaded};
use backtack_core::revision::release::standing;
use backtack_core::rows::data::{Bill, BillArticle, Comments, Confirmation, Cover, Filling, Safety, Samples, Sheet};
use backtack_core::words::Phrase;

/// The sheets of the factory's edition.
pub fn sheets(loaded: &Loaded, checked: &Checked, earlier: &Earlier) -> Vec<Sheet> {
    crate::document(&edition(loaded, checked, earlier).unwrap()).sheets.into_iter().map(|bound| bound.sheet).collect()
}

/// Sheets of a style in one file, and of what is said of samples in another.
struct Printed {
    loaded: Loaded,
    checked: Checked,
    sheets: Vec<Sheet>,
}

fn printed(style: &str, samples: &str) -> Printed {
    printed_since(style, samples, None)
}

/// The same with a revision sealed before.
fn printed_since(style: &str, samples: &str, before: Option<&str>) -> Printed {
    let loaded = read::texts(&[("style.toml", style), ("samples/one.toml", samples)]);
    let found: Vec<String> = loaded.findings.iter().map(|finding| finding.message.english()).collect();
    assert!(found.is_empty(), "{found:#?}");
    let checked = crate::checked(&loaded);
    let last = before.map(|text| read::texts(&[("style.toml", text)]));
    let sheets = sheets(&loaded, &checked, &Earlier { past: Vec::new(), last });
    Printed { loaded, checked, sheets }
}

macro_rules! sheet {
    ($name:ident, $kind:ident) => {
        fn $name(printed: &Printed) -> &$kind {
            let found =
                printed.sheets.iter().find_map(|sheet| if let Sheet::$kind(one) = sheet { Some(one) } else { None });
            found.unwrap()
        }
    };
}

sheet!(bill, Bill);
sheet!(confirmation, Confirmation);
sheet!(cover, Cover);
sheet!(filling, Filling);
sheet!(safety, Safety);
sheet!(samples, Samples);
sheet!(comments, Comments);

/// English with plain spaces.
fn plain(phrase: &Phrase) -> String {
    phrase.english().replace('\u{a0}', " ")
}

fn article<'a>(bill: &'a Bill, name: &str) -> &'a BillArticle {
    let all = bill.groups.iter().flat_map(|group| &group.articles);
    all.into_iter().find(|one| one.item.english().ends_with(name)).unwrap_or_else(|| panic!("no {name}"))
}

/// Sizes and colourways whose alphabetical order is not the user's.
pub const STYLE: &str = r##"
[style]
id = "X-1"
name = "Bear"
kind = "toy"
destinations = ["EU"]
sizes = ["S", "L"]
[revision]
id = "B"
date = 2026-11-20
stage = "pre-production"
[colour.moss]
name = "Moss"
reference = "Swatch 7"
lab = ["44.0", "-9.5", "21.0"]
limit = "1.5"
[colour.clay]
name = "Clay"
lab = ["52.5", "27.0", "29.5"]
[colour.natural]
name = "Undyed"
reference = "As woven"
[role.outer]
name = "Outside"
[role.sew]
name = "Seams"
[colourway.moss]
outer = "felt/moss"
sew = "yarn/moss"
[colourway.clay]
outer = "felt/clay"
sew = "yarn/clay"
[fabric.felt]
name = "Felt"
type = "felt"
composition = "100 % wool"
backing = "acrylic coat"
mass = "300 g/m2 ±5 %"
width = "1500 mm"
cuttable-width = "1450 mm"
efficiency = "80 %"
thickness = "2 mm"
stretch-along = "3 %"
shrinkage-across = "1.5 %"
roll-length = "25 m"
relax = "24 h"
splice = "none"
supplier = "Free"
substitute = "none"
minimum-order = "300 m"
lead-time = "35 d"
colours = ["moss", "clay"]
[thread.yarn]
name = "Yarn"
fineness = "40 tex"
cone = "5000 m"
wastage = "15 %"
colours = ["moss", "clay"]
[trim.eye]
name = "Eyes"
type = "eye"
diameter = { S = "9 mm", L = "15 mm" }
thickness = "3 mm"
mass-each = "1 g ±0.1 g"
pull = "90 N"
use = "2 pc"
[trim.tag]
name = "Tag"
type = "hangtag"
mass-each = "4 g ±0.4 g"
use = "1 pc"
[filling.fibre]
[part.bag]
[stuffing.inside]
part = "bag"
filling = "fibre"
mass = { S = "43 g ±5 %", L = "800 g ±40 g" }
[stitch.lock]
type = "301"
density = "4 st/cm"
thread = "sew"
[stitch.hand]
type = "209"
thread = "sew"
[piece.FRONT]
part = "bag"
outline = { shape = "rectangle", width = "300 mm", height = "200 mm" }
material = "outer"
allowance = "10 mm"
[piece.BACK]
part = "bag"
outline = { shape = "rectangle", width = "300 mm", height = "200 mm" }
material = "outer"
allowance = "10 mm"
[seam.side]
a = "FRONT:sw-se"
b = "BACK:sw-se"
stitch = "lock"
[seam.hand]
name = "Closing by hand"
a = "FRONT:se-ne"
b = "BACK:se-ne"
stitch = "hand"
[point-of-measure.A]
target = "200 mm ±5 mm"
read-to = "1 mm"
critical = true
[point-of-measure.E]
target = "0 mm +2/-0 mm"
read-to = "1 mm"
"##;

#[test]
fn what_differs_by_size_carries_its_size_in_the_order_of_the_sizes() {
    let printed = printed(STYLE, "");
    let bill = bill(&printed);
    let details = plain(&article(bill, "Eyes").details);
    assert!(details.contains("diameter S 9 mm, L 15 mm"), "{details}");
}

#[test]
fn colourways_are_printed_in_the_order_in_which_they_are_written() {
    let printed = printed(STYLE, "");
    assert_eq!(bill(&printed).colourways, ["moss", "clay"]);
    let named: Vec<String> = cover(&printed).colourways.iter().map(|way| way.name.english()).collect();
    assert_eq!(named, ["moss", "clay"]);
    assert_eq!(printed.checked.figures.colourways, ["moss", "clay"]);
}

#[test]
fn every_stated_property_of_what_is_bought_is_printed_once() {
    let printed = printed(STYLE, "");
    let bill = bill(&printed);
    let felt = article(bill, "Felt");
    let details = plain(&felt.details);
    for stated in [
        "felt; 100 % wool",
        "backing: acrylic coat",
        "mass 300 g/m² ±5 %",
        "full width 1500 mm",
        "cuttable width 1450 mm",
        "thickness 2 mm",
        "stretch along 3 %",
        "shrinkage across 1.5 %",
        "roll length 25 m",
        "marker efficiency of an estimate 80 %",
        "splices: none",
        "relaxing time 24 h",
        "substitute: none",
    ] {
        assert_eq!(details.matches(stated).count(), 1, "{stated} in {details}");
    }
    assert_eq!(felt.rows.len(), 1, "moss and clay fill one role and take the same length");
    let colours: Vec<String> = felt.rows[0].colours.iter().map(|cell| cell.phrase().english()).collect();
    assert_eq!(colours, ["Moss", "Clay"]);
    assert!(plain(&article(bill, "Yarn").details).contains("cone 5000 m"));
    let eyes = plain(&article(bill, "Eyes").details);
    assert!(eyes.contains("pull force 90 N") && eyes.contains("thickness 3 mm"), "{eyes}");
}

/// What the owner asks for is beside the article; the factory's columns hold blanks only.
#[test]
fn what_the_owner_asks_for_is_not_filled_in_for_the_factory() {
    let printed = printed(STYLE, "");
    let felt = article(bill(&printed), "Felt");
    assert_eq!(plain(&felt.asked), "minimum order 300 m; lead time 35 d");
    assert!(felt.article.is_blank() && !felt.supplier.is_blank());
    let json = serde_json::to_value(&felt.rows[0]).unwrap();
    let keys: Vec<&str> = json.as_object().unwrap().keys().map(String::as_str).collect();
    assert_eq!(keys, ["colours", "place", "unit", "uses"]);
}

#[test]
fn colours_are_printed_with_their_values_and_limits() {
    let printed = printed(STYLE, "");
    let moss = bill(&printed).colours.iter().find(|row| row.name.english() == "Moss").unwrap();
    assert_eq!(moss.lab.phrase().english(), "L* 44.0, a* -9.5, b* 21.0");
    assert_eq!(moss.limit.phrase().english(), "CIEDE2000 at most 1.50");
    assert_eq!((moss.reference.english(), moss.articles.english()), ("Swatch 7".into(), "Felt; Yarn".into()));
}

#[test]
fn thread_is_printed_net_and_with_wastage_and_what_is_sewn_by_hand_is_said() {
    let printed = printed(STYLE, "");
    let bill = bill(&printed);
    let row = &article(bill, "Yarn").rows[0];
    assert_eq!(row.unit.english(), "m net\nm with waste");
    let total = &printed.checked.figures.thread["S"]["moss"].totals[0];
    let metres = |mm: f64| format!("{:.2}", mm / 1000.0);
    let (net, needed) = (total.net.get().unwrap(), total.needed.get().unwrap());
    assert_eq!(row.uses[0].phrase().english(), format!("{}\n{}", metres(net), metres(needed)));
    assert!((needed / net - 1.15).abs() < 1e-9);
    let notes: Vec<String> = bill.notes.iter().map(|note| note.english()).collect();
    assert!(notes.iter().any(|note| note.contains("Closing by hand (sewn by hand")), "{notes:?}");
}

fn limits_of(figures: &Figures, size: &str) -> String {
    let product = &figures.mass[size]["moss"].product;
    format!("{}–{}", product.lower.get().unwrap(), product.upper.get().unwrap())
}

const SAMPLE: &str = r##"
[sample.one]
kind = "counter sample"
of = "B"
size = "S"
colourway = "moss"
pieces = 1
measured = 2026-11-01
[sample.one.readings]
A = ["206 mm"]
E = ["0 mm"]
[sample.one.masses]
finished = ["82 g"]
[sample.one.masses.stuffings]
inside = ["40.9 g"]
"##;

/// The finished mass is without hangtag and packing on every sheet, in judgement and in figures, and each limit is one number.
#[test]
fn the_finished_mass_and_every_limit_are_the_same_wherever_they_are_printed() {
    let printed = printed(STYLE, SAMPLE);
    let figures = &printed.checked.figures;
    let mass = &figures.mass["S"]["moss"];
    let apart = mass.packed.target.get().unwrap() - mass.product.target.get().unwrap();
    assert!((apart - 4.0).abs() < 1e-9, "the hangtag counts in what is packed alone: {apart}");
    for number in [&mass.product.lower, &mass.product.upper] {
        let tenths = number.get().unwrap() * 10.0;
        assert!((tenths - tenths.round()).abs() < 1e-9, "inward to a tenth: {tenths}");
    }
    let sums = &filling(&printed).sums;
    let product = sums.last().unwrap();
    assert!(product.stuffing.english().contains("without hangtag and packing"), "{}", product.stuffing.english());
    let on_filling = product.masses[0].limits.phrase().english();
    let sheet = samples(&printed);
    let row = |name: &str| sheet.rows.iter().find(|row| row.name.english().contains(name)).unwrap();
    assert_eq!(row("Finished product, without hangtag").limits.phrase().english(), on_filling);
    assert_eq!(limits_of(figures, "S"), on_filling.replace(".0", ""));
    // 43 g ±5 % is 40.85 g to 45.15 g, which a scale reads as 40.9 g to 45.1 g.
    assert_eq!(filling(&printed).rows[0].masses[0].limits.phrase().english(), "40.9–45.1");
    assert_eq!(row("filling").limits.phrase().english(), "40.9–45.1");
    assert_eq!(figures.filling["S"]["moss"].stuffings[0].each.lower.get(), Some(40.9));
}

#[test]
fn what_is_exactly_as_wanted_is_not_on_the_limit() {
    let printed = printed(STYLE, SAMPLE);
    let row = samples(&printed).rows.iter().find(|row| row.number == "E").unwrap();
    assert_eq!((row.verdict.english(), row.readings[0].text.phrase().english()), ("inside".into(), "0".into()));
}

/// 206 mm is outside of 200 mm ±5 mm, and inside of the ±8 mm of the revision it was made to.
#[test]
fn a_sample_is_judged_by_the_revision_it_was_made_to() {
    let before = STYLE.replace("id = \"B\"", "id = \"A\"").replace("200 mm ±5 mm", "200 mm ±8 mm");
    let made_to_a = SAMPLE.replace("of = \"B\"", "of = \"A\"");
    let fact = |sheet: &Samples| {
        let fact = sheet.facts.iter().find(|fact| fact.label.english() == "Judged by the limits of").unwrap();
        fact.value.phrase().english()
    };
    let first = |sheet: &Samples| {
        let row = sheet.rows.iter().find(|row| row.number == "A").unwrap();
        [row.limits.phrase().english(), row.verdict.english(), row.today.phrase().english()]
    };
    let then = printed_since(STYLE, &made_to_a, Some(&before));
    assert_eq!(fact(samples(&then)), "revision A");
    assert_eq!(first(samples(&then)), ["192–208", "inside", "195–205\nabove by up to 1\u{a0}mm"]);
    assert_eq!(samples(&then).today.english(), "Limits of revision B");
    // Where that revision is not at hand the sheet says whose limits judge.
    let alone = printed(STYLE, &made_to_a);
    assert_eq!(fact(samples(&alone)), "revision B");
    assert_eq!(first(samples(&alone)), ["195–205", "above by up to 1\u{a0}mm", ""]);
    let notes: Vec<String> = samples(&alone).notes.iter().map(|note| note.english()).collect();
    assert!(
        notes.iter().any(|note| note.contains("Made to revision A and judged by the limits of revision B")),
        "{notes:?}"
    );
}

const APPROVALS: &str = r##"
[approval.moss]
of = "felt/moss"
kind = "lab dip"
submissions = [{ date = 2026-09-07, verdict = "approved" }]
[approval.eye]
name = "Eyes"
of = "trim.eye"
kind = "trim"
"##;

#[test]
fn the_confirmation_asks_for_what_is_open_and_names_what_is_approved() {
    let printed = printed(STYLE, APPROVALS);
    let required = &confirmation(&printed).required;
    let of = |label: &str| required.iter().find(|one| one.label.english() == label);
    let moss = of("Felt in Moss").unwrap();
    assert!(moss.done && moss.value.english().contains("approved"), "{}", moss.value.english());
    let clay = of("Felt in Clay").unwrap();
    assert_eq!((clay.done, clay.value.english()), (false, "colour approved".into()));
    let eyes = of("Eyes").unwrap();
    assert_eq!((eyes.done, eyes.value.english()), (false, "approval, trim: outstanding".into()));
    let open: Vec<bool> = required.iter().map(|one| one.done).collect();
    assert!(open.is_sorted(), "what is open comes first: {open:?}");
    // A colour without a target and without an approval is as its reference says.
    let undyed = STYLE.replace("outer = \"felt/clay\"", "outer = \"felt/natural\"");
    let undyed = undyed.replacen("colours = [\"moss\", \"clay\"]", "colours = [\"moss\", \"natural\"]", 1);
    let plain = printed_since(&undyed, "", None);
    assert!(confirmation(&plain).required.iter().all(|one| !one.label.english().contains("Undyed")));
}

/// What is in the way of the next stage is the list that `status` shows.
#[test]
fn the_cover_says_what_is_in_the_way_of_the_next_stage() {
    let printed = printed(STYLE, APPROVALS);
    let then = backtack_core::pipeline::ahead(&printed.loaded, &printed.checked, Stage::Bulk);
    let standing = standing(&then);
    assert!(
        standing.len() > printed.checked.findings.iter().filter(|one| standing.iter().any(|then| then == one)).count()
    );
    let obstacles = &cover(&printed).obstacles;
    assert_eq!(obstacles.title.english(), format!("In the way of bulk: {}", standing.len()));
    for (line, finding) in obstacles.list.iter().zip(&standing).take(8) {
        assert_eq!(line.english(), finding.message.clone().capital().english());
    }
    assert_eq!(cover(&printed).document.english(), "Specification for manufacture");
}

fn cautions(style: &str) -> (Vec<String>, String) {
    let printed = printed(style, "");
    let rows: Vec<_> = safety(&printed).columns.iter().flatten().collect();
    let titles = rows.iter().map(|row| row.title.english()).collect();
    let all = rows.iter().map(|row| format!("{} {}\n", row.text.english(), row.follows.english()));
    (titles, all.collect())
}

#[test]
fn cautions_fit_what_the_product_is_and_where_it_is_sold() {
    let (titles, text) = cautions(STYLE);
    assert!(titles.iter().any(|title| title == "Small parts") && text.contains("70 N"), "{titles:?}");
    assert!(!text.contains("CFR") && !text.contains("Rhode Island") && !text.contains("lbf"), "{text}");
    assert!(!text.contains("from memory"), "{text}");
    assert!(text.contains("For the laboratory: does EN 71-1, 5.2"), "{text}");
    let american = STYLE.replace("destinations = [\"EU\"]", "destinations = [\"EU\", \"US\"]");
    assert!(cautions(&american).1.contains("16 CFR 1500.51 (10 lbf)"));
    let cushion = STYLE.replace("kind = \"toy\"", "kind = \"household textile\"");
    let (titles, text) = cautions(&cushion);
    assert!(!text.contains("soft-filled toy") && !titles.iter().any(|title| title == "Small parts"), "{text}");
    assert!(!titles.iter().any(|title| title == "Fire safety of furnishings"));
    let british = cushion.replace("destinations = [\"EU\"]", "destinations = [\"GB\"]");
    assert!(cautions(&british).0.iter().any(|title| title == "Fire safety of furnishings"));
}

#[test]
fn a_comment_has_one_state_on_every_sheet() {
    let told = "[comment.ears]\nabout = \"piece.FRONT\"\naction = \"must change\"\nstate = \"answered\"\ntext = \"Longer\"\n\
                answer = \"Done\"\nanswered-in = \"B\"\n[comment.nose]\nabout = \"piece.BACK\"\naction = \"should change\"\n\
                text = \"Lower\"\n";
    let before = STYLE.replace("id = \"B\"", "id = \"A\"").replace("width = \"300 mm\"", "width = \"290 mm\"");
    let printed = printed_since(STYLE, told, Some(&before));
    let state = |id: &str| {
        let row = comments(&printed).rows.iter().find(|row| row.id == id).unwrap();
        row.state.english()
    };
    let changes =
        printed.sheets.iter().find_map(|sheet| if let Sheet::Changes(one) = sheet { Some(one) } else { None });
    let answers: Vec<Vec<String>> =
        changes.unwrap().answers.iter().map(|row| row.iter().map(|cell| cell.english()).collect()).collect();
    for id in ["ears", "nose"] {
        let row = answers.iter().find(|row| row[0] == id).unwrap();
        assert_eq!(row.last(), Some(&state(id)), "{row:?}");
    }
}

/// A cell of the assortment that is not made has no figures, no row on a sheet, and no order.
#[test]
fn what_is_not_made_is_said_and_not_computed() {
    let style = STYLE.replace("sizes = [\"S\", \"L\"]", "sizes = [\"S\", \"L\"]\nnot-made = [\"L/moss\"]");
    let order = "[order.one.line.a]\nsize = \"L\"\ncolourway = \"moss\"\nquantity = 10\n\
                 [order.one.line.b]\nsize = \"L\"\ncolourway = \"clay\"\nquantity = 20\n";
    let loaded = read::texts(&[("style.toml", &style), ("orders/one.toml", order)]);
    let checked = crate::checked(&loaded);
    let sheets = sheets(&loaded, &checked, &Earlier::default());
    let printed = Printed { loaded, checked, sheets };
    let cells: Vec<Vec<String>> = cover(&printed)
        .colourways
        .iter()
        .map(|way| way.cells.iter().map(|cell| cell.phrase().english()).collect())
        .collect();
    assert_eq!(cells, [["yes", "not made"], ["yes", "yes"]]);
    let figures = &printed.checked.figures;
    assert!(!figures.mass["L"].contains_key("moss") && figures.mass["L"].contains_key("clay"));
    let products = &figures.orders["one"].products;
    assert_eq!(products["L"].keys().collect::<Vec<_>>(), ["clay"]);
    let found: Vec<String> = printed.checked.findings.iter().map(|one| one.message.english()).collect();
    assert!(found.iter().any(|text| text.contains("is for L/moss, which is not made")), "{found:#?}");
    let uses: Vec<Vec<String>> = article(bill(&printed), "Felt")
        .rows
        .iter()
        .map(|row| row.uses.iter().map(|cell| cell.phrase().english()).collect())
        .collect();
    let large: Vec<bool> = uses.iter().map(|uses| uses[1] == "–").collect();
    assert_eq!(large, [false, true], "clay, then moss: {uses:?}");
    let sums = filling(&printed).sums.last().unwrap();
    assert!(sums.masses.iter().all(|mass| !mass.target.is_blank()));
    let wrong = read::texts(&[("style.toml", &STYLE.replace("sizes = [", "not-made = [\"moss/L\"]\nsizes = ["))]);
    let found: Vec<String> = wrong.findings.iter().map(|one| one.message.english()).collect();
    assert_eq!(found, ["`moss/L` is no size in a colourway of the style"]);
}

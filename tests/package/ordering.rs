//! Orders and kept lays through the command line.

use backtack::render::guard::SECONDS;
use backtack_core::pipeline::{self, Source};
use std::path::Path;

use backtack::render::lint::page_text;
use backtack_core::read::{self, Loaded};

use crate::folder::Scratch;
use crate::pdf::Pdf;

const ORDER: &str = r#"
[order.first]
number = "A-118"
cut-extra = "2 %"
over = "5 %"
[order.first.line.a]
size = "one"
colourway = "plain"
quantity = 40
samples = 1
tests = 1
"#;
/// A price that only the own edition shows, on the canvas of the new bag.
const PRICE: &str = "price = { value = \"4321.50 EUR/m\", audience = \"own\" }\ncuttable-width";

fn bag(scratch: &Scratch) {
    scratch.bag("[severity]\nno-view = \"off\"\n");
    scratch.write("bag/orders/first.toml", ORDER);
}

#[test]
fn an_order_has_a_document_of_its_own() {
    let scratch = Scratch::new();
    bag(&scratch);
    let materials = String::from_utf8(scratch.read("bag/materials.toml")).unwrap();
    assert!(materials.contains("\ncuttable-width"), "{materials}");
    scratch.write("bag/materials.toml", materials.replacen("cuttable-width", PRICE, 1));
    let ran = scratch.run(&["build", "bag", "--order", "first"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let pdf = scratch.read("bag/out/ST-01-A-order-first.pdf");
    let figures = String::from_utf8(scratch.read("bag/out/order-first.json")).unwrap();
    let value: serde_json::Value = serde_json::from_str(&figures).unwrap();
    let order = &value["orders"]["first"];
    assert_eq!(order["total"], 40);
    // ceil(40 × 1.02) + 1 + 1.
    assert_eq!(order["products"]["one"]["plain"]["cut"], 43);
    let plan = &order["fabrics"][0]["plan"];
    assert_eq!(plan["estimate"], false, "{plan}");
    // Nothing of the price is in the document: neither in the figures nor in the attached files.
    let attached = Pdf::of(&pdf).attachments();
    for one in attached.values() {
        assert!(!String::from_utf8_lossy(&one.bytes).contains("4321.50"), "the price is shown");
    }
    assert!(!figures.contains("4321.50"));
    // The own edition has it on paper, in its figures and on the terminal: so many metres at that price.
    let own = String::from_utf8(scratch.read("bag/out/own/order-first.json")).unwrap();
    let own: serde_json::Value = serde_json::from_str(&own).unwrap();
    let own = &own["orders"]["first"];
    let of_canvas = |one: &&serde_json::Value| one["steps"]["price"]["each"] == "4321.50 EUR/m";
    let canvas = own["material"].as_array().unwrap().iter().find(of_canvas).unwrap();
    let total = canvas["steps"]["bought"].as_f64().unwrap() / 1000.0 * 4321.5;
    assert_eq!(canvas["steps"]["price"]["total"].as_f64().unwrap(), total);
    assert_eq!(own["cost"], serde_json::json!([{ "currency": "EUR", "total": total }]));
    assert!(ran.err.contains(&format!("in all: {total:.2} EUR")), "{ran:?}");
    assert!(ran.out.contains("own/ST-01-A-order-first.pdf"), "{ran:?}");
    let attached = Pdf::of(&scratch.read("bag/out/own/ST-01-A-order-first.pdf")).attachments();
    assert!(attached.values().any(|one| String::from_utf8_lossy(&one.bytes).contains("4321.50 EUR/m")));
    // The style's own package says nothing of the order.
    let style = Pdf::of(&scratch.read("bag/out/ST-01-A.pdf")).attachments();
    for one in style.values() {
        let text = String::from_utf8_lossy(&one.bytes);
        assert!(!text.contains("A-118") && !text.contains("order first"), "the order is in the package");
    }
}

#[test]
fn an_order_that_is_not_there_is_one_line() {
    let scratch = Scratch::new();
    bag(&scratch);
    let ran = scratch.run(&["build", "bag", "--order", "second"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("there is no order second; there are: first"), "{ran:?}");
}

/// What stands in the way of the style or of the order itself marks the order's document, as it marks the package.
#[test]
fn an_order_of_an_unreleased_style_says_so() {
    let mark = |more: &str, order: &str| {
        let scratch = Scratch::new();
        scratch.bag(&format!("[severity]\nno-view = \"off\"\n{more}"));
        scratch.write("bag/orders/first.toml", order);
        scratch.write("bag/orders/other.toml", "[order.other]\nnumber = \"B-1\"\ncolour = \"red\"\n");
        let ran = scratch.run(&["build", "bag", "--order", "first"]);
        assert_eq!(ran.code, 1, "{ran:?}");
        let loaded = pipeline::read(&Source::Folder(&scratch.path("bag")), &Default::default()).unwrap();
        let checked = pipeline::check(&loaded, &Default::default(), false);
        let made = backtack::render_order(&pipeline::order(&loaded, &checked, "first").unwrap(), SECONDS).unwrap();
        let text = page_text(&made.document.pages());
        let pages: Vec<String> = text.split("== page ").skip(1).map(str::to_string).collect();
        assert!(!pages.is_empty(), "{text}");
        pages
    };
    // A must of another order is not its own.
    assert!(mark("", ORDER).iter().all(|page| !page.contains("Not released")));
    let style = mark("[fabric.felt]\nwidht = \"900 mm\"\n", ORDER);
    assert!(style.iter().all(|page| page.contains("Not released: 1 finding must be settled")), "{style:?}");
    let own = mark("", &ORDER.replacen("[order.first]\n", "[order.first]\nshade = \"red\"\n", 1));
    assert!(own.iter().all(|page| page.contains("Not released: 1 finding must be settled")), "{own:?}");
    let both = mark(
        "[fabric.felt]\nwidht = \"900 mm\"\n",
        &ORDER.replacen("[order.first]\n", "[order.first]\nshade = \"red\"\n", 1),
    );
    assert!(both.iter().all(|page| page.contains("Not released: 2 findings must be settled")), "{both:?}");
}

/// A lock that cannot be read keeps lays somebody may want back: nothing is written over it.
#[test]
fn an_unreadable_lock_is_never_written_over() {
    let scratch = Scratch::new();
    bag(&scratch);
    assert_eq!(scratch.run(&["build", "bag"]).code, 0);
    let kept = String::from_utf8(scratch.read("bag/backtack.lock")).unwrap();
    let conflict = kept.replacen("[[lay]]", "<<<<<<< ours\n[[lay]]", 1);
    let entry = kept.replacen("length = \"", "length = \"about ", 1);
    let version = kept.replacen("format = 1", "format = 2", 1);
    for broken in [conflict.as_str(), entry.as_str(), version.as_str(), "", "\u{0}"] {
        scratch.write("bag/backtack.lock", broken);
        let before = scratch.files();
        let commands: [&[&str]; 4] = [
            &["build", "bag"],
            &["build", "bag", "--order", "first"],
            &["lay", "bag", "--effort", "quick"],
            &["seal", "bag", "A", "--by", "Maren Oake", "--reason", "x"],
        ];
        for command in commands {
            let ran = scratch.run(command);
            assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{command:?}: {ran:?}");
            let last = ran.err.lines().last().unwrap();
            assert!(last.contains("backtack.lock cannot be read") && last.contains("take the file back"), "{ran:?}");
            assert!(scratch.read("bag/backtack.lock") == broken.as_bytes(), "{command:?} writes over {broken}");
        }
        assert_eq!(scratch.files(), before, "nothing is written");
        assert!(scratch.run(&["check", "bag"]).out.contains("should[broken-lock]"));
    }
    // Deleted, every lay is found again; taken back, the kept ones serve.
    std::fs::remove_file(scratch.path("bag/backtack.lock")).unwrap();
    assert_eq!(scratch.run(&["build", "bag"]).code, 0);
    scratch.write("bag/backtack.lock", &kept);
    assert_eq!(scratch.run(&["build", "bag"]).code, 0);
    assert!(scratch.read("bag/backtack.lock") == kept.as_bytes());
}

/// Every file of an example, its texts changed.
fn puffin(change: impl Fn(&str) -> String) -> Loaded {
    fn all(folder: &Path, name: &str, files: &mut Vec<(String, Vec<u8>)>) {
        for entry in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap()) {
            let own = format!("{name}{}", entry.file_name().to_str().unwrap());
            match entry.path() {
                path if path.is_file() => files.push((own, std::fs::read(path).unwrap())),
                path if own == "revisions" || own == "out" => assert!(path.is_dir()),
                path => all(&path, &format!("{own}/"), files),
            }
        }
    }
    let mut files = Vec::new();
    all(&Path::new(env!("CARGO_MANIFEST_DIR")).join("spec-examples/puffin"), "", &mut files);
    for (name, bytes) in files.iter_mut().filter(|(name, _)| name.ends_with(".toml")) {
        *bytes = change(std::str::from_utf8(bytes).unwrap_or_else(|_| panic!("{name} is no text"))).into_bytes();
    }
    let files: Vec<(&str, &[u8])> = files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())).collect();
    read::files(&files)
}

/// Whatever a fabric is called, and whether what it is cut for is known or not, the order is typeset.
#[test]
fn an_order_is_typeset_whatever_a_fabric_is_called() {
    let long = ["Cambric of ".repeat(40), "x".repeat(300), "a b ".repeat(200)];
    let names = ["xM4801".to_string()].into_iter().chain(long);
    let renamed =
        names.map(|name| puffin(|text| text.replace("name = \"Down-proof cambric\"", &format!("name = \"{name}\""))));
    let elsewhere = puffin(|text| text.replace("[fabric.cambric]", "[fabric.xM4801]"));
    assert!(!elsewhere.model.articles.contains_key("cambric"));
    let first = puffin(|text| text.replace("material = \"cambric\"", "material = \"aM4801\""));
    let both = puffin(|text| text.replace("[fabric.cambric]", "[fabric.xM4801]").replace("\"cambric\"", "\"xM4801\""));
    for loaded in renamed.chain([elsewhere, first, both]) {
        let checked = pipeline::check(&loaded, &Default::default(), false);
        let made = pipeline::order(&loaded, &checked, "spring").unwrap();
        let made = backtack::render_order(&made, SECONDS).unwrap_or_else(|error| panic!("{error}"));
        assert!(made.pdf.starts_with(b"%PDF-") && made.document.pages().len() >= 3);
    }
}

/// What is kept serves the next build; a wider panel is told with both lengths; a longer lay is not taken unasked.
#[test]
fn kept_lays_do_not_move_by_themselves() {
    let scratch = Scratch::new();
    scratch.bag("[severity]\nno-view = \"off\"\n");
    let first = scratch.run(&["build", "bag"]);
    assert!(first.err.contains("kept in backtack.lock"), "{first:?}");
    let kept = scratch.read("bag/backtack.lock");
    let pdf = scratch.read("bag/out/ST-01-A.pdf");
    let again = scratch.run(&["build", "bag"]);
    assert_eq!((again.code, again.err.as_str()), (0, ""));
    assert!(scratch.read("bag/backtack.lock") == kept && scratch.read("bag/out/ST-01-A.pdf") == pdf);
    // Outside and lining are cut alike and share a lay.
    for name in ["bag/pieces.toml", "bag/lining.toml"] {
        let pieces = String::from_utf8(scratch.read(name)).unwrap();
        scratch.write(name, pieces.replacen("allowance = \"10 mm\"", "allowance = \"12 mm\"", 1));
    }
    let checked = scratch.run(&["check", "bag"]);
    assert!(checked.out.contains("should[kept-lay-no-longer-fits]"), "{checked:?}");
    let moved = scratch.run(&["build", "bag"]);
    assert!(moved.err.contains("no longer fits, now"), "{moved:?}");
    // A quick look rarely finds a better lay than a long search, and never replaces it by a longer one.
    let long = scratch.run(&["lay", "bag", "--effort", "normal"]);
    assert_eq!(long.code, 0, "{long:?}");
    let before = scratch.read("bag/backtack.lock");
    let quick = scratch.run(&["lay", "bag", "--effort", "quick"]);
    let after = String::from_utf8(scratch.read("bag/backtack.lock")).unwrap();
    let length = |text: &str| -> f64 {
        let line = text.lines().find(|line| line.starts_with("length")).unwrap();
        line.trim_start_matches("length = \"").trim_end_matches(" mm\"").parse().unwrap()
    };
    assert!(length(&after) <= length(&String::from_utf8(before).unwrap()), "{quick:?}");
}

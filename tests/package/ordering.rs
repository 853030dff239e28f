//! Orders and kept lays through the command line.

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
        assert!(!String::from_utf8_lossy(&one.bytes).contains("4321"), "the price is shown");
    }
    assert!(!figures.contains("4321"));
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
    let pieces = String::from_utf8(scratch.read("bag/pieces.toml")).unwrap();
    scratch.write("bag/pieces.toml", pieces.replacen("allowance = \"10 mm\"", "allowance = \"12 mm\"", 1));
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

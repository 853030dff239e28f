//! Allowances as the sheets print them: by size, of each side of a seam, of the edge that is sewn.

use backtack_core::diag::Levels;
use backtack_core::read;
use serde_json::Value;

const STYLE: &str = r#"
[style]
id = "E-1"
name = "Invented cover"
sizes = ["L", "S"]
[part.p]
form = "flat"
[fabric.c]
[thread.t]
[piece.P]
part = "p"
material = "c"
copies = ["l", "r mirrored"]
outline = { shape = "polygon", corners = [["e", "0 mm", "0 mm"], ["f", "80 mm", "0 mm"], ["f1", "120 mm", "20 mm"], ["r", "120 mm", "90 mm"], ["s", "0 mm", "90 mm"]] }
allowance = { all = "5 mm", "s-r" = { S = "6 mm", L = "8 mm" }, "e-f" = "7 mm" }
[piece.Q]
part = "p"
material = "c"
outline = { shape = "rectangle", width = "120 mm", height = "70 mm" }
allowance = { S = "5 mm", L = "9 mm" }
[seam.top]
a = "P.l:r-s"
b = "P.r:r-s"
[seam.low]
a = "P.l:f-f1"
b = "P.r:f-f1"
[seam.side]
a = "P.l:f1-r"
between = ["P.r:f1-r"]
b = "Q:sw-nw"
[work]
order = ["top", "low", "side"]
stitch = { type = "301", density = "4 st/cm", thread = "t" }
"#;

/// Every object of the view data that has an allowance: what it is called, and its allowance.
fn printed(value: &Value, all: &mut Vec<(String, String)>) {
    match value {
        Value::Array(list) => list.iter().for_each(|one| printed(one, all)),
        Value::Object(fields) => {
            let text = |key: &str| fields.get(key).and_then(Value::as_str);
            if let (Some(name), Some(allowance)) = (text("code").or(text("title")), text("allowance")) {
                all.push((name.to_owned(), allowance.to_owned()));
            }
            // What a stage says once, and where a step differs from it.
            if let (Some(label), Some(value)) = (text("label"), text("value")) {
                all.push((label.to_owned(), value.to_owned()));
            }
            fields.values().for_each(|one| printed(one, all));
        }
        _ => {}
    }
}

#[test]
fn an_allowance_is_printed_by_size_and_side() {
    let loaded = read::texts(&[("style.toml", STYLE)]);
    let checked = backtack_core::pipeline::check(&loaded, &Levels::new(), false);
    let job = backtack::job(&loaded, &checked).expect("the view data can be written");
    let data: Value = serde_json::from_slice(&job.files["data.json"]).expect("the view data is JSON");
    let mut all = Vec::new();
    printed(&data, &mut all);
    let of = |name: &str| -> Vec<&str> {
        all.iter().filter(|(one, _)| one == name).map(|(_, text)| text.as_str()).collect()
    };
    assert_eq!(of("P"), ["5, s-r L 8, S 6, e-f 7"], "{all:?}");
    assert_eq!(of("Q"), ["L 9, S 5"]);
    // The edge r-s is written s-r; f-f1 is not e-f, and no part of its name.
    let sewn = of("Seam allowance");
    for wanted in ["L 8 mm, S 6 mm", "5 mm", "ply 1: 5 mm\nply 3: L 9 mm, S 5 mm"] {
        assert!(sewn.contains(&wanted), "{wanted}: {sewn:?}");
    }
}

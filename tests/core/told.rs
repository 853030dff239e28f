//! What the sheets of the examples tell in words: what is net, what is none, in which unit, and what is known.

use std::path::Path;

use backtack_core::compute::Figures;
use backtack_core::read;
use backtack_core::rows::data::{Measurements, Sheet};

fn example(name: &str) -> Vec<Sheet> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(name);
    let loaded = crate::folder(&folder).unwrap();
    crate::sheets(&loaded, &crate::checked(&loaded))
}

macro_rules! sheet {
    ($name:ident, $kind:ident) => {
        fn $name(sheets: &[Sheet]) -> &backtack_core::rows::data::$kind {
            sheets.iter().find_map(|sheet| if let Sheet::$kind(one) = sheet { Some(one) } else { None }).unwrap()
        }
    };
}
sheet!(bill, Bill);
sheet!(cover, Cover);
sheet!(filling, Filling);
sheet!(measurements, Measurements);
sheet!(safety, Safety);
sheet!(samples, Samples);

/// The target of a point and how it is read, with plain spaces.
fn point(sheet: &Measurements, name: &str) -> [String; 3] {
    let found = sheet.rows.iter().find(|row| row.name.english().contains(name)).unwrap();
    let limits = &found.limits[0];
    [limits.target.phrase(), limits.limits.phrase(), found.how.clone()].map(|one| one.english().replace('\u{a0}', " "))
}

#[test]
fn what_a_filling_has_none_of_is_named() {
    let puffin = example("puffin");
    let facts: Vec<String> = filling(&puffin).facts.iter().map(|fact| fact.value.phrase().english()).collect();
    assert!(facts.iter().any(|fact| fact.contains("; recycled") && fact.contains(": none")), "{facts:?}");
    let notes: Vec<String> = filling(&puffin).notes.iter().map(|note| note.english()).collect();
    assert!(notes.iter().all(|note| !note.contains(".json")), "{notes:?}");
}

/// A head names a unit only if every row below it has that one.
#[test]
fn the_unit_of_measurements_is_where_it_holds() {
    let ball = example("juggling-ball");
    let sheet = measurements(&ball);
    assert_eq!(sheet.unit, "");
    let [target, limits, how] = point(sheet, "Mass of the ball");
    assert_eq!((target.as_str(), limits.as_str()), ("88.0 g", "84.0–92.0"));
    assert!(how.contains(" · read to 0.5 g"), "{how}");
    let [girth, _, how] = point(sheet, "Girth over the poles");
    assert!(girth == "204 mm" && !how.contains("read to"), "{girth} {how}");
    let conditions: Vec<String> = sheet.conditions.iter().map(|one| one.english().replace('\u{a0}', " ")).collect();
    assert!(conditions.iter().all(|one| !one.contains(" or ")), "{conditions:?}");
    assert!(conditions.contains(&"Read to 1 mm where a point names no other step.".to_string()), "{conditions:?}");
    assert!(conditions.contains(&"Measured in the state that each point names.".to_string()), "{conditions:?}");
}

#[test]
fn use_is_net_and_says_what_is_not_in_it() {
    for name in ["puffin", "floor-cushion"] {
        let sheets = example(name);
        let bill = bill(&sheets);
        assert!(
            bill.head
                .lead
                .english()
                .starts_with("What one product takes; the unit says whether a length is net or with waste.")
        );
        let about = |note: &String| note.contains("faults, shrinkage and loss in cutting are not in it");
        assert_eq!(bill.notes.iter().map(|note| note.english()).filter(about).count(), 1, "{name}");
        let details: Vec<String> =
            bill.groups.iter().flat_map(|group| &group.articles).map(|one| one.details.english()).collect();
        let shares = || details.iter().filter(|text| text.contains("marker efficiency"));
        assert!(
            shares().count() > 0 && shares().all(|text| text.contains("marker efficiency of an estimate")),
            "{name}"
        );
    }
}

#[test]
fn the_cover_says_what_is_known_and_cautions_hold_for_every_product() {
    let cushion = example("floor-cushion");
    let obstacles = &cover(&cushion).obstacles;
    assert!(obstacles.title.english().starts_with("No finding is in the way of"), "{obstacles:?}");
    let confirm = obstacles.confirm.english();
    assert!(confirm.starts_with("To be confirmed or approved first: 9 (page"), "{confirm}");
    let told = serde_json::to_string(safety(&cushion)).unwrap();
    assert!(told.contains("factories for sewn products") && !told.contains("toy factories"), "{told}");
}

/// A point of measure that weighs the finished product has its only limits; what the materials add up to has none of its own.
#[test]
fn the_stated_mass_of_the_product_is_the_only_one_with_limits() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/puffin");
    let files = |sample: &str| {
        let mut files = Vec::new();
        for name in ["style", "materials", "pieces", "seams", "measurements", "parties", "cutting"] {
            let name = format!("{name}.toml");
            files.push((name.clone(), std::fs::read(folder.join(&name)).unwrap()));
        }
        for size in ["S", "L"] {
            let name = format!("outlines/{size}.svg");
            files.push((name.clone(), std::fs::read(folder.join(&name)).unwrap()));
        }
        files.push(("samples/one.toml".to_string(), sample.as_bytes().to_vec()));
        files
    };
    let sample = "[sample.one]\nkind = \"counter sample\"\nsize = \"S\"\npieces = 1\n[sample.one.masses]\nfinished = [\"152 g\"]\n";
    let files = files(sample);
    let list: Vec<(&str, &[u8])> = files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())).collect();
    let loaded = read::files(&list);
    let checked = crate::checked(&loaded);
    let figures: &Figures = &checked.figures;
    let (point, _) = loaded.model.measures.iter().find(|(_, one)| one.entry.title().contains("Mass")).unwrap();
    // 160 g ±max(8 g, 5 %): 8 g are 5 % of it.
    for mass in figures.mass["S"].values() {
        let limits = [&mass.product.target, &mass.product.lower, &mass.product.upper].map(|one| one.get().unwrap());
        assert_eq!((limits, mass.stated.as_ref()), ([160.0, 152.0, 168.0], Some(point)));
        assert!((mass.computed.get().unwrap() - 160.0).abs() > 0.0001, "what the materials add up to stays beside it");
    }
    let sheets = crate::sheets(&loaded, &checked);
    let product = filling(&sheets).sums.last().unwrap();
    assert_eq!(product.how.english(), format!("as stated at point of measure {point}"));
    let printed = [product.masses[0].target.phrase(), product.masses[0].limits.phrase()].map(|one| one.english());
    assert_eq!(printed, ["160", "152–168"]);
    let row = samples(&sheets).rows.iter().find(|row| row.name.english().contains("Finished product")).unwrap();
    assert!(row.name.english().ends_with(&format!("as stated at {point}")), "{}", row.name.english());
    assert_eq!((row.limits.phrase().english(), row.verdict.english()), ("152–168".into(), "on the limit".into()));
}

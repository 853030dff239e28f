//! The products that `new` starts: each is complete but for what only its owner knows, and shows what its kind needs.

use std::collections::BTreeMap;
use std::path::Path;

use backtack_core::diag::{Findings, Severity};
use backtack_core::model::{Model, Stage};
use backtack_core::pipeline::{Checked, ahead};
use backtack_core::read::Loaded;

/// Every file of a kind by its path, with a name in it.
pub fn files(kind: &str) -> BTreeMap<String, String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../src/cli/new").join(kind);
    let mut found = BTreeMap::new();
    for folder in ["", "outlines/"] {
        for entry in std::fs::read_dir(root.join(folder)).into_iter().flatten().map(Result::unwrap) {
            if entry.path().is_file() {
                let text = std::fs::read_to_string(entry.path()).unwrap().replace("{name}", "\"A name\"");
                found.insert(format!("{folder}{}", entry.file_name().to_string_lossy()), text);
            }
        }
    }
    assert!(found.len() >= 5, "{found:?}");
    found
}

fn read(files: &BTreeMap<String, String>) -> (Loaded, Checked) {
    let loaded = crate::closure("", files.iter().map(|(path, text)| (path.as_str(), text.as_bytes())));
    let checked = crate::checked(&loaded);
    (loaded, checked)
}

/// Severity and code of each finding.
fn told(findings: &Findings) -> Vec<String> {
    findings.iter().map(|finding| format!("{} {}", finding.severity.word(), finding.rule.code)).collect()
}

/// A kind asks for texts and a picture, which only the owner has; later stages ask for the texts before all else. Without a
/// placeholder nothing but the picture is left. What else is there is looked at by the caller.
fn complete(kind: &str, texts: usize) -> Model {
    let files = files(kind);
    let (loaded, checked) = read(&files);
    assert_eq!(told(&checked.findings), ["should no-view", "should placeholder-left"], "{kind}");
    let left = checked.findings.iter().find(|finding| finding.rule.code == "placeholder-left").unwrap();
    assert_eq!(left.places.len(), texts, "{kind}");
    assert!(checked.firm.iter().any(|one| one.rule.code == "placeholder-left" && one.severity == Severity::Must));
    for stage in [Stage::CounterSample, Stage::PreProduction, Stage::Bulk] {
        let then = ahead(&loaded, &checked, stage);
        assert!(told(&then).contains(&"must placeholder-left".to_string()), "{kind}: {:?}", told(&then));
    }
    let owned = files.iter().map(|(path, text)| (path.clone(), text.replace(" (change me)", ""))).collect();
    let (loaded, checked) = read(&owned);
    assert_eq!(told(&checked.findings), ["should no-view"], "{kind}");
    assert_eq!(told(&ahead(&loaded, &checked, Stage::CounterSample)), ["should no-view"], "{kind}");
    loaded.model
}

/// The steps that do this.
fn steps<'a>(model: &'a Model, what: &str) -> Vec<&'a str> {
    let all = model.steps.iter();
    let named = all.filter(|(_, step)| step.word.as_ref().is_some_and(|word| word.value == what));
    named.map(|(id, _)| id.as_str()).collect()
}

#[test]
fn a_soft_toy_has_limbs_facings_and_a_pair_and_is_turned_and_filled() {
    let model = complete("soft-toy", 6);
    let pairs: Vec<&str> =
        model.parts.iter().filter(|(_, part)| part.uses.len() == 2).map(|(id, _)| id.as_str()).collect();
    assert_eq!(pairs, ["ear", "foot"]);
    let catching = model.joints.values().filter(|joint| joint.between.len() == 2 && joint.mirrored.is_some()).count();
    assert_eq!(catching, 2);
    assert!(model.pieces.contains_key("FACING"));
    assert_eq!(steps(&model, "turn"), ["turn_body", "turn_ear", "turn_foot"]);
    assert_eq!(steps(&model, "fill"), ["fill_body", "fill_foot"]);
}

#[test]
fn a_cushion_has_a_zip_and_a_filled_inner() {
    let model = complete("cushion", 4);
    let closed: Vec<&str> = model
        .joints
        .values()
        .filter_map(|joint| joint.close.as_ref()?.by.as_ref()?.known())
        .map(String::as_str)
        .collect();
    assert_eq!(closed, ["machine", "zip"]);
    assert_eq!((steps(&model, "insert"), steps(&model, "fill")), (vec!["insert"], vec!["fill_inner"]));
}

#[test]
fn a_bag_has_a_lining_handles_and_an_opening() {
    let model = complete("bag", 4);
    assert!(model.pieces.contains_key("LINING") && model.steps.contains_key("handles"));
    assert_eq!(model.joints.values().filter(|joint| joint.close.is_some()).count(), 1);
    assert_eq!(steps(&model, "turn"), ["turn"]);
}

#[test]
fn a_ball_has_gores_and_is_filled() {
    let model = complete("ball", 6);
    let files = files("ball");
    assert_eq!(files["pieces.toml"].matches("shape = \"gore\"").count(), model.pieces.len());
    assert_eq!((steps(&model, "turn"), steps(&model, "fill")), (vec!["turn"], vec!["fill"]));
}

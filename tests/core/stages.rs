//! The order of work on the sheets: its stages, how each step is stitched, and where it is.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use backtack_core::model::{EdgeFinishKind, Model, StitchUse};
use backtack_core::pipeline::Checked;
use backtack_core::rows::data::{Sheet, Step, Stretch};
use backtack_core::words::number::quantity;

const EXAMPLES: [&str; 3] = ["puffin", "floor-cushion", "juggling-ball"];

/// Runs on the stages of an example.
fn with<T>(example: &str, run: impl FnOnce(&Model, &Checked, &[Stretch]) -> T) -> T {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(example);
    let loaded = crate::folder(&folder).unwrap();
    let checked = crate::checked(&loaded);
    let sheets = crate::sheets(&loaded, &checked);
    let sheet = sheets.iter().find_map(|sheet| if let Sheet::Construction(one) = sheet { Some(one) } else { None });
    run(&loaded.model, &checked, &sheet.unwrap().stages)
}

/// What follows from a stage and its step, by the label.
fn follows(stage: &Stretch, step: &Step, label: &str) -> String {
    let found = step.differs.iter().chain(&stage.same).find(|fact| fact.label.english() == label);
    found.map_or(String::new(), |fact| fact.value.phrase().english())
}

/// What the model says that a step is stitched with; nothing where it is not.
fn stitch<'m>(model: &'m Model, id: &str) -> Option<&'m StitchUse> {
    let finish = model.edge_finishes.get(id);
    let finish = finish.filter(|one| one.kind.as_ref().is_none_or(|kind| kind.value != EdgeFinishKind::Raw));
    let own = (model.joints.get(id).map(|one| &one.stitch))
        .or(finish.map(|one| &one.stitch))
        .or(model.topstitches.get(id).map(|one| &one.stitch))
        .or(model.attaches.get(id).map(|one| &one.stitch))?;
    Some(if own.kind.is_some() { own } else { &model.work.stitch })
}

#[test]
fn how_each_step_is_stitched_follows_from_its_stage_and_itself() {
    for example in EXAMPLES {
        with(example, |model, checked, stages| {
            let mut threads: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
            let mut seen = 0;
            for (stage, step) in stages.iter().flat_map(|stage| stage.steps.iter().map(move |step| (stage, step))) {
                let place: usize = step.number.parse().unwrap();
                let id = model.work.order[place - 1].value.as_str();
                let Some(used) = stitch(model, id) else { continue };
                if model.joints.get(id).is_some_and(|one| one.close.is_some() && one.stitch.kind.is_none()) {
                    // It says itself how it is closed.
                    assert!(step.differs.is_empty() && !step.note.english().is_empty(), "{id}");
                    continue;
                }
                seen += 1;
                let kind = used.kind.as_ref().unwrap().value.clone();
                let width = used.width.as_ref().map(|one| format!(", {} wide", quantity(one.known().unwrap())));
                assert_eq!(follows(stage, step, "Stitch"), kind + &width.unwrap_or_default(), "{id}");
                let density = quantity(used.density.as_ref().unwrap().known().unwrap());
                assert_eq!(follows(stage, step, "Stitch density"), density, "{id}");
                assert_eq!(&follows(stage, step, "Needle"), used.needle.as_ref().unwrap().known().unwrap(), "{id}");
                let thread = used.thread.as_ref().unwrap().value.as_str();
                threads.entry(thread).or_default().insert(follows(stage, step, "Thread"));
                let joint = model.joints.contains_key(id);
                let Some(seam) = checked.figures.seams.get(id).filter(|_| joint) else { continue };
                let allowance = follows(stage, step, "Seam allowance");
                let widths = seam.sizes.values().flat_map(|one| [&one.allowance.a, &one.allowance.b]).flatten();
                let widths: BTreeSet<&String> = widths.collect();
                assert!(!allowance.is_empty(), "{id}");
                if allowance != "none" {
                    assert!(widths.iter().all(|one| allowance.contains(one.as_str())), "{id}: {allowance}, {widths:?}");
                }
                assert_eq!(allowance == "none", seam.fold, "{id}");
            }
            assert!(seen > 8, "{example}");
            assert!(threads.values().all(|names| names.len() == 1), "{threads:?}");
        });
    }
}

#[test]
fn every_step_is_in_one_stage_in_its_order() {
    for example in EXAMPLES {
        with(example, |model, _, stages| {
            let numbers: Vec<String> = stages.iter().flat_map(|stage| &stage.steps).map(|s| s.number.clone()).collect();
            let wanted: Vec<String> = (1..=model.work.order.len()).map(|n| n.to_string()).collect();
            assert_eq!(numbers, wanted, "{example}");
        });
    }
}

#[test]
fn stages_are_called_by_the_parts_that_are_made() {
    let titles =
        |example| with(example, |_, _, stages| stages.iter().map(|one| one.title.english()).collect::<Vec<_>>());
    let puffin = [
        "Stage 1: Face",
        "Stage 2: Beak",
        "Stage 3: Wing",
        "Stage 4: Foot",
        "Stage 5: Tail",
        "Stage 6: Pellet bag",
        "Stage 7: Body with head",
        "Stage 8: Body with head, with Foot, Tail, Wing",
        "Stage 9: Body with head: filling and closing",
        "Stage 10: Finishing",
    ];
    assert_eq!(titles("puffin"), puffin);
    insta::assert_debug_snapshot!([titles("floor-cushion"), titles("juggling-ball")]);
}

/// What is sewn is drawn where it is: a step about edges has a place, and others have none.
#[test]
fn what_is_sewn_has_a_place_and_what_is_not_has_none() {
    for example in EXAMPLES {
        with(example, |model, _, stages| {
            for step in stages.iter().flat_map(|stage| &stage.steps) {
                let id = &model.work.order[step.number.parse::<usize>().unwrap() - 1].value;
                assert_eq!(step.place.is_some(), !model.steps.contains_key(id), "{id}");
            }
            for stage in stages {
                let sewn = stage.steps.iter().any(|step| step.place.is_some());
                assert_eq!(stage.picture.is_some(), sewn, "{}", stage.title);
            }
        });
    }
}

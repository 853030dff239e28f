//! What is told of a folder once it is checked.

use std::path::Path;

use backtack_core::diag::Findings;
use backtack_core::model::Stage;
use backtack_core::pipeline::{self, Checked};
use backtack_core::read::Loaded;
use backtack_core::revision::ahead;
use backtack_core::source::Sources;

/// What is kept of a folder once it is checked.
pub(super) struct Report {
    /// What to put before the paths of the sources.
    pub(super) root: String,
    /// The files the findings point into.
    pub(super) sources: Sources,
    /// What was found.
    pub(super) findings: Findings,
    /// What it says of the next stage, if anything is in its way.
    pub(super) ahead: Option<String>,
}

impl Report {
    pub(super) fn of(path: &Path, loaded: Loaded, checked: Checked) -> Report {
        let next = Stage::of(&loaded.model).next();
        let ahead =
            next.and_then(|stage| ahead(stage, &pipeline::ahead(&loaded, &checked, stage), &path.to_string_lossy()));
        Report { root: root(path, &loaded.style), sources: loaded.sources, findings: checked.findings, ahead }
    }

    /// What would be found if the style were at that stage.
    pub(super) fn at(stage: Stage, path: &Path, loaded: Loaded, checked: &Checked) -> Report {
        let findings = pipeline::ahead(&loaded, checked, stage);
        Report { root: root(path, &loaded.style), sources: loaded.sources, findings, ahead: None }
    }
}

/// The root of the files as the user can open it from where they stand: the style folder without its path below the
/// root, or that many steps up.
pub(super) fn root(folder: &Path, style: &str) -> String {
    let below = Path::new(style);
    let mut root = folder.to_path_buf();
    if folder.ends_with(below) {
        below.components().for_each(|_| {
            root.pop();
        });
    } else {
        below.components().for_each(|_| root.push(".."));
    }
    root.to_string_lossy().into_owned()
}

//! What is told of a folder once it is checked.

use std::path::Path;

use backtack_core::diag::Findings;
use backtack_core::read::Loaded;
use backtack_core::source::Sources;

/// What is kept of a folder once it is checked.
pub(super) struct Report {
    /// What to put before the paths of the sources.
    pub(super) root: String,
    /// The files the findings point into.
    pub(super) sources: Sources,
    /// What was found.
    pub(super) findings: Findings,
}

impl Report {
    pub(super) fn of(path: &Path, loaded: Loaded, findings: Findings) -> Report {
        Report { root: root(path, &loaded.style), sources: loaded.sources, findings }
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

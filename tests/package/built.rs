//! The examples, each read, checked and typeset once for all tests of a run.

use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use backtack::render::Package;
use backtack_core::model::Stated;
use backtack_core::pipeline::{self, Checked, Source};
use backtack_core::read::Loaded;

/// One example with everything made of it.
pub struct Built {
    pub name: String,
    pub folder: PathBuf,
    pub loaded: Loaded,
    pub checked: Checked,
    pub package: Package,
}

impl Built {
    /// Builds a folder as the command line does.
    pub fn of(folder: &Path) -> Self {
        let loaded = pipeline::read(&Source::Folder(folder), &Default::default()).unwrap();
        let checked = pipeline::check(&loaded, &Default::default(), false);
        let revision = loaded.model.revision.id.as_ref().and_then(Stated::known).cloned().unwrap_or_default();
        let earlier = backtack::cli::earlier::earlier(folder, &revision, &Default::default()).unwrap();
        let package =
            backtack::render(&loaded, &checked, &earlier).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
        let name = folder.file_name().unwrap().to_str().unwrap().to_owned();
        Built { name, folder: folder.to_owned(), loaded, checked, package }
    }
}

/// Every folder of `spec-examples`.
pub fn examples() -> &'static [Built] {
    static ALL: OnceLock<Vec<Built>> = OnceLock::new();
    ALL.get_or_init(|| {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("spec-examples");
        let mut folders: Vec<PathBuf> = std::fs::read_dir(root).unwrap().map(|entry| entry.unwrap().path()).collect();
        folders.retain(|path| path.is_dir());
        folders.sort();
        assert!(folders.len() >= 2, "{folders:?}");
        folders.iter().map(|folder| Built::of(folder)).collect()
    })
}

/// One example by the name of its folder.
pub fn example(name: &str) -> &'static Built {
    examples().iter().find(|built| built.name == name).unwrap()
}

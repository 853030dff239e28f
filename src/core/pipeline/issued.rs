//! What was sealed of a style before, as far as rules ask for it.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use crate::editions::factory_edition;
use crate::lay::lock;
use crate::model::{Issued, Namesake, Stated};
use crate::read::{self, Loaded};
use crate::revision::Member;
use crate::revision::seal::{self, ENDING, LARGEST, Sealed};
use crate::source::Tally;

/// The folder of sealed revisions, below the style folder.
pub const FOLDER: &str = "revisions";
/// The ending of what the factory got.
const PDF: &str = "pdf";

/// What lies in the folder of sealed revisions of a style folder.
pub(super) fn on_disk(folder: &Path, loaded: &Loaded) -> Issued {
    let folder = folder.join(FOLDER);
    // A folder that cannot be listed is told by whoever seals or verifies; there is nothing to cite in it.
    let list = |ending| read::revisions(&folder, ending).unwrap_or_default();
    let sealed: BTreeMap<String, PathBuf> = list(ENDING).into_iter().collect();
    let pdfs = list(PDF).into_iter().map(|(name, _)| name).collect();
    issued(loaded, &sealed.keys().cloned().collect(), pdfs, |name| {
        sealed.get(name).map(|path| read::file_bytes(path, LARGEST))
    })
}

/// What lies there among files in memory; none if nothing does.
pub(super) fn in_memory(style: &str, files: &[Member<'_>], loaded: &Loaded) -> Option<Issued> {
    let named = |ending: &str| -> BTreeMap<String, Vec<u8>> {
        let ending = format!(".{ending}");
        let below = files.iter().filter_map(|(path, bytes)| Some((name(style, path)?, *bytes)));
        below.filter_map(|(file, bytes)| Some((file.strip_suffix(&ending)?.to_string(), bytes.to_vec()))).collect()
    };
    let sealed = named(ENDING);
    let pdfs: BTreeSet<String> = named(PDF).into_keys().collect();
    if sealed.is_empty() && pdfs.is_empty() {
        return None;
    }
    let bytes = |name: &str| sealed.get(name).map(|bytes| Ok(bytes.clone()));
    Some(issued(loaded, &sealed.keys().cloned().collect(), pdfs, bytes))
}

/// The name of a file in the folder of sealed revisions.
pub(super) fn name<'p>(style: &str, path: &'p str) -> Option<&'p str> {
    let below = if style.is_empty() { path } else { path.strip_prefix(style)?.strip_prefix('/')? };
    below.strip_prefix(FOLDER)?.strip_prefix('/')
}

fn issued(
    loaded: &Loaded,
    sealed: &BTreeSet<String>,
    pdfs: BTreeSet<String>,
    bytes: impl Fn(&str) -> Option<Result<Vec<u8>, String>>,
) -> Issued {
    let now = loaded.model.revision.id.as_ref().and_then(Stated::known);
    let orders = loaded.model.orders.values().filter_map(|order| order.revision.as_ref()?.known());
    let names: BTreeSet<&String> = orders.filter(|name| sealed.contains(*name)).collect();
    let cited = names.into_iter().filter_map(|name| Some((name.clone(), namesake(loaded, bytes(name)?))));
    Issued {
        cited: cited.collect(),
        names: sealed.iter().cloned().collect(),
        lost: pdfs.into_iter().filter(|name| !sealed.contains(name)).collect(),
        same: now.and_then(|now| bytes(now)).map(|bytes| namesake(loaded, bytes)),
    }
}

fn namesake(loaded: &Loaded, bytes: Result<Vec<u8>, String>) -> Namesake {
    let broken =
        |why: String| Namesake { date: String::new(), digest: String::new(), changed: Vec::new(), broken: Some(why) };
    match &bytes {
        Err(why) => broken(why.clone()),
        Ok(bytes) => match seal::read(bytes) {
            Err(why) => broken(why.to_string()),
            Ok(sealed) => Namesake {
                date: sealed.title.date.to_string(),
                digest: sealed.outer.inner.hex(),
                changed: changed(loaded, &sealed),
                broken: None,
            },
        },
    }
}

/// The files that the factory would get otherwise, new ones and those that are gone among them; kept lays can be found again
/// and say nothing of the product.
fn changed(loaded: &Loaded, sealed: &Sealed<'_>) -> Vec<String> {
    let before = read::closure(&sealed.inner.folder, sealed.files.iter().copied(), &Tally::default());
    let (now, before) = (shown(loaded), shown(&before));
    let other = |path: &&String| now.get(*path) != before.get(*path);
    let paths: BTreeSet<&String> = now.keys().chain(before.keys()).collect();
    paths.into_iter().filter(other).filter(|path| **path != loaded.path(lock::FILE)).cloned().collect()
}

/// What the factory gets, by path; of texts without lines and ends of lines that are empty once remarks are gone.
fn shown(loaded: &Loaded) -> BTreeMap<String, Vec<u8>> {
    let bare = |path: &str, bytes: Vec<u8>| match String::from_utf8(bytes) {
        Ok(text) if path.ends_with(".toml") => {
            let lines = text.lines().map(str::trim_end).filter(|line| !line.is_empty());
            lines.collect::<Vec<_>>().join("\n").into_bytes()
        }
        Ok(text) => text.into_bytes(),
        Err(other) => other.into_bytes(),
    };
    factory_edition(loaded).into_iter().map(|(path, bytes)| (path.clone(), bare(&path, bytes))).collect()
}

//! The sealed revisions of a style folder, and what was sealed before one.

use std::path::{Path, PathBuf};

use backtack_core::read;
use backtack_core::revision::chain::{self, Link, ordered};
use backtack_core::revision::seal::{ENDING, verified};

use super::Failure;
use super::source::{self, bytes, failed};
use crate::Earlier;

/// The folder of sealed revisions, below the style folder.
pub const FOLDER: &str = "revisions";

/// The sealed revisions of a style folder, each of which agrees with its manifests.
///
/// # Errors
/// If one cannot be read or does not.
fn links(folder: &Path) -> Result<Vec<Link>, Failure> {
    let folder = folder.join(FOLDER);
    let files = read::revisions(&folder, ENDING).map_err(|why| failed(&folder, &why))?;
    let link = |(name, path): &(String, PathBuf)| {
        let bytes = bytes(path)?;
        let sealed = verified(&bytes).map_err(|why| failed(path, &why))?;
        Ok(chain::Link::of(name, &sealed))
    };
    files.iter().map(link).collect()
}

/// The sealed revisions of a style folder, oldest first.
///
/// # Errors
/// If one cannot be read, does not agree with its manifests or does not follow another one.
pub fn chain(folder: &Path) -> Result<Vec<Link>, Failure> {
    let links = links(folder)?;
    let chain = ordered(&links, None).map_err(|why| failed(&folder.join(FOLDER), &why))?;
    Ok(chain.into_iter().cloned().collect())
}

/// What was sealed before a revision: all there is, or what came before it if it is sealed already.
///
/// # Errors
/// As those of a chain.
pub fn earlier(folder: &Path, revision: &str) -> Result<Earlier, Failure> {
    let past = chain(folder)?.into_iter().take_while(|link| link.revision != revision);
    opened(folder, past.collect())
}

/// Sealed revisions with the last of them opened.
pub fn opened(folder: &Path, past: Vec<Link>) -> Result<Earlier, Failure> {
    let path = |link: &Link| folder.join(FOLDER).join(format!("{}.{ENDING}", link.file));
    let last = past.last().map(|link| source::loaded(&path(link))).transpose()?;
    Ok(Earlier { past, last })
}

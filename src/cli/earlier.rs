//! The sealed revisions of a style folder, and what was sealed before one.

use std::path::{Path, PathBuf};

use backtack_core::pipeline::{self, Earlier, Source};
use backtack_core::read;
use backtack_core::revision::chain::{self, Link, ordered};
use backtack_core::revision::seal::{self, ENDING, verified};
use backtack_core::source::Tally;

use super::Failure;
use super::source::{bytes, failed};

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
pub fn earlier(folder: &Path, revision: &str, tally: &Tally) -> Result<Earlier, Failure> {
    let past = chain(folder)?.into_iter().take_while(|link| link.revision != revision);
    opened(folder, past.collect(), tally)
}

/// Sealed revisions with what the factory got of the last of them.
pub fn opened(folder: &Path, past: Vec<Link>, tally: &Tally) -> Result<Earlier, Failure> {
    let last = past.last().map(|link| {
        let path = folder.join(FOLDER).join(format!("{}.{ENDING}", link.file));
        let bytes = bytes(&path)?;
        let sealed = seal::read(&bytes).map_err(|why| failed(&path, &why))?;
        pipeline::read(&Source::Package(sealed.pdf), tally).map_err(|error| failed(&path, error.to_string()))
    });
    Ok(Earlier { last: last.transpose()?, past })
}

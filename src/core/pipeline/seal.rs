//! A seal but for the pages: what it is made of, and the sealed file once they are typeset.

use super::{Checked, Earlier, Edition, EditionError, edition};
use crate::diag::{Folder, json};
use crate::read::Loaded;
use crate::revision::manifest::Title;
use crate::revision::seal::{Own, own_digests, salt, sealed};
use crate::revision::{ArchiveError, Digest, Member};

/// What a seal is made of beside the specification.
#[derive(Debug)]
pub struct Sealing<'a> {
    /// What the seal says.
    pub title: Title,
    /// The secret of the folder, which salts the digests of what is private.
    pub secret: &'a [u8; 32],
    /// What was sealed before: the seal is bound to the last of it, and a sheet says what is new.
    pub earlier: &'a Earlier,
}

/// A revision could not be sealed.
#[derive(Debug)]
pub enum SealError {
    /// The factory's edition could not be made.
    Edition(EditionError),
    /// The findings could not be written down.
    Findings(serde_json::Error),
    /// The own edition fits into no archive.
    Archive(ArchiveError),
}

impl std::fmt::Display for SealError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            SealError::Edition(why) => why.fmt(out),
            SealError::Findings(why) => write!(out, "findings could not be written: {why}"),
            SealError::Archive(why) => why.fmt(out),
        }
    }
}

impl std::error::Error for SealError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            SealError::Edition(why) => Some(why),
            SealError::Findings(why) => Some(why),
            SealError::Archive(why) => Some(why),
        }
    }
}

/// A seal that lacks its pages.
#[derive(Debug)]
pub struct Draft<'a> {
    /// The factory's edition, whose manifest names the seal: what the pages are made of.
    pub edition: Edition<'a>,
    findings: String,
    figures: String,
    salt: [u8; 32],
    before: Option<Digest>,
}

/// Drafts a seal of what was checked, whatever was found; whether it may be sealed, its caller asks
/// [`standing`](crate::revision::release::standing).
///
/// # Errors
/// If a path is no path below a folder on every system, or there is too much of it.
pub fn draft<'a>(loaded: &'a Loaded, checked: &'a Checked, sealing: &Sealing<'_>) -> Result<Draft<'a>, SealError> {
    let folder = Folder { name: "", root: "", findings: &checked.firm, sources: &loaded.sources };
    let mut draft = Draft {
        edition: edition(loaded, checked, sealing.earlier).map_err(SealError::Edition)?,
        findings: json::print(&[folder]).map_err(SealError::Findings)?,
        figures: checked.figures.json(),
        salt: salt(sealing.secret, &sealing.title.revision),
        before: sealing.earlier.past.last().map(|link| link.digest),
    };
    draft.edition.manifest.own = draft.with_own(|own| own_digests(&draft.salt, &draft.edition.manifest, own));
    draft.edition.manifest.title = Some(sealing.title.clone());
    Ok(draft)
}

impl Draft<'_> {
    /// The sealed file with these pages, and the digest that stands for the revision and all before it.
    ///
    /// # Errors
    /// If a path is no path below a folder on every system, or there is too much of it.
    pub fn sealed(&self, pdf: &[u8]) -> Result<(Vec<u8>, Digest), SealError> {
        self.with_own(|own| sealed(&self.edition.manifest, self.before, &self.salt, own, pdf))
            .map_err(SealError::Archive)
    }

    /// Hands the parts of the own edition on.
    fn with_own<T>(&self, then: impl FnOnce(&Own<'_>) -> T) -> T {
        let closure = &self.edition.own.closure;
        let files: Vec<Member<'_>> = closure.iter().map(|(path, bytes)| (path.as_str(), bytes.as_ref())).collect();
        then(&Own { findings: &self.findings, figures: &self.figures, files: &files })
    }
}

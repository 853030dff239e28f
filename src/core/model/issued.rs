//! What was sealed of a style before: names, and whether what is written now is what was sealed under a name.

use std::collections::BTreeMap;

/// The folder of sealed revisions beside a specification.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Issued {
    /// Names of the sealed revisions.
    pub names: Vec<String>,
    /// Names of revisions of which the factory's PDF is there and the sealed file is not.
    pub lost: Vec<String>,
    /// The revision that has the name of this one, if it was sealed.
    pub same: Option<Namesake>,
    /// The sealed revisions that orders cite, by name.
    pub cited: BTreeMap<String, Namesake>,
}

/// A sealed revision beside what is written now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Namesake {
    /// The day it was sealed.
    pub date: String,
    /// Digest of its manifest, which `verify --head` takes; empty where it cannot be read.
    pub digest: String,
    /// Files that the factory would get otherwise than they were sealed, by their paths.
    pub changed: Vec<String>,
    /// Why the sealed file cannot be read; what changed is not known then.
    pub broken: Option<String>,
}

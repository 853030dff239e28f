//! Revisions of one style, each bound to the one before.

use std::collections::BTreeMap;

use super::digest::Digest;
use super::seal::Sealed;
use crate::units::Date;

/// What a chain knows of a sealed file that agrees with its own manifests.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// Name of the file, without its ending.
    pub file: String,
    /// Name of the revision.
    pub revision: String,
    /// Style number.
    pub style: String,
    /// Its stage.
    pub stage: String,
    /// The day it was sealed.
    pub date: Date,
    /// Who sealed it.
    pub by: String,
    /// Why.
    pub reason: String,
    /// Digest that stands for it.
    pub digest: Digest,
    /// Digest of its inner manifest, which its confirmation sheet prints.
    pub manifest: Digest,
    /// That of the revision before.
    pub before: Option<Digest>,
}

impl Link {
    /// Whether a digest stands for it: its own, or that of its manifest.
    fn is(&self, head: Digest) -> bool {
        self.digest == head || self.manifest == head
    }

    /// What a chain needs of a sealed file.
    pub fn of(file: &str, sealed: &Sealed<'_>) -> Link {
        let title = sealed.title.clone();
        Link {
            file: file.to_string(),
            revision: sealed.outer.revision.clone(),
            style: title.style,
            stage: title.stage,
            date: title.date,
            by: title.by,
            reason: title.reason,
            digest: sealed.digest,
            manifest: sealed.outer.inner,
            before: sealed.outer.before,
        }
    }
}

/// The revisions from the first to the newest. That the newest was left out shows only if `head`, its digest or that of its
/// manifest, is known from elsewhere: `seal` prints the one, the confirmation sheet the other.
///
/// # Errors
/// Names the first thing that is wrong.
pub fn ordered(links: &[Link], head: Option<Digest>) -> Result<Vec<&Link>, String> {
    for link in links {
        if link.file != link.revision {
            return Err(format!("{} holds revision {}: it was renamed or swapped", link.file, link.revision));
        }
    }
    let chain = followed(links)?;
    for pair in chain.windows(2) {
        let [a, b] = pair else { continue };
        if a.style != b.style {
            return Err(format!(
                "revision {} is of style {}, revision {} of {}",
                a.revision, a.style, b.revision, b.style
            ));
        }
        if b.date < a.date {
            return Err(format!("revision {} of {} follows {} of {}", b.revision, b.date, a.revision, a.date));
        }
    }
    match (head, chain.last()) {
        (Some(head), None) => Err(format!("there is no revision; the newest should be {}", head.hex())),
        (Some(head), Some(last)) if !last.is(head) => match chain.iter().find(|link| link.is(head)) {
            Some(link) => Err(format!("revision {} is older than the newest here, {}", link.revision, last.revision)),
            None => Err(format!(
                "the newest revision here, {}, is not the one with the digest {}: a newer one is missing, or it was replaced",
                last.revision,
                head.hex()
            )),
        },
        _ => Ok(chain),
    }
}

/// Follows the digests from the revision without one before it.
fn followed(links: &[Link]) -> Result<Vec<&Link>, String> {
    let mut after: BTreeMap<Option<Digest>, &Link> = BTreeMap::new();
    for link in links {
        if let Some(other) = after.insert(link.before, link) {
            let both = format!("{} and {}", other.revision, link.revision);
            return Err(match link.before {
                None => format!("revisions {both} both say that none is before them: one does not belong here"),
                Some(_) => {
                    format!("revisions {both} follow the same revision: one of them was forged or does not belong here")
                }
            });
        }
    }
    let mut chain: Vec<&Link> = Vec::new();
    let mut at = after.remove(&None);
    while let Some(link) = at {
        chain.push(link);
        at = after.remove(&Some(link.digest));
    }
    // The first of those that cannot be reached.
    let known = |before: &Option<Digest>| links.iter().any(|link| Some(link.digest) == *before);
    let lost = after.iter().find(|(before, _)| !known(before)).or(after.iter().next());
    match (lost.map(|(_, link)| *link), chain.last()) {
        (None, _) => Ok(chain),
        (Some(lost), None) => Err(format!("the revision before {} is missing, and so is the first one", lost.revision)),
        (Some(lost), Some(last)) => Err(format!(
            "the revision before {lost} is missing or was replaced: {lost} does not follow {last}, the last one that can be followed",
            lost = lost.revision,
            last = last.revision
        )),
    }
}

/// Whether a revision can follow these, which are in order.
///
/// # Errors
/// Says why not.
pub fn next(chain: &[&Link], revision: &str, style: &str, date: Date) -> Result<(), String> {
    if let Some(used) = chain.iter().find(|link| link.revision.eq_ignore_ascii_case(revision)) {
        return Err(format!("revision {} was sealed on {}; a name is never used again", used.revision, used.date));
    }
    let Some(last) = chain.last() else { return Ok(()) };
    if last.style != style {
        return Err(format!("the sealed revisions are of style {}, not {style}", last.style));
    }
    if date < last.date {
        return Err(format!("{date} is before {}, the day revision {} was sealed", last.date, last.revision));
    }
    Ok(())
}

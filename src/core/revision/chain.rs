//! Revisions of one style, each bound to the one before.

use std::collections::BTreeMap;
use std::fmt;

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

/// What is wrong with the revisions of a style.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ChainFault {
    /// A file holds another revision than its name says.
    Renamed(String, String),
    /// Two neighbours, by name and style number, are of two styles.
    Styles([String; 2], [String; 2]),
    /// A revision is dated before the one it follows.
    Dates((String, Date), (String, Date)),
    /// There is none, and the newest should have this digest.
    Nothing(Digest),
    /// What should be the newest is older than the newest.
    Older(String, String),
    /// The newest has another digest than this.
    NotNewest(String, Digest),
    /// Two say that none is before them.
    TwoFirst(String, String),
    /// Two follow the same revision.
    TwoAfter(String, String),
    /// The one before this is missing, and the first of all.
    FirstLost(String),
    /// The one before this is missing; the second name is the last that can be followed.
    Lost(String, String),
}

impl fmt::Display for ChainFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ChainFault::Renamed(file, revision) => {
                write!(out, "{file} holds revision {revision}: it was renamed or swapped")
            }
            ChainFault::Styles([a, style], [b, other]) => {
                write!(out, "revision {a} is of style {style}, revision {b} of {other}")
            }
            ChainFault::Dates((a, earlier), (b, later)) => {
                write!(out, "revision {a} of {earlier} follows {b} of {later}")
            }
            ChainFault::Nothing(head) => write!(out, "there is no revision; the newest should be {}", head.hex()),
            ChainFault::Older(one, newest) => write!(out, "revision {one} is older than the newest here, {newest}"),
            ChainFault::NotNewest(newest, head) => write!(
                out,
                "the newest revision here, {newest}, is not the one with the digest {}: a newer one is missing, or it was replaced",
                head.hex()
            ),
            ChainFault::TwoFirst(a, b) => {
                write!(out, "revisions {a} and {b} both say that none is before them: one does not belong here")
            }
            ChainFault::TwoAfter(a, b) => write!(
                out,
                "revisions {a} and {b} follow the same revision: one of them was forged or does not belong here"
            ),
            ChainFault::FirstLost(lost) => {
                write!(out, "the revision before {lost} is missing, and so is the first one")
            }
            ChainFault::Lost(lost, last) => write!(
                out,
                "the revision before {lost} is missing or was replaced: {lost} does not follow {last}, the last one that can be followed"
            ),
        }
    }
}

impl std::error::Error for ChainFault {}

/// Why a revision cannot follow.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NextFault {
    /// Its name was used on this day.
    Used(String, Date),
    /// The sealed revisions are of the first style number, this one of the second.
    Style(String, String),
    /// It is dated before the last one, which has this date and name.
    Early(Date, Date, String),
}

impl fmt::Display for NextFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NextFault::Used(name, date) => {
                write!(out, "revision {name} was sealed on {date}; a name is never used again")
            }
            NextFault::Style(sealed, style) => write!(out, "the sealed revisions are of style {sealed}, not {style}"),
            NextFault::Early(date, last, name) => {
                write!(out, "{date} is before {last}, the day revision {name} was sealed")
            }
        }
    }
}

impl std::error::Error for NextFault {}

/// The revisions from the first to the newest. That the newest was left out shows only if `head`, its digest or that of its
/// manifest, is known from elsewhere: `seal` prints the one, the confirmation sheet the other.
///
/// # Errors
/// Names the first thing that is wrong.
pub fn ordered(links: &[Link], head: Option<Digest>) -> Result<Vec<&Link>, ChainFault> {
    for link in links {
        if link.file != link.revision {
            return Err(ChainFault::Renamed(link.file.clone(), link.revision.clone()));
        }
    }
    let chain = followed(links)?;
    for pair in chain.windows(2) {
        let [a, b] = pair else { continue };
        if a.style != b.style {
            let named = |link: &Link| [link.revision.clone(), link.style.clone()];
            return Err(ChainFault::Styles(named(a), named(b)));
        }
        if b.date < a.date {
            return Err(ChainFault::Dates((b.revision.clone(), b.date), (a.revision.clone(), a.date)));
        }
    }
    match (head, chain.last()) {
        (Some(head), None) => Err(ChainFault::Nothing(head)),
        (Some(head), Some(last)) if !last.is(head) => match chain.iter().find(|link| link.is(head)) {
            Some(link) => Err(ChainFault::Older(link.revision.clone(), last.revision.clone())),
            None => Err(ChainFault::NotNewest(last.revision.clone(), head)),
        },
        _ => Ok(chain),
    }
}

/// Follows the digests from the revision without one before it.
fn followed(links: &[Link]) -> Result<Vec<&Link>, ChainFault> {
    let mut after: BTreeMap<Option<Digest>, &Link> = BTreeMap::new();
    for link in links {
        if let Some(other) = after.insert(link.before, link) {
            let both = if link.before.is_none() { ChainFault::TwoFirst } else { ChainFault::TwoAfter };
            return Err(both(other.revision.clone(), link.revision.clone()));
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
        (Some(lost), None) => Err(ChainFault::FirstLost(lost.revision.clone())),
        (Some(lost), Some(last)) => Err(ChainFault::Lost(lost.revision.clone(), last.revision.clone())),
    }
}

/// Whether a revision can follow these, which are in order.
///
/// # Errors
/// Says why not.
pub fn next(chain: &[&Link], revision: &str, style: &str, date: Date) -> Result<(), NextFault> {
    if let Some(used) = chain.iter().find(|link| link.revision.eq_ignore_ascii_case(revision)) {
        return Err(NextFault::Used(used.revision.clone(), used.date));
    }
    let Some(last) = chain.last() else { return Ok(()) };
    if last.style != style {
        return Err(NextFault::Style(last.style.clone(), style.into()));
    }
    if date < last.date {
        return Err(NextFault::Early(date, last.date, last.revision.clone()));
    }
    Ok(())
}

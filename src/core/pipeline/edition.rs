//! The factory's edition of what was checked: what it could itself read from the attached files, with the findings that
//! are not about something it does not get.

use super::{Checked, ahead, check, compare};
use crate::compute::LayTasks;
use crate::diag::{Findings, Levels};
use crate::model::{Model, Stage, Stated};
use crate::read::{self, Loaded};
use crate::revision::chain::Link;
use crate::revision::compare::{Asked, Marks, answers};
use crate::revision::manifest::Inner;
use crate::revision::{self, ArchiveError, Since};
use crate::samples::figures as samples;
use crate::samples::figures::{CommentLine, SampleFigures};

/// What the document of an order shows beside the style.
#[derive(Debug)]
pub struct Ordered {
    /// The order.
    pub id: String,
    /// The lays of its plan.
    pub lays: LayTasks,
    /// What only its plan shows; places are in the edition's own files.
    pub findings: Findings,
}

/// What would be found at the next stage, of what the factory may see.
#[derive(Debug)]
pub struct Ahead {
    /// The next stage.
    pub stage: Stage,
    /// What stands there.
    pub findings: Findings,
}

/// What the factory gets, ready for the sheets.
#[derive(Debug)]
pub struct Edition<'a> {
    /// The own edition it was made from.
    pub own: &'a Loaded,
    shown: Shown<'a>,
    /// What stands, of what the factory may see.
    pub findings: Findings,
    /// What is in the way of the next stage; none at the last one, and in the document of an order.
    pub ahead: Option<Ahead>,
    /// What samples show, of what everyone may see; each judged by the revision it was made to, where that is at hand.
    pub samples: SampleFigures,
    /// What is new since the last sealed revision.
    pub since: Option<Since>,
    /// The order that is shown, in its own document.
    pub order: Option<Ordered>,
    /// Short digest of the attached files, so that the factory can work it out, and no private value can be tried against
    /// it.
    pub digest: String,
    /// The files as one stored zip.
    pub archive: Vec<u8>,
    /// The text of `figures.json`.
    pub figures: String,
    /// The manifest of both; with a title once it is to be sealed.
    pub manifest: Inner,
}

/// What the factory reads.
#[derive(Debug)]
pub(super) enum Shown<'a> {
    /// Nothing is kept back: what was read and checked already.
    All(&'a Loaded, &'a Checked),
    /// The files that are shown, read and checked by themselves.
    Part(Box<(Loaded, Checked)>),
}

/// The factory's edition could not be made.
#[derive(Debug)]
pub enum EditionError {
    /// Its files fit into no archive.
    Archive(ArchiveError),
}

impl std::fmt::Display for EditionError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let EditionError::Archive(why) = self;
        why.fmt(out)
    }
}

impl std::error::Error for EditionError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        let EditionError::Archive(why) = self;
        Some(why)
    }
}

/// What was sealed before.
#[derive(Debug, Default)]
pub struct Earlier {
    /// Sealed revisions, oldest first.
    pub past: Vec<Link>,
    /// What the factory got of the last of them.
    pub last: Option<Loaded>,
}

impl<'a> Edition<'a> {
    /// What the factory reads.
    pub fn shown(&self) -> &Loaded {
        match &self.shown {
            Shown::All(loaded, _) => loaded,
            Shown::Part(part) => &part.0,
        }
    }

    /// The same, checked.
    pub fn seen(&self) -> &Checked {
        match &self.shown {
            Shown::All(_, checked) => checked,
            Shown::Part(part) => &part.1,
        }
    }

    /// The digest that a sealed revision shows and `verify --head` takes; none of a package that is only built.
    pub fn sealed(&self) -> Option<String> {
        self.manifest.title.as_ref().map(|_| revision::sha256(self.manifest.text().as_bytes()).hex())
    }

    /// The edition of these files, with nothing found and nothing new.
    pub(super) fn of(
        own: &'a Loaded,
        shown: Shown<'a>,
        files: &[(String, Vec<u8>)],
    ) -> Result<Edition<'a>, ArchiveError> {
        let pairs = || files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice()));
        let mut edition = Edition {
            own,
            shown,
            findings: Findings::default(),
            ahead: None,
            samples: SampleFigures::default(),
            since: None,
            order: None,
            digest: revision::of_files(pairs()).short(),
            archive: revision::stored(pairs())?,
            figures: String::new(),
            manifest: Inner::of(&own.style, "", pairs()),
        };
        edition.figures = edition.seen().figures.json();
        edition.manifest.figures = revision::sha256(edition.figures.as_bytes());
        Ok(edition)
    }
}

/// The factory's edition. Where nothing is private, it is what was read and checked already.
///
/// # Errors
/// If a path is no path below a folder on every system, or there is too much of it.
pub fn edition<'a>(loaded: &'a Loaded, checked: &'a Checked, earlier: &Earlier) -> Result<Edition<'a>, EditionError> {
    let files = crate::editions::factory_edition(loaded);
    let part = crate::editions::withholds(loaded).then(|| part(loaded, &files));
    let judged = part.as_ref().map(|part| judged(loaded, part));
    let shown = part.map_or(Shown::All(loaded, checked), |part| Shown::Part(Box::new(part)));
    let mut edition = Edition::of(loaded, shown, &files).map_err(EditionError::Archive)?;
    edition.findings = crate::editions::shown(loaded, &checked.findings, &edition.seen().findings);
    edition.ahead = Stage::of(&loaded.model).next().map(|stage| next(loaded, checked, &edition, stage));
    edition.samples = judged.as_ref().unwrap_or(&edition.seen().figures.samples).for_everyone();
    if let Some(last) = &earlier.last {
        let before = check(last, &Levels::new(), false);
        by_their_own(&mut edition.samples, &loaded.model, (last, &before));
        edition.since = Some(since(&earlier.past, (last, &before), &edition));
    }
    Ok(edition)
}

/// What would be in the way of a stage, of what the factory may see.
fn next(loaded: &Loaded, checked: &Checked, edition: &Edition<'_>, stage: Stage) -> Ahead {
    let own = ahead(loaded, checked, stage);
    let findings = match &edition.shown {
        Shown::All(..) => crate::editions::shown(loaded, &own, &own),
        Shown::Part(part) => crate::editions::shown(loaded, &own, &ahead(&part.0, &part.1, stage)),
    };
    Ahead { stage, findings }
}

/// Samples that were made to the last sealed revision are judged by it.
fn by_their_own(samples: &mut SampleFigures, own: &Model, (last, before): (&Loaded, &Checked)) {
    let Some(revision) = last.model.revision.id.as_ref().and_then(Stated::known) else { return };
    let model = Model { samples: own.samples.clone(), ..last.model.clone() };
    samples.judge_by(revision, &samples::samples(&model, &before.figures.mass, &before.figures.filling));
}

/// The files that are shown, read and checked as the factory would.
pub(super) fn part(own: &Loaded, files: &[(String, Vec<u8>)]) -> (Loaded, Checked) {
    let pairs = files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice()));
    let shown = read::closure(&own.style, pairs, &own.tally);
    let seen = check(&shown, &Levels::new(), false);
    (shown, seen)
}

/// The files of samples are not attached. Sheets show what everyone may see of them, held against what everyone may see.
fn judged(own: &Loaded, part: &(Loaded, Checked)) -> SampleFigures {
    let (shown, seen) = part;
    let model = Model { samples: own.model.samples.clone(), ..shown.model.clone() };
    samples::samples(&model, &seen.figures.mass, &seen.figures.filling)
}

/// What is new since the last sealed revision, in the factory's editions of both.
fn since(past: &[Link], before: (&Loaded, &Checked), edition: &Edition<'_>) -> Since {
    let changes = compare(before, (edition.shown(), edition.seen()));
    let asked: Vec<Asked> = edition.samples.comments.iter().map(asked).collect();
    let (answers, marks) = (answers(&changes, &asked), Marks::of(&changes));
    Since { past: past.to_vec(), changes, answers, marks }
}

/// A comment as something that asks for a change.
fn asked(comment: &CommentLine) -> Asked {
    let about = comment.about.as_deref().unwrap_or_default();
    let (kind, item) = about.split_once('.').unwrap_or(("", about));
    let open = matches!(comment.state, "open" | "answered" | "agreed") && comment.action != "note";
    let text = comment.text.clone().unwrap_or_default();
    Asked { id: comment.comment.clone(), kind: kind.into(), item: item.into(), text, open }
}

//! Backtack compiles a folder of plain-text specification files for a sewn product into one checked PDF package.
//!
//! ```text
//!  folder of TOML files
//!      |  read      every file input; never stops at the first problem
//!      v
//!  Loaded: model, texts, findings, closure
//!      |  check     what follows from the model; one rule a file, one family of numbers a file
//!      v
//!  Checked: assembly, figures, every finding settled
//!      |  render    the factory's edition: view data, templates, engine
//!      v
//!  Package: PDF, drawings, figures.json
//!      |  cli       the only file output
//!      v
//!  files of the output folder, exit code
//! ```
//! Data only flows down. One public function of this page is one stage.

pub mod cli;
pub mod render;

use std::path::Path;

use backtack_core::compute::samples::{self, CommentLine, SampleFigures};
use backtack_core::compute::{self, Computed, Drawn, Figures, Lays};
use backtack_core::diag::{Findings, Folder, Levels, json};
use backtack_core::model::{Assembly, Model, Statements};
use backtack_core::read::{self, Loaded, Unreadable};
use backtack_core::revision::chain::Link;
use backtack_core::revision::compare::{self, Asked, Changes, Marks, Side, answers};
use backtack_core::revision::manifest::{Inner, Title};
use backtack_core::revision::seal::{Own, own_digests, salt, sealed};
use backtack_core::revision::{Digest, Member, release};
use backtack_core::source::Sources;
use backtack_core::{revision, rules};

use render::engine::{EngineError, Job};
use render::sheet::{Edition, Package, Since, View};

/// A specification that was checked.
#[derive(Debug)]
pub struct Checked {
    /// Outlines, instances and the sewn surface, which follow from the model alone.
    pub assembly: Assembly,
    /// Every number.
    pub figures: Figures,
    /// The lines the numbers were measured on.
    pub drawn: Drawn,
    /// What is laid of each fabric, with the lays that are kept.
    pub lays: Lays,
    /// Everything that was found, reading and computing included, with the user's severities, sorted.
    pub findings: Findings,
    /// The same for a seal: with the severities of the rules where those of the specification are lower.
    pub firm: Findings,
}

/// Reads the style in `folder`.
///
/// # Errors
/// Only if the folder itself cannot be read at all; everything else is a finding of the result.
pub fn read(folder: &Path) -> Result<Loaded, Unreadable> {
    read::folder(folder)
}

/// Checks what was read and computes its figures, since some rules are about a computed number. `wanted` are severities
/// from the caller; they go before those of the specification.
pub fn check(loaded: &Loaded, wanted: &Levels, strict: bool) -> Checked {
    let assembly = Assembly::of(&loaded.model);
    let Computed { figures, drawn, lays, findings: computed } = compute::with_lines(&loaded.model, &assembly);
    let mut findings = rules::checked(loaded, &assembly);
    findings.append(computed);
    compute::lift_conceded(&loaded.model, &mut findings);
    let mut levels = loaded.levels.clone();
    levels.extend(wanted.clone());
    let firm = release::firm(findings.clone(), &levels);
    Checked { assembly, figures, drawn, lays, findings: findings.settled(&levels, strict), firm }
}

/// Compares two specifications that were read and checked, by meaning.
pub fn compare(before: (&Loaded, &Checked), after: (&Loaded, &Checked)) -> Changes {
    let (earlier, later) = (read::statements(before.0), read::statements(after.0));
    compare::compare(&side(before, &earlier), &side(after, &later), compare::ACCURACY)
}

fn side<'a>((loaded, checked): (&'a Loaded, &'a Checked), statements: &'a Statements) -> Side<'a> {
    Side {
        statements,
        model: &loaded.model,
        assembly: &checked.assembly,
        figures: &checked.figures,
        drawn: &checked.drawn,
        findings: &checked.findings,
    }
}

/// Renders the factory's edition of what was checked: what the factory could itself read from the attached files, with
/// the findings that are not about something it does not get.
///
/// # Errors
/// If the engine refuses the data, which is a defect of backtack.
pub fn render(loaded: &Loaded, checked: &Checked) -> Result<Package, EngineError> {
    render_after(loaded, checked, &Earlier::default())
}

/// [`render()`] with a sheet of what is new since the last sealed revision, and marks at what changed.
///
/// # Errors
/// If the engine refuses the data, which is a defect of backtack.
pub fn render_after(loaded: &Loaded, checked: &Checked, earlier: &Earlier) -> Result<Package, EngineError> {
    edition(loaded, checked, earlier, None, render::sheet::build)
}

/// What was sealed before.
#[derive(Debug, Default)]
pub struct Earlier {
    /// Sealed revisions, oldest first.
    pub past: Vec<Link>,
    /// The own edition of the last of them.
    pub last: Option<Loaded>,
}

/// What is new since the last sealed revision, in the factory's editions of both.
fn since(earlier: &Earlier, (shown, seen): (&Loaded, &Checked), samples: &SampleFigures) -> Option<Since> {
    let last = earlier.last.as_ref()?;
    let files = read::factory_edition(last);
    let before = read::closure(&last.style, files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())));
    let changes = compare((&before, &check(&before, &Levels::new(), false)), (shown, seen));
    let asked: Vec<Asked> = samples.comments.iter().map(asked).collect();
    let (answers, marks) = (answers(&changes, &asked), Marks::of(&changes));
    Some(Since { past: earlier.past.clone(), changes, answers, marks })
}

/// A comment as something that asks for a change.
fn asked(comment: &CommentLine) -> Asked {
    let about = comment.about.as_deref().unwrap_or_default();
    let (kind, item) = about.split_once('.').unwrap_or(("", about));
    let open = matches!(comment.state, "open" | "answered" | "agreed") && comment.action != "note";
    let text = comment.text.clone().unwrap_or_default();
    Asked { id: comment.comment.clone(), kind: kind.into(), item: item.into(), text, open }
}

/// What the engine is given for that edition: for measuring what the rest of [`render()`] adds to its time.
///
/// # Errors
/// If the view data cannot be written down, which is a defect of backtack.
pub fn job(loaded: &Loaded, checked: &Checked) -> Result<Job, EngineError> {
    edition(loaded, checked, &Earlier::default(), None, render::sheet::job)
}

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

/// A sealed revision in both editions.
#[derive(Debug)]
pub struct Sealed {
    /// The own edition: the sealed file.
    pub bytes: Vec<u8>,
    /// Digest that stands for the revision and all before it.
    pub digest: Digest,
    /// The factory's edition.
    pub package: Package,
}

/// Seals what was checked, whatever was found; whether it may be sealed, its caller asks [`release::standing`].
///
/// # Errors
/// If the engine refuses the data, a path is no path below a folder on every system, or there is too much of it.
pub fn seal(loaded: &Loaded, checked: &Checked, sealing: &Sealing<'_>) -> Result<Sealed, EngineError> {
    let failed = |message: String| EngineError { messages: vec![message] };
    let salt = salt(sealing.secret, &sealing.title.revision);
    let folder = Folder { name: "", root: "", findings: &checked.firm, sources: &loaded.sources };
    let findings = json::print(&[folder]).map_err(|error| failed(error.to_string()))?;
    let figures = checked.figures.json();
    let files: Vec<Member<'_>> = loaded.closure.iter().map(|(path, bytes)| (path.as_str(), bytes.as_ref())).collect();
    let own = Own { findings: &findings, figures: &figures, files: &files };
    let titled = |mut inner: Inner| {
        inner.own = own_digests(&salt, &inner, &own);
        inner.title = Some(sealing.title.clone());
        inner
    };
    let mut kept = None;
    let package = edition(loaded, checked, sealing.earlier, Some(&titled), |view, edition| {
        kept = Some(edition.manifest.clone());
        render::sheet::build(view, edition)
    })?;
    let inner = Inner::parse(&kept.unwrap_or_default()).map_err(failed)?;
    let before = sealing.earlier.past.last().map(|link| link.digest);
    let (bytes, digest) =
        sealed(&inner, before, &salt, &own, &package.pdf).map_err(|error| failed(error.to_string()))?;
    Ok(Sealed { bytes, digest, package })
}

/// Renders one order in its own document: cut plan, fabric to order, cautions. It is made from what the factory may see and
/// the order's own file, which alone is attached.
///
/// # Errors
/// If there is no such order, if its file holds another order too, or if the engine refuses the data.
pub fn order(loaded: &Loaded, id: &str) -> Result<Ordered, EngineError> {
    let failed = |message: String| EngineError { messages: vec![message] };
    let files = read::order_edition(loaded, id).map_err(failed)?;
    let pairs = || files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice()));
    let shown = read::closure(&loaded.style, pairs());
    let mut seen = check(&shown, &Levels::new(), false);
    compute::orders::plan_kept(&shown.model, &seen.assembly, &seen.drawn, &mut seen.figures);
    let lays = compute::lays::order_lays((&shown.model, &seen.assembly, &seen.drawn), &seen.figures, id);
    seen.figures.lays = lays.figures();
    let digest = revision::of_files(pairs()).short();
    let archive = revision::stored(pairs()).map_err(|error| failed(error.to_string()))?;
    let (none, quiet) = (Findings::default(), SampleFigures::default());
    let view = View {
        model: &shown.model,
        assembly: &seen.assembly,
        figures: &seen.figures,
        drawn: &seen.drawn,
        lays: &lays,
        sources: &shown.sources,
        findings: &none,
        sealed: None,
        since: None,
        samples: &quiet,
        commented: &shown.model.pictures,
        asked: &loaded.model,
        digest: &digest,
        order: Some(id),
    };
    let figures = seen.figures.json();
    let manifest = Inner::of(&loaded.style, &figures, pairs()).text();
    let package = render::sheet::build(&view, &Edition { archive, figures, manifest })?;
    let findings = compute::orders::findings(&shown.model, &seen.figures).settled(&shown.levels, false);
    Ok(Ordered { package, findings, sources: shown.sources })
}

/// The document of an order, and what only its plan can show.
#[derive(Debug)]
pub struct Ordered {
    /// The document.
    pub package: Package,
    /// What was found in planning.
    pub findings: Findings,
    /// The files the findings point into.
    pub sources: Sources,
}

/// What a seal makes of the manifest of a package.
type Titled<'a> = &'a dyn Fn(Inner) -> Inner;

/// Hands the factory's edition on. Where nothing is private, it is what was read and checked already.
fn edition<T>(
    loaded: &Loaded,
    checked: &Checked,
    earlier: &Earlier,
    titled: Option<Titled<'_>>,
    then: impl FnOnce(&View<'_>, &Edition) -> Result<T, EngineError>,
) -> Result<T, EngineError> {
    let files = read::factory_edition(loaded);
    let pairs = || files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice()));
    let read_again = read::withholds(loaded).then(|| read::closure(&loaded.style, pairs()));
    let shown = read_again.as_ref().unwrap_or(loaded);
    let checked_again = read_again.as_ref().map(|shown| check(shown, &Levels::new(), false));
    let seen = checked_again.as_ref().unwrap_or(checked);
    // Of what is attached, so that the factory can work it out, and so that no private value can be tried against it.
    let digest = revision::of_files(pairs()).short();
    let findings = read::shown(loaded, &checked.findings, &seen.findings);
    let archive = revision::stored(pairs()).map_err(|error| EngineError { messages: vec![error.to_string()] })?;
    // The files of samples are not attached. Sheets show what everyone may see of them, held against what everyone may see.
    let samples = read_again.is_some().then(|| {
        let judged = Model { samples: loaded.model.samples.clone(), ..shown.model.clone() };
        samples::samples(&judged, &seen.figures.mass)
    });
    let samples = samples.as_ref().unwrap_or(&seen.figures.samples).for_everyone();
    let since = since(earlier, (shown, seen), &samples);
    let figures = seen.figures.json();
    let inner = Inner::of(&loaded.style, &figures, pairs());
    let manifest = titled.map_or(inner.clone(), |titled| titled(inner)).text();
    let sealed = titled.map(|_| revision::sha256(manifest.as_bytes()).hex());
    let view = View {
        model: &shown.model,
        assembly: &seen.assembly,
        figures: &seen.figures,
        drawn: &seen.drawn,
        lays: &seen.lays,
        sources: &shown.sources,
        sealed: sealed.as_deref(),
        findings: &findings,
        since: since.as_ref(),
        samples: &samples,
        commented: &loaded.model.pictures,
        asked: &loaded.model,
        digest: &digest,
        order: None,
    };
    then(&view, &Edition { archive, figures, manifest })
}

//! Seals a revision: both editions, written once.

use std::path::{Path, PathBuf};

use backtack_core::diag::{Findings, Folder, Levels, plain, text};
use backtack_core::model::{Audience, Stated};
use backtack_core::pipeline::{Checked, Sealing, check};
use backtack_core::read::Loaded;
use backtack_core::revision::chain::next;
use backtack_core::revision::manifest::{Title, line};
use backtack_core::revision::release;
use backtack_core::revision::seal::{ENDING, LARGEST};
use backtack_core::units::{Date, NoDate};
use clap::{Arg, ArgMatches, Command};

use super::build::{laid, stages};
use super::earlier::{FOLDER, chain, opened};
use super::lay::style;
use super::output::{Item, Output};
use super::report::root;
use super::secret::secret;
use super::source::failed;
use super::terminal::Terminal;
use super::{Exit, Failure, folder_argument, source};

/// Longest name of a revision.
const LONGEST: usize = 40;

pub(super) fn define() -> Command {
    let text = |name: &'static str, value: &'static str, help: &'static str| {
        Arg::new(name).long(name).value_name(value).help(help)
    };
    Command::new("seal")
        .about("Freezes a revision into one file that never changes, and a PDF for the factory")
        .after_help(
            "Writes DIR/revisions/NAME.sealed, the own edition, and NAME.pdf, the factory's; prints the digest\n\
             of the revision and all before it. NAME, stage and date must be those of [revision].\n\
             Nothing is sealed while there is a `must` finding, whatever severity the specification gives it.",
        )
        .arg(folder_argument())
        .arg(Arg::new("name").value_name("NAME").required(true).help("Name of the revision"))
        .arg(text("stage", "STAGE", "Stage it is sealed for [default: that of the specification]").value_parser([
            "prototype",
            "counter sample",
            "pre-production",
            "bulk",
        ]))
        .arg(text("date", "DATE", "Day it is sealed, such as 2026-11-20 [default: that of the specification]"))
        .arg(text("by", "PERSON", "Who seals it; the factory can read it").required(true))
        .arg(text("reason", "TEXT", "Why; the factory can read it [default: that of the specification]"))
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let folder = matches.get_one::<PathBuf>("folder").ok_or_else(|| Failure::new("no folder is given"))?;
    let progress = stages();
    progress.set_message("reading");
    let loaded = source::folder(folder, &terminal.tally)?;
    let title = title(matches, &loaded)?;
    progress.set_message("checking and computing");
    let none = Levels::new();
    let checked = check(&loaded, &none, false);
    if refused(folder, &loaded, &checked, terminal) {
        progress.finish_and_clear();
        terminal.complain(&Failure::new(format!("revision {} is not sealed", title.revision)));
        return Ok(Exit::Standing);
    }
    progress.set_message("reading sealed revisions");
    let past = chain(folder)?;
    next(&past.iter().collect::<Vec<_>>(), &title.revision, &title.style, title.date)
        .map_err(|why| Failure::new(why.to_string()))?;
    let earlier = opened(folder, past, &terminal.tally)?;
    let (loaded, checked, found) = laid(loaded, checked, &progress)?;
    progress.set_message("typesetting");
    let output = Output::new();
    let secret = secret(folder, &output)?;
    let name = title.revision.clone();
    let sealed = crate::seal(&loaded, &checked, &Sealing { title, secret: &secret.0, earlier: &earlier })
        .map_err(|error| Failure::new(error.to_string()))?;
    let lock = found.as_ref().map(|found| style::item(folder, &found.lock));
    let file = write(folder, &name, &sealed, lock, &output)?;
    progress.finish_and_clear();
    if let Some(found) = &found {
        terminal.remark(&format!("lays, kept in {}:\n{}", backtack_core::lay::lock::FILE, style::told(found)));
    }
    terminal.print(&format!("{}\n{}\n", plain(&file.to_string_lossy()), sealed.digest.hex()))?;
    Ok(Exit::Clear)
}

/// What the seal says, from the arguments and the specification, which must agree: the sheets print the latter.
fn title(matches: &ArgMatches, loaded: &Loaded) -> Result<Title, Failure> {
    let given = |name: &str| matches.get_one::<String>(name).map(String::as_str);
    let revision = &loaded.model.revision;
    let name = given("name").unwrap_or_default();
    fit(name)?;
    let title = Title {
        tool: env!("CARGO_PKG_VERSION").to_string(),
        style: text(&loaded.model.style.id).unwrap_or_default().to_string(),
        revision: agreed("revision", "id", Some(name), text(&revision.id))?,
        stage: agreed("stage", "stage", given("stage"), text(&revision.stage))?,
        date: date(given("date"), open(&revision.date).copied())?,
        by: given("by").unwrap_or_default().to_string(),
        reason: given("reason").or_else(|| text(&revision.reason)).unwrap_or_default().to_string(),
    };
    for (what, value) in [("style number", &title.style), ("person", &title.by), ("reason", &title.reason)] {
        line(value).map_err(|why| Failure::new(format!("the {what} cannot be sealed: {why}")))?;
    }
    for (what, value, flag) in [("who seals it", &title.by, "by"), ("why it is sealed", &title.reason, "reason")] {
        if value.is_empty() {
            return Err(Failure::new(format!("nothing says {what}: add --{flag} \"..\"")));
        }
    }
    Ok(title)
}

/// A text of the specification that the factory may read.
fn text(stated: &Option<Stated<String>>) -> Option<&str> {
    open(stated).map(String::as_str)
}

/// A value of the specification that the factory may read.
fn open<T>(stated: &Option<Stated<T>>) -> Option<&T> {
    stated.as_ref().filter(|one| one.audience == Audience::Everyone).and_then(Stated::known)
}

/// Whether a name can be that of a file on every system.
fn fit(name: &str) -> Result<(), Failure> {
    let inner = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    let ends = |c: char| c.is_ascii_alphanumeric();
    let good = name.chars().all(inner) && name.starts_with(ends) && name.ends_with(ends) && name.len() <= LONGEST;
    let help = format!(
        "\"{name}\" cannot name a revision: up to {LONGEST} letters, digits, `-`, `_`, `.`, a letter or digit first and last"
    );
    if good { Ok(()) } else { Err(Failure::new(help)) }
}

fn agreed(what: &str, key: &str, given: Option<&str>, said: Option<&str>) -> Result<String, Failure> {
    match (given, said) {
        (Some(given), Some(said)) if given != said => Err(Failure::new(format!(
            "the specification says {what} {said}, not {given}: write {key} = \"{given}\" under [revision]"
        ))),
        (Some(value), _) | (None, Some(value)) => Ok(value.to_string()),
        (None, None) => Err(Failure::new(format!("nothing says the {what}: write {key} = \"..\" under [revision]"))),
    }
}

/// The day of sealing: not before the day of issue that the sheets print.
fn date(given: Option<&str>, said: Option<Date>) -> Result<Date, Failure> {
    let given = given.map(str::parse).transpose().map_err(|why: NoDate| Failure::new(why.to_string()))?;
    match (given.or(said), said) {
        (None, _) => Err(Failure::new("nothing says the date: write date = 2026-11-20 under [revision]")),
        (Some(date), Some(said)) if date < said => {
            Err(Failure::new(format!("{date} is before {said}, the revision's date of issue")))
        }
        (Some(date), _) => Ok(date),
    }
}

/// Lists what is in the way, if anything is.
fn refused(folder: &Path, loaded: &Loaded, checked: &Checked, terminal: &mut Terminal) -> bool {
    let mut standing = Findings::default();
    release::standing(&checked.firm).into_iter().for_each(|finding| standing.push(finding.clone()));
    if standing.is_empty() {
        return false;
    }
    let (name, root) = (folder.to_string_lossy(), root(folder, &loaded.style));
    let report = Folder { name: &name, root: &root, findings: &standing, sources: &loaded.sources };
    terminal.remark(&text::print(&[report], terminal.errors()));
    true
}

/// Writes both editions, the sealed file last; neither may be there before.
///
/// # Errors
/// If something of their names is there, the system refuses, there is too much to open again, or another revision was
/// sealed meanwhile.
pub fn write(
    folder: &Path,
    name: &str,
    sealed: &crate::Sealed,
    lock: Option<Item>,
    output: &Output,
) -> Result<PathBuf, Failure> {
    let path = |ending: &str| folder.join(FOLDER).join(format!("{name}.{ending}"));
    let (pdf, file) = (path("pdf"), path(ENDING));
    if u64::try_from(sealed.bytes.len()).is_ok_and(|size| size > LARGEST) {
        return Err(failed(&file, format!("it would be larger than {} MB", LARGEST >> 20)));
    }
    let new = [
        Item { path: pdf.clone(), bytes: sealed.package.pdf.clone() },
        Item { path: file.clone(), bytes: sealed.bytes.clone() },
    ];
    output.create(&new, lock.as_slice())?;
    // Two seals at once would follow the same revision: whoever sees the other one withdraws.
    if let Err(why) = chain(folder) {
        output.withdraw(&[&file, &pdf]);
        return Err(Failure::new(format!("revision {name} is not sealed, another one was meanwhile: {why}")));
    }
    Ok(file)
}

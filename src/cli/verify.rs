//! `verify`: whether a sealed file, or the package made from it, holds what its manifest and its signature say.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use backtack_core::diag::plain;
use backtack_core::read::{self, is_there};
use backtack_core::revision::chain::{Link, ordered};
use backtack_core::revision::manifest::Title;
use backtack_core::revision::seal::{ENDING, Sealed, verified};
use backtack_core::revision::{Digest, pdf, sha256};
use clap::{Arg, ArgMatches, Command, value_parser};

use super::earlier::FOLDER;
use super::signed::{self, Asked, MEANING};
use super::source::{bytes, failed, is_pdf};
use super::terminal::Terminal;
use super::{Exit, Failure};

pub(super) fn define() -> Command {
    Command::new("verify")
        .about("Shows whether sealed revisions are as they were sealed")
        .after_help(
            "Of a folder, it checks every revision and their order. That the newest one is missing shows only\n\
             with --head and the digest that `seal` printed, or that of the manifest, which is on the\n\
             confirmation sheet.\n\
             It checks a signature beside a sealed file, made with `ssh-keygen -Y sign` over outer.txt of it.\n\
             Without a list of signers it prints the key. With one, a key that is not in it is a fault, and a\n\
             key that is valid for a time must be so for the whole day of sealing. A signature says who holds\n\
             the key; where a factory's chop is agreed on, the chop counts.\n\
             Exit codes: 0 nothing changed, 1 something did or a signature does not hold, 2 could not be run.",
        )
        .arg(
            Arg::new("path")
                .value_name("FILE|DIR")
                .value_parser(value_parser!(PathBuf))
                .required(true)
                .help("Sealed revision, PDF package, or style folder"),
        )
        .arg(Arg::new("head").long("head").value_name("DIGEST").help("Digest of the newest revision, from elsewhere"))
        .args(signed::arguments())
}

pub(super) fn run(matches: &ArgMatches, terminal: &mut Terminal) -> Result<Exit, Failure> {
    let path = matches.get_one::<PathBuf>("path").ok_or_else(|| Failure::new("no file is given"))?;
    let head = match matches.get_one::<String>("head") {
        None => None,
        Some(text) => Some(Digest::parse(text).ok_or_else(|| {
            Failure::new("--head takes the 64 digits that `seal` or a confirmation sheet prints, 0 to 9 and a to f")
        })?),
    };
    let asked = Asked::of(matches)?;
    let told = if read::is_folder(path) { folder(path, head, &asked)? } else { file(path, head, &asked)? };
    match told {
        Ok(text) => terminal.print(&text).map(|()| Exit::Clear),
        Err(why) => terminal.print(&format!("{}\n", plain(&why))).map(|()| Exit::Standing),
    }
}

/// What is to be told of something that holds, or what is wrong with it.
type Told = Result<String, String>;

/// One file.
fn file(path: &Path, head: Option<Digest>, asked: &Asked) -> Result<Told, Failure> {
    let bytes = bytes(path)?;
    let name = path.display();
    if is_pdf(&bytes) {
        if asked.file.is_some() || asked.signers.is_some() {
            return Err(failed(path, "what is signed is the sealed file: verify that"));
        }
        return Ok(package(&bytes, head).map_err(|why| format!("{name}: {why}")));
    }
    match verified(&bytes) {
        Err(why) => Ok(Err(format!("{name}: {why}"))),
        Ok(sealed) => revision(path, &sealed, head, asked),
    }
}

/// A sealed file that agrees with its own manifests.
fn revision(path: &Path, sealed: &Sealed<'_>, head: Option<Digest>, asked: &Asked) -> Result<Told, Failure> {
    let digest = sealed.digest.hex();
    if head.is_some_and(|head| head != sealed.digest && head != sealed.outer.inner) {
        let name = path.display();
        return Ok(Err(format!("{name}: revision {} has another digest, {digest}", sealed.outer.revision)));
    }
    let title = line(&sealed.title);
    let text = format!("{title}\nas it was sealed: {digest}\n");
    match asked.one(path)? {
        None => Ok(Ok(text)),
        Some(file) => Ok(asked.told(&file, sealed)?.map(|who| format!("{text}{who}\n{MEANING}"))),
    }
}

/// A PDF package: what it carries agrees with its manifest, and that with the digest of `--head`. Its pages are only held by
/// the seal.
fn package(bytes: &[u8], head: Option<Digest>) -> Told {
    let attached = pdf::read(bytes).map_err(|why| why.to_string())?;
    let manifest = sha256(attached.inner.text().as_bytes());
    if head.is_some_and(|head| head != manifest) {
        return Err(format!("its manifest has another digest, {}", manifest.hex()));
    }
    let files = attached.inner.files.len();
    let title = attached.inner.title.as_ref().map_or_else(|| "not sealed".to_string(), line);
    Ok(format!(
        "{title}\nthe {files} attached files are those of its manifest; its pages are vouched for by the seal of\n\
         the own edition alone, which names the digest of this PDF: {}\n",
        sha256(bytes).hex()
    ))
}

fn line(title: &Title) -> String {
    let Title { style, revision, stage, date, by, reason, .. } = title;
    plain(&format!("{style} revision {revision}, {stage}, sealed {date} by {by}: {reason}"))
}

/// What is known of one sealed file, or why it does not hold.
type Looked = Result<(Link, String), String>;

/// Every revision of a style folder.
fn folder(path: &Path, head: Option<Digest>, asked: &Asked) -> Result<Told, Failure> {
    let folder = path.join(FOLDER);
    let files = read::revisions(&folder, ENDING).map_err(|why| failed(&folder, &why))?;
    if asked.file.is_some() {
        return Err(failed(path, "--signature goes with one sealed file; a folder has NAME.sig beside NAME.sealed"));
    }
    if files.is_empty() {
        return Err(failed(path, "no revision is sealed here"));
    }
    let carried = match signed::carried(&folder, &files)? {
        Ok(carried) => carried,
        Err(why) => return Ok(Err(why)),
    };
    let mut links = Vec::new();
    for looked in all(&files, &carried, asked)? {
        match looked {
            Ok(one) => links.push(one),
            Err(why) => return Ok(Err(why)),
        }
    }
    let plain_links: Vec<Link> = links.iter().map(|(link, _)| link.clone()).collect();
    let told = ordered(&plain_links, head).map(|chain| {
        let lines = chain.iter().filter_map(|link| links.iter().find(|(one, _)| one == *link));
        let text: String = lines.map(|(_, line)| format!("{line}\n")).collect();
        let newest = chain.last().map(|link| link.digest.hex()).unwrap_or_default();
        let meaning = if carried.is_empty() { "" } else { MEANING };
        format!("{text}{} as they were sealed; the newest is {newest}\n{meaning}", chain.len())
    });
    Ok(told.map_err(|why| format!("{}: {why}", folder.display())))
}

/// Looks at every file, as many at once as there are processors; in their order.
fn all(
    files: &[(String, PathBuf)],
    carried: &BTreeMap<String, PathBuf>,
    asked: &Asked,
) -> Result<Vec<Looked>, Failure> {
    let next = AtomicUsize::new(0);
    // Where nobody signs and nobody is asked for, nothing is said of it.
    let unsigned = if carried.is_empty() && asked.signers.is_none() { "" } else { "\n  not signed" };
    let work = || {
        let mut done = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let Some((name, path)) = files.get(at) else { return done };
            let signature = |sealed: &Sealed<'_>| match carried.get(name) {
                None => Ok(unsigned.to_string()),
                Some(file) => match asked.told(file, sealed) {
                    Ok(told) => told.map(|who| format!("\n  {who}")),
                    Err(failure) => Err(failure.to_string()),
                },
            };
            done.push((at, looked(name, path, signature)));
        }
    };
    let count = std::thread::available_parallelism().map_or(1, usize::from).min(files.len());
    let parts = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..count).map(|_| scope.spawn(work)).collect();
        workers.into_iter().map(std::thread::ScopedJoinHandle::join).collect::<Result<Vec<_>, _>>()
    });
    let broken = |_| Failure::new("a look at a sealed revision broke off; this is a defect of backtack");
    let mut done: Vec<_> = parts.map_err(broken)?.into_iter().flatten().collect();
    done.sort_by_key(|(at, _)| *at);
    Ok(done.into_iter().map(|(_, looked)| looked).collect())
}

/// One sealed file, the PDF beside it if that is there, and what its signature adds.
fn looked(name: &str, path: &Path, signature: impl Fn(&Sealed<'_>) -> Told) -> Looked {
    let wrong = |path: &Path, why: &dyn std::fmt::Display| format!("{}: {why}", path.display());
    let bytes = bytes(path).map_err(|failure| failure.to_string())?;
    let sealed = verified(&bytes).map_err(|why| wrong(path, &why))?;
    let beside = path.with_extension("pdf");
    if is_there(&beside) {
        let pdf = self::bytes(&beside).map_err(|failure| failure.to_string())?;
        if sha256(&pdf) != sealed.outer.pdf {
            return Err(wrong(&beside, &"it is not the PDF that was sealed"));
        }
    }
    Ok((Link::of(name, &sealed), line(&sealed.title) + &signature(&sealed)?))
}

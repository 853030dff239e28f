//! Every specification that a rule refuses still gives a package: valid, and marked on each page as not released as long
//! as something must be settled.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use backtack_core::diag::{Finding, Severity};
use backtack_core::pipeline;
use backtack_core::read;

use crate::pdf::{Pdf, squeeze};

/// Fixtures no package can be made of, with the reason. None so far.
const UNREADABLE: &[(&str, &str)] = &[];

/// Threads that typeset at a time; more wait for each other's memory.
const THREADS: usize = 2;

type Files = BTreeMap<String, Vec<u8>>;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules")
}

fn below(folder: &Path) -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    all.sort();
    all
}

fn files(folder: &Path, name: &str, found: &mut Files) {
    for path in below(folder) {
        let own = format!("{name}{}", path.file_name().unwrap().to_str().unwrap());
        if path.is_dir() {
            files(&path, &format!("{own}/"), found);
        } else {
            found.insert(own, std::fs::read(path).unwrap());
        }
    }
}

/// The failing fixtures, by family, code and case, each laid over the clean style.
fn fixtures() -> Vec<(String, Files)> {
    let mut base = Files::new();
    files(&root().join("base"), "", &mut base);
    let folders = |path: &PathBuf| below(path).into_iter().filter(|path| path.is_dir()).collect::<Vec<_>>();
    let mut all = Vec::new();
    for family in folders(&root()) {
        for case in folders(&family).iter().flat_map(folders) {
            let name = case.strip_prefix(root()).unwrap().to_str().unwrap().to_owned();
            if case.file_name().unwrap().to_str().unwrap().starts_with("fails") {
                let mut laid = base.clone();
                files(&case, "", &mut laid);
                all.push((name, laid));
            }
        }
    }
    all
}

/// What is wrong with the package of a fixture.
fn wrong(files: &Files) -> Result<(), String> {
    let list: Vec<(&str, &[u8])> = files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())).collect();
    let loaded = read::files(&list);
    let checked = pipeline::check(&loaded, &Default::default(), false);
    let package = backtack::render(&loaded, &checked, &Default::default()).map_err(|error| error.to_string())?;
    let pdf = Pdf::of(&package.pdf);
    let pages = pdf.pages();
    if pages.is_empty() || pages.len() != package.document.pages().len() {
        return Err(format!("{} pages", pages.len()));
    }
    if pdf.attachments().len() != 3 || !pdf.xmp().contains("<pdfuaid:part>1<") {
        return Err("attachments or metadata are missing".into());
    }
    // An order is no part of the package.
    let path = |one: &Finding| Some(loaded.sources.file(one.places.first()?.span.file)?.path.as_str());
    // Nor is a value in the file of one.
    let value = |one: &Finding| {
        one.rule.code == "implausible-value" && path(one).is_some_and(|path| path.starts_with("orders/"))
    };
    let of_order = |one: &Finding| one.rule.family == "order" || value(one);
    let own = checked.findings.iter().filter(|one| !of_order(one));
    let must = own.filter(|one| one.severity == Severity::Must).count();
    let words = if must == 1 { "finding" } else { "findings" };
    let mark = squeeze(&format!("Not released: {must} {words} must be settled"));
    let marked = pages.iter().filter(|page| page.squeezed().contains(&mark)).count();
    let any = pages.iter().filter(|page| page.squeezed().contains("Notreleased")).count();
    let wanted = if must > 0 { pages.len() } else { 0 };
    match marked == wanted && any == wanted {
        true => Ok(()),
        false => Err(format!("{must} must stand; {marked} of {} pages say so, {any} say some number", pages.len())),
    }
}

#[test]
fn every_failing_fixture_gives_a_package_that_says_whether_it_is_released() {
    let all = fixtures();
    assert!(all.len() > 50, "{}", all.len());
    let next = AtomicUsize::new(0);
    let work = || {
        let mut found = Vec::new();
        while let Some((name, files)) = all.get(next.fetch_add(1, Ordering::Relaxed)) {
            let declared = UNREADABLE.iter().any(|(one, _)| one == name);
            match wrong(files) {
                Err(error) if !declared => found.push(format!("{name}: {error}")),
                Ok(()) if declared => found.push(format!("{name} gives a package and is declared to give none")),
                _ => {}
            }
        }
        found
    };
    let found: Vec<String> = std::thread::scope(|scope| {
        let threads: Vec<_> = (0..THREADS).map(|_| scope.spawn(work)).collect();
        threads.into_iter().flat_map(|thread| thread.join().unwrap()).collect()
    });
    assert!(found.is_empty(), "{}", found.join("\n"));
}

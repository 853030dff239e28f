//! The same input gives the same bytes, whoever builds it, where, and in which surroundings.

use std::collections::BTreeMap;
use std::path::Path;

use backtack::render::lint::page_text;
use backtack_core::revision::sha256;

use crate::built::{Built, examples};
use crate::folder::Scratch;

/// Every file below a folder of the disk, by its path.
fn copied(from: &Path, below: &str, to: &Scratch, rename: &impl Fn(&str) -> String) {
    for entry in std::fs::read_dir(from).unwrap().map(Result::unwrap) {
        let name = format!("{below}{}", entry.file_name().to_str().unwrap());
        if entry.path().is_dir() {
            copied(&entry.path(), &format!("{name}/"), to, rename);
        } else {
            to.write(&format!("style/{}", rename(&name)), std::fs::read(entry.path()).unwrap());
        }
    }
}

/// A package as it lies on the disk.
fn written(built: &Built) -> BTreeMap<String, Vec<u8>> {
    let package = &built.package;
    let drawings = package.drawings.iter().map(|(name, svg)| (format!("drawings/{name}"), svg.clone().into_bytes()));
    let figures = ("figures.json".to_owned(), package.figures.clone().into_bytes());
    let list = ("drawings/.written".to_owned(), listed(built).into_bytes());
    drawings.chain([list, figures, ("package.pdf".to_owned(), package.pdf.clone())]).collect()
}

/// The list of the drawings with their digests.
fn listed(built: &Built) -> String {
    let digests: BTreeMap<&str, String> =
        built.package.drawings.iter().map(|(name, svg)| (name.as_str(), sha256(svg.as_bytes()).hex())).collect();
    let lines = digests.iter().map(|(name, digest)| format!("{digest}  {name}\n"));
    let head = "# Written by `backtack build`. What is gone from the style is removed here, unless it was changed.\n"
        .to_owned();
    std::iter::once(head).chain(lines).collect()
}

/// Which files of two packages differ.
fn differing(a: &BTreeMap<String, Vec<u8>>, b: &BTreeMap<String, Vec<u8>>) -> Vec<String> {
    let names: std::collections::BTreeSet<&String> = a.keys().chain(b.keys()).collect();
    names.into_iter().filter(|name| a.get(*name) != b.get(*name)).cloned().collect()
}

#[test]
fn two_builds_in_one_process() {
    for built in examples() {
        let again = Built::of(&built.folder);
        assert_eq!(differing(&written(built), &written(&again)), [""; 0], "{}", built.name);
    }
}

/// Nothing of the path, the order of making or the age of the files gets into the package.
#[test]
fn built_from_a_copy_elsewhere() {
    for built in examples() {
        let scratch = Scratch::new();
        copied(&built.folder, "", &scratch, &str::to_owned);
        let copy = Built::of(&scratch.path("style"));
        assert_eq!(differing(&written(built), &written(&copy)), [""; 0], "{}", built.name);
    }
}

/// How the tables are shared out among files is up to the user: other names, and with them another order of reading,
/// give the same model. The attached files and the digest differ, and nothing else on the pages.
#[test]
fn names_and_order_of_files_do_not_matter() {
    for built in examples() {
        let scratch = Scratch::new();
        // a becomes z, b becomes y: the order of reading is turned round.
        let turn = |c: char| if c.is_ascii_lowercase() { char::from(b'a' + b'z' - c as u8) } else { c };
        copied(&built.folder, "", &scratch, &|name| match name.strip_suffix(".toml") {
            Some(stem) => format!("{}.toml", stem.chars().map(turn).collect::<String>()),
            None => name.to_owned(),
        });
        let other = Built::of(&scratch.path("style"));
        let pdf_only = ["package.pdf".to_owned()];
        assert_eq!(differing(&written(built), &written(&other)), pdf_only, "{}", built.name);
        let pages = |built: &Built| {
            let text = page_text(&built.package.document.pages());
            let digest = text.lines().skip_while(|line| !line.ends_with("| Digest")).nth(1).unwrap();
            let digest = digest.rsplit(' ').next().unwrap().to_owned();
            assert!(digest.len() == 10 && digest.chars().all(|c| c.is_ascii_hexdigit()), "{digest}");
            // The digest's own ink is as wide as its figures.
            let rest = text.lines().filter(|line| !line.contains(&digest));
            (rest.map(str::to_owned).collect::<Vec<String>>(), digest)
        };
        let ((before, first), (after, second)) = (pages(built), pages(&other));
        let changed: Vec<(&String, &String)> = before.iter().zip(&after).filter(|(a, b)| a != b).collect();
        assert!(changed.is_empty() && before.len() == after.len(), "{}: {changed:#?}", built.name);
        assert_ne!(first, second);
    }
}

/// Time stuffing, locale, threads, clock of reproducible builds, home: none of it is looked at.
#[test]
fn surroundings_of_the_process_do_not_matter() {
    for built in examples() {
        for (number, set) in [
            &[
                ("TZ", "Pacific/Kiritimati"),
                ("LANG", "tr_TR.UTF-8"),
                ("LC_ALL", "tr_TR.UTF-8"),
                ("RAYON_NUM_THREADS", "1"),
            ][..],
            &[
                ("TZ", "America/St_Johns"),
                ("LC_ALL", "C"),
                ("RAYON_NUM_THREADS", "7"),
                ("SOURCE_DATE_EPOCH", "1"),
                ("HOME", "/"),
            ],
        ]
        .iter()
        .enumerate()
        {
            let scratch = Scratch::new();
            let mut command = scratch.command(&["build", built.folder.to_str().unwrap(), "--out", "out"]);
            let output = command.envs(set.iter().copied()).output().unwrap();
            assert_eq!(output.status.code(), Some(0), "{output:?}");
            let files = scratch.files().into_iter().map(|name| {
                let short = name.strip_prefix("out/").unwrap();
                let short = if short.ends_with(".pdf") { "package.pdf" } else { short };
                (short.to_owned(), scratch.read(&name))
            });
            assert_eq!(differing(&written(built), &files.collect()), [""; 0], "{} {number}", built.name);
        }
    }
}

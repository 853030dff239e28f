//! What is meant for the own edition is nowhere in what the factory gets: not on a page, not in a tag or a bookmark, not
//! in an attachment, a figure or a drawing.

use std::collections::BTreeMap;

use backtack_core::diag::Severity;
use backtack_core::pipeline::{self, Checked};
use backtack_core::read::{self, Loaded};
use backtack_core::revision;

use crate::archive::unzip;
use crate::built::{Built, example};
use crate::folder::Scratch;
use crate::pdf::{Pdf, squeeze};

/// Words and numbers that stand nowhere in the example but in what is added here for the own edition only.
const SECRETS: &[&str] = &["Quillfeather", "quillfeather", "341.70693", "34170693", "Marrowbank", "Tuppence"];

/// The cushion with a private file, a private picture and own values in a file for everyone. `more` is one more line of
/// the private file.
fn made(scratch: &Scratch, more: &str) -> Built {
    let cushion = example("floor-cushion");
    for (path, bytes) in &cushion.loaded.closure {
        scratch.write(&format!("tarn/{path}"), bytes);
    }
    let text = String::from_utf8(scratch.read("tarn/materials.toml")).unwrap();
    let own = |value: &str| format!("{{ value = \"{value}\", audience = \"own\" }}");
    let text = replaced(&text, "article = \"QL-10-PD\"", &format!("article = {}", own("Marrowbank 10")));
    let text = replaced(&text, "mass = \"340 g/m2 ±5 %\"", &format!("mass = {}", own("341.70693 g/m2 ±5 %")));
    scratch.write("tarn/materials.toml", text);
    let front = cushion.loaded.closure.iter().find(|(path, _)| path == "pictures/front.png").unwrap();
    scratch.write("tarn/private/Quillfeather.png", &front.1);
    scratch.write(
        "tarn/private/quillfeather.toml",
        format!(
            "# Quillfeather paid Tuppence for the first lot.\n[fabric.quillfeather]\nname = \"Quillfeather ticking\"\n{more}\n\
             [view.mood]\nname = \"Mood\"\npicture = \"private/Quillfeather.png\"\nalt = \"What Quillfeather showed\"\n"
        ),
    );
    Built::of(&scratch.path("tarn"))
}

fn replaced(text: &str, from: &str, to: &str) -> String {
    assert_eq!(text.matches(from).count(), 1, "{from}");
    text.replace(from, to)
}

/// Every text of a package by a name for the message.
fn texts(built: &Built) -> Vec<(String, String)> {
    let pdf = Pdf::of(&built.package.pdf);
    let mut all: Vec<(String, String)> = Vec::new();
    for (number, page) in pdf.pages().into_iter().enumerate() {
        assert_eq!(page.unknown, 0);
        all.push((format!("page {}", number + 1), page.text.clone()));
        all.push((format!("page {}, without its breaks", number + 1), squeeze(&page.text)));
    }
    all.extend(pdf.everything().into_iter().map(|text| ("an object of the PDF".to_owned(), text)));
    all.extend(pdf.structure());
    for (path, bytes) in archive(built) {
        all.push((format!("specification.zip, {path}"), format!("{path}\n{}", String::from_utf8_lossy(&bytes))));
    }
    all.push(("figures.json".into(), built.package.figures.clone()));
    all.extend(built.package.drawings.iter().map(|(name, svg)| (name.clone(), format!("{name}\n{svg}"))));
    all
}

fn archive(built: &Built) -> BTreeMap<String, Vec<u8>> {
    unzip(&Pdf::of(&built.package.pdf).attachments()["specification.zip"].bytes)
}

/// What a factory reads from the attached archive.
fn reread(built: &Built) -> (Loaded, Checked) {
    let files = archive(built);
    let loaded =
        read::closure("", files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())), &Default::default());
    let checked = pipeline::check(&loaded, &Default::default(), false);
    (loaded, checked)
}

#[test]
fn nothing_private_is_anywhere_in_the_package() {
    let scratch = Scratch::new();
    let built = made(&scratch, "");
    let own =
        format!("{:?} {:?}", built.loaded.model, built.loaded.closure.iter().map(|one| &one.0).collect::<Vec<_>>());
    assert!(own.contains("Quillfeather") && own.contains("Marrowbank") && own.contains("quillfeather.toml"));
    assert!(built.checked.figures.json() != built.package.figures, "the own figures know more");
    let mut found = Vec::new();
    for (place, text) in texts(&built) {
        found.extend(SECRETS.iter().filter(|one| text.contains(**one)).map(|one| format!("{one} in {place}")));
    }
    assert!(found.is_empty(), "{found:#?}");
    // The search finds what is for everyone, so it would find the rest too.
    let all = texts(&built);
    for (open, least) in [("Ballan Threads", 2), ("HF-118", 20), ("442", 3)] {
        assert!(all.iter().filter(|(_, text)| text.contains(open)).count() >= least, "{open}");
    }
}

#[test]
fn the_attached_archive_opens_and_checks() {
    let scratch = Scratch::new();
    let built = made(&scratch, "");
    let (loaded, checked) = reread(&built);
    let fabric = format!("{:?}", loaded.model.articles["canvas"]);
    assert_eq!(fabric.matches("Withheld(\"own edition\")").count(), 2, "{fabric}");
    assert!(!loaded.model.articles.contains_key("quillfeather") && !loaded.model.views.contains_key("mood"));
    let said: Vec<String> = checked.findings.iter().map(|finding| finding.message.english()).collect();
    assert_eq!(said, [""; 0], "a withheld value is not a missing one");
    // The printed figures are those that the factory can work out itself, and so is the digest.
    assert_eq!(checked.figures.json(), built.package.figures);
    let files = archive(&built);
    let digest = revision::of_files(files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice()))).short();
    let pages = Pdf::of(&built.package.pdf).pages();
    assert!(pages.iter().all(|page| page.text.contains(&digest)));
}

/// A finding about private things must not be read by the factory, but it is in the way of a release all the same.
#[test]
fn a_private_finding_marks_the_package_and_says_nothing_else() {
    let scratch = Scratch::new();
    let built = made(&scratch, "quillfeather-price = 1");
    let must = built.checked.findings.count(Severity::Must);
    let own = built.checked.findings.iter().filter(|one| one.message.english().contains("quillfeather-price")).count();
    assert!(must >= 1 && own == 1, "{:?}", built.checked.findings);
    for (place, text) in texts(&built) {
        let found: Vec<_> = SECRETS.iter().filter(|one| text.contains(**one)).collect();
        assert!(found.is_empty(), "{found:?} in {place}");
    }
    let pages = Pdf::of(&built.package.pdf).pages();
    assert!(pages.iter().all(|page| page.text.contains("Not released")));
}

//! The PDF of every example, read with an independent parser. What is looked for is written down in the specification
//! or worked out by hand from it; the PDF's own numbers are compared with nothing that was printed from.

use std::collections::BTreeMap;
use std::path::Path;

use backtack::render::lint::page_text;
use backtack_core::rows::labels::labels;
use backtack_core::words::{Language, Languages};
use hayro_syntax::PdfVersion;
use hayro_syntax::object::Dict;

use crate::archive::unzip;
use crate::built::{Built, example, examples};
use crate::pdf::{Pdf, Shown, squeeze};
use crate::{cushion, look};

/// One millimetre in points: an inch is 25.4 mm and 72 points (ISO 32000-1, 8.3.2.3).
const MM: f64 = 72.0 / 25.4;

/// What a file of an example says behind `key = "`, the first time.
fn said(built: &Built, file: &str, key: &str) -> String {
    let text = std::fs::read_to_string(built.folder.join(file)).unwrap();
    let line = text.lines().find_map(|line| line.strip_prefix(&format!("{key} = \""))).unwrap();
    line.trim_end_matches('"').to_owned()
}

#[test]
fn pages_are_those_that_were_laid_out() {
    for built in examples() {
        let pages = Pdf::of(&built.package.pdf).pages();
        assert_eq!(pages.len(), built.package.document.pages().len(), "{}", built.name);
        for page in pages {
            let [width, height] = page.size;
            assert!((width - 297.0 * MM).abs() < 0.01 && (height - 210.0 * MM).abs() < 0.01, "{:?}", page.size);
            assert_eq!(page.unknown, 0, "a character without a Unicode value");
        }
    }
}

/// ISO 19005-3 6.6.4 and ISO 14289-1 clause 5: how a file says what it conforms to.
#[test]
fn metadata_names_both_standards_and_the_document() {
    for built in examples() {
        let pdf = Pdf::of(&built.package.pdf);
        assert_eq!(pdf.version(), PdfVersion::Pdf17);
        let xmp = pdf.xmp();
        for wanted in [
            "<pdfaid:part>3</pdfaid:part>",
            "<pdfaid:conformance>A</pdfaid:conformance>",
            "<pdfuaid:part>1</pdfuaid:part>",
            &said(built, "style.toml", "name"),
        ] {
            assert!(xmp.contains(wanted), "{}: no {wanted} in {xmp}", built.name);
        }
        // The only date is the date of issue.
        let text = std::fs::read_to_string(built.folder.join("style.toml")).unwrap();
        let date = text.lines().find_map(|line| line.strip_prefix("date = ")).unwrap();
        for key in ["CreateDate", "ModifyDate"] {
            assert!(xmp.contains(&format!("<xmp:{key}>{date}T00:00:00")), "{key} in {xmp}");
        }
    }
}

#[test]
fn the_catalog_has_what_a_tagged_document_needs() {
    for built in examples() {
        let pdf = Pdf::of(&built.package.pdf);
        let catalog = pdf.catalog();
        let language: hayro_syntax::object::String<'_> = catalog.get("Lang").unwrap();
        assert_eq!(language.as_bytes(), b"en");
        assert_eq!(catalog.get::<Dict<'_>>("MarkInfo").unwrap().get::<bool>("Marked"), Some(true));
        let shows: Dict<'_> = catalog.get("ViewerPreferences").unwrap();
        assert_eq!(shows.get::<bool>("DisplayDocTitle"), Some(true));
        let titles: Vec<String> =
            pdf.bookmarks().into_iter().filter(|(depth, _)| *depth == 0).map(|one| one.1).collect();
        for wanted in ["Bill of materials", "Pieces", "Construction", "Confirmation"] {
            assert!(titles.iter().any(|title| title == wanted), "{}: {titles:?}", built.name);
        }
    }
}

/// A bookmark says what its page says, word for word: nothing written beside the heading runs into it.
#[test]
fn bookmarks_are_headings_alone() {
    for built in examples() {
        let titles: Vec<String> = Pdf::of(&built.package.pdf).bookmarks().into_iter().map(|one| one.1).collect();
        let runs = page_text(&built.package.document.pages());
        let said: Vec<&str> = runs.lines().filter_map(|line| line.split_once(" | ")).map(|one| one.1.trim()).collect();
        let said = said.join(" ");
        assert!(titles.len() > 10, "{}: {titles:?}", built.name);
        for title in titles {
            assert!(said.contains(&title), "{}: no page says {title:?}", built.name);
        }
    }
}

/// Every picture and drawing has its description, every view the one the user wrote.
#[test]
fn figures_carry_their_alternative_text() {
    for built in examples() {
        let structure = Pdf::of(&built.package.pdf).structure();
        let figures: Vec<&String> = structure.iter().filter(|(role, _)| role == "Figure").map(|one| &one.1).collect();
        assert!(figures.len() >= built.package.drawings.len(), "{}: {}", built.name, figures.len());
        assert!(figures.iter().all(|alt| !alt.trim().is_empty()), "{}: a figure says nothing", built.name);
        let text = std::fs::read_to_string(built.folder.join("measurements.toml")).unwrap();
        let views: Vec<&str> = text.lines().filter_map(|line| line.strip_prefix("alt = \"")).collect();
        assert!(views.len() >= 2);
        for alt in views {
            let alt = alt.trim_end_matches('"');
            assert!(figures.iter().any(|figure| figure.contains(alt)), "{}: no figure says {alt}", built.name);
        }
        let count = |wanted: &str| structure.iter().filter(|(role, _)| role == wanted).count();
        assert!(count("Table") > 5 && count("TH") > 20 && count("TD") > 100 && count("H1") > 5, "{}", built.name);
    }
}

/// Every file of a style folder but what was built there.
fn on_disk(folder: &Path, below: &str, found: &mut BTreeMap<String, Vec<u8>>) {
    for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let name = format!("{below}{}", entry.file_name().to_str().unwrap());
        match entry.path().is_dir() {
            true if name != "out" => on_disk(&entry.path(), &format!("{name}/"), found),
            true => {}
            false => assert!(found.insert(name, std::fs::read(entry.path()).unwrap()).is_none()),
        }
    }
}

#[test]
fn attached_are_the_figures_and_every_file_of_the_specification() {
    for built in examples() {
        let attached = Pdf::of(&built.package.pdf).attachments();
        assert_eq!(attached.keys().collect::<Vec<_>>(), ["figures.json", "manifest.txt", "specification.zip"]);
        let (figures, archive) = (&attached["figures.json"], &attached["specification.zip"]);
        assert_eq!((figures.mime.as_str(), archive.mime.as_str()), ("application/json", "application/zip"));
        for one in attached.values() {
            assert_eq!(one.relationship, "Source");
            assert!(!one.description.is_empty());
        }
        assert_eq!(String::from_utf8_lossy(&figures.bytes), built.package.figures);
        let mut files = BTreeMap::new();
        on_disk(&built.folder, "", &mut files);
        files.retain(|name, _| !["orders/", "revisions/", "samples/"].iter().any(|folder| name.starts_with(folder)));
        let packed = unzip(&archive.bytes);
        assert_eq!(packed.keys().collect::<Vec<_>>(), files.keys().collect::<Vec<_>>(), "{}", built.name);
        for (name, bytes) in &files {
            if name == "backtack.lock" {
                // Without the lays of orders, which are no part of the specification.
                assert!(!String::from_utf8_lossy(&packed[name]).contains("of = \"order"), "{}", built.name);
                continue;
            }
            if name.ends_with(".toml") {
                // Without comments, line by line.
                let [given, own] = [&packed[name], bytes].map(|bytes| String::from_utf8(bytes.clone()).unwrap());
                let same = |(given, own): (&str, &str)| own.starts_with(given) && own.len() - given.len() != 1;
                assert!(given.lines().zip(own.lines()).all(same), "{}: {name} is not as it was", built.name);
                assert_eq!(given.lines().count(), own.lines().count(), "{name}");
                continue;
            }
            let svg = name.ends_with(".svg");
            assert!(svg || packed[name] == *bytes, "{}: {name} is not as it was", built.name);
        }
    }
}

/// That a text stands on a page whose own text starts with these words below the title block.
fn on_page(pages: &[Shown], mark: &str, wanted: &str) {
    let found = pages.iter().any(|page| page.text.contains(mark) && page.squeezed().contains(&squeeze(wanted)));
    assert!(found, "`{wanted}` is on no page with `{mark}`");
}

/// Limits by hand: 450 mm ±max(8 mm, 1.5 %) has 8 mm, since 1.5 % is 6.75 mm; 600 mm has 9 mm.
#[test]
fn text_of_the_cushion() {
    let built = example("floor-cushion");
    let pages = Pdf::of(&built.package.pdf).pages();
    for page in &pages {
        assert!(page.text.contains("\nHF-118\n"), "the style number is not on every page");
    }
    on_page(&pages, "What to measure", "442–458");
    on_page(&pages, "What to measure", "591–609");
    on_page(&pages, "What to buy", "Quarry Lane Weavers (invented)");
    on_page(&pages, "Answer", "Maren Oake");
}

/// Chinese beside English, in the made-up package of the look.
#[test]
fn text_in_two_languages() {
    let mut package = cushion::package();
    package.languages = Languages::both(Language::English, Language::SimplifiedChinese);
    package.labels = labels(package.languages);
    let pages = Pdf::of(&look::rendered(&package).unwrap().pdf).pages();
    assert!(pages.iter().all(|page| page.squeezed().contains("版次") && page.unknown == 0));
}

/// The sides of a path, points.
fn sides(path: &[[f64; 2]]) -> Vec<[f64; 2]> {
    path.windows(2).map(|ends| [ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]]).collect()
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 0.01
}

/// Width and height of a path, points.
fn extent(path: &[[f64; 2]]) -> [f64; 2] {
    [0, 1].map(|axis| {
        let values = || path.iter().map(|point| point[axis]);
        values().fold(f64::NEG_INFINITY, f64::max) - values().fold(f64::INFINITY, f64::min)
    })
}

/// 50 mm are 50 · 72 / 25.4 = 141.732 points, from outer edge to outer edge. The bar is an area of eight corners, open
/// at its top: the only thing on its page that is nearly that long and hardly high.
#[test]
fn the_check_bar_is_fifty_millimetres_on_paper() {
    assert!(near(50.0 * MM, 141.732));
    for built in examples() {
        let pages = Pdf::of(&built.package.pdf).pages();
        let marked: Vec<&Shown> = pages.iter().filter(|page| page.text.contains("50 mm on paper")).collect();
        let extents =
            marked.iter().flat_map(|page| &page.paths).filter(|path| path.len() == 8).map(|path| extent(path));
        let bars: Vec<f64> = extents
            .filter(|[w, h]| (45.0..55.0).contains(&(w / MM)) && (2.0..4.0).contains(&(h / MM)))
            .map(|e| e[0])
            .collect();
        assert!(matches!(bars.as_slice(), [bar] if near(*bar, 141.732)), "{}: {bars:?}", built.name);
    }
}

/// The cushion's PANEL of size S is sewn 450 mm square and cut 12 mm larger all round: 474 mm, drawn 1:10 as 47.4 mm. A piece
/// beside it says that it is drawn 1:20.
#[test]
fn a_piece_is_drawn_to_its_scale() {
    let built = example("floor-cushion");
    let pages = Pdf::of(&built.package.pdf).pages();
    assert!(pages.iter().any(|page| page.text.contains("Scale 1:20")));
    let squares = |mm: f64| {
        let side = |path: &&Vec<[f64; 2]>| {
            let sides = sides(path);
            sides.len() >= 3 && sides.iter().all(|[x, y]| near(x.abs() + y.abs(), mm * MM) && near(x * y, 0.0))
        };
        pages.iter().flat_map(|page| &page.paths).filter(side).count()
    };
    assert_eq!((squares(47.4), squares(45.0)), (1, 1), "cut line and sew line");
}

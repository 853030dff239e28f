//! Attachments of PDFs, good and hostile.

use std::io::Write as _;

use backtack_core::revision::pdf::read;
use flate2::Compression;
use flate2::write::ZlibEncoder;

use super::made::{Parts, factory_files, parts, pdf, pdf_of, stream, title};

fn made() -> Parts {
    parts(title("B", "2026-11-20"))
}

fn why(pdf: &[u8]) -> String {
    read(pdf).err().map_or_else(|| "it is read".into(), |fault| fault.to_string())
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    let mut out = ZlibEncoder::new(Vec::new(), Compression::best());
    out.write_all(bytes).unwrap();
    out.finish().unwrap()
}

#[test]
fn what_is_attached_is_read() {
    let made = made();
    let pdf = made.pdf();
    let attached = read(&pdf).unwrap();
    assert_eq!((&attached.inner, &attached.figures), (&made.inner, &made.figures));
    assert_eq!(attached.files().unwrap(), factory_files());
}

/// Notes and signatures are added behind a PDF (ISO 32000-1, 7.5.6); what was there is still there.
#[test]
fn a_pdf_that_was_added_to_is_read() {
    let first = made().pdf();
    let text = String::from_utf8_lossy(&first).into_owned();
    let table = text.rsplit_once("startxref\n").unwrap().1.split('\n').next().unwrap().to_string();
    let more = |before: Option<&str>| {
        let mut more = first.clone();
        more.extend(b"\n20 0 obj\n<</Type/Annot>>\nendobj\n");
        let (object, place) = (first.len() + 1, more.len());
        let before = before.map_or(place.to_string(), str::to_owned);
        more.extend(
            format!("xref\n20 1\n{object:010} 00000 n \ntrailer\n<</Root 1 0 R/Prev {before}>>\n").into_bytes(),
        );
        more.extend(format!("startxref\n{place}\n%%EOF").into_bytes());
        more
    };
    assert_eq!(why(&more(Some(&table))), "it is read");
    // One that says it was added to itself.
    assert_eq!(why(&more(None)), "it was added to more than 100 times");
}

#[test]
fn what_does_not_agree_with_the_manifest_is_named() {
    let made = made();
    let manifest = made.inner.text();
    let with = |archive: &[u8], figures: &[u8], manifest: &str| {
        why(&pdf(&[("specification.zip", archive), ("figures.json", figures), ("manifest.txt", manifest.as_bytes())]))
    };
    let archive = |files: &[(&str, &[u8])]| backtack_core::revision::stored(files.iter().copied()).unwrap();
    assert_eq!(with(&made.archive, &made.figures, &manifest), "it is read");
    assert_eq!(with(&made.archive, b"{}", &manifest), "figures.json is not that of manifest.txt");
    let files = factory_files();
    let forged = archive(&[files[0], ("style.toml", b"[style]\nid = \"HF-119\"\n")]);
    assert_eq!(with(&forged, &made.figures, &manifest), "style.toml is not that of manifest.txt");
    assert_eq!(with(&archive(&files[..1]), &made.figures, &manifest), "style.toml of manifest.txt is not attached");
    assert_eq!(with(&archive(&files[1..]), &made.figures, &manifest), "style.toml is not in manifest.txt at its place");
    assert!(with(b"PK", &made.figures, &manifest).starts_with("specification.zip: it is no archive"));
    assert!(with(&made.archive, &made.figures, "text").starts_with("manifest.txt: it does not begin with"));
    assert_eq!(why(&pdf(&[])), "no specification.zip is attached: it is no package of backtack");
    let more = pdf(&[
        ("specification.zip", &made.archive),
        ("figures.json", &made.figures),
        ("manifest.txt", manifest.as_bytes()),
        ("evil.exe", b"MZ"),
    ]);
    assert_eq!(why(&more), "evil.exe is attached and does not belong there");
    let twice = pdf(&[("manifest.txt", b"1"), ("manifest.txt", b"2")]);
    assert_eq!(why(&twice), "two attachments are called manifest.txt");
}

/// One attachment, made of the objects of a PDF.
fn one(spec: &str, entries: &str, bytes: &[u8]) -> Vec<u8> {
    let catalog = b"<</Names<</EmbeddedFiles<</Names[(a) 2 0 R]>>>>>>".to_vec();
    pdf_of(&[catalog, spec.into(), stream(entries, bytes)], "/Root 1 0 R")
}

const SPEC: &str = "<</F(a)/EF<</F 3 0 R>>>>";

#[test]
fn hostile_streams_are_refused_within_bounds() {
    assert!(why(&one(SPEC, "/Filter/FlateDecode", &packed(b"x"))).starts_with("no specification.zip"));
    assert_eq!(why(&one(SPEC, "/Filter/FlateDecode", b"no zlib")), "a: its packed bytes are broken");
    assert_eq!(why(&one(SPEC, "/Filter/LZWDecode", b"x")), "a: it is packed in a way that backtack does not write");
    let twice = "/Filter[/FlateDecode/FlateDecode]";
    assert_eq!(why(&one(SPEC, twice, b"x")), "a: it is packed in a way that backtack does not write");
    // 300 MB of zeros in 300 kB: not unpacked beyond the limit.
    let mut bomb = ZlibEncoder::new(Vec::new(), Compression::fast());
    (0..300).for_each(|_| bomb.write_all(&[0; 1 << 20]).unwrap());
    assert_eq!(why(&one(SPEC, "/Filter/FlateDecode", &bomb.finish().unwrap())), "a: it is larger than 256 MB");
    let catalog = b"<</Names<</EmbeddedFiles<</Names[(a) 2 0 R]>>>>>>".to_vec();
    let long = b"<</Length 99999>>\nstream\n12345\nendstream".to_vec();
    assert_eq!(why(&pdf_of(&[catalog, SPEC.into(), long], "/Root 1 0 R")), "a: its bytes are cut off");
    assert_eq!(why(&one("<</F(a)/EF<</F 9 0 R>>>>", "", b"")), "a: its bytes are cut off");
    assert_eq!(why(&one("<</F(a)>>", "", b"")), "a: it has no bytes");
    assert_eq!(why(&one("<</EF<</F 3 0 R>>>>", "", b"")), "an attachment has no name");
}

#[test]
fn hostile_structures_are_refused_within_bounds() {
    let rewritten = "it was rewritten by another program, or is broken: ask for the file as it was sent";
    assert_eq!(why(b"PK\x03\x04"), "it is no PDF");
    assert_eq!(why(b"%PDF-1.7\n"), "it is cut off: its end is missing");
    assert_eq!(why(b"%PDF-1.7\nstartxref\n99999999999999999999\n"), rewritten);
    assert_eq!(why(b"%PDF-1.7\nstartxref\n3\n"), rewritten);
    assert_eq!(why(&pdf_of(&[b"<<>>".to_vec()], "/Root 1 0 R/Encrypt 2 0 R")), "it is encrypted");
    assert_eq!(why(&pdf_of(&[b"1 0 R".to_vec()], "/Root 1 0 R")), rewritten);
    assert_eq!(why(&pdf_of(&[[b"[".repeat(100_000), b"]".repeat(100_000)].concat()], "/Root 1 0 R")), rewritten);
    let tree = |kids: &str| {
        pdf_of(&[format!("<</Names<</EmbeddedFiles<</Kids[{kids}]>>>>/Kids[1 0 R]>>").into()], "/Root 1 0 R")
    };
    assert_eq!(why(&tree("1 0 R")), "its list of attachments goes too deep");
    let many = "(a) 2 0 R ".repeat(101);
    let many = format!("<</Names<</EmbeddedFiles<</Names[{many}]>>>>>>");
    assert_eq!(why(&pdf_of(&[many.into(), SPEC.into()], "/Root 1 0 R")), "more than 100 files are attached");
    // A kid that is its own hundred kids: each level is looked at once a kid, so that the limits multiply.
    let flood = format!("<</Names<</EmbeddedFiles 2 0 R>>/Kids[{}]>>", "1 0 R ".repeat(100));
    let kids = format!("<</Kids[{}]>>", "2 0 R ".repeat(100));
    assert_eq!(why(&pdf_of(&[flood.into(), kids.into()], "/Root 1 0 R")), "its list of attachments goes too deep");
}

/// Cut off or with a byte changed anywhere, it is refused or gives the same: never something else, never a panic.
#[test]
fn a_broken_pdf_gives_nothing_or_what_was_attached() {
    let made = made();
    let bytes = made.pdf();
    let mut numbers = super::Numbers(5);
    for at in 0..bytes.len() {
        assert!(read(&bytes[..at]).is_err() || at + 8 > bytes.len(), "cut off at {at}");
        let mut changed = bytes.clone();
        changed[at] ^= numbers.below(255) as u8 + 1;
        if let Ok(attached) = read(&changed)
            && attached.manifest == made.inner.text()
        {
            assert_eq!(attached.files().unwrap(), factory_files(), "byte {at}");
            assert_eq!(attached.figures, made.figures);
        }
    }
}

//! The one form of archive: read by other code than wrote it, and nothing else read.

use std::io::{Cursor, Read as _, Write as _};

use backtack_core::revision::{named, stored, unpacked};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

fn why(bytes: &[u8]) -> String {
    unpacked(bytes).err().map_or_else(|| "it is read".into(), |fault| fault.to_string())
}

/// Read back with the `zip` crate, which shares no code with the writer.
#[test]
fn another_reader_reads_what_is_written() {
    let files = [("a/ö 你.toml", b"1".as_slice()), ("b.bin", &[0, 255, 10]), ("empty", b"")];
    let bytes = stored(files).unwrap();
    let mut archive = ZipArchive::new(Cursor::new(&bytes)).unwrap();
    assert_eq!(archive.len(), 3);
    for (at, (name, wanted)) in files.into_iter().enumerate() {
        let mut file = archive.by_index(at).unwrap();
        let mut read = Vec::new();
        file.read_to_end(&mut read).unwrap();
        assert_eq!((file.name().unwrap().as_ref(), read.as_slice()), (name, wanted));
        assert_eq!(file.unix_mode(), Some(0o100_644));
        assert_eq!((file.compression(), file.is_symlink()), (CompressionMethod::Stored, false));
    }
    assert_eq!(unpacked(&bytes).unwrap(), files);
    assert_eq!(unpacked(&stored([]).unwrap()).unwrap(), []);
}

/// An archive of another writer with these names, which ours would not write.
fn other(names: &[&str], packed: bool) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let method = CompressionMethod::Stored;
    let options = SimpleFileOptions::default().compression_method(method).large_file(packed);
    for name in names {
        zip.start_file(*name, options).unwrap();
        zip.write_all(b"bytes").unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// One file of ours with another name of the same length.
fn renamed(from: &str, to: &str) -> Vec<u8> {
    assert_eq!(from.len(), to.len());
    let bytes = stored([(from, b"bytes".as_slice())]).unwrap();
    let mut out = bytes.clone();
    for at in (0..bytes.len() - from.len()).filter(|at| bytes[*at..].starts_with(from.as_bytes())) {
        out[at..at + to.len()].copy_from_slice(to.as_bytes());
    }
    out
}

#[test]
fn names_that_lead_elsewhere_are_refused() {
    for name in [
        "../evil.toml",
        "/etc/passwd.",
        "a/../../evil",
        "a//evil.toml",
        "c:\\evil.toml",
        "a/./evil.tml",
        "a\u{1b}[2Jevil",
        "evil.toml/",
    ] {
        assert!(why(&renamed(&"x".repeat(name.len()), name)).ends_with("is no path below a folder"), "{name}");
        assert!(stored([(name, b"".as_slice())]).is_err(), "{name}");
    }
    for name in ["a", "a/b/c.toml", "..a/b", "ö/你.svg", "a b/c"] {
        assert_eq!(named(name), Ok(()));
    }
    assert!(named(&"a".repeat(401)).is_err() && named("").is_err());
}

#[test]
fn what_another_program_wrote_is_refused() {
    assert!(why(&other(&["a.toml"], false)).contains("was changed"), "{}", why(&other(&["a.toml"], false)));
    assert!(why(&other(&["a.toml"], true)).contains("cut off or was changed"));
    assert_eq!(why(b""), "it is no archive of backtack");
    assert_eq!(why(b"PK\x05\x06"), "it is cut off at byte 4");
}

#[test]
fn two_files_of_one_name_are_refused() {
    let bytes = stored([("aa", b"1".as_slice()), ("ab", b"2")]).unwrap();
    let twice: Vec<u8> = bytes.iter().map(|byte| if *byte == b'b' { b'a' } else { *byte }).collect();
    assert_eq!(why(&twice), "two files are called aa");
}

/// A million files: refused after the first twenty thousand, whatever the end record says.
#[test]
fn a_flood_of_files_is_refused() {
    let one = stored([("a", b"".as_slice())]).unwrap();
    let local = &one[..31];
    assert_eq!(why(&local.repeat(1_000_000)), "it holds more than 20000 files");
}

#[test]
fn a_size_that_is_not_there_is_refused_without_taking_memory() {
    let mut bytes = stored([("a", b"1".as_slice())]).unwrap();
    bytes[22..26].copy_from_slice(&[0xff; 4]);
    assert_eq!(why(&bytes), "from byte 0 on it is cut off or was changed");
}

//! The archive of a revision and its digest.

use backtack_core::revision::{of_files, sha256, stored};

/// FIPS 180-4 example: the message "abc" (NIST, SHA-256 example values).
#[test]
fn the_digest_is_sha256() {
    let expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    assert_eq!(sha256(b"abc").hex(), expected);
    assert_eq!(sha256(b"abc").short(), "ba7816bf8f");
}

#[test]
fn the_digest_of_files_ignores_their_order_and_nothing_else() {
    let one = of_files([("a.toml", b"1".as_slice()), ("b.toml", b"2")]);
    let other = of_files([("b.toml", b"2".as_slice()), ("a.toml", b"1")]);
    assert_eq!(one, other);
    assert_ne!(one, of_files([("a.toml", b"2".as_slice()), ("b.toml", b"1")]));
    assert_ne!(one, of_files([("a.toml", b"1".as_slice()), ("c.toml", b"2")]));
}

#[test]
fn the_archive_is_stored_and_the_same_every_time() {
    let files = [("style.toml", b"[style]".as_slice()), ("pictures/front.png", b"\x89PNG")];
    let first = stored(files).expect("written");
    assert_eq!(first, stored(files).expect("written"));
    // Stored: the bytes of each file stand in the archive as they are (PKWARE APPNOTE 4.4.5, method 0).
    for (name, bytes) in files {
        assert!(first.windows(bytes.len()).any(|part| part == bytes), "{name} is not stored");
    }
    // Local file header: signature, then method 0 at offset 8, time 0 and date 1980-01-01 (0x0021) at 10 and 12.
    assert_eq!(&first[0..4], b"PK\x03\x04");
    assert_eq!(&first[8..14], &[0, 0, 0, 0, 0x21, 0]);
}

#[test]
fn two_files_of_one_name_are_refused() {
    assert!(stored([("a", b"1".as_slice()), ("a", b"2")]).is_err());
}

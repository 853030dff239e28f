//! A stored zip read without the crate that wrote it: by its central directory, as section 4.3 of the published format
//! note (APPNOTE.TXT 6.3.10) lays it out.

use std::collections::BTreeMap;

/// Every file of the archive. Fails on compression, a wrong checksum, a date, and on local headers that disagree.
pub fn unzip(bytes: &[u8]) -> BTreeMap<String, Vec<u8>> {
    let end = bytes.len() - 22;
    assert_eq!(&bytes[end..end + 4], b"PK\x05\x06", "the end record is last, without a comment");
    let count = word(bytes, end + 10, 2);
    let mut at = word(bytes, end + 16, 4);
    let mut files = BTreeMap::new();
    for _ in 0..count {
        assert_eq!(&bytes[at..at + 4], b"PK\x01\x02");
        let [name, extra, comment] = [28, 30, 32].map(|offset| word(bytes, at + offset, 2));
        let path = String::from_utf8(bytes[at + 46..at + 46 + name].to_vec()).unwrap();
        let local = word(bytes, at + 42, 4);
        assert_eq!(&bytes[local..local + 4], b"PK\x03\x04");
        // Flags, method, time, date, checksum, sizes and lengths: central directory and local header agree.
        assert_eq!(bytes[at + 8..at + 30], bytes[local + 6..local + 28], "{path}");
        assert_eq!(word(bytes, at + 10, 2), 0, "{path} is stored");
        assert_eq!([12, 14].map(|offset| word(bytes, at + offset, 2)), [0, 0x21], "{path} is of 1 January 1980");
        let start = local + 30 + name + word(bytes, local + 28, 2);
        let data = bytes[start..start + word(bytes, at + 24, 4)].to_vec();
        assert_eq!(crc32(&data) as usize, word(bytes, at + 16, 4), "{path}");
        assert!(files.insert(path, data).is_none());
        at += 46 + name + extra + comment;
    }
    assert_eq!(at, end);
    files
}

/// A little-endian number of `size` bytes.
fn word(bytes: &[u8], at: usize, size: usize) -> usize {
    bytes[at..at + size].iter().rev().fold(0, |sum, &byte| sum << 8 | usize::from(byte))
}

/// CRC-32 with the reversed polynomial 0xEDB88320 (ISO 3309, ITU-T V.42).
fn crc32(data: &[u8]) -> u32 {
    !data.iter().fold(!0, |sum, &byte| {
        (0..8).fold(sum ^ u32::from(byte), |sum, _| (sum >> 1) ^ (0xedb8_8320 & (sum & 1).wrapping_neg()))
    })
}

/// The check value that catalogues of such sums give for this one.
#[test]
fn the_checksum_is_the_usual_one() {
    assert_eq!(crc32(b"123456789"), 0xcbf4_3926);
}

//! PNG without text, times and other data that no picture needs.

/// Chunks that say how the picture looks (ISO/IEC 15948, clause 11): the critical ones, transparency, colour without a
/// profile of its own, size and background.
const KEPT: &[&[u8; 4]] = &[b"IHDR", b"PLTE", b"IDAT", b"tRNS", b"cHRM", b"gAMA", b"sRGB", b"sBIT", b"pHYs", b"bKGD"];

/// A PNG without other chunks and without what follows its end; none if it is not laid out as usual.
pub fn bare(bytes: &[u8], turned: u8) -> Option<Vec<u8>> {
    let mark = b"\x89PNG\r\n\x1a\n";
    let mut rest = bytes.strip_prefix(mark)?;
    let mut out = mark.to_vec();
    let mut said = turned == 1;
    loop {
        let length = usize::try_from(u32::from_be_bytes(*rest.first_chunk::<4>()?)).ok()?;
        let (chunk, after) = rest.split_at_checked(length.checked_add(12)?)?;
        let kind = chunk.get(4..8)?;
        if kind == b"IDAT" && !std::mem::replace(&mut said, true) {
            put(&mut out, b"eXIf", &super::exif::exif(turned));
        }
        if kind == b"IEND" {
            put(&mut out, b"IEND", &[]);
            return Some(out);
        }
        if KEPT.iter().any(|one| one.as_slice() == kind) {
            out.extend_from_slice(chunk);
        } else if kind.first().is_some_and(u8::is_ascii_uppercase) {
            // A critical chunk that is not known here.
            return None;
        }
        rest = after;
    }
}

fn put(out: &mut Vec<u8>, kind: &[u8; 4], data: &[u8]) {
    let body = [kind.as_slice(), data].concat();
    out.extend(u32::try_from(data.len()).unwrap_or(0).to_be_bytes());
    out.extend_from_slice(&body);
    out.extend(crc32fast::hash(&body).to_be_bytes());
}

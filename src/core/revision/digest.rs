//! SHA-256 digests: of bytes, with a key, and of a set of files.

use sha2::{Digest as _, Sha256};

/// A SHA-256 digest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Digest(pub [u8; 32]);

impl Digest {
    /// All 64 hexadecimal digits.
    pub fn hex(&self) -> String {
        self.0.iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// The first ten hexadecimal digits: what stands at the foot of every sheet.
    pub fn short(&self) -> String {
        self.hex().chars().take(10).collect()
    }

    /// Reads 64 lower-case hexadecimal digits, and nothing else.
    pub fn parse(text: &str) -> Option<Digest> {
        let mut bytes = [0; 32];
        let (pairs, rest) = text.as_bytes().as_chunks::<2>();
        if pairs.len() != bytes.len() || !rest.is_empty() {
            return None;
        }
        for (to, [high, low]) in bytes.iter_mut().zip(pairs) {
            *to = digit(*high)? << 4 | digit(*low)?;
        }
        Some(Digest(bytes))
    }
}

fn digit(byte: u8) -> Option<u8> {
    match byte {
        b'0'..=b'9' => Some(byte - b'0'),
        b'a'..=b'f' => Some(byte - b'a' + 10),
        _ => None,
    }
}

/// SHA-256 of some bytes (FIPS 180-4).
pub fn sha256(bytes: &[u8]) -> Digest {
    Digest(Sha256::digest(bytes).into())
}

/// HMAC with SHA-256 (RFC 2104) of the parts one after the other: without the key nothing can be tried against it.
pub fn keyed(key: &[u8; 32], parts: &[&[u8]]) -> Digest {
    let pad = |with: u8| {
        let mut block = [with; 64];
        block.iter_mut().zip(key).for_each(|(to, byte)| *to ^= byte);
        block
    };
    let mut inner = Sha256::new();
    inner.update(pad(0x36));
    parts.iter().for_each(|part| inner.update(part));
    let mut outer = Sha256::new();
    outer.update(pad(0x5c));
    outer.update(inner.finalize());
    Digest(outer.finalize().into())
}

/// One digest for a set of files: SHA-256 over a line for each file in the order of their paths, holding the file's own
/// SHA-256 and its path. The same line format as the `sha256sum` list of the GNU coreutils, so that anyone can check it
/// by hand.
pub fn of_files<'a>(files: impl IntoIterator<Item = (&'a str, &'a [u8])>) -> Digest {
    let mut lines: Vec<(&str, String)> =
        files.into_iter().map(|(path, bytes)| (path, format!("{}  {path}\n", sha256(bytes).hex()))).collect();
    lines.sort();
    let list: String = lines.into_iter().map(|(_, line)| line).collect();
    sha256(list.as_bytes())
}

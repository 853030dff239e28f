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
}

/// SHA-256 of some bytes (FIPS 180-4).
pub fn sha256(bytes: &[u8]) -> Digest {
    Digest(Sha256::digest(bytes).into())
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

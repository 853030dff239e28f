//! Strings and numbers as SSH has them (RFC 4251, 5).

/// Characters of an unknown name that are shown, at most.
const SHOWN: usize = 40;

/// Bytes that are read from the front.
pub struct Wire<'a>(pub &'a [u8]);

impl<'a> Wire<'a> {
    /// A number of 32 bits, the highest byte first.
    pub fn number(&mut self) -> Option<u32> {
        let (bytes, rest) = self.0.split_first_chunk::<4>()?;
        self.0 = rest;
        Some(u32::from_be_bytes(*bytes))
    }

    /// A string: its length, then its bytes.
    pub fn string(&mut self) -> Option<&'a [u8]> {
        let length = usize::try_from(self.number()?).ok()?;
        let (bytes, rest) = self.0.split_at_checked(length)?;
        self.0 = rest;
        Some(bytes)
    }

    /// So many strings, and nothing after them.
    pub fn strings<const N: usize>(mut self) -> Option<[&'a [u8]; N]> {
        let mut all = [self.0; N];
        for one in &mut all {
            *one = self.string()?;
        }
        self.0.is_empty().then_some(all)
    }
}

/// Adds a string.
pub fn put(out: &mut Vec<u8>, bytes: &[u8]) {
    // Names and digests are far shorter than what four bytes count.
    out.extend(u32::try_from(bytes.len()).unwrap_or(u32::MAX).to_be_bytes());
    out.extend_from_slice(bytes);
}

/// A name that is not known, in quotes and fit for one line.
pub fn shown(bytes: &[u8]) -> String {
    let text = String::from_utf8_lossy(bytes);
    let start: String = text.chars().take(SHOWN).collect();
    let more = if start.len() < text.len() { ".." } else { "" };
    format!("\"{}{more}\"", start.escape_debug())
}

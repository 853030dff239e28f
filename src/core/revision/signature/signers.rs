//! Who may sign: a list in the form of OpenSSH (ssh-keygen(1), ALLOWED SIGNERS), a line a key:
//!
//! ```text
//! maren@tarn.example namespaces="backtack-revision",valid-after="20260101" ssh-ed25519 AAAAC3.. a comment
//! ```

use crate::units::Date;

use super::NAMESPACE;
use super::key::{Key, kind};
use super::wire::shown;

/// Whose keys are known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signers {
    lines: Vec<Signer>,
}

/// One line of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Signer {
    names: String,
    namespaces: Option<String>,
    after: Option<Moment>,
    before: Option<Moment>,
    key: Key,
}

/// A day and the seconds of it that have passed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Moment(Date, u32);

impl Signers {
    /// Reads a list.
    ///
    /// # Errors
    /// Names the first line that cannot be read, or that says something which is not understood here.
    pub fn read(text: &str) -> Result<Signers, String> {
        let mut lines = Vec::new();
        for (number, line) in (1..).zip(text.lines()) {
            let line = line.trim_matches([' ', '\t']);
            if !line.is_empty() && !line.starts_with('#') {
                lines.push(Signer::read(line).map_err(|why| format!("line {number}: {why}"))?);
            }
        }
        if lines.is_empty() { Err("it lists no key".into()) } else { Ok(Signers { lines }) }
    }

    /// Whose key this is, if it may sign a revision of that day.
    ///
    /// # Errors
    /// Says why nobody of the list signed with it.
    pub fn who(&self, key: &Key, day: Option<Date>) -> Result<String, String> {
        let (mut names, mut barred) = (Vec::new(), None);
        for line in self.lines.iter().filter(|line| line.key == *key) {
            match line.barred(day) {
                None => names.push(line.names.as_str()),
                Some(why) => barred = barred.or(Some(format!("{} {why}", line.names))),
            }
        }
        match (names.is_empty(), barred) {
            (false, _) => Ok(names.join(", ")),
            (true, Some(why)) => Err(why),
            (true, None) => Err(format!("the key {} is not in the list of signers", key.fingerprint())),
        }
    }
}

impl Signer {
    fn read(line: &str) -> Result<Signer, String> {
        let (names, rest) = field(line)?;
        if names.contains('"') {
            return Err("names in quotes are not read".into());
        }
        let (mut first, mut rest) = field(rest)?;
        let mut signer = (None, None, None);
        if kind(first).is_none() {
            signer = options(first)?;
            (first, rest) = field(rest)?;
        }
        let kind = kind(first).ok_or_else(|| format!("{} is no kind of key", shown(first.as_bytes())))?;
        let (text, _) = field(rest)?;
        if text.is_empty() {
            return Err("it has no key".into());
        }
        let (namespaces, after, before) = signer;
        if after.zip(before).is_some_and(|(after, before)| before <= after) {
            return Err("valid-before is not after valid-after".into());
        }
        Ok(Signer { names: names.into(), namespaces, after, before, key: Key::listed(kind, text)? })
    }

    /// What keeps this key from signing a revision of that day. A day counts only if the whole of it is allowed.
    fn barred(&self, day: Option<Date>) -> Option<String> {
        if self.namespaces.as_ref().is_some_and(|list| !among(NAMESPACE, list)) {
            return Some(format!("may not sign for the namespace \"{NAMESPACE}\""));
        }
        if self.after.is_none() && self.before.is_none() {
            return None;
        }
        let Some(day) = day else { return Some("may sign for a time, and the revision has no date".into()) };
        if self.after.is_some_and(|after| Moment(day, 0) < after) {
            return Some(format!("may not sign as early as {day}"));
        }
        self.before.is_some_and(|before| day >= before.0).then(|| format!("may no longer sign on {day}"))
    }
}

/// The next field, which ends at white space outside quotes, and what follows.
fn field(line: &str) -> Result<(&str, &str), String> {
    let mut quoted = false;
    let end = line.char_indices().find(|(_, c)| {
        quoted ^= *c == '"';
        !quoted && matches!(c, ' ' | '\t')
    });
    match end {
        Some((at, _)) => Ok((&line[..at], line[at..].trim_start_matches([' ', '\t']))),
        None if quoted => Err("a quote is not closed".into()),
        None => Ok((line, "")),
    }
}

type Options = (Option<String>, Option<Moment>, Option<Moment>);

/// The options of a line: `namespaces`, `valid-after`, `valid-before`, each once and with a value in quotes.
fn options(field: &str) -> Result<Options, String> {
    let mut all: Options = (None, None, None);
    let mut quoted = false;
    for option in field.split(|c| {
        quoted ^= c == '"';
        !quoted && c == ','
    }) {
        let (name, value) = option.split_once('=').unwrap_or((option, ""));
        let inner = value.strip_prefix('"').and_then(|value| value.strip_suffix('"'));
        let inner = inner.filter(|inner| !inner.contains(['"', '\\']));
        let value = || inner.ok_or_else(|| format!("the value of {name} does not stand in quotes"));
        let again = match name.to_ascii_lowercase().as_str() {
            "namespaces" => all.0.replace(value()?.to_string()).is_some(),
            "valid-after" => all.1.replace(moment(value()?)?).is_some(),
            "valid-before" => all.2.replace(moment(value()?)?).is_some(),
            "cert-authority" => return Err("certificates are not read (cert-authority)".into()),
            _ => return Err(format!("{} is neither an option nor a kind of key", shown(name.as_bytes()))),
        };
        if again {
            return Err(format!("{name} stands there twice"));
        }
    }
    Ok(all)
}

/// `yyyymmdd`, `yyyymmddhhmm` or `yyyymmddhhmmss`, a `Z` behind it or not: the day of a revision has no time stuffing.
fn moment(text: &str) -> Result<Moment, String> {
    let wrong = || format!("{} is no time such as 20261120 or 202611201830", shown(text.as_bytes()));
    let digits = text.strip_suffix('Z').unwrap_or(text);
    if !matches!(digits.len(), 8 | 12 | 14) || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err(wrong());
    }
    let part = |from: usize, to: usize| digits.get(from..to).map_or(Ok(0), str::parse::<u16>).map_err(|_| wrong());
    let small = |from: usize, to: usize| u8::try_from(part(from, to)?).map_err(|_| wrong());
    let date = Date::new(part(0, 4)?, small(4, 6)?, small(6, 8)?).ok_or_else(wrong)?;
    let (hours, minutes, seconds) = (part(8, 10)?, part(10, 12)?, part(12, 14)?);
    if hours > 23 || minutes > 59 || seconds > 59 {
        return Err(wrong());
    }
    Ok(Moment(date, u32::from(hours) * 3600 + u32::from(minutes) * 60 + u32::from(seconds)))
}

/// Whether a name is among patterns: one fits, and none of those with `!` before them does (ssh_config(5), PATTERNS).
fn among(name: &str, patterns: &str) -> bool {
    let (out, of): (Vec<&str>, Vec<&str>) = patterns.split(',').partition(|one| one.starts_with('!'));
    let hit = |pattern: &str| fits(name.as_bytes(), pattern.as_bytes());
    of.into_iter().any(hit) && !out.into_iter().any(|one| hit(&one[1..]))
}

/// Whether a name fits a pattern, in which `*` stands for any bytes and `?` for one.
fn fits(name: &[u8], pattern: &[u8]) -> bool {
    let (mut at, mut of) = (0, 0);
    // Where the last `*` stands, and how far the name was taken by it.
    let mut star: Option<(usize, usize)> = None;
    while let Some(byte) = name.get(at) {
        match pattern.get(of) {
            Some(b'*') => {
                star = Some((of, at));
                of += 1;
            }
            Some(b'?') => (at, of) = (at + 1, of + 1),
            Some(same) if same == byte => (at, of) = (at + 1, of + 1),
            _ => {
                let Some((from, taken)) = star else { return false };
                star = Some((from, taken + 1));
                (at, of) = (taken + 1, from + 1);
            }
        }
    }
    pattern.get(of..).unwrap_or_default().iter().all(|byte| *byte == b'*')
}

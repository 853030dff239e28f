//! The characters that the built-in type can show, and what becomes of all others on a page.
//!
//! `covered.txt` is written with the fonts by `templates/fonts/subset.py`; a test holds it against the fonts themselves.

use std::sync::LazyLock;

/// Marks that one letter may bear on a page: two, as Vietnamese writes them.
const PILE: usize = 2;
/// What stands for a character that cannot be shown.
pub const PLACEHOLDER: char = '□';

/// Runs of covered characters, first and last, in rising order.
static COVERED: LazyLock<Vec<(char, char)>> =
    LazyLock::new(|| include_str!("covered.txt").lines().filter_map(run).collect());

fn run(line: &str) -> Option<(char, char)> {
    let code = |text: &str| char::from_u32(u32::from_str_radix(text, 16).ok()?);
    let (first, last) = line.split_once('-')?;
    Some((code(first)?, code(last)?))
}

/// Whether both weights of the built-in type have a glyph for a character.
#[must_use]
pub fn covers(c: char) -> bool {
    let after = COVERED.partition_point(|(first, _)| *first <= c);
    after.checked_sub(1).is_some_and(|at| c <= COVERED[at].1)
}

/// The characters of a text that no page can show, each once, sorted.
///
/// Characters that [`clean`] removes or turns into a space are not among them.
#[must_use]
pub fn missing(text: &str) -> Vec<char> {
    let mut out: Vec<char> = fates(text).filter(|(_, fate)| *fate == Fate::Missing).map(|(c, _)| c).collect();
    out.sort_unstable();
    out.dedup();
    out
}

/// The text as it can be printed: tabs and exotic line ends are spaces, invisible controls are gone,
/// characters without a glyph are [`PLACEHOLDER`]s.
#[must_use]
pub fn clean(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for (c, fate) in fates(text) {
        match fate {
            Fate::Shown => out.push(c),
            Fate::Space => out.push(' '),
            Fate::Gone => {}
            Fate::Missing => out.push(PLACEHOLDER),
        }
    }
    out
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fate {
    Shown,
    Space,
    Gone,
    Missing,
}

/// What becomes of each character of a text. Marks piled higher than [`PILE`] would reach into the line above.
fn fates(text: &str) -> impl Iterator<Item = (char, Fate)> {
    let mut piled = 0;
    text.chars().map(move |c| {
        piled = if is_mark(c) { piled + 1 } else { 0 };
        (c, if piled > PILE { Fate::Missing } else { fate(c) })
    })
}

/// Marks that lie on or round the letter before them.
#[must_use]
pub fn is_mark(c: char) -> bool {
    matches!(c, '\u{300}'..='\u{36f}' | '\u{483}'..='\u{489}')
}

fn fate(c: char) -> Fate {
    match c {
        '\n' => Fate::Shown,
        '\t' | '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => Fate::Space,
        _ if c.is_control() || invisible(c) => Fate::Gone,
        _ if covers(c) => Fate::Shown,
        _ => Fate::Missing,
    }
}

/// Soft hyphen, zero-width signs, direction overrides and isolates, variation selectors, tags, byte order mark.
fn invisible(c: char) -> bool {
    matches!(c,
        '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}'..='\u{1160}' | '\u{17b4}'..='\u{17b5}' | '\u{180b}'..='\u{180f}'
        | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{3164}' | '\u{fe00}'..='\u{fe0f}'
        | '\u{feff}' | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}' | '\u{e0000}'..='\u{e0fff}')
}

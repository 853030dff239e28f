//! User text made safe for terminals and pages.

/// The character to show in place of one that could steer a terminal or hide text; `None` if `c` may be shown as it is.
///
/// Control characters become the pictures Unicode has for them (block 2400), the rest the replacement character, so that
/// one character stays one column and underlines stay where they belong.
pub(super) fn visible(c: char) -> Option<char> {
    match c {
        '\u{7f}' => Some('\u{2421}'),
        '\0'..='\u{1f}' => char::from_u32(0x2400 + u32::from(c)),
        '\u{80}'..='\u{9f}' => Some(char::REPLACEMENT_CHARACTER),
        _ if unseen(c) => Some(char::REPLACEMENT_CHARACTER),
        _ => None,
    }
}

/// Characters without a shape of their own: text direction (UAX 9), joiners, separators, annotations, tags.
pub(super) fn unseen(c: char) -> bool {
    matches!(c,
        '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{180e}'
        | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
        | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

/// Text that came from a user, safe to print on a terminal: every control character, escape, line end and direction
/// mark is replaced by a visible symbol.
pub fn plain(text: &str) -> String {
    text.chars().map(|c| visible(c).unwrap_or(c)).collect()
}

/// The same for text of several lines: line ends and tabs stay.
pub fn plain_lines(text: &str) -> String {
    text.split('\n')
        .map(|line| plain(line.trim_end_matches('\r')).replace('\u{2409}', "    "))
        .collect::<Vec<_>>()
        .join("\n")
}

//! TOML without comments, everything else byte for byte.

/// What a place of a TOML file belongs to (TOML 1.0: comments and the four kinds of string).
#[derive(Clone, Copy, PartialEq)]
enum Part {
    Code,
    Comment,
    /// A string with its closing quotes, and whether a backslash escapes in it.
    Text(&'static str, bool),
}

/// Takes comments out of a TOML file, and the white space before them. Strings stay exact, line ends stay.
pub fn without(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut part = Part::Code;
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let (next, taken) = step(part, rest, c);
        let (shown, after) = rest.split_at(taken);
        if next == Part::Comment && part == Part::Code {
            out.truncate(out.trim_end_matches([' ', '\t']).len());
        }
        // The line end that ends a comment is no part of it.
        let comment = part == Part::Comment || next == Part::Comment;
        if !comment || c == '\n' || c == '\r' && after.starts_with('\n') {
            out.push_str(shown);
        }
        (part, rest) = (next, after);
    }
    out
}

/// The part that the next characters belong to or lead into, and how many bytes of them.
fn step(part: Part, rest: &str, c: char) -> (Part, usize) {
    let one = c.len_utf8();
    match part {
        Part::Code => {
            let starts = [("\"\"\"", true), ("'''", false), ("\"", true), ("'", false)];
            match starts.into_iter().find(|(quotes, _)| rest.starts_with(quotes)) {
                Some((quotes, escapes)) => (Part::Text(quotes, escapes), quotes.len()),
                None if c == '#' => (Part::Comment, one),
                None => (Part::Code, one),
            }
        }
        Part::Comment if c == '\n' => (Part::Code, one),
        Part::Comment => (Part::Comment, one),
        Part::Text(quotes, true) if c == '\\' => {
            let next = rest.chars().nth(1).map_or(0, char::len_utf8);
            (Part::Text(quotes, true), one + next)
        }
        // A string of one line that is not closed ends with its line.
        Part::Text(quotes, _) if c == '\n' && quotes.len() == 1 => (Part::Code, one),
        Part::Text(quotes, _) if rest.starts_with(quotes) => {
            // Up to two quotes may stand before the three that close.
            let run = rest.chars().take_while(|next| *next == c).count();
            (Part::Code, if quotes.len() == 3 { run.min(5) } else { 1 })
        }
        Part::Text(..) => (part, one),
    }
}

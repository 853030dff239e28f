//! TOML without comments, everything else byte for byte.

use toml_parser::Source;
use toml_parser::lexer::TokenKind;

/// Takes comments out of a TOML file, and the white space before them. Strings stay exact, line ends stay.
pub fn without(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let (mut end, mut comment) = (0, false);
    for token in Source::new(text).lex() {
        let (from, to) = (token.span().start(), token.span().end());
        // A mark of the byte order is no token.
        out.push_str(text.get(end..from).unwrap_or_default());
        let shown = text.get(from..to).unwrap_or_default();
        end = to;
        if token.kind() == TokenKind::Comment {
            out.truncate(out.trim_end_matches([' ', '\t']).len());
            comment = true;
        } else if !comment || shown.ends_with('\n') {
            // A comment ends with its line, whatever the parser makes of a carriage return within it.
            out.push_str(shown);
            comment = false;
        }
    }
    out
}

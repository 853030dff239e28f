//! Makes text printable: cleans what no page can show, and finds characters the built-in fonts lack.

use serde_json::Value;

use super::engine;

/// What stands for a character that cannot be shown.
pub const PLACEHOLDER: char = '□';

/// A character that was replaced in the view data.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Replaced {
    /// Where: the path of the field in the view data, `sheets[3].groups[0].rows[2].item`.
    pub field: String,
    /// The character.
    pub character: char,
}

/// The characters of a text that the built-in fonts cannot show, each once, sorted.
///
/// Characters that [`clean_text`] removes or turns into a space are not among them.
#[must_use]
pub fn missing_glyphs(text: &str) -> Vec<char> {
    let mut out: Vec<char> = text.chars().filter(|&c| fate(c) == Fate::Missing).collect();
    out.sort_unstable();
    out.dedup();
    out
}

/// The text as it can be printed: tabs and exotic line ends are spaces, invisible controls are gone,
/// characters without a glyph are [`PLACEHOLDER`]s.
#[must_use]
pub fn clean_text(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match fate(c) {
            Fate::Shown => out.push(c),
            Fate::Space => out.push(' '),
            Fate::Gone => {}
            Fate::Missing => out.push(PLACEHOLDER),
        }
    }
    out
}

/// Cleans every string of the view data in place (keys are ours and stay), and reports what was replaced.
pub fn clean(data: &mut Value) -> Vec<Replaced> {
    let mut out = Vec::new();
    walk(data, &mut String::new(), &mut out);
    out
}

fn walk(value: &mut Value, path: &mut String, out: &mut Vec<Replaced>) {
    let stem = path.len();
    match value {
        Value::String(text) => {
            let found = missing_glyphs(text);
            out.extend(found.into_iter().map(|character| Replaced { field: path.clone(), character }));
            *text = clean_text(text);
        }
        Value::Array(items) => {
            for (index, item) in items.iter_mut().enumerate() {
                path.push_str(&format!("[{index}]"));
                walk(item, path, out);
                path.truncate(stem);
            }
        }
        Value::Object(fields) => {
            for (name, item) in fields.iter_mut() {
                path.push_str(if stem == 0 { "" } else { "." });
                path.push_str(name);
                walk(item, path, out);
                path.truncate(stem);
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fate {
    Shown,
    Space,
    Gone,
    Missing,
}

fn fate(c: char) -> Fate {
    match c {
        '\n' => Fate::Shown,
        '\t' | '\r' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}' => Fate::Space,
        _ if c.is_control() || invisible(c) => Fate::Gone,
        _ if engine::covers(c) => Fate::Shown,
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_no_page_can_show_is_cleaned() {
        assert_eq!(clean_text("a\tb\u{2028}c\u{feff}d\u{202e}e\u{0}\u{7}f\u{ad}g"), "a b cdefg");
        assert_eq!(clean_text("two\nlines"), "two\nlines");
    }

    #[test]
    fn characters_without_a_glyph_are_named_once_and_replaced() {
        assert_eq!(missing_glyphs("🧵 thread 🧸 🧵 面料 Ø 5 mm ±3"), ['🧵', '🧸']);
        assert_eq!(clean_text("🧵 thread"), "□ thread");
    }

    /// GB 2312 level 1 begins with 啊 and ends with 座, level 2 begins with 亍 and ends with 齄.
    #[test]
    fn the_fonts_hold_both_levels_of_gb_2312() {
        assert!(missing_glyphs("啊座亍齄").is_empty());
    }

    #[test]
    fn a_replacement_says_where_it_stood() {
        let mut data = serde_json::json!({"sheets": [{"head": {"title": "x\u{5d0}"}}]});
        let found = clean(&mut data);
        assert_eq!(found, [Replaced { field: "sheets[0].head.title".into(), character: '\u{5d0}' }]);
        assert_eq!(data["sheets"][0]["head"]["title"], "x□");
    }
}

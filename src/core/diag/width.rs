//! Columns that text takes on a terminal: an ideograph takes two, an accent of its own none (Unicode Annex 11).

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// Columns of a line.
pub fn columns(line: &str) -> usize {
    line.width()
}

/// A line that takes no more columns than these; where it is cut, it ends with `…`.
pub fn cut(line: &str, most: usize) -> String {
    if columns(line) <= most {
        return line.to_string();
    }
    let mut left = most.saturating_sub(1);
    let fits = |c: &char| {
        let wide = c.width().unwrap_or(0);
        let fits = wide <= left;
        left = left.saturating_sub(wide);
        fits
    };
    line.chars().take_while(fits).chain(['…']).collect()
}

/// Lines of whole words that take no more columns than these, where no single word does.
pub fn wrap(text: &str, most: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    let mut used = 0;
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let length = columns(word);
        if used > 0 && used + 1 + length > most {
            lines.push(String::new());
            used = 0;
        }
        if let Some(line) = lines.last_mut() {
            if used > 0 {
                line.push(' ');
                used += 1;
            }
            line.push_str(word);
        }
        used += length;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::{columns, cut, wrap};

    #[test]
    fn lines_hold_whole_words_and_lose_none() {
        let text = "the last submission of 绒布 plush/soot was rejected";
        let lines = wrap(text, 16);
        assert_eq!(lines, ["the last", "submission of", "绒布 plush/soot", "was rejected"]);
        assert_eq!(wrap("incomprehensibilities are", 10), ["incomprehensibilities", "are"]);
        assert_eq!(wrap("", 10), [""]);
    }

    #[test]
    fn ideographs_take_two_columns_and_accents_none() {
        assert_eq!(columns("plush"), 5);
        assert_eq!(columns("绒布 10 mm"), 10);
        assert_eq!(columns("cafe\u{301}"), 4);
    }

    #[test]
    fn no_line_is_wider_than_it_may_be() {
        assert_eq!(cut("绒布 plush", 10), "绒布 plush");
        assert_eq!(cut("绒布 plush", 9), "绒布 plu…");
        assert_eq!(cut("绒布绒布", 6), "绒布…");
    }
}

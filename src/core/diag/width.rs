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

#[cfg(test)]
mod tests {
    use super::{columns, cut};

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

//! Columns in each unit, on Chinese text and signs beyond the first plane of Unicode.

use backtack_core::source::{Columns, FileId, Sources, Span};

/// `海鹦` is two characters of three bytes and one unit each; the smile one of four bytes and two units.
const TEXT: &str = "name = \"x\"\nnote = \"海鹦😀é\" # end\r\nlast";

fn position(word: &str, columns: Columns) -> (usize, usize) {
    let mut sources = Sources::default();
    sources.add("a.toml", TEXT);
    let start = TEXT.find(word).unwrap();
    sources.line_column_in(Span { file: FileId(0), start, end: start + word.len() }, columns)
}

#[test]
fn columns_count_what_they_say() {
    let all = |word: &str| [Columns::Bytes, Columns::Characters, Columns::Utf16].map(|unit| position(word, unit));
    assert_eq!(all("name"), [(1, 1); 3]);
    assert_eq!(all("海"), [(2, 9); 3]);
    assert_eq!(all("鹦"), [(2, 12), (2, 10), (2, 10)]);
    assert_eq!(all("😀"), [(2, 15), (2, 11), (2, 11)]);
    assert_eq!(all("é"), [(2, 19), (2, 12), (2, 13)]);
    assert_eq!(all("\" #"), [(2, 21), (2, 13), (2, 14)]);
    assert_eq!(all("last"), [(3, 1); 3]);
}

/// A place within a character is that of its first byte; one beyond the text is its end; what is said without a unit counts
/// characters.
#[test]
fn every_place_has_a_column() {
    let mut sources = Sources::default();
    sources.add("a.toml", TEXT);
    let smile = TEXT.find('😀').unwrap();
    for (start, wanted) in [(smile + 2, (2, 11)), (TEXT.len() + 9, (3, 5))] {
        let span = Span { file: FileId(0), start, end: start };
        assert_eq!(sources.line_column_in(span, Columns::Utf16), wanted);
        assert_eq!(sources.line_column(span), sources.line_column_in(span, Columns::Characters));
    }
}

//! Text as data: fixed words with their arguments, and what the user wrote. It becomes a string only where it is printed.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use serde::ser::{Serialize, SerializeMap, Serializer};

use super::language::{Language, Languages};
use crate::units::{Date, Quantity, Rational};

/// The key of a word in JSON.
pub(super) const WORD: &str = "word";
/// The key of a row of phrases in JSON.
pub(super) const ROW: &str = "row";
/// The key of a phrase in JSON that begins with a capital letter.
pub(super) const CAPITAL: &str = "capital";

/// A fixed word or sentence. Arguments stand in braces: `"{piece} has no seam allowance"`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Word {
    /// Name in the files of other languages and in templates: lower case, with hyphens and points.
    pub key: &'static str,
    /// English.
    pub en: &'static str,
}

impl Word {
    /// The text in a language, if there is one.
    pub fn text(&self, language: Language) -> Option<&'static str> {
        match language {
            Language::English => Some(self.en),
            other => other.text(self.key),
        }
    }

    /// The word with its arguments. Use [`say!`](crate::words::say).
    pub fn with(&self, arguments: Vec<(&'static str, Phrase)>) -> Phrase {
        debug_assert_eq!(
            names(self.en),
            arguments.iter().map(|(name, _)| *name).collect::<BTreeSet<_>>(),
            "the arguments of {}",
            self.key
        );
        Phrase::Fixed(*self, arguments)
    }
}

/// The names in braces of a text.
pub fn names(text: &str) -> BTreeSet<&str> {
    let parts = text.split('{').skip(1);
    parts.filter_map(|part| part.split_once('}')).map(|(name, _)| name).filter(|name| is_name(name)).collect()
}

/// Whether a text has no words of its own beside its arguments: `{sheet}: {item}`.
pub(super) fn is_frame(text: &str) -> bool {
    let mut inside = false;
    !text.chars().any(|c| {
        inside = (inside || c == '{') && c != '}';
        !inside && c.is_alphabetic()
    })
}

/// Whether what stands in braces is the name of an argument; anything else, such as TOML in an example, is text.
fn is_name(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_')
}

crate::words! {
    AND "and" = "{first} and {last}";
}

/// What is printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Phrase {
    /// The same in every language: what the user wrote, an id, a finished number.
    Plain(String),
    /// Fixed wording with its arguments by name.
    Fixed(Word, Vec<(&'static str, Phrase)>),
    /// Several in a row, with what stands between them.
    Row(Vec<Phrase>, &'static str),
    /// With its first letter in upper case, in languages that have such letters.
    Capital(Box<Phrase>),
}

impl Phrase {
    /// Nothing.
    pub fn none() -> Self {
        Phrase::Plain(String::new())
    }

    /// Several in a row: `a, b, c`.
    pub fn list(items: impl IntoIterator<Item = impl Into<Phrase>>) -> Self {
        Phrase::row(items, ", ")
    }

    /// Several as a sentence lists them: `a`, `a and b`, `a, b and c`.
    pub fn and(items: impl IntoIterator<Item = impl Into<Phrase>>) -> Self {
        let mut items: Vec<Phrase> = items.into_iter().map(Into::into).collect();
        match items.pop() {
            Some(last) if !items.is_empty() => AND.with(vec![("first", Phrase::list(items)), ("last", last)]),
            Some(only) => only,
            None => Phrase::none(),
        }
    }

    /// Several, each on a line of its own.
    pub fn lines(items: impl IntoIterator<Item = impl Into<Phrase>>) -> Self {
        Phrase::row(items, "\n")
    }

    /// Several with something between them. Empty ones are left out.
    pub fn row(items: impl IntoIterator<Item = impl Into<Phrase>>, between: &'static str) -> Self {
        let mut items: Vec<Phrase> = items.into_iter().map(Into::into).filter(|item| !item.is_empty()).collect();
        match items.len() {
            1 => items.remove(0),
            _ => Phrase::Row(items, between),
        }
    }

    /// The same with its first letter in upper case, in languages that have such letters.
    #[must_use]
    pub fn capital(self) -> Self {
        Phrase::Capital(Box::new(self))
    }

    /// Whether it prints nothing.
    pub fn is_empty(&self) -> bool {
        match self {
            Phrase::Plain(text) => text.is_empty(),
            Phrase::Fixed(word, _) => word.en.is_empty(),
            Phrase::Row(items, _) => items.iter().all(Phrase::is_empty),
            Phrase::Capital(phrase) => phrase.is_empty(),
        }
    }

    /// In English, which every word has.
    pub fn english(&self) -> String {
        self.in_language(Language::English)
    }

    /// In a language; what has no text there is left in English.
    pub fn in_language(&self, language: Language) -> String {
        match self {
            Phrase::Plain(text) => text.clone(),
            Phrase::Fixed(word, arguments) => {
                let argument = |name: &str| arguments.iter().find(|(known, _)| *known == name);
                let text = word.text(language).unwrap_or(word.en);
                filled(text, |name| argument(name).map(|(_, value)| value.in_language(language)))
            }
            Phrase::Row(items, between) => {
                items.iter().map(|item| item.in_language(language)).collect::<Vec<_>>().join(between)
            }
            Phrase::Capital(phrase) => capital(&phrase.in_language(language)),
        }
    }

    /// Whether it says anything in this language that it does not say in every other.
    pub fn speaks(&self, language: Language) -> bool {
        match self {
            Phrase::Plain(_) => false,
            Phrase::Fixed(word, arguments) if is_frame(word.en) => {
                arguments.iter().any(|(_, value)| value.speaks(language))
            }
            Phrase::Fixed(word, _) => word.text(language).is_some(),
            Phrase::Row(items, _) => items.iter().any(|item| item.speaks(language)),
            Phrase::Capital(phrase) => phrase.speaks(language),
        }
    }

    /// As it is printed: in the first language, and on a second line in the second one, where that says something else.
    pub fn print(&self, languages: Languages) -> String {
        let first = self.in_language(languages.first);
        match self.second(languages) {
            Some(second) => format!("{first}\n{second}"),
            None => first,
        }
    }

    /// The second line.
    pub fn second(&self, languages: Languages) -> Option<String> {
        let second = languages.second.filter(|second| self.speaks(*second))?;
        let text = self.spoken(second);
        (text != self.in_language(languages.first)).then_some(text)
    }

    /// In a language, without what the line above already says: the items of a row that are the same in every language.
    fn spoken(&self, language: Language) -> String {
        match self {
            Phrase::Row(items, between) => {
                let spoken = items.iter().filter(|item| item.speaks(language));
                spoken.map(|item| item.spoken(language)).collect::<Vec<_>>().join(between)
            }
            Phrase::Capital(phrase) => capital(&phrase.spoken(language)),
            _ => self.in_language(language),
        }
    }
}

/// By its English, so that a list reads the same in every run; then by what it is made of.
impl Ord for Phrase {
    fn cmp(&self, other: &Self) -> Ordering {
        self.english().cmp(&other.english()).then_with(|| format!("{self:?}").cmp(&format!("{other:?}")))
    }
}

impl PartialOrd for Phrase {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// English, for the terminal.
impl std::fmt::Display for Phrase {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(&self.english())
    }
}

/// In JSON a plain text is a string, a word `{"word": key, "en": text, "with": {..}}`, a row `{"row": [..], "between": text}`, one with a capital `{"capital": phrase}`:
/// [`printed`](super::printed) makes strings of them all.
impl Serialize for Phrase {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Phrase::Plain(text) => serializer.serialize_str(text),
            Phrase::Fixed(word, arguments) => {
                let mut map = serializer.serialize_map(Some(3))?;
                map.serialize_entry(WORD, word.key)?;
                map.serialize_entry("en", word.en)?;
                map.serialize_entry(
                    "with",
                    &arguments.iter().map(|(name, value)| (*name, value)).collect::<BTreeMap<_, _>>(),
                )?;
                map.end()
            }
            Phrase::Row(items, between) => {
                let mut map = serializer.serialize_map(Some(2))?;
                map.serialize_entry(ROW, items)?;
                map.serialize_entry("between", between)?;
                map.end()
            }
            Phrase::Capital(phrase) => {
                let mut map = serializer.serialize_map(Some(1))?;
                map.serialize_entry(CAPITAL, phrase)?;
                map.end()
            }
        }
    }
}

/// What files that hold no words have of a text.
pub trait English {
    /// The same in English.
    fn in_english(&self) -> impl Serialize;
}

impl English for Phrase {
    fn in_english(&self) -> impl Serialize {
        self.english()
    }
}

impl English for Option<Phrase> {
    fn in_english(&self) -> impl Serialize {
        self.as_ref().map(Phrase::english)
    }
}

impl English for BTreeSet<Phrase> {
    fn in_english(&self) -> impl Serialize {
        self.iter().map(Phrase::english).collect::<Vec<_>>()
    }
}

impl English for BTreeMap<String, Phrase> {
    fn in_english(&self) -> impl Serialize {
        self.iter().map(|(id, text)| (id.clone(), text.english())).collect::<BTreeMap<_, _>>()
    }
}

/// Writes texts as their English.
///
/// # Errors
/// What the writer refuses.
pub fn english<S: Serializer>(text: &impl English, out: S) -> Result<S::Ok, S::Error> {
    text.in_english().serialize(out)
}

/// The first letter in upper case.
pub(super) fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| first.to_uppercase().chain(chars).collect())
}

/// A text with its arguments put in. What stands in braces and is no argument stays.
pub(super) fn filled(text: &str, argument: impl Fn(&str) -> Option<String>) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, behind)) = rest.split_once('{') {
        out.push_str(before);
        let found = behind.split_once('}').and_then(|(name, after)| Some((argument(name)?, after)));
        match found {
            Some((value, after)) => {
                out.push_str(&value);
                rest = after;
            }
            None => {
                out.push('{');
                rest = behind;
            }
        }
    }
    out + rest
}

/// Nothing.
impl Default for Phrase {
    fn default() -> Self {
        Phrase::none()
    }
}

impl From<Word> for Phrase {
    fn from(word: Word) -> Self {
        word.with(Vec::new())
    }
}

impl From<&Word> for Phrase {
    fn from(word: &Word) -> Self {
        word.with(Vec::new())
    }
}

impl From<String> for Phrase {
    fn from(text: String) -> Self {
        Phrase::Plain(text)
    }
}

impl From<&String> for Phrase {
    fn from(text: &String) -> Self {
        Phrase::Plain(text.clone())
    }
}

impl From<&str> for Phrase {
    fn from(text: &str) -> Self {
        Phrase::Plain(text.to_string())
    }
}

impl From<&Phrase> for Phrase {
    fn from(phrase: &Phrase) -> Self {
        phrase.clone()
    }
}

impl From<&&str> for Phrase {
    fn from(text: &&str) -> Self {
        Phrase::Plain((*text).to_string())
    }
}

impl From<&&String> for Phrase {
    fn from(text: &&String) -> Self {
        Phrase::Plain((*text).clone())
    }
}

/// As it is written: a figure of the user, exact, or a day.
macro_rules! written {
    ($($kind:ty),*) => {
        $(impl From<$kind> for Phrase {
            fn from(figure: $kind) -> Self {
                Phrase::Plain(figure.to_string())
            }
        }
        impl From<&$kind> for Phrase {
            fn from(figure: &$kind) -> Self {
                Phrase::Plain(figure.to_string())
            }
        })*
    };
}
written!(Rational, Quantity, Date);

/// A count in digits.
macro_rules! counts {
    ($($kind:ty),*) => {
        $(impl From<$kind> for Phrase {
            fn from(count: $kind) -> Self {
                Phrase::Plain(count.to_string())
            }
        })*
    };
}
counts!(i64, u32, u64, usize);

/// Declares words as constants: `NAME "key" = "English with {argument}";`. With `list:` in front they are collected in `ALL`.
#[macro_export]
macro_rules! words {
    ($($name:ident $key:literal = $en:literal;)*) => {
        $(
            #[doc = concat!("“", $en, "”")]
            pub const $name: $crate::words::Word = $crate::words::Word { key: $key, en: $en };
        )*
    };
    (list: $($name:ident $key:literal = $en:literal;)*) => {
        $crate::words! { $($name $key = $en;)* }
        /// Every word of this list.
        pub const ALL: &[$crate::words::Word] = &[$($name),*];
    };
}
pub use words;

/// A word with its arguments by name: `say!(MISSING, piece = id, edges = Phrase::list(edges))`; a name alone stands for a
/// variable of that name.
#[macro_export]
macro_rules! say {
    ($word:expr $(, $name:ident $(= $value:expr)?)* $(,)?) => {
        $word.with(vec![$((stringify!($name), Into::<$crate::words::Phrase>::into($crate::say!(@value $name $(= $value)?)))),*])
    };
    (@value $name:ident = $value:expr) => { $value };
    (@value $name:ident) => { $name };
}
pub use say;

#[cfg(test)]
mod tests {
    use super::*;

    const MISSING: Word = Word { key: "test.missing", en: "{what} has no seam allowance on {edges}" };
    const PIECE: Word = Word { key: "piece", en: "piece" };

    #[test]
    fn arguments_are_put_in_by_name() {
        let phrase = say!(MISSING, what = "piece TOP", edges = Phrase::list(["a-b", "b-c"]));
        assert_eq!(phrase.english(), "piece TOP has no seam allowance on a-b, b-c");
    }

    #[test]
    fn braces_that_are_no_argument_stay() {
        let word = Word { key: "test.braces", en: "write { all = \"{value}\" }" };
        assert_eq!(say!(word, value = "5 mm").english(), "write { all = \"5 mm\" }");
        assert_eq!(say!(word, value = "{value}").english(), "write { all = \"{value}\" }");
    }

    #[test]
    fn a_second_line_stands_only_where_it_says_something_else() {
        let both = Languages::both(Language::English, Language::SimplifiedChinese);
        assert_eq!(Phrase::from(PIECE).print(both), "piece\n裁片");
        assert_eq!(Phrase::from("Puffin").print(both), "Puffin");
        let turned = Languages::both(Language::SimplifiedChinese, Language::English);
        assert_eq!(Phrase::from(PIECE).print(turned), "裁片\npiece");
        assert_eq!(Phrase::from(PIECE).print(Languages::only(Language::SimplifiedChinese)), "裁片");
    }

    #[test]
    fn what_has_no_text_in_a_language_is_left_in_english() {
        assert_eq!(
            say!(MISSING, what = PIECE, edges = "").in_language(Language::SimplifiedChinese),
            "裁片 has no seam allowance on "
        );
    }

    #[test]
    fn the_second_line_says_only_what_it_has_words_for() {
        let both = Languages::both(Language::English, Language::SimplifiedChinese);
        let frame = Word { key: "test.frame", en: "{what}: {name}" };
        assert_eq!(say!(frame, what = PIECE, name = "TOP").print(both), "piece: TOP\n裁片: TOP");
        assert_eq!(say!(frame, what = "TOP", name = "BOT").print(both), "TOP: BOT");
        assert_eq!(Phrase::list(["TOP".into(), Phrase::from(PIECE)]).print(both), "TOP, piece\n裁片");
    }

    #[test]
    #[should_panic(expected = "the arguments of test.missing")]
    fn an_argument_that_is_left_out_is_a_defect() {
        let _ = say!(MISSING, what = "x");
    }
}

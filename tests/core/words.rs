//! Wording and number formats. The formats follow ISO 80000-1 (groups of three, unit set apart) and ISO 8601-1 (dates).

use std::collections::BTreeSet;

use backtack_core::grammar::keys;
use backtack_core::model::kind;
use backtack_core::units::{Date, Rational};
use backtack_core::words::number::{
    cm2, counted, grams, grouped, limits, mm, number, percent, tolerance, unit, with_unit,
};
use backtack_core::words::{self, Language, Languages, Phrase, Word, foot, head, sheet};
use proptest::prelude::*;

fn exact(text: &str) -> Rational {
    Rational::parse(text).unwrap()
}

#[test]
fn halves_go_away_from_nought() {
    for (value, places, printed) in [
        (0.5, 0, "1"),
        (-0.5, 0, "-1"),
        (1.5, 0, "2"),
        (2.5, 0, "3"),
        (2.675, 2, "2.68"),
        (1.005, 2, "1.01"),
        (0.125, 2, "0.13"),
        (0.124_999_999, 2, "0.12"),
        (99.95, 1, "100.0"),
        (9.999, 0, "10"),
        (250.0, 1, "250.0"),
        (1e-7, 3, "0.000"),
        (1e21, 0, "1 000 000 000 000 000 000 000"),
    ] {
        assert_eq!(number(value, places), printed.replace(' ', "\u{a0}"), "{value}");
    }
}

#[test]
fn nought_has_no_sign() {
    for value in [-0.0, -0.04, -1e-300, 0.0] {
        assert_eq!(number(value, 1), "0.0");
    }
    assert_eq!(number(exact("-0.04"), 1), "0.0");
    assert_eq!(number(-0.05, 1), "-0.1");
}

#[test]
fn what_is_no_number_is_not_printed_as_one() {
    for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert_eq!(number(value, 2), "not a number");
    }
    assert!(number(f64::MAX, 0).len() > 300);
}

#[test]
fn groups_start_at_five_digits() {
    assert_eq!(grouped("1234.56789"), "1234.56789");
    assert_eq!(grouped("12345.67"), "12\u{a0}345.67");
    assert_eq!(grouped("-1234567"), "-1\u{a0}234\u{a0}567");
    assert_eq!(number(100_000_usize, 0), "100\u{a0}000");
}

#[test]
fn units_stand_apart() {
    assert_eq!(mm(12.25, 1), "12.3\u{a0}mm");
    assert_eq!(cm2(exact("1031.45"), 1), "1031.5\u{a0}cm²");
    assert_eq!(grams(38.4, 0), "38\u{a0}g");
    assert_eq!(percent(5.0, 0), "5\u{a0}%");
    assert_eq!(with_unit(320.0, 0, "g/m2"), "320\u{a0}g/m²");
    assert_eq!(
        (unit("m3"), unit("oz/yd2"), unit("st/cm"), unit("2")),
        ("m³".into(), "oz/yd²".into(), "st/cm".into(), "2".into())
    );
}

#[test]
fn limits_and_tolerances() {
    assert_eq!(limits(243.0, 257.0, 0), "243–257");
    assert_eq!(limits(exact("59.5"), exact("61"), 1), "59.5–61.0");
    assert_eq!(limits(-3.0, 5.0, 0), "-3 to 5");
    assert_eq!(tolerance(7.0, 7.0, 0), "±7");
    assert_eq!(tolerance(5.0, 3.0, 0), "+5/-3");
    assert_eq!(tolerance(exact("0.4"), exact("0.4"), 1), "±0.4");
}

#[test]
fn dates_of_the_calendar() {
    let day = |text: &str| text.parse::<Date>();
    assert_eq!(day("2026-11-20").unwrap().to_string(), "2026-11-20");
    // Gregorian leap years: 2000 is one, 1900 and 2100 are not (Inter gravissimas, 1582).
    assert!(day("2000-02-29").is_ok() && day("2028-02-29").is_ok());
    for wrong in [
        "1900-02-29",
        "2100-02-29",
        "2026-02-29",
        "2026-13-01",
        "2026-00-10",
        "2026-04-31",
        "2026-1-2",
        "20-11-2026",
        "2026-11-20T00:00",
        "2026-11-20-",
        "+026-11-20",
        "1582-10-15",
        "２026-11-20",
        "",
    ] {
        let said = format!("\"{wrong}\" is no date; write year, month and day: 2026-11-20");
        assert_eq!(day(wrong).unwrap_err().to_string(), said);
    }
    assert!(Date::new(2026, 11, 20) < Date::new(2026, 12, 1));
}

fn all() -> impl Iterator<Item = &'static Word> {
    words::LISTS.iter().copied().flatten()
}

#[test]
fn every_key_is_there_once() {
    let keys: BTreeSet<&str> = all().map(|word| word.key).collect();
    assert_eq!(keys.len(), all().count());
    assert!(keys.iter().all(|key| key.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')));
    assert_eq!(words::find("allowance"), Some(&head::ALLOWANCE));
    assert_eq!(words::find("nothing"), None);
}

/// Marks that sheets explain.
const MARKS: [char; 3] = ['△', '↑', '↓'];

#[test]
fn words_of_sheets_are_plain_english() {
    for word in all() {
        let plain = word.en.chars().all(|c| c.is_ascii() || MARKS.contains(&c));
        assert!(!word.en.trim().is_empty() && plain, "{}", word.key);
    }
}

/// A file of another language reads, is in its language, and has the arguments of the English word.
#[test]
fn another_language_is_one_file_in_that_language() {
    let texts = Language::SimplifiedChinese.texts();
    assert!(texts.len() > 100, "{}", texts.len());
    let ascii_letters = |text: &str| {
        let mut bare = text.to_string();
        words::names(text).iter().for_each(|name| bare = bare.replace(&format!("{{{name}}}"), ""));
        bare.chars().any(|c| c.is_ascii_alphabetic())
    };
    for (key, text) in texts {
        assert!(!text.trim().is_empty() && !ascii_letters(text), "{key}: {text}");
        if let Some(word) = words::find(key) {
            assert_eq!(words::names(word.en), words::names(text), "{key}");
        }
    }
}

#[test]
fn chinese_is_the_trades_own() {
    // Terms as toy factories use them (common practice), not dictionary words.
    for (word, zh) in [
        (head::PILE, "毛向"),
        (head::ALLOWANCE, "止口"),
        (head::CONSUMPTION, "单件用量"),
        (head::WASTAGE, "损耗"),
        (head::OPENING, "充棉口"),
        (sheet::FILLING, "充棉"),
        (head::SEALED_SAMPLE, "封样"),
    ] {
        let both = Languages::both(Language::English, Language::SimplifiedChinese);
        assert_eq!(Phrase::from(word).second(both).as_deref(), Some(zh));
        assert_eq!(Phrase::from(word).second(Languages::default()), None);
    }
}

#[test]
fn every_sheet_has_a_name_and_a_title() {
    for name in ["cover", "views", "bill", "pieces", "construction", "filling", "measurements", "confirmation"] {
        assert!(words::find(name).is_some(), "{name}");
        assert!(words::find(&format!("{name}-title")).is_some(), "{name}");
    }
}

#[test]
fn kinds_count_and_take_their_article() {
    let piece = kind::of("piece").unwrap();
    assert_eq!((piece.one.en, piece.many.en), ("piece", "pieces"));
    assert_eq!(counted(12_000usize, "piece", "pieces"), "12\u{a0}000 pieces");
    assert_eq!(counted(1usize, "piece", "pieces"), "1 piece");
    assert_eq!(kind::of("opening").unwrap().with_article(), "an opening");
    assert_eq!(kind::of("point-of-measure").unwrap().with_article(), "a point of measure");
    assert!(kind::of("Piece").is_none());
}

#[test]
fn foot_lines() {
    assert_eq!(foot::sheet_of(3, 12).english(), "sheet 3 of 12");
    assert_eq!(foot::sheet_of(3, 12).in_language(Language::SimplifiedChinese), "第 3 页，共 12 页");
    assert_eq!(foot::not_released(1, Some("2")).english(), "Not released: 1 finding must be settled (page 2)");
    assert_eq!(foot::not_released(2, None).english(), "Not released: 2 findings must be settled");
    assert_eq!(foot::questions_open(3, "2").english(), "3 questions open (page 2)");
}

proptest! {
    /// The same decimal through binary and through exact fractions prints the same.
    #[test]
    fn both_ways_agree(units in -10_000_000_i64..10_000_000, scale in 0_u32..6, places in 0_u32..6) {
        let text = {
            let digits = format!("{:07}", units.abs());
            let point = digits.len() - scale as usize;
            let sign = if units < 0 { "-" } else { "" };
            if scale == 0 { format!("{sign}{digits}") } else { format!("{sign}{}.{}", &digits[..point], &digits[point..]) }
        };
        prop_assert_eq!(number(text.parse::<f64>().unwrap(), places), number(exact(&text), places));
    }

    /// What is printed lies within half a last digit of the value.
    #[test]
    fn rounding_is_to_the_nearest(value in -1e6_f64..1e6, places in 0_u32..4) {
        let printed: f64 = number(value, places).replace('\u{a0}', "").parse().unwrap();
        prop_assert!((printed - value).abs() <= 0.5 / 10_f64.powi(places as i32) + 1e-9);
    }
}

#[test]
fn languages_are_named_by_their_tags_and_printed_by_their_codes() {
    let both = Languages::both(Language::SimplifiedChinese, Language::English);
    assert_eq!((both.codes().as_str(), Language::of("zh-Hans")), ("zh, en", Some(Language::SimplifiedChinese)));
    assert_eq!(Languages::both(Language::English, Language::English), Languages::only(Language::English));
    assert_eq!(Language::of("de"), None);
}

/// The grammar and the list of kinds speak of the same tables, each once.
#[test]
fn every_table_has_one_kind() {
    let mut of_grammar: Vec<&str> = keys::kinds().iter().map(|kind| kind.name).collect();
    let mut of_kinds: Vec<&str> = kind::KINDS.iter().map(|kind| kind.table).collect();
    of_grammar.sort_unstable();
    of_kinds.sort_unstable();
    assert_eq!(of_grammar, of_kinds);
    for kind in kind::KINDS {
        assert!(kind::GROUPS.iter().any(|group| group.key == kind.group.key), "{}: no such heading", kind.table);
    }
}

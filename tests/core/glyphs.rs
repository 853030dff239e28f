//! What the built-in type covers, and what becomes of other characters.

use backtack_core::glyphs::{clean, covers, missing};

/// Sentences of our own that hold every special letter of their language, small and capital.
pub const SENTENCES: &[(&str, &str)] = &[
    ("Czech", "Šij žlutou plyšovou růži: čtyři dílky, ďábelský ocásek, měkký nůžkový řez, ťuk, tráva, kůň, óda, úl."),
    ("Czech capitals", "ÁČĎÉĚÍŇÓŘŠŤÚŮÝŽ"),
    ("Polish", "Włóż miękką gąbkę w różowe ucho, źdźbło i nić; ściśnij, potem zszyj łódź."),
    ("Polish capitals", "ĄĆĘŁŃÓŚŹŻ"),
    ("Turkish", "Pelüş ayı için ğ, ş ve ı: İğneyle dikiş, köşede çıt, gümüş düğme."),
    ("Turkish capitals", "ÇĞIİÖŞÜ"),
    (
        "Greek",
        "Ράψε τη ζεστή αρκούδα: ψαλίδι, φόδρα, χάντρες, ώμος, ήλιος, ύφασμα, ό,τι έμεινε, ξύλο, ϊ, ϋ, ΐ, ΰ, βάθος.",
    ),
    ("Greek capitals", "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩ ΆΈΉΊΌΎΏΪΫ"),
    ("Russian", "Сшей мягкую ёлку: щётка, объём, эскиз, цвет, жёлтый фетр, подъезд, юбка, хвост, чехол, зигзаг."),
    ("Russian capitals", "АБВГДЕЁЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯ"),
    ("Ukrainian", "Зший ґудзик і м’який їжак: щільність, тканина, є, фарба, цупкий хвіст, юний чохол."),
    ("Ukrainian capitals", "АБВГҐДЕЄЖЗИІЇЙКЛМНОПРСТУФХЦЧШЩЬЮЯ"),
    ("Vietnamese", "Khâu chặt đường viền gấu bông, nhồi đủ bông sợi, giữ mũi chỉ nhỏ; vải dễ giãn, kẻ vạch rồi cắt."),
    ("Vietnamese letters", "ăâđêôơư àảãáạ ằẳẵắặ ầẩẫấậ èẻẽéẹ ềểễếệ ìỉĩíị òỏõóọ ồổỗốộ ờởỡớợ ùủũúụ ừửữứự ỳỷỹýỵ"),
    ("Vietnamese capitals", "ĂÂĐÊÔƠƯ ÀẢÃÁẠ ẰẲẴẮẶ ẦẨẪẤẬ ÈẺẼÉẸ ỀỂỄẾỆ ÌỈĨÍỊ ÒỎÕÓỌ ỒỔỖỐỘ ỜỞỠỚỢ ÙỦŨÚỤ ỪỬỮỨỰ ỲỶỸÝỴ"),
];

#[test]
fn sentences_of_seven_languages_are_shown_whole() {
    for (language, text) in SENTENCES {
        assert_eq!(missing(text), [], "{language}");
        assert_eq!(clean(text), *text, "{language}");
    }
}

/// Whole blocks of the Unicode standard: Latin-1 letters, Latin Extended-A and B, Latin Extended Additional, and the
/// basic block of Cyrillic. Greek has gaps where nothing is assigned.
#[test]
fn blocks_of_letters_are_whole() {
    for block in ['\u{c0}'..='\u{ff}', '\u{100}'..='\u{24f}', '\u{1e00}'..='\u{1eff}', '\u{400}'..='\u{4ff}'] {
        let gaps: Vec<char> = block.filter(|c| !covers(*c)).collect();
        assert_eq!(gaps, []);
    }
    assert!(('\u{391}'..='\u{3a1}').chain('\u{3a3}'..='\u{3ce}').all(covers));
}

/// GB 2312 level 1 begins with 啊 and ends with 座, level 2 begins with 亍 and ends with 齄.
#[test]
fn signs_of_sheets_and_both_levels_of_gb_2312_are_shown() {
    assert_eq!(missing("啊座亍齄"), []);
    assert_eq!(missing("△ ▲ □ ■ ½ ¼ ⅓ ← ↑ → ↓ ↔ ⇒ ✓ ✂ ⚠ ② ° ′ ″ ± × ÷ · ≤ ≥ ≠ ≈ µ Ω Ø ² ³ ‰ № ™ € ₽"), []);
}

#[test]
fn characters_without_a_glyph_are_named_once_and_replaced() {
    assert_eq!(missing("🧵 thread 🧸 🧵 面料 Ø 5 mm ±3 ש"), ['ש', '🧵', '🧸']);
    assert_eq!(clean("🧵 thread"), "□ thread");
}

#[test]
fn what_no_page_can_show_is_cleaned() {
    assert_eq!(clean("a\tb\u{2028}c\u{feff}d\u{202e}e\u{0}\u{7}f\u{ad}g"), "a b cdefg");
    assert_eq!(clean("two\nlines"), "two\nlines");
}

/// The list is read whole: each line is a run, and runs rise without touching.
#[test]
fn the_list_of_covered_characters_is_in_order() {
    let text = include_str!("../../src/core/glyphs/covered.txt");
    let mut last = 0;
    for line in text.lines() {
        let (first, end) = line.split_once('-').unwrap();
        let [first, end] = [first, end].map(|code| u32::from_str_radix(code, 16).unwrap());
        assert!(first > last + 1 && end >= first, "{line}");
        assert!([first, end].iter().all(|code| covers(char::from_u32(*code).unwrap())), "{line}");
        last = end;
    }
}

#[test]
fn marks_piled_higher_than_letters_bear_are_no_text() {
    assert!(missing("\u{1ec7} e\u{323}\u{302}").is_empty(), "two, as Vietnamese has them");
    assert_eq!(missing("e\u{301}\u{301}\u{301}\u{301}"), ['\u{301}']);
    assert_eq!(clean("e\u{301}\u{301}\u{301}."), "e\u{301}\u{301}□.");
}

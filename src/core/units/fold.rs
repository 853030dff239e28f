//! What people write that is not accepted, and what they mean by it.

use super::{Dimension, Unit};

/// Characters and words outside ASCII with their accepted spelling; longer ones first.
const FOLDED: [(&str, &str); 48] = [
    ("平方米", "m2"),
    ("立方米", "m3"),
    ("毫米", "mm"),
    ("厘米", "cm"),
    ("公分", "cm"),
    ("千克", "kg"),
    ("公斤", "kg"),
    ("毫升", "ml"),
    ("英寸", "in"),
    ("英尺", "ft"),
    ("分钟", "min"),
    ("°C", "C"),
    ("º C", "C"),
    ("° C", "C"),
    ("ºC", "C"),
    ("米", "m"),
    ("克", "g"),
    ("码", "yd"),
    ("磅", "lb"),
    ("升", "l"),
    ("个", "pc"),
    ("只", "pc"),
    ("㎜", "mm"),
    ("㎝", "cm"),
    ("㎞", "km"),
    ("㎎", "mg"),
    ("㎏", "kg"),
    ("㎟", "mm2"),
    ("㎠", "cm2"),
    ("㎡", "m2"),
    ("㎤", "cm3"),
    ("㎥", "m3"),
    ("㏄", "cm3"),
    ("㎖", "ml"),
    ("㎪", "kPa"),
    ("℃", "C"),
    ("°", "deg"),
    ("º", "deg"),
    ("²", "2"),
    ("³", "3"),
    ("·", " "),
    ("⋅", " "),
    ("″", "in"),
    ("”", "in"),
    ("“", "in"),
    ("′", "ft"),
    ("’", "ft"),
    ("‰", "per mille"),
];

/// Spellings of units that are not accepted, in lower case and without spaces.
const ALIASES: [(&str, Unit); 90] = [
    ("\"", Unit::In),
    ("''", Unit::In),
    ("inch", Unit::In),
    ("inches", Unit::In),
    ("ins", Unit::In),
    ("in.", Unit::In),
    ("'", Unit::Ft),
    ("foot", Unit::Ft),
    ("feet", Unit::Ft),
    ("yard", Unit::Yd),
    ("yards", Unit::Yd),
    ("yds", Unit::Yd),
    ("y", Unit::Yd),
    ("millimetre", Unit::Mm),
    ("millimeter", Unit::Mm),
    ("millimetres", Unit::Mm),
    ("millimeters", Unit::Mm),
    ("mms", Unit::Mm),
    ("centimetre", Unit::Cm),
    ("centimeter", Unit::Cm),
    ("centimetres", Unit::Cm),
    ("centimeters", Unit::Cm),
    ("cms", Unit::Cm),
    ("metre", Unit::M),
    ("meter", Unit::M),
    ("metres", Unit::M),
    ("meters", Unit::M),
    ("mtr", Unit::M),
    ("micron", Unit::Um),
    ("microns", Unit::Um),
    ("micrometre", Unit::Um),
    ("sqm", Unit::M2),
    ("m^2", Unit::M2),
    ("sqcm", Unit::Cm2),
    ("cm^2", Unit::Cm2),
    ("mm^2", Unit::Mm2),
    ("gram", Unit::G),
    ("grams", Unit::G),
    ("gr", Unit::G),
    ("gm", Unit::G),
    ("gms", Unit::G),
    ("kilo", Unit::Kg),
    ("kilos", Unit::Kg),
    ("kgs", Unit::Kg),
    ("kilogram", Unit::Kg),
    ("kilograms", Unit::Kg),
    ("ounce", Unit::Oz),
    ("ounces", Unit::Oz),
    ("lbs", Unit::Lb),
    ("pound", Unit::Lb),
    ("pounds", Unit::Lb),
    ("gsm", Unit::GPerM2),
    ("g/sqm", Unit::GPerM2),
    ("g/m^2", Unit::GPerM2),
    ("gm2", Unit::GPerM2),
    ("gr/m2", Unit::GPerM2),
    ("osy", Unit::OzPerYd2),
    ("oz/sqyd", Unit::OzPerYd2),
    ("oz/yd^2", Unit::OzPerYd2),
    ("decitex", Unit::Dtex),
    ("stitches/cm", Unit::StPerCm),
    ("stitchespercm", Unit::StPerCm),
    ("sts/cm", Unit::StPerCm),
    ("spcm", Unit::StPerCm),
    ("stitches/in", Unit::StPerIn),
    ("stitches/inch", Unit::StPerIn),
    ("stitchesperinch", Unit::StPerIn),
    ("sts/in", Unit::StPerIn),
    ("st/inch", Unit::StPerIn),
    ("spi", Unit::StPerIn),
    ("newton", Unit::N),
    ("newtons", Unit::N),
    ("n.m", Unit::Nm),
    ("n*m", Unit::Nm),
    ("in-lbf", Unit::InLbf),
    ("lbfin", Unit::InLbf),
    ("inlb", Unit::InLbf),
    ("in-lb", Unit::InLbf),
    ("lbin", Unit::InLbf),
    ("pce", Unit::Pc),
    ("sec", Unit::S),
    ("mins", Unit::Min),
    ("hr", Unit::H),
    ("hours", Unit::H),
    ("cc", Unit::Cm3),
    ("percent", Unit::Percent),
    ("pcs", Unit::Pc),
    ("pieces", Unit::Pc),
    ("piece", Unit::Pc),
    ("degrees", Unit::Deg),
];

/// Characters that do not show: joiners, direction marks, byte order marks, soft hyphens.
const INVISIBLE: [std::ops::RangeInclusive<char>; 5] = [
    '\u{ad}'..='\u{ad}',
    '\u{200b}'..='\u{200f}',
    '\u{202a}'..='\u{202e}',
    '\u{2060}'..='\u{2069}',
    '\u{feff}'..='\u{feff}',
];

/// Units of other trades, in lower case and without spaces: known words, so never a slip of the pen
/// for a unit of this list.
const ELSEWHERE: [&str; 23] = [
    "km", "dm", "mil", "pt", "t", "st", "f", "k", "psi", "pa", "mpa", "cn", "kn", "j", "w", "v", "cl", "dl", "gal",
    "ms", "den", "mi", "rad",
];

/// The accepted spelling of the first character or word at the start of `rest`, with its length in
/// bytes: `None` for a character that has none.
fn folded_start(rest: &str) -> Option<(usize, String)> {
    for (from, to) in FOLDED {
        if rest.starts_with(from) {
            return Some((from.len(), to.to_owned()));
        }
    }
    let c = rest.chars().next()?;
    if INVISIBLE.iter().any(|range| range.contains(&c)) {
        return Some((c.len_utf8(), String::new()));
    }
    let plain = match c {
        // Full-width forms stand in the order of ASCII.
        '\u{ff01}'..='\u{ff5e}' => char::from_u32(u32::from(c) - 0xfee0)?,
        '\u{2212}' | '\u{2010}'..='\u{2014}' => '-',
        'µ' | 'μ' => 'u',
        '、' => ',',
        '。' => '.',
        c if c.is_whitespace() => ' ',
        _ => return None,
    };
    Some((c.len_utf8(), plain.to_string()))
}

/// The first part of the text outside ASCII that is not `±`: its byte range and, where every such
/// part has one, the text in accepted characters.
pub(super) fn foreign(text: &str) -> Option<(std::ops::Range<usize>, Option<String>)> {
    let is_foreign = |c: char| !c.is_ascii() && c != '±';
    let start = text.find(is_foreign)?;
    let first = text.get(start..)?;
    let len = folded_start(first).map_or_else(|| first.chars().next().map_or(0, char::len_utf8), |(len, _)| len);
    Some((start..start + len, folded(text)))
}

/// The whole text in accepted characters.
fn folded(text: &str) -> Option<String> {
    let mut out = String::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let len = if c.is_ascii() || c == '±' {
            out.push(c);
            c.len_utf8()
        } else {
            let (len, plain) = folded_start(rest)?;
            out.push_str(&plain);
            len
        };
        rest = rest.get(len..)?;
    }
    Some(out)
}

/// The unit of this name in another spelling, preferring those of the expected dimensions.
pub(super) fn named(written: &str, expected: &[Dimension]) -> Option<Unit> {
    let plain = plain(written);
    let same = |unit: &Unit| bare(*unit) == plain;
    let all = || Unit::ALL.into_iter();
    all()
        .find(|unit| same(unit) && expected.contains(&unit.dimension()))
        .or_else(|| all().find(same))
        .or_else(|| ALIASES.iter().find(|(name, _)| *name == plain).map(|(_, unit)| *unit))
}

/// The unit of the expected dimensions with the fewest letters to change: at most one, or two in a
/// long word, and never all. Digits must agree, since an area is no misspelt length; other signs
/// than those of units mean something else.
pub(super) fn closest(written: &str, expected: &[Dimension]) -> Option<Unit> {
    let plain = plain(written);
    let strange = |c: char| !c.is_ascii_alphanumeric() && !"/.%".contains(c);
    if ELSEWHERE.contains(&plain.as_str()) || plain.contains(strange) {
        return None;
    }
    let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    let length = plain.chars().count();
    let reach = if length > 4 { 2 } else { 1 };
    Unit::ALL
        .into_iter()
        .filter(|unit| expected.is_empty() || expected.contains(&unit.dimension()))
        .filter(|unit| digits(unit.symbol()) == digits(&plain))
        .map(|unit| (strsim::osa_distance(&plain, &bare(unit)), unit))
        .filter(|(distance, _)| *distance <= reach && *distance < length)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, unit)| unit)
}

/// A written unit in lower case and without spaces.
fn plain(written: &str) -> String {
    written.chars().filter(|c| !c.is_whitespace()).collect::<String>().to_ascii_lowercase()
}

/// A symbol in lower case and without spaces.
fn bare(unit: Unit) -> String {
    unit.symbol().replace(' ', "").to_ascii_lowercase()
}

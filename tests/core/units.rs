//! Quantities: exactness, conversions against published factors, tolerances, and every refusal.

use backtack_core::units::{
    Amount, Cause, Dimension, Limits, Quantity, QuantityError, QuantityErrorKind as Kind, Rational, Tolerance, Unit,
};
use backtack_core::words::Phrase;
use proptest::prelude::*;

const ANY: &[Dimension] = &[];
const LENGTH: &[Dimension] = &[Dimension::Length];

fn number(text: &str) -> Rational {
    Rational::parse(text).unwrap()
}

fn read(text: &str) -> Quantity {
    Quantity::parse(text, ANY).unwrap_or_else(|error| panic!("{text}: {error:?}"))
}

fn refused(text: &str, expected: &[Dimension]) -> QuantityError {
    match Quantity::parse(text, expected) {
        Ok(read) => panic!("{text:?} was read as {read:?}"),
        Err(error) => error,
    }
}

/// Source: NIST SP 811, appendix B, and the international yard and pound agreement of 1959
/// (0.9144 m, 0.45359237 kg exactly).
#[test]
fn conversions_are_the_published_exact_factors() {
    let exact = [
        ("1 in", Unit::Mm, "25.4"),
        ("1 ft", Unit::M, "0.3048"),
        ("1 yd", Unit::M, "0.9144"),
        ("1 lb", Unit::Kg, "0.45359237"),
        ("1 oz", Unit::G, "28.349523125"),
        ("1 lbf", Unit::N, "4.4482216152605"),
        ("1 in lbf", Unit::Nm, "0.1129848290276167"),
        ("16 oz", Unit::Lb, "1"),
        ("36 in", Unit::Yd, "1"),
        ("1 bar", Unit::KPa, "100"),
        ("1 l", Unit::Cm3, "1000"),
        ("1 m3", Unit::L, "1000"),
        ("1 m2", Unit::Cm2, "10000"),
        ("1 d", Unit::H, "24"),
        ("254 st/cm", Unit::StPerIn, "645.16"),
        // ISO 1144: 1 tex is 1 g per 1000 m, ten decitex.
        ("1 tex", Unit::Dtex, "10"),
        ("1 g/m", Unit::Tex, "1000"),
    ];
    for (text, unit, value) in exact {
        assert_eq!(read(text).in_unit(unit), Some(number(value)), "{text} in {unit}");
    }
    assert_eq!(read("1 in").in_unit(Unit::G), None);
}

/// Source: the same agreement; an ounce is 28.349523125 g, a square yard 0.83612736 m2. The rounded
/// figures of the table are the usual 33.906 g/m2 per oz/yd2.
#[test]
fn fabric_weights_convert_between_ounces_and_grams() {
    let exact = number("28.349523125").checked_div(number("0.83612736"));
    assert_eq!(read("1 oz/yd2").in_unit(Unit::GPerM2), exact);
    assert!((exact.unwrap().to_f64() - 33.905_747_474_882_3).abs() < 1e-12);
    for (ounces, grams) in [("1", "33.906"), ("6", "203.43"), ("10", "339.06"), ("8.2582", "280.0")] {
        let found = read(&format!("{ounces} oz/yd2")).in_unit(Unit::GPerM2).unwrap();
        let places = grams.split_once('.').map_or(0, |(_, d)| d.len());
        assert_eq!(found.fixed(u32::try_from(places).unwrap()), grams, "{ounces} oz/yd2");
    }
}

#[test]
fn every_unit_has_its_own_symbol_and_the_usual_one_fits() {
    for unit in Unit::ALL {
        assert_eq!(Unit::from_symbol(unit.symbol()), Some(unit));
        assert!(unit.si_factor().is_positive());
        let usual = unit.dimension().usual();
        assert_eq!(usual.dimension(), unit.dimension());
    }
}

#[test]
fn accepted_spellings_have_one_canonical_form() {
    let spellings = [
        ("450 mm", "450 mm"),
        ("5mm", "5 mm"),
        ("  450   mm ", "450 mm"),
        ("450\tmm", "450 mm"),
        ("0.50 in", "0.5 in"),
        ("007 g", "7 g"),
        ("-5 C", "-5 C"),
        ("6 pc", "6 pc"),
        ("0.8 N  m", "0.8 N m"),
        ("250 mm ±5 mm", "250 mm ±5 mm"),
        ("250 mm±5mm", "250 mm ±5 mm"),
        ("250 mm +-5 mm", "250 mm ±5 mm"),
        ("250 mm +/- 5 mm", "250 mm ±5 mm"),
        ("250 mm ± 0.5 cm", "250 mm ±0.5 cm"),
        ("320 g/m2 ±5 %", "320 g/m2 ±5 %"),
        ("320 g/m2 ±5%", "320 g/m2 ±5 %"),
        ("60 mm ±max(5 mm, 3 %)", "60 mm ±max(5 mm, 3 %)"),
        ("60 mm ±max( 5 mm,3 % )", "60 mm ±max(5 mm, 3 %)"),
        ("250 mm +5/-3 mm", "250 mm +5/-3 mm"),
        ("250 mm +5 mm/-3 mm", "250 mm +5/-3 mm"),
        ("250 mm +5 mm / -1 %", "250 mm +5 mm/-1 %"),
        ("320 g/m2 +10 g/m2/-5 g/m2", "320 g/m2 +10/-5 g/m2"),
    ];
    for (text, canonical) in spellings {
        let quantity = read(text);
        assert_eq!(quantity.written(), canonical, "{text}");
        assert_eq!(quantity.text, text.split_whitespace().collect::<Vec<_>>().join(" "));
    }
}

#[test]
fn limits_are_exact() {
    let cases = [
        ("250 mm ±5 mm", "0.245", "0.255"),
        ("250 mm +5/-3 mm", "0.247", "0.255"),
        ("320 g/m2 ±5 %", "0.304", "0.336"),
        ("60 mm ±max(5 mm, 3 %)", "0.055", "0.065"),
        ("600 mm ±max(5 mm, 3 %)", "0.582", "0.618"),
        ("250 mm ±0.5 cm", "0.245", "0.255"),
        // Percentage points, not a share of the percentage.
        ("60 % ±3 %", "0.57", "0.63"),
        ("150 C ±5 C", "145", "155"),
        ("5 mm ±0 mm", "0.005", "0.005"),
        ("-10 mm ±10 %", "-0.011", "-0.009"),
    ];
    for (text, lower, upper) in cases {
        let limits = Limits { lower: number(lower), upper: number(upper) };
        assert_eq!(read(text).limits(), Some(limits), "{text}");
    }
    assert_eq!(read("250 mm").limits(), None);
    let inches = read("2 in ±0.25 in").limits().and_then(|limits| limits.in_unit(Unit::In));
    assert_eq!(inches, Some(Limits { lower: number("1.75"), upper: number("2.25") }));
}

#[test]
fn limits_round_inward_to_the_step() {
    let cases = [
        ("60.5 mm ±0.6 mm", "1 mm", "0.06", "0.061"),
        ("250 mm ±5.4 mm", "1 mm", "0.245", "0.255"),
        ("250 mm ±5 mm", "1 mm", "0.245", "0.255"),
        ("333 g ±5 %", "5 g", "0.32", "0.345"),
        ("-5.5 C ±1 C", "1 C", "-6", "-5"),
        ("2 in ±0.3 in", "0.125 in", "0.04445", "0.05715"),
    ];
    for (text, step, lower, upper) in cases {
        let limits = Limits { lower: number(lower), upper: number(upper) };
        assert_eq!(read(text).limits_at(&read(step)), Ok(limits), "{text} at {step}");
    }
}

#[test]
fn limits_that_cross_give_both_numbers() {
    let crossed = read("60.5 mm ±0.4 mm").limits_at(&read("1 mm")).unwrap_err();
    assert_eq!(crossed.cause, Cause::Crossed);
    assert_eq!((crossed.lower, crossed.upper), (number("0.061"), number("0.06")));
    for (text, step, cause) in [
        ("60 mm", "1 mm", Cause::NoTolerance),
        ("60 mm ±1 mm", "0 mm", Cause::UnusableStep),
        ("60 mm ±1 mm", "-1 mm", Cause::UnusableStep),
        ("60 mm ±1 mm", "1 g", Cause::UnusableStep),
    ] {
        assert_eq!(read(text).limits_at(&read(step)).map_err(|c| c.cause), Err(cause), "{text} at {step}");
    }
}

/// In metres as binary floating point, some of these readings fall outside: the reason for exact
/// numbers, counted here so that the claim stays true.
#[test]
fn a_reading_exactly_on_its_limit_is_inside() {
    let (mut pairs, mut float_refused) = (0, 0);
    for target in (10..=500).step_by(10) {
        for tenths in 1..=55 {
            let tolerance = format!("{}.{}", tenths / 10, tenths % 10);
            let limits = read(&format!("{target} mm ±{tolerance} mm")).limits().unwrap();
            let upper = Rational::new(target * 10 + tenths, 10).unwrap();
            let lower = Rational::new(target * 10 - tenths, 10).unwrap();
            for reading in [lower, upper] {
                let reading = read(&format!("{reading} mm"));
                assert!(limits.contains(reading.si()), "{reading} of {target} ±{tolerance} mm");
                pairs += 1;
            }
            let outside = upper.checked_add(number("0.000001")).unwrap();
            assert!(!limits.contains(read(&format!("{outside} mm")).si()));
            let (nominal, plus) = (target as f64 / 1000.0, tenths as f64 / 10.0 / 1000.0);
            if upper.to_f64() / 1000.0 > nominal + plus {
                float_refused += 1;
            }
        }
    }
    assert_eq!(pairs, 2 * 2750);
    assert!(float_refused > 0, "floating point would do here");
}

/// A refused text, what was expected, the kind, the offending part and the text proposed instead.
type Refusal = (&'static str, &'static [Dimension], fn(&Kind) -> bool, &'static str, Option<&'static str>);

const NO_UNIT: fn(&Kind) -> bool = |kind| *kind == Kind::BareNumber;
const NUMBER: fn(&Kind) -> bool = |kind| *kind == Kind::BadNumber;
const TOLERANCE: fn(&Kind) -> bool = |kind| *kind == Kind::BadTolerance;
const LARGE: fn(&Kind) -> bool = |kind| *kind == Kind::TooLarge;
const FOREIGN: fn(&Kind) -> bool = |kind| *kind == Kind::NonAscii;
const UNKNOWN: fn(&Kind) -> bool = |kind| matches!(kind, Kind::UnknownUnit { .. });
const OTHER: fn(&Kind) -> bool = |kind| matches!(kind, Kind::WrongDimension { .. });

const FABRIC: &[Dimension] = &[Dimension::MassPerArea];
const STITCH: &[Dimension] = &[Dimension::Density];
const WARMTH: &[Dimension] = &[Dimension::Temperature];
const TORQUE: &[Dimension] = &[Dimension::Torque];

const REFUSALS: &[Refusal] = &[
    ("450", LENGTH, NO_UNIT, "450", Some("450 mm")),
    ("450", FABRIC, NO_UNIT, "450", Some("450 g/m2")),
    ("450", ANY, NO_UNIT, "450", None),
    ("250 ±5 mm", LENGTH, NO_UNIT, "250", Some("250 mm ±5 mm")),
    ("25 ± 0.5 cm", LENGTH, NO_UNIT, "25", Some("25 cm ±0.5 cm")),
    ("250 ±5", LENGTH, NO_UNIT, "250", Some("250 mm ±5 mm")),
    ("250 ±3 %", LENGTH, NO_UNIT, "250", Some("250 mm ±3 %")),
    ("240-260 mm", LENGTH, NO_UNIT, "240", Some("250 mm ±10 mm")),
    ("240 - 265 mm", LENGTH, NO_UNIT, "240", Some("252.5 mm ±12.5 mm")),
    ("5 MM", LENGTH, UNKNOWN, "MM", Some("5 mm")),
    ("320 gsm", FABRIC, UNKNOWN, "gsm", Some("320 g/m2")),
    ("320 gsm ±5 %", FABRIC, UNKNOWN, "gsm", Some("320 g/m2 ±5 %")),
    ("2 inch", LENGTH, UNKNOWN, "inch", Some("2 in")),
    ("2\"", LENGTH, UNKNOWN, "\"", Some("2 in")),
    ("4 stitches/cm", STITCH, UNKNOWN, "stitches/cm", Some("4 st/cm")),
    ("10 SPI", STITCH, UNKNOWN, "SPI", Some("10 st/in")),
    ("6 pcs", ANY, UNKNOWN, "pcs", Some("6 pc")),
    ("0.8 Nm", TORQUE, UNKNOWN, "Nm", Some("0.8 N m")),
    ("7 in-lbf", TORQUE, UNKNOWN, "in-lbf", Some("7 in lbf")),
    ("5 mmm", LENGTH, UNKNOWN, "mmm", Some("5 mm")),
    ("5 parsecs", LENGTH, UNKNOWN, "parsecs", None),
    ("5 mm 6", LENGTH, TOLERANCE, "6", None),
    ("5 mm a", LENGTH, TOLERANCE, "a", None),
    ("5 mm max", LENGTH, TOLERANCE, "max", None),
    ("5 mm -+1 mm", LENGTH, TOLERANCE, "-", None),
    ("5 mm.", LENGTH, UNKNOWN, "mm.", Some("5 mm")),
    ("~5 mm", LENGTH, NUMBER, "~5 mm", None),
    ("5\u{200b} mm", LENGTH, FOREIGN, "\u{200b}", Some("5 mm")),
    ("\u{202e}5 mm", LENGTH, FOREIGN, "\u{202e}", Some("5 mm")),
    ("5 mm\u{7}", LENGTH, UNKNOWN, "mm\u{7}", None),
    ("2 km", LENGTH, UNKNOWN, "km", None),
    ("2 in2", LENGTH, UNKNOWN, "in2", None),
    ("7 in lb", TORQUE, UNKNOWN, "in lb", Some("7 in lbf")),
    ("6 oz / yd2", FABRIC, UNKNOWN, "oz / yd2", Some("6 oz/yd2")),
    ("6 oz/yd²", FABRIC, FOREIGN, "²", Some("6 oz/yd2")),
    ("5 cms", LENGTH, UNKNOWN, "cms", Some("5 cm")),
    ("5 mm ±1 MM", LENGTH, UNKNOWN, "MM", Some("5 mm ±1 mm")),
    ("5 g", LENGTH, OTHER, "g", None),
    ("320 g", FABRIC, OTHER, "g", None),
    ("4,5 mm", LENGTH, NUMBER, "4,5", Some("4.5 mm")),
    ("4,5", LENGTH, NUMBER, "4,5", Some("4.5 mm")),
    ("1,250 mm", LENGTH, NUMBER, "1,250", None),
    ("1,250.5 mm", LENGTH, NUMBER, "1,250.5", Some("1250.5 mm")),
    ("1.250,5 mm", LENGTH, NUMBER, "1.250,5", Some("1250.5 mm")),
    ("1 250 mm", LENGTH, NUMBER, "1 250", Some("1250 mm")),
    ("5 2 mm", LENGTH, NUMBER, "5 2", None),
    ("1/4 in", LENGTH, NUMBER, "1/4", Some("0.25 in")),
    ("1 1/4\"", LENGTH, NUMBER, "1 1/4", Some("1.25 in")),
    ("1/3 in", LENGTH, NUMBER, "1/3", None),
    ("1/0 in", LENGTH, NUMBER, "1/0", None),
    (".5 mm", LENGTH, NUMBER, ".5", Some("0.5 mm")),
    ("5. mm", LENGTH, NUMBER, "5.", Some("5 mm")),
    ("+5 mm", LENGTH, NUMBER, "+5", Some("5 mm")),
    ("1.2.3 mm", LENGTH, NUMBER, "1.2.3", None),
    ("1e3 mm", LENGTH, NUMBER, "1e3", Some("1000 mm")),
    ("1e308 mm", LENGTH, NUMBER, "1e308", None),
    ("1e-308 mm", LENGTH, NUMBER, "1e-308", None),
    ("NaN mm", LENGTH, NUMBER, "NaN mm", None),
    ("inf mm", LENGTH, NUMBER, "inf mm", None),
    ("mm", LENGTH, NUMBER, "mm", None),
    ("- mm", LENGTH, NUMBER, "-", None),
    ("2.5 pc", ANY, NUMBER, "2.5", None),
    ("５ mm", LENGTH, NUMBER, "５", Some("5 mm")),
    ("４，５㎜", LENGTH, NUMBER, "４", Some("4.5 mm")),
    ("5 mm ±0,5 mm", LENGTH, NUMBER, "0,5", Some("5 mm ±0.5 mm")),
    ("450 ㎜", LENGTH, FOREIGN, "㎜", Some("450 mm")),
    ("3 ㎏", ANY, FOREIGN, "㎏", Some("3 kg")),
    ("2 m²", ANY, FOREIGN, "²", Some("2 m2")),
    ("320 g/m²", FABRIC, FOREIGN, "²", Some("320 g/m2")),
    ("320 克/平方米", FABRIC, FOREIGN, "克", Some("320 g/m2")),
    ("40 °C", WARMTH, FOREIGN, "°C", Some("40 C")),
    ("40 µm", LENGTH, FOREIGN, "µ", Some("40 um")),
    ("5\u{a0}mm", LENGTH, FOREIGN, "\u{a0}", Some("5 mm")),
    ("−5 mm", LENGTH, FOREIGN, "−", Some("-5 mm")),
    ("240–260 mm", LENGTH, FOREIGN, "–", Some("250 mm ±10 mm")),
    ("450 毫米", LENGTH, FOREIGN, "毫米", Some("450 mm")),
    ("5 мм", LENGTH, FOREIGN, "м", None),
    ("250 mm ±5", LENGTH, TOLERANCE, "5", Some("250 mm ±5 mm")),
    ("250 mm +5/-3", LENGTH, TOLERANCE, "3", Some("250 mm +5/-3 mm")),
    ("250 mm -3/+5 mm", LENGTH, TOLERANCE, "-3/+5 mm", Some("250 mm +5/-3 mm")),
    ("250 mm +5 mm", LENGTH, TOLERANCE, "+5 mm", Some("250 mm +5/-0 mm")),
    ("250 mm -5 mm", LENGTH, TOLERANCE, "-5 mm", Some("250 mm +0/-5 mm")),
    ("250 mm ±-5 mm", LENGTH, TOLERANCE, "-5 mm", Some("250 mm ±5 mm")),
    ("250 mm ±5 g", LENGTH, TOLERANCE, "g", None),
    ("250 mm ±", LENGTH, TOLERANCE, "", None),
    ("250 mm max(5 mm, 3 %)", LENGTH, TOLERANCE, "max(5 mm, 3 %)", Some("250 mm ±max(5 mm, 3 %)")),
    ("250 mm ±max(5 mm)", LENGTH, TOLERANCE, "±max(5 mm)", None),
    ("250 mm ±max(5 mm, 3)", LENGTH, TOLERANCE, "3", None),
    ("150 C ±3 %", WARMTH, TOLERANCE, "150 C ±3 %", None),
    ("1000000000 mm", LENGTH, LARGE, "1000000000", None),
    ("0.0000000001 mm", LENGTH, LARGE, "0.0000000001", None),
    (
        "99999999999999999999999999999999999999999999999 mm",
        LENGTH,
        LARGE,
        "99999999999999999999999999999999999999999999999",
        None,
    ),
];

#[test]
fn every_refusal_names_its_kind_its_place_and_the_cure() {
    let mut wrong = Vec::new();
    for (text, expected, kind, part, fix) in REFUSALS {
        let error = refused(text, expected);
        let found = text.get(error.span.clone()).expect("the span lies in the text");
        if !kind(&error.kind) || found != *part || error.fix.as_deref() != *fix {
            wrong.push(format!("{text:?}: {error:?} at {found:?}"));
        }
        let message = Phrase::from(&error.fault).english();
        assert!(!message.contains(char::is_control), "{text:?}: {message}");
        assert!(!message.is_empty() && !message.ends_with('.'), "{text}: {message}");
        if let Some(fix) = &error.fix {
            assert_eq!(Quantity::parse(fix, expected).unwrap().written(), *fix);
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    for text in ["", "  ", "\n"] {
        assert_eq!(refused(text, LENGTH).kind, Kind::Empty);
    }
    assert_eq!(refused(&"9".repeat(100_000), LENGTH).kind, Kind::TooLarge);
    assert_eq!(refused("5 MM", LENGTH).kind, Kind::UnknownUnit { nearest: Some(Unit::Mm) });
    let other = Kind::WrongDimension { found: Dimension::Mass, expected: vec![Dimension::Length] };
    assert_eq!(refused("5 g", LENGTH).kind, other);
}

#[test]
fn numbers_print_as_exact_decimals_or_six_places() {
    let shown = |n, d| Rational::new(n, d).unwrap().to_string();
    assert_eq!(shown(1, 8), "0.125");
    assert_eq!(shown(-5, 2), "-2.5");
    assert_eq!(shown(2, 3), "0.666667");
    assert_eq!(shown(-1, 3), "-0.333333");
    assert_eq!(shown(29_999_999, 30_000_000), "1.000000");
    assert_eq!(shown(i128::MAX, 1), i128::MAX.to_string());
    assert_eq!(shown(1, i128::MAX), "0.000000");
    assert_eq!(number("2.345").fixed(2), "2.35");
    assert_eq!(number("-2.345").fixed(2), "-2.35");
    assert_eq!(number("-0.001").fixed(2), "0.00");
    assert_eq!(number("99.95").fixed(1), "100.0");
    assert_eq!(number("2.5").round_to(Rational::ONE), Some(number("3")));
    assert_eq!(number("-2.5").round_to(Rational::ONE), Some(number("-3")));
}

#[test]
fn overflow_is_reported_and_never_panics() {
    let huge = Rational::new(i128::MAX, 1).unwrap();
    let tiny = Rational::new(1, i128::MAX).unwrap();
    assert_eq!(huge.checked_add(huge), None);
    assert_eq!(huge.checked_mul(huge), None);
    assert_eq!(huge.checked_div(tiny), None);
    assert_eq!(huge.negated().checked_sub(huge), None);
    assert_eq!(huge.checked_div(Rational::ZERO), None);
    assert_eq!(Rational::new(1, 0), None);
    assert_eq!(Rational::new(i128::MIN, 1), None);
    assert_eq!(huge.floor_to(tiny), None);
    assert!(tiny < huge && huge.negated() < tiny);
    let built = Quantity::new(huge, Unit::In, None);
    assert_eq!(built.map_err(|e| e.kind), Err(Kind::TooLarge));
}

/// A decimal with at most six digits before the point and four after it.
fn decimals() -> impl Strategy<Value = Rational> {
    (0..9_999_999_999_i128, 0..=4_u32).prop_map(|(n, places)| Rational::new(n, 10_i128.pow(places + 4)).unwrap())
}

fn units() -> impl Strategy<Value = Unit> {
    (0..Unit::ALL.len()).prop_map(|i| Unit::ALL[i])
}

/// Target units and an amount that may stand with them.
fn amounts(target: Unit) -> impl Strategy<Value = Amount> {
    let mut fitting: Vec<_> = target.dimension().units().collect();
    if target != Unit::C && target != Unit::Percent {
        fitting.push(Unit::Percent);
    }
    (decimals(), 0..fitting.len()).prop_map(move |(value, i)| Amount { value, unit: fitting[i] })
}

fn tolerances(target: Unit) -> impl Strategy<Value = Option<Tolerance>> {
    prop_oneof![
        Just(None),
        amounts(target).prop_map(|a| Some(Tolerance::PlusMinus(a))),
        (amounts(target), amounts(target)).prop_map(|(a, b)| Some(Tolerance::Max(a, b))),
        (amounts(target), amounts(target)).prop_map(|(plus, minus)| Some(Tolerance::Split { plus, minus })),
    ]
}

fn quantities() -> impl Strategy<Value = Quantity> {
    let value = (decimals(), any::<bool>(), units());
    value.prop_flat_map(|(value, negative, unit)| {
        let value = if unit == Unit::Pc { number(&value.fixed(0)) } else { value };
        let value = if negative { value.negated() } else { value };
        tolerances(unit).prop_map(move |tolerance| Quantity::new(value, unit, tolerance).unwrap())
    })
}

proptest! {
    #[test]
    fn what_is_written_reads_as_itself(quantity in quantities()) {
        let again = Quantity::parse(&quantity.written(), &[quantity.dimension()]).unwrap();
        prop_assert_eq!(&again, &quantity);
        prop_assert_eq!(again.limits(), quantity.limits());
        prop_assert_eq!(again.text, quantity.written());
    }

    #[test]
    fn units_convert_there_and_back_exactly(quantity in quantities(), pick in 0..100_usize) {
        let fitting: Vec<_> = quantity.dimension().units().collect();
        let other = fitting[pick % fitting.len()];
        let there = quantity.in_unit(other).unwrap();
        let back = there.checked_mul(other.si_factor()).unwrap().checked_div(quantity.unit.si_factor());
        prop_assert_eq!(back, Some(quantity.value));
    }

    #[test]
    fn limits_hold_the_target_and_inward_ones_stay_inside(quantity in quantities(), step in decimals()) {
        let Some(limits) = quantity.limits() else { return Ok(()) };
        prop_assert!(limits.contains(quantity.si()));
        let step = Quantity::new(step, quantity.unit, None).unwrap();
        match quantity.limits_at(&step) {
            Ok(inward) => {
                prop_assert!(limits.lower <= inward.lower && inward.lower <= inward.upper && inward.upper <= limits.upper);
                for (limit, exact) in [(inward.lower, limits.lower), (inward.upper, limits.upper)] {
                    prop_assert!(limit.checked_div(step.si()).unwrap().is_whole());
                    prop_assert!(limit.checked_sub(exact).unwrap().abs() < step.si());
                }
            }
            Err(crossed) if crossed.cause == Cause::Crossed => {
                prop_assert!(crossed.lower > crossed.upper);
                prop_assert!(limits.upper.checked_sub(limits.lower).unwrap() < step.si());
            }
            Err(crossed) => prop_assert!(step.si().is_zero() || crossed.cause == Cause::TooLarge),
        }
    }

    #[test]
    fn no_text_panics_and_every_cure_reads(text in any::<String>()) {
        check_refusal(&text)?;
    }

    #[test]
    fn near_quantities_do_not_panic_and_every_cure_reads(
        text in "[-+]?[0-9.,/ e_]{0,9} ?(mm|MM|g/m2|gsm|%|C|N m|in|\"|㎜|m²|pc)? ?(±|\\+-|\\+|-|max\\()?[0-9,.]{0,3} ?(mm|%|in|cm)?[/,)]{0,2}[-+]?[0-9]{0,2} ?(mm|%)?\\)?"
    ) {
        check_refusal(&text)?;
    }

    #[test]
    fn floating_point_is_the_nearest_or_next_to_it(value in decimals()) {
        let nearest: f64 = value.to_string().parse().unwrap();
        let step = nearest.next_up() - nearest;
        prop_assert!((value.to_f64() - nearest).abs() <= step);
    }

    #[test]
    fn decimals_read_as_they_print(n in -10_i128.pow(18)..10_i128.pow(18), places in 0..18_u32) {
        let value = Rational::new(n, 10_i128.pow(places)).unwrap();
        prop_assert_eq!(Rational::parse(&value.to_string()), Some(value));
    }
}

fn check_refusal(text: &str) -> Result<(), TestCaseError> {
    for expected in [ANY, LENGTH, FABRIC, &[Dimension::Percent, Dimension::Temperature]] {
        if let Err(error) = Quantity::parse(text, expected) {
            prop_assert!(text.get(error.span.clone()).is_some(), "{:?} outside {:?}", error.span, text);
            if let Some(fix) = error.fix {
                let cured = Quantity::parse(&fix, expected);
                prop_assert!(cured.is_ok(), "{} for {} gives {:?}", fix, text, cured);
            }
        }
    }
    Ok(())
}

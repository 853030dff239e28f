//! The tables against figures printed elsewhere; each check names where.

use backtack_core::standards::stitch::{self, Class};
use backtack_core::standards::{Basis, age, common, grey, safety, seam, thread};

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[test]
fn stitch_numbers_of_iso_4915() {
    // ISO 4915:1991, names as in college and thread makers' texts.
    for (number, name, class) in [
        ("101", "single-thread chainstitch", Class::SingleChain),
        ("301", "lockstitch, two threads", Class::Lock),
        ("401", "two-thread chainstitch", Class::MultiChain),
        ("504", "three-thread overedge", Class::Overedge),
        ("605", "three-needle five-thread coverstitch", Class::Cover),
    ] {
        let found = stitch::find(number).expect(number);
        assert_eq!((found.name, found.class(), found.basis), (name, Some(class), Basis::Seen));
    }
    assert_eq!(stitch::find("302"), None);
    assert_eq!(stitch::class_of("302"), Some(Class::Lock));
    assert_eq!(stitch::class_of("209"), Some(Class::Hand));
    assert_eq!((stitch::class_of("701"), stitch::class_of("30"), stitch::class_of("3o1")), (None, None, None));
}

/// A standard that was read is named with the year of its edition; one known from memory is a question, and a law has none.
#[test]
fn standards_that_were_read_have_the_year_of_their_edition() {
    let has_year = |text: &str| {
        let numbers = text.split(|c: char| !c.is_ascii_digit()).filter(|one| one.len() == 4);
        numbers.filter_map(|one| one.parse::<u32>().ok()).any(|year| (1960..2100).contains(&year))
    };
    let sources = safety::CAUTIONS.iter().flat_map(|caution| caution.follows);
    let read = sources.filter(|source| source.basis == Basis::Seen && !source.text.contains("CFR"));
    let standards: Vec<_> = read.filter(|one| ["ISO", "EN ", "ASTM"].iter().any(|of| one.text.contains(of))).collect();
    assert!(standards.len() >= 4);
    for one in standards {
        assert!(has_year(one.text), "{}", one.text);
    }
    assert!(has_year(grey::CHANGE_SOURCE.text) && !has_year("EN 71-1, 5.2"));
}

#[test]
fn stitch_table_is_in_order_and_classed() {
    assert!(stitch::STITCHES.is_sorted_by(|a, b| a.number < b.number));
    assert!(stitch::STITCHES.iter().all(|stitch| stitch.class().is_some()));
}

#[test]
fn nearest_stitch_is_the_one_meant() {
    let nearest = |written| stitch::nearest(written).map(|stitch| stitch.number);
    assert_eq!(nearest("ISO 4915-301"), Some("301"));
    assert_eq!(nearest("Lockstitch"), Some("301"));
    assert_eq!(nearest("3o1"), Some("301"));
    assert_eq!(nearest("310"), Some("301"), "two digits exchanged");
    assert_eq!(nearest("303"), Some("304"), "same class, nearest number");
    assert_eq!(nearest("41"), Some("401"));
    assert_eq!((nearest("999"), nearest(""), nearest("glue"), nearest("th")), (None, None, None, None));
}

#[test]
fn thread_ratios_of_the_guide() {
    // Consumption guide reproduced in a textbook: 301 2.5 (half needle thread), 401 5.5 (a quarter), 504 14, 516 20.
    // Products: 2.2 m of 301 take 5.5 m; 1.85 m with 15 % wastage 5.3187 m; 0.8 m of 516 with 12.5 % 18 m.
    let length = |seam: f64, stitch: &str, wastage: f64| seam * thread::ratio(stitch).unwrap().ratio * (1.0 + wastage);
    assert!(near(length(2.2, "301", 0.0), 5.5));
    assert!((length(1.85, "301", 0.15) - 5.3187).abs() < 1e-4);
    assert!(near(length(3.0, "401", 0.10), 18.15));
    assert!(near(length(2.5, "504", 0.15), 40.25));
    assert!(near(length(0.8, "516", 0.125), 18.0));
    assert_eq!(thread::ratio("401").unwrap().needle_share, Some((0.25, Basis::Seen)));
    assert_eq!(thread::ratio("103"), None);
}

#[test]
fn a_measured_401_seam_is_near_the_guide() {
    // Apparel technical note: 15 cm of 401 unpicked gave 19.5 cm needle and 62 cm looper thread.
    let measured = (19.5 + 62.0) / 15.0;
    assert!((thread::ratio("401").unwrap().ratio - measured).abs() / measured < 0.02);
    let share = thread::ratio("401").unwrap().needle_share.unwrap().0;
    assert!((share - 19.5 / 81.5).abs() < 0.015);
}

#[test]
fn thread_geometry_of_the_textbooks() {
    // Printed examples in inches: 101, T 0.005, S 9 gives 3.09; 301, T 0.01, S 10 gives 2.2.
    let inch = |stitch: &str, t: f64, s: f64| thread::geometry(stitch).unwrap().ratio(t * 25.4, 0.0, s / 25.4);
    assert!(near(inch("101", 0.005, 9.0), 3.09));
    assert!(near(inch("301", 0.01, 10.0), 2.2));
    assert!(near(inch("401", 0.015, 15.0), 4.45));
    // Two layers of plush 4 mm thick when pressed at 4 stitches per cm: 2 + 2 x 4 x 0.4.
    assert!(near(thread::geometry("301").unwrap().ratio(4.0, 99.0, 0.4), 5.2));
    // 504 by hand: 3 + 4 x 5 mm x 0.4/mm + 4 x 2 mm x 0.4/mm.
    let overedge = thread::geometry("504").unwrap();
    assert!(overedge.has_bight() && near(overedge.ratio(2.0, 5.0, 0.4), 14.2));
    assert_eq!(thread::geometry("304"), None);
}

#[test]
fn thread_tables_name_known_stitches() {
    for row in thread::RATIOS {
        assert!(stitch::find(row.stitch).is_some(), "{}", row.stitch);
        assert!(row.ratio > 1.0 && row.needle_share.is_none_or(|(share, _)| share > 0.0 && share < 1.0));
    }
    assert!(thread::GEOMETRIES.iter().all(|row| stitch::find(row.stitch).is_some()));
    // A straight stitch in fabric of no thickness still takes its constant, and never more than the guide's ratio at
    // the guide's density in fabric 0.3 mm thick.
    for row in thread::GEOMETRIES.iter().filter(|row| !row.has_bight()) {
        assert!(near(row.ratio(0.0, 0.0, 0.7), row.constant));
        assert!(row.ratio(0.3, 0.0, thread::RATIO_DENSITY_PER_CM / 10.0) <= thread::ratio(row.stitch).unwrap().ratio);
    }
}

#[test]
fn seam_classes_of_iso_4916() {
    assert_eq!(seam::CLASSES.iter().map(|class| class.number).collect::<Vec<_>>(), (1..=8).collect::<Vec<_>>());
    // Federal Standard 751a: SS superimposed, LS lapped, BS bound.
    for (number, name, letters) in [(1, "superimposed", "SS"), (2, "lapped", "LS"), (3, "bound", "BS")] {
        let class = seam::class(number).unwrap();
        assert_eq!((class.name, class.letters), (name, Some(letters)));
    }
    assert_eq!(seam::class(9), None);
}

#[test]
fn cautions_say_what_they_follow() {
    for caution in safety::CAUTIONS {
        assert!(!caution.follows.is_empty() && caution.text.ends_with('.'), "{}", caution.title);
        assert!(!caution.text.contains("  "), "{}", caution.title);
    }
    assert!(safety::DEFERRAL.contains("law of the destination") && safety::DEFERRAL.contains("accredited laboratory"));
}

#[test]
fn safety_figures_agree_with_their_inch_originals() {
    // 16 CFR 1501.4: 1.25 in, 1.00 in, 2.25 in. ASTM F963 4.12: 0.0015 in and 0.00125 in, rounded to whole micrometres.
    assert!(near(safety::CYLINDER_DIAMETER_MM, 1.25 * 25.4));
    assert!(near(safety::CYLINDER_DEPTH_MM.0, 25.4) && near(safety::CYLINDER_DEPTH_MM.1, 2.25 * 25.4));
    assert_eq!(f64::from(safety::FILM_AVERAGE_UM), (0.0015_f64 * 25_400.0).round());
    assert_eq!(f64::from(safety::FILM_READING_UM), (0.00125_f64 * 25_400.0).round());
}

#[test]
fn texts_print_the_figures_of_the_constants() {
    assert!(safety::CORDS.text.contains(&format!("{} mm", safety::CORD_FREE_MM)));
    assert!(safety::CORDS.text.contains(&format!("{} mm", safety::LOOP_PERIMETER_MM)));
    assert!(safety::BAG_FILM.text.contains(&format!("0.0{} mm thick", safety::FILM_AVERAGE_UM)));
    assert!(safety::BAG_FILM.text.contains(&format!("0.0{} mm", safety::FILM_READING_UM)));
    assert!(safety::NEEDLES.text.contains(&format!("{} mm", safety::NEEDLE_SPHERE_MM)));
    assert!(age::ABUSE_TESTS.is_sorted_by(|a, b| a.under_months < b.under_months));
    assert_eq!(age::SMALL_PARTS.under_months, 36);
}

#[test]
fn usual_figures_are_ranges() {
    for usual in common::ALL {
        assert!(0.0 <= usual.low && usual.low <= usual.high && 0.0 < usual.high, "{}", usual.what);
        assert!(usual.holds(usual.low) && usual.holds(usual.high) && !usual.holds(usual.high * 1.01), "{}", usual.what);
    }
}

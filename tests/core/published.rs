//! Every published value that the tables hold, row by row, against a list written beside them: with its source, and whether
//! it was seen, is known from memory, or is common practice. A row that is missing on either side fails.

use backtack_core::standards::grey::{self, Scale};
use backtack_core::standards::{Basis, age, safety, stitch, thread};

/// A line of the list.
struct Row<'a> {
    kind: &'a str,
    key: &'a str,
    value: &'a str,
    more: &'a str,
    state: &'a str,
}

fn rows() -> Vec<Row<'static>> {
    let lines = include_str!("published.csv").lines().skip(1);
    let all = lines.map(|line| {
        let cells: Vec<&str> = line.splitn(6, ';').collect();
        let [kind, key, value, more, state, source] = cells[..] else { panic!("{line}") };
        assert!(["seen", "memory", "practice"].contains(&state) && !source.is_empty(), "{line}");
        Row { kind, key, value, more, state }
    });
    all.collect()
}

fn of<'a>(rows: &'a [Row<'a>], kind: &'a str) -> Vec<&'a Row<'a>> {
    rows.iter().filter(|row| row.kind == kind).collect()
}

fn number(text: &str) -> f64 {
    text.parse().unwrap()
}

fn state(basis: Basis) -> &'static str {
    match basis {
        Basis::Seen => "seen",
        Basis::Memory => "memory",
        Basis::Derived => "derived",
        Basis::CommonPractice => "practice",
    }
}

#[test]
fn stitch_types_are_the_published_ones() {
    let rows = rows();
    let listed: Vec<_> = of(&rows, "stitch").iter().map(|row| (row.key, row.value, row.state)).collect();
    let held: Vec<_> = stitch::STITCHES.iter().map(|one| (one.number, one.name, state(one.basis))).collect();
    assert_eq!(held, listed);
}

#[test]
fn thread_ratios_are_those_of_the_guide_one_by_one() {
    let rows = rows();
    let listed = of(&rows, "thread");
    assert_eq!(thread::RATIOS.len(), listed.len());
    for row in listed {
        let held = thread::ratio(row.key).unwrap();
        let share = held.needle_share.map(|(share, _)| share);
        let listed = (!row.more.is_empty()).then(|| number(row.more));
        assert_eq!((held.ratio, share, state(held.basis)), (number(row.value), listed, row.state), "{}", row.key);
    }
}

#[test]
fn grey_scales_are_the_published_ones_step_by_step() {
    let rows = rows();
    for (kind, scale, steps) in [("change", Scale::Change, grey::CHANGE), ("staining", Scale::Staining, grey::STAINING)]
    {
        let listed = of(&rows, kind);
        assert_eq!(steps.len(), listed.len());
        assert_eq!(listed.iter().map(|row| row.key).collect::<Vec<_>>(), grey::GRADES);
        for row in listed {
            let held = grey::find(scale, row.key).unwrap();
            assert_eq!((held.difference, held.tolerance), (number(row.value), number(row.more)), "{kind} {}", row.key);
        }
    }
}

/// A grade reaches itself and every worse one, and no better one: all 81 pairs.
#[test]
fn grades_reach_what_is_no_better() {
    for (n, grade) in grey::GRADES.iter().enumerate() {
        for (m, wanted) in grey::GRADES.iter().enumerate() {
            assert_eq!(grey::reaches(grade, wanted), Some(n <= m), "{grade} {wanted}");
        }
    }
    assert_eq!((grey::reaches("6", "5"), grey::reaches("5", "5-6")), (None, None));
}

#[test]
fn figures_of_safety_are_the_published_ones() {
    let rows = rows();
    let listed: Vec<(&str, f64)> = of(&rows, "figure").iter().map(|row| (row.key, number(row.value))).collect();
    let months = age::ABUSE_TESTS.map(|limit| f64::from(limit.under_months));
    let held = [
        ("cord free length, mm", f64::from(safety::CORD_FREE_MM)),
        ("loop perimeter, mm", f64::from(safety::LOOP_PERIMETER_MM)),
        ("film average, um", f64::from(safety::FILM_AVERAGE_UM)),
        ("film reading, um", f64::from(safety::FILM_READING_UM)),
        ("cylinder diameter, mm", safety::CYLINDER_DIAMETER_MM),
        ("cylinder least depth, mm", safety::CYLINDER_DEPTH_MM.0),
        ("cylinder greatest depth, mm", safety::CYLINDER_DEPTH_MM.1),
        ("needle sphere, mm", safety::NEEDLE_SPHERE_MM),
        ("small parts below, months", f64::from(age::SMALL_PARTS.under_months)),
        ("first abuse tests below, months", months[0]),
        ("second abuse tests below, months", months[1]),
        ("third abuse tests below, months", months[2]),
    ];
    assert_eq!(listed, held);
}

#[test]
fn cautions_print_the_published_figures() {
    let rows = rows();
    let listed = of(&rows, "text");
    assert!(listed.len() > 12);
    for row in listed {
        let caution = match row.key {
            "CORDS" => safety::CORDS,
            "BAG_FILM" => safety::BAG_FILM,
            "NEEDLES" => safety::NEEDLES,
            "SEAMS" => safety::SEAMS,
            "SEAMS_OF_THE_STATES" => safety::SEAMS_OF_THE_STATES,
            "SMALL_PARTS" => safety::SMALL_PARTS,
            other => panic!("{other}"),
        };
        assert!(caution.text.contains(row.value), "{}: {}", row.key, row.value);
    }
}

//! Lays in rows for dies, counted by hand.

use backtack_core::lay::{Row, rows};

use super::{instance, piece, polygon, rectangle};

/// Seven of 30 by 20 on 70: three a row, the last row has one.
#[test]
fn rows_of_rectangles_are_counted() {
    let mut task = instance(70, vec![piece("A", rectangle(30, 20), 7, &[0.0])]);
    let laid = rows(&task).unwrap();
    let row = |strikes: usize| Row { piece: 0, strikes, pitch: 20_000 };
    assert_eq!(laid.rows, [row(3), row(3), row(1)]);
    assert_eq!((laid.lay.length, laid.strikes, laid.between), (90_000, 7, 0));
    // 6 mm apart only two fit: 20 + 6 + 20 + 6 + 20 = 72.
    task.fabric.gap = 6_000;
    let apart = rows(&task).unwrap();
    assert_eq!(apart.rows.iter().map(|row| row.strikes).collect::<Vec<_>>(), [2, 2, 2, 1]);
    assert!((4 * 30_000 + 3 * 6_000..4 * 30_000 + 3 * 6_010).contains(&apart.lay.length), "{}", apart.lay.length);
}

/// Turned by a quarter, two of 20 by 30 stand in a row 20 long instead of three in one 30 long: 40 for four, not 60.
#[test]
fn the_turn_that_takes_least_length_is_struck() {
    let task = instance(70, vec![piece("A", rectangle(30, 20), 4, &[0.0, 90.0])]);
    assert_eq!(rows(&task).unwrap().lay.length, 40_000);
}

/// Chevrons nest along the roll: the second row moves 10 into the first.
#[test]
fn rows_move_into_each_other() {
    let chevron = polygon(&[(0, 0), (20, 0), (30, 10), (20, 20), (0, 20), (10, 10)]);
    let task = instance(20, vec![piece("A", chevron, 3, &[0.0])]);
    assert_eq!(rows(&task).unwrap().lay.length, 70_000);
}

/// Beside each piece of 50 by 60 on 70 there is a strip 10 wide: two squares of 8 lie in it, no row of their own.
#[test]
fn small_pieces_go_into_gaps() {
    let task = instance(70, vec![piece("A", rectangle(50, 60), 2, &[0.0]), piece("B", rectangle(8, 8), 4, &[0.0])]);
    let laid = rows(&task).unwrap();
    assert_eq!((laid.lay.length, laid.between, laid.rows.len(), laid.strikes), (100_000, 4, 2, 6));
}

#[test]
fn no_die_cuts_on_the_fold() {
    let mut task = instance(70, vec![piece("A", rectangle(30, 20), 1, &[0.0])]);
    task.pieces[0].fold = true;
    assert!(rows(&task).unwrap_err().to_string().contains("none on the fold"));
}

/// What fills no row stands behind the full rows: of two kinds of three squares in rows of two, one of each is left, and both
/// lie side by side instead of each taking a length of its own.
#[test]
fn what_fills_no_row_takes_no_row_of_its_own() {
    let task = instance(20, vec![piece("A", rectangle(10, 10), 3, &[0.0]), piece("B", rectangle(9, 9), 3, &[0.0])]);
    let laid = rows(&task).unwrap();
    // A row of A, a row of B, then one of each in one length of 10 mm: 29 mm, where 38 mm would be four rows.
    assert_eq!(laid.lay.length, 29_000);
}

//! The independent check against lays that are wrong in one way each.

use backtack_core::geom::grid::GridPoint;
use backtack_core::lay::valid::{check, insides_meet};
use backtack_core::lay::{Fault, Lay, Piece, Placed, Turn};

use super::{instance, lay, piece, placed, polygon, rectangle};

fn two() -> Vec<Piece> {
    vec![piece("A", rectangle(100, 50), 2, &[0.0])]
}

fn side_by_side() -> Lay {
    lay(200, vec![placed(0, 0, 0, 0), placed(0, 1, 100_000, 0)])
}

fn fault(lay: &Lay) -> Fault {
    check(&instance(50, two()), lay).unwrap_err()
}

#[test]
fn pieces_may_touch() {
    assert_eq!(check(&instance(50, two()), &side_by_side()), Ok(()));
}

#[test]
fn a_micrometre_of_overlap_is_refused() {
    let mut bad = side_by_side();
    bad.placed[1].at.x -= 1;
    assert!(matches!(fault(&bad), Fault::Overlap { first, second } if first == "A/1" && second == "A/2"));
}

#[test]
fn two_copies_on_one_place_overlap() {
    let mut bad = side_by_side();
    bad.placed[1].at.x = 0;
    assert!(matches!(fault(&bad), Fault::Overlap { .. }));
}

#[test]
fn a_micrometre_beyond_the_fabric_is_refused() {
    for (x, y) in [(1, 0), (0, 1), (0, -1)] {
        let mut bad = side_by_side();
        bad.placed[1].at.x += x;
        bad.placed[1].at.y += y;
        assert!(matches!(fault(&bad), Fault::Outside { piece } if piece == "A/2"));
    }
}

#[test]
fn margins_belong_to_nobody() {
    let mut task = instance(52, two());
    (task.fabric.edge, task.fabric.end) = (1000, 500);
    let moved = |by: i64| lay(201, vec![placed(0, 0, 500, 1000), placed(0, 1, 100_500 + by, 1000)]);
    assert_eq!(check(&task, &moved(0)), Ok(()));
    assert!(matches!(check(&task, &moved(1)), Err(Fault::Outside { .. })));
}

#[test]
fn a_missing_a_second_and_an_unknown_piece_are_counted() {
    let counted = |placed: Vec<Placed>| matches!(fault(&lay(400, placed)), Fault::Count { .. });
    assert!(counted(vec![placed(0, 0, 0, 0)]));
    assert!(counted(vec![placed(0, 0, 0, 0), placed(0, 0, 100_000, 0)]));
    assert!(counted(vec![placed(0, 0, 0, 0), placed(0, 1, 100_000, 0), placed(0, 2, 200_000, 0)]));
    assert!(counted(vec![placed(0, 0, 0, 0), placed(0, 1, 100_000, 0), placed(1, 0, 200_000, 0)]));
}

#[test]
fn a_turn_that_is_not_allowed_is_refused() {
    let half = Placed { piece: 0, copy: 1, turn: Turn::by(180.0), at: GridPoint::new(200_000, 50_000) };
    let mirrored = Placed { turn: Turn { degrees: 0.0, mirrored: true }, at: GridPoint::new(100_000, 50_000), ..half };
    for wrong in [half, mirrored] {
        assert!(matches!(fault(&lay(200, vec![placed(0, 0, 0, 0), wrong])), Fault::Turn { .. }));
    }
}

#[test]
fn the_gap_is_kept_to_the_micrometre_in_every_direction() {
    let mut task = instance(120, vec![piece("A", rectangle(50, 50), 2, &[0.0])]);
    task.fabric.gap = 5_000;
    let at = |x: i64, y: i64| check(&task, &lay(120, vec![placed(0, 0, 0, 0), placed(0, 1, x, y)]));
    assert_eq!(at(55_000, 0), Ok(()));
    assert!(matches!(at(54_999, 0), Err(Fault::Gap { .. })));
    // From corner to corner: 3, 4, 5.
    assert_eq!(at(53_000, 54_000), Ok(()));
    assert!(matches!(at(53_000, 53_999), Err(Fault::Gap { .. })));
}

#[test]
fn a_piece_of_the_fold_lies_on_it() {
    let mut task = instance(50, vec![piece("A", rectangle(100, 40), 1, &[0.0])]);
    task.pieces[0].fold = true;
    assert_eq!(check(&task, &lay(100, vec![placed(0, 0, 0, 0)])), Ok(()));
    assert!(matches!(check(&task, &lay(100, vec![placed(0, 0, 0, 1)])), Err(Fault::Fold { .. })));
}

#[test]
fn a_piece_inside_another_overlaps_and_one_in_its_hollow_does_not() {
    let ring = polygon(&[
        (0, 0),
        (30, 0),
        (30, 14),
        (20, 14),
        (20, 10),
        (10, 10),
        (10, 20),
        (20, 20),
        (20, 16),
        (30, 16),
        (30, 30),
        (0, 30),
    ]);
    let small = polygon(&[(2, 2), (8, 2), (8, 8), (2, 8)]);
    let hollow = polygon(&[(10, 10), (20, 10), (20, 20), (10, 20)]);
    assert!(insides_meet(&ring, &small) && insides_meet(&small, &ring));
    assert!(!insides_meet(&ring, &hollow) && !insides_meet(&hollow, &ring));
}

/// A star and its copy share every corner and edge, but no edge crosses another.
#[test]
fn the_same_outline_overlaps_itself() {
    let star = polygon(&[(0, 0), (10, 4), (20, 0), (16, 10), (20, 20), (10, 16), (0, 20), (4, 10)]);
    assert!(insides_meet(&star, &star));
}

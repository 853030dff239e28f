//! Dies, counted and measured by hand.

use backtack_core::compute::{self, Shape};
use backtack_core::cutting::figures::dies::{NARROW, Narrow, images, narrow, strikes};
use backtack_core::geom::{Path, Point};
use backtack_core::lay::rows::{FullRow, filling};

fn shape(corners: &[(f64, f64)]) -> Shape {
    let points = corners.iter().chain(corners.first()).map(|(x, y)| Point::new(*x, *y));
    Shape { paths: vec![Path::polyline(points)], area: 0.0, perimeter: 0.0 }
}

/// A pair of mirror images needs two dies; face to face one; a piece that is its own image one.
#[test]
fn dies_by_side() {
    let dies = |drawn, mirrored, both| images(drawn, mirrored, both).into_iter().filter(|made| *made).count();
    assert_eq!(dies(1, 1, false), 2);
    assert_eq!(dies(1, 1, true), 1);
    assert_eq!(dies(2, 0, false), 1);
    assert_eq!(dies(0, 3, false), 1);
    assert_eq!(dies(0, 0, false), 0);
}

/// 100 products, a left and a right ear each, 8 plies: 100 / 8 = 13 strikes a side, 26. Face to face 8 plies are 4 pairs: 25.
/// Two symmetric soles each: 200 / 8 = 25 either way. 3 left fins and 1 right: 38 + 13; face to face 300 / 4 = 75.
#[test]
fn strikes_are_pieces_over_plies_by_side() {
    assert_eq!(strikes((1, 1), false, false, 100, 8), 26);
    assert_eq!(strikes((1, 1), false, true, 100, 8), 25);
    assert_eq!(strikes((2, 0), true, false, 100, 8), 25);
    assert_eq!(strikes((2, 0), true, true, 100, 8), 25);
    assert_eq!(strikes((3, 1), false, false, 100, 8), 51);
    assert_eq!(strikes((3, 1), false, true, 100, 8), 75);
}

/// A square of 60 mm with a tongue 20 mm long and 5 mm wide on top: too narrow. 7 mm wide: not.
#[test]
fn tongues() {
    let tongue = |width: f64| {
        let (a, b) = (30.0 - width / 2.0, 30.0 + width / 2.0);
        shape(&[(0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (b, 60.0), (b, 80.0), (a, 80.0), (a, 60.0), (0.0, 60.0)])
    };
    let found = narrow(&tongue(5.0), NARROW);
    let [Narrow { tongue: true, at: [x, y], width, length }] = found.as_slice() else { panic!("{found:?}") };
    assert!((x.get() - 30.0).abs() < 1e-6 && (y.get() - 70.0).abs() < 0.5, "{found:?}");
    assert!((width.get() - 5.0).abs() < 1e-9 && (length.get() - 20.0).abs() < 1.0, "{found:?}");
    assert!(narrow(&tongue(7.0), NARROW).is_empty());
    // Turned round, the material is on the same side.
    let turned = Shape { paths: vec![tongue(5.0).paths[0].reversed()], area: 0.0, perimeter: 0.0 };
    assert_eq!(narrow(&turned, NARROW).len(), 1);
}

/// A slot 4 mm wide and 15 mm deep is a gap; one 4 mm deep is none.
#[test]
fn gaps() {
    let slot = |depth: f64| {
        let low = 40.0 - depth;
        shape(&[
            (0.0, 0.0),
            (50.0, 0.0),
            (50.0, 40.0),
            (27.0, 40.0),
            (27.0, low),
            (23.0, low),
            (23.0, 40.0),
            (0.0, 40.0),
        ])
    };
    let found = narrow(&slot(15.0), NARROW);
    let [Narrow { tongue: false, width, .. }] = found.as_slice() else { panic!("{found:?}") };
    assert!((width.get() - 4.0).abs() < 1e-9);
    assert!(narrow(&slot(4.0), NARROW).is_empty());
}

/// The points of a triangle are narrow over 6 / tan: a point of 30° over 10.4 mm, one of 60° over 3.5 mm, which is short.
#[test]
fn points() {
    let right = shape(&[(0.0, 0.0), (86.602_540_378, 0.0), (86.602_540_378, 50.0)]);
    let found = narrow(&right, NARROW);
    let [Narrow { tongue: true, length, .. }] = found.as_slice() else { panic!("{found:?}") };
    assert!((length.get() - 10.392_3).abs() < 1.0, "{found:?}");
    assert!(narrow(&shape(&[(0.0, 0.0), (80.0, 0.0), (40.0, 69.282)]), NARROW).is_empty());
}

/// Of the examples that are cut by a press. A puffin's feet are a left and a right one: two dies, a strike each; both ways of a
/// gore count as one kind: the die of the even ones, three strikes for three gores of a colour.
#[test]
fn dies_of_the_examples() {
    let dies = |name: &str| {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(name);
        let loaded = crate::folder(&folder).unwrap();
        crate::checked(&loaded).figures
    };
    let ball = dies("juggling-ball");
    let puffin = dies("puffin");
    let found = |figures: &compute::Figures, piece: &str| {
        figures.dies.iter().find(|die| die.piece == piece).map(|die| (die.dies, die.strikes))
    };
    assert_eq!(
        (found(&puffin, "FOOT"), found(&ball, "ODD"), found(&puffin, "BODY")),
        (Some((2, 2)), Some((0, 3)), None)
    );
    for (figures, line) in [&ball, &puffin].into_iter().flat_map(|one| one.dies.iter().map(move |die| (one, die))) {
        let cut = figures.counts.cuts.iter().find(|cut| cut.piece == line.piece && cut.cut == line.cut).unwrap();
        assert_eq!(Some(&line.strikes), cut.total.known(), "one way, a strike cuts one piece of each ply: {line:?}");
        if line.block {
            continue;
        }
        let figure = &figures.pieces[&line.piece][&line.size].cuts[&line.cut].line;
        assert_eq!(figure.known().unwrap().perimeter.get(), line.rule.get());
    }
}

/// A puffin's face is struck as a block of 150 mm × 120 mm first, 2 × (150 + 120) = 540 mm of rule: one die, which is its own mirror
/// image, a strike for each side. Then it is struck to shape: a left and a right die. In size L 2 × (185 + 140) = 650 mm.
#[test]
fn a_block_and_the_shape_cut_from_it_have_their_dies() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples/puffin");
    let loaded = crate::folder(&folder).unwrap();
    let figures = crate::checked(&loaded).figures;
    let face = |size: &str, block: bool| {
        let mut found = figures.dies.iter().filter(|die| die.piece == "FACE" && die.cut == "shell" && die.size == size);
        let die = found.find(|die| die.block == block).unwrap();
        (die.dies, die.strikes, die.rule.get())
    };
    assert_eq!((face("S", true), face("L", true)), ((1, 2, 540.0), (1, 2, 650.0)));
    let line = |size: &str| figures.pieces["FACE"][size].cuts["shell"].line.known().unwrap().perimeter.get();
    assert_eq!((face("S", false), face("L", false)), ((2, 2, line("S")), (2, 2, line("L"))));
    assert_eq!(figures.dies.iter().filter(|die| die.block).count(), 2, "nothing else is cut as a block by a press");
}

/// Rows of 26 strikes and 120 mm, three pieces a product: 26 products fill three rows, 40 would begin a fifth. Two kinds, rows
/// of 10 and of 4: 20 products fill both. What always fills its rows takes the most.
#[test]
fn as_many_products_as_make_full_rows() {
    let row = |pieces, strikes| FullRow { pieces, strikes, length: 120_000.0 };
    assert_eq!(filling(&[row(3, 26)], 40), 26);
    assert_eq!(filling(&[row(1, 10), row(1, 4)], 23), 20);
    assert_eq!(filling(&[row(1, 1)], 17), 17);
    assert_eq!(filling(&[], 5), 5);
    assert_eq!(filling(&[row(3, 26)], 1), 1);
}

//! The search: known optima, every rule about how a piece may lie, reproducibility, interruption.

use std::sync::atomic::{AtomicU64, Ordering};

use backtack_core::geom::grid::GridPoint;
use backtack_core::lay::{Budget, Options, Piece, Turn, bounds, pack, report, usual};
use backtack_core::scene;
use proptest::prelude::*;

use super::{instance, packed, piece, polygon, rectangle};

#[test]
fn bounds_are_area_over_cuttable_width_and_the_longest_piece() {
    let mut task =
        instance(100, vec![piece("A", rectangle(300, 20), 1, &[0.0]), piece("B", rectangle(50, 40), 12, &[0.0])]);
    (task.fabric.edge, task.fabric.end) = (10_000, 5_000);
    let found = bounds(&task);
    // (300·20 + 12·50·40) / (100 − 20) = 375, and 5 at either end.
    assert_eq!((found.area, found.longest), (385_000, 310_000));
}

/// Four rectangles 50 by 25 fill 100 by 50: the area bound is reached.
#[test]
fn rectangles_that_fill_the_fabric_do() {
    let task = instance(50, vec![piece("A", rectangle(50, 25), 4, &[0.0])]);
    assert_eq!(packed(&task, 200_000, 1, 2).lay.length, 100_000);
}

/// Two right triangles make a rectangle of 60 by 40 if one may be turned, 120 long if not.
#[test]
fn triangles_pair_up_if_they_may_turn() {
    let triangle = polygon(&[(0, 0), (60, 0), (0, 40)]);
    let turned = instance(40, vec![piece("A", triangle.clone(), 2, &[0.0, 180.0])]);
    assert_eq!(packed(&turned, 300_000, 1, 2).lay.length, 60_000);
    // Pile one way: the second triangle begins where the first, at its height, has ended: behind it altogether.
    let one_way = instance(40, vec![piece("A", triangle, 2, &[0.0])]);
    assert_eq!(packed(&one_way, 300_000, 1, 2).lay.length, 120_000);
}

/// An arrow that points across the roll fits a strip only one way up; mirrored it points the other way.
#[test]
fn a_mirrored_piece_is_mirrored_across_the_grain() {
    let ell = polygon(&[(0, 0), (40, 0), (40, 10), (10, 10), (10, 20), (0, 20)]);
    let mut task = instance(20, vec![piece("A", ell, 1, &[0.0])]);
    task.pieces[0].turns = vec![Turn { degrees: 0.0, mirrored: true }];
    let found = packed(&task, 10_000, 1, 1).lay;
    assert!(found.placed[0].turn.mirrored);
    // What was the lower edge lies on top, and what was left stays left.
    assert_eq!(found.placed[0].at, GridPoint::new(0, 20_000));
    let lies = found.placed[0].turn.apply(&task.pieces[0].outline);
    assert!(lies.area2() > 0 && lies.points.contains(&GridPoint::new(40_000, -10_000)));
    assert!(lies.points.contains(&GridPoint::new(0, -20_000)));
}

#[test]
fn a_piece_that_fits_only_tilted_is_tilted() {
    let mut task = instance(60, vec![piece("A", rectangle(100, 62), 1, &[0.0])]);
    assert!(task.check().is_err());
    task.pieces[0].turns.push(Turn::by(90.0));
    assert!(task.check().is_err());
    task.pieces[0].outline = rectangle(100, 55);
    task.pieces[0].turns = vec![Turn::by(-2.5), Turn::by(2.5)];
    let found = packed(&task, 10_000, 1, 1).lay;
    // 100·cos + 55·sin of 2.5°, rounded corner by corner.
    assert!((found.length - 102_304).abs() <= 2, "{}", found.length);
}

#[test]
fn pieces_of_the_fold_lie_on_it_and_others_beside() {
    let mut task =
        instance(60, vec![piece("A", rectangle(50, 30), 3, &[0.0]), piece("B", rectangle(50, 28), 3, &[0.0])]);
    task.pieces[0].fold = true;
    task.fabric.edge = 1_000;
    let found = packed(&task, 100_000, 1, 2).lay;
    assert!(found.placed.iter().filter(|one| one.piece == 0).all(|one| one.at.y == 0));
    assert!(found.length <= 151_000, "{}", found.length);
}

#[test]
fn the_gap_and_the_margins_are_kept() {
    let mut task = instance(112, vec![piece("A", rectangle(50, 50), 4, &[0.0])]);
    (task.fabric.gap, task.fabric.edge, task.fabric.end) = (4_000, 3_000, 2_000);
    let found = packed(&task, 200_000, 1, 2).lay;
    // Two rows of two: 2·50 + 4 between, 2 at either end, and a few micrometres for rounding.
    assert!((108_000..=108_010).contains(&found.length), "{}", found.length);
}

fn mixed() -> Vec<Piece> {
    let ell = polygon(&[(0, 0), (60, 0), (60, 20), (20, 20), (20, 50), (0, 50)]);
    let kite = polygon(&[(0, 20), (35, 0), (50, 20), (35, 40)]);
    vec![piece("L", ell, 6, &[0.0, 180.0]), piece("K", kite, 8, &[0.0]), piece("R", rectangle(30, 12), 6, &[0.0, 90.0])]
}

#[test]
fn the_same_lay_for_any_number_of_threads_and_another_for_another_seed() {
    let task = instance(150, mixed());
    let lays = [1, 2, 8].map(|threads| packed(&task, 150_000, 7, threads));
    assert_eq!(lays[0], lays[1]);
    assert_eq!(lays[0], lays[2]);
    assert!(lays[0].reproducible && !lays[0].interrupted);
    assert_ne!(packed(&task, 150_000, 8, 2).lay.placed, lays[0].lay.placed);
}

/// The places found on one machine, to the micrometre: other processors must find them too.
#[test]
fn the_lay_is_the_one_found_elsewhere() {
    let task = instance(150, mixed());
    let found = packed(&task, 60_000, 3, 2);
    let text = serde_json::to_string_pretty(&report(&task, &found, 3)).unwrap();
    insta::assert_snapshot!("mixed", text);
}

/// Three hundred trapezia 20 long at the bottom and 10 at the top, which pair up turned: a block of them is repeated.
#[test]
fn large_demands_repeat_a_block() {
    let trapezium = polygon(&[(0, 0), (20, 0), (10, 10), (0, 10)]);
    let task = instance(100, vec![piece("A", trapezium, 300, &[0.0, 180.0]), piece("B", rectangle(10, 10), 7, &[0.0])]);
    let found = packed(&task, 600_000, 1, 2);
    assert_eq!(packed(&task, 600_000, 1, 1), found);
    // 300 · 150 + 7 · 100 over 100 wide: 457 at best; side by side in their boxes they would take 607.
    assert!(found.lay.length < 560_000, "{}", found.lay.length);
}

#[test]
fn a_budget_of_time_and_an_interruption_are_marked() {
    let task = instance(150, mixed());
    let asked = AtomicU64::new(0);
    let clock = || asked.fetch_add(1, Ordering::Relaxed) as f64 / 40.0;
    let stop = || asked.load(Ordering::Relaxed) > 10;
    let (never, silent) = (|| false, |_| {});
    let options = Options { budget: Budget::Clock(&clock), seed: 1, threads: 1, stop: &never, observe: &silent };
    let timed = pack(&task, options).unwrap();
    assert!(!timed.reproducible && !timed.interrupted);
    asked.store(0, Ordering::Relaxed);
    let stopped = pack(&task, Options { stop: &stop, ..options }).unwrap();
    assert!(stopped.interrupted && !stopped.reproducible);
    assert_eq!(stopped.lay.placed.len(), 20);
}

#[test]
fn the_observer_sees_the_lay_grow_shorter() {
    let task = instance(150, mixed());
    let seen = std::cell::RefCell::new(Vec::new());
    let (never, observe) = (|| false, |progress: backtack_core::lay::Progress| seen.borrow_mut().push(progress.length));
    let budget = Budget::Evaluations(1_000_000);
    assert_eq!(usual(&task), 12_000_000);
    let found = pack(&task, Options { budget, seed: 1, threads: 2, stop: &never, observe: &observe }).unwrap();
    let seen = seen.into_inner();
    assert!(seen.is_sorted_by(|a, b| a >= b) && seen.last() == Some(&found.lay.length));
}

#[test]
fn the_figures_of_a_lay_add_up() {
    let task = instance(50, vec![piece("A", rectangle(40, 50), 2, &[0.0])]);
    let told = report(&task, &packed(&task, 1_000, 1, 1), 1);
    assert_eq!((told.length, told.density, told.waste, told.area_bound), (80.0, 1.0, 0.0, 80.0));
    assert_eq!(told.positions.len(), 2);
}

/// A simple polygon: corners at growing angles round a point, at any distance.
fn star(radii: &[i64]) -> backtack_core::geom::grid::Polygon {
    let count = radii.len() as f64;
    let corner = |(at, radius): (usize, &i64)| {
        let (sin, cos) = libm::sincos(at as f64 / count * 2.0 * std::f64::consts::PI);
        GridPoint::new((*radius as f64 * cos) as i64, (*radius as f64 * sin) as i64)
    };
    let points = radii.iter().enumerate().map(corner).collect();
    backtack_core::geom::grid::Polygon { points }.tidied()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever the outlines, the lay passes the independent check, or `pack` would fail.
    #[test]
    fn lays_of_random_polygons_are_valid(
        shapes in prop::collection::vec(prop::collection::vec(5_000_i64..60_000, 3..24), 1..6),
        gap in prop::sample::select(vec![0_i64, 1, 1_500, 5_000]),
        seed in 0_u64..1_000,
    ) {
        let pieces: Vec<Piece> = shapes.iter().enumerate()
            .map(|(at, radii)| piece(&at.to_string(), star(radii), 2, &[0.0, 37.0, 180.0]))
            .filter(|piece| piece.outline.crossing().is_none() && piece.outline.area2() > 0)
            .collect();
        prop_assume!(!pieces.is_empty());
        let mut task = instance(140, pieces);
        task.fabric.gap = gap;
        let found = packed(&task, 20_000, seed, 2);
        let least = bounds(&task);
        prop_assert!(found.lay.length >= least.area.max(least.longest));
    }
}

/// A star grown by so little that it has corners on straight edges: its copies must not be laid over each other.
#[test]
fn the_least_gap_lays_no_piece_over_another() {
    let radii = [20_643, 39_997, 5_000, 5_000, 30_205, 30_742, 40_496, 30_531, 48_551];
    let mut task = instance(140, vec![piece("star", star(&radii), 2, &[0.0, 37.0, 180.0])]);
    task.fabric.gap = 1;
    for seed in 130..140 {
        packed(&task, 20_000, seed, 2);
    }
}

#[test]
fn the_drawing_shows_every_piece() {
    let task = instance(150, mixed());
    let found = packed(&task, 20_000, 1, 1);
    let scene = scene::lay(&task, &found.lay, scene::LAY_PAPER, ["length", "width"]);
    let filled = |item: &&backtack_core::scene::Item| matches!(item, backtack_core::scene::Item::Path(path) if path.fill == backtack_core::scene::Fill::Tint);
    assert_eq!(scene.items.iter().filter(filled).count(), 20);
    assert!(scene.alt.english().starts_with("Lay of 20 pieces, "));
    assert!(backtack_core::scene::svg(&scene, backtack_core::words::Languages::default()).contains(">L</text>"));
}

/// The nine instances of the EURO Special Interest Group on Cutting and Packing that stand beside the repository where the
/// packer is measured (piece counts as published with arXiv 2509.13329); without them there is nothing to check.
#[test]
fn instances_of_the_literature_are_laid() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/instances");
    let counts = [
        ("albano", 24),
        ("dagli", 30),
        ("fu", 12),
        ("jakobs1", 25),
        ("jakobs2", 25),
        ("mao", 20),
        ("shapes0", 43),
        ("shapes1", 43),
        ("shirts", 99),
    ];
    for (name, count) in counts {
        let Ok(text) = std::fs::read_to_string(folder.join(format!("{name}.json"))) else { continue };
        let task = backtack_core::lay::read::read(&in_our_words(&text)).unwrap();
        assert_eq!(task.count(), count, "{name}");
        let found = packed(&task, 100_000, 1, 2);
        assert!(backtack_core::lay::report::density(&task, &found.lay) > 0.5, "{name}");
    }
}

/// An instance of the literature in the words of our own file.
fn in_our_words(text: &str) -> String {
    let theirs: serde_json::Value = serde_json::from_str(text).unwrap();
    let piece = |item: &serde_json::Value| {
        serde_json::json!({
            "id": item["id"],
            "quantity": item["demand"],
            "may-lie": item["allowed_orientations"],
            "outline": item["shape"]["data"],
        })
    };
    let pieces: Vec<_> = theirs["items"].as_array().unwrap().iter().map(piece).collect();
    serde_json::json!({ "name": theirs["name"], "cuttable-width": theirs["strip_height"], "pieces": pieces })
        .to_string()
}

//! Orders in numbers: what is wanted, the cut plan, and the chain of material to buy, each worked out by hand.

use std::collections::BTreeSet;
use std::path::Path;

use backtack_core::compute::{self, Figures};
use backtack_core::cutting::figures::{Effort, Search};
use backtack_core::lay::{Lock, Progress, valid};
use backtack_core::model::Assembly;
use backtack_core::orders::figures::{
    self as orders, Estimate, Laid, LayLengths, OrderFigures, OrderLays, Spreading, needed, plan_order,
};
use backtack_core::orders::plan::{Length, Mix};
use backtack_core::read::{self, Loaded};
use backtack_core::units::Rational;
use backtack_core::words::Phrase;

fn example(name: &str) -> Figures {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(name);
    let loaded = crate::folder(&root).unwrap();
    let figures = compute::compute(&loaded.model, &Assembly::of(&loaded.model)).figures;
    let mut planned = figures.clone();
    let mut estimate = Estimate { model: &loaded.model, figures: &figures };
    orders::plan(&loaded.model, &mut planned, &mut estimate);
    planned
}

/// 1,000 m with 2 % cut extra, 3 % shrinkage and 4 % faults are 1,095.4 m: each step divides what the one before left, and the
/// percentages are never added to 1,090 m.
#[test]
fn the_chain_divides_and_never_adds() {
    let percent = |share: i128| Rational::new(share, 100).unwrap();
    let (relaxed, needed) = needed(1_020_000_000, percent(3), percent(4));
    assert_eq!((relaxed, needed), (1_051_547_000, 1_095_361_000));
}

/// Two colourways that share one fabric in one colour. 50 of each with 2 % cut extra are 51; with 3 samples 54, with 5 test pieces
/// 56; 110 in all.
const STYLE: &str = r#"
[style]
id = "X-1"
name = "Mat"
[colour.grey]
reference = "card 1"
[role.top]
[colourway.a]
top = "felt/grey"
[colourway.b]
top = "felt/grey"
[fabric.felt]
mass = "300 g/m2"
width = "1500 mm"
cuttable-width = "1450 mm"
efficiency = "80 %"
shrinkage-along = "2 %"
roll-length = "25 m"
minimum-order = "40 m"
colours = ["grey"]
[piece.MAT]
copies = 2
outline = { shape = "rectangle", width = "300 mm", height = "200 mm" }
material = "top"
allowance = "10 mm"
"#;

const ORDER: &str = r#"
[order.one]
cut-extra = "2 %"
over = "10 %"
surplus = "ours"
[order.one.line.a]
colourway = "a"
quantity = 50
samples = 3
[order.one.line.b]
colourway = "b"
quantity = 50
over = "3 pc"
short = "5 %"
tests = 5
"#;

/// Lays of known lengths: 1 to 4 products.
struct Ruler {
    lengths: [i64; 4],
    reserve: i64,
    faults: bool,
}

impl LayLengths for Ruler {
    fn spreading(&mut self, of: &Laid<'_>) -> Spreading {
        assert_eq!((of.article, of.sizes), ("felt", &["one".to_string()][..]));
        Spreading {
            plies: 10,
            step: 1,
            multiple: 1,
            sets: 4,
            ends: 40_000,
            table: None,
            products: None,
            gap: None,
            shortest: 0,
            reserve: self.reserve,
            splice: None,
            assumed: BTreeSet::new(),
        }
    }

    fn length(&mut self, _: &Laid<'_>, mix: &Mix) -> Result<Length, Phrase> {
        match self.faults {
            true => Err("the outline of MAT is the factory's to say".into()),
            false => Ok(Length::AtLeast(self.lengths[mix.count() as usize - 1] / 2)),
        }
    }

    fn lay(&mut self, _: &Laid<'_>, mix: &Mix) -> Option<i64> {
        Some(self.lengths[mix.count() as usize - 1])
    }

    fn is_estimate(&self) -> bool {
        false
    }
}

fn mat(faults: bool) -> OrderFigures {
    let loaded = read::texts(&[("style.toml", STYLE), ("orders/one.toml", ORDER)]);
    assert_eq!(loaded.findings.iter().count(), 0, "{:#?}", loaded.findings);
    let mut figures = compute::compute(&loaded.model, &Assembly::of(&loaded.model)).figures;
    assert!(figures.orders["one"].fabrics.is_empty(), "not planned yet");
    orders::plan(
        &loaded.model,
        &mut figures,
        &mut Ruler { lengths: [550_000, 1_000_000, 1_500_000, 1_960_000], reserve: 0, faults },
    );
    figures.orders.remove("one").unwrap()
}

#[test]
fn products_are_the_order_with_spare_samples_and_tests() {
    let order = mat(false);
    let product = |colourway: &str| order.products["one"][colourway];
    let a = product("a");
    assert_eq!((a.quantity, a.allowed, a.cut_extra, a.samples, a.tests, a.cut), (50, 55, 1, 3, 0, 54));
    // 55 may be delivered: with the cut extra 56.1, so 56 and the samples.
    assert_eq!(a.most, 59);
    let b = product("b");
    assert_eq!((b.quantity, b.allowed, b.cut_extra, b.samples, b.tests, b.cut), (50, 53, 1, 0, 5, 56));
    // 53 × 1.02 = 54.06.
    assert_eq!(b.most, 59);
    let line = order.lines.iter().find(|line| line.line == "b").unwrap();
    assert_eq!((line.least, line.most, line.size.as_deref()), (Some(48), Some(53), Some("one")));
}

/// 110 products, 10 plies: two lays of four and one of three, 30 plies. 20 × 1.96 m + 10 × 1.50 m = 54.2 m; ends 30 × 0.04 m =
/// 1.2 m; 55.4 m. / 0.98 / 1 = 56.53 m. A roll gives 25 m × 0.98 = 24.5 m, 12 plies of 2.00 m or 15 of 1.54 m: 3 rolls, 75 m.
#[test]
fn the_chain_is_worked_out_by_hand() {
    let order = mat(false);
    let [chain] = order.material.as_slice() else { panic!("{:?}", order.material) };
    assert_eq!((chain.bought.article.as_str(), chain.bought.colour.as_deref()), ("felt", Some("grey")));
    assert_eq!((chain.products, chain.made), (110, 110));
    let steps = chain.steps.known().unwrap();
    assert!(!steps.estimate);
    assert_eq!(steps.pieces, 220);
    let term = |one: &orders::PlyTerm| (one.lay, one.lays, one.plies, one.ply.get(), one.per_roll);
    let plies: Vec<_> = steps.plies.iter().map(term).collect();
    assert_eq!(plies, [(1, 2, 10, 2_000.0, Some(12)), (3, 1, 10, 1_540.0, Some(15))]);
    assert_eq!((steps.laid.get(), steps.ends.get(), steps.spread.get()), (54_200.0, 1_200.0, 55_400.0));
    assert_eq!((steps.shrinkage.get(), steps.faults.get()), (2.0, 0.0));
    assert_eq!((steps.relaxed.get(), steps.needed.get()), (56_531.0, 56_531.0));
    assert_eq!((steps.roll.unwrap().get(), steps.usable.unwrap().get(), steps.rolls), (25_000.0, 24_500.0, Some(3)));
    assert_eq!((steps.minimum.unwrap().get(), steps.minimum_decides), (40_000.0, false));
    // 75 / 0.9144; 75 m × 1.5 m × 300 g/m2.
    assert_eq!((steps.bought.get(), steps.yards.get(), steps.mass.get()), (75_000.0, 82.020_997, Some(33_750.0)));
    assert_eq!((steps.surplus.get(), steps.surplus_of.as_deref()), (18_469.0, Some("ours")));
    let fabric = &order.fabrics[0];
    let plan = fabric.plan.known().unwrap();
    assert!(plan.proved && plan.complete && plan.undivided.is_empty());
    // One size: the plain plan is the same.
    assert_eq!(plan.total, plan.plain);
    assert_eq!(fabric.assumed.iter().map(Phrase::english).collect::<Vec<_>>(), ["faults of felt is not stated: 0 %"]);
}

/// Bundles are numbered through; 54 of a, then 56 of b, the change in the second place of the second lay.
#[test]
fn bundles_and_plies_are_numbered() {
    let order = mat(false);
    let plan = order.fabrics[0].plan.known().unwrap();
    let lays = &plan.lays;
    assert_eq!(lays.iter().map(|lay| (lay.products, lay.pieces)).collect::<Vec<_>>(), [(40, 80), (40, 80), (30, 60)]);
    let bundles: Vec<_> = lays.iter().flat_map(|lay| &lay.bundles).collect();
    assert_eq!(bundles.iter().map(|one| one.bundle).collect::<Vec<_>>(), (1..=12).collect::<Vec<_>>());
    let second: Vec<_> =
        lays[1].bundles.iter().map(|b| (b.place, b.colourway.as_str(), b.from, b.to, b.products)).collect();
    assert_eq!(
        second,
        [(1, "a", 1, 10, 10), (2, "a", 1, 4, 4), (2, "b", 5, 10, 6), (3, "b", 1, 10, 10), (4, "b", 1, 10, 10)]
    );
    let sum = |colourway: &str| bundles.iter().filter(|b| b.colourway == colourway).map(|b| b.products).sum::<u64>();
    assert_eq!((sum("a"), sum("b")), (54, 56));
    let rolls: u64 = lays.iter().flat_map(|lay| &lay.colours).flat_map(|one| &one.rolls).map(|roll| roll.plies).sum();
    assert_eq!(rolls, 30);
    let first = &lays[0].colours[0];
    assert_eq!((first.from, first.to), (1, 10));
    assert_eq!(first.rolls.iter().map(|roll| (roll.from, roll.to)).collect::<Vec<_>>(), [(1, 10)]);
}

fn quick(model: &Loaded, lock: &mut Lock, search: bool) -> (OrderFigures, OrderLays) {
    let assembly = Assembly::of(&model.model);
    let computed = compute::compute(&model.model, &assembly);
    let mut figures = computed.figures;
    let (stop, observe) = (|| false, |_: &str, _: (usize, usize), _: Progress| {});
    let how = Search { effort: Effort::Quick, again: false, longer: false, stop: &stop, observe: &observe };
    let done =
        plan_order((&model.model, &assembly, &computed.drawn), &mut figures, "one", lock, search.then_some(&how));
    (figures.orders.remove("one").unwrap(), done)
}

/// Lays are searched where the plan asks for them, kept under the order, and planned from without a search; the factory's
/// edition of the style holds none of them.
#[test]
fn an_order_is_laid_once_and_kept() {
    let style = format!(
        "{STYLE}[cutting.room]\nmethod = \"hand knife\"\ntable = \"6 m\"\nplies = 10\ngap = \"0 mm\"\nend = \"20 mm\"\n"
    );
    let files =
        |lock: &str| read::texts(&[("style.toml", &style), ("orders/one.toml", ORDER), ("backtack.lock", lock)]);
    let plain = read::texts(&[("style.toml", &style), ("orders/one.toml", ORDER)]);
    let mut lock = Lock::default();
    let (first, _) = quick(&plain, &mut lock, false);
    assert!(first.fabrics[0].plan.known().unwrap().estimate, "nothing is laid yet");
    let (first, done) = quick(&plain, &mut lock, true);
    assert!(!done.moved.is_empty() && done.refused.is_empty(), "{done:?}");
    let plan = first.fabrics[0].plan.known().unwrap();
    assert!(!plan.estimate && plan.laid > 0);
    assert!(lock.entries.values().all(|entry| entry.of == "order one"));
    // Two mats of 320 × 220 mm a product: four side by side on 1450 mm turned along it, whatever the search finds.
    for lay in &plan.lays {
        let products = lay.sizes["one"] as f64;
        assert!(lay.length.get() >= products * 2.0 * 320.0 * 220.0 / 1450.0, "{lay:?}");
        assert!(lay.plies <= 10 && lay.ply.get() - lay.length.get() == 40.0);
    }
    let kept = files(&lock.text());
    assert_eq!(kept.findings.iter().count(), 0, "{:#?}", kept.findings);
    let mut again = kept.model.lock.clone();
    let (other, done) = quick(&kept, &mut again, false);
    assert!(done.moved.is_empty() && again == lock);
    assert_eq!(other.fabrics[0].plan.known().unwrap().lays, plan.lays);
    assert_eq!(other.material, first.material);
    let (_, done) = quick(&kept, &mut again, true);
    assert!(done.moved.is_empty() && again == lock, "{done:?}");
    // What goes out with the order holds its lays; what goes out with the style, or with another order, does not.
    let mine = backtack_core::editions::order_edition(&kept, "one").unwrap();
    assert!(mine.iter().any(|(path, bytes)| path == "backtack.lock" && *bytes == lock.text().into_bytes()));
    assert_eq!(
        backtack_core::editions::factory_edition(&kept),
        backtack_core::editions::factory_edition(&read::texts(&[("style.toml", &style)]))
    );
}

/// A table of 6 m: more products lie on a ply than are searched at once. A lay that is joined passes the same check as one that was
/// found, ends where its ply does, and only its parts are kept.
#[test]
fn long_lays_are_joined_of_kept_ones() {
    let style = format!(
        "{STYLE}[cutting.room]\nmethod = \"hand knife\"\ntable = \"6 m\"\nplies = 2\ngap = \"3 mm\"\nend = \"20 mm\"\n"
    );
    let plain = read::texts(&[("style.toml", &style), ("orders/one.toml", ORDER)]);
    let mut lock = Lock::default();
    quick(&plain, &mut lock, true);
    assert!(lock.entries.values().all(|entry| entry.placed.len() <= 24), "no lay of more than 12 products is searched");
    let kept =
        read::texts(&[("style.toml", &style), ("orders/one.toml", ORDER), ("backtack.lock", lock.text().as_str())]);
    let assembly = Assembly::of(&kept.model);
    let computed = compute::compute(&kept.model, &assembly);
    let (mut figures, mut same) = (computed.figures, lock.clone());
    plan_order((&kept.model, &assembly, &computed.drawn), &mut figures, "one", &mut same, None);
    let fabric = &figures.orders["one"].fabrics[0];
    let plan = fabric.plan.known().unwrap();
    assert!(plan.lays.iter().any(|lay| lay.sizes["one"] > 12), "{:?}", plan.groups);
    for lay in &plan.lays {
        let parts: u64 = lay.parts.iter().map(|part| part.sizes["one"] * part.times).sum();
        assert_eq!(parts, lay.sizes["one"]);
        assert!(lay.ply.get() <= 6_000.0 && lay.pieces == 2 * parts * lay.plies && lay.strikes == 2 * parts);
    }
    let lays = orders::order_lays((&kept.model, &assembly, &computed.drawn), &figures, "one");
    for task in &lays.tasks {
        let laid = task.lay.as_ref().unwrap();
        valid::check(&task.instance, laid).unwrap();
        let printed = plan.lays.iter().find(|lay| lay.sizes == task.mix).unwrap();
        assert_eq!(task.instance.count() as u64, printed.strikes);
        let end = laid.length as f64 / 1e3;
        assert!(end <= printed.ply.get() && printed.ply.get() - end < 1.0, "{end} {}", printed.ply.get());
    }
}

/// Four plies of a roll of 25 m with 2 % shrinkage and half a metre kept back: (25 − 0.5) × 0.98 = 24.01 m, 12 plies of 2 m; what is
/// left is told roll by roll. A minimum order of "4 pc" is four rolls.
#[test]
fn rolls_are_used_bought_and_left_over() {
    let style = STYLE.replace("minimum-order = \"40 m\"", "minimum-order = \"4 pc\"");
    let loaded = read::texts(&[("style.toml", &style), ("orders/one.toml", ORDER)]);
    let mut figures = compute::compute(&loaded.model, &Assembly::of(&loaded.model)).figures;
    let lengths = [550_000, 1_000_000, 1_500_000, 1_959_001];
    let mut ruler = Ruler { lengths, reserve: 499_001, faults: false };
    orders::plan(&loaded.model, &mut figures, &mut ruler);
    let order = figures.orders.remove("one").unwrap();
    let steps = order.material[0].steps.known().unwrap();
    assert_eq!((steps.reserve.get(), steps.usable.unwrap().get()), (500.0, 24_010.0));
    // 1,959.001 mm is 1.960 m before anything is computed from it.
    let term = |one: &orders::PlyTerm| (one.lays * one.plies, one.length.get(), one.per_roll.unwrap());
    assert_eq!(steps.plies.iter().map(term).collect::<Vec<_>>(), [(20, 1_960.0, 12), (10, 1_500.0, 15)]);
    // Minimum order 4 rolls; what is used is 20 × 2 m + 10 × 1.54 m = 55.4 m of 3 × 24.01 m.
    assert_eq!((steps.rolls, steps.rolls_bought, steps.minimum_rolls), (Some(3), Some(4), Some(4)));
    assert!(steps.minimum_decides && steps.bought.get() == 100_000.0);
    let left: Vec<(u64, f64)> = steps.remnants.iter().map(|one| (one.roll, one.left.get())).collect();
    assert_eq!(left.iter().map(|(roll, _)| *roll).collect::<Vec<_>>(), [1, 2, 3]);
    assert_eq!(left.iter().map(|(_, left)| left).sum::<f64>(), 3.0 * 24_010.0 - 55_400.0);
    assert!(left.iter().all(|(_, left)| *left >= 0.0));
}

/// Every chain that an example prints, worked out again in whole millimetres from the numbers as they are printed.
#[test]
fn a_printed_chain_is_exact_by_hand() {
    let mut seen = 0;
    for name in ["puffin", "floor-cushion"] {
        let figures = example(name);
        for chain in figures.orders.values().flat_map(|order| &order.material) {
            let steps = chain.steps.known().unwrap();
            let mm = |length: f64| {
                assert_eq!(length, length.round(), "{length} is printed in whole millimetres");
                length as i128
            };
            let laid: i128 =
                steps.plies.iter().map(|one| i128::from(one.lays * one.plies) * mm(one.length.get())).sum();
            assert_eq!(mm(steps.laid.get()), laid);
            let spread: i128 = steps.plies.iter().map(|one| i128::from(one.lays * one.plies) * mm(one.ply.get())).sum();
            assert_eq!((mm(steps.spread.get()), mm(steps.ends.get())), (spread, spread - laid));
            // Percentages with two decimals.
            let left = |share: f64| 10_000 - (share * 100.0).round() as i128;
            let (shrinkage, faults) = (left(steps.shrinkage.get()), left(steps.faults.get()));
            assert_eq!(steps.splices, 0);
            assert_eq!(mm(steps.relaxed.get()), (spread * 10_000 + shrinkage - 1) / shrinkage);
            let both = shrinkage * faults;
            let needed = (spread * 100_000_000 + both - 1) / both;
            assert_eq!(mm(steps.needed.get()), needed);
            let unit = steps.roll.map_or(1_000, |roll| mm(roll.get()));
            let minimum = steps.minimum.map_or(0, |minimum| (mm(minimum.get()) + unit - 1) / unit);
            let need = steps.rolls.map_or((needed + unit - 1) / unit, i128::from);
            assert_eq!(mm(steps.bought.get()), need.max(minimum) * unit);
            if let (Some(usable), Some(rolls)) = (steps.usable, steps.rolls) {
                let given = (unit - mm(steps.reserve.get())) * both / 100_000_000;
                assert_eq!(mm(usable.get()), given);
                assert_eq!(steps.remnants.len() as u64, rolls);
                let left: i128 = steps.remnants.iter().map(|one| mm(one.left.get())).sum();
                assert_eq!(left, given * i128::from(rolls) - spread);
            }
            assert_eq!(mm(steps.surplus.get()), mm(steps.bought.get()) - needed);
            seen += 1;
        }
    }
    assert!(seen > 5, "{seen}");
}

/// What the factory has still to draw makes a plan that is not known, never one of zero.
#[test]
fn an_unknown_length_is_no_plan() {
    let order = mat(true);
    let why = format!("{:?}", order.material[0].steps);
    assert!(order.fabrics[0].plan.known().is_none() && why.contains("the outline of MAT"), "{why}");
}

/// Products, made by fabric and colour, and what is cut agree in every example.
#[test]
fn plans_of_the_examples_agree_with_themselves() {
    for name in ["puffin", "floor-cushion"] {
        let figures = example(name);
        for order in figures.orders.values() {
            let wanted: u64 = order.products.values().flat_map(|by| by.values()).map(|one| one.cut).sum();
            assert!(order.missing.is_empty() && wanted > order.total);
            for fabric in &order.fabrics {
                let plan =
                    fabric.plan.known().unwrap_or_else(|| panic!("{name} {}: {:?}", fabric.article, fabric.plan));
                assert!(plan.estimate && plan.complete);
                let made: u64 = fabric.colours.iter().flat_map(|one| one.made.values()).sum();
                assert_eq!(made, wanted + plan.total.surplus, "{name} {}", fabric.article);
                assert_eq!(plan.lays.iter().map(|lay| lay.products).sum::<u64>(), made);
                assert_eq!(plan.lays.iter().map(|lay| lay.pieces).sum::<u64>(), made * fabric.pieces.known().unwrap());
                assert!((plan.total.bought, plan.total.lays) <= (plan.plain.bought, plan.plain.lays));
            }
            for chain in &order.material {
                let steps = chain.steps.known().unwrap();
                assert!(steps.bought >= steps.needed && chain.made >= chain.products, "{chain:?}");
            }
        }
    }
}

/// 75 m at 4.20 are 315.00; 33.75 kg at 10 are 337.50; 82.021 yd at 4 are 328.08. Another unit is said, not counted.
#[test]
fn what_is_bought_has_its_price() {
    let of = |price: &str| {
        let style = STYLE.replace("colours = [\"grey\"]", &format!("colours = [\"grey\"]\nprice = {price}"));
        let loaded = read::texts(&[("style.toml", &style), ("orders/one.toml", ORDER)]);
        let mut figures = compute::compute(&loaded.model, &Assembly::of(&loaded.model)).figures;
        let lengths = [550_000, 1_000_000, 1_500_000, 1_960_000];
        orders::plan(&loaded.model, &mut figures, &mut Ruler { lengths, reserve: 0, faults: false });
        let order = figures.orders.remove("one").unwrap();
        let price = order.material[0].steps.known().unwrap().price.clone();
        let all: Vec<(f64, String)> = order.cost.iter().map(|one| (one.total.get(), one.currency.clone())).collect();
        assert_eq!(all, price.iter().map(|price| (price.total.get(), price.currency.clone())).collect::<Vec<_>>());
        (price.map(|price| (format!("{:.2}", price.total.get()), price.currency)), order.missing.len())
    };
    let total = |total: &str| (Some((total.to_string(), "EUR".to_string())), 0);
    assert_eq!(of("\"4.20 EUR/m\""), total("315.00"));
    assert_eq!(of("\"10 EUR/kg\""), total("337.50"));
    assert_eq!(of("{ value = \"4 EUR/yd\", audience = \"own\" }"), total("328.08"));
    assert_eq!(of("\"3 EUR/roll\""), (None, 1));
}

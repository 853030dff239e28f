//! Cut plans against plans found in other ways: every plan of small orders written out, and tables over all orders at
//! once. No other program is compared with.

use std::collections::BTreeMap;

use backtack_core::orders::plan::{Buy, Demand, Length, Mix, Plan, Problem, Unplannable, Worth, mixes, settle, solve};
use backtack_core::units::Rational;

mod table;

use table::{M, MM, Orders, every, joined, problem, rolls, uneven};

/// Fabric bought by the metre.
fn metres() -> Buy {
    Buy { whole: false, ..rolls(M) }
}

/// Rolls of every packing tried, group by group.
fn fewest_rolls(lengths: &[i64], usable: i64, rolls: &mut Vec<i64>, best: &mut usize) {
    if rolls.len() >= *best {
        return;
    }
    let Some((first, rest)) = lengths.split_first() else {
        *best = rolls.len();
        return;
    };
    for at in 0..rolls.len() {
        if rolls[at] + first <= usable {
            rolls[at] += first;
            fewest_rolls(rest, usable, rolls, best);
            rolls[at] -= first;
        }
    }
    rolls.push(*first);
    fewest_rolls(rest, usable, rolls, best);
    rolls.pop();
}

/// What one roll gives, in whole millimetres.
fn one_roll(buy: &Buy) -> i64 {
    let (above, below) = (buy.keep.numerator(), buy.keep.denominator());
    (i128::from(buy.unit - buy.reserve) * above / below) as i64 / MM * MM
}

/// What some rolls give where plies are joined of them: each joint loses an overlap.
fn joined_rolls(buy: &Buy, units: usize) -> i64 {
    let (above, below) = (buy.keep.numerator(), buy.keep.denominator());
    let joints = i64::try_from(units.saturating_sub(1)).unwrap();
    (i128::try_from(units).unwrap() * i128::from(buy.unit - buy.reserve) * above / below) as i64 - buy.overlap * joints
}

/// The best of every plan there is, written out.
struct Brute<'a> {
    problem: &'a Problem,
    mixes: &'a [(Mix, Length)],
    best: Option<Worth>,
    seen: usize,
}

impl Brute<'_> {
    fn ply(&self, mix: usize) -> i64 {
        (self.mixes[mix].1.get() + self.problem.ends) * i64::from(self.problem.step)
    }

    /// Whether a mix can be spread at all.
    fn spread(&self, mix: usize) -> bool {
        let problem = self.problem;
        let ply = self.mixes[mix].1.get() + problem.ends;
        problem.table.is_none_or(|table| ply <= table)
            && (!problem.buy.whole || self.ply(mix) <= one_roll(&problem.buy))
            && problem.products.is_none_or(|most| self.mixes[mix].0.count() <= most)
    }

    fn all(&mut self, cell: usize, groups: &mut Vec<Vec<u32>>) {
        let colours = self.problem.colours.len();
        if cell == self.mixes.len() * colours {
            self.look(groups);
            return;
        }
        let (mix, colour) = (cell / colours, cell % colours);
        loop {
            let made = self.made(groups, colour);
            if made.iter().zip(&self.problem.colours[colour].high).any(|(made, high)| made > high) {
                break;
            }
            self.all(cell + 1, groups);
            if !self.spread(mix) {
                break;
            }
            groups[mix][colour] += 1;
        }
        groups[mix][colour] = 0;
    }

    fn made(&self, groups: &[Vec<u32>], colour: usize) -> Vec<u32> {
        let sizes = self.problem.colours[0].low.len();
        let of = |size: usize| self.mixes.iter().zip(groups).map(|((mix, _), g)| mix.sets[size] * g[colour]).sum();
        (0..sizes).map(of).collect()
    }

    fn look(&mut self, groups: &[Vec<u32>]) {
        let problem = self.problem;
        let most = problem.plies / problem.step;
        let mut worth = Worth { bought: 0, lays: 0, spread: 0, surplus: 0 };
        for (colour, demand) in problem.colours.iter().enumerate() {
            let made = self.made(groups, colour);
            if made.iter().zip(&demand.low).any(|(made, low)| made < low) {
                return;
            }
            worth.surplus += made.iter().zip(&demand.low).map(|(made, low)| u64::from(made - low)).sum::<u64>();
            let mut lengths: Vec<i64> = (0..self.mixes.len())
                .flat_map(|mix| std::iter::repeat_n(self.ply(mix), groups[mix][colour] as usize))
                .collect();
            lengths.sort_by(|a, b| b.cmp(a));
            let total: i64 = lengths.iter().sum();
            worth.spread += total;
            let mut units = lengths.len();
            if problem.buy.whole {
                let mut best = units + 1;
                fewest_rolls(&lengths, one_roll(&problem.buy), &mut Vec::new(), &mut best);
                units = if lengths.is_empty() { 0 } else { best };
            } else {
                units = (0..).find(|units| total <= joined_rolls(&problem.buy, *units)).unwrap();
            }
            let least = (demand.minimum as usize).div_ceil(problem.buy.unit as usize);
            let bought = if units == 0 { 0 } else { units.max(least) };
            worth.bought += bought as i64 * problem.buy.unit;
        }
        worth.lays = groups.iter().map(|groups| groups.iter().sum::<u32>().div_ceil(most)).sum();
        self.seen += 1;
        if self.best.is_none_or(|best| worth < best) {
            self.best = Some(worth);
        }
    }
}

fn brute(problem: &Problem, mixes: &[(Mix, Length)]) -> Worth {
    let mut brute = Brute { problem, mixes, best: None, seen: 0 };
    let mut groups = vec![vec![0; problem.colours.len()]; mixes.len()];
    brute.all(0, &mut groups);
    brute.best.unwrap()
}

/// A plan keeps every promise it makes, whatever it is worth.
fn sound(problem: &Problem, mixes: &[(Mix, Length)], plan: &Plan) {
    let mut made: Vec<Vec<u32>> = problem.colours.iter().map(|one| vec![0; one.low.len()]).collect();
    let mut spread = vec![0; made.len()];
    let mut rolls: Vec<BTreeMap<u32, i64>> = vec![BTreeMap::new(); made.len()];
    for lay in &plan.lays {
        let (mix, length) = &mixes[lay.mix];
        assert_eq!(lay.ply, length.get() + problem.ends);
        assert!(problem.table.is_none_or(|table| lay.ply <= table));
        let plies: u32 = lay.plies.iter().sum();
        assert!(plies > 0 && plies <= problem.plies && lay.plies.iter().all(|plies| plies % problem.step == 0));
        for (colour, plies) in lay.plies.iter().enumerate() {
            for (size, sets) in mix.sets.iter().enumerate() {
                made[colour][size] += sets * (plies / problem.step);
            }
            spread[colour] += lay.ply * i64::from(*plies);
            let from: u32 = lay.rolls[colour].iter().map(|(_, plies)| plies).sum();
            assert_eq!(from, if problem.buy.whole { *plies } else { 0 });
            for (roll, plies) in &lay.rolls[colour] {
                *rolls[colour].entry(*roll).or_default() += lay.ply * i64::from(*plies);
            }
        }
    }
    for (colour, taken) in plan.colours.iter().enumerate() {
        assert_eq!((&taken.made, taken.spread), (&made[colour], spread[colour]));
        let demand = &problem.colours[colour];
        for (size, made) in made[colour].iter().enumerate() {
            assert!(*made >= demand.low[size]);
            assert!(*made <= demand.high[size] || plan.raised.contains(&(colour, size)));
        }
        if problem.buy.whole {
            assert!(rolls[colour].values().all(|used| *used <= problem.buy.usable()));
            assert_eq!(rolls[colour].len() as u32, taken.units);
        }
        assert!(taken.bought >= demand.minimum || taken.units == 0);
    }
    assert_eq!(plan.worth.lays as usize, plan.lays.len());
    assert_eq!(plan.worth.spread, spread.iter().sum::<i64>());
    assert_eq!(plan.worth.bought, plan.colours.iter().map(|one| one.bought).sum::<i64>());
    assert!((plan.worth.bought, plan.worth.lays) >= plan.bound || plan.worth.bought >= plan.bound.0);
}

/// Every order of up to three sizes and seven products, against every plan there is: rolls, lays, length, surplus.
#[test]
fn small_orders_have_the_best_of_every_plan() {
    let mut seen = 0;
    for sizes in 1..=3 {
        let some = mixes(sizes, 1, 2, None, &mut uneven);
        for low in every(sizes, 7).into_iter().filter(|low| low.iter().any(|low| *low > 0)) {
            for (plies, unit) in [(2, 1_900), (3, 2_700)] {
                let problem = problem(&low, plies, rolls(unit * MM));
                let plan = solve(&problem, &some).unwrap();
                sound(&problem, &some, &plan);
                assert_eq!(plan.worth, brute(&problem, &some), "{low:?} in {plies} plies");
                assert!(plan.proved);
                seen += 1;
            }
        }
    }
    assert_eq!(seen, 2 * (7 + 35 + 119));
}

/// The same for ranges, colours, minimum orders, pairs of plies and ends.
#[test]
fn ranges_colours_and_pairs_have_the_best_of_every_plan() {
    let some = mixes(2, 1, 3, None, &mut uneven);
    for (at, low) in every(4, 4).into_iter().enumerate().filter(|(_, low)| low.iter().any(|low| *low > 0)) {
        let over = at as u32 % 3;
        let demand = |low: &[u32], minimum: i64| Demand {
            low: low.to_vec(),
            high: low.iter().map(|low| if *low > 0 { low + over } else { 0 }).collect(),
            minimum,
        };
        let minimum = if at % 2 == 0 { 0 } else { 3 * M };
        let colours = vec![demand(&low[..2], minimum), demand(&low[2..], 0)];
        let (step, plies) = if at % 4 == 3 { (2, 4) } else { (1, 2) };
        let buy = if at % 5 == 0 { metres() } else { rolls(4_300 * MM) };
        let problem = Problem { colours, step, ends: 40 * MM, ..problem(&[1], plies, buy) };
        let plan = solve(&problem, &some).unwrap();
        sound(&problem, &some, &plan);
        assert_eq!(plan.worth, brute(&problem, &some), "{problem:?}");
    }
}

/// The same for every wish of the cutting room and every way to buy: what shrinks and is cut out, overlaps, rolls that come out
/// exactly full, a reserve, products in multiples, a table, a wished number.
#[test]
fn every_wish_has_the_best_of_every_plan() {
    let percent = |share: i128| Rational::new(share, 100).unwrap();
    let buys = [
        Buy { keep: percent(91), ..rolls(3_001 * MM) },
        // Two plies of one product of the first size fill a roll, and one of them with a reserve of one.
        rolls(2 * 573 * MM),
        Buy { reserve: 573 * MM, ..rolls(3 * 573 * MM) },
        Buy { whole: false, overlap: 100 * MM, ..rolls(2_300 * MM) },
        Buy { whole: false, overlap: 70 * MM, reserve: 130 * MM, keep: percent(97), ..rolls(1_900 * MM) },
        Buy { whole: false, keep: percent(93), ..rolls(M) },
    ];
    let mut seen = 0;
    for (at, low) in every(2, 7).into_iter().enumerate().filter(|(_, low)| low.iter().any(|low| *low > 0)) {
        for (number, buy) in buys.iter().enumerate() {
            let multiple = if (at + number) % 4 == 3 { 2 } else { 1 };
            let some = mixes(2, multiple, 2 + multiple, None, &mut uneven);
            let table = [None, Some(1_700 * MM), Some(2_600 * MM)][(at + number) % 3];
            let products = [None, Some(2), Some(3)][(at + number / 2) % 3];
            let high = low.iter().map(|low| low + (low % 3)).collect();
            let colours = vec![Demand { low: low.clone(), high, minimum: 0 }];
            let wishes = Problem { colours, multiple, table, products, ..problem(&low, 2, buy.clone()) };
            let Ok(plan) = solve(&wishes, &some) else { continue };
            sound(&wishes, &some, &plan);
            let raised = Problem {
                colours: vec![Demand {
                    high: (0..2).map(|size| wishes.colours[0].high[size].max(plan.colours[0].made[size])).collect(),
                    ..wishes.colours[0].clone()
                }],
                ..wishes.clone()
            };
            let fair = if plan.raised.is_empty() { &wishes } else { &raised };
            assert_eq!(plan.worth, brute(fair, &some), "{wishes:?}");
            assert!(plan.proved);
            seen += 1;
        }
    }
    assert!(seen > 150, "{seen}");
}

/// A table of 9 m: lays of up to four products are searched, longer ones joined of them with the gap between, as long as the table
/// holds. Each joined lay is as long as its parts and the gaps, and no plan with short lays only needs fewer.
#[test]
fn lays_are_joined_up_to_the_table() {
    let own = || mixes(1, 1, 4, None, &mut |mix| Length::Known(hidden(mix)));
    let base = Problem { ends: 40 * MM, table: Some(9 * M), ..problem(&[400], 10, rolls(40 * M)) };
    let short = settle(&base, own(), &mut |_| None, 4).unwrap();
    let long = Problem { gap: Some(4 * MM), ..base.clone() };
    let settled = settle(&long, own(), &mut |_| None, 4).unwrap();
    sound(&long, &settled.mixes, &settled.plan);
    for ((mix, length), parts) in settled.mixes.iter().zip(&settled.parts) {
        let sum: i64 = parts.iter().map(|part| settled.mixes[*part].1.get()).sum();
        assert_eq!(length.get(), sum + 4 * MM * (parts.len() as i64 - 1));
        assert_eq!(mix.count(), parts.iter().map(|part| settled.mixes[*part].0.count()).sum::<u32>());
        assert!(parts.iter().all(|part| *part < 4));
    }
    let most = settled.plan.lays.iter().map(|lay| settled.mixes[lay.mix].0.count()).max().unwrap();
    // 0.41 to 0.5 m a product.
    assert!(most > 12, "{most}");
    assert!(settled.plan.worth.lays * 3 < short.plan.worth.lays, "{:?} {:?}", settled.plan.worth, short.plan.worth);
    let wished = Problem { products: Some(6), ..long };
    let settled = settle(&wished, own(), &mut |_| None, 4).unwrap();
    assert!(settled.plan.lays.iter().all(|lay| settled.mixes[lay.mix].0.count() <= 6));
}

/// Orders looked at: every n-th of all. `benches/plan.rs` takes every one.
const EVERY: usize = 397;

/// Two colours of two sizes on dies of 0.1 m a product, at most 20 plies: 316 to 324 and 214 to 219 of the one, 826 to 844 and 520
/// to 535 of the other. By hand: 108 on a ply, 3 and 2 plies; 104 on a ply, 8 and 5. Two lays do, of some hundred mixes.
#[test]
fn one_lay_a_size_is_found_where_it_does() {
    let demand = |low: [u32; 2], high: [u32; 2]| Demand { low: low.to_vec(), high: high.to_vec(), minimum: 400 * M };
    let colours = vec![demand([826, 316], [844, 324]), demand([520, 214], [535, 219])];
    let base = problem(&[1, 1], 20, metres());
    let wanted = Problem { colours, table: Some(30 * M), gap: Some(3 * MM), ..base };
    let own = || {
        let mixes = (1..=12).flat_map(|n| [(vec![n, 0], n), (vec![0, n], n)]);
        mixes.map(|(sets, n)| (Mix { sets }, Length::Known(i64::from(n) * 100 * MM))).collect::<Vec<_>>()
    };
    let settled = settle(&wanted, own(), &mut |_| None, 4).unwrap();
    sound(&wanted, &settled.mixes, &settled.plan);
    assert_eq!(settled.plan.worth.lays, 2, "{:?}", settled.plan.worth);
}

/// 24 products of 0.1 m each, at most 6 plies, bought by the metre: one lay of six plies of 0.4 m or four of 0.6 m, 2.4 m of
/// fabric, 3 m bought either way. Plies shorter than half a metre are only spread where the rest asks for nothing longer.
#[test]
fn plies_are_long_enough_to_spread_where_that_buys_no_more() {
    let free = Problem { table: Some(3 * M), gap: Some(0), ..problem(&[24], 6, metres()) };
    let asked = Problem { shortest: M / 2, ..free.clone() };
    let lays =
        || vec![(Mix { sets: vec![1] }, Length::Known(M / 10)), (Mix { sets: vec![4] }, Length::Known(4 * M / 10))];
    let plies = |problem: &Problem| {
        let settled = settle(problem, lays(), &mut |_| None, 4).unwrap();
        let length = |mix: usize| match settled.mixes[mix].1 {
            Length::Known(length) => length,
            other => panic!("{other:?}"),
        };
        let all: Vec<i64> = settled.plan.lays.iter().map(|lay| length(lay.mix)).collect();
        (settled.plan.worth, all)
    };
    let (worth, all) = plies(&asked);
    assert!(all.iter().all(|length| *length >= M / 2), "{all:?}");
    assert_eq!(worth.bought, plies(&free).0.bought);
    // Two products make no ply of half a metre: what is wanted is spread all the same.
    let few = Problem { shortest: M / 2, ..problem(&[2], 6, metres()) };
    assert_eq!(plies(&few).1.len(), 1);
}

/// Lays, length and what is bought where plies may be joined, of orders of up to four sizes and forty products.
#[test]
fn orders_of_forty_products_have_the_best_plan() {
    let some = mixes(4, 1, 2, None, &mut uneven);
    let orders = Orders::new(4, 40);
    assert_eq!(orders.list.len(), 135_751);
    let spread = orders.spread(&some, 5);
    for at in (1..orders.list.len()).step_by(EVERY) {
        let problem = problem(&orders.list[at], 5, Buy { whole: false, ..rolls(9 * M) });
        let plan = solve(&problem, &some).unwrap();
        sound(&problem, &some, &plan);
        assert_eq!(plan.worth, joined(&spread[at], 9 * M), "{:?}", orders.list[at]);
        assert!(plan.proved);
    }
}

/// Fewest rolls where no ply is joined, of the same orders.
#[test]
fn orders_of_forty_products_buy_the_fewest_rolls() {
    let some = mixes(4, 1, 2, None, &mut uneven);
    let orders = Orders::new(4, 40);
    let fewest = orders.rolls(&orders.spread(&some, 5), 2_450 * MM);
    for at in (1..orders.list.len()).step_by(5 * EVERY) {
        let problem = problem(&orders.list[at], 5, rolls(2_450 * MM));
        let plan = solve(&problem, &some).unwrap();
        sound(&problem, &some, &plan);
        assert_eq!(plan.colours[0].units, fewest[at], "{:?}", orders.list[at]);
    }
}

/// Rolls of 10 m, 12 products. Three lie on 5.01 m: 4 plies, 20.04 m, and a roll gives one ply: 4 rolls. Two lie on 3.4 m:
/// 6 plies, 20.4 m, and a roll gives two: 3 rolls. Where both may be had, the longer one is taken.
#[test]
fn the_shorter_lay_may_buy_more_rolls() {
    let mix = |sets: u32, length: i64| (Mix { sets: vec![sets] }, Length::Known(length * MM));
    let of = |multiple: u32, some: &[(Mix, Length)]| {
        let problem = Problem { multiple, ..problem(&[12], 20, rolls(10 * M)) };
        let plan = solve(&problem, some).unwrap();
        sound(&problem, some, &plan);
        (plan.worth.spread, plan.colours[0].units)
    };
    assert_eq!(of(3, &[mix(3, 5_010)]), (20_040 * MM, 4));
    assert_eq!(of(2, &[mix(2, 3_400)]), (20_400 * MM, 3));
    assert_eq!(of(1, &[mix(1, 2_200), mix(2, 3_400), mix(3, 5_010)]), (20_400 * MM, 3));
}

/// 8 sizes in 6 colourways, hundreds of each: too many plans to look at.
#[test]
fn a_large_order_has_a_sound_plan_near_its_bound() {
    let some = mixes(8, 1, 4, None, &mut uneven);
    assert_eq!(some.len(), 494);
    let problem = table::large(80, rolls(40 * M));
    let plan = solve(&problem, &some).unwrap();
    sound(&problem, &some, &plan);
    assert!(!plan.proved && plan.bound.0 <= plan.worth.bought && plan.bound.1 <= plan.worth.lays);
}

/// Two sizes in two colours, hundreds of each: the least that is bought is known, and the search finds it.
#[test]
fn a_middling_order_buys_the_least_there_is() {
    let some = mixes(2, 1, 6, None, &mut uneven);
    let demand = |low: [u32; 2]| Demand { low: low.to_vec(), high: low.map(|low| low + low / 50).to_vec(), minimum: 0 };
    let colours = vec![demand([640, 310]), demand([322, 205])];
    for (buy, plies) in [(rolls(25 * M), 16), (Buy { whole: false, ..rolls(M) }, 30)] {
        let problem = Problem { colours: colours.clone(), ..problem(&[1, 1], plies, buy) };
        let plan = solve(&problem, &some).unwrap();
        sound(&problem, &some, &plan);
        assert_eq!(plan.worth.bought, plan.bound.0);
        assert_eq!(plan, solve(&problem, &some).unwrap(), "the same input, the same plan");
    }
}

/// Lengths that only a lay can tell: the bound is as if nothing were wasted.
fn hidden(mix: &Mix) -> i64 {
    uneven(mix).get() + 37 * MM * i64::from(mix.sets.iter().map(|sets| sets % 3).sum::<u32>())
}

/// The plan over mixes of which only bounds are known, laid as they are chosen, buys as little in as few lays as the plan over all
/// of them laid; and fewer were laid.
#[test]
fn laying_what_is_chosen_finds_what_laying_all_finds() {
    let all = mixes(3, 1, 4, None, &mut |mix| Length::Known(hidden(mix)));
    let (mut laid, mut plans) = (0, 0);
    for low in every(3, 24).into_iter().step_by(53).skip(1) {
        let problem = problem(&low, 6, rolls(7 * M));
        let bounds = mixes(3, 1, 4, None, &mut |mix| Length::AtLeast(hidden(mix) * 96 / 100));
        let mut lay = |mix: &Mix| {
            laid += 1;
            Some(hidden(mix))
        };
        let settled = settle(&problem, bounds, &mut lay, 60).unwrap();
        sound(&problem, &settled.mixes, &settled.plan);
        sound(&problem, &settled.mixes, &settled.plain);
        assert!(settled.complete);
        assert!(settled.plan.lays.iter().all(|lay| matches!(settled.mixes[lay.mix].1, Length::Known(_))));
        assert!(settled.plain.lays.iter().all(|lay| settled.mixes[lay.mix].0.is_plain()));
        let pair = |plan: &Plan| (plan.worth.bought, plan.worth.lays);
        assert!(pair(&settled.plan) <= pair(&settled.plain));
        let best = solve(&problem, &all).unwrap().worth;
        assert_eq!((settled.plan.worth.bought, settled.plan.worth.lays), (best.bought, best.lays), "{low:?}");
        plans += 1;
    }
    assert_eq!(plans, 55);
    assert!(laid < plans * all.len(), "{laid}");
}

/// After the last round the plan is made of what is laid, and says that others were not tried. What cannot be laid is in no
/// plan.
#[test]
fn rounds_are_bounded_and_what_cannot_be_laid_is_left_out() {
    let problem = problem(&[9, 7], 3, rolls(7 * M));
    let bounds = || mixes(2, 1, 4, None, &mut |mix| Length::AtLeast(hidden(mix) / 2));
    let settled = settle(&problem, bounds(), &mut |mix| Some(hidden(mix)), 0).unwrap();
    assert!(!settled.complete);
    sound(&problem, &settled.mixes, &settled.plan);
    assert!(
        settled.plan.lays.iter().all(|lay| settled.mixes[lay.mix].0.count() == 1),
        "only single products were laid"
    );
    let none = settle(&problem, bounds(), &mut |mix| (mix.count() == 1).then(|| hidden(mix)), 60).unwrap();
    assert!(none.complete && none.plan.lays.iter().all(|lay| none.mixes[lay.mix].0.count() == 1));
    let short = Problem { table: Some(500 * MM), ..problem.clone() };
    assert_eq!(solve(&short, &mixes(2, 1, 2, None, &mut uneven)), Err(Unplannable::Table { size: 0 }));
    let narrow = Problem { buy: rolls(500 * MM), ..problem };
    assert_eq!(solve(&narrow, &mixes(2, 1, 2, None, &mut uneven)), Err(Unplannable::Roll { size: 0 }));
}

/// Face to face two products come of each pair of plies: 25 can not be made, 26 are.
#[test]
fn what_no_ply_count_divides_is_made_above_the_limit_and_said() {
    let some = mixes(2, 2, 4, None, &mut uneven);
    let problem = Problem { step: 2, multiple: 2, ..problem(&[25, 12], 10, rolls(20 * M)) };
    let plan = solve(&problem, &some).unwrap();
    sound(&problem, &some, &plan);
    assert_eq!((plan.colours[0].made.as_slice(), plan.raised.as_slice()), (&[26, 12][..], &[(0, 0)][..]));
    let mut within = problem;
    within.colours[0].high[0] = 27;
    let plan = solve(&within, &some).unwrap();
    assert_eq!((plan.colours[0].made.as_slice(), plan.raised.len()), (&[26, 12][..], 0));
}

/// A minimum order of three rolls makes the third roll free, so that fewer lays come before less fabric.
#[test]
fn a_minimum_order_makes_fabric_free_up_to_it() {
    let some: Vec<(Mix, Length)> = [(1, 1_000), (2, 1_990), (3, 3_300)]
        .map(|(sets, length)| (Mix { sets: vec![sets] }, Length::Known(length * MM)))
        .to_vec();
    let of = |minimum: i64| {
        let mut problem = problem(&[12], 4, rolls(12 * M));
        problem.colours[0].minimum = minimum;
        let plan = solve(&problem, &some).unwrap();
        (plan.worth.bought, plan.worth.lays, plan.worth.spread)
    };
    assert_eq!(of(0), (12 * M, 2, 11_940 * MM));
    assert_eq!(of(30 * M), (36 * M, 1, 13_200 * MM));
}

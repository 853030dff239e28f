//! What a cut plan costs: 8 sizes in 6 colourways, of several orders and ways to buy; and every order of up to four sizes
//! and forty products, each held against the best there is.
//!
//! `cargo bench -p backtack-core --bench plan`

#![allow(clippy::disallowed_methods, clippy::print_stdout, reason = "a measurement keeps time of its own")]
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "a measurement that cannot be made stops")]

use std::time::Instant;

use backtack_core::orders::plan::{Buy, Problem, mixes, solve};

#[path = "../tests/core/plan/table.rs"]
mod table;

use table::{M, MM, Orders, joined, large, problem, rolls, uneven};

/// A large plan takes no longer, seconds.
const LIMIT: f64 = 2.0;

/// Rolls are looked at for every n-th order.
const ROLLED: usize = 50;

fn main() {
    let some = mixes(8, 1, 4, None, &mut uneven);
    println!("8 sizes, 6 colourways, {} mixes; limit {LIMIT} s", some.len());
    println!("{:<28} {:>7} {:>10} {:>10} {:>6} {:>6}", "", "s", "bought m", "bound m", "lays", "bound");
    let spliced = |unit| Buy { whole: false, ..rolls(unit) };
    let rows: [(&str, Problem); 5] = [
        ("rolls of 40 m, 80 plies", large(80, rolls(40 * M))),
        ("rolls of 40 m, 10 plies", large(10, rolls(40 * M))),
        ("rolls of 25 m, 4 plies", large(4, rolls(25 * M))),
        ("rolls of 40 m, spliced", large(80, spliced(40 * M))),
        ("metres, 40 plies", large(40, spliced(M))),
    ];
    for (name, problem) in rows {
        let start = Instant::now();
        let plan = solve(&problem, &some).expect("the order can be planned");
        let seconds = start.elapsed().as_secs_f64();
        let metres = |length: i64| length as f64 / M as f64;
        println!(
            "{name:<28} {seconds:>7.2} {:>10.0} {:>10.0} {:>6} {:>6}{}",
            metres(plan.worth.bought),
            metres(plan.bound.0),
            plan.worth.lays,
            plan.bound.1,
            if seconds > LIMIT { "  too slow" } else { "" }
        );
    }
    every();
}

fn every() {
    let some = mixes(4, 1, 2, None, &mut uneven);
    let orders = Orders::new(4, 40);
    let start = Instant::now();
    let spread = orders.spread(&some, 5);
    let fewest = orders.rolls(&spread, 2_450 * MM);
    println!("every order of up to 4 sizes and 40 products: tables in {:.1} s", start.elapsed().as_secs_f64());
    let start = Instant::now();
    let (mut best, mut rolled, mut looked, mut proved) = (0, 0, 0, 0);
    for (at, order) in orders.list.iter().enumerate().skip(1) {
        let plan = solve(&problem(order, 5, Buy { whole: false, ..rolls(9 * M) }), &some).expect("a plan");
        best += usize::from(plan.worth == joined(&spread[at], 9 * M));
        if at % ROLLED == 0 {
            let plan = solve(&problem(order, 5, rolls(2_450 * MM)), &some).expect("a plan");
            rolled += usize::from(plan.colours[0].units == fewest[at]);
            proved += usize::from(plan.proved);
            looked += 1;
        }
    }
    let all = orders.list.len() - 1;
    let seconds = start.elapsed().as_secs_f64();
    println!("  best plan {best} of {all}; fewest rolls {rolled} of {looked}, {proved} proved; in {seconds:.1} s");
}

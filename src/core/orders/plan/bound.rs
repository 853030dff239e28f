//! What no plan can be below, where there are too many plans to look at.
//!
//! A price for each size at which no mix costs more than its length makes the price of the order a bound on its length:
//! the dual of the linear programme without whole numbers. The prices come from a small simplex search; whatever it gives is
//! scaled until it is a bound, so that rounding cannot make it wrong.

use super::ready::Ready;

/// Changes of basis at most.
const TURNS: usize = 400;
/// What counts as nothing beside lengths of one product.
const NOTHING: f64 = 1e-9;

/// A length that no plan of one colour spreads less than, µm.
pub fn length(ready: &Ready<'_>, colour: usize) -> i64 {
    let low = &ready.low[colour];
    let rows: Vec<usize> = (0..low.len()).filter(|size| low[*size] > 0).collect();
    if rows.is_empty() {
        return 0;
    }
    let prices = prices(ready, &rows, low);
    let cost = |sets: &[u32]| rows.iter().zip(&prices).map(|(size, price)| f64::from(sets[*size]) * price).sum::<f64>();
    let scale = ready.mixes.iter().map(|mix| (mix.length as f64, cost(&mix.sets))).filter(|(_, cost)| *cost > 0.0);
    let scale = scale.map(|(length, cost)| length / cost).fold(f64::INFINITY, f64::min);
    // A millionth below, for the rounding of the sums.
    let bound = cost(low) * scale.min(1e6) * (1.0 - 1e-6);
    if bound.is_finite() { bound.max(0.0) as i64 } else { 0 }
}

/// Prices by row after the simplex search; none below zero.
fn prices(ready: &Ready<'_>, rows: &[usize], low: &[u32]) -> Vec<f64> {
    let n = rows.len();
    let column = |mix: usize| -> Vec<f64> { rows.iter().map(|size| f64::from(ready.mixes[mix].sets[*size])).collect() };
    let columns: Vec<Vec<f64>> = (0..ready.mixes.len()).map(column).collect();
    let Some((mut cost, mut inverse)) = start(ready, rows) else { return vec![0.0; n] };
    let mut amount: Vec<f64> = (0..n).map(|row| inverse[row][row] * f64::from(low[rows[row]])).collect();
    for _ in 0..TURNS {
        let price: Vec<f64> = (0..n).map(|at| (0..n).map(|row| cost[row] * inverse[row][at]).sum()).collect();
        let worth = |mix: usize| {
            columns[mix].iter().zip(&price).map(|(a, p)| a * p).sum::<f64>() - ready.mixes[mix].length as f64
        };
        let mixes = (0..columns.len()).map(|mix| (worth(mix), columns[mix].clone(), ready.mixes[mix].length as f64));
        let unit = |at: usize| -> Vec<f64> { (0..n).map(|row| if row == at { -1.0 } else { 0.0 }).collect() };
        let slack = (0..n).map(|at| (-price[at], unit(at), 0.0));
        let best = mixes.chain(slack).max_by(|a, b| a.0.total_cmp(&b.0));
        let Some((_, enters, length)) = best.filter(|(worth, ..)| *worth > 1e-3) else { break };
        let along: Vec<f64> = (0..n).map(|row| (0..n).map(|at| inverse[row][at] * enters[at]).sum()).collect();
        let leaves = (0..n).filter(|row| along[*row] > NOTHING);
        let Some(leaves) = leaves.min_by(|a, b| (amount[*a] / along[*a]).total_cmp(&(amount[*b] / along[*b]))) else {
            break;
        };
        let much = amount[leaves] / along[leaves];
        for row in (0..n).filter(|row| *row != leaves) {
            amount[row] -= along[row] * much;
            let factor = along[row] / along[leaves];
            let from = inverse[leaves].clone();
            inverse[row].iter_mut().zip(&from).for_each(|(to, from)| *to -= factor * from);
        }
        inverse[leaves].iter_mut().for_each(|one| *one /= along[leaves]);
        amount[leaves] = much;
        cost[leaves] = length;
    }
    (0..n).map(|at| (0..n).map(|row| cost[row] * inverse[row][at]).sum::<f64>().max(0.0)).collect()
}

/// One plain mix a row to start from: its length, and the inverse of their matrix.
fn start(ready: &Ready<'_>, rows: &[usize]) -> Option<(Vec<f64>, Vec<Vec<f64>>)> {
    let mut cost = Vec::new();
    let mut inverse = vec![vec![0.0; rows.len()]; rows.len()];
    for (row, size) in rows.iter().enumerate() {
        let mix = ready.mixes.iter().find(|mix| mix.sizes == [*size])?;
        cost.push(mix.length as f64);
        inverse[row][row] = 1.0 / f64::from(mix.sets[*size]);
    }
    Some((cost, inverse))
}

/// Lays that no plan has fewer than.
pub fn lays(ready: &Ready<'_>) -> u32 {
    let most = ready.mixes.iter().map(|mix| mix.sets.iter().sum::<u32>()).max().unwrap_or(1);
    let wanted: u64 = ready.low.iter().flatten().map(|low| u64::from(*low)).sum();
    let each = u64::from(most) * u64::from(ready.groups);
    u32::try_from(wanted.div_ceil(each.max(1))).unwrap_or(u32::MAX)
}

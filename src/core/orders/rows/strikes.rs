//! How often dies strike for an order: per die, and in all; and which dies are one.

use std::collections::BTreeMap;

use crate::compute::Number;
use crate::cutting::figures::dies::{Die, Same};
use crate::cutting::figures::{Kind, Side};
use crate::cutting::rows::marker;
use crate::model::Method;
use crate::words::{Phrase, say, words};

use super::lays::spread;
use super::letters::Letters;
use super::plan::shown;
use crate::rows::cell::Cell;
use crate::rows::data::{Sheet, Strikes};
use crate::rows::package::Head;
use crate::rows::view::View;

words! {
    NAME "strikes.name" = "Die strikes";
    TITLE "strikes.title" = "How often each die strikes";
    LEAD "strikes.lead" = "A die strikes once for each of its pieces on a ply, through all plies of the lay at once; a lay of more plies than can be cut at once is struck stack by stack; a shape that is cut from a block is struck block by block. Dies of one shape, turned or moved, are one die, and so are mirror images where plies lie face to face or both faces of the fabric are equal.";
    DIE "strikes.die" = "Die";
    SIZE "strikes.size" = "Size";
    MADE "strikes.made" = "Dies made";
    DRAWN "strikes.drawn" = "Strikes as drawn";
    MIRRORED "strikes.mirrored" = "Strikes mirrored";
    ALL "strikes.all" = "Strikes in all";
    RULE "strikes.rule" = "Steel rule of one, m";
    SAME "strikes.same" = "Same shape as";
    OF "strikes.of" = "{letter} {piece} {size}";
    IMAGE_OF "strikes.image-of" = "mirror image of {letter} {piece} {size}";
    TOTAL "strikes.total" = "All dies";
    BLOCK "strikes.block" = "{piece}, its block";
}

/// Strikes of a shape: as drawn and mirrored.
type Struck = [u64; 2];

/// One sheet for the order that is shown; none where no press cuts.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let struck = struck(view);
    if struck.is_empty() {
        return Vec::new();
    }
    let letters = Letters::of(view);
    let key = |die: &Die| (die.piece.clone(), die.cut.clone(), die.size.clone());
    let dies: Vec<(&Die, Struck)> = view
        .figures
        .dies
        .iter()
        .filter_map(|die| {
            let counts = struck.get(&key(die))?;
            // What is cut from a block is struck afterwards, block by block.
            let from_block = |one: &&Die| one.block && key(one) == key(die);
            let inner = !die.block && view.figures.dies.iter().any(|one| from_block(&one));
            Some((die, if inner { counts.single } else { counts.stacked }))
        })
        .collect();
    let rows = dies.iter().map(|(die, counts)| row(die, *counts, &letters)).collect();
    let all: u64 = dies.iter().flat_map(|(_, counts)| counts).sum();
    let made: u64 = dies.iter().map(|(die, _)| die.dies).sum();
    let total = vec![TOTAL.into(), Cell::Empty, Cell::count(made), Cell::Empty, Cell::Empty, Cell::count(all)];
    let columns = [DIE, SIZE, MADE, DRAWN, MIRRORED, ALL, RULE, SAME].map(Phrase::from).to_vec();
    vec![Sheet::Strikes(Strikes {
        head: Head { title: TITLE.into(), name: NAME.into(), lead: LEAD.into() },
        columns,
        rows,
        total,
    })]
}

/// A die with its strikes.
fn row(die: &Die, [drawn, mirrored]: Struck, letters: &Letters<'_>) -> Vec<Cell> {
    let name = letters.name(&die.piece, &die.cut);
    let name = if die.block { say!(BLOCK, piece = name) } else { name.into() };
    let count = |count: u64| if count > 0 { Cell::count(count) } else { Cell::Dash };
    vec![
        Phrase::row([letters.signed(&die.piece, &die.cut, Side::Drawn).into(), name], " ").into(),
        (&die.size).into(),
        Cell::count(die.dies),
        count(drawn),
        count(mirrored),
        count(drawn + mirrored),
        Cell::fixed(Number::new(die.rule.get() / 1000.0), 3, ""),
        die.same.as_ref().map_or(Cell::Dash, |same| one_with(same, letters)),
    ]
}

/// The die of the same shape.
fn one_with(same: &Same, letters: &Letters<'_>) -> Cell {
    let word = if same.mirrored { IMAGE_OF } else { OF };
    let letter = letters.signed(&same.piece, &same.cut, Side::Drawn);
    say!(word, letter, piece = letters.name(&same.piece, &same.cut), size = &same.size).into()
}

/// Strikes of a shape through all plies of a stack at once, and one piece at a time.
#[derive(Debug, Clone, Copy, Default)]
struct Counts {
    stacked: Struck,
    single: Struck,
}

/// Strikes by piece, cut and size, of every lay that a press cuts.
fn struck(view: &View<'_>) -> BTreeMap<(String, String, String), Counts> {
    let mut all: BTreeMap<(String, String, String), Counts> = BTreeMap::new();
    let Some((_, order)) = shown(view) else { return all };
    let pressed = marker::laid(view).into_iter().filter(|(task, _)| task.how.method == Method::Die);
    for one in pressed {
        let (task, _) = one;
        let limit = task.how.plies.known().copied().unwrap_or(u64::MAX).max(1);
        let lays = spread(&one, &order.fabrics);
        let stacks: u64 = lays.iter().map(|lay| lay.plies.div_ceil(limit)).sum();
        let plies: u64 = lays.iter().map(|lay| lay.plies).sum();
        for (Kind { piece, cut, size, side }, laid) in task.kinds.iter().zip(&task.instance.pieces) {
            let counts = all.entry((piece.clone(), cut.clone(), size.clone())).or_default();
            let at = usize::from(*side == Side::Mirrored);
            counts.stacked[at] += laid.demand as u64 * stacks;
            counts.single[at] += laid.demand as u64 * plies;
        }
    }
    all
}

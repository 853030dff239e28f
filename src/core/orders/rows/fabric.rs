//! How much fabric to order: the way from products to rolls, each step from the one before.

use crate::compute::{Figure, Number};
use crate::model::Audience;
use crate::orders::figures::{Chain as Figures, Cost, PlyTerm, Remnant, Steps};
use crate::words::{Phrase, Word, number, say, sheet, words};

use super::plan::{colour_name, pieces, shown};
use super::purchases::purchases;
use super::spreads::range;
use crate::rows::cell::Cell;
use crate::rows::data::{Chain, ChainStep, Fabric, Sheet};
use crate::rows::package::Head;
use crate::rows::view::{View, metres};

words! {
    TITLE "fabric.title" = "How much fabric to order {order}";
    FABRIC "fabric.fabric" = "Fabric";
    ESTIMATED "fabric.estimated" = "from an estimate, not from lays";
    LAID_OUT "fabric.from-lays" = "from lays";
    TO_CUT "fabric.to-cut" = "Products to cut";
    TO_CUT_HOW "fabric.to-cut-how" = "ordered with cut extra, samples and tests";
    MADE "fabric.made" = "Made by the plan";
    ON_ALL_PLIES "fabric.on-all-plies" = "on all plies";
    LAID "fabric.laid" = "Laid, without ends";
    LAID_HOW "fabric.laid-how" = "all lays";
    ENDS "fabric.ends" = "Ends of the plies";
    ENDS_HOW "fabric.ends-how" = "plies × both ends";
    SPREAD "fabric.spread" = "Spread";
    SPREAD_HOW "fabric.spread-how" = "laid + ends";
    OVER "fabric.over" = "on all plies, and {count} single pieces over";
    SPLICES "fabric.splices" = "Splices";
    SPLICES_HOW "fabric.splices-how" = "{count} × overlap";
    RELAXED "fabric.relaxed" = "Before it shrinks";
    RELAXED_HOW "fabric.relaxed-how" = "{what} / {share} ({percent} %)";
    FAULTS "fabric.faults" = "With faults cut out";
    FAULTS_HOW "fabric.faults-how" = "{what} / {before} / {share} ({percent} %)";
    SPREAD_LENGTH "fabric.spread-length" = "spread";
    SPREAD_AND_SPLICES "fabric.spread-and-splices" = "(spread + splices)";
    ROLLS "fabric.rolls" = "Rolls used";
    ROLLS_HOW "fabric.rolls-how" = "{roll}, {usable} of it can be spread; no ply from two rolls";
    ROLLS_SPLICED "fabric.rolls-spliced" = "{roll}, {usable} of it can be spread; plies may be spliced";
    A_ROLL "fabric.a-roll" = "{roll} a roll";
    LESS_RESERVE "fabric.less-reserve" = "{roll} a roll less {reserve} kept back";
    REMNANT "fabric.remnant" = "Left of roll {roll}";
    REMNANT_EACH "fabric.remnant-each" = "Left of rolls {rolls}, each";
    ROLLS_BOUGHT "fabric.rolls-bought" = "Rolls bought";
    MINIMUM "fabric.minimum" = "Minimum order";
    IN_ROLLS "fabric.in-rolls" = "{length}, rolls: {rolls}";
    DECIDES "fabric.decides" = "more than is needed: it decides";
    LESS "fabric.less" = "less than is needed";
    TO_ORDER "fabric.to-order" = "To order";
    TO_ORDER_HOW "fabric.to-order-how" = "whole rolls or metres";
    AND_YARDS "fabric.and-yards" = "{metres} / {yards} yd";
    MASS "fabric.mass" = "Mass";
    MASS_HOW "fabric.mass-how" = "length × full width × mass per area";
    LEFT_OVER "fabric.left-over" = "Left over";
    NOBODYS "fabric.nobodys" = "whose it is, the order does not say";
    COST "fabric.cost" = "Cost";
    AT_PRICE "fabric.at-price" = "at {price}";
    IN_ALL "fabric.in-all" = "Cost of the fabric of this order: {total}.";
    OWN "fabric.own" = "Own edition, with prices that are not for the factory.";
    LAY "fabric.lay" = "Lay {lays}";
    LAYS "fabric.lays" = "Lays {lays}";
    TERM "fabric.term" = "{plies} plies × {length}";
    TERM_OF_ROLL "fabric.term-of-roll" = "{plies} plies × {length}; a roll gives {count}";
}

/// One sheet for the order that is shown; none without one, or where nothing is bought.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let Some((id, order)) = shown(view) else { return Vec::new() };
    let chains: Vec<Chain> = order.material.iter().map(|chain| self::chain(view, chain)).collect();
    if chains.is_empty() {
        return Vec::new();
    }
    let named = order.number.clone().unwrap_or_else(|| id.to_string());
    let head =
        Head { title: say!(TITLE, order = named), name: sheet::FABRIC_SHEET.into(), lead: sheet::FABRIC_LEAD.into() };
    let mut notes = vec![sheet::FABRIC_NOTE.into()];
    if !order.cost.is_empty() {
        let total = |one: &Cost| Cell::fixed(one.total, 2, &one.currency).phrase();
        notes.push(say!(IN_ALL, total = Phrase::list(order.cost.iter().map(total))));
        if order.material.iter().any(|chain| is_own(view, chain)) {
            notes.push(OWN.into());
        }
    }
    let list = purchases(view, &order.material);
    vec![Sheet::Fabric(Fabric { head, list, chains, notes })]
}

/// Whether the price of what is bought is for the own edition only.
fn is_own(view: &View<'_>, chain: &Figures) -> bool {
    let price = view.model.articles.get(&chain.bought.article).and_then(|article| article.text("price"));
    price.is_some_and(|price| price.all().any(|one| one.audience == Audience::Own))
}

fn chain(view: &View<'_>, one: &Figures) -> Chain {
    let title = Phrase::list([view.material(&one.bought.article), colour_name(view, &one.bought)]);
    let steps = match &one.steps {
        Figure::Known(steps) => self::steps(one, steps),
        Figure::NotYet { why } => vec![row(FABRIC, Phrase::row(why, "; "), Cell::Unknown(why.clone()))],
        Figure::Withheld => vec![row(FABRIC, "", Cell::Withheld)],
    };
    let estimate = one.steps.known().is_some_and(|steps| steps.estimate);
    let text = if estimate { ESTIMATED } else { LAID_OUT };
    Chain { title, text: text.into(), steps }
}

fn row(step: Word, working: impl Into<Phrase>, result: impl Into<Cell>) -> ChainStep {
    ChainStep { step: step.into(), working: working.into(), result: result.into(), heavy: false }
}

fn steps(one: &Figures, steps: &Steps) -> Vec<ChainStep> {
    let mut all = vec![
        row(TO_CUT, TO_CUT_HOW, pieces(one.products)),
        row(MADE, "", pieces(one.made)),
        row(sheet::PIECES, on_plies(steps), pieces(steps.pieces + steps.over)),
    ];
    all.extend(steps.plies.chunk_by(alike).map(term));
    all.extend([
        row(LAID, LAID_HOW, metres(steps.laid)),
        row(ENDS, ENDS_HOW, metres(steps.ends)),
        row(SPREAD, SPREAD_HOW, metres(steps.spread)),
    ]);
    if steps.splices > 0 {
        all.push(row(SPLICES, say!(SPLICES_HOW, count = Cell::count(steps.splices).phrase()), metres(steps.spliced)));
    }
    let what = || if steps.splices > 0 { SPREAD_AND_SPLICES } else { SPREAD_LENGTH };
    let (share, percent) = left(steps.shrinkage);
    all.push(row(RELAXED, say!(RELAXED_HOW, what = what(), share = &share, percent), metres(steps.relaxed)));
    let (before, (share, percent)) = (share, left(steps.faults));
    all.push(row(FAULTS, say!(FAULTS_HOW, what = what(), before, share, percent), metres(steps.needed)));
    all.extend(rolls(steps));
    if let Some(minimum) = steps.minimum {
        let length = metres(minimum);
        let result = match steps.minimum_rolls {
            Some(rolls) => say!(IN_ROLLS, length = length.phrase(), rolls = Cell::count(rolls).phrase()).into(),
            None => length,
        };
        all.push(row(MINIMUM, if steps.minimum_decides { DECIDES } else { LESS }, result));
    }
    all.extend(steps.rolls_bought.map(|rolls| row(ROLLS_BOUGHT, "", Cell::count(rolls))));
    let yards = number::number(steps.yards.get(), 1);
    let length = say!(AND_YARDS, metres = metres(steps.bought).phrase(), yards);
    all.push(ChainStep { heavy: true, ..row(TO_ORDER, TO_ORDER_HOW, length) });
    let kilograms = |grams: &Number| Cell::fixed(Number::new(grams.get() / 1000.0), 1, "kg");
    all.push(row(MASS, MASS_HOW, Cell::figure(&steps.mass, kilograms)));
    let of = steps.surplus_of.as_ref().map_or_else(|| NOBODYS.into(), Phrase::from);
    all.push(row(LEFT_OVER, of, metres(steps.surplus)));
    if let Some(price) = &steps.price {
        let total = Cell::fixed(price.total, 2, &price.currency);
        all.push(row(COST, say!(AT_PRICE, price = &price.each), total));
    }
    all
}

/// Where the pieces lie, and how many are over.
fn on_plies(steps: &Steps) -> Phrase {
    match steps.over {
        0 => ON_ALL_PLIES.into(),
        over => say!(OVER, count = Cell::count(over).phrase()),
    }
}

/// Rolls that are used, and what is left of each.
fn rolls(steps: &Steps) -> Vec<ChainStep> {
    let (Some(roll), Some(usable), Some(rolls)) = (steps.roll, steps.usable, steps.rolls) else { return Vec::new() };
    let length = metres(roll).phrase();
    let roll = match steps.reserve.get() > 0.0 {
        true => say!(LESS_RESERVE, roll = length, reserve = metres(steps.reserve).phrase()),
        false => say!(A_ROLL, roll = length),
    };
    let word = if steps.remnants.is_empty() { ROLLS_SPLICED } else { ROLLS_HOW };
    let working = say!(word, roll, usable = metres(usable).phrase());
    let mut all = vec![row(ROLLS, working, Cell::count(rolls))];
    all.extend(remnants(&steps.remnants));
    all
}

/// What is left of each roll, a row for rolls of which as much is left.
fn remnants(all: &[Remnant]) -> impl Iterator<Item = ChainStep> {
    let equal = |one: &Remnant, other: &Remnant| one.materials == other.materials && one.left == other.left;
    let said = |some: &[Remnant]| {
        let (first, last) = (some.first()?, some.last()?);
        let step = match some.len() {
            1 => say!(REMNANT, roll = first.roll),
            _ => say!(REMNANT_EACH, rolls = range(first.roll, last.roll)),
        };
        Some(ChainStep { step, working: Phrase::none(), result: metres(first.left), heavy: false })
    };
    all.chunk_by(equal).filter_map(said)
}

/// What is left of a whole after a share of it, and the share in percent.
fn left(share: Number) -> (String, Phrase) {
    (number::number(1.0 - share.get() / 100.0, 4), Cell::amount(share, 2, "").phrase())
}

/// Whether plies of two lays that follow each other are of one length.
fn alike(one: &PlyTerm, other: &PlyTerm) -> bool {
    (&one.materials, one.length, one.per_roll) == (&other.materials, other.length, other.per_roll)
}

/// `Lay 1`, or `Lays 3–9`: `10 plies × 1.234 m`, and what they come to.
fn term(some: &[PlyTerm]) -> ChainStep {
    let (Some(first), Some(last)) = (some.first(), some.last()) else { return ChainStep::default() };
    let plies: u64 = some.iter().map(|one| one.plies * one.lays).sum();
    let (count, length) = (Cell::count(plies).phrase(), metres(first.length).phrase());
    let working = match first.per_roll {
        Some(roll) => say!(TERM_OF_ROLL, plies = count, length, count = Cell::count(roll).phrase()),
        None => say!(TERM, plies = count, length),
    };
    let end = last.lay + last.lays - 1;
    let lays = range(first.lay, end);
    let step = if first.lay == end { say!(LAY, lays) } else { say!(LAYS, lays) };
    let result = metres(Number::new(first.length.get() * plies as f64));
    ChainStep { step, working, result, heavy: false }
}

//! How to cut an order: lays, plies, bundles, fabric by fabric; and what comes of it for every line.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::{Bought, Figure, Number};
use crate::cutting::figures::mix_text;
use crate::model::{Order, OrderLine, Stated};
use crate::orders::figures::{FabricPlan, LayColour, LayLine, OrderFigures, Planned, Totals, Undivided};
use crate::standards::market::Market;
use crate::units::Quantity;
use crate::words::{Phrase, Word, counted, head, number, say, sheet, words};

use super::{spreads, status};
use crate::rows::cell::Cell;
use crate::rows::data::{Plan, PlanGroup, PlanRow, Sheet};
use crate::rows::package::{Fact, Head};
use crate::rows::view::{View, metres};
use crate::rows::written::day;

words! {
    TITLE "plan.title" = "How to cut the order {order}";
    NUMBER "plan.number" = "Order no.";
    PO "plan.po" = "Customer's order no.";
    PLACED "plan.placed" = "Placed";
    REVISION "plan.revision" = "Made to revision";
    IN_ALL "plan.in-all" = "To cut, with cut extra, samples, tests";
    CUT_EXTRA "plan.cut-extra" = "Cut extra";
    MORE_OR_LESS "plan.more-or-less" = "May be delivered above, below";
    AND "plan.and" = "{over} / {short}";
    LINE "plan.line" = "{line}: {said}.";
    WITH_SAMPLES "plan.with-samples" = "{count} for samples";
    WITH_TESTS "plan.with-tests" = "{count} for tests";
    NOT_YET "plan.not-yet" = "not known yet: {why}";
    AT_ONCE "plan.at-once" = "at most {plies} plies at once";
    IN_GROUPS "plan.in-groups" = "at most {plies} plies at once, spread in groups of {step}";
    ENDS "plan.ends" = "ends of {ends} included in a ply";
    SHORTEST "plan.shortest" = "plies from {length} up where that buys no more";
    ESTIMATE "plan.estimate" = "lengths are an estimate, not lays";
    OF_FABRIC "plan.of-fabric" = "{fabric}: {lays}. {notes}";
    BESIDE "plan.beside" = "In all {lays}, {plies}, {bought}; with one size a lay {plain_lays}, {plain_plies}, {plain_bought}.";
    ONE_LAY "plan.one-lay" = "{count} lay";
    LAYS "plan.lays" = "{count} lays";
    ONE_PLY "plan.one-ply" = "{count} ply";
    PLIES "plan.plies" = "{count} plies";
    ONE_ROLL "plan.one-roll" = "{count} roll";
    ROLLS "plan.rolls" = "{count} rolls";
    BOUGHT "plan.bought" = "{length} bought";
    USED "plan.used" = "{rolls} used, {length} bought";
    LEAST "plan.least" = "No plan of these lays buys less than {bought}, or as little in fewer than {lays}.";
    BEST "plan.best" = "No plan of these lays buys less, or as little in fewer lays.";
    EQUAL "plan.equal" = "{lays} × {plies} × {length}";
    UNDIVIDED "plan.undivided" = "No number of plies gives size {size} exactly; {made} are made.";
    ASSUMED "plan.assumed" = "Taken since nothing is stated: {what}.";
}

/// One sheet for the order that is shown; none without one.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let Some((id, order)) = shown(view) else { return Vec::new() };
    let groups = order.fabrics.iter().flat_map(|fabric| groups(view, fabric)).collect();
    let named = order.number.clone().unwrap_or_else(|| id.to_string());
    let head = Head { title: say!(TITLE, order = named), name: sheet::PLAN.into(), lead: sheet::PLAN_LEAD.into() };
    let mut notes: Vec<Phrase> = vec![sheet::PLAN_NOTE.into()];
    let stated = view.model.orders.get(id);
    notes.extend(stated.into_iter().flat_map(|order| remarks(view, order)));
    notes.extend(order.fabrics.iter().filter_map(|fabric| beside(view, fabric)));
    notes.extend(order.missing.iter().map(Phrase::from));
    let (status, facts) = (status::status(view, stated), facts(view, order, stated));
    vec![Sheet::Plan(Plan { head, status, facts, groups, lines: lines(order), notes })]
}

/// The order that is shown, with its id.
pub fn shown<'a>(view: &View<'a>) -> Option<(&'a str, &'a OrderFigures)> {
    let id = view.order?;
    Some((id, view.figures.orders.get(id)?))
}

/// What is said of the order and of its lines, those of which the same is said together.
fn remarks(view: &View<'_>, order: &Order) -> Vec<Phrase> {
    let said = |line: &OrderLine| {
        let on_top = |word: Word, count: &Option<Stated<u32>>| {
            let count = count.as_ref().and_then(|count| count.known()).filter(|count| **count > 0);
            count.map_or_else(Phrase::none, |count| say!(word, count = *count))
        };
        let tops = [on_top(WITH_SAMPLES, &line.samples), on_top(WITH_TESTS, &line.tests)];
        Phrase::row([Phrase::list(tops), view.text(line.note.as_ref()).into()], "; ")
    };
    let mut lines: Vec<(Phrase, Vec<String>)> = Vec::new();
    for line in order.lines.values() {
        let (said, name) = (said(line), line.entry.title().to_string());
        match lines.iter_mut().find(|(one, _)| *one == said) {
            Some((_, names)) => names.push(name),
            None => lines.push((said, vec![name])),
        }
    }
    let own = view.text(order.note.as_ref()).into();
    let lines = lines.into_iter().filter(|(said, _)| !said.is_empty());
    let lines = lines.map(|(said, names)| say!(LINE, line = Phrase::list(names), said));
    std::iter::once(own).chain(lines).filter(|one| !one.is_empty()).collect()
}

fn facts(view: &View<'_>, order: &OrderFigures, stated: Option<&Order>) -> Vec<Fact> {
    let fact = |label: Word, value: Cell| Fact { label: label.into(), value };
    let known = |text: &Option<String>| text.as_ref().map_or(Cell::Empty, Cell::from);
    let cut: u64 = order.products.values().flat_map(BTreeMap::values).map(|one| one.cut).sum();
    let quantity = |one: Option<&Stated<Quantity>>| {
        one.and_then(Stated::known).map_or_else(|| Phrase::from("–"), |one| number::quantity(one).into())
    };
    let name = stated.and_then(|order| order.entry.name.as_ref()).map(|name| fact(head::NAME, (&name.value).into()));
    let rest = stated.into_iter().flat_map(|order| {
        let (over, short) = (quantity(order.over.as_ref()), quantity(order.short.as_ref()));
        [fact(CUT_EXTRA, quantity(order.cut_extra.as_ref()).into()), fact(MORE_OR_LESS, say!(AND, over, short).into())]
    });
    let all = vec![
        fact(NUMBER, known(&order.number)),
        fact(PO, known(&order.po)),
        fact(PLACED, known(&order.date.map(|date| date.to_string()))),
        fact(REVISION, known(&order.revision)),
        fact(head::ORDERED, pieces(order.total)),
        fact(IN_ALL, pieces(cut)),
        fact(head::CREATOR, view.text(view.model.revision.by.as_ref()).into()),
        fact(head::APPROVER, view.text(view.model.revision.approved.as_ref()).into()),
    ];
    name.into_iter().chain(all).chain(rest).collect()
}

/// A count of pieces with its unit.
pub fn pieces(count: u64) -> Cell {
    Cell::fixed(Number::new(count as f64), 0, "pc")
}

/// The spreads of a fabric, a group for each colour.
fn groups(view: &View<'_>, fabric: &FabricPlan) -> Vec<PlanGroup> {
    let title = view.fabric_title(&fabric.article, &fabric.materials);
    let plan = match &fabric.plan {
        Figure::Known(plan) => plan,
        Figure::NotYet { why } => {
            let text = say!(NOT_YET, why = Phrase::row(why, "; "));
            return vec![PlanGroup { title, text, rows: Vec::new() }];
        }
        Figure::Withheld => return vec![PlanGroup { title, text: head::WITHHELD.into(), rows: Vec::new() }],
    };
    let rows = spreads::alike(plan).flat_map(|lays| {
        let colours = lays.first().map_or(&[][..], |lay| &lay.colours);
        colours.iter().map(move |colour| row(view, fabric, lays, colour))
    });
    vec![PlanGroup { title, text: how(fabric, plan), rows: rows.collect() }]
}

fn how(fabric: &FabricPlan, plan: &Planned) -> Phrase {
    let plies = match fabric.step {
        0 | 1 => say!(AT_ONCE, plies = fabric.plies),
        step => say!(IN_GROUPS, plies = fabric.plies, step),
    };
    let ends = say!(ENDS, ends = Cell::fixed(fabric.ends, 0, "mm").phrase());
    let estimate = if plan.estimate { ESTIMATE.into() } else { Phrase::none() };
    let shortest = if fabric.shortest_ply.get() > 0.0 {
        say!(SHORTEST, length = metres(fabric.shortest_ply).phrase())
    } else {
        Phrase::none()
    };
    Phrase::row([plies, ends, shortest, estimate], "; ")
}

/// Equal lays of one colour.
fn row(view: &View<'_>, fabric: &FabricPlan, lays: &[LayLine], colour: &LayColour) -> PlanRow {
    let Some(first) = lays.first() else { return PlanRow::default() };
    let bundles = || lays.iter().flat_map(|lay| &lay.bundles).filter(|bundle| bundle.colour == colour.colour);
    let mut products: BTreeMap<&str, BTreeMap<&str, u64>> = BTreeMap::new();
    for bundle in bundles() {
        *products.entry(&bundle.size).or_default().entry(&bundle.colourway).or_default() += bundle.products;
    }
    let made = products.iter().map(|(size, ways)| {
        let ways: Vec<String> = ways.iter().map(|(way, count)| format!("{way} {count}")).collect();
        format!("{size}: {}", ways.join(", "))
    });
    let numbers = bundles().map(|bundle| bundle.bundle);
    let (low, high) = (numbers.clone().min(), numbers.max());
    let bought = Bought { article: fabric.article.clone(), colour: colour.colour.clone() };
    let plies = match lays.len() {
        1 => colour.plies.to_string(),
        times => format!("{times} × {}", colour.plies),
    };
    PlanRow {
        lay: spreads::numbers(lays).into(),
        makes: mix_text(&first.sizes).into(),
        length: metres(first.ply),
        plies: Phrase::row([plies, colour_name(view, &bought)], " ").into(),
        numbers: spreads::range(colour.from, colour.to).into(),
        bundles: low.zip(high).map_or(Cell::Empty, |(low, high)| spreads::range(low, high).into()),
        pieces: Cell::count(bundles().map(|bundle| bundle.pieces).sum()),
        products: Phrase::row(made, "; ").into(),
    }
}

/// The colour of what is bought, for people; nothing where it has none.
pub fn colour_name(view: &View<'_>, bought: &Bought) -> String {
    let title = |id: &String| view.model.colours.get(id).map_or(id.clone(), |colour| colour.entry.title().to_string());
    bought.colour.as_ref().map_or(String::new(), title)
}

/// Every line of the order; what is cut is known by size and colourway, and is told at the first of their lines.
fn lines(order: &OrderFigures) -> Vec<Vec<Cell>> {
    let made = made(order);
    let mut told = BTreeSet::new();
    let unknown = || Cell::Unknown(order.missing.iter().map(Phrase::from).collect());
    let line = |one: &crate::orders::figures::OrderedLine| {
        let (size, way) = (one.size.clone().unwrap_or_default(), one.colourway.clone().unwrap_or_default());
        let products = order.products.get(&size).and_then(|ways| ways.get(&way));
        let allowed = one.least.zip(one.most).map_or(Cell::Empty, |(least, most)| spreads::range(least, most).into());
        let first = told.insert((size.clone(), way.clone()));
        let (products, planned) =
            if first { (products, made.get(&(size.clone(), way.clone())).copied()) } else { (None, None) };
        vec![
            size.into(),
            way.into(),
            one.destination.as_deref().and_then(Market::of).map_or(String::new(), |market| market.printed()).into(),
            day(one.date).into(),
            one.quantity.map_or(Cell::Empty, Cell::count),
            allowed,
            products.map_or(Cell::Empty, |one| Cell::count(one.cut)),
            planned.map_or_else(|| if first { unknown() } else { Cell::Empty }, Cell::count),
            planned.zip(products).map_or(Cell::Empty, |(made, one)| Cell::count(made.saturating_sub(one.cut))),
        ]
    };
    order.lines.iter().map(line).collect()
}

/// Products that every fabric gives, by size and colourway: the least over the fabrics.
fn made(order: &OrderFigures) -> BTreeMap<(String, String), u64> {
    let mut least: BTreeMap<(String, String), u64> = BTreeMap::new();
    for fabric in &order.fabrics {
        let Figure::Known(plan) = &fabric.plan else { return BTreeMap::new() };
        let mut here: BTreeMap<(String, String), u64> = BTreeMap::new();
        for bundle in plan.lays.iter().flat_map(|lay| &lay.bundles) {
            *here.entry((bundle.size.clone(), bundle.colourway.clone())).or_default() += bundle.products;
        }
        for (key, count) in here {
            least.entry(key).and_modify(|old| *old = (*old).min(count)).or_insert(count);
        }
    }
    least
}

/// The lays of a fabric, the plain plan beside the one shown, and what does not divide: one note a fabric.
fn beside(view: &View<'_>, fabric: &FabricPlan) -> Option<Phrase> {
    let plan = fabric.plan.known()?;
    let bought = |totals: &Totals| {
        let length = metres(totals.bought).phrase();
        match totals.rolls {
            Some(rolls) => say!(USED, rolls = some(rolls, ONE_ROLL, ROLLS), length),
            None => say!(BOUGHT, length),
        }
    };
    let (own, plain) = (&plan.total, &plan.plain);
    let lays = |count: u64| some(count, ONE_LAY, LAYS);
    let plies = |count: u64| some(count, ONE_PLY, PLIES);
    let mut notes = vec![say!(
        BESIDE,
        lays = lays(own.lays),
        plies = plies(own.plies),
        bought = bought(own),
        plain_lays = lays(plain.lays),
        plain_plies = plies(plain.plies),
        plain_bought = bought(plain)
    )];
    notes.push(match plan.proved {
        true => BEST.into(),
        false => say!(LEAST, bought = metres(plan.least_bought).phrase(), lays = lays(plan.least_lays)),
    });
    let undivided = |one: &Undivided| say!(UNDIVIDED, size = &one.size, made = one.made);
    notes.extend(plan.undivided.iter().map(undivided));
    if !fabric.assumed.is_empty() {
        notes.push(say!(ASSUMED, what = Phrase::row(&fabric.assumed, "; ")));
    }
    let grouped = plan.groups.iter().map(|group| {
        let length = metres(group.ply).phrase();
        say!(EQUAL, lays = group.lays, plies = plies(group.plies), length)
    });
    let name = Phrase::list(fabric.materials.iter().map(|material| view.material(material)));
    Some(say!(OF_FABRIC, fabric = name, lays = Phrase::list(grouped), notes = Phrase::row(notes, " ")))
}

fn some(count: u64, one: Word, many: Word) -> Phrase {
    counted(count as usize, one, many)
}

//! Where filling goes and how much; the mass of the product below it.

use crate::compute::{Limited, Number};
use crate::model::{ArticleKind, Stuffing, Variant};
use crate::units::Rational;
use crate::words::{Phrase, Word, number, say, sheet, words};

use super::article::properties;
use super::cell::Cell;
use super::data::{FillRow, Filling, Mass, Sheet};
use super::package::{Fact, Head};
use super::view::View;

words! {
    IN_COLOURWAYS "filling.in-colourways" = "{stuffing} ({colourways})";
    EACH_OF "filling.each-of" = "{stuffing}, each of {uses}";
    ALL_STUFFINGS "filling.all" = "Filling, all stuffings";
    ALL_HOW "filling.all-how" = "sum of the portions";
    SHELL "filling.shell" = "Shell, without filling";
    SHELL_HOW "filling.shell-how" = "mean of 5 shells, weighed by the factory";
    PRODUCT "filling.product" = "Finished product, without hangtag and packing";
    PRODUCT_HOW "filling.product-how" = "computed; limits by adding all tolerances";
    PRODUCT_STATED "filling.product-stated" = "as stated at point of measure {point}";
    FIRMNESS "filling.firmness" = "Firmness, {stuffing}";
    ONE_COLOURWAY "filling.one-colourway" = "The mass of the product is that of colourway {colourway}; other colourways differ only by their materials, which the bill of materials lists.";
    READ_TO "filling.read-to" = "read to {step}";
    NOTE "filling.note" = "{stuffing}: {note}";
}

/// Targets from here on are written in whole grams, lighter ones in tenths.
const WHOLE_FROM: i64 = 200;
/// Decimals at most.
const FINEST: u32 = 6;

/// One sheet, or none for a product without filling.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    if view.model.stuffings.is_empty() {
        return Vec::new();
    }
    let sizes = view.sizes();
    let head = Head { title: sheet::FILLING_TITLE.into(), name: sheet::FILLING.into(), lead: sheet::FILL_WEIGH.into() };
    vec![Sheet::Filling(Filling {
        head,
        sizes: sizes.iter().map(|size| (*size).to_string()).collect(),
        unit: "g".into(),
        rows: view.model.stuffings.keys().flat_map(|stuffing| stuffing_rows(view, stuffing)).collect(),
        sums: sums(view),
        facts: facts(view),
        notes: notes(view),
    })]
}

/// A target with its limits for the page: whole grams from 200 g on, tenths below; limits are those of the figures, with the
/// decimals they have.
pub fn mass(limited: &Limited) -> Mass {
    let target = limited.target.known().and_then(|target| target.rational());
    let places = if target.is_some_and(|target| target >= Rational::whole(WHOLE_FROM)) { 0 } else { 1 };
    let limits = limited.lower.known().zip(limited.upper.known()).map(|(lower, upper)| Cell::Limits {
        lower: *lower,
        upper: *upper,
        unit: String::new(),
        places: decimals(*lower).max(decimals(*upper)),
    });
    Mass { target: Cell::number(&limited.target, places, ""), limits: limits.unwrap_or_default() }
}

/// Decimals that a number has.
fn decimals(number: Number) -> u32 {
    let text = number::shortened(&number::number(number, FINEST));
    text.split_once('.').map_or(0, |(_, decimals)| decimals.len() as u32)
}

/// One row a stuffing; one for each group of colourways where the filling differs between them.
fn stuffing_rows(view: &View<'_>, stuffing: &str) -> Vec<FillRow> {
    let mut groups: Vec<(Vec<&str>, FillRow)> = Vec::new();
    for way in view.model.ways() {
        let Some(row) = stuffing_row(view, stuffing, way) else { continue };
        match groups.iter_mut().find(|(_, old)| *old == row) {
            Some((ways, _)) => ways.push(way),
            None => groups.push((vec![way], row)),
        }
    }
    let several = groups.len() > 1;
    groups
        .into_iter()
        .map(|(ways, row)| match several {
            true => FillRow {
                stuffing: say!(IN_COLOURWAYS, stuffing = row.stuffing, colourways = Phrase::list(ways)),
                ..row
            },
            false => row,
        })
        .collect()
}

fn stuffing_row(view: &View<'_>, id: &str, way: &str) -> Option<FillRow> {
    let stuffing = view.model.stuffings.get(id)?;
    let mut masses = Vec::new();
    for size in view.sizes() {
        if !view.model.is_made(size, way) {
            masses.push(Mass { target: Cell::Dash, limits: Cell::Dash });
            continue;
        }
        let line = view.figures.filling.get(size)?.get(way)?.stuffings.iter().find(|line| line.stuffing == id)?;
        masses.push(mass(&line.each));
    }
    let uses =
        stuffing.part.as_ref().and_then(|part| view.model.parts.get(&part.value)).map_or(1, |part| part.uses.len());
    let name = view.marked(&["stuffing"], id, stuffing.entry.title());
    Some(FillRow {
        stuffing: if uses > 1 { say!(EACH_OF, stuffing = name, uses) } else { name },
        material: stuffing.filling.as_ref().map_or_else(Phrase::none, |material| view.material(&material.value).into()),
        how: Phrase::row([view.text(stuffing.check.as_ref()).into(), read_to(view, stuffing, way)], "; "),
        masses,
    })
}

/// The step that the scale reads, by size where it differs.
fn read_to(view: &View<'_>, stuffing: &Stuffing, way: &str) -> Phrase {
    let Some(step) = &stuffing.read_to else { return Phrase::none() };
    let in_size = |size: &str| {
        let known = step.known(Variant { size, colourway: way });
        known.map_or_else(Phrase::none, |step| number::quantity(step).into())
    };
    say!(READ_TO, step = view.in_sizes(in_size))
}

/// Filling, shell and product, for the first colourway; others differ in shade, and in mass only where their fabric
/// does, which the note says.
fn sums(view: &View<'_>) -> Vec<FillRow> {
    let by_size = |make: &dyn Fn(&str, &str) -> Option<Mass>| -> Vec<Mass> {
        let of = |size: &str| {
            let way = view.model.ways().into_iter().find(|way| view.model.is_made(size, way))?;
            make(size, way)
        };
        view.sizes().into_iter().map(|size| of(size).unwrap_or_default()).collect()
    };
    let row = |stuffing: Word, how: Phrase, masses: Vec<Mass>| FillRow {
        stuffing: stuffing.into(),
        material: Phrase::none(),
        how,
        masses,
    };
    let filling = by_size(&|size, way| Some(mass(&view.figures.filling.get(size)?.get(way)?.total)));
    let product = by_size(&|size, way| Some(mass(&view.figures.mass.get(size)?.get(way)?.product)));
    let blank = by_size(&|_, _| None);
    vec![
        row(ALL_STUFFINGS, ALL_HOW.into(), filling),
        row(SHELL, SHELL_HOW.into(), blank),
        row(PRODUCT, product_how(view), product),
    ]
}

/// Where the mass of the product comes from.
fn product_how(view: &View<'_>) -> Phrase {
    let mut all: Vec<Phrase> = Vec::new();
    for mass in view.figures.mass.values().flat_map(|by| by.values()) {
        let how = mass.stated.as_ref().map_or_else(|| PRODUCT_HOW.into(), |point| say!(PRODUCT_STATED, point));
        if !all.contains(&how) {
            all.push(how);
        }
    }
    Phrase::row(all, "; ")
}

/// Whether colourways differ in the masses that are summed.
fn differs(view: &View<'_>) -> bool {
    view.sizes().into_iter().any(|size| {
        let sums = view.model.ways().into_iter().filter(|way| view.model.is_made(size, way)).map(|way| {
            let product = view.figures.mass.get(size).and_then(|by| by.get(way)).map(|mass| &mass.product);
            (product, view.figures.filling.get(size).and_then(|by| by.get(way)).map(|filling| &filling.total))
        });
        let sums: Vec<_> = sums.collect();
        sums.windows(2).any(|pair| pair[0] != pair[1])
    })
}

/// What is said of a filling beside its type and fibres.
const FACTS: [&str; 5] = ["fineness", "staple", "particle", "fibre-type", "recycled"];

/// Fibre, fineness and the rest of what is known of each filling.
fn facts(view: &View<'_>) -> Vec<Fact> {
    let mut all = Vec::new();
    for article in view.model.articles.values().filter(|article| article.kind == ArticleKind::Filling) {
        let value = properties(view, article, |key| FACTS.contains(&key));
        all.push(Fact { label: article.entry.title().into(), value: value.into() });
    }
    for stuffing in view.model.stuffings.values() {
        let firmness = view.text(stuffing.firmness.as_ref());
        if !firmness.is_empty() {
            all.push(Fact { label: say!(FIRMNESS, stuffing = stuffing.entry.title()), value: firmness.into() });
        }
    }
    all
}

fn notes(view: &View<'_>) -> Vec<Phrase> {
    let mut all = vec![sheet::ROUNDING.into()];
    if let Some(first) = view.model.ways().into_iter().next().filter(|_| differs(view)) {
        all.push(say!(ONE_COLOURWAY, colourway = first));
    }
    for stuffing in view.model.stuffings.values() {
        let note = view.text(stuffing.note.as_ref());
        if !note.is_empty() {
            all.push(say!(NOTE, stuffing = stuffing.entry.title(), note));
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::compute::Figure;

    #[test]
    fn limits_are_printed_as_they_are_judged() {
        let number = |text: &str| Figure::Known(Number::exact(Rational::parse(text).unwrap()));
        let printed = |target: &str, lower: &str, upper: &str| {
            let mass = mass(&Limited { target: number(target), lower: number(lower), upper: number(upper) });
            [mass.target.phrase().english(), mass.limits.phrase().english()]
        };
        assert_eq!(printed("900.4", "855", "945"), ["900", "855–945"]);
        assert_eq!(printed("164.68", "155.5", "173"), ["164.7", "155.5–173.0"]);
        assert_eq!(printed("250.4", "250.25", "250.6"), ["250", "250.25–250.60"]);
    }

    #[test]
    fn a_sum_of_exact_limits_is_exact() {
        let third = Number::exact(Rational::new(1, 3).unwrap());
        let sum = Figure::sum([third, third, third].map(Figure::Known));
        assert_eq!(sum.known().and_then(|sum| sum.rational()), Some(Rational::ONE));
        assert_eq!(third.multiplied(3).rational(), Some(Rational::ONE));
        // One that is measured lies on the grid of figures.
        let measured = Figure::sum([Number::exact(Rational::ONE), Number::new(0.1)].map(Figure::Known));
        assert_eq!(measured.known().and_then(|sum| sum.rational()), Rational::parse("1.1"));
    }
}

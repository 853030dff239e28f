//! Figures whose printed value differs, though nobody wrote them.

use std::collections::BTreeMap;

use crate::compute::{Bought, Figure, Figures, Number};
use crate::words::{Phrase, number, say, words};

use super::changes::Followed;
use super::names::Names;
use super::scope::{Group, Product, Products};

words! {
    ABOUT "followed.about" = "≈\u{a0}{value}";
    WITHHELD "followed.withheld" = "withheld";
    NOT_YET "followed.not-yet" = "not known yet";
}

/// A figure as it is printed.
#[derive(Clone)]
struct Shown {
    text: Phrase,
    value: Option<f64>,
}

/// One figure of one product: family, of what, size, colourway.
type Place = (usize, String, String, String);
type Table = BTreeMap<Place, Shown>;

/// Families in the order of printing.
const FAMILIES: [&str; 7] = ["pieces", "fabric", "filling", "thread", "trims", "mass", "limits"];

/// Every number that differs as printed.
pub fn followed(before: &Figures, after: &Figures, names: &Names, products: &Products) -> Vec<Followed> {
    let (old, new) = (table(before, Some(names)), table(after, None));
    let mut whats: Vec<(usize, &str)> = old.keys().chain(new.keys()).map(|place| (place.0, place.1.as_str())).collect();
    whats.sort_unstable();
    whats.dedup();
    let mut all = Vec::new();
    for (family, what) in whats {
        let values = |(size, colourway): Product<'_>| {
            let place: Place = (family, what.into(), size.into(), colourway.into());
            (old.get(&place), new.get(&place))
        };
        let changed = products.groups(values, alike).into_iter().filter(|one| !alike(one.before, one.after));
        all.extend(changed.map(|one| row(family, what, one)));
        let fresh = |(size, colourway): Product<'_>| {
            let place: Place = (family, what.into(), size.into(), colourway.into());
            (None, new.get(&place))
        };
        let added = products.added(fresh, alike).into_iter().filter(|one| one.after.is_some());
        all.extend(added.map(|one| row(family, what, one)));
    }
    all
}

fn row(family: usize, what: &str, one: Group<'_, Shown>) -> Followed {
    let value = |shown: Option<&Shown>| shown.and_then(|shown| shown.value);
    Followed {
        family: FAMILIES[family],
        what: what.to_string(),
        scope: one.scope,
        before: one.before.map(|shown| shown.text.clone()),
        after: one.after.map(|shown| shown.text.clone()),
        difference: value(one.before).zip(value(one.after)).map(|(a, b)| b - a),
    }
}

fn alike(a: Option<&Shown>, b: Option<&Shown>) -> bool {
    a.map(|shown| &shown.text) == b.map(|shown| &shown.text)
}

fn table(figures: &Figures, names: Option<&Names>) -> Table {
    let mut table = Maker { figures, names, table: Table::new() };
    table.pieces();
    table.bought();
    table.filling();
    table.limits();
    table.table
}

struct Maker<'a> {
    figures: &'a Figures,
    names: Option<&'a Names>,
    table: Table,
}

impl Maker<'_> {
    fn now(&self, kind: &str, id: &str) -> String {
        self.names.map_or_else(|| id.to_string(), |names| names.now(kind, id).to_string())
    }

    /// An article and its colour.
    fn what(&self, bought: &Bought) -> String {
        let colour = bought.colour.as_ref().map_or_else(String::new, |colour| format!("/{colour}"));
        let what = format!("{}{colour}", bought.article);
        self.names.map_or(what.clone(), |names| names.bought(&what))
    }

    fn put(&mut self, family: usize, what: String, size: &str, colourway: &str, shown: Shown) {
        let code = |code: &str| self.names.map_or_else(|| code.to_string(), |names| names.code(code));
        let place = (family, what, code(size), code(colourway));
        self.table.insert(place, shown);
    }

    fn everywhere(&mut self, family: usize, what: &str, shown: &Shown) {
        let figures = self.figures;
        for size in &figures.sizes {
            for colourway in &figures.colourways {
                self.put(family, what.to_string(), size, colourway, shown.clone());
            }
        }
    }

    fn pieces(&mut self) {
        let figures = self.figures;
        self.everywhere(0, "", &count(&figures.counts.pieces));
        for cut in &figures.counts.cuts {
            let layer = if cut.cut == "shell" { String::new() } else { format!(" {}", cut.cut) };
            let what = format!("{}{layer}", self.now("piece", &cut.piece));
            self.everywhere(0, &what, &count(&cut.total));
        }
    }

    /// What is bought for one product, in the units in which it is bought.
    fn bought(&mut self) {
        let figures = self.figures;
        for (size, by) in &figures.fabric {
            for (colourway, needs) in by {
                for need in needs {
                    let what = self.what(&need.bought);
                    let mut shown = shown(&need.length, 0.001, 3, "m");
                    if need.estimate && shown.value.is_some() {
                        // An estimate and a lay have no difference that means anything.
                        shown = Shown { text: say!(ABOUT, value = shown.text), value: None };
                    }
                    self.put(1, what, size, colourway, shown);
                }
            }
        }
        for line in figures.bill.lines.iter().filter(|line| line.kind != "fabric") {
            let Some(family) = FAMILIES.iter().position(|family| family.trim_end_matches('s') == line.kind) else {
                continue;
            };
            let what = self.what(&line.bought);
            for (size, by) in &line.uses {
                for (colourway, figure) in by {
                    let shown = match (line.unit, line.kind) {
                        ("mm", "thread") => shown(figure, 0.001, 1, "m"),
                        ("mm", _) => shown(figure, 0.001, 3, "m"),
                        ("g", _) => shown(figure, 1.0, 1, "g"),
                        _ => shown(figure, 1.0, 0, "pc"),
                    };
                    self.put(family, what.clone(), size, colourway, shown);
                }
            }
        }
    }

    /// Filling by stuffing, and masses of the whole product.
    fn filling(&mut self) {
        let figures = self.figures;
        for (size, by) in &figures.filling {
            for (colourway, filling) in by {
                for stuffing in &filling.stuffings {
                    let what = format!("stuffing {}", self.now("stuffing", &stuffing.stuffing));
                    self.put(2, what, size, colourway, shown(&stuffing.all.target, 1.0, 1, "g"));
                }
                self.put(2, String::new(), size, colourway, shown(&filling.total.target, 1.0, 1, "g"));
            }
        }
        for (size, by) in &figures.mass {
            for (colourway, mass) in by {
                self.put(5, String::new(), size, colourway, shown(&mass.computed, 1.0, 1, "g"));
            }
        }
    }

    /// Limits of measurements, rounded inward to the step.
    fn limits(&mut self) {
        let figures = self.figures;
        for (id, line) in &figures.measures {
            let id = self.now("point-of-measure", id);
            for (scope, size) in &line.sizes {
                let text = limits(size);
                let (code, colourway) = scope.split_once('/').unwrap_or((scope, ""));
                for other in figures.colourways.iter().filter(|one| colourway.is_empty() || *one == colourway) {
                    self.put(6, id.clone(), code, other, Shown { text: text.clone(), value: None });
                }
            }
        }
    }
}

fn limits(size: &crate::compute::MeasureSize) -> Phrase {
    let unit = size.unit.known().map_or("", String::as_str);
    match (size.lower.get(), size.upper.get()) {
        (Some(lower), Some(upper)) => {
            format!("{}{}{}", number::limits(lower, upper, size.places), number::SPACE, number::unit(unit)).into()
        }
        _ => state(&size.lower),
    }
}

fn shown(figure: &Figure<Number>, factor: f64, places: u32, unit: &str) -> Shown {
    match figure.get() {
        Some(value) => {
            let value = value * factor;
            // As it is read, so that a difference is that of the numbers beside it.
            let grid = libm::pow(10.0, f64::from(places));
            let read = libm::round(value * grid) / grid;
            Shown { text: number::with_unit(value, places, unit).into(), value: Some(read) }
        }
        None => Shown { text: state(figure), value: None },
    }
}

fn count(figure: &Figure<u64>) -> Shown {
    match figure.known() {
        Some(value) => {
            let value = *value as f64;
            Shown { text: number::number(value, 0).into(), value: Some(value) }
        }
        None => Shown { text: state(figure), value: None },
    }
}

fn state<T>(figure: &Figure<T>) -> Phrase {
    if matches!(figure, Figure::Withheld) { WITHHELD.into() } else { NOT_YET.into() }
}

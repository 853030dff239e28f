//! The cut plan of one fabric in an order, from its groups of pieces to its sums.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::figure::NOT_STATED;
use crate::compute::reason::{MATERIAL_OF, NO_ARTICLE_IN_COLOURWAY};
use crate::compute::{Bought, Figure, Figures, Number};
use crate::model::{Model, Variant};
use crate::orders::plan;
use crate::orders::plan::rounded;
use crate::orders::plan::{Buy, Demand, Length, Mix, Plan, Problem, Settled};
use crate::units::{Dimension, Rational};
use crate::words::{Phrase, say, words};

use super::cutting::{Cut, groups_of, lines};
use super::laid::{Laid, LayLengths, Spreading};
use super::minimum::minimum;
use super::record::{Colour, FabricPlan, OrderFigures, Planned, Totals, Undivided, Unfit};

words! {
    TAKEN_AS_ZERO "plan.taken-as-zero" = "{key} of {article} is not stated: 0 %";
    TABLE_TOO_SHORT "plan.table-too-short" = "no lay of size {size} of {article} fits on the table";
    ROLL_TOO_SHORT "plan.roll-too-short" = "no ply of size {size} comes out of one roll of {article}";
    UNPLANNABLE "plan.unplannable" = "{article}: {why}";
}

/// A metre in µm.
const METRE: i64 = 1_000_000;

/// A fabric and what the pieces that are cut together call it; then by colour the colourways.
type Groups = BTreeMap<(String, BTreeSet<String>), BTreeMap<Option<String>, BTreeSet<String>>>;

pub(crate) fn plans(
    model: &Model,
    figures: &Figures,
    order: &OrderFigures,
    lays: &mut dyn LayLengths,
) -> (Vec<FabricPlan>, BTreeSet<Phrase>) {
    let mut missing = BTreeSet::new();
    let groups = groups(model, figures, order, &mut missing);
    // A minimum order is met by all cuts of a colour together; it steers a plan only where there is one.
    let mut often: BTreeMap<Bought, usize> = BTreeMap::new();
    for ((article, _), colours) in &groups {
        for colour in colours.keys() {
            *often.entry(Bought { article: article.clone(), colour: colour.clone() }).or_default() += 1;
        }
    }
    let plan = |((article, materials), colours)| {
        Group { model, figures, order, article, materials, colours, often: &often }.plan(lays)
    };
    (groups.into_iter().map(plan).collect(), missing)
}

fn groups(model: &Model, figures: &Figures, order: &OrderFigures, missing: &mut BTreeSet<Phrase>) -> Groups {
    let colourways: BTreeSet<&String> = order.products.values().flat_map(BTreeMap::keys).collect();
    let mut groups = Groups::new();
    for colourway in colourways {
        let mut bought: BTreeMap<Bought, BTreeSet<String>> = BTreeMap::new();
        for cut in &figures.counts.cuts {
            let Some(material) = &cut.material else {
                missing.insert(say!(NOT_STATED, what = say!(MATERIAL_OF, of = format!("{} {}", cut.piece, cut.cut))));
                continue;
            };
            match model.resolve(material, colourway) {
                Some((article, colour)) => {
                    let key = Bought { article: article.entry.id.value.clone(), colour: colour.map(str::to_string) };
                    bought.entry(key).or_default().insert(material.clone());
                }
                None => {
                    missing.insert(say!(NO_ARTICLE_IN_COLOURWAY, material, colourway));
                }
            }
        }
        for (bought, materials) in bought {
            let colours = groups.entry((bought.article, materials)).or_default();
            colours.entry(bought.colour).or_default().insert(colourway.clone());
        }
    }
    groups
}

/// What is cut together from one fabric.
struct Group<'a> {
    model: &'a Model,
    figures: &'a Figures,
    order: &'a OrderFigures,
    article: String,
    materials: BTreeSet<String>,
    colours: BTreeMap<Option<String>, BTreeSet<String>>,
    often: &'a BTreeMap<Bought, usize>,
}

impl Group<'_> {
    fn plan(self, lays: &mut dyn LayLengths) -> FabricPlan {
        let sizes: Vec<String> =
            self.figures.sizes.iter().filter(|size| self.order.products.contains_key(*size)).cloned().collect();
        let colourway = self.colours.values().flatten().next().cloned().unwrap_or_default();
        let laid = Laid { article: &self.article, materials: &self.materials, colourway: &colourway, sizes: &sizes };
        let mut spreading = lays.spreading(&laid).rounded();
        let variant = Variant { size: sizes.first().map_or("", String::as_str), colourway: &colourway };
        let shrinkage = self.share("shrinkage-along", variant, &mut spreading);
        let faults = self.share("faults", variant, &mut spreading);
        let roll = self.length("roll-length", variant).map(rounded::down);
        let demands = self.demands(&sizes);
        let problem = self.problem(&spreading, &demands, (shrinkage, faults, roll), variant);
        let pieces = self.pieces();
        let mut unfit = None;
        let settled = pieces.clone().then(|_| settled(&problem, &laid, spreading.sets, lays, &mut unfit));
        let mut colours = self.colours(&sizes);
        let plan = settled.map(|settled| {
            for (colour, taken) in colours.iter_mut().zip(&settled.plan.colours) {
                let made = sizes.iter().zip(&taken.made).map(|(size, made)| (size.clone(), u64::from(*made)));
                colour.made = made.collect();
            }
            let over = over(&settled, &laid, lays);
            let pieces = pieces.known().copied().unwrap_or(0);
            let cut =
                Cut { settled: &settled, problem: &problem, sizes: &sizes, colours: &colours, pieces, over: &over };
            planned(&cut, lays.is_estimate(), roll.is_some())
        });
        let millimetres = |length: i64| Number::new(length as f64 / 1e3);
        FabricPlan {
            colours,
            pieces,
            plies: spreading.plies,
            step: spreading.step,
            ends: millimetres(spreading.ends),
            table: spreading.table.map(millimetres),
            products: spreading.products,
            shortest_ply: millimetres(spreading.shortest),
            reserve: millimetres(spreading.reserve),
            splice: spreading.splice.is_some(),
            overlap: millimetres(spreading.splice.unwrap_or(0)),
            shrinkage,
            faults,
            roll,
            unfit,
            assumed: spreading.assumed,
            plan,
            article: self.article,
            materials: self.materials,
        }
    }

    /// A share of the fabric, as a fraction; one that is not stated is taken as zero, and that is said.
    fn share(&self, key: &str, variant: Variant<'_>, spreading: &mut Spreading) -> Rational {
        let article = self.model.articles.get(&self.article);
        let known = article.and_then(|article| article.quantity(key)?.known(variant)).map(|share| share.si());
        let below_one = |share: &Rational| Rational::ONE.checked_sub(*share).is_some_and(Rational::is_positive);
        known.filter(below_one).unwrap_or_else(|| {
            spreading.assumed.insert(say!(TAKEN_AS_ZERO, key, article = &self.article));
            Rational::ZERO
        })
    }

    /// A length of the fabric, µm.
    fn length(&self, key: &str, variant: Variant<'_>) -> Option<i64> {
        let quantity = self.model.articles.get(&self.article)?.quantity(key)?.known(variant)?;
        let micro = quantity.si().checked_mul(Rational::whole(METRE))?.round_to(Rational::ONE)?;
        (quantity.dimension() == Dimension::Length)
            .then(|| i64::try_from(micro.numerator()).ok())?
            .filter(|one| *one > 0)
    }

    fn problem(
        &self,
        spreading: &Spreading,
        demands: &[(Vec<u32>, Vec<u32>)],
        (shrinkage, faults, roll): (Rational, Rational, Option<i64>),
        variant: Variant<'_>,
    ) -> Problem {
        let left = |share: Rational| Rational::ONE.checked_sub(share).unwrap_or(Rational::ONE);
        let known = |key: &str| self.model.articles.get(&self.article)?.quantity(key)?.known(variant).cloned();
        let minimum = minimum(&known, roll).unwrap_or(0);
        let alone = |colour: &Option<String>| {
            let bought = Bought { article: self.article.clone(), colour: colour.clone() };
            self.often.get(&bought).is_some_and(|often| *often == 1)
        };
        let demand = |(colour, (low, high)): (&Option<String>, &(Vec<u32>, Vec<u32>))| Demand {
            low: low.clone(),
            high: high.clone(),
            minimum: if alone(colour) { minimum } else { 0 },
        };
        Problem {
            colours: self.colours.keys().zip(demands).map(demand).collect(),
            plies: spreading.plies,
            step: spreading.step,
            multiple: spreading.multiple,
            ends: spreading.ends,
            table: spreading.table,
            products: spreading.products,
            gap: spreading.gap,
            shortest: spreading.shortest,
            buy: Buy {
                unit: roll.unwrap_or(METRE),
                keep: left(shrinkage).checked_mul(left(faults)).unwrap_or(Rational::ONE),
                whole: roll.is_some() && spreading.splice.is_none(),
                overlap: if roll.is_some() { spreading.splice.unwrap_or(0) } else { 0 },
                reserve: if roll.is_some() { spreading.reserve } else { 0 },
            },
        }
    }

    /// Least and most products by colour, then by size.
    fn demands(&self, sizes: &[String]) -> Vec<(Vec<u32>, Vec<u32>)> {
        let sum = |size: &String, colourways: &BTreeSet<String>, of: fn(&super::OrderProducts) -> u64| {
            let by = self.order.products.get(size);
            let all: u64 = colourways.iter().filter_map(|one| by?.get(one)).map(of).sum();
            u32::try_from(all).unwrap_or(u32::MAX)
        };
        let of = |colourways: &BTreeSet<String>| {
            let low = sizes.iter().map(|size| sum(size, colourways, |one| one.cut)).collect();
            (low, sizes.iter().map(|size| sum(size, colourways, |one| one.most)).collect())
        };
        self.colours.values().map(of).collect()
    }

    fn colours(&self, sizes: &[String]) -> Vec<Colour> {
        let cut = |size: &String, colourways: &BTreeSet<String>| {
            let by = self.order.products.get(size);
            let of = |one: &String| Some((one.clone(), by?.get(one)?.cut));
            (size.clone(), colourways.iter().filter_map(of).collect())
        };
        let colour = |(colour, colourways): (&Option<String>, &BTreeSet<String>)| Colour {
            colour: colour.clone(),
            colourways: colourways.iter().cloned().collect(),
            cut: sizes.iter().map(|size| cut(size, colourways)).collect(),
            made: BTreeMap::new(),
        };
        self.colours.iter().map(colour).collect()
    }

    fn pieces(&self) -> Figure<u64> {
        let mine = |material: &Option<String>| material.as_ref().is_some_and(|one| self.materials.contains(one));
        let cuts = self.figures.counts.cuts.iter().filter(|cut| mine(&cut.material));
        Figure::total(cuts.map(|cut| cut.total.clone()))
    }
}

fn settled(
    problem: &Problem,
    laid: &Laid<'_>,
    sets: u32,
    lays: &mut dyn LayLengths,
    unfit: &mut Option<Unfit>,
) -> Figure<Settled> {
    let longest = problem.table.map(|table| table - problem.ends);
    let sets = problem.most().map_or(sets, |most| most.min(sets));
    let mut unknown = None;
    // What is too long is wanted as well, so that it can be said how long it is.
    let mut length = |mix: &Mix| match lays.length(laid, mix) {
        Ok(length) => length.rounded(),
        Err(why) => {
            unknown = Some(why);
            Length::Never
        }
    };
    let mixes = plan::mixes(laid.sizes.len(), problem.multiple, sets, longest, &mut length);
    let alone = |size: usize| Mix {
        sets: (0..laid.sizes.len()).map(|at| if at == size { problem.multiple } else { 0 }).collect(),
    };
    let single: Vec<i64> = (0..laid.sizes.len()).map(|size| length(&alone(size)).get()).collect();
    if let Some(why) = unknown {
        return Figure::not_yet(why);
    }
    let rounds = lays.rounds();
    let why = match plan::settle(problem, mixes, &mut |mix| lays.lay(laid, mix).map(rounded::taken), rounds) {
        Ok(settled) => return Figure::Known(settled),
        Err(why) => why,
    };
    let too_long = |size: usize, roll: bool, most: i64| {
        let (size, ply) = (laid.sizes[size].clone(), single[size].saturating_add(problem.ends));
        let millimetres = |length: i64| Number::new(length as f64 / 1e3);
        (most < ply && ply < i64::MAX).then(|| Unfit { size, roll, ply: millimetres(ply), most: millimetres(most) })
    };
    match why {
        plan::Unplannable::Table { size } => {
            *unfit = problem.table.and_then(|table| too_long(size, false, table));
            Figure::not_yet(say!(TABLE_TOO_SHORT, size = &laid.sizes[size], article = laid.article))
        }
        plan::Unplannable::Roll { size } => {
            *unfit = too_long(size, true, problem.buy.usable() / i64::from(problem.step));
            Figure::not_yet(say!(ROLL_TOO_SHORT, size = &laid.sizes[size], article = laid.article))
        }
        plan::Unplannable::Malformed(_) if problem.buy.usable() <= 0 => {
            *unfit = too_long(0, true, 0);
            Figure::not_yet(say!(ROLL_TOO_SHORT, size = &laid.sizes[0], article = laid.article))
        }
        plan::Unplannable::Malformed(why) => Figure::not_yet(say!(UNPLANNABLE, article = laid.article, why)),
    }
}

/// Pieces that a group of plies gives beyond its products, by the mixes that the plan spreads.
fn over(settled: &Settled, laid: &Laid<'_>, lays: &mut dyn LayLengths) -> BTreeMap<usize, u64> {
    let spread: BTreeSet<usize> = settled.plan.lays.iter().map(|lay| lay.mix).collect();
    let mut of = |mix: usize| settled.parts[mix].iter().map(|part| lays.over(laid, &settled.mixes[*part].0)).sum();
    spread.into_iter().map(|mix| (mix, of(mix))).collect()
}

fn planned(cut: &Cut<'_>, estimate: bool, by_roll: bool) -> Planned {
    let settled = cut.settled;
    let laid = settled.mixes.iter().filter(|(_, length)| matches!(length, Length::Known(_))).count();
    let plan = &settled.plan;
    let undivided = |(colour, size): &(usize, usize)| Undivided {
        colour: cut.colours[*colour].colour.clone(),
        size: cut.sizes[*size].clone(),
        made: u64::from(plan.colours[*colour].made[*size]),
    };
    let lays = lines(cut);
    Planned {
        estimate,
        mixes: settled.mixes.len() as u64,
        laid: if estimate { 0 } else { laid as u64 },
        complete: settled.complete,
        proved: plan.proved,
        least_bought: Number::new(plan.bound.0 as f64 / 1e3),
        least_lays: u64::from(plan.bound.1),
        groups: groups_of(&lays),
        lays,
        total: totals(plan, by_roll),
        plain: totals(&settled.plain, by_roll),
        undivided: plan.raised.iter().map(undivided).collect(),
        taken: plan.colours.clone(),
    }
}

fn totals(plan: &Plan, by_roll: bool) -> Totals {
    let millimetres = |length: i64| Number::new(length as f64 / 1e3);
    Totals {
        lays: u64::from(plan.worth.lays),
        plies: plan.lays.iter().flat_map(|lay| &lay.plies).map(|plies| u64::from(*plies)).sum(),
        spread: millimetres(plan.worth.spread),
        rolls: by_roll.then(|| plan.colours.iter().map(|one| u64::from(one.units)).sum()),
        bought: millimetres(plan.worth.bought),
        surplus: plan.worth.surplus,
    }
}

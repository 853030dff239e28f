//! Lays of an order: which sizes lie together, laid as the cut plan asks for them, and kept like those of one product.

use std::collections::{BTreeMap, BTreeSet};

use crate::compute::input::{Bought, Ground};
use crate::compute::reason::NOT_SHOWN;
use crate::compute::{Drawn, Figure, Figures, Number};
use crate::cutting::figures::joined;
use crate::cutting::figures::search::{Moved, Search, search};
use crate::cutting::figures::task::{self, Mix, Task, task, title};
use crate::geom::grid::snap;
use crate::lay::{Bad, Lay, Lock, bounds};
use crate::model::{Assembly, Model, Variant};
use crate::orders::plan;
use crate::orders::plan::Length;
use crate::words::{Phrase, say, words};

use super::estimate::plies_taken;
use super::laid::shortest;
use super::planner::plan_one;
use super::record::LayPart;
use super::{Estimate, Laid, LayLengths, PLIES, Spreading};

words! {
    UNKNOWN "plan.unknown" = "{article} is not known";
    TAKEN "plan.taken" = "{what} of {article}: {value} (common practice)";
    OVERLAP_TAKEN "plan.overlap-taken" = "overlap of a splice of {article}: {length} mm (common practice)";
    TABLE_TAKEN "plan.table-taken" = "the table of {article} is not stated: at most {products} products on a ply";
    NOT_FOUND_YET "plan.not-found-yet" = "the lays of {article} are not found yet";
}

/// Products at most in one lay that is searched: so few that every mix of them can be thought through. Longer lays are joined.
const SETS: u64 = 12;
/// Lost where a ply is joined, µm (*common practice*, from memory).
const OVERLAP: i64 = 100_000;
/// No mix is expected to use this share of the fabric more than the best lay of one product on it.
const BETTER: f64 = 0.02;
/// Rounds of planning and laying for one fabric: each lays the few mixes that the plan chose.
const ROUNDS: usize = 4;

/// What became of the lays of an order.
#[derive(Debug, Default)]
pub struct OrderLays {
    /// Each lay that was searched.
    pub moved: Vec<Moved>,
    /// What cannot be laid, and why.
    pub refused: Vec<Bad>,
}

/// What the lays of an order are kept as.
pub fn of_order(order: &str) -> String {
    format!("order {order}")
}

/// Plans one order into the figures: from the lays that are kept; with `how`, from lays that are searched where the plan asks
/// for them and kept in the lock. Where nothing of the order is kept and nothing is searched, the plan is an estimate.
pub fn plan_order(
    (model, assembly, drawn): (&Model, &Assembly, &Drawn),
    figures: &mut Figures,
    order: &str,
    lock: &mut Lock,
    how: Option<&Search<'_>>,
) -> OrderLays {
    let known = figures.clone();
    let of = of_order(order);
    if how.is_none() && !lock.entries.values().any(|entry| entry.of == of) {
        plan_one(model, figures, order, &mut Estimate { model, figures: &known });
        return OrderLays::default();
    }
    let ground = Ground { model, assembly, drawn };
    let done = OrderLays::default();
    let mut kept =
        Kept { ground, figures: &known, of, lock, how, tasks: BTreeMap::new(), wanted: BTreeSet::new(), done };
    plan_one(model, figures, order, &mut kept);
    kept.sweep();
    kept.done
}

/// The lays that the plan of an order is made of, for drawing: each once, in the order of the plan.
pub fn order_lays(
    (model, assembly, drawn): (&Model, &Assembly, &Drawn),
    figures: &Figures,
    order: &str,
) -> crate::cutting::figures::LayTasks {
    let ground = Ground { model, assembly, drawn };
    let mut lays = crate::cutting::figures::LayTasks::default();
    let fabrics = figures.orders.get(order).into_iter().flat_map(|order| &order.fabrics);
    for fabric in fabrics {
        let (Some(plan), Some(colour)) = (fabric.plan.known(), fabric.colours.first()) else { continue };
        let Some(way) = colour.colourways.first() else { continue };
        let bought = Bought { article: fabric.article.clone(), colour: colour.colour.clone() };
        for lay in &plan.lays {
            let part = |part: &LayPart| {
                Some((task(&ground, &figures.counts.cuts, &bought, way, &part.sizes).known()?.clone(), part.times))
            };
            let whole = || task(&ground, &figures.counts.cuts, &bought, way, &lay.sizes).known().cloned();
            let parts: Option<Vec<(Task, u64)>> = lay.parts.iter().map(part).collect();
            if let Some(task) = parts.and_then(|parts| joined(&ground, &parts)).or_else(whole) {
                for way in fabric.colours.iter().flat_map(|colour| &colour.colourways) {
                    lays.take(task.clone(), way);
                }
            }
        }
    }
    lays
}

/// Lays from the lock, and new ones into it.
struct Kept<'a> {
    ground: Ground<'a>,
    figures: &'a Figures,
    of: String,
    lock: &'a mut Lock,
    how: Option<&'a Search<'a>>,
    tasks: BTreeMap<(String, Mix), Figure<Task>>,
    /// Keys of the lays that were asked for.
    wanted: BTreeSet<String>,
    done: OrderLays,
}

impl Kept<'_> {
    fn bought(&self, of: &Laid<'_>) -> Option<Bought> {
        let material = of.materials.first()?;
        self.ground.bought(Some(material), of.colourway, material).known().cloned()
    }

    /// The task of a mix, made once.
    fn task(&mut self, of: &Laid<'_>, mix: &Mix) -> Figure<Task> {
        let key = (format!("{} {:?} {}", of.article, of.materials, of.colourway), mix.clone());
        if let Some(task) = self.tasks.get(&key) {
            return task.clone();
        }
        let made = match self.bought(of) {
            Some(bought) => task(&self.ground, &self.figures.counts.cuts, &bought, of.colourway, mix),
            None => Figure::not_yet(say!(UNKNOWN, article = of.article)),
        };
        self.tasks.insert(key, made.clone());
        made
    }

    fn single(&mut self, of: &Laid<'_>, size: &str) -> Figure<Task> {
        self.task(of, &Mix::from([(size.to_string(), 1)]))
    }

    /// The kept lay of a mix: looked for by its title first, so that not every mix need be made.
    fn kept(&mut self, of: &Laid<'_>, mix: &Mix) -> Option<(Task, Lay)> {
        let materials: Vec<String> = of.materials.iter().cloned().collect();
        let names = [title(&self.ground, &materials, mix), self.known_title(of, mix)];
        // In rows, the title says so behind.
        if !self.lock.entries.values().any(|entry| names.iter().any(|name| entry.title.starts_with(name.as_str()))) {
            return None;
        }
        let task = self.task(of, mix).known().cloned()?;
        let lay = self.lock.lay(&task.key, &task.instance)?;
        self.wanted.insert(task.key.clone());
        Some((task, lay))
    }

    /// The title with the materials in the order of the pieces that name them.
    fn known_title(&mut self, of: &Laid<'_>, mix: &Mix) -> String {
        let size = mix.keys().next().cloned().unwrap_or_default();
        let materials = self.single(of, &size).known().map(|task| task.materials.clone()).unwrap_or_default();
        title(&self.ground, &materials, mix)
    }

    /// The best share of the fabric that lays of one product use.
    fn share(&mut self, of: &Laid<'_>) -> f64 {
        let materials: BTreeSet<&String> = of.materials.iter().collect();
        let mine = self
            .figures
            .lays
            .iter()
            .filter(|lay| lay.fabric == of.article && lay.materials.iter().collect::<BTreeSet<_>>() == materials);
        let best = mine.filter_map(|lay| lay.used.get()).fold(0.0, f64::max) / 100.0;
        if best > 0.0 { (best + BETTER).min(1.0) } else { 1.0 }
    }

    /// Takes lays of the order out that its plan did not ask for.
    fn sweep(&mut self) {
        if self.how.is_some() {
            let (of, wanted) = (&self.of, &self.wanted);
            self.lock.entries.retain(|key, entry| entry.of != *of || wanted.contains(key));
        }
    }
}

/// The mix by size ids.
fn named(of: &Laid<'_>, mix: &plan::Mix) -> Mix {
    let some = of.sizes.iter().zip(&mix.sets).filter(|(_, sets)| **sets > 0);
    some.map(|(size, sets)| (size.clone(), u64::from(*sets))).collect()
}

/// Length of a lay without its ends, µm.
fn bare(task: &Task, length: i64) -> i64 {
    (length - 2 * task.instance.fabric.end).max(1)
}

impl LayLengths for Kept<'_> {
    fn spreading(&mut self, of: &Laid<'_>) -> Spreading {
        let mut assumed = BTreeSet::new();
        let tasks: Vec<Task> = of.sizes.iter().filter_map(|size| self.single(of, size).known().cloned()).collect();
        let how = tasks.first().map(|task| &task.how);
        for (what, value) in how.into_iter().flat_map(|how| &how.assumed) {
            assumed.insert(say!(TAKEN, what, article = of.article, value));
        }
        let plies = how.and_then(|how| how.plies.known().copied()).filter(|plies| *plies > 0).unwrap_or_else(|| {
            assumed.insert(plies_taken(of.article));
            u64::from(PLIES)
        });
        let step = if how.is_some_and(|how| how.spread.pairs()) { 2 } else { 1 };
        let table = how.and_then(|how| how.table);
        let sets = tasks.iter().map(|task| task::repeats(&task.instance, table.map(Number::raw))).max().unwrap_or(1);
        let variant = Variant { size: of.sizes.first().map_or("", String::as_str), colourway: of.colourway };
        let article = self.ground.model.articles.get(of.article);
        let splice = article.and_then(|article| article.text("splice")?.known(variant));
        let splice = splice.filter(|word| *word == "allowed").map(|_| {
            assumed.insert(say!(OVERLAP_TAKEN, article = of.article, length = OVERLAP / 1_000));
            OVERLAP
        });
        let small = |count: u64| u32::try_from(count).unwrap_or(u32::MAX);
        let products = how.and_then(|how| how.products).map(small);
        if table.is_none() && products.is_none() {
            assumed.insert(say!(TABLE_TAKEN, article = of.article, products = sets.clamp(1, SETS)));
        }
        Spreading {
            plies: small(plies).max(step),
            step,
            multiple: 1,
            sets: small(sets.clamp(1, SETS)),
            ends: tasks.first().map_or(0, |task| 2 * task.instance.fabric.end),
            table: table.map(|table| snap(table.raw())),
            products,
            gap: tasks.first().filter(|_| table.is_some() || products.is_some()).map(|task| task.instance.fabric.gap),
            shortest: shortest(how),
            reserve: how.and_then(|how| how.reserve).map_or(0, |reserve| snap(reserve.raw())),
            splice,
            assumed,
        }
    }

    fn length(&mut self, of: &Laid<'_>, mix: &plan::Mix) -> Result<Length, Phrase> {
        let mix = named(of, mix);
        if let Some((task, lay)) = self.kept(of, &mix) {
            return Ok(Length::Known(bare(&task, lay.length)));
        }
        let (mut area, mut longest) = (0, 0);
        for (size, products) in &mix {
            let task = match self.single(of, size) {
                Figure::Known(task) => task,
                Figure::NotYet { why } => return Err(Phrase::row(why, "; ")),
                Figure::Withheld => return Err(NOT_SHOWN.into()),
            };
            let bounds = bounds(&task.instance);
            area += bare(&task, bounds.area) * i64::try_from(*products).unwrap_or(i64::MAX);
            longest = longest.max(bare(&task, bounds.longest));
        }
        match self.how {
            Some(_) => Ok(Length::AtLeast(longest.max((area as f64 / self.share(of)) as i64).max(1))),
            None if mix.values().sum::<u64>() == 1 => Err(say!(NOT_FOUND_YET, article = of.article)),
            None => Ok(Length::Never),
        }
    }

    fn lay(&mut self, of: &Laid<'_>, mix: &plan::Mix) -> Option<i64> {
        let how = self.how?;
        let task = self.task(of, &named(of, mix)).known().cloned()?;
        if self.lock.lay(&task.key, &task.instance).is_none() {
            // What the lock of the specification keeps may be another lay than what is kept here by now.
            let bare = Task { lay: None, ..task.clone() };
            let (moved, refused) = search(&[&bare], &self.of, self.lock, how);
            self.done.moved.extend(moved);
            self.done.refused.extend(refused);
        }
        self.wanted.insert(task.key.clone());
        self.lock.lay(&task.key, &task.instance).map(|lay| self::bare(&task, lay.length))
    }

    fn over(&mut self, of: &Laid<'_>, mix: &plan::Mix) -> u64 {
        self.task(of, &named(of, mix)).known().map_or(0, |task| task.surplus.values().sum())
    }

    fn is_estimate(&self) -> bool {
        false
    }

    fn rounds(&self) -> usize {
        ROUNDS
    }
}

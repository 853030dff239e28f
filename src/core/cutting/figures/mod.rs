//! Lays of one product: what of each fabric is laid, how long it comes out, and what that is for one product.
//!
//! The search itself is far from here: what was found is kept in the lock, and a lay that is not kept is not known yet.

pub mod dies;
mod half;
pub(crate) mod how;
mod joined;
pub mod same;
pub(crate) mod search;
pub(crate) mod task;

pub(crate) use how::cutting;
pub(crate) use how::how;
pub use how::{Direction, How};
pub use search::{Effort, Moved, Search, search, swept};
pub use task::{FOLD, IMAGE, Kind, Mix, PRODUCT, Side, Task, mix_text};

pub(crate) use joined::joined;
pub(crate) use task::{least_width, task};

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::compute::counts::CutCount;
use crate::compute::input::{Bought, Ground};
use crate::compute::reason::{NO_LAY_YET, NO_SUCH_LAY, NOT_LAID, NOT_LAID_FREELY, NOTHING_CUT, SEVERAL_SIZES};
use crate::compute::{Figure, Number};
use crate::geom::grid::millimetres;
use crate::lay::{Lay, Pattern, Row, bounds, rows};
use crate::words::say;

/// The lay of one mix of sizes on one fabric. Lengths in mm.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct LayFigures {
    /// Key of the lay, as in the lock.
    pub key: String,
    /// What is laid, for people.
    pub title: String,
    /// Id of the fabric.
    pub fabric: String,
    /// The roles or articles the cuts name.
    pub materials: Vec<String>,
    /// Colourways that are cut from it.
    pub colourways: BTreeSet<String>,
    /// Products of each size on one ply, or on one pair of plies.
    pub mix: Mix,
    /// How it is spread and cut.
    pub how: How,
    /// Pieces on one ply.
    pub pieces: u64,
    /// Width that is laid: the cuttable width after shrinkage, halved where the fabric is folded.
    pub width: Number,
    /// Length of the lay, ends included.
    pub length: Figure<Number>,
    /// Area of the pieces in percent of width × length.
    pub used: Figure<Number>,
    /// Length of cut of everything on one ply, holes included.
    pub path: Number,
    /// Where dies strike in rows: the rows, and the free lay beside them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub struck: Option<Struck>,
    /// No lay is shorter than its area asks.
    pub area_bound: Number,
    /// No lay is shorter than its longest piece.
    pub longest_bound: Number,
    /// Plies that one mix needs: 2 face to face.
    pub layers: u64,
    /// Fabric for one mix: length × layers.
    pub fabric_length: Figure<Number>,
    /// Fabric for one product, where all are of one size.
    pub per_product: Figure<Number>,
    /// Pieces cut beyond what one mix needs.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub surplus: BTreeMap<String, u64>,
}

/// A lay that dies strike.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Struck {
    /// Strikes in one line across the roll, by piece, number and pitch.
    pub rows: Vec<StruckRow>,
    /// Strikes that stand by themselves.
    pub single: u64,
    /// Length of the free lay of the same pieces, mm: what a knife could do.
    pub free: Figure<Number>,
}

/// A row of strikes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct StruckRow {
    /// Piece.
    pub piece: String,
    /// Strikes.
    pub strikes: u64,
    /// From one to the next, mm.
    pub pitch: Number,
}

/// What lays of several sizes are kept as.
pub const SIZES: &str = "sizes";

/// The lays of every product: which lay serves a fabric in a size and colourway.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct LayTasks {
    /// Each task once, in the order of fabric, material and size.
    pub tasks: Vec<Task>,
    /// Colourways that each task serves.
    pub colourways: Vec<BTreeSet<String>>,
    /// Number of the task by size, colourway and what is bought; not known where something it needs is not.
    pub of: BTreeMap<(String, String, Bought), Figure<usize>>,
}

/// The lays of one product, each size by itself.
pub(crate) fn lays(ground: &Ground<'_>, cuts: &[CutCount]) -> LayTasks {
    let mut lays = LayTasks::default();
    for variant in ground.model.variants() {
        let all: BTreeSet<Bought> = cuts.iter().filter_map(|cut| bought(ground, cut, variant.colourway)).collect();
        for one in all {
            let task = product(ground, cuts, &one, variant.colourway, variant.size);
            let number = task.map(|task| lays.take(task, variant.colourway));
            lays.of.insert((variant.size.to_string(), variant.colourway.to_string(), one), number);
        }
    }
    mixed(ground, cuts, &mut lays);
    lays
}

/// The lays of several sizes together that a `[cutting]` asks for. They are for comparing and for the table; the need of one
/// product comes from its own lay.
fn mixed(ground: &Ground<'_>, cuts: &[CutCount], lays: &mut LayTasks) {
    for colourway in ground.model.colourways.keys() {
        let all: BTreeSet<Bought> = cuts.iter().filter_map(|cut| bought(ground, cut, colourway)).collect();
        for one in all {
            let mix: Mix = cutting(ground.model, &one.article).map(|cutting| cutting.mix.clone()).unwrap_or_default();
            if mix.len() > 1
                && mix.keys().all(|size| ground.model.is_made(size, colourway))
                && let Figure::Known(task) = task(ground, cuts, &one, colourway, &mix)
            {
                lays.take(task, colourway);
            }
        }
    }
}

fn bought(ground: &Ground<'_>, cut: &CutCount, colourway: &str) -> Option<Bought> {
    ground.bought(cut.material.as_deref(), colourway, "").known().cloned()
}

/// The lay of one size, with as many products as make a sensible length.
fn product(ground: &Ground<'_>, cuts: &[CutCount], bought: &Bought, colourway: &str, size: &str) -> Figure<Task> {
    let mix = |products: u64| Mix::from([(size.to_string(), products)]);
    let one = task(ground, cuts, bought, colourway, &mix(1));
    one.then(|one| {
        let table = one.how.table.map(Number::raw);
        let most = task::repeats(&one.instance, table);
        // What dies strike makes full rows.
        let products = match one.pattern {
            Pattern::Rows => rows::full(&one.instance).map_or(most, |all| rows::filling(&all, most)),
            Pattern::Free => most,
        };
        match products {
            1 => Figure::Known(one),
            several => task(ground, cuts, bought, colourway, &mix(several)),
        }
    })
}

impl LayTasks {
    pub(crate) fn take(&mut self, task: Task, colourway: &str) -> usize {
        let number = self.tasks.iter().position(|old| old.key == task.key && old.mix == task.mix);
        let number = number.unwrap_or_else(|| {
            self.tasks.push(task);
            self.colourways.push(BTreeSet::new());
            self.tasks.len() - 1
        });
        self.colourways[number].insert(colourway.to_string());
        number
    }

    /// Length of fabric for one product, mm, if there is a lay.
    pub(crate) fn per_product(&self, size: &str, colourway: &str, bought: &Bought) -> Figure<Number> {
        match self.of.get(&(size.to_string(), colourway.to_string(), bought.clone())) {
            None => Figure::not_yet(say!(NOTHING_CUT, article = &bought.article)),
            Some(number) => number.clone().then(|number| match self.tasks.get(number) {
                Some(task) => task.per_product(),
                None => Figure::not_yet(NO_SUCH_LAY),
            }),
        }
    }

    /// Lays of this kind: of one product, or of the mixes of sizes that the specification asks for.
    pub fn kept_as(&self, of: &str) -> Vec<&Task> {
        self.tasks.iter().filter(|task| task.kept_as() == of).collect()
    }

    /// The figures of every lay.
    pub fn figures(&self) -> Vec<LayFigures> {
        self.tasks.iter().zip(&self.colourways).map(|(task, colourways)| task.figures(colourways)).collect()
    }
}

impl Task {
    /// What the lay of the specification is kept as.
    pub fn kept_as(&self) -> &'static str {
        if self.mix.len() > 1 { SIZES } else { PRODUCT }
    }

    /// Whether every lay that is wanted of it is kept.
    pub fn kept(&self) -> bool {
        self.lay.is_some() && (self.pattern == Pattern::Free || self.kept_as() == SIZES || self.beside.is_some())
    }

    /// Length of the kept lay, mm.
    pub fn length(&self) -> Figure<Number> {
        match &self.lay {
            Some(lay) => Figure::number(millimetres(lay.length)),
            None => Figure::not_yet(say!(NOT_LAID, lay = &self.instance.name)),
        }
    }

    /// Length of fabric for one product, mm, where the mix is of one size.
    pub fn per_product(&self) -> Figure<Number> {
        match self.mix.values().collect::<Vec<_>>().as_slice() {
            [products] if **products > 0 => self.length().times(self.layers as f64 / **products as f64),
            _ => Figure::not_yet(SEVERAL_SIZES),
        }
    }

    /// The rows of the kept lay, where dies strike it.
    fn struck(&self) -> Option<Struck> {
        let lay = self.lay.as_ref().filter(|_| self.pattern == Pattern::Rows)?;
        let (rows, single): (Vec<Row>, Vec<Row>) = crate::lay::struck(lay).into_iter().partition(|row| row.strikes > 1);
        let row = |row: &Row| StruckRow {
            piece: self.instance.pieces.get(row.piece).map_or(String::new(), |piece| piece.id.clone()),
            strikes: row.strikes as u64,
            pitch: Number::new(millimetres(row.pitch)),
        };
        let free = match &self.beside {
            Some(lay) => Figure::number(millimetres(lay.length)),
            None => Figure::not_yet(NOT_LAID_FREELY),
        };
        Some(Struck { rows: rows.iter().map(row).collect(), single: single.len() as u64, free })
    }

    fn figures(&self, colourways: &BTreeSet<String>) -> LayFigures {
        let bounds = bounds(&self.instance);
        let used = |lay: &Lay| Figure::number(100.0 * crate::lay::report::density(&self.instance, lay));
        LayFigures {
            key: self.key.clone(),
            title: self.instance.name.clone(),
            fabric: self.bought.article.clone(),
            materials: self.materials.clone(),
            colourways: colourways.clone(),
            mix: self.mix.clone(),
            how: self.how.clone(),
            pieces: self.instance.count() as u64,
            width: Number::new(millimetres(self.instance.fabric.width)),
            length: self.length(),
            used: self.lay.as_ref().map_or_else(|| Figure::not_yet(NO_LAY_YET), used),
            path: Number::new(self.path),
            struck: self.struck(),
            area_bound: Number::new(millimetres(bounds.area)),
            longest_bound: Number::new(millimetres(bounds.longest)),
            layers: self.layers,
            fabric_length: self.length().times(self.layers as f64),
            per_product: self.per_product(),
            surplus: self.surplus.clone(),
        }
    }
}

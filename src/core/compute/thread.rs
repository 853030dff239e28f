//! Thread of one product: by seam and in all.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::model::Variant;
use crate::standards::thread::{TAIL_MM, WASTAGE_PERCENT};
use crate::words::{Phrase, english, say};

use super::figure::NOT_STATED;
use super::input::{Bought, ByVariant, Ground};
use super::number::{number, property};
use super::ratio::{Ratio, RatioBasis, ratio};
use super::reason::{
    DENSITY_OF, STITCH_TYPE_OF, STITCH_WIDTH_OF, THREAD_LENGTH_OF, THREAD_OF, WASTAGE_OF_THREAD, no_article,
};
use super::stitches::{Row, rows};
use super::{Figure, Number};

/// Thread left hanging at one end of a line of stitches, mm: the middle of what is usual (common practice).
pub const TAIL: f64 = (TAIL_MM.0 + TAIL_MM.1) as f64 / 2.0;

/// The thread of one product.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Thread {
    /// One line for each seam, closed opening, edge finish, attachment and topstitch.
    pub lines: Vec<ThreadLine>,
    /// Thread of which a step states the length.
    pub stated: Vec<StatedThread>,
    /// By thread and colour.
    pub totals: Vec<ThreadTotal>,
    /// What is sewn without being counted, with the reason.
    #[serde(serialize_with = "english")]
    pub not_counted: BTreeMap<String, Phrase>,
}

impl Thread {
    /// Whether some of a thread is known by a guide only.
    pub fn guided(&self, bought: &Bought) -> bool {
        let by_guide = |line: &ThreadLine| line.ratio.known().is_some_and(|ratio| ratio.basis == RatioBasis::Guide);
        self.lines.iter().any(|line| line.bought.known() == Some(bought) && by_guide(line))
    }
}

/// The thread of one seam or other line of stitches, all its images in one product.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ThreadLine {
    /// Id of the seam, opening, edge finish, attachment or topstitch.
    pub id: String,
    /// Its kind: `seam`, `opening`, `edge-finish`, `attach`, `topstitch`.
    pub kind: &'static str,
    /// Lines of stitches in one product: one for each image, two for an opening sewn to a tape on both sides.
    pub times: u64,
    /// Stitch type number after ISO 4915.
    pub stitch: Figure<String>,
    /// The thread.
    pub bought: Figure<Bought>,
    /// Length that is stitched, mm, all lines together.
    pub stitched: Figure<Number>,
    /// Thickness of everything under the foot, mm: the stated thicknesses added, averaged along the line.
    pub thickness: Figure<Number>,
    /// Thread length over stitched length.
    pub ratio: Figure<Ratio>,
    /// Thread in the stitches, mm.
    pub sewn: Figure<Number>,
    /// Thread left hanging at both ends of every line, mm (common practice, 50 to 70 mm an end; the middle is taken).
    pub tails: Number,
    /// `sewn` + `tails`, mm.
    pub net: Figure<Number>,
}

/// Thread of which a step states the length, in one product.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct StatedThread {
    /// Id of the seam, opening, edge finish, attachment, topstitch or step.
    pub id: String,
    /// The thread.
    pub bought: Figure<Bought>,
    /// Its length, mm.
    pub length: Figure<Number>,
}

/// One thread in one product.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ThreadTotal {
    /// The thread.
    #[serde(flatten)]
    pub bought: Bought,
    /// Thread that stays in the product, mm.
    pub sewn: Figure<Number>,
    /// With tails, mm.
    pub net: Figure<Number>,
    /// Stated wastage, percent of `net`.
    pub wastage: Figure<Number>,
    /// With wastage, mm.
    pub needed: Figure<Number>,
    /// Whole cones for 1,000 products.
    pub cones_per_thousand: Figure<u64>,
    /// Lines that name no thread, so that they are in no total.
    pub missing: Vec<String>,
}

pub(super) fn thread(ground: &Ground<'_>) -> ByVariant<Thread> {
    let (rows, mut not_counted) = rows(ground);
    let told = |id: &str| ground.model.means_of(id).is_some_and(|means| !means.threads.is_empty());
    not_counted.retain(|id, _| !told(id));
    ground.by_variant(|variant| {
        let lines: Vec<ThreadLine> = rows.iter().map(|row| line(ground, row, variant)).collect();
        let stated = stated(ground, variant);
        let totals = totals(ground, &lines, &stated, variant);
        Thread { lines, stated, totals, not_counted: not_counted.clone() }
    })
}

fn line(ground: &Ground<'_>, row: &Row<'_>, variant: Variant<'_>) -> ThreadLine {
    let title = row.title;
    let stitch = match row.kind_of() {
        Some(kind) => Figure::Known(kind.value.clone()),
        None => Figure::not_yet(say!(NOT_STATED, what = say!(STITCH_TYPE_OF, title))),
    };
    let density = number(Figure::stated(row.density(), say!(DENSITY_OF, title)));
    let bight = number(Figure::stated(row.width(), say!(STITCH_WIDTH_OF, title)));
    let thickness = row.thickness(ground, variant);
    let ratio = stitch.as_ref().then(|stitch| ratio(stitch, &thickness, &density, &bight));
    let stitched = row.stitched(ground, variant.size);
    let tails = row.lines as f64 * 2.0 * TAIL;
    let sewn = stitched.clone().by(ratio.as_ref().map(|ratio| ratio.value));
    let thread = row.thread().map(|thread| thread.value.as_str());
    ThreadLine {
        id: row.id.to_string(),
        kind: row.kind,
        times: row.lines,
        bought: ground.bought(thread, variant.colourway, say!(THREAD_OF, title)),
        net: sewn.clone().map(|sewn| Number::new(sewn.raw() + tails)),
        tails: Number::new(tails),
        stitch,
        stitched,
        thickness,
        ratio,
        sewn,
    }
}

fn stated(ground: &Ground<'_>, variant: Variant<'_>) -> Vec<StatedThread> {
    let mut all = Vec::new();
    for (_, entry, means) in ground.model.means() {
        let title = entry.title();
        all.extend(means.threads.iter().map(|one| StatedThread {
            id: entry.id.value.clone(),
            bought: ground.bought(Some(&one.thread.value), variant.colourway, say!(THREAD_OF, title)),
            length: number(Figure::of(one.length.as_ref(), variant, say!(THREAD_LENGTH_OF, title))),
        }));
    }
    all
}

/// Lengths of one thread: sewn, and with tails.
type Lengths = [Vec<Figure<Number>>; 2];

fn totals(
    ground: &Ground<'_>,
    lines: &[ThreadLine],
    stated: &[StatedThread],
    variant: Variant<'_>,
) -> Vec<ThreadTotal> {
    let sewn = lines.iter().map(|line| (&line.id, &line.bought, [&line.sewn, &line.net]));
    let told = stated.iter().map(|one| (&one.id, &one.bought, [&one.length; 2]));
    let mut by: BTreeMap<&Bought, Lengths> = BTreeMap::new();
    let mut missing = Vec::new();
    for (id, bought, lengths) in sewn.chain(told) {
        let Figure::Known(bought) = bought else {
            missing.push(id.clone());
            continue;
        };
        let all = by.entry(bought).or_default();
        all.iter_mut().zip(lengths).for_each(|(all, length)| all.push(length.clone()));
    }
    by.into_iter().map(|(bought, lengths)| total(ground, bought, lengths, &missing, variant)).collect()
}

fn total(
    ground: &Ground<'_>,
    bought: &Bought,
    [sewn, net]: Lengths,
    missing: &[String],
    variant: Variant<'_>,
) -> ThreadTotal {
    let article = ground.article(bought);
    let property = |key: &str| match article {
        Some(article) => property(article, key, variant),
        None => Figure::not_yet(no_article(&bought.article)),
    };
    let wastage = match property("wastage") {
        Figure::NotYet { .. } => Figure::not_yet(say!(
            WASTAGE_OF_THREAD,
            article = &bought.article,
            least = WASTAGE_PERCENT.0.to_string(),
            most = WASTAGE_PERCENT.1.to_string()
        )),
        known => known.map(|share| Number::new(share.si_f64() * 100.0)),
    };
    let net = Figure::sum(net);
    let needed = net.clone().with(wastage.clone(), |net, wastage| with_wastage(net.raw(), wastage.raw()));
    let needed = needed.then(Figure::number);
    let cone = number(property("cone"));
    ThreadTotal {
        bought: bought.clone(),
        sewn: Figure::sum(sewn),
        cones_per_thousand: needed.clone().with(cone, |needed, cone| cones(needed.raw(), cone.raw())),
        missing: missing.to_vec(),
        net,
        wastage,
        needed,
    }
}

/// A length of thread with its wastage in percent added; in the unit of the length.
pub fn with_wastage(net: f64, percent: f64) -> f64 {
    net * (1.0 + percent / 100.0)
}

/// Whole cones for 1,000 products.
fn cones(needed: f64, cone: f64) -> u64 {
    // On the grid first, so that a need of just whole cones does not take one more for a last digit.
    (Number::new(needed * 1000.0 / cone).get()).ceil().max(0.0) as u64
}

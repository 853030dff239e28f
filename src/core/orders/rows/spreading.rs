//! What is written down while an order is spread: a row for each roll of each lay, with blanks.

use crate::compute::Bought;
use crate::orders::figures::{FabricPlan, FromRoll, LayColour, LayLine};
use crate::words::{Phrase, head, say, words};

use super::plan::{colour_name, shown};
use super::spreads::range;
use crate::rows::cell::Cell;
use crate::rows::data::{Sheet, SpreadGroup, Spreading};
use crate::rows::package::Head;
use crate::rows::view::{View, metres};

words! {
    NAME "spreading.name" = "Spreading record";
    TITLE "spreading.title" = "What was spread";
    LEAD "spreading.lead" = "Fill in a row for each roll before the lay is cut, and send a copy with the first delivery. Measure length and width of the roll after it has relaxed. A roll that is planned here is a roll of the length stated for the fabric; the rows without a plan are for those that come out otherwise.";
    COLOUR "spreading.colour" = "Colour";
    LENGTH "spreading.length" = "Length of a ply";
    ROLL "spreading.roll" = "Planned roll: plies";
    OF_ROLL "spreading.of-roll" = "{roll}: {plies}";
    NUMBER "spreading.number" = "Roll no.";
    SHADE "spreading.shade" = "Lot, shade";
    TRUE_LENGTH "spreading.true-length" = "True length, m";
    WIDTH "spreading.width" = "True width, mm";
    LAID "spreading.laid" = "Plies laid";
    LEFT "spreading.left" = "Left over, m";
}

/// Rows without a plan below each fabric.
const FREE: usize = 2;

/// One sheet for the order that is shown; none without a plan.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let Some((_, order)) = shown(view) else { return Vec::new() };
    let planned = [head::LAY, COLOUR, head::PLY_COUNT, LENGTH, ROLL];
    let groups: Vec<SpreadGroup> = order
        .fabrics
        .iter()
        .map(|fabric| group(view, fabric, planned.len()))
        .filter(|group| group.rows.len() > FREE)
        .collect();
    if groups.is_empty() {
        return Vec::new();
    }
    let asked = [NUMBER, SHADE, TRUE_LENGTH, WIDTH, LAID, LEFT, head::SIGNATURE];
    vec![Sheet::Spreading(Spreading {
        head: Head { title: TITLE.into(), name: NAME.into(), lead: LEAD.into() },
        planned: planned.map(Phrase::from).to_vec(),
        asked: asked.map(Phrase::from).to_vec(),
        groups,
    })]
}

fn group(view: &View<'_>, fabric: &FabricPlan, columns: usize) -> SpreadGroup {
    let lays = fabric.plan.known().into_iter().flat_map(|plan| &plan.lays);
    let mut rows: Vec<Vec<Cell>> = lays
        .flat_map(|lay| lay.colours.iter().map(move |colour| (lay, colour)))
        .flat_map(|(lay, colour)| rows(view, fabric, lay, colour))
        .collect();
    rows.extend(std::iter::repeat_n(vec![Cell::Empty; columns], FREE));
    SpreadGroup { title: view.fabric_title(&fabric.article, &fabric.materials), rows }
}

/// A row a roll, or one where no roll is known.
fn rows(view: &View<'_>, fabric: &FabricPlan, lay: &LayLine, colour: &LayColour) -> Vec<Vec<Cell>> {
    let bought = Bought { article: fabric.article.clone(), colour: colour.colour.clone() };
    let row = |plies: u64, roll: Cell| {
        let colour = colour_name(view, &bought);
        vec![Cell::count(lay.lay), colour.into(), Cell::count(plies), metres(lay.ply), roll]
    };
    let of_roll =
        |one: &FromRoll| row(one.plies, say!(OF_ROLL, roll = one.roll, plies = range(one.from, one.to)).into());
    match colour.rolls.as_slice() {
        [] => vec![row(colour.plies, range(colour.from, colour.to).into())],
        rolls => rolls.iter().map(of_roll).collect(),
    }
}

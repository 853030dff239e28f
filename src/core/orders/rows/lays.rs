//! The lays of an order, each to scale: every piece with the number of its product on the ply, its letter, side and size.

use std::collections::{BTreeMap, BTreeSet};

use crate::cutting::figures::{Side, mix_text};
use crate::cutting::rows::marker::{self, Both, SCALES, Tables};
use crate::orders::figures::{FabricPlan, LayLine};
use crate::scene::{Roll, ply_at, ply_size, ratio};
use crate::words::{Phrase, say, sheet, words};

use super::letters::{Letters, marks};
use super::plan::shown;
use super::spreads::{products, range};
use crate::rows::cards::{in_order, page_height};
use crate::rows::data::{LayCard, Marker, Sheet};
use crate::rows::package::{Drawing, Head, ROW};
use crate::rows::view::View;

words! {
    LEAD "lays.lead" = "In each piece: the number of its product among those of a ply, the letter of the piece, its size where several lie together. A stroke marks a mirrored piece, a half sign one that is cut on the fold. Pieces of one number go into one bundle. A bold arrow runs along the roll the way the pile or grain of all pieces lies, a thin arrow with two heads where they lie either way round.";
    TITLE_ONE "lays.title-one" = "{fabric}, lay {lays}: {mix}";
    TITLE_SOME "lays.title-some" = "{fabric}, lays {lays}: {mix}";
    PRODUCTS "lays.products" = "products {products}: {size}";
    LETTER "lays.letter" = "{letter} {piece}";
    MIRRORED "lays.mirrored" = "{letter} {piece}, mirrored";
    HALF "lays.half" = "{letter} {piece}, on the fold";
    BARE "lays.bare" = "no room for the number here, see the drawing at true scale: {letters}";
}

/// Share of the pieces that bear their number where a lay is drawn as small as that allows.
const NUMBERED: f64 = 0.9;

/// One sheet with a card for every lay that the plan of the order spreads; none without one.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let Some((_, order)) = shown(view) else { return Vec::new() };
    let both = marker::laid(view);
    if both.is_empty() {
        return Vec::new();
    }
    let letters = Letters::of(view);
    let Tables { shared, columns, groups } = marker::tables(view, &both);
    let room = page_height(view) - marker::above(view, &groups, 0);
    let cards = both.iter().map(|one| card(view, one, &order.fabrics, &letters));
    vec![Sheet::Marker(Marker {
        head: Head { title: sheet::MARKER_TITLE.into(), name: sheet::MARKER.into(), lead: LEAD.into() },
        shared,
        columns,
        groups,
        pages: in_order(cards, room, page_height(view)),
        sizes: Vec::new(),
        dies: Vec::new(),
    })]
}

/// The lays of the plan that are spread as this one.
pub fn spread<'f>((task, figures): &Both<'_>, fabrics: &'f [FabricPlan]) -> Vec<&'f LayLine> {
    let materials: BTreeSet<&String> = task.materials.iter().collect();
    let mine = fabrics
        .iter()
        .filter(|one| one.article == figures.fabric && one.materials.iter().collect::<BTreeSet<_>>() == materials);
    let lays = mine.filter_map(|one| one.plan.known()).flat_map(|plan| &plan.lays);
    let sizes = |lay: &LayLine| -> BTreeMap<String, u64> {
        lay.sizes.iter().filter(|(_, count)| **count > 0).map(|(size, count)| (size.clone(), *count)).collect()
    };
    lays.filter(|lay| sizes(lay) == task.mix).collect()
}

/// `1, 3–5`.
pub fn listed(lays: &[&LayLine]) -> String {
    let some = lays.chunk_by(|one, next| one.lay + 1 == next.lay);
    let ends = some.filter_map(|some| Some(range(some.first()?.lay, some.last()?.lay)));
    ends.collect::<Vec<_>>().join(", ")
}

/// A lay with what is said of it, and its drawing: as small as nearly all of its pieces can bear their number, no larger than
/// a page.
fn card(view: &View<'_>, one: &Both<'_>, fabrics: &[FabricPlan], letters: &Letters<'_>) -> ([f64; 2], LayCard) {
    let (task, figures) = one;
    let lays = spread(one, fabrics);
    let word = if lays.len() == 1 { TITLE_ONE } else { TITLE_SOME };
    let title = say!(word, fabric = marker::short(view, one), lays = listed(&lays), mix = mix_text(&figures.mix));
    let card = LayCard { title, facts: marker::facts(figures), ..LayCard::default() };
    let Some(lay) = &task.lay else { return (marker::size(view, &card, [0.0; 2]).0, card) };
    let marks = marks(task, lay, letters);
    let with = |bare: &[usize]| LayCard { legend: legend(one, lays.first().copied(), bare, letters), ..card.clone() };
    let mut best: Option<((Roll, f64), Vec<usize>)> = None;
    let ways = SCALES.into_iter().rev().flat_map(|scale| [(Roll::Across, scale), (Roll::Down, scale)]);
    for how in ways {
        let (drawn, bare) = ply_size(&task.instance, lay, how, &marks);
        let ([width, height], _) = marker::size(view, &with(&bare), drawn);
        if width > ROW || height > page_height(view) {
            continue;
        }
        let clear = bare.len() as f64 <= (1.0 - NUMBERED) * marks.len() as f64;
        // Of two that name as many, the larger drawing.
        if best.as_ref().is_none_or(|(_, least)| bare.len() <= least.len()) {
            best = Some((how, bare));
        }
        if clear {
            break;
        }
    }
    let Some((how, bare)) = best else { return (marker::size(view, &card, [0.0; 2]).0, card) };
    let texts = marker::extent(figures).map(|text| text.english());
    let (lines, scene) = ply_at(&task.instance, lay, how, [&texts[0], &texts[1]], &marks).parted();
    let card = with(&bare);
    let (size, top) = marker::size(view, &card, [scene.width, scene.height]);
    let drawing = Some(Drawing { lines: Some(lines), ..Drawing::of(scene, "") });
    (size, LayCard { width: size[0], top, drawing, scale: ratio(how.1), ..card })
}

/// What numbers and letters in a lay mean, and which pieces have no room for theirs.
fn legend((task, _): &Both<'_>, lay: Option<&LayLine>, bare: &[usize], letters: &Letters<'_>) -> Phrase {
    let sizes = lay.map(products).unwrap_or_default();
    let sizes = sizes.into_iter().map(|(size, first, last)| say!(PRODUCTS, products = range(first, last), size));
    let mut told = BTreeSet::new();
    let kinds = task.kinds.iter().filter_map(|kind| {
        let letter = letters.letter(kind);
        let word = match kind.side {
            Side::Drawn => LETTER,
            Side::Mirrored => MIRRORED,
            Side::Half => HALF,
        };
        told.insert(letter.clone()).then(|| say!(word, letter, piece = letters.name(&kind.piece, &kind.cut)))
    });
    let without: BTreeSet<String> = bare
        .iter()
        .filter_map(|at| task.kinds.get(task.lay.as_ref()?.placed.get(*at)?.piece))
        .map(|kind| letters.letter(kind))
        .collect();
    let bare = if without.is_empty() { Phrase::none() } else { say!(BARE, letters = Phrase::list(without)) };
    Phrase::row([Phrase::list(sizes), Phrase::list(kinds), bare], "; ")
}

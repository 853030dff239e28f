//! What is tied together: each bundle with its lay, its product on the ply, size, colour and plies.

use crate::compute::counts::CutCount;
use crate::compute::{Bought, Figure};
use crate::cutting::figures::Side;
use crate::orders::figures::{Bundle, FabricPlan, LayLine};
use crate::words::{Phrase, head, label, say, words};

use super::letters::{Letters, sides};
use super::plan::{colour_name, shown};
use super::spreads::{product, range};
use crate::rows::cell::Cell;
use crate::rows::data::{BundleGroup, Bundles, Sheet};
use crate::rows::package::Head;
use crate::rows::view::View;

words! {
    NAME "bundles.name" = "Bundle list";
    TITLE "bundles.title" = "What is tied together";
    LEAD "bundles.lead" = "A bundle is one product of a ply through some plies of one colour, all its pieces. The letters are those in the lays. A row with several numbers is as many bundles, product by product in the order of their numbers: each has the products and pieces of its row. Plies are numbered from the table up. Write down the lot when the bundle is tied.";
    BUNDLE "bundles.bundle" = "Bundle";
    PRODUCT "bundles.product" = "Product on the ply";
    SIZE "bundles.size" = "Size";
    COLOUR "bundles.colour" = "Colour";
    EACH "bundles.each" = "Products each";
    PIECES "bundles.pieces" = "Pieces each";
    PIECE "bundles.piece" = "{letter} {piece} × {count}";
    PIECE_ON "bundles.piece-on" = "{letter} {piece} ({side}) × {count}";
    MIRRORED "bundles.mirrored" = "mirrored";
    IN_ONE "bundles.in-one" = "For one product: {pieces}";
}

/// One sheet for the order that is shown; none without a plan.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let Some((_, order)) = shown(view) else { return Vec::new() };
    let letters = Letters::of(view);
    let groups: Vec<BundleGroup> =
        order.fabrics.iter().map(|fabric| group(view, fabric, &letters)).filter(|one| !one.rows.is_empty()).collect();
    if groups.is_empty() {
        return Vec::new();
    }
    let columns =
        [head::LAY, BUNDLE, PRODUCT, SIZE, label::COLOURWAY, COLOUR, head::PLY_COUNT, EACH, PIECES, label::LOT];
    let columns = columns.map(Phrase::from).to_vec();
    vec![Sheet::Bundles(Bundles {
        head: Head { title: TITLE.into(), name: NAME.into(), lead: LEAD.into() },
        columns,
        groups,
    })]
}

fn group(view: &View<'_>, fabric: &FabricPlan, letters: &Letters<'_>) -> BundleGroup {
    let lays = fabric.plan.known().into_iter().flat_map(|plan| &plan.lays);
    let rows = lays.flat_map(|lay| lay.bundles.chunk_by(follows).filter_map(|some| row(view, fabric, lay, some)));
    BundleGroup {
        title: view.fabric_title(&fabric.article, &fabric.materials),
        pieces: say!(IN_ONE, pieces = Phrase::list(pieces(view, fabric, letters))),
        rows: rows.collect(),
    }
}

/// Whether two bundles are equal but for their numbers, and the products of a ply that they are follow each other.
fn follows(one: &Bundle, next: &Bundle) -> bool {
    let all = |one: &Bundle| (one.size.clone(), one.colourway.clone(), one.colour.clone(), one.from, one.to);
    all(one) == all(next) && one.place + 1 == next.place && one.bundle + 1 == next.bundle
}

fn row(view: &View<'_>, fabric: &FabricPlan, lay: &LayLine, some: &[Bundle]) -> Option<Vec<Cell>> {
    let (first, last) = (some.first()?, some.last()?);
    let bought = Bought { article: fabric.article.clone(), colour: first.colour.clone() };
    Some(vec![
        Cell::count(lay.lay),
        range(first.bundle, last.bundle).into(),
        range(product(lay, first), product(lay, last)).into(),
        (&first.size).into(),
        (&first.colourway).into(),
        colour_name(view, &bought).into(),
        range(first.from, first.to).into(),
        Cell::count(first.products),
        Cell::count(first.pieces),
    ])
}

/// The pieces of one product that are cut from a fabric, with their letters and sides.
fn pieces(view: &View<'_>, fabric: &FabricPlan, letters: &Letters<'_>) -> Vec<Phrase> {
    let mine = |cut: &&CutCount| cut.material.as_ref().is_some_and(|one| fabric.materials.contains(one));
    let cuts = view.figures.counts.cuts.iter().filter(mine);
    let both = cuts.flat_map(|cut| [(cut, Side::Drawn, &cut.drawn), (cut, Side::Mirrored, &cut.mirrored)]);
    let some = both.filter_map(|(cut, side, count)| match count {
        Figure::Known(count) if *count > 0 => Some((cut, side, *count)),
        _ => None,
    });
    some.map(|(cut, side, count)| piece(view, letters, cut, side, count)).collect()
}

fn piece(view: &View<'_>, letters: &Letters<'_>, cut: &CutCount, side: Side, count: u64) -> Phrase {
    let letter = letters.signed(&cut.piece, &cut.cut, side);
    let piece = letters.name(&cut.piece, &cut.cut);
    // What is its own mirror image lies one way and has no side.
    let own_image = cut.own_image == Figure::Known(true);
    let named = if own_image { Vec::new() } else { sides(view, &cut.piece, side == Side::Mirrored) };
    let mirrored = (side == Side::Mirrored).then(|| Phrase::from(MIRRORED));
    let side = Phrase::list(mirrored.into_iter().chain(named.into_iter().map(Phrase::from)));
    if side.is_empty() { say!(PIECE, letter, piece, count) } else { say!(PIECE_ON, letter, piece, side, count) }
}

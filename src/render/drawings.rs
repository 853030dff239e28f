//! The drawings of a package as SVG files.

use backtack_core::rows::data::Sheet;
use backtack_core::rows::package::Package;
use backtack_core::scene::{Scene, svg};

/// What the files of drawings are called: a kind, a code or a number, `.svg`.
const PIECE: &str = "piece-";
const STEP: &str = "step-";
const MATCHING: &str = "matching-";
const MARKER: &str = "marker-";

/// The drawings of pieces, seam matching and seams as SVG files of true size on paper.
pub fn drawings(pages: &Package) -> Vec<(String, String)> {
    let svg = |scene: &Scene| svg(scene, pages.languages);
    let mut all = Vec::new();
    for sheet in &pages.sheets {
        match sheet {
            Sheet::Pieces(pieces) => {
                all.extend(pieces.drawings.iter().flat_map(|page| &page.cards).filter_map(|card| {
                    let drawing = card.drawing.as_ref()?;
                    Some((format!("{PIECE}{}.svg", card.code), svg(&drawing.scene)))
                }))
            }
            Sheet::Construction(steps) => all.extend(steps.steps.iter().filter_map(|step| {
                let stack = step.stack.as_ref()?;
                Some((format!("{STEP}{:0>2}.svg", step.number), svg(&stack.scene)))
            })),
            Sheet::Matching(joins) => all.push((format!("{MATCHING}01.svg"), svg(&joins.map.scene))),
            Sheet::Marker(lays) => {
                let cards = lays.pages.iter().flat_map(|page| &page.cards);
                let drawn = cards.filter_map(|card| card.drawing.as_ref()).enumerate();
                all.extend(drawn.map(|(n, one)| (format!("{MARKER}{:0>2}.svg", n + 1), svg(&one.whole()))));
            }
            _ => {}
        }
    }
    all
}

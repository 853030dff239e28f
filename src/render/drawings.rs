//! The drawings of a package as SVG files.

use backtack_core::rows::data::Sheet;
use backtack_core::rows::package::Package;
use backtack_core::scene::{self, Scene};
use backtack_core::words::Phrase;

/// What the files of drawings are called: a kind, a code or a number, `.svg`.
const PIECE: &str = "piece-";
const STEP: &str = "step-";
const MATCHING: &str = "matching-";
const MARKER: &str = "marker-";

/// The drawings of pieces, seam matching and seams as SVG files of true size on paper, each above lines that say what it is:
/// style and revision, what is drawn, and its sizes and scale.
pub fn drawings(pages: &Package) -> Vec<(String, String)> {
    let mut all = Vec::new();
    for bound in &pages.sheets {
        match &bound.sheet {
            Sheet::Pieces(pieces) => {
                all.extend(pieces.drawings.iter().flat_map(|page| &page.cards).filter_map(|placed| {
                    let card = &placed.card;
                    let drawing = card.drawing.as_ref()?;
                    let name = Phrase::row([card.code.as_str().into(), card.name.clone()], " ");
                    Some((format!("{PIECE}{}.svg", card.code), noted(pages, &drawing.scene, [&name, &card.caption])))
                }))
            }
            Sheet::Construction(steps) => {
                all.extend(steps.stages.iter().flat_map(|stage| &stage.steps).filter_map(|step| {
                    let stack = step.stack.as_ref()?;
                    let name = Phrase::row([step.number.as_str().into(), step.title.clone()], " ");
                    Some((
                        format!("{STEP}{:0>2}.svg", step.number),
                        noted(pages, &stack.scene, [&name, &stack.caption]),
                    ))
                }))
            }
            Sheet::Matching(joins) => {
                all.extend(joins.map.iter().map(|map| {
                    (format!("{MATCHING}01.svg"), noted(pages, &map.scene, [&joins.head.name, &map.caption]))
                }));
            }
            Sheet::Marker(lays) => {
                let cards = lays.pages.iter().flat_map(|page| &page.cards);
                let drawn = cards.filter_map(|one| Some((&one.card, one.card.drawing.as_ref()?))).enumerate();
                all.extend(drawn.map(|(n, (card, one))| {
                    let scale = Phrase::from(&card.scale);
                    let svg = noted(pages, &one.whole(), [&card.title, &scale]);
                    (format!("{MARKER}{:0>2}.svg", n + 1), svg)
                }));
            }
            _ => {}
        }
    }
    all
}

/// A drawing with the lines below it; each in every language of the package.
fn noted(pages: &Package, scene: &Scene, [name, scale]: [&Phrase; 2]) -> String {
    let block = &pages.title_block;
    let revision = pages.labels.get("revision").map_or("", |label| label.text.as_str());
    let style = format!("{} {revision} {}", block.style, block.revision);
    let own = [name, scale].map(|one| one.print(pages.languages));
    let lines: Vec<String> = std::iter::once(style.trim().to_owned())
        .chain(own.iter().flat_map(|one| one.split('\n')).filter(|line| !line.is_empty()).map(str::to_owned))
        .collect();
    scene::noted(scene, pages.languages, &lines)
}

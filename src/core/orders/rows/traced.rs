//! The lays of an order at true scale, as SVG files for a plotter or the table.

use crate::cutting::figures::mix_text;
use crate::cutting::rows::marker;
use crate::diag::Severity;
use crate::orders::figures::OrderFigures;
use crate::scene::{self, true_scale};
use crate::words::{Phrase, say, words};

use super::lays::{listed, spread};
use super::letters::{Letters, marks};
use super::plan::shown;
use crate::rows::view::View;

words! {
    STYLE "traced.style" = "{style} revision {revision}, digest {digest}; order {order}";
    LAYS "traced.lays" = "{fabric}, lay {lays}: {mix}";
    SIZE "traced.size" = "Scale 1:1. Length {length}, width {width}. Measure both before cutting from a print.";
    NOT_RELEASED "traced.not-released" = "Not released: do not cut";
}

/// Every lay, in the order of the sheet of lays.
pub fn traced(view: &View<'_>) -> Vec<String> {
    let Some((id, order)) = shown(view) else { return Vec::new() };
    let letters = Letters::of(view);
    let released = view.findings.count(Severity::Must) == 0;
    let both = marker::laid(view);
    let drawn = both.iter().filter_map(|one| {
        let (task, figures) = one;
        let lay = task.lay.as_ref()?;
        let lays = listed(&spread(one, &order.fabrics));
        let [length, width] = marker::extent(figures);
        let said = [
            say!(
                STYLE,
                style = view.text(view.model.style.id.as_ref()),
                revision = view.text(view.model.revision.id.as_ref()),
                digest = view.digest,
                order = named(id, order)
            ),
            say!(LAYS, fabric = marker::short(view, one), lays, mix = mix_text(&figures.mix)),
            say!(SIZE, length, width),
        ];
        let stopped = (!released).then(|| Phrase::from(NOT_RELEASED));
        let languages = view.model.style.languages;
        let lines: Vec<String> = stopped
            .into_iter()
            .chain(said)
            .flat_map(|line| line.print(languages).split('\n').map(str::to_owned).collect::<Vec<_>>())
            .collect();
        let scene = true_scale(&task.instance, lay, &marks(task, lay, &letters), &lines);
        Some(scene::svg(&scene, languages))
    });
    drawn.collect()
}

fn named<'o>(id: &'o str, order: &'o OrderFigures) -> &'o str {
    order.number.as_deref().unwrap_or(id)
}

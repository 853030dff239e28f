//! Computed figures against closed forms and sums worked by hand; each check names where its numbers come from.

use backtack_core::compute::{self, Drawn, Figure, Figures};
use backtack_core::model::Assembly;
use backtack_core::read;

fn made(text: &str) -> (Figures, Drawn) {
    let loaded = read::texts(&[("style.toml", text)]);
    let assembly = Assembly::of(&loaded.model);
    let found: Vec<&str> = loaded.findings.iter().map(|finding| finding.message.as_str()).collect();
    assert!(found.is_empty(), "{found:#?}");
    assert!(assembly.troubles.is_empty(), "{:#?}", assembly.troubles);
    let (figures, drawn, _) = compute::with_lines(&loaded.model, &assembly);
    (figures, drawn)
}

fn near(figure: &Figure<compute::Number>, wanted: f64, within: f64) {
    let found = figure.get().unwrap_or_else(|| panic!("{figure:?} instead of {wanted}"));
    assert!((found - wanted).abs() <= within, "{found} instead of {wanted}");
}

/// A cushion cover of two square panels, sewn all round but for an opening.
const CUSHION: &str = r#"
[style]
id = "C-1"
sizes = ["S"]
[cloth.canvas]
mass = "320 g/m2 ±5 %"
width = "1.5 m"
usable-width = "1.45 m"
utilisation = "80 %"
thickness = "0.6 mm"
colours = ["sand"]
[thread.core]
fineness = "40 tex"
cone = "5000 m"
wastage = "15 %"
colours = ["sand"]
[filling.fibre]
[colour.sand]
[material.main]
[material.thread]
[colourway.sand]
main = "canvas/sand"
thread = "core/sand"
[part.cover]
[zone.inside]
part = "cover"
material = "fibre"
mass = "600 g ±30 g"
check = "weighed before it is put in"
[piece.PANEL]
part = "cover"
material = "main"
copies = ["top", "under mirrored"]
outline = { shape = "rectangle", width = "450 mm", height = "450 mm", points = { p = "sw-se 100 mm", q = "p-se 250 mm" } }
allowance = "10 mm"
grain = "sw-nw"
[seam.round]
a = "PANEL.top:q-se-ne-nw-sw-p"
b = "PANEL.under:q-se-ne-nw-sw-p"
stitch = { type = "301", density = "4 st/cm", thread = "thread" }
[opening.gap]
a = "PANEL.top:p-q"
b = "PANEL.under:p-q"
close = { by = "hand" }
[point-of-measure.W]
state = "sewn flat"
target = "450 mm ±5 mm"
step = "1 mm"
[work]
order = ["round", "gap"]
"#;

#[test]
fn cushion_panel_is_cut_ten_millimetres_larger() {
    // Worked by hand: 450 + 2 × 10 = 470 mm; 470² = 220 900 mm2; 450² = 202 500 mm2; 4 × 470 = 1 880 mm.
    let (figures, _) = made(CUSHION);
    let panel = &figures.pieces["PANEL"]["S"];
    let sew = panel.sew.known().unwrap();
    assert_eq!((sew.area.get(), sew.perimeter.get()), (202_500.0, 1_800.0));
    let cut = panel.cuts["shell"].line.known().unwrap();
    assert_eq!((cut.width.get(), cut.height.get()), (470.0, 470.0));
    assert_eq!((cut.area.get(), cut.perimeter.get()), (220_900.0, 1_880.0));
    assert!(figures.seams["round"].sizes["S"].sewn.get() == Some(1_550.0), "4 × 450 − 250");
    near(&figures.filling["S"]["sand"].total.lower, 570.0, 0.0);
}

//! Two specifications compared by meaning. Every expected change was worked out by hand.

mod asked;
mod changes;
mod outlines;
mod puffin;
mod same;

use backtack_core::pipeline;
use backtack_core::read::{self, Loaded};
use backtack_core::revision::compare::Changes;

/// The changes from one specification to another.
pub fn changed(before: &Loaded, after: &Loaded) -> Changes {
    pipeline::compare((before, &crate::checked(before)), (after, &crate::checked(after)))
}

/// The changes from some files to others.
pub fn between(before: &[(&str, &str)], after: &[(&str, &str)]) -> Changes {
    changed(&read::texts(before), &read::texts(after))
}

/// A small bag: two panels, one seam, two sizes, two colourways, one point of measure.
pub const BASE: &str = r#"
[style]
id = "T-1"
name = "Small bag"
sizes = ["S", "L"]
destinations = ["Norway", "Iceland"]
[size.S]
[size.L]
scale = { along = "1.2", across = "1.2" }
[colour.red]
reference = "Swatch 1"
[colour.blue]
reference = "Swatch 2"
[fabric.canvas]
composition = "80 % cotton, 20 % linen"
mass = "300 g/m2 ±5 %"
width = "1500 mm"
cuttable-width = "1480 mm"
efficiency = "80 %"
colours = ["red", "blue"]
[thread.sewing]
fineness = "40 tex"
colours = ["red"]
[role.body]
[colourway.warm]
body = "canvas/red"
[colourway.cold]
body = "canvas/blue"
[part.bag]
form = "cover"
[piece.FRONT]
part = "bag"
material = "body"
outline = { shape = "rectangle", width = "200 mm", height = "300 mm" }
allowance = { all = "10 mm", "ne-nw" = "30 mm" }
grain = "sw-nw"
notches = ["sw-se 40 mm"]
[piece.BACK]
part = "bag"
material = "body"
outline = { shape = "rectangle", width = "200 mm", height = "300 mm" }
allowance = { all = "10 mm", "ne-nw" = "30 mm" }
grain = "sw-nw"
[stitch.lock]
type = "301"
density = "4 st/cm"
thread = "sewing"
[seam.side]
a = "FRONT:nw-sw-se-ne"
b = "BACK:ne-se-sw-nw"
stitch = "lock"
[edge-finish.hem]
by = "hem"
on = "FRONT:ne-nw, BACK:ne-nw"
stitch = "lock"
[step.turn]
do = "turn"
part = "bag"
[work]
order = ["side", "turn", "hem"]
[point-of-measure.H]
name = "Height"
state = "sewn"
target = { S = "300 mm ±5 mm", L = "360 mm ±5 mm" }
read-to = "1 mm"
"#;

/// The changes of the small bag when some text of it is replaced, as the lines of the printer without its head.
pub fn edited(pairs: &[(&str, &str)]) -> (Changes, String) {
    let mut text = BASE.to_string();
    for (from, to) in pairs {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    let changes = between(&[("bag.toml", BASE)], &[("bag.toml", &text)]);
    let printed = backtack_core::revision::compare::text(&changes, 80);
    let body = printed.split_once('\n').unwrap().1.trim().to_string();
    (changes, body)
}

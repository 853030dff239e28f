//! Computed figures against closed forms and sums worked by hand; each check names where its numbers come from.

mod whole;

use backtack_core::compute::{self, Drawn, Figure, Figures};
use backtack_core::model::Assembly;
use backtack_core::read;
use backtack_core::words::Phrase;

fn made(text: &str) -> (Figures, Drawn) {
    let loaded = read::texts(&[("style.toml", text)]);
    let assembly = Assembly::of(&loaded.model);
    let found: Vec<String> = loaded.findings.iter().map(|finding| finding.message.english()).collect();
    assert!(found.is_empty(), "{found:#?}");
    assert!(assembly.troubles.is_empty(), "{:#?}", assembly.troubles);
    let checked = crate::checked(&loaded);
    (checked.figures, checked.drawn)
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
[fabric.canvas]
mass = "320 g/m2 ±5 %"
width = "1.5 m"
cuttable-width = "1.45 m"
efficiency = "80 %"
thickness = "0.6 mm"
colours = ["sand"]
[thread.core]
fineness = "40 tex"
cone = "5000 m"
wastage = "15 %"
colours = ["sand"]
[filling.fibre]
[colour.sand]
[role.main]
[role.thread]
[colourway.sand]
main = "canvas/sand"
thread = "core/sand"
[part.cover]
[stuffing.inside]
part = "cover"
filling = "fibre"
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
state = "sewn"
target = "450 mm ±5 mm"
read-to = "1 mm"
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

#[test]
fn cushion_mass_and_need() {
    // Worked by hand. Shell 2 × 0.2209 m2 × 320 g/m2 = 141.376 g, ±5 % 134.3072 to 148.4448 g. Length on
    // 1 450 mm × 80 % = 1 160 mm: 441 800 / 1 160 = 380.862069 mm, which on 1.5 m weighs 182.813793 g.
    let (figures, _) = made(CUSHION);
    let mass = &figures.mass["S"]["sand"];
    near(&mass.shell.target, 141.376, 1e-6);
    // Limits go inward to what a scale reads: tenths below 200 g, whole grams above.
    near(&mass.shell.lower, 134.4, 0.0);
    near(&mass.shell.upper, 148.4, 0.0);
    let need = &figures.fabric["S"]["sand"][0];
    assert_eq!((need.bought.article.as_str(), need.pieces.known()), ("canvas", Some(&2)));
    near(&need.area, 441_800.0, 0.0);
    near(&need.length, 380.862_069, 1e-6);
    near(&need.mass, 182.813_793, 1e-6);
    // Product: 141.376 + 600 g and 4.588 m of 40 tex, 0.18352 g, which states no tolerance.
    near(&mass.product.target, 741.559_52, 1e-6);
    // 134.3072 + 570 + 0.18352 is 704.49072 g, 148.4448 + 630 + 0.18352 is 778.62832 g.
    near(&mass.product.lower, 705.0, 0.0);
    near(&mass.product.upper, 778.0, 0.0);
    assert_eq!(mass.without_tolerance, ["core"]);
    let kinds: Vec<(&str, &str)> =
        figures.bill.lines.iter().map(|line| (line.kind, line.bought.article.as_str())).collect();
    assert_eq!(kinds, [("fabric", "canvas"), ("thread", "core"), ("filling", "fibre")]);
    assert!(figures.bill.lines[0].estimate && !figures.bill.lines[1].estimate);
}

#[test]
fn cushion_thread() {
    // Worked by hand from the geometry 2 + 2TS: T = 2 × 0.6 mm, S = 4 st/cm gives 2.96; 1 550 × 2.96 = 4 588 mm, and
    // 120 mm of tails; with 15 % 5 414.2 mm, so 1,000 products take 2 cones of 5 000 m.
    let (figures, _) = made(CUSHION);
    let thread = &figures.thread["S"]["sand"];
    let line = &thread.lines[0];
    near(&line.thickness, 1.2, 1e-9);
    near(&line.ratio.clone().map(|ratio| ratio.value), 2.96, 1e-9);
    assert_eq!(line.ratio.known().unwrap().basis, compute::RatioBasis::Geometry);
    near(&line.sewn, 4_588.0, 1e-6);
    assert_eq!(line.tails.get(), 120.0);
    near(&thread.totals[0].needed, 5_414.2, 1e-6);
    assert_eq!(thread.totals[0].cones_per_thousand, Figure::Known(2));
    assert_eq!(thread.not_counted.keys().collect::<Vec<_>>(), ["gap"], "closed by hand");
}

/// Two sheets `length` long sewn along one edge, stitched as said, of fabric as thick as said.
fn seam(length: &str, stitch: &str, fabric: &str, wastage: &str) -> Figures {
    let text = CUSHION
        .replace(r#"thickness = "0.6 mm""#, fabric)
        .replace(r#"stitch = { type = "301", density = "4 st/cm", thread = "thread" }"#, stitch)
        .replace(r#"wastage = "15 %""#, &format!("wastage = \"{wastage}\""))
        .replace(r#"width = "450 mm", height = "450 mm""#, &format!("width = \"{length}\", height = \"450 mm\""))
        .replace("q-se-ne-nw-sw-p", "nw-ne");
    made(&text).0
}

#[test]
fn thread_by_textbook_geometry() {
    // Textbook stitch geometry, in inches; 101 and 301 as printed, 401 computed: type, half of T for each of two plies,
    // S, C.
    for (kind, ply, density, ratio) in [
        ("101", "0.0025 in", "9 st/in", 3.09),
        ("301", "0.005 in", "10 st/in", 2.2),
        ("401", "0.0075 in", "15 st/in", 4.45),
    ] {
        let stitch = format!("stitch = {{ type = \"{kind}\", density = \"{density}\", thread = \"thread\" }}");
        let figures = seam("1 m", &stitch, &format!("thickness = \"{ply}\""), "15 %");
        let line = &figures.thread["S"]["sand"].lines[0];
        near(&line.ratio.clone().map(|ratio| ratio.value), ratio, 1e-9);
        near(&line.sewn, ratio * 1_000.0, 1e-6);
    }
    // Two plush layers 4 mm thick together when pressed, at 4 stitches per cm: 2 + 2TS = 5.2 (notes of the trade).
    let stitch = "stitch = { type = \"301\", density = \"4 st/cm\", thread = \"thread\" }";
    let figures = seam("1 m", stitch, "thickness = \"2 mm\"", "15 %");
    near(&figures.thread["S"]["sand"].lines[0].ratio.clone().map(|ratio| ratio.value), 5.2, 1e-9);
}

#[test]
fn thread_by_the_guide_where_thickness_is_not_stated() {
    // Products of a thread maker's consumption guide, without and with wastage (derived from the guide's ratios).
    for (kind, metres, wastage, thread) in
        [("301", 1.85, 15.0, 5.318_75), ("401", 3.0, 10.0, 18.15), ("504", 2.5, 15.0, 40.25), ("516", 0.8, 12.5, 18.0)]
    {
        let stitch = format!("stitch = {{ type = \"{kind}\", density = \"4 st/cm\", thread = \"thread\" }}");
        let figures = seam(&format!("{metres} m"), &stitch, "", &format!("{wastage} %"));
        let found = &figures.thread["S"]["sand"];
        assert_eq!(found.lines[0].ratio.known().unwrap().basis, compute::RatioBasis::Guide);
        let tails = 2.0 * compute::TAIL * (1.0 + wastage / 100.0);
        near(&found.totals[0].needed, thread * 1_000.0 + tails, 1e-6);
    }
}

#[test]
fn wastage_as_in_the_worked_examples() {
    // An apparel technical note: 1 m of 401, unpicked 1.3 + 4.1: 540 cm, with 15 % 621 cm.
    assert!((compute::with_wastage(540.0, 15.0) - 621.0).abs() < 1e-9);
    // A thread maker's bulletin on estimating thread: 3.51 + 3.12 = 6.63 yd, with 15 % 7.62 yd.
    assert!((compute::with_wastage(3.51 + 3.12, 15.0) - 7.62).abs() < 0.005);
}

/// One piece alone, with its cuts.
fn piece(outline: &str, rest: &str) -> Figures {
    let text = format!(
        "[style]\nid = \"P\"\nsizes = [\"S\"]\n[fabric.felt]\nmass = \"200 g/m2\"\n[piece.P]\nmaterial = \"felt\"\n\
         outline = {{ {outline} }}\n{rest}\n"
    );
    made(&text).0
}

#[test]
fn panel_of_80_by_120_with_6_mm() {
    // Worked by hand: 80 + 12 = 92, 120 + 12 = 132; 92 × 132 = 12 144 mm2.
    let figures = piece("shape = \"rectangle\", width = \"80 mm\", height = \"120 mm\"", "allowance = \"6 mm\"");
    let cut = figures.pieces["P"]["S"].cuts["shell"].line.known().unwrap().clone();
    assert_eq!((cut.width.get(), cut.height.get(), cut.area.get()), (92.0, 132.0, 12_144.0));
    // The same panel laid on its side: the height of a piece goes with its grain.
    let figures = piece(
        "shape = \"rectangle\", width = \"80 mm\", height = \"120 mm\"",
        "allowance = \"6 mm\"\ngrain = \"sw-se\"",
    );
    let cut = figures.pieces["P"]["S"].cuts["shell"].line.known().unwrap().clone();
    assert_eq!((cut.width.get(), cut.height.get()), (132.0, 92.0));
}

#[test]
fn a_drawn_cut_line_is_sewn_inside() {
    let outline = "shape = \"rectangle\", width = \"92 mm\", height = \"132 mm\", is = \"cut line\"";
    let figures = piece(outline, "allowance = \"6 mm\"");
    let panel = &figures.pieces["P"]["S"];
    assert_eq!(panel.sew.known().unwrap().area.get(), 80.0 * 120.0);
    assert_eq!(panel.cuts["shell"].line.known().unwrap().area.get(), 92.0 * 132.0);
}

#[test]
fn circle_with_an_allowance() {
    // Closed form: sewn π50², cut π60²; the offset line is within 0.01 mm of the circle, so within π120 × 0.01 mm2.
    let figures = piece("shape = \"circle\", diameter = \"100 mm\"", "allowance = \"10 mm\"");
    let panel = &figures.pieces["P"]["S"];
    let pi = std::f64::consts::PI;
    assert!((panel.sew.known().unwrap().area.get() - pi * 2_500.0).abs() < 0.5);
    let cut = panel.cuts["shell"].line.known().unwrap();
    assert!((cut.area.get() - pi * 3_600.0).abs() < pi * 120.0 * 0.01 + 0.5, "{}", cut.area.get());
    assert!((cut.width.get() - 120.0).abs() < 0.03 && (cut.height.get() - 120.0).abs() < 0.03);
}

#[test]
fn gores_have_the_area_of_their_ball() {
    // Closed form: n gores of a ball of diameter d hold πd² together, and each edge is a meridian's length or more.
    let (count, diameter) = (6.0, 66.0);
    let figures = piece("shape = \"gore\", count = 6, diameter = \"66 mm\"", "allowance = \"5 mm\"");
    let sew = figures.pieces["P"]["S"].sew.known().unwrap().clone();
    let wanted = std::f64::consts::PI * diameter * diameter;
    assert!((sew.area.get() * count - wanted).abs() < wanted * 1e-4, "{} {wanted}", sew.area.get() * count);
}

#[test]
fn a_layer_inside_the_sew_line_and_a_block() {
    let figures = piece(
        "shape = \"rectangle\", width = \"450 mm\", height = \"450 mm\"",
        "allowance = \"10 mm\"\nblock = { width = \"500 mm\", height = \"520 mm\" }\n\
         [piece.P.cut.fusible]\nmaterial = \"felt\"\ninside = \"2 mm\"\ncount = 2",
    );
    // Worked by hand: 450 − 2 × 2 = 446; the block takes 500 × 520 of fabric, but 470² of it stays in the product:
    // 0.2209 m2 and 2 × 0.198916 m2 at 200 g/m2.
    let cuts = &figures.pieces["P"]["S"].cuts;
    assert_eq!(cuts["fusible"].line.known().unwrap().area.get(), 446.0 * 446.0);
    near(&cuts["shell"].material_area, 260_000.0, 0.0);
    near(&figures.fabric["S"]["only"][0].area, 260_000.0 + 2.0 * 198_916.0, 1e-6);
    near(&figures.mass["S"]["only"].shell.target, (0.2209 + 2.0 * 0.198_916) * 200.0, 1e-6);
    assert_eq!(figures.counts.pieces, Figure::Known(3));
}

#[test]
fn a_marked_dart_is_bridged_and_a_cut_one_is_not() {
    let shape = "shape = \"polygon\", corners = [[\"a\", \"0 mm\", \"0 mm\"], [\"c\", \"90 mm\", \"0 mm\"], \
                 [\"p\", \"100 mm\", \"40 mm\"], [\"d\", \"110 mm\", \"0 mm\"], [\"b\", \"200 mm\", \"0 mm\"], \
                 [\"e\", \"200 mm\", \"100 mm\"], [\"f\", \"0 mm\", \"100 mm\"]]";
    let dart = "allowance = \"5 mm\"\n[seam.dart]\na = \"P:c-p\"\nb = \"P:d-p\"";
    let marked = piece(shape, dart);
    let sew = marked.pieces["P"]["S"].sew.known().unwrap().clone();
    // Worked by hand: 200 × 100 less half of 20 × 40; bridged, the cut is 210 × 110.
    assert_eq!(sew.area.get(), 19_600.0);
    assert_eq!(marked.pieces["P"]["S"].cuts["shell"].line.known().unwrap().area.get(), 23_100.0);
    // Closed form: the legs move 5 mm, the tip 5 / sin(atan(10/40)) = 20.6155 mm, so the cut V is 19.3845 mm deep from
    // the sew line and 24.3845 mm from the cut edge, a quarter of that wide to each side.
    let cut = piece(shape, &format!("darts = \"cut\"\n{dart}"));
    let depth = 40.0 - 5.0 * 1_700.0_f64.sqrt() / 10.0 + 5.0;
    let found = cut.pieces["P"]["S"].cuts["shell"].line.known().unwrap().area.get();
    assert!((found - (23_100.0 - depth * depth / 4.0)).abs() < 0.05, "{found}");
    assert!((marked.seams["dart"].sizes["S"].sewn.get().unwrap() - 1_700.0_f64.sqrt()).abs() < 1e-6);
}

#[test]
fn pieces_to_cut_by_side() {
    let text = r#"
[style]
id = "E"
sizes = ["S"]
[fabric.felt]
[part.ear]
uses = ["left", "right mirrored"]
[piece.EAR]
part = "ear"
copies = ["f", "b mirrored"]
outline = { shape = "polygon", corners = [["a", "0 mm", "0 mm"], ["b", "60 mm", "0 mm"], ["c", "10 mm", "80 mm"]] }
material = "felt"
allowance = "4 mm"
[piece.PAD]
part = "ear"
outline = { shape = "circle", diameter = "30 mm" }
pile = "n-s"
material = "felt"
allowance = "0 mm"
[piece.STRAY]
part = "ear"
outline = { shape = "circle", diameter = "30 mm" }
pile = "n-e"
material = "felt"
allowance = "0 mm"
"#;
    // Worked by hand: copies f and b in a left and a mirrored right use; f left and b right lie as drawn. A disc with
    // its pile from point to opposite point is its own image; one whose points do not fall on points is not.
    let (figures, _) = made(text);
    let count = |piece: &str| figures.counts.cuts.iter().find(|cut| cut.piece == piece).unwrap();
    let sides = |piece: &str| (count(piece).drawn.known().copied(), count(piece).mirrored.known().copied());
    assert_eq!(sides("EAR"), (Some(2), Some(2)));
    // Felt without right and wrong side: all four are cut alike. A pile makes a right side of one of them.
    let ways = |fabric: &str| {
        let (figures, _) = made(&text.replace("[fabric.felt]", &format!("[fabric.felt]\n{fabric}")));
        let ear = figures.counts.cuts.iter().find(|cut| cut.piece == "EAR").unwrap().clone();
        (ear.drawn.known().copied(), ear.mirrored.known().copied(), ear.turned_over)
    };
    assert_eq!(ways("faces = \"equal\""), (Some(4), Some(0), true));
    assert_eq!(ways("faces = \"right and wrong\""), (Some(2), Some(2), false));
    assert_eq!(ways("faces = \"equal\"\npile = \"3 mm\""), (Some(2), Some(2), false));
    assert_eq!(sides("PAD"), (Some(2), Some(0)));
    assert_eq!(figures.counts.parts["ear"].instances_each, 4);
    assert_eq!(figures.counts.pieces, Figure::Known(8));
    assert_eq!(figures.counts.articles["only"][0].pieces, Figure::Known(8));
}

#[test]
fn limits_are_rounded_inward_to_the_step() {
    // Worked by hand: the least multiple of the step not below the lower limit, the greatest not above the upper.
    for (target, step, unit, lower, upper) in [
        ("250 mm ±5 mm", "1 mm", "mm", Some(245.0), Some(255.0)),
        ("250 mm ±3.4 mm", "1 mm", "mm", Some(247.0), Some(253.0)),
        ("250 mm +5/-3 mm", "2 mm", "mm", Some(248.0), Some(254.0)),
        ("60 mm ±max(5 mm, 3 %)", "1 mm", "mm", Some(55.0), Some(65.0)),
        ("333 mm ±1 %", "0.5 mm", "mm", Some(330.0), Some(336.0)),
        ("10 in ±0.2 in", "0.125 in", "in", Some(9.875), Some(10.125)),
        ("25 cm ±4 mm", "1 mm", "mm", Some(246.0), Some(254.0)),
        ("60.5 mm ±0.4 mm", "1 mm", "mm", None, None),
    ] {
        let text =
            CUSHION.replace("450 mm ±5 mm", target).replace("read-to = \"1 mm\"", &format!("read-to = \"{step}\""));
        let (figures, _) = made(&text);
        let found = &figures.measures["W"].sizes["S"];
        assert_eq!((found.lower.get(), found.upper.get()), (lower, upper), "{target} at {step}");
        assert_eq!(found.unit, Figure::Known(unit.to_string()));
    }
}

#[test]
fn what_the_factory_will_say_is_never_nought() {
    let text = CUSHION.replace(
        r#"outline = { shape = "rectangle", width = "450 mm", height = "450 mm", points = { p = "sw-se 100 mm", q = "p-se 250 mm" } }"#,
        r#"outline = "by factory""#,
    );
    let (figures, _) = made(&text.replace("grain = \"sw-nw\"\n", ""));
    let mass = &figures.mass["S"]["sand"];
    for figure in
        [&mass.product.target, &mass.shell.target, &mass.product.lower, &figures.fabric["S"]["sand"][0].length]
    {
        let Figure::NotYet { why } = figure else { panic!("{figure:?}") };
        let why: Vec<String> = why.iter().map(Phrase::english).collect();
        assert!(why.contains(&"the pattern of PANEL is the factory's to make".to_string()), "{why:?}");
    }
    assert_eq!(figures.counts.pieces, Figure::Known(2), "how many are cut is known all the same");
    near(&figures.filling["S"]["sand"].total.target, 600.0, 0.0);
    let json: serde_json::Value = serde_json::from_str(&figures.json()).unwrap();
    let shell = &json["mass"]["S"]["sand"]["shell"]["target"];
    assert_eq!(shell["not-known-yet"][0], "the pattern of PANEL is the factory's to make");
    assert_eq!(figures.bill.lines.len(), 2, "fabric and filling");
}

#[test]
fn a_sum_from_which_a_withheld_value_could_be_solved_is_withheld() {
    let text = CUSHION.replace("mass = \"600 g ±30 g\"", "mass = { withheld = \"3f2a\" }");
    let (figures, _) = made(&text);
    let mass = &figures.mass["S"]["sand"];
    assert_eq!((&mass.product.target, &mass.product.lower), (&Figure::Withheld, &Figure::Withheld));
    assert_eq!(figures.filling["S"]["sand"].total.target, Figure::Withheld);
    near(&mass.shell.target, 141.376, 1e-6);
    assert!(figures.json().contains("\"withheld\": true") && !figures.json().contains("3f2a"));
}

/// 600 ± 29.5 g: from 570.5 to 629.5, read to whole grams unless a scale is stated.
#[test]
fn masses_of_filling_are_read_to_the_step_of_the_scale() {
    let limits = |step: &str| {
        let (figures, _) = made(&CUSHION.replace("600 g ±30 g", &format!("600 g ±29.5 g\"{step}")));
        let line = figures.filling["S"]["sand"].stuffings[0].clone();
        (line.each.lower.get(), line.each.upper.get(), line.read_to.map(|step| step.get()))
    };
    // The quotes of the mass close behind what is put in.
    assert_eq!(limits("\nnote = \"n"), (Some(571.0), Some(629.0), None));
    assert_eq!(limits("\nread-to = \"5 g"), (Some(575.0), Some(625.0), Some(5.0)));
    assert_eq!(
        limits("\nread-to = { S = \"0.5 g\", else = \"2 g\" }\nnote = \"n"),
        (Some(570.5), Some(629.5), Some(0.5))
    );
}

#[test]
fn filling_without_tolerance_is_only_given_a_proposal() {
    let (figures, _) = made(&CUSHION.replace("600 g ±30 g", "600 g"));
    let stuffing = &figures.filling["S"]["sand"].stuffings[0];
    assert!(stuffing.each.lower.known().is_none() && figures.filling["S"]["sand"].total.lower.known().is_none());
    // A tenth either way (common practice).
    let proposed = stuffing.proposed.as_ref().unwrap();
    assert_eq!((proposed.lower.get(), proposed.upper.get()), (540.0, 660.0));
    assert!(figures.mass["S"]["sand"].without_tolerance.contains(&"fibre".to_string()));
}

#[test]
fn same_figures_whatever_the_order_of_files() {
    let (head, tail) = CUSHION.split_at(CUSHION.find("[piece.PANEL]").unwrap());
    let json = |files: &[(&str, &str)]| {
        let loaded = read::texts(files);
        crate::checked(&loaded).figures.json()
    };
    assert_eq!(json(&[("a.toml", head), ("b.toml", tail)]), json(&[("b.toml", tail), ("z.toml", head)]));
}

#[test]
fn what_packs_the_product_is_not_its_mass() {
    // Worked by hand: a label of 0.4 g is part of the product, a bag of 28 g ±3 g only of the packed product.
    let trims = "[trim.label]\ntype = \"label\"\nmass-each = \"0.4 g\"\nuse = \"1 pc\"\n\
                 [trim.sack]\nmass-each = \"28 g ±3 g\"\nuse = \"1 pc\"\n[step.pack]\ndo = \"bag\"\ntrim = \"sack\"\n";
    let (figures, _) =
        made(&CUSHION.replace("[work]", &format!("{trims}[work]")).replace("\"gap\"]", "\"gap\", \"pack\"]"));
    let mass = &figures.mass["S"]["sand"];
    near(&mass.product.target, 741.559_52 + 0.4, 1e-6);
    near(&mass.packed.target, 741.559_52 + 28.4, 1e-6);
    let widened = mass.packed.upper.get().unwrap() - mass.product.upper.get().unwrap();
    assert!((widened - 31.0).abs() < 1e-6);
}

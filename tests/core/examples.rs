//! The examples: nothing is left to ask about them, their shells close, and their totals can be worked out by hand.

use std::f64::consts::PI;
use std::path::Path;

use backtack_core::compute::{self, Figures};
use backtack_core::diag::{Findings, Folder, Severity, text};
use backtack_core::model::Assembly;
use backtack_core::pipeline::Checked;
use backtack_core::read::Loaded;

struct Example {
    name: &'static str,
    loaded: Loaded,
    assembly: Assembly,
    figures: Figures,
    findings: Findings,
}

fn example(name: &'static str) -> Example {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec-examples").join(name);
    let loaded = crate::folder(&folder).unwrap();
    let Checked { assembly, figures, findings, .. } = crate::checked(&loaded);
    Example { name, loaded, assembly, figures, findings }
}

impl Example {
    fn printed(&self) -> String {
        let folder =
            Folder { name: self.name, root: self.name, findings: &self.findings, sources: &self.loaded.sources };
        text::print(&[folder], text::Style { color: false, width: 120 })
    }

    /// Area within the sew line of one piece, mm².
    fn sewn(&self, piece: &str, size: &str) -> f64 {
        self.figures.pieces[piece][size].sew.known().unwrap().area.get()
    }

    /// Area within the cut line of every piece that one material is cut into, mm².
    fn cut(&self, material: &str, size: &str) -> f64 {
        let of_material = |cut: &&compute::CutCount| cut.material.as_deref() == Some(material);
        let area = |cut: &compute::CutCount| {
            let one = self.figures.pieces[&cut.piece][size].cuts[&cut.cut].material_area.known().unwrap().get();
            let drawn = *cut.drawn.known().unwrap() as f64 + *cut.mirrored.known().unwrap() as f64;
            one * drawn
        };
        self.figures.counts.cuts.iter().filter(of_material).map(area).sum()
    }
}

fn near(found: f64, wanted: f64, share: f64) {
    assert!((found - wanted).abs() <= share * wanted.abs(), "{found} is not {wanted}");
}

#[test]
fn nothing_stops_the_floor_cushion() {
    let cushion = example("floor-cushion");
    assert_eq!(cushion.findings.count(Severity::Must), 0);
    insta::assert_snapshot!(cushion.printed());
}

#[test]
fn nothing_stops_the_juggling_ball() {
    let ball = example("juggling-ball");
    assert_eq!(ball.findings.count(Severity::Must), 0);
    insta::assert_snapshot!(ball.printed());
}

/// Vertices − edges + faces of a closed surface without a hole through it is 2 (Euler).
#[test]
fn every_shell_closes() {
    for name in ["floor-cushion", "juggling-ball"] {
        let sewing = example(name).assembly.sewing;
        assert!(sewing.whole);
        assert_eq!(sewing.inside_out, Vec::<usize>::new());
        assert_eq!(sewing.loose, Vec::new());
        assert_eq!(sewing.shells.len(), 2, "{name}: outer and inner");
        for shell in &sewing.shells {
            assert_eq!((shell.euler(), shell.boundary.len()), (2, 0), "{name}: {:?}", shell.parts);
        }
    }
}

/// Six gores under a cosine have together the area of their sphere, π d² (closed form).
#[test]
fn six_gores_have_the_area_of_the_sphere() {
    let ball = example("juggling-ball");
    for (size, diameter) in [("D65", 65.0), ("D75", 75.0)] {
        let gores = 3.0 * ball.sewn("ODD", size) + 3.0 * ball.sewn("EVEN", size);
        near(gores, PI * diameter * diameter, 1e-4);
    }
}

/// Two circles of the diameter and twice the allowance (closed form); the cut line is a polyline, so a little smaller.
#[test]
fn pellet_bag_is_two_circles() {
    let ball = example("juggling-ball");
    near(ball.cut("pouch", "D65"), 2.0 * PI * 60.0 * 60.0, 1e-4);
    near(ball.cut("pouch", "D75"), 2.0 * PI * 68.0 * 68.0, 1e-4);
}

/// The opening is the edge of a gore without 15 mm at both ends; the edge by Simpson's rule over the cosine's slope.
#[test]
fn opening_of_the_ball_is_what_the_pieces_leave() {
    let ball = example("juggling-ball");
    for (size, diameter) in [("D65", 65.0), ("D75", 75.0)] {
        let steps = 2000;
        let speed = |i: u32| (1.0 + (PI / 6.0 * (PI * f64::from(i) / f64::from(steps)).sin()).powi(2)).sqrt();
        let weight = |i: u32| if i == 0 || i == steps { 1.0 } else { f64::from(2 + 2 * (i % 2)) };
        let sum: f64 = (0..=steps).map(|i| weight(i) * speed(i)).sum();
        let edge = diameter / 2.0 * PI / f64::from(steps) / 3.0 * sum;
        let sew = ball.figures.pieces["ODD"][size].sew.known().unwrap();
        let between = |a: &str, b: &str| {
            let run = |run: &&compute::EdgeLength| (run.from == a && run.to == b) || (run.from == b && run.to == a);
            sew.edges.iter().find(run).unwrap().length.get()
        };
        near(between("pa", "w") + between("w", "pb"), edge - 30.0, 1e-5);
    }
}

/// Rectangles with their allowances on both sides, by hand: side strip 1350 × 100, panels 450 × 450 and so on.
#[test]
fn fabric_of_the_cushion_is_its_rectangles() {
    let cushion = example("floor-cushion");
    let cover = |side: f64, high: f64| {
        let panels = 2.0 * (side + 24.0) * (side + 24.0);
        let back = 2.0 * (side + 24.0) * (high / 2.0 + 24.0);
        panels + (3.0 * side + 24.0) * (high + 24.0) + back
    };
    near(cushion.cut("face", "S"), cover(450.0, 100.0), 1e-9);
    near(cushion.cut("face", "L"), cover(600.0, 120.0), 1e-9);
    let inner = |side: f64, high: f64| 2.0 * (side + 20.0) * (side + 20.0) + (4.0 * side + 20.0) * (high + 20.0);
    near(cushion.cut("lining", "S"), inner(470.0, 110.0), 1e-9);
    near(cushion.cut("lining", "L"), inner(620.0, 130.0), 1e-9);
}

/// Piping goes round two squares and laps 40 mm on each: 2 (4 × 450 + 40) mm and 2 (4 × 600 + 40) mm.
#[test]
fn piping_goes_twice_round() {
    let cushion = example("floor-cushion");
    for (size, length) in [("S", 3680.0), ("L", 4880.0)] {
        let uses: Vec<f64> = cushion
            .figures
            .bill
            .lines
            .iter()
            .filter(|line| line.bought.article == "piping")
            .filter_map(|line| line.uses.get(size)?.get("moss")?.known().map(|number| number.get()))
            .collect();
        assert_eq!(uses, [length]);
    }
}

/// What the measurement sheet says of masses is what the materials add up to, within its own limits.
#[test]
fn stated_masses_agree_with_the_sum() {
    let ball = example("juggling-ball");
    for (size, stated) in [("D65", 88.0), ("D75", 134.0)] {
        let product = ball.figures.mass[size]["brick"].computed.known().unwrap().get();
        // Neither the header card, which hangs on the product, nor the bag is on the scale.
        near(product, stated, 0.01);
    }
}

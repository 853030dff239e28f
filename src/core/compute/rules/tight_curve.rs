//! Rule: a curve is tighter than its allowance.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::geom::{Outline, Run};
use crate::model::assembly::sewn_cut;
use crate::model::{Piece, Side};
use crate::words::{say, words};

use super::{Ground, in_size, mm, of_size, with_element};

/// Samples on each curve.
const STEPS: u32 = 64;
/// A bend that turns less than this in all, in radians, is a rounded corner too small to lose fabric: 10°.
const TURN: f64 = 0.174_532_925;

/// A curve that its allowance cannot follow.
pub const RULE: Rule = Rule {
    code: "tight-curve",
    family: "piece",
    severity: Severity::Should,
    summary: "a curve is tighter than its allowance",
    explanation: "The cut line follows the sew line at the allowance. Where the sew line bends inward with a smaller \
                  radius, the cut line runs into itself and becomes a corner: the fabric there is less than the \
                  allowance long, and does not open when it is clipped. The same happens to the sew line inside a drawn \
                  cut line that bends outward too tightly.",
    failing: "[piece.CUFF]\noutline = { shape = \"rounded rectangle\", width = \"80 mm\", height = \"60 mm\", radius = \"4 \
              mm\", is = \"cut line\" }\nallowance = \"6 mm\"",
    passing: "[piece.CUFF]\noutline = { shape = \"rounded rectangle\", width = \"80 mm\", height = \"60 mm\", radius = \"9 \
              mm\", is = \"cut line\" }\nallowance = \"6 mm\"",
    source: "plane geometry",
};

words! {
    MESSAGE "tight-curve.message" = "{id}{size}: {edge} bends with a radius of {radius} and has an allowance of {width}";
    HERE "tight-curve.here" = "a curve tighter than its allowance";
    ALLOWANCE "tight-curve.allowance" = "the allowance";
    HELP "tight-curve.help" = "draw the curve with a radius of at least {radius}, or write a narrower allowance for \"{edge}\"";
}

/// Reports the tightest curve of each piece, in the first size that has one.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for (id, piece) in &ground.model.pieces {
        let found = super::sizes(ground.model).find_map(|size| {
            let outline = ground.assembly.outlines.get(id, size).ok()?;
            let widths = ground.drawn.get(id, size)?.widths.known()?;
            tightest(outline, widths, bends(piece, size)).map(|tight| (size, tight))
        });
        let Some((size, tight)) = found else { continue };
        let message = say!(
            MESSAGE,
            id,
            size = in_size(ground.model, size),
            edge = tight.edge(),
            radius = mm(tight.radius),
            width = mm(tight.width)
        );
        let place = piece.outline.as_ref().map_or(piece.entry.span(), |outline| outline.span);
        let mut finding = Finding::new(&RULE, message).at(place, HERE);
        if let Some(span) = sewn_cut(piece).and_then(|cut| cut.allowance.span) {
            finding = finding.at(span, ALLOWANCE);
        }
        let finding = with_element(ground, id, size, finding);
        findings.push(finding.help(say!(HELP, radius = mm(tight.width), edge = tight.edge())));
    }
}

/// Which way a bend must go to be too tight: −1 inward for a sew line, 1 outward for a cut line.
fn bends(piece: &Piece, size: &str) -> f64 {
    let stated = piece.outline.as_ref().and_then(|value| value.known(of_size(size)));
    if stated.is_some_and(|source| source.side == Side::CutLine) { 1.0 } else { -1.0 }
}

struct Tight {
    run: (String, String),
    radius: f64,
    width: f64,
}

impl Tight {
    /// The edge by its points: `a-b`.
    fn edge(&self) -> String {
        format!("{}-{}", self.run.0, self.run.1)
    }
}

fn tightest(outline: &Outline, widths: &[f64], way: f64) -> Option<Tight> {
    let runs = outline.runs();
    let each = runs.iter().zip(widths).filter_map(|(run, width)| {
        bend(run, *width, way).map(|radius| Tight { run: run.ends(), radius, width: *width })
    });
    each.min_by(|a, b| (a.radius / a.width).total_cmp(&(b.radius / b.width)))
}

/// The smallest radius of a run that is below a width, if it turns far enough there.
fn bend(run: &Run, width: f64, way: f64) -> Option<f64> {
    let (mut least, mut turned) = (f64::INFINITY, 0.0);
    for (start, segment) in run.path().pieces() {
        for step in 0..STEPS {
            let t = (f64::from(step) + 0.5) / f64::from(STEPS);
            let curvature = segment.curvature_at(start, t) * way;
            if curvature * (width - 0.01) > 1.0 {
                least = least.min(1.0 / curvature);
                turned += curvature * segment.derivative_at(start, t).norm() / f64::from(STEPS);
            }
        }
    }
    (turned >= TURN).then_some(least)
}

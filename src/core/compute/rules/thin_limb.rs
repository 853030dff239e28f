//! Rule: a limb is too narrow to be turned right side out.

use crate::compute::number::property;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::geom::offset::inset;
use crate::geom::{Corner, Outline, Path, Point, flatten};
use crate::model::assembly::{Run, sewn_cut};
use crate::model::{Deed, Form, Piece, Variant};
use crate::words::{say, words};

use super::{Ground, in_size, mm, sewn};

/// Heights of the pile that a turned limb needs across its sew line.
const PILES: f64 = 3.0;
/// A limb ends further from the middle of the last circle that fits than this many of its radii; less is a corner.
const LIMB: f64 = 4.0;
/// The sew line is followed this closely, mm.
const CLOSE: f64 = 0.05;
/// Steps along the sew line, mm.
const STEP: f64 = 2.0;

/// A limb too narrow to be turned.
pub const RULE: Rule = Rule {
    code: "thin-limb",
    family: "piece",
    severity: Severity::Should,
    summary: "a limb is too narrow to be turned right side out",
    explanation: "A limb is turned through itself, pile inward. A narrow piece that is sewn to a wider one, as a gusset or a band, is wrapped round it and is not judged. As a rule of thumb it must be cut at least three heights \
                  of the pile and both allowances wide; a narrower one takes minutes, or tears. Judged is what of the \
                  flat piece no circle of three piles fits into, drawn at the sew line, where that reaches further than \
                  a corner does: at least one and a half widths. No laboratory stands behind this: a sample decides.",
    failing: "[fabric.fur]\npile = \"12 mm\"\n[piece.TAIL]\nmaterial = \"fur\"\nallowance = \"5 mm\"\noutline = { shape = \
              \"rectangle\", width = \"24 mm\", height = \"140 mm\" }",
    passing: "[fabric.fur]\npile = \"12 mm\"\n[piece.TAIL]\nmaterial = \"fur\"\nallowance = \"5 mm\"\noutline = { shape = \
              \"rectangle\", width = \"40 mm\", height = \"140 mm\" }",
    source: "rule of thumb: 3 × pile + 2 × allowance, cut width",
};

words! {
    MESSAGE "thin-limb.message" = "{id} {cut_id}{size}: near {place} a limb is cut less than {wanted} wide, three times the pile of {pile} and two allowances of {allowance}";
    HERE "thin-limb.here" = "hard to turn";
    HELP "thin-limb.help" = "make it wider, take a shorter pile there, or sew it open and close it by hand";
}

/// Reports each piece once, in the first product in which a limb is too thin.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for (id, piece) in &ground.model.pieces {
        if !is_turned(ground, piece) {
            continue;
        }
        let Some(cut) = sewn_cut(piece) else { continue };
        let cut_id = cut.entry.id.value.as_str();
        let found = sewn(ground, id).find_map(|(size, lines, sew)| {
            let pile = pile(ground, cut.material.as_ref().map(|one| one.value.as_str()), size)?;
            let place = thin(sew, pile * PILES / 2.0)?;
            let allowance = lines.widths.known()?.iter().copied().fold(0.0, f64::max);
            Some((size, pile, allowance, place))
        });
        let Some((size, pile, allowance, place)) =
            found.filter(|(size, pile, ..)| !is_wrapped(ground, id, size, *pile))
        else {
            continue;
        };
        let wanted = pile * PILES + 2.0 * allowance;
        let message = say!(
            MESSAGE,
            id,
            cut_id,
            size = in_size(ground.model, size),
            place,
            wanted = mm(wanted),
            pile = mm(pile),
            allowance = mm(allowance)
        );
        let finding = Finding::new(&RULE, message).at(piece.entry.span(), HERE);
        findings.push(finding.help(HELP));
    }
}

/// Whether the part of a piece is turned: a step says so, or it is filled.
fn is_turned(ground: &Ground<'_>, piece: &Piece) -> bool {
    let Some(part) = piece.part.as_ref().map(|part| part.value.as_str()) else { return false };
    let model = ground.model;
    let turned = model
        .steps
        .values()
        .any(|step| step.deed == Deed::Turn && step.part.as_ref().is_some_and(|one| one.value == part));
    let filled = model.stuffings.values().any(|stuffing| stuffing.part.as_ref().is_some_and(|one| one.value == part));
    let formed = model.parts.get(part).and_then(|part| part.form.as_ref()).map(|form| form.value);
    turned || filled || matches!(formed, Some(Form::Stuffed | Form::Ring))
}

/// Whether a narrow piece is wrapped round something wider: a gusset, a band, a strip. It is sewn to a piece which is not
/// narrow itself, so that what is turned is as wide as that piece.
fn is_wrapped(ground: &Ground<'_>, id: &str, size: &str, pile: f64) -> bool {
    let assembly = ground.assembly;
    let piece = |run: &Run| assembly.instances.get(run.instance).map(|one| one.piece.as_str());
    let across = assembly.joints.iter().flat_map(|joint| {
        let (a, b) = (&joint.a.runs, &joint.b.runs);
        let on = |runs: &[Run]| runs.iter().any(|run| piece(run) == Some(id));
        let other = match (on(a), on(b)) {
            (true, false) => b.as_slice(),
            (false, true) => a.as_slice(),
            _ => &[],
        };
        other.iter().filter_map(piece).collect::<Vec<&str>>()
    });
    let wide = |other: &str| {
        let lines = ground.drawn.get(other, size).and_then(|lines| lines.sew.known());
        lines.is_some_and(|sew| thin(sew, pile * PILES / 2.0).is_none())
    };
    across.into_iter().any(wide)
}

/// The highest pile the material has in a size, mm.
fn pile(ground: &Ground<'_>, material: Option<&str>, size: &str) -> Option<f64> {
    let each = ground.model.colourways.keys().filter_map(|colourway| {
        let (fabric, _) = ground.model.resolve(material?, colourway)?;
        let pile = property(fabric, "pile", Variant { size, colourway });
        pile.known().map(|pile| pile.si_f64() * 1000.0)
    });
    each.filter(|pile| *pile > 0.0).max_by(f64::total_cmp)
}

/// The point nearest to the end of a limb into which no circle of that radius fits; none if there is no such limb.
fn thin(sew: &Outline, radius: f64) -> Option<String> {
    // Followed closely enough for a rule of thumb: fewer pieces are quicker to offset.
    let corners = flatten(&sew.path, CLOSE);
    let ring = Path::polyline(corners.iter().chain(corners.first()).copied());
    let bare = Outline { path: ring, points: Vec::new(), lines: Vec::new(), ..sew.clone() };
    let wide = inset(&bare, &[radius], Corner::Mitre { limit: 3.0 }).ok();
    let wide: Vec<Vec<Point>> =
        wide.map(|line| line.contours.iter().map(|one| one.to_points()).collect()).unwrap_or_default();
    if wide.is_empty() {
        return sew.points.first().map(|point| point.id.clone());
    }
    let apart = |point: Point| {
        let edges = wide.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
        edges.map(|(a, b)| point.distance_to_edge(*a, *b)).fold(f64::INFINITY, f64::min)
    };
    let (end, far) =
        samples(&corners).into_iter().map(|point| (point, apart(point))).max_by(|a, b| a.1.total_cmp(&b.1))?;
    if far <= LIMB * radius {
        return None;
    }
    let near = |id: &str| sew.point(id).map_or(f64::INFINITY, |point| point.distance(end));
    sew.points.iter().map(|point| point.id.clone()).min_by(|a, b| near(a).total_cmp(&near(b)))
}

/// Places along the sew line, corners among them.
fn samples(corners: &[Point]) -> Vec<Point> {
    let mut all = Vec::new();
    for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        let steps = libm::ceil(a.distance(*b) / STEP).clamp(1.0, 1_000.0) as u32;
        all.extend((0..steps).map(|n| a.lerp(*b, f64::from(n) / f64::from(steps))));
    }
    all
}

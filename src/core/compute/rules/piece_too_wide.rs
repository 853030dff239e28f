use std::collections::BTreeSet;

use crate::compute::Figure;
use crate::compute::drawn::Shape;
use crate::compute::ground::property;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::geom::{Point, flatten};
use crate::model::{Piece, Variant};

use super::{Ground, in_size, mm};

/// A piece that does not fit on its cloth.
pub const RULE: Rule = Rule {
    code: "piece-too-wide",
    family: "piece",
    severity: Severity::Must,
    summary: "a piece is wider than the usable width of its cloth",
    explanation: "A piece lies on the cloth with its grain or pile along the roll, so that its width square to that must \
                  fit within the usable width. Without a grain or pile it may be turned, and is too wide only if it fits \
                  in no direction.",
    failing: "[cloth.felt]\nusable-width = \"900 mm\"\n[piece.MAT]\noutline = { shape = \"circle\", diameter = \"1 m\" }\n\
              material = \"felt\"",
    passing: "[cloth.felt]\nusable-width = \"900 mm\"\n[piece.MAT]\noutline = { shape = \"rectangle\", width = \"1 m\", height \
              = \"80 cm\" }\nmaterial = \"felt\"",
    source: "plane geometry",
};

/// Reports each cut once for each cloth it is too wide for.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for (id, piece) in &ground.model.pieces {
        let mut told = BTreeSet::new();
        for variant in ground.model.variants() {
            for (cut_id, cut) in &piece.cuts {
                let Some(material) = cut.material.as_ref() else { continue };
                let Some((cloth, _)) = ground.model.resolve(&material.value, variant.colourway) else { continue };
                let usable =
                    property(cloth, "usable-width", variant).then(|width| Figure::number(width.si_f64() * 1000.0));
                let needed = needed(ground, piece, cut_id, variant);
                let Some((usable, needed)) =
                    usable.get().zip(needed).filter(|(usable, needed)| *needed > usable + 0.001)
                else {
                    continue;
                };
                let article = cloth.entry.id.value.as_str();
                if !told.insert((cut_id.as_str(), article)) {
                    continue;
                }
                let directed = is_directed(ground, piece);
                let message = format!(
                    "{id} {cut_id}{}: {} wide {}, and {article} has a usable width of {}",
                    in_size(ground.model, variant.size),
                    mm(needed),
                    if directed { "square to its grain" } else { "at its narrowest" },
                    mm(usable)
                );
                let mut finding = Finding::new(&RULE, message).at(piece.entry.span(), "does not fit on the cloth");
                if let Some(width) = cloth.quantity("usable-width") {
                    finding = finding.at(width.span, "the usable width");
                }
                findings.push(finding.help("divide the piece, turn its grain, or take a wider cloth"));
            }
        }
    }
}

/// Whether the piece says how it lies on the cloth: in the specification or in its drawing.
fn is_directed(ground: &Ground<'_>, piece: &Piece) -> bool {
    let outline = ground.assembly.outlines.any(&piece.entry.id.value);
    outline.map_or(piece.grain.is_some() || piece.pile.is_some(), |outline| piece.along(outline).is_some())
}

/// The least width of a cut or of its block in the directions that are allowed, mm.
fn needed(ground: &Ground<'_>, piece: &Piece, cut_id: &str, variant: Variant<'_>) -> Option<f64> {
    let directed = is_directed(ground, piece);
    if let Some((width, height)) = piece.cuts.get(cut_id).and_then(|cut| cut.block.as_ref()) {
        let side = |value: &crate::model::Value<crate::units::Quantity>| Some(value.known(variant)?.si_f64() * 1000.0);
        let (width, height) = (side(width)?, side(height)?);
        return Some(if directed { width } else { width.min(height) });
    }
    let id = &piece.entry.id.value;
    let lines = ground.drawn.get(id, variant.size)?;
    let shape = lines.cuts.get(cut_id)?.known()?;
    Some(if directed { shape.extent(lines.along).0 } else { narrowest(shape) })
}

/// The least width of a shape over all directions: it is taken square to an edge of its convex hull.
fn narrowest(shape: &Shape) -> f64 {
    let points: Vec<Point> = shape.paths.iter().flat_map(|path| flatten(path, 0.05)).collect();
    let hull = hull(points);
    let edges = hull.iter().zip(hull.iter().cycle().skip(1));
    let width = |(a, b): (&Point, &Point)| {
        let normal = (*b - *a).unit()?.left();
        hull.iter().map(|point| (*point - *a).dot(normal)).max_by(f64::total_cmp)
    };
    edges.filter_map(width).fold(f64::INFINITY, f64::min)
}

/// The corners of the convex hull, anticlockwise.
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let half = |points: &mut dyn Iterator<Item = &Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for point in points {
            while let [.., a, b] = chain.as_slice()
                && (*b - *a).cross(*point - *b) <= 0.0
            {
                chain.pop();
            }
            chain.push(*point);
        }
        chain.pop();
        chain
    };
    let mut hull = half(&mut points.iter());
    hull.extend(half(&mut points.iter().rev()));
    hull
}

//! Reads what is to be laid from JSON: a roll, and pieces with their outlines.

use serde::Deserialize;

use super::instance::{Bad, Fabric, Instance, MOST, Piece, Turn};
use crate::geom::grid::{LIMIT, Polygon, STEPS};
use crate::geom::point::Point;

/// Largest file, in bytes.
pub const LARGEST: usize = 16 << 20;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct File {
    name: String,
    cuttable_width: f64,
    #[serde(default)]
    edge: f64,
    #[serde(default)]
    end: f64,
    #[serde(default)]
    gap: f64,
    pieces: Vec<Wanted>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Wanted {
    id: serde_json::Value,
    quantity: u64,
    may_lie: Vec<f64>,
    #[serde(default)]
    tilt: f64,
    #[serde(default)]
    mirror: bool,
    #[serde(default)]
    fold: bool,
    outline: Vec<[f64; 2]>,
}

/// Reads an instance: millimetres and degrees, the `cuttable-width` of the roll, and `pieces`, each with its `quantity`, the
/// turns in which it `may-lie`, and its `outline`, whose last corner repeats the first.
///
/// It may hold `edge` and `end` (margins kept free), `gap` (least distance of pieces), and for a piece `tilt` (degrees to
/// either side of each allowed turn), `mirror` (may lie with the other face up) and `fold` (its lower edge lies on the fold
/// of the fabric).
///
/// # Errors
/// In one line what is wrong, and with which piece.
pub fn read(text: &str) -> Result<Instance, Bad> {
    if text.len() > LARGEST {
        return Err(Bad(format!("the file is larger than {} MB", LARGEST >> 20)));
    }
    let file: File = serde_json::from_str(text).map_err(|error| Bad(error.to_string()))?;
    let fabric = Fabric {
        width: steps(file.cuttable_width, "cuttable-width")?,
        edge: steps(file.edge, "edge")?,
        end: steps(file.end, "end")?,
        gap: steps(file.gap, "gap")?,
    };
    let wanted = file.pieces.iter().try_fold(0_u64, |sum, piece| sum.checked_add(piece.quantity));
    if wanted.is_none_or(|wanted| wanted > MOST as u64) {
        return Err(Bad(format!("more than {MOST} pieces are wanted in one lay")));
    }
    let pieces = file.pieces.into_iter().map(piece).collect::<Result<_, _>>()?;
    let instance = Instance { name: file.name, fabric, pieces };
    instance.check()?;
    Ok(instance)
}

fn steps(mm: f64, name: &str) -> Result<i64, Bad> {
    let value = (mm * STEPS).round();
    if !value.is_finite() || value.abs() > LIMIT as f64 {
        return Err(Bad(format!("{name} is no usable length in mm")));
    }
    Ok(value as i64)
}

fn piece(item: Wanted) -> Result<Piece, Bad> {
    let id = match &item.id {
        serde_json::Value::String(text) => text.clone(),
        other => other.to_string(),
    };
    let bad = |what: &str| Bad(format!("piece {id}: {what}"));
    let points: Vec<Point> = item.outline.iter().map(|[x, y]| Point::new(*x, *y)).collect();
    let far = |p: &Point| !p.is_finite() || p.x.abs().max(p.y.abs()) * STEPS > LIMIT as f64;
    if points.iter().any(far) {
        return Err(bad("a corner is no usable place in mm"));
    }
    if points.len() < 4 || points.first() != points.last() {
        return Err(bad("its outline is open: the last corner must repeat the first"));
    }
    if !item.tilt.is_finite() || !(0.0..=45.0).contains(&item.tilt) {
        return Err(bad("a tilt lies between 0 and 45 degrees"));
    }
    let outline = Polygon::from_points(&points);
    let outline = if outline.area2() < 0 { outline.reversed() } else { outline };
    let turns = turns(&item);
    Ok(Piece { id, outline, demand: item.quantity as usize, turns, fold: item.fold })
}

fn turns(item: &Wanted) -> Vec<Turn> {
    let tilts = if item.tilt > 0.0 { vec![0.0, -item.tilt, item.tilt] } else { vec![0.0] };
    let faces: &[bool] = if item.mirror { &[false, true] } else { &[false] };
    let mut out: Vec<Turn> = Vec::new();
    for mirrored in faces {
        for base in &item.may_lie {
            let tilted = tilts.iter().map(|tilt| Turn { degrees: base + tilt, mirrored: *mirrored });
            out.extend(tilted);
        }
    }
    out
}

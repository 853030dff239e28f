//! Figures of pieces: sew line, cut lines, edges and areas.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::geom::{Outline, length};
use crate::model::{Cut, Variant};
use crate::words::{Word, say};

use super::contour::Shape;
use super::edges::{self, CornerFigures, EdgeFigures};
use super::input::Ground;
use super::lines::Lines;
use super::number::number;
use super::reason::{BLOCK_HEIGHT_OF, BLOCK_WIDTH_OF};
use super::{Figure, Number};

/// One piece in one size.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct PieceSize {
    /// Measured on the line that is sewn.
    pub sew: Figure<SewFigures>,
    /// What the cut line does at each named point; none where the outline is not known.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub corners: Vec<CornerFigures>,
    /// Layers by cut.
    pub cuts: BTreeMap<String, CutFigures>,
}

/// Figures of a sew line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SewFigures {
    /// Area within the sew line, mm².
    pub area: Number,
    /// Length of the sew line, mm.
    pub perimeter: Number,
    /// Its edges, anticlockwise.
    pub edges: Vec<EdgeLength>,
}

/// One edge of a sew line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct EdgeLength {
    /// The named point it starts from.
    pub from: String,
    /// The named point it ends at.
    pub to: String,
    /// Its length, mm.
    pub length: Number,
}

/// Figures of one layer.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CutFigures {
    /// Figures of the cut line.
    pub line: Figure<CutLineFigures>,
    /// The allowance of each run of the outline, anticlockwise; none where the outline is not known, or of a layer that
    /// is cut inside the sew line.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub edges: Vec<EdgeFigures>,
    /// Width of the block it is cut from first, mm; absent where it is cut to shape at once.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub block_width: Option<Figure<Number>>,
    /// Height of that block, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub block_height: Option<Figure<Number>>,
    /// Area of material it takes, mm²: that of the block, or within the cut line.
    pub material_area: Figure<Number>,
}

/// Figures of a cut line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CutLineFigures {
    /// Area within the cut line, mm².
    pub area: Number,
    /// Length of the cut, mm: the path of a knife or laser.
    pub perimeter: Number,
    /// Width square to the grain, mm; square to the pile or across the page where no grain is stated.
    pub width: Number,
    /// Height along the grain, mm.
    pub height: Number,
}

/// Pieces by id, then by size.
pub(super) fn pieces(ground: &Ground<'_>) -> BTreeMap<String, BTreeMap<String, PieceSize>> {
    let mut all = BTreeMap::new();
    for (id, piece) in &ground.model.pieces {
        let size = |size| {
            let lines = ground.drawn.get(id, size);
            let sew = ground.drawn.sew(id, size).map(sew);
            let edges = ground.assembly.edges.get(id, size);
            let each = |(cut_id, cut): (&String, &Cut)| {
                let shape = ground.drawn.cut(id, size, cut_id);
                let edges = edges::edges(edges, id, cut_id, cut);
                (cut_id.clone(), CutFigures { edges, ..cut_figures(lines, shape, cut, size, id) })
            };
            PieceSize { sew, corners: edges::corners(edges), cuts: piece.cuts.iter().map(each).collect() }
        };
        all.insert(id.clone(), ground.by_size(size));
    }
    all
}

fn sew(outline: &Outline) -> SewFigures {
    let edges = outline.runs().into_iter().map(|run| {
        let length = Number::new(length(&run.path()));
        EdgeLength { from: run.from, to: run.to, length }
    });
    SewFigures {
        area: Number::new(outline.area()),
        perimeter: Number::new(outline.perimeter()),
        edges: edges.collect(),
    }
}

fn cut_figures(lines: Option<&Lines>, shape: Figure<&Shape>, cut: &Cut, size: &str, piece: &str) -> CutFigures {
    let line = shape.map(|shape| {
        let (width, height) = lines.map_or((0.0, 0.0), |lines| shape.extent(lines.along));
        CutLineFigures {
            area: Number::new(shape.area),
            perimeter: Number::new(shape.perimeter),
            width: Number::new(width),
            height: Number::new(height),
        }
    });
    let variant = Variant { size, colourway: "" };
    let block = cut.block.as_ref().map(|(width, height)| {
        let side = |value, what: Word| number(Figure::of(Some(value), variant, say!(what, piece)));
        (side(width, BLOCK_WIDTH_OF), side(height, BLOCK_HEIGHT_OF))
    });
    let material_area = match &block {
        Some((width, height)) => width.clone().by(height.clone()),
        None => line.as_ref().map(|line| line.area),
    };
    let (block_width, block_height) = block.unzip();
    CutFigures { line, edges: Vec::new(), block_width, block_height, material_area }
}

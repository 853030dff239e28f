//! How deep two pieces overlap, looked up: the distance a piece would have to go to be free of another, for every place
//! beside it.
//!
//! The forbidden places of a pair ([`super::reach`]) are cut into cells. A cell outside costs one look, a cell deep inside
//! is read off between its corners, and a cell on the border holds the few edges that can be nearest. Within
//! [`DOUBT`] of the border the outlines themselves are asked, exactly, unless those edges are free of rounding.

use super::form::{Form, Spot};
use super::overlap;
use super::reach;
use crate::geom::grid::GridPoint;

/// Rounding of the region's corners can move its border by less than this, in µm.
const DOUBT: f64 = 2.0;
/// Cells in a region, about.
const CELLS: f64 = 900.0;
/// Cells along its shorter side, at least, and along the longer, at most: all their lists can be numbered in 16 bits.
const FEWEST: f64 = 6.0;
const MOST: f64 = 5_000.0;
/// Diagonal of a square, rounded up, and into how many parts each way a cell on the border is cut.
const DIAGONAL: f64 = 1.415;
const PARTS: usize = 4;

/// Depth of overlap by place.
#[derive(Debug)]
pub struct Field {
    low: Spot,
    inverse: f64,
    columns: usize,
    rows: usize,
    /// [`OUTSIDE`], [`INSIDE`], or [`BORDER`] and more: the number of the list of edges.
    cells: Vec<u16>,
    /// Depths at the corners of cells inside, in µm.
    nodes: Vec<f32>,
    edges: Vec<Edge>,
    /// Numbers of the edges that can be nearest, list behind list, and where each list begins.
    near: Vec<u32>,
    starts: Vec<u32>,
    /// By list, whether its edges are free of rounding, so that the field itself knows inside from outside.
    sure: Vec<bool>,
}

const OUTSIDE: u16 = 0;
const INSIDE: u16 = 1;
const BORDER: u16 = 2;

/// The way to the nearest place on the border of a region, of length 1 and pointing outward, and how deep inside it is;
/// negative outside.
#[derive(Debug, Clone, Copy)]
pub struct Facing {
    /// Along the roll.
    pub x: f64,
    /// Across the roll.
    pub y: f64,
    /// Depth in µm.
    pub depth: f64,
}

/// An edge of the region: its start, its direction and one over its length squared.
#[derive(Debug, Clone, Copy)]
struct Edge {
    x: f64,
    y: f64,
    dx: f64,
    dy: f64,
    scale: f64,
}

impl Edge {
    /// Square of the distance, and how far to the left of the line, in lengths of the edge squared.
    fn distance(&self, x: f64, y: f64) -> (f64, f64) {
        let (px, py) = (x - self.x, y - self.y);
        let t = ((px * self.dx + py * self.dy) * self.scale).clamp(0.0, 1.0);
        let (ex, ey) = (px - t * self.dx, py - t * self.dy);
        (ex * ex + ey * ey, self.dx * py - self.dy * px)
    }
}

impl Field {
    /// The field of a pair: places of `b` against `a`.
    pub fn new(a: &Form, b: &Form) -> Self {
        let reach = reach::reach(&a.polygon, &b.polygon);
        let edges: Vec<Edge> = reach.contours.iter().flat_map(|contour| edges(contour)).collect();
        let sure: Vec<bool> = reach.sure.concat();
        let low = Spot { x: a.low.x - b.high.x, y: a.low.y - b.high.y };
        let (width, height) = (a.high.x - b.low.x - low.x, a.high.y - b.low.y - low.y);
        let (short, long) = (width.min(height), width.max(height));
        let step = (width * height / CELLS).sqrt().min(short / FEWEST).max(long / MOST).max(1.0);
        // One more than needed, so that the far border lies in a cell.
        let (columns, rows) = ((width / step) as usize + 1, (height / step) as usize + 1);
        let inverse = 1.0 / step;
        let (cells, nodes, near, starts) = (Vec::new(), Vec::new(), Vec::new(), vec![0]);
        let mut field = Self { low, inverse, columns, rows, cells, nodes, edges, near, starts, sure: Vec::new() };
        field.fill(step);
        field.sure = field
            .starts
            .windows(2)
            .map(|ends| field.near[ends[0] as usize..ends[1] as usize].iter().all(|edge| sure[*edge as usize]))
            .collect();
        field
    }

    fn fill(&mut self, step: f64) {
        let border = self.border(step);
        let inside = self.inside(step);
        let across = self.columns + 1;
        self.nodes = vec![0.0; inside.len()];
        for row in 0..self.rows {
            for column in 0..self.columns {
                let corner = row * across + column;
                let cell = if border[row * self.columns + column] {
                    self.edge_cell([column, row], step)
                } else if inside[corner] {
                    for node in [corner, corner + 1, corner + across, corner + across + 1] {
                        self.node(node, step);
                    }
                    INSIDE
                } else {
                    OUTSIDE
                };
                self.cells.push(cell);
            }
        }
    }

    /// Works out the depth at a corner of cells once.
    fn node(&mut self, node: usize, step: f64) {
        if self.nodes[node] == 0.0 {
            let across = self.columns + 1;
            let (x, y) = self.place((node % across) as f64, (node / across) as f64, step);
            let square = self.edges.iter().map(|edge| edge.distance(x, y).0).fold(f64::INFINITY, f64::min);
            self.nodes[node] = (square.sqrt() as f32).max(f32::MIN_POSITIVE);
        }
    }

    fn place(&self, column: f64, row: f64, step: f64) -> (f64, f64) {
        (self.low.x + column * step, self.low.y + row * step)
    }

    /// A cell on the border, with every edge that can be the nearest to one of its points: first what can be
    /// told from its middle, then of these what can be told from the middles of its parts.
    fn edge_cell(&mut self, [column, row]: [usize; 2], step: f64) -> u16 {
        let all: Vec<u32> = (0..self.edges.len() as u32).collect();
        let (x, y) = self.place(column as f64 + 0.5, row as f64 + 0.5, step);
        let some = self.nearest_of(&all, x, y, step * DIAGONAL);
        let mut kept: Vec<u32> = Vec::new();
        for part in 0..PARTS * PARTS {
            let middle = |whole: usize, part: usize| whole as f64 + (part as f64 + 0.5) / PARTS as f64;
            let (x, y) = self.place(middle(column, part % PARTS), middle(row, part / PARTS), step);
            kept.extend(self.nearest_of(&some, x, y, step * DIAGONAL / PARTS as f64));
        }
        kept.sort_unstable();
        kept.dedup();
        self.near.extend(kept);
        self.starts.push(self.near.len() as u32);
        BORDER + (self.starts.len() - 2) as u16
    }

    /// The edges that can be nearest to a place within half a diagonal of here.
    fn nearest_of(&self, among: &[u32], x: f64, y: f64, diagonal: f64) -> Vec<u32> {
        let squares: Vec<f64> = among.iter().map(|edge| self.edges[*edge as usize].distance(x, y).0).collect();
        let limit = squares.iter().copied().fold(f64::INFINITY, f64::min).sqrt() + diagonal;
        among.iter().zip(&squares).filter(|(_, square)| **square <= limit * limit).map(|(edge, _)| *edge).collect()
    }

    /// Which cells an edge passes, or comes within doubt of.
    fn border(&self, step: f64) -> Vec<bool> {
        let mut out = vec![false; self.columns * self.rows];
        let index = |value: f64, count: usize| ((value * self.inverse).max(0.0) as usize).min(count - 1);
        for edge in &self.edges {
            let (y0, y1) = (edge.y.min(edge.y + edge.dy), edge.y.max(edge.y + edge.dy));
            let first = index(y0 - self.low.y - DOUBT, self.rows);
            for row in first..=index(y1 - self.low.y + DOUBT, self.rows) {
                let bottom = self.low.y + row as f64 * step - DOUBT;
                let (left, right) = span(edge, bottom, bottom + step + 2.0 * DOUBT);
                let last = index(right - self.low.x + DOUBT, self.columns);
                for column in index(left - self.low.x - DOUBT, self.columns)..=last {
                    out[row * self.columns + column] = true;
                }
            }
        }
        out
    }

    /// Which corners of cells lie inside, row by row; those on the border are never asked.
    fn inside(&self, step: f64) -> Vec<bool> {
        let mut out = Vec::with_capacity((self.columns + 1) * (self.rows + 1));
        for row in 0..=self.rows {
            let y = self.low.y + row as f64 * step;
            let crosses = |edge: &&Edge| (edge.y <= y) != (edge.y + edge.dy <= y);
            let at = |edge: &Edge| edge.x + edge.dx * ((y - edge.y) / edge.dy);
            let mut cuts: Vec<f64> = self.edges.iter().filter(crosses).map(at).collect();
            cuts.sort_by(f64::total_cmp);
            let mut passed = 0;
            for column in 0..=self.columns {
                let x = self.low.x + column as f64 * step;
                while cuts.get(passed).is_some_and(|cut| *cut <= x) {
                    passed += 1;
                }
                out.push(passed % 2 == 1);
            }
        }
        out
    }

    /// How far `b` at (`x`, `y`) from `a` has to go to be free, in µm; 0 if it is free.
    pub fn depth(&self, a: &Form, b: &Form, x: f64, y: f64) -> f64 {
        let (u, v) = ((x - self.low.x) * self.inverse, (y - self.low.y) * self.inverse);
        if u < 0.0 || v < 0.0 {
            return 0.0;
        }
        let (column, row) = (u as usize, v as usize);
        if column >= self.columns || row >= self.rows {
            return 0.0;
        }
        match self.cells[row * self.columns + column] {
            OUTSIDE => 0.0,
            INSIDE => self.between(u, v, row * (self.columns + 1) + column, column, row),
            border => {
                let signed = self.exact(x, y, border);
                if signed.abs() > DOUBT || self.sure[(border - BORDER) as usize] {
                    signed.max(0.0)
                } else if overlap::meet(&a.spots, &b.spots, Spot { x, y }) {
                    signed.max(1.0)
                } else {
                    0.0
                }
            }
        }
    }

    /// Which way, and how far, the nearest place on the border is, if it is near: none far outside.
    pub fn facing(&self, x: f64, y: f64) -> Option<Facing> {
        let (u, v) = ((x - self.low.x) * self.inverse, (y - self.low.y) * self.inverse);
        if u < 0.0 || v < 0.0 {
            return None;
        }
        let (column, row) = (u as usize, v as usize);
        if column >= self.columns || row >= self.rows {
            return None;
        }
        match self.cells[row * self.columns + column] {
            OUTSIDE => None,
            INSIDE => self.slope(u, v, row * (self.columns + 1) + column, column, row),
            border => self.nearest(x, y, border),
        }
    }

    /// The edges that can be nearest in a cell on the border.
    fn listed(&self, border: u16) -> impl Iterator<Item = &Edge> {
        let list = (border - BORDER) as usize;
        let near = &self.near[self.starts[list] as usize..self.starts[list + 1] as usize];
        near.iter().map(|edge| &self.edges[*edge as usize])
    }

    /// The way down the depth inside a cell.
    fn slope(&self, u: f64, v: f64, node: usize, column: usize, row: usize) -> Option<Facing> {
        let (s, t) = (u - column as f64, v - row as f64);
        let above = node + self.columns + 1;
        let corner = |at: usize| f64::from(self.nodes[at]);
        let (p, q, r, w) = (corner(node), corner(node + 1), corner(above), corner(above + 1));
        let (gx, gy) = ((q - p) * (1.0 - t) + (w - r) * t, (r - p) * (1.0 - s) + (w - q) * s);
        let norm = (gx * gx + gy * gy).sqrt();
        let depth = (p * (1.0 - s) + q * s) * (1.0 - t) + (r * (1.0 - s) + w * s) * t;
        (norm > 0.0).then(|| Facing { x: -gx / norm, y: -gy / norm, depth })
    }

    fn nearest(&self, x: f64, y: f64, border: u16) -> Option<Facing> {
        let (mut best, mut clear, mut found) = (f64::INFINITY, 0.0, None);
        for edge in self.listed(border) {
            let (square, left) = edge.distance(x, y);
            let upright = left * left * edge.scale;
            if square < best * (1.0 - 1e-9) || (square <= best * (1.0 + 1e-9) && upright > clear) {
                (found, clear) = (Some((edge, left)), upright);
                best = best.min(square);
            }
        }
        let (edge, left) = found?;
        let depth = if left > 0.0 { best.sqrt() } else { -best.sqrt() };
        // Across the edge, or through its end if that is nearest.
        if best <= clear * (1.0 + 1e-9) {
            let length = edge.scale.sqrt();
            return Some(Facing { x: edge.dy * length, y: -edge.dx * length, depth });
        }
        let t = (((x - edge.x) * edge.dx + (y - edge.y) * edge.dy) * edge.scale).clamp(0.0, 1.0);
        let (px, py) = (edge.x + t * edge.dx - x, edge.y + t * edge.dy - y);
        Some(Facing { x: px / depth, y: py / depth, depth })
    }

    fn between(&self, u: f64, v: f64, node: usize, column: usize, row: usize) -> f64 {
        let (s, t) = (u - column as f64, v - row as f64);
        let above = node + self.columns + 1;
        let corner = |at: usize| f64::from(self.nodes[at]);
        let low = corner(node) * (1.0 - s) + corner(node + 1) * s;
        let high = corner(above) * (1.0 - s) + corner(above + 1) * s;
        low * (1.0 - t) + high * t
    }

    /// Distance to the border, positive inside.
    fn exact(&self, x: f64, y: f64, border: u16) -> f64 {
        let (mut best, mut sign, mut clear) = (f64::INFINITY, 0.0, 0.0);
        for edge in self.listed(border) {
            let (square, left) = edge.distance(x, y);
            let upright = left * left * edge.scale;
            // At a corner both edges are as near; the one faced more squarely knows the side.
            if square < best * (1.0 - 1e-9) || (square <= best * (1.0 + 1e-9) && upright > clear) {
                (sign, clear) = (left, upright);
                best = best.min(square);
            }
        }
        if sign > 0.0 { best.sqrt() } else { -best.sqrt() }
    }
}

fn edges(contour: &[GridPoint]) -> Vec<Edge> {
    let next = contour.iter().cycle().skip(1);
    let edge = |(p, q): (&GridPoint, &GridPoint)| {
        let (dx, dy) = ((q.x - p.x) as f64, (q.y - p.y) as f64);
        Edge { x: p.x as f64, y: p.y as f64, dx, dy, scale: 1.0 / (dx * dx + dy * dy).max(1.0) }
    };
    contour.iter().zip(next).map(edge).collect()
}

/// Where an edge runs between two heights: from left to right.
fn span(edge: &Edge, bottom: f64, top: f64) -> (f64, f64) {
    if edge.dy == 0.0 {
        return (edge.x.min(edge.x + edge.dx), edge.x.max(edge.x + edge.dx));
    }
    let at = |y: f64| edge.x + edge.dx * ((y - edge.y) / edge.dy).clamp(0.0, 1.0);
    let (p, q) = (at(bottom), at(top));
    (p.min(q), p.max(q))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::grid::Polygon;
    use crate::lay::instance::{Fabric, Instance, Piece, Turn};
    use crate::lay::random::Random;
    use crate::lay::table::Table;

    /// A crooked outline: corners at any distance round the middle.
    fn crooked(random: &mut Random, corners: usize) -> Polygon {
        let corner = |k: usize| {
            let radius = random.between(200.0, 1000.0);
            let (sin, cos) = libm::sincos(k as f64 / corners as f64 * 2.0 * std::f64::consts::PI);
            GridPoint::new((radius * cos) as i64, (radius * sin) as i64)
        };
        Polygon { points: (0..corners).map(corner).collect() }
    }

    /// At every place within a few micrometres of the border a field says free exactly where the outlines say so.
    #[test]
    fn a_field_and_the_outlines_agree_to_the_micrometre() {
        let mut random = Random::new(3, 0);
        let (mut sure, mut asked) = (0, 0);
        for corners in [5, 7, 9, 12] {
            let one = |outline: Polygon, id: &str| Piece {
                id: id.into(),
                outline,
                demand: 1,
                turns: vec![Turn::NONE],
                fold: false,
            };
            let pieces = vec![one(crooked(&mut random, corners), "a"), one(crooked(&mut random, corners), "b")];
            let table = Table::new(&Instance { name: String::new(), fabric: Fabric::wide(10_000), pieces });
            let [a, b] = [&table.forms[0], &table.forms[1]];
            let field = Field::new(a, b);
            sure += field.sure.iter().filter(|sure| **sure).count();
            for edge in &field.edges {
                for _ in 0..40 {
                    let along = random.unit();
                    let x = super::super::form::whole(edge.x + edge.dx * along + random.between(-4.0, 4.0));
                    let y = super::super::form::whole(edge.y + edge.dy * along + random.between(-4.0, 4.0));
                    let free = !overlap::meet(&a.spots, &b.spots, Spot { x, y });
                    assert_eq!(field.depth(a, b, x, y) == 0.0, free, "at {x}, {y}");
                    asked += 1;
                }
            }
        }
        assert!(sure > 100 && asked > 2000, "{sure} sure cells, {asked} places");
    }
}

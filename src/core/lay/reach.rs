//! Where one piece may not stand beside another: the sum of one outline and the other turned about its origin.
//!
//! If piece `a` stands at the origin, the places of `b` where the insides meet are exactly the inside of `a − b`. The
//! border of that region is part of the convolution of both outlines (Guibas, Ramshaw and Stolfi 1983): each edge of
//! one together with every corner of the other round which the edge's direction turns; round a hollow corner the edge
//! is run backwards. Those edges form closed tours, and what they wind round is the region.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::i_float::int::point::IntPoint;

use crate::geom::grid::{GridPoint, Polygon};

/// Where one outline may not stand beside another.
#[derive(Debug)]
pub struct Reach {
    /// Its border: anticlockwise outside and clockwise round holes. Corners that are no sums of corners are rounded to the
    /// grid.
    pub contours: Vec<Vec<GridPoint>>,
    /// For each edge of each contour, whether it is free of such rounding.
    pub sure: Vec<Vec<bool>>,
}

/// Places of `b` against an `a` at the origin where their insides meet. Both outlines are simple and anticlockwise.
pub fn reach(a: &Polygon, b: &Polygon) -> Reach {
    let minus: Vec<GridPoint> = b.points.iter().map(|p| GridPoint::new(-p.x, -p.y)).collect();
    let edges = edges(&a.points, &minus);
    let tours = tours(&edges, a.points.len() * minus.len());
    let mut overlay = Overlay::<i64>::new(tours.iter().map(Vec::len).sum());
    for tour in &tours {
        let points: Vec<IntPoint<i64>> = tour.iter().map(|node| corner(*node, &a.points, &minus)).collect();
        overlay.add_contour(&points, ShapeType::Subject);
    }
    let shapes = overlay.overlay(OverlayRule::Subject, FillRule::NonZero);
    let grid = |contour: Vec<IntPoint<i64>>| contour.iter().map(|p| GridPoint::new(p.x, p.y)).collect();
    let contours: Vec<Vec<GridPoint>> = shapes.into_iter().flatten().map(grid).collect();
    let ends = edges.iter().map(|(from, to)| [*from, *to].map(|node| corner(node, &a.points, &minus)));
    let sure = sure(&contours, &ends.collect::<Vec<_>>());
    Reach { contours, sure }
}

/// The contours alone.
pub fn forbidden(a: &Polygon, b: &Polygon) -> Vec<Vec<GridPoint>> {
    reach(a, b).contours
}

/// Which edges of the contours run from the start of one edge of the convolution to the end of one on the same line.
fn sure(contours: &[Vec<GridPoint>], edges: &[[IntPoint<i64>; 2]]) -> Vec<Vec<bool>> {
    let line = |p: (i64, i64), q: (i64, i64)| {
        let (dx, dy) = (q.0 - p.0, q.1 - p.1);
        let part = common(dx.unsigned_abs(), dy.unsigned_abs()).max(1) as i64;
        (dx / part, dy / part)
    };
    let listed = |which: usize| {
        let mut list: Vec<_> =
            edges.iter().map(|[p, q]| ([(p.x, p.y), (q.x, q.y)][which], line((p.x, p.y), (q.x, q.y)))).collect();
        list.sort_unstable();
        list
    };
    let (starts, ends) = (listed(0), listed(1));
    let known = |(p, q): (&GridPoint, &GridPoint)| {
        let (p, q) = ((p.x, p.y), (q.x, q.y));
        let way = line(p, q);
        starts.binary_search(&(p, way)).is_ok() && ends.binary_search(&(q, way)).is_ok()
    };
    contours.iter().map(|points| points.iter().zip(points.iter().cycle().skip(1)).map(known).collect()).collect()
}

/// Greatest common divisor.
fn common(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { common(b, a % b) }
}

fn corner(node: usize, a: &[GridPoint], b: &[GridPoint]) -> IntPoint<i64> {
    let (p, q) = (a[node / b.len()], b[node % b.len()]);
    IntPoint::new(p.x + q.x, p.y + q.y)
}

/// Edges of the convolution from node to node; node `i·m + j` is corner i of `a` with corner j of `b`.
fn edges(a: &[GridPoint], b: &[GridPoint]) -> Vec<(usize, usize)> {
    let (n, m) = (a.len(), b.len());
    let (ways_a, ways_b) = (ways(a), ways(b));
    let mut out = Vec::new();
    for i in 0..n {
        for j in 0..m {
            let (from, to) = (i * m + j, (i + 1) % n * m + j);
            match swing(ways_b[(j + m - 1) % m], ways_b[j], ways_a[i], true) {
                1 => out.push((from, to)),
                -1 => out.push((to, from)),
                _ => {}
            }
            let to = i * m + (j + 1) % m;
            match swing(ways_a[(i + n - 1) % n], ways_a[i], ways_b[j], false) {
                1 => out.push((from, to)),
                -1 => out.push((to, from)),
                _ => {}
            }
        }
    }
    out
}

/// The direction of each edge.
fn ways(points: &[GridPoint]) -> Vec<(i64, i64)> {
    let next = points.iter().cycle().skip(1);
    points.iter().zip(next).map(|(p, q)| (q.x - p.x, q.y - p.y)).collect()
}

fn cross(u: (i64, i64), v: (i64, i64)) -> i128 {
    i128::from(u.0) * i128::from(v.1) - i128::from(u.1) * i128::from(v.0)
}

fn parallel(u: (i64, i64), v: (i64, i64)) -> bool {
    cross(u, v) == 0 && i128::from(u.0) * i128::from(v.0) + i128::from(u.1) * i128::from(v.1) > 0
}

/// Whether a corner between the directions `into` and `out` turns through `way`: 1 to the left, −1 to the right, 0 not.
/// Of two equal directions that of `b` counts as the earlier; `first` says that the corner is one of `b`.
fn swing(into: (i64, i64), out: (i64, i64), way: (i64, i64), first: bool) -> i8 {
    let turn = cross(into, out);
    if turn == 0 {
        // A corner on a straight edge turns through nothing.
        return 0;
    }
    let left = turn > 0;
    let (low, high) = if left { (into, out) } else { (out, into) };
    let inside = cross(low, way) > 0 && cross(way, high) > 0;
    // A corner of `b` holds its lower end, one of `a` its upper.
    let end = if first { low } else { high };
    if inside || parallel(end, way) { if left { 1 } else { -1 } } else { 0 }
}

/// Closed walks that use every edge once; as many edges leave each node as come in.
fn tours(edges: &[(usize, usize)], nodes: usize) -> Vec<Vec<usize>> {
    let mut starts = vec![0_usize; nodes + 1];
    for (from, _) in edges {
        starts[from + 1] += 1;
    }
    for node in 0..nodes {
        starts[node + 1] += starts[node];
    }
    let mut next: Vec<usize> = starts.clone();
    let mut targets = vec![0_usize; edges.len()];
    for (from, to) in edges {
        targets[next[*from]] = *to;
        next[*from] += 1;
    }
    let mut left: Vec<usize> = starts.clone();
    let mut out = Vec::new();
    for start in 0..nodes {
        while left[start] < starts[start + 1] {
            let mut walk = vec![start];
            let mut node = start;
            // Leads back to `start`, since the edges are balanced at every node.
            while left[node] < starts[node + 1] {
                let edge = left[node];
                left[node] += 1;
                node = targets[edge];
                if node == start {
                    break;
                }
                walk.push(node);
            }
            out.push(walk);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn polygon(points: &[(i64, i64)]) -> Polygon {
        Polygon { points: points.iter().map(|(x, y)| GridPoint::new(*x, *y)).collect() }
    }

    fn area(contours: &[Vec<GridPoint>]) -> f64 {
        contours.iter().map(|points| Polygon { points: points.clone() }.area2() as f64 / 2.0).sum()
    }

    #[test]
    fn two_rectangles_forbid_the_rectangle_of_both_sizes() {
        let (a, b) = (polygon(&[(0, 0), (40, 0), (40, 20), (0, 20)]), polygon(&[(0, 0), (10, 0), (10, 5), (0, 5)]));
        let [contour] = forbidden(&a, &b).try_into().unwrap();
        assert_eq!(
            Polygon { points: contour.clone() }.bbox().unwrap(),
            (GridPoint::new(-10, -5), GridPoint::new(40, 20))
        );
        assert_eq!(area(&[contour]), 50.0 * 25.0);
    }

    /// The area of the sum of two convex regions is A + B + 2·V(A, B); for a square and itself turned it is (2s)².
    #[test]
    fn triangles_sum_to_a_hexagon() {
        let a = polygon(&[(0, 0), (60, 0), (0, 60)]);
        let [contour] = forbidden(&a, &a).try_into().unwrap();
        assert_eq!(contour.len(), 6);
        // A triangle and its mirror image in a point: six times its area (Rogers and Shephard, equality for simplices).
        assert_eq!(area(&[contour]), 6.0 * 1800.0);
    }

    /// A corner in the middle of an edge changes nothing.
    #[test]
    fn a_corner_on_a_straight_edge_is_none() {
        let a = polygon(&[(0, 0), (40, 0), (40, 20), (0, 20)]);
        let b = polygon(&[(0, 0), (10, 0), (10, 5), (6, 5), (3, 5), (0, 5)]);
        for (a, b) in [(&a, &b), (&b, &a), (&b, &b)] {
            let tidy = forbidden(&a.clone().tidied(), &b.clone().tidied());
            assert_eq!(area(&forbidden(a, b)), area(&tidy));
        }
    }

    #[test]
    fn a_small_square_can_stand_inside_a_hollow_one() {
        // A ring with a slot 2 wide, and a square of 4 that fits its hollow of 10: 6 by 6 places are free.
        let ring = [
            (0, 0),
            (30, 0),
            (30, 14),
            (20, 14),
            (20, 10),
            (10, 10),
            (10, 20),
            (20, 20),
            (20, 16),
            (30, 16),
            (30, 30),
            (0, 30),
        ];
        let square = polygon(&[(0, 0), (4, 0), (4, 4), (0, 4)]);
        let contours = forbidden(&polygon(&ring), &square);
        assert_eq!(contours.len(), 2);
        assert_eq!(area(&contours), 34.0 * 34.0 - 36.0);
    }
}

//! Whether the insides of two outlines meet, decided exactly: coordinates are whole micrometres held in `f64`.

use super::form::Spot;

/// Whether the insides of `a` and of `b` moved by `by` meet. Both are simple and anticlockwise.
pub fn meet(a: &[Spot], b: &[Spot], by: Spot) -> bool {
    let there = |p: Spot| Spot { x: p.x + by.x, y: p.y + by.y };
    let back = |p: Spot| Spot { x: p.x - by.x, y: p.y - by.y };
    let ((low, high), room) = (extent(b), extent(a));
    let moved = (there(low), there(high));
    // Only edges that reach into the other's box can meet it.
    let one = || edges(a).filter(|edge| reaches(edge, moved));
    let two = || edges(b).map(|(p, q)| (there(p), there(q))).filter(|edge| reaches(edge, room));
    if one().any(|(p, q)| two().any(|(r, s)| crossing(p, q, r, s))) {
        return true;
    }
    // Without a proper crossing an edge, cut where a corner of the other touches it, lies inside, outside or along.
    one().any(|(p, q)| enters(back(p), back(q), b)) || two().any(|(p, q)| enters(p, q, a))
}

type Edge = (Spot, Spot);

/// Lowest and highest corner of the box.
fn extent(points: &[Spot]) -> (Spot, Spot) {
    let far = f64::INFINITY;
    points.iter().fold((Spot { x: far, y: far }, Spot { x: -far, y: -far }), |(low, high), p| {
        (Spot { x: low.x.min(p.x), y: low.y.min(p.y) }, Spot { x: high.x.max(p.x), y: high.y.max(p.y) })
    })
}

fn reaches((p, q): &Edge, (low, high): (Spot, Spot)) -> bool {
    p.x.max(q.x) >= low.x && p.x.min(q.x) <= high.x && p.y.max(q.y) >= low.y && p.y.min(q.y) <= high.y
}

fn edges(points: &[Spot]) -> impl Iterator<Item = Edge> + '_ {
    points.iter().copied().zip(points.iter().skip(1).chain(points.first()).copied())
}

fn side(a: Spot, b: Spot, c: Spot) -> f64 {
    (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
}

fn crossing(a: Spot, b: Spot, c: Spot, d: Spot) -> bool {
    if a.x.max(b.x) < c.x.min(d.x) || c.x.max(d.x) < a.x.min(b.x) {
        return false;
    }
    let (p, q) = (side(a, b, c), side(a, b, d));
    if !(p > 0.0 && q < 0.0 || p < 0.0 && q > 0.0) {
        return false;
    }
    let (p, q) = (side(c, d, a), side(c, d, b));
    p > 0.0 && q < 0.0 || p < 0.0 && q > 0.0
}

/// Whether part of an edge runs inside `b`, or along its border with both insides on the same side.
fn enters(p: Spot, q: Spot, b: &[Spot]) -> bool {
    let mut cuts: Vec<Spot> = b.iter().copied().filter(|c| between(p, q, *c)).collect();
    let along = |c: &Spot| (c.x - p.x) * (q.x - p.x) + (c.y - p.y) * (q.y - p.y);
    cuts.sort_by(|c, d| along(c).total_cmp(&along(d)));
    let ends = cuts.iter().copied().chain([q]);
    let mut from = p;
    ends.into_iter().any(|to| {
        let part = (from, to);
        from = to;
        part.0 != part.1 && within(part.0, part.1, b)
    })
}

/// Whether `c` lies on the edge, its ends left out.
fn between(p: Spot, q: Spot, c: Spot) -> bool {
    side(p, q, c) == 0.0
        && c != p
        && c != q
        && (p.x.min(q.x)..=p.x.max(q.x)).contains(&c.x)
        && (p.y.min(q.y)..=p.y.max(q.y)).contains(&c.y)
}

/// Whether the middle of an edge part that crosses nothing lies inside `b`, or along an edge of the same direction.
fn within(p: Spot, q: Spot, b: &[Spot]) -> bool {
    // Halves are exact too.
    let middle = Spot { x: (p.x + q.x) * 0.5, y: (p.y + q.y) * 0.5 };
    let mut inside = false;
    for (r, s) in edges(b) {
        if side(r, s, middle) == 0.0 && (between(r, s, middle) || middle == r || middle == s) {
            let same = (s.x - r.x) * (q.x - p.x) + (s.y - r.y) * (q.y - p.y) > 0.0;
            return same && side(r, s, p) == 0.0 && side(r, s, q) == 0.0;
        }
        let (low, high) = if r.y <= s.y { (r, s) } else { (s, r) };
        if low.y <= middle.y && middle.y < high.y && side(low, high, middle) > 0.0 {
            inside = !inside;
        }
    }
    inside
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape(points: &[(f64, f64)]) -> Vec<Spot> {
        points.iter().map(|(x, y)| Spot { x: *x, y: *y }).collect()
    }

    #[test]
    fn touching_is_allowed_and_one_step_is_not() {
        let square = shape(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
        let at = |x: f64, y: f64| meet(&square, &square, Spot { x, y });
        assert!(at(0.0, 0.0) && at(9.0, 9.0) && at(9.0, 0.0) && at(0.0, -9.0));
        assert!(!at(10.0, 0.0) && !at(10.0, 10.0) && !at(10.0, 3.0) && !at(0.0, -10.0) && !at(20.0, 0.0));
    }

    #[test]
    fn a_piece_in_the_mouth_of_another_is_free() {
        let mouth = shape(&[
            (0.0, 0.0),
            (30.0, 0.0),
            (30.0, 30.0),
            (20.0, 30.0),
            (20.0, 10.0),
            (10.0, 10.0),
            (10.0, 30.0),
            (0.0, 30.0),
        ]);
        let tooth = shape(&[(0.0, 0.0), (10.0, 0.0), (10.0, 20.0), (0.0, 20.0)]);
        assert!(!meet(&mouth, &tooth, Spot { x: 10.0, y: 10.0 }));
        assert!(meet(&mouth, &tooth, Spot { x: 10.0, y: 9.0 }));
        assert!(meet(&mouth, &tooth, Spot { x: 11.0, y: 10.0 }));
        assert!(meet(&mouth, &tooth, Spot { x: 2.0, y: 4.0 }));
        let small = shape(&[(0.0, 0.0), (5.0, 0.0), (5.0, 5.0), (0.0, 5.0)]);
        assert!(meet(&mouth, &small, Spot { x: 2.0, y: 2.0 }) && meet(&small, &mouth, Spot { x: -2.0, y: -2.0 }));
    }
}

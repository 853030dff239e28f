//! What fills the gap between two strips at a corner that sticks out.

use super::super::point::Point;
use super::ear::Ear;
use super::joint::{Joint, SHALLOW};
use super::style::Corner;

/// Largest error of an arc made of straight pieces, in mm.
const ROUND_ERROR: f64 = 0.000_5;
/// Anticlockwise polygon that fills a corner; none where the strips overlap already.
pub(super) fn patch(joint: &Joint, corner: Corner) -> Option<Vec<Point>> {
    let (a, b) = joint.widths;
    let turn = joint.before.cross(joint.after);
    let back = joint.before.dot(joint.after) < 0.0;
    if a.max(b) <= 0.0 || (turn == 0.0 && !back) {
        return None;
    }
    if turn < 0.0 {
        return extension(joint);
    }
    if let Some(ear) = Ear::of(joint, corner) {
        return Some(ear.patch(joint));
    }
    let (first, second) = joint.reach();
    // Less than the grid is no difference.
    let differ = (a - b).abs() > 0.000_5;
    if differ && !back && (joint.before.dot(joint.after) > SHALLOW || first < 0.0 || second < 0.0) {
        return Some(step(joint));
    }
    let bisector = joint.bisector()?;
    let wide = a.max(b);
    match corner {
        Corner::Mitre { .. } | Corner::Step(_) | Corner::FoldBack(_) => {
            let limit = corner.limit();
            let tip = mitre(joint, (first, second), limit * wide);
            Some(clip(&tip, joint.at, bisector, limit * wide))
        }
        Corner::Square => Some(clip(&mitre(joint, (first, second), wide), joint.at, bisector, wide)),
        Corner::Round => {
            let mut shape = mitre(joint, (first, second), wide);
            for normal in arc(joint.before.right(), joint.after.right(), Some(bisector), wide) {
                shape = clip(&shape, joint.at, normal, wide);
            }
            Some(shape)
        }
    }
}

/// The corner between both offset lines. Lines that meet far beyond `needed`, or never, are cut
/// off beyond it: the caller clips there anyway.
fn mitre(joint: &Joint, (first, second): (f64, f64), needed: f64) -> Vec<Point> {
    let (a, b) = joint.widths;
    let from = joint.at + joint.before.right() * a;
    let to = joint.at + joint.after.right() * b;
    let most = 8.0 * needed;
    let longest = first.max(second);
    if longest.is_finite() && longest <= most {
        return vec![joint.at, from, from + joint.before * first, to];
    }
    let share = |reach: f64| if longest.is_finite() { reach * (most / longest) } else { most };
    vec![joint.at, from, from + joint.before * share(first), to - joint.after * share(second), to]
}

/// At a corner that points inward the wide strip may end short of the line of the narrow one: it
/// runs on until they meet. Not at shallow corners, where that would be far away.
fn extension(joint: &Joint) -> Option<Vec<Point>> {
    if joint.before.dot(joint.after) > SHALLOW {
        return None;
    }
    let (a, b) = joint.widths;
    let (first, second) = joint.reach();
    let (from, to) = (joint.at + joint.before.right() * a, joint.at + joint.after.right() * b);
    if first > 0.0 {
        Some(vec![joint.at, from, from + joint.before * first])
    } else {
        (second > 0.0).then(|| vec![joint.at, to - joint.after * second, to])
    }
}

/// The narrower strip runs on to the end of the wider one.
fn step(joint: &Joint) -> Vec<Point> {
    let (a, b) = joint.widths;
    let cos = joint.before.dot(joint.after);
    let (first, second) = (joint.before.right(), joint.after.right());
    if a > b {
        vec![joint.at, joint.at + first * (b / cos), joint.at + second * b]
    } else {
        vec![joint.at, joint.at + first * a, joint.at + second * (a / cos)]
    }
}

/// The part of a convex polygon within `distance` of `at` in the direction of `normal`.
fn clip(shape: &[Point], at: Point, normal: Point, distance: f64) -> Vec<Point> {
    let over = |point: Point| (point - at).dot(normal) - distance;
    let mut kept = Vec::with_capacity(shape.len() + 1);
    for (from, to) in shape.iter().copied().zip(shape.iter().copied().cycle().skip(1)) {
        let (a, b) = (over(from), over(to));
        if a <= 0.0 {
            kept.push(from);
        }
        if (a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0) {
            kept.push(from.lerp(to, a / (a - b)));
        }
    }
    kept
}

/// Triangles that fill a small outward bend between two normals; none for an inward one.
pub(super) fn fan(at: Point, from: Point, to: Point, width: f64) -> Vec<Vec<Point>> {
    if width <= 0.0 || from.cross(to) <= 0.0 {
        return Vec::new();
    }
    let normals = arc(from, to, None, width);
    let pairs = normals.iter().zip(normals.iter().skip(1));
    pairs.map(|(a, b)| vec![at, at + *a * width, at + *b * width]).collect()
}

/// Directions from one to another, turning left, close enough for an arc of that radius. The
/// halves are found by adding and scaling alone.
pub(super) fn arc(from: Point, to: Point, middle: Option<Point>, radius: f64) -> Vec<Point> {
    let mut normals = vec![from];
    match middle {
        Some(middle) => {
            halve(from, middle, radius, 0, &mut normals);
            halve(middle, to, radius, 0, &mut normals);
        }
        None => halve(from, to, radius, 0, &mut normals),
    }
    normals
}

fn halve(from: Point, to: Point, radius: f64, depth: u32, normals: &mut Vec<Point>) {
    let chord = to - from;
    let middle = (from + to).unit();
    // The sagitta of a chord c on a circle of radius r is about c² / 8r, and c = |chord| · r.
    match middle {
        Some(middle) if depth < 16 && chord.dot(chord) * radius > 8.0 * ROUND_ERROR => {
            halve(from, middle, radius, depth + 1, normals);
            halve(middle, to, radius, depth + 1, normals);
        }
        _ => normals.push(to),
    }
}

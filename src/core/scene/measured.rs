//! What is measured on a picture: arrows with their numbers, clear of each other as far as there is room.

use super::marks::{along, left, span, towards};
use super::{At, Scene, balloon};

/// A point of measure on a picture, in mm of paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// Where the arrow begins and ends.
    pub ends: [At; 2],
    /// Its number.
    pub number: String,
}

/// Distances of a number from its arrow that are tried, mm.
const AWAY: [f64; 3] = [5.5, 8.0, 11.0];
/// Places along the arrow that a number can belong to, in parts of its length.
const ALONG: [f64; 5] = [0.5, 0.3, 0.7, 0.1, 0.9];
/// What numbers keep from each other, middle to middle, and from arrows, mm: they have a radius of 2.8 mm.
const APART: [f64; 2] = [6.2, 3.3];
/// What a number keeps from the edge of the picture, mm.
const EDGE: f64 = 3.4;

/// Draws all arrows, then each number at the first place that keeps its distance from what is there, else at the clearest.
pub fn measured(scene: &mut Scene, points: &[Measured]) {
    for one in points {
        span(scene, one.ends[0], one.ends[1]);
    }
    let mut placed: Vec<At> = Vec::new();
    for one in points {
        let mut best: Option<(f64, At, At)> = None;
        for (at, target) in candidates(scene, one.ends) {
            let room = clearance(at, points, &placed).min(0.0);
            if best.is_none_or(|(most, ..)| room > most) {
                best = Some((room, at, target));
            }
        }
        let Some((_, at, target)) = best else { continue };
        balloon(scene, at, &one.number, target);
        placed.push(at);
    }
}

/// Places for a number, each with the point of its arrow that it leads to.
fn candidates(scene: &Scene, [from, to]: [At; 2]) -> Vec<(At, At)> {
    let (way, length) = (towards(from, to), distance(from, to));
    let side = left(way);
    let inside = |p: At| [p[0].clamp(EDGE, scene.width - EDGE), p[1].clamp(EDGE, scene.height - EDGE)];
    let mut all = Vec::new();
    for away in AWAY {
        for part in ALONG {
            let target = along(from, way, part * length);
            all.extend([away, -away].map(|away| (inside(along(target, side, away)), target)));
        }
    }
    all
}

/// How much further a number is from all others and all arrows than it must be, mm; below zero where it is too near.
fn clearance(at: At, points: &[Measured], placed: &[At]) -> f64 {
    let numbers = placed.iter().map(|other| distance(at, *other) - APART[0]);
    let arrows = points.iter().map(|one| to_line(at, one.ends) - APART[1]);
    numbers.chain(arrows).fold(f64::INFINITY, f64::min)
}

fn distance(a: At, b: At) -> f64 {
    libm::hypot(b[0] - a[0], b[1] - a[1])
}

/// Distance of a point from a stretch between two points.
fn to_line(at: At, [from, to]: [At; 2]) -> f64 {
    let (way, length) = (towards(from, to), distance(from, to));
    let part = ((at[0] - from[0]) * way[0] + (at[1] - from[1]) * way[1]).clamp(0.0, length);
    distance(at, along(from, way, part))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::Item;

    #[test]
    fn numbers_of_crossing_arrows_keep_apart() {
        let mut scene = Scene::new(60.0, 40.0, "");
        let arrow = |ends: [At; 2], number: &str| Measured { ends, number: number.to_string() };
        measured(&mut scene, &[arrow([[10.0, 20.0], [50.0, 20.0]], "C"), arrow([[30.0, 10.0], [30.0, 18.0]], "K")]);
        let numbers: Vec<At> = scene
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Label(label) => Some(label.at),
                Item::Path(_) => None,
            })
            .collect();
        assert_eq!(numbers.len(), 2);
        assert!(distance(numbers[0], numbers[1]) >= APART[0], "{numbers:?}");
        for number in numbers {
            assert!(to_line(number, [[30.0, 10.0], [30.0, 18.0]]) >= APART[1], "{number:?}");
            assert!(to_line(number, [[10.0, 20.0], [50.0, 20.0]]) >= APART[1], "{number:?}");
        }
    }
}

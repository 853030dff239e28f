//! The stretches of a seam between the points and notches that meet.

use crate::model::assembly;
use crate::words::{Phrase, number, say, words};

use super::input::Ground;
use super::lengths::run_length;

words! {
    BEHIND "stretch.behind" = "{point} + {distance}";
}

/// A place along a side: a point, or a notch behind it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Place {
    /// The point, or the last one before the notch.
    pub point: String,
    /// Which notch behind the point, from 1.
    pub notch: Option<u64>,
    /// How far behind the point, mm.
    pub after: f64,
}

impl Place {
    fn point(name: &str) -> Self {
        Place { point: name.to_string(), notch: None, after: 0.0 }
    }

    /// As it is written: `w2`, `w2 + 33.4 mm`.
    pub fn text(&self) -> Phrase {
        match self.notch {
            Some(_) => say!(BEHIND, point = &self.point, distance = number::mm(self.after, 1)),
            None => Phrase::from(&self.point),
        }
    }
}

/// A stretch between two places of a seam that meet.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stretch {
    /// The edge of side `a` that it lies on, from 1.
    pub edge: u64,
    pub from: Place,
    pub to: Place,
    /// Length on side `a` and on side `b`, mm.
    pub a: f64,
    pub b: f64,
    /// Whether one of its ends is a notch.
    pub notched: bool,
}

/// A place along one side where two stretches meet. Where two edges meet there, it has a name on each of them.
struct Stop {
    /// As the end of the stretch before.
    before: Place,
    /// As the start of the stretch behind.
    behind: Place,
    /// The edge behind it, from 1.
    edge: u64,
    /// Its distance from the first end, mm.
    at: f64,
}

impl Stop {
    fn is_notch(&self) -> bool {
        self.behind.notch.is_some()
    }
}

/// The stretches of a seam between its points and notches where both sides have as many, else between its points
/// alone where they have as many of those. None for a seam of a single stretch, or of unknown length.
pub(super) fn stretches(ground: &Ground<'_>, joint: &assembly::Resolved, size: &str) -> Vec<Stretch> {
    let both = stops(ground, &joint.a, size).zip(stops(ground, &joint.b, size));
    let Some((mut a, mut b)) = both else { return Vec::new() };
    if a.len() != b.len() {
        a.retain(|stop| !stop.is_notch());
        b.retain(|stop| !stop.is_notch());
    }
    if a.len() != b.len() || a.len() < 3 {
        return Vec::new();
    }
    let pairs = a.iter().zip(&b);
    let each = pairs.clone().zip(pairs.skip(1)).map(|((a, b), (next_a, next_b))| Stretch {
        edge: a.edge,
        from: a.behind.clone(),
        to: next_a.before.clone(),
        a: next_a.at - a.at,
        b: next_b.at - b.at,
        notched: [a, b, next_a, next_b].into_iter().any(Stop::is_notch),
    });
    each.collect()
}

/// The first notch of a seam to which neither a notch nor a point of the other side comes, where both sides are equally long
/// and have another number of notches: whether it is on side `a`, where, and how far along its side, mm.
pub(super) fn alone(ground: &Ground<'_>, joint: &assembly::Resolved, size: &str) -> Option<(bool, Place, f64)> {
    let (a, b) = stops(ground, &joint.a, size).zip(stops(ground, &joint.b, size))?;
    let (long, other) = (a.last()?.at, b.last()?.at);
    let notches = |stops: &[Stop]| stops.iter().filter(|stop| stop.is_notch()).count();
    if (long - other).abs() > slack(long) || notches(&a) == notches(&b) {
        return None;
    }
    let first = |stops: &[Stop], others: &[Stop]| -> Option<(Place, f64)> {
        let meets = |at: f64| others.iter().any(|other| (other.at - at).abs() <= slack(at));
        stops.iter().find(|stop| stop.is_notch() && !meets(stop.at)).map(|stop| (stop.behind.clone(), stop.at))
    };
    let of_a = first(&a, &b).map(|(place, at)| (true, place, at));
    of_a.or_else(|| first(&b, &a).map(|(place, at)| (false, place, at)))
}

/// How far two places that are meant to meet may lie apart, mm (*common practice*): a millimetre, or a hundredth of the way.
fn slack(along: f64) -> f64 {
    (along * 0.01).max(1.0)
}

fn stops(ground: &Ground<'_>, side: &assembly::Side, size: &str) -> Option<Vec<Stop>> {
    let assembly = ground.assembly;
    let mut all: Vec<Stop> = Vec::new();
    let mut passed = 0.0;
    for (edge, run) in (1..).zip(&side.runs) {
        let whole = run_length(ground, run, size).get()?;
        let (from, to) = run.ends(&assembly.outlines, &assembly.instances)?;
        match all.last_mut() {
            Some(last) => (last.behind, last.edge) = (Place::point(from), edge),
            None => all.push(Stop { before: Place::point(from), behind: Place::point(from), edge, at: 0.0 }),
        }
        let lines = ground.drawn.get(&assembly.instances.get(run.instance)?.piece, size)?;
        let here = lines.notches.known().into_iter().flatten().filter(|mark| mark.at.0 == run.run && mark.at.1 > 0.0);
        let along = here.map(|mark| if run.forward { mark.at.1 } else { whole - mark.at.1 });
        let mut inner: Vec<f64> = along.filter(|at| *at > 0.005 && *at < whole - 0.005).collect();
        inner.sort_by(f64::total_cmp);
        for (notch, after) in (1..).zip(inner) {
            let place = Place { point: from.to_string(), notch: Some(notch), after };
            all.push(Stop { before: place.clone(), behind: place, edge, at: passed + after });
        }
        passed += whole;
        all.push(Stop { before: Place::point(to), behind: Place::point(to), edge, at: passed });
    }
    Some(all)
}

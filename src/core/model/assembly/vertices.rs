//! The points of all instances, joined as seams are sewn (disjoint sets).

use super::{Run, Side};

/// Points of all instances, joined as seams are sewn.
///
/// Disjoint sets, united by rank and without shortening of paths, so that each link can keep the time it was made at:
/// times only grow towards the representative, and when two points met is read off their two paths. Every question
/// costs the logarithm of the number of points.
#[derive(Debug, Clone)]
pub struct Vertices {
    parent: Vec<usize>,
    time: Vec<usize>,
    rank: Vec<u32>,
    first: Vec<usize>,
    points: Vec<usize>,
}

impl Vertices {
    /// One vertex for each named point: `points[n]` of instance `n`.
    pub fn new(points: &[usize]) -> Self {
        let mut first = Vec::new();
        let mut total = 0;
        for count in points {
            first.push(total);
            total += count;
        }
        Vertices {
            parent: (0..total).collect(),
            time: vec![usize::MAX; total],
            rank: vec![0; total],
            first,
            points: points.to_vec(),
        }
    }

    /// The vertex at the start of a run as drawn; runs are numbered from their first point.
    pub fn at(&self, instance: usize, point: usize) -> usize {
        self.first[instance] + point % self.points[instance].max(1)
    }

    /// First and last vertex of a run as it is walked.
    pub fn ends(&self, run: &Run) -> (usize, usize) {
        let (start, end) = (self.at(run.instance, run.run), self.at(run.instance, run.run + 1));
        if run.forward { (start, end) } else { (end, start) }
    }

    /// The vertices a side passes, first to last; a junction between two runs counts once.
    pub fn stops(&self, side: &Side) -> Vec<usize> {
        let first = side.runs.first().map(|run| self.ends(run).0);
        first.into_iter().chain(side.runs.iter().map(|run| self.ends(run).1)).collect()
    }

    /// The representative of a vertex's set.
    pub fn root(&self, mut vertex: usize) -> usize {
        while self.parent[vertex] != vertex {
            vertex = self.parent[vertex];
        }
        vertex
    }

    /// Joins two vertices at a time no earlier than any before.
    pub fn join(&mut self, a: usize, b: usize, time: usize) {
        let (a, b) = (self.root(a), self.root(b));
        if a == b {
            return;
        }
        let (low, high) = if self.rank[a] < self.rank[b] { (a, b) } else { (b, a) };
        self.rank[high] += u32::from(self.rank[low] == self.rank[high]);
        self.parent[low] = high;
        self.time[low] = time;
    }

    /// Whether two vertices are joined already.
    pub fn joined(&self, a: usize, b: usize) -> bool {
        self.root(a) == self.root(b)
    }

    /// When two vertices became joined; `None` if they never did, or always were one.
    pub fn joined_at(&self, mut a: usize, mut b: usize) -> Option<usize> {
        let mut latest = None;
        while a != b {
            let low = if self.time[a] <= self.time[b] { &mut a } else { &mut b };
            if self.parent[*low] == *low {
                return None;
            }
            latest = latest.max(Some(self.time[*low]));
            *low = self.parent[*low];
        }
        latest
    }
}

#[cfg(test)]
mod tests {
    use super::Vertices;
    use proptest::prelude::*;

    proptest! {
        /// Against the plain way: join one after the other and look after each.
        #[test]
        fn times_are_those_of_a_replay(joins in prop::collection::vec((0..12usize, 0..12usize), 0..30)) {
            let mut all = Vertices::new(&[12]);
            let mut met = [[None; 12]; 12];
            for (time, (a, b)) in joins.into_iter().enumerate() {
                all.join(a, b, time);
                for (x, row) in met.iter_mut().enumerate() {
                    for (y, first) in row.iter_mut().enumerate() {
                        if x != y && first.is_none() && all.joined(x, y) {
                            *first = Some(time);
                        }
                    }
                }
            }
            for (x, row) in met.iter().enumerate() {
                for (y, first) in row.iter().enumerate() {
                    prop_assert_eq!(all.joined_at(x, y), *first);
                }
            }
        }
    }
}

/// Points of all instances, joined as seams are sewn (disjoint sets with path halving).
#[derive(Debug, Clone)]
pub struct Vertices {
    parent: Vec<usize>,
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
        Vertices { parent: (0..total).collect(), first, points: points.to_vec() }
    }

    /// The vertex at the start of a run as drawn; runs are numbered from their first point.
    pub fn at(&self, instance: usize, point: usize) -> usize {
        self.first[instance] + point % self.points[instance].max(1)
    }

    /// The representative of a vertex's set.
    pub fn root(&mut self, mut vertex: usize) -> usize {
        while self.parent[vertex] != vertex {
            self.parent[vertex] = self.parent[self.parent[vertex]];
            vertex = self.parent[vertex];
        }
        vertex
    }

    /// Joins two vertices.
    pub fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        if a != b {
            self.parent[a.max(b)] = a.min(b);
        }
    }

    /// Whether two vertices are joined already.
    pub fn joined(&mut self, a: usize, b: usize) -> bool {
        self.root(a) == self.root(b)
    }
}

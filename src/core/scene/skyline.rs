//! The lower edge of what lies on a page, for finding the highest place for the next box.

use super::At;

/// Stretches of the edge from left to right: from, to, how far down, mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Skyline {
    width: f64,
    edge: Vec<[f64; 3]>,
}

impl Skyline {
    /// An empty page of a width in mm.
    #[must_use]
    pub fn new(width: f64) -> Self {
        Skyline { width, edge: vec![[0.0, width, 0.0]] }
    }

    /// The highest place for a box below the edge that ends above `most`, and of places as high the leftmost.
    #[must_use]
    pub fn spot(&self, [width, height]: At, most: f64) -> Option<At> {
        let places = self.edge.iter().map(|[x, ..]| {
            let under = self.edge.iter().filter(|[from, to, _]| *from < x + width && *to > *x);
            [*x, under.map(|[.., down]| *down).fold(0.0, f64::max)]
        });
        let fits = places.filter(|[x, y]| x + width <= self.width && y + height <= most);
        fits.min_by(|a, b| a[1].total_cmp(&b[1]).then(a[0].total_cmp(&b[0])))
    }

    /// Moves the edge down below a box at a place.
    pub fn take(&mut self, at: At, [width, height]: At) {
        let (left, right) = (at[0], at[0] + width);
        let parts = |[from, to, down]: &[f64; 3]| [[*from, to.min(left), *down], [from.max(right), *to, *down]];
        let mut all: Vec<[f64; 3]> = self.edge.iter().flat_map(parts).filter(|[from, to, _]| to > from).collect();
        all.push([left, right.min(self.width), at[1] + height]);
        all.sort_by(|a, b| a[0].total_cmp(&b[0]));
        self.edge = all;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a box of 4 by 3 leaves the six to its right at the top, and what is wider goes below it.
    #[test]
    fn a_box_goes_as_high_as_it_fits() {
        let mut edge = Skyline::new(10.0);
        edge.take([0.0, 0.0], [4.0, 3.0]);
        assert_eq!(edge.spot([6.0, 2.0], 5.0), Some([4.0, 0.0]));
        assert_eq!(edge.spot([7.0, 2.0], 5.0), Some([0.0, 3.0]));
        assert_eq!(edge.spot([7.0, 2.1], 5.0), None);
    }
}

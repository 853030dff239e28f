//! Every number of products up to a limit, as cells of a table.

/// Every number of products up to a limit, by cell.
#[derive(Debug)]
pub struct Grid {
    high: Vec<u32>,
    stride: Vec<usize>,
    /// How many there are.
    pub size: usize,
}

impl Grid {
    /// The grid, unless it has more than `most` places.
    pub fn new(high: &[u32], most: usize) -> Option<Self> {
        let mut stride = Vec::new();
        let mut size = 1usize;
        for high in high {
            stride.push(size);
            size = size.checked_mul(*high as usize + 1).filter(|size| *size <= most)?;
        }
        Some(Grid { high: high.to_vec(), stride, size })
    }

    /// From one place to the one with these products more.
    pub fn step(&self, cells: &[(usize, u32)]) -> usize {
        cells.iter().map(|(cell, count)| self.stride[*cell] * *count as usize).sum()
    }

    /// Products at a place in a cell.
    pub fn at(&self, place: usize, cell: usize) -> u32 {
        ((place / self.stride[cell]) % (self.high[cell] as usize + 1)) as u32
    }

    /// Whether a place holds at least these products.
    pub fn holds(&self, place: usize, cells: &[(usize, u32)]) -> bool {
        cells.iter().all(|(cell, count)| self.at(place, *cell) >= *count)
    }

    /// The products at the place after one with these products.
    pub fn next(&self, here: &mut [u32]) {
        for (here, high) in here.iter_mut().zip(&self.high) {
            if *here < *high {
                *here += 1;
                return;
            }
            *here = 0;
        }
    }

    /// Whether these products more stay within the limits of what is there.
    pub fn takes(&self, here: &[u32], cells: &[(usize, u32)]) -> bool {
        cells.iter().all(|(cell, count)| here[*cell] + count <= self.high[*cell])
    }

    /// Products at a place.
    pub fn products(&self, place: usize) -> Vec<u32> {
        (0..self.high.len()).map(|cell| self.at(place, cell)).collect()
    }
}

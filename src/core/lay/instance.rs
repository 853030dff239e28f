//! What is to be laid: the pieces, how many of each, how each may lie, and the fabric.

use std::fmt;

use crate::geom::grid::{GridPoint, Polygon, millimetres};

/// Longest side of fabric or piece, in µm: differences of coordinates stay far inside what `f64` holds exactly.
pub const LARGEST: i64 = 20_000_000;
/// Most pieces in one lay.
pub const MOST: usize = 20_000;
/// Most corners of one outline.
pub const CORNERS: usize = 5_000;
/// Most turns of one piece.
pub const TURNS: usize = 64;

/// How a piece lies: mirrored across the grain first (y becomes −y), then turned anticlockwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turn {
    /// Degrees, anticlockwise.
    pub degrees: f64,
    /// Whether the other face is up, which mirrors the piece.
    pub mirrored: bool,
}

impl Turn {
    /// As drawn.
    pub const NONE: Self = Self { degrees: 0.0, mirrored: false };

    /// Turned by degrees, not mirrored.
    pub const fn by(degrees: f64) -> Self {
        Self { degrees, mirrored: false }
    }

    /// The outline as it lies, anticlockwise and on the grid. Quarter turns are exact; any other turn is rounded to the
    /// grid, and the rounded outline is what is laid and checked.
    pub fn apply(self, outline: &Polygon) -> Polygon {
        let mirror = |p: &GridPoint| if self.mirrored { GridPoint::new(p.x, -p.y) } else { *p };
        let points = outline.points.iter().map(|p| turned(mirror(p), self.degrees)).collect();
        let polygon = Polygon { points };
        if polygon.area2() < 0 { polygon.reversed() } else { polygon }
    }
}

fn turned(p: GridPoint, degrees: f64) -> GridPoint {
    let full = degrees - 360.0 * (degrees / 360.0).floor();
    if full == 0.0 {
        p
    } else if full == 90.0 {
        GridPoint::new(-p.y, p.x)
    } else if full == 180.0 {
        GridPoint::new(-p.x, -p.y)
    } else if full == 270.0 {
        GridPoint::new(p.y, -p.x)
    } else {
        let (sin, cos) = libm::sincos(full * std::f64::consts::PI / 180.0);
        let (x, y) = (p.x as f64, p.y as f64);
        GridPoint::new(libm::round(x * cos - y * sin) as i64, libm::round(x * sin + y * cos) as i64)
    }
}

/// One piece and how often it is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// What it is called in the lay.
    pub id: String,
    /// Its cut line.
    pub outline: Polygon,
    /// How many are wanted.
    pub demand: usize,
    /// How it may lie; at least one way.
    pub turns: Vec<Turn>,
    /// Whether the lowest edge of every turn lies on the fold of the fabric, at y = 0.
    pub fold: bool,
}

/// The fabric and what the method of cutting asks, in µm. The roll runs along x.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fabric {
    /// Width of the roll.
    pub width: i64,
    /// Kept free along both long edges; at a fold pieces on the fold need none.
    pub edge: i64,
    /// Kept free at both ends.
    pub end: i64,
    /// Least distance between two pieces; 0 lets them share a line.
    pub gap: i64,
}

impl Fabric {
    /// Fabric without margins, pieces may touch.
    pub const fn wide(width: i64) -> Self {
        Self { width, edge: 0, end: 0, gap: 0 }
    }
}

/// A whole task.
#[derive(Debug, Clone, PartialEq)]
pub struct Instance {
    /// What the lay is called.
    pub name: String,
    /// The fabric.
    pub fabric: Fabric,
    /// The pieces.
    pub pieces: Vec<Piece>,
}

/// Why a task cannot be laid, in one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bad(pub String);

impl fmt::Display for Bad {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

impl std::error::Error for Bad {}

impl Instance {
    /// How many pieces are laid.
    pub fn count(&self) -> usize {
        self.pieces.iter().map(|piece| piece.demand).sum()
    }

    /// The number of the piece each copy is of, copies of one piece behind each other.
    pub fn kinds(&self) -> Vec<usize> {
        self.pieces.iter().enumerate().flat_map(|(kind, piece)| vec![kind; piece.demand]).collect()
    }

    /// Area of all pieces, in µm², doubled.
    pub fn area2(&self) -> i128 {
        self.pieces.iter().map(|piece| piece.outline.area2().abs() * piece.demand as i128).sum()
    }

    /// Refuses what cannot be laid.
    ///
    /// # Errors
    /// The first reason found, as one sentence that names the piece.
    pub fn check(&self) -> Result<(), Bad> {
        let Fabric { width, edge, end, gap } = self.fabric;
        let lengths = [("width", width), ("edge", edge), ("end", end), ("gap", gap)];
        if let Some((name, _)) = lengths.iter().find(|(_, value)| !(0..=LARGEST).contains(value)) {
            return Err(Bad(format!("the {name} is negative or above {} mm", millimetres(LARGEST))));
        }
        if width - 2 * edge <= 0 {
            return Err(Bad("the fabric has no cuttable width".into()));
        }
        let count = self.pieces.iter().try_fold(0_usize, |sum, piece| sum.checked_add(piece.demand));
        match count {
            Some(0) => return Err(Bad("no piece is wanted".into())),
            Some(count) if count <= MOST => {}
            _ => return Err(Bad(format!("more than {MOST} pieces are wanted in one lay"))),
        }
        self.pieces.iter().try_for_each(|piece| piece.check(self.fabric))
    }
}

impl Piece {
    fn check(&self, fabric: Fabric) -> Result<(), Bad> {
        let bad = |what: String| Err(Bad(format!("piece {}: {what}", self.id)));
        if self.outline.points.len() > CORNERS {
            return bad(format!("its outline has more than {CORNERS} corners"));
        }
        if self.outline.points.len() < 3 || self.outline.area2() == 0 {
            return bad("its outline encloses no area".into());
        }
        if let Some(crossing) = self.outline.crossing() {
            let how = if crossing.touches { "touches" } else { "crosses" };
            return bad(format!("its outline {how} itself at {:.3}, {:.3} mm", crossing.at.x, crossing.at.y));
        }
        if self.turns.is_empty() || self.turns.len() > TURNS {
            return bad(format!("it needs between 1 and {TURNS} allowed turns"));
        }
        if self.turns.iter().any(|turn| !turn.degrees.is_finite() || turn.degrees.abs() > 3600.0) {
            return bad("a turn is not a usable number of degrees".into());
        }
        if self.fitting(fabric).next().is_none() {
            let usable = millimetres(fabric.width - 2 * fabric.edge);
            return bad(format!("in no allowed turn does it fit a cuttable width of {usable} mm"));
        }
        Ok(())
    }

    /// The turns in which the piece fits the width, with the outline as it then lies.
    pub fn fitting(&self, fabric: Fabric) -> impl Iterator<Item = (Turn, Polygon)> + '_ {
        let below = if self.fold { 0 } else { fabric.edge };
        let room = fabric.width - fabric.edge - below;
        let turned = self.turns.iter().map(|turn| (*turn, turn.apply(&self.outline)));
        turned.filter(move |(_, outline)| {
            outline.bbox().is_some_and(|(low, high)| high.y - low.y <= room && high.x - low.x <= LARGEST)
        })
    }
}

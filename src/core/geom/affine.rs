//! Affine maps of the plane: scaling, mirroring, turning, moving.

use super::point::Point;

/// An affine map: `x' = xx·x + xy·y + dx`, `y' = yx·x + yy·y + dy`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Affine {
    /// Share of x in the new x.
    pub xx: f64,
    /// Share of y in the new x.
    pub xy: f64,
    /// Share of x in the new y.
    pub yx: f64,
    /// Share of y in the new y.
    pub yy: f64,
    /// Added to x, in mm.
    pub dx: f64,
    /// Added to y, in mm.
    pub dy: f64,
}

impl Affine {
    /// The map that changes nothing.
    pub const IDENTITY: Self = Self { xx: 1.0, xy: 0.0, yx: 0.0, yy: 1.0, dx: 0.0, dy: 0.0 };

    /// Mirroring at the vertical axis: x changes its sign.
    pub const MIRROR: Self = Self { xx: -1.0, ..Self::IDENTITY };

    /// Moves by a vector.
    pub fn translation(by: Point) -> Self {
        Self { dx: by.x, dy: by.y, ..Self::IDENTITY }
    }

    /// Turns anticlockwise about the origin, in radians.
    pub fn rotation(angle: f64) -> Self {
        let (sin, cos) = (libm::sin(angle), libm::cos(angle));
        Self { xx: cos, xy: -sin, yx: sin, yy: cos, dx: 0.0, dy: 0.0 }
    }

    /// Scales by `along` in the given direction and by `across` square to it, about the
    /// origin. Upright and level directions give maps without rounding; a zero direction
    /// counts as upright.
    pub fn scaling(along: f64, across: f64, direction: Point) -> Self {
        let Some(u) = direction.unit() else {
            return Self::scaling(along, across, Point::new(0.0, 1.0));
        };
        let diff = along - across;
        Self {
            xx: if u.y == 0.0 { along } else { across + diff * u.x * u.x },
            xy: diff * u.x * u.y,
            yx: diff * u.x * u.y,
            yy: if u.x == 0.0 { along } else { across + diff * u.y * u.y },
            dx: 0.0,
            dy: 0.0,
        }
    }

    /// Mirrors at the line through `a` and `b`; at the vertical through `a` if they are one point.
    /// Upright and level lines are mirrored without a division.
    pub fn reflection(a: Point, b: Point) -> Self {
        if a.x == b.x {
            return Self { dx: a.x * 2.0, ..Self::MIRROR };
        }
        if a.y == b.y {
            return Self { yy: -1.0, dy: a.y * 2.0, ..Self::IDENTITY };
        }
        let d = b - a;
        let square = d.dot(d);
        let xx = (d.x * d.x - d.y * d.y) / square;
        let xy = 2.0 * d.x * d.y / square;
        Self { xx, xy, yx: xy, yy: -xx, dx: a.x - (xx * a.x + xy * a.y), dy: a.y - (xy * a.x - xx * a.y) }
    }

    /// First this map, then `next`.
    pub fn then(self, next: Self) -> Self {
        Self {
            xx: next.xx * self.xx + next.xy * self.yx,
            xy: next.xx * self.xy + next.xy * self.yy,
            yx: next.yx * self.xx + next.yy * self.yx,
            yy: next.yx * self.xy + next.yy * self.yy,
            dx: next.xx * self.dx + next.xy * self.dy + next.dx,
            dy: next.yx * self.dx + next.yy * self.dy + next.dy,
        }
    }

    /// The image of a point.
    pub fn apply(self, p: Point) -> Point {
        Point::new(self.xx * p.x + self.xy * p.y + self.dx, self.yx * p.x + self.yy * p.y + self.dy)
    }

    /// Factor of areas; negative for a map that mirrors.
    pub fn determinant(self) -> f64 {
        self.xx * self.yy - self.xy * self.yx
    }
}

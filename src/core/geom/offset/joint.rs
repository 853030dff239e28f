//! Two edges that meet, and how wide their strips are.

use super::super::point::Point;

/// Cosine of 20°: allowances that differ step at turns below it.
pub(super) const SHALLOW: f64 = 0.939_692_620_785_908_4;

/// Two edges that meet, and how wide their strips are.
pub(super) struct Joint {
    /// Where they meet.
    pub at: Point,
    /// Direction in which the first arrives, of length 1.
    pub before: Point,
    /// Direction in which the second leaves, of length 1.
    pub after: Point,
    /// Allowances of both, in mm.
    pub widths: (f64, f64),
}

impl Joint {
    /// The direction half-way between the outward normals, of length 1: whichever of two equal
    /// constructions is longer, so that neither a straight line nor a full turn divides by nothing.
    pub(super) fn bisector(&self) -> Option<Point> {
        if self.before.dot(self.after) > 0.0 {
            (self.before.right() + self.after.right()).unit()
        } else {
            (self.before - self.after).unit()
        }
    }

    /// How far the offset lines run past the corner until they meet: along the first, and back
    /// along the second.
    pub(super) fn reach(&self) -> (f64, f64) {
        let (cos, sin) = (self.before.dot(self.after), self.before.cross(self.after));
        let (a, b) = self.widths;
        ((b - a * cos) / sin, (a - b * cos) / sin)
    }
}

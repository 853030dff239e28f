//! Allowances that end along a line of their own: stepped and folded back.

use super::super::point::Point;
use super::joint::{Joint, SHALLOW};
use super::style::{Corner, Worked};

/// The end of the allowance of the worked edge at a corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Ear {
    /// Whether the worked edge is the one before the corner.
    pub before: bool,
    /// The end of the allowance on its cut line.
    pub tip: Point,
    /// The end of the allowance on its sew line, run on: a point of the other cut line.
    pub foot: Point,
    /// How far back from the corner the strip of the worked edge ends, in mm; 0 where it runs on past it.
    pub back: f64,
    /// Where the end of a strip that is cut back passes the normal at the corner.
    cross: Point,
}

impl Ear {
    /// The ear of a joint; none for other styles, and at turns below 20°, above 160° or inward.
    pub fn of(joint: &Joint, corner: Corner) -> Option<Self> {
        let worked = match corner {
            Corner::Step(worked) | Corner::FoldBack(worked) => worked,
            _ => return None,
        };
        let (cos, sin) = (joint.before.dot(joint.after), joint.before.cross(joint.after));
        if sin <= 0.0 || cos.abs() > SHALLOW {
            return None;
        }
        let (first, second) = joint.widths;
        let before = match worked {
            Worked::Wider => first >= second,
            Worked::Before => true,
            Worked::After => false,
        };
        let (a, b) = if before { (first, second) } else { (second, first) };
        let (out, normal) =
            if before { (joint.before, joint.before.right()) } else { (-joint.after, joint.after.right()) };
        let foot = b / sin;
        // The other cut line leaves the foot at the angle of the turn; its mirror image on the other side.
        let tip = if matches!(corner, Corner::Step(_)) { foot } else { (b + a * cos) / sin };
        let cross = if tip < 0.0 { a * foot / (foot - tip) } else { a };
        Some(Self {
            before,
            tip: joint.at + out * tip + normal * a,
            foot: joint.at + out * foot,
            back: (-tip).max(0.0),
            cross: joint.at + normal * cross,
        })
    }

    /// The anticlockwise polygon that fills the corner.
    pub fn patch(&self, joint: &Joint) -> Vec<Point> {
        let (a, b) = joint.widths;
        let (first, second) = (joint.at + joint.before.right() * a, joint.at + joint.after.right() * b);
        match (self.before, self.back > 0.0) {
            (true, false) => vec![joint.at, first, self.tip, self.foot, second],
            (true, true) => vec![joint.at, self.cross, self.foot, second],
            (false, false) => vec![joint.at, first, self.foot, self.tip, second],
            (false, true) => vec![joint.at, first, self.foot, self.cross],
        }
    }

    /// The corners of the end of the strip of the worked edge, in the order of an anticlockwise strip.
    pub fn end(&self) -> [Point; 2] {
        if self.before { [self.tip, self.cross] } else { [self.cross, self.tip] }
    }
}

//! What a cut line does at the corners of a sew line.

use std::collections::BTreeMap;

/// How far the tip of a mitre lies from the sewn corner at most, in allowances, where nothing else is said (*common
/// practice*: a sharper tip only adds fabric to the seam).
pub const TIP: f64 = 3.0;

/// Which of the two edges at a corner a style is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Worked {
    /// The one with the wider allowance; of equal ones the edge before the point, anticlockwise.
    #[default]
    Wider,
    /// The edge before the point, anticlockwise.
    Before,
    /// The edge after it.
    After,
}

/// What the cut line does at a corner that sticks out.
///
/// The last two end the allowance of one edge, the worked one, where its sew line run on meets the cut line of the
/// other edge. They are for turns from 20° to 160°; elsewhere the corner is a mitre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Corner {
    /// The edges run on until they meet; beyond `limit` allowances from the corner the tip is cut
    /// off square. A limit is at least 1.
    Mitre {
        /// Greatest distance from the corner to the tip, in allowances.
        limit: f64,
    },
    /// An arc round the corner, of the wider allowance.
    Round,
    /// Cut off square to the bisector, at the wider allowance from the corner.
    Square,
    /// The allowance of the worked edge ends square to its sew line.
    Step(Worked),
    /// The allowance of the worked edge ends in the mirror image of the other cut line at its sew line, so that it
    /// lies on the piece, edge on edge, once it is folded back.
    FoldBack(Worked),
}

impl Corner {
    /// The limit within which a mitre is cut off; [`TIP`] for other styles where they fall back on one.
    pub(super) fn limit(self) -> f64 {
        match self {
            Self::Mitre { limit } => limit,
            _ => TIP,
        }
    }

    /// The style of an inward line: there is nothing to fold or to step beside a drawn cut line.
    pub(super) fn inward(self) -> Self {
        match self {
            Self::Step(_) | Self::FoldBack(_) => Self::Mitre { limit: TIP },
            other => other,
        }
    }
}

/// The sew line inside a drawn cut line: corners are corners on both lines, also at the tip of a dart that is cut out, where
/// they lie many allowances apart. Only beyond twenty, at angles below 6°, the corner is cut off.
pub const INNER: Corner = Corner::Mitre { limit: 20.0 };

/// One style for all corners, or one for each named point.
#[derive(Debug, Clone, PartialEq)]
pub struct Corners {
    /// For every corner without its own.
    pub all: Corner,
    /// By named point.
    pub at: BTreeMap<String, Corner>,
}

impl Corners {
    /// The style at a point; at a corner without a name the one for all.
    pub fn style(&self, point: Option<&str>) -> Corner {
        point.and_then(|id| self.at.get(id)).copied().unwrap_or(self.all)
    }

    /// Every style there is.
    pub(super) fn each(&self) -> impl Iterator<Item = Corner> + '_ {
        std::iter::once(self.all).chain(self.at.values().copied())
    }

    /// The same with [`Corner::inward`] styles.
    pub(super) fn inward(&self) -> Self {
        let at = self.at.iter().map(|(id, corner)| (id.clone(), corner.inward())).collect();
        Self { all: self.all.inward(), at }
    }
}

impl From<Corner> for Corners {
    fn from(all: Corner) -> Self {
        Self { all, at: BTreeMap::new() }
    }
}

impl From<&Corners> for Corners {
    fn from(corners: &Corners) -> Self {
        corners.clone()
    }
}

impl Default for Corners {
    fn default() -> Self {
        Corner::Mitre { limit: TIP }.into()
    }
}

//! Working figures, nearly all *common practice* with no standard behind them. They differ from factory to factory, so a
//! rule that uses one says so, and never makes a `must` of it.

use super::Basis;

/// A usual range of one figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// The least that is usual.
    pub low: f64,
    /// The most that is usual; equal to `low` for a single figure.
    pub high: f64,
    /// The unit both are in.
    pub unit: &'static str,
    /// What the figure is, to print beside it.
    pub what: &'static str,
    /// How well it is known.
    pub basis: Basis,
}

const fn usual(low: f64, high: f64, unit: &'static str, what: &'static str) -> Usual {
    Usual { low, high, unit, what, basis: Basis::CommonPractice }
}

impl Usual {
    /// Whether a value, in the same unit, is within the usual range.
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }
}

/// Seam allowance on plush.
pub const PLUSH_ALLOWANCE: Usual = usual(5.0, 6.0, "mm", "seam allowance on plush");
/// Seam allowance on small parts and felt.
pub const SMALL_ALLOWANCE: Usual = usual(3.0, 4.0, "mm", "seam allowance on small parts and felt");
/// Seam allowance at the opening.
pub const OPENING_ALLOWANCE: Usual = usual(8.0, 10.0, "mm", "seam allowance at the opening");
/// A slit notch stays this far from the sew line.
pub const NOTCH_CLEARANCE: Usual = usual(2.0, 2.0, "mm", "distance from a slit notch to the sew line");

/// Length of an opening over the widest girth of what is turned through it.
pub const TURNING_OPENING: Usual = usual(1.0 / 3.0, 1.0 / 3.0, "of the girth", "length of a turning opening");
/// Least cut width of a limb that can be turned, over the pile height, allowances added (a rule of thumb).
pub const LIMB_WIDTH_PILES: Usual = usual(3.0, 3.0, "× pile height", "cut width of a limb without its two allowances");

/// Tolerance of the filling mass of a whole product.
pub const FILLING_TOTAL: Usual = usual(5.0, 5.0, "%", "tolerance of the whole filling");
/// Tolerance of the filling mass of one stuffing.
pub const FILLING_STUFFING: Usual = usual(10.0, 10.0, "%", "tolerance of the filling of a stuffing");
/// The tolerance of a filling mass is never asked finer than this.
pub const FILLING_FLOOR: Usual = usual(2.0, 3.0, "g", "finest tolerance of a filling");

/// Tolerance of a fabric's mass per area.
pub const FABRIC_MASS: Usual = usual(5.0, 5.0, "%", "tolerance of mass per area");
/// Thickness of one ply of plush with pile up to about 10 mm, pressed by foot or die.
pub const PLUSH_PLY: Usual = usual(2.0, 2.5, "mm", "pressed thickness of one ply of plush");
/// Efficiency of plain woven fabric, seen in a trade article (not a measured study); lower for one-way pile.
pub const PLAIN_EFFICIENCY: Usual =
    Usual { basis: Basis::Seen, ..usual(80.0, 85.0, "%", "efficiency of plain woven fabric") };

/// Least distance between pieces cut by a knife led by hand.
pub const GAP_HAND: Usual = usual(3.0, 5.0, "mm", "distance between pieces cut by hand");
/// Least distance between pieces cut by a machine's knife: they may share a line, or nearly.
pub const GAP_AUTOMATIC: Usual = usual(0.0, 1.0, "mm", "distance between pieces cut by an automatic knife");
/// Least distance between strikes of a die.
pub const GAP_DIE: Usual = usual(2.0, 4.0, "mm", "distance between strikes of a die");
/// Least distance between pieces cut by a laser: its kerf.
pub const GAP_LASER: Usual = usual(0.2, 1.0, "mm", "distance between pieces cut by a laser");
/// Kept free at each end of a ply.
pub const PLY_END: Usual = usual(10.0, 30.0, "mm", "fabric kept free at each end of a ply");
/// Most plies of short plush cut at once.
pub const PLIES_SHORT: Usual = usual(10.0, 10.0, "plies", "plies of short plush cut at once");
/// Most plies of long pile cut at once.
pub const PLIES_LONG: Usual = usual(1.0, 4.0, "plies", "plies of long pile cut at once");
/// Pile up to this height counts as short.
pub const SHORT_PILE: Usual = usual(10.0, 10.0, "mm", "pile height that counts as short");

/// Hours a filled product rests before it is measured.
pub const REST: Usual = usual(24.0, 24.0, "h", "rest before measuring a filled product");
/// Size factors outside which a size needs its own outline rather than scaling.
pub const SCALING: Usual = usual(0.8, 1.25, "×", "scaling of an outline to another size");
/// Greatest gross mass of a carton.
pub const CARTON: Usual = usual(15.0, 18.0, "kg", "gross mass of a carton");

/// Every figure, for the reference and the tests.
pub const ALL: &[Usual] = &[
    PLUSH_ALLOWANCE,
    SMALL_ALLOWANCE,
    OPENING_ALLOWANCE,
    NOTCH_CLEARANCE,
    TURNING_OPENING,
    LIMB_WIDTH_PILES,
    FILLING_TOTAL,
    FILLING_STUFFING,
    FILLING_FLOOR,
    FABRIC_MASS,
    PLUSH_PLY,
    PLAIN_EFFICIENCY,
    GAP_HAND,
    GAP_AUTOMATIC,
    GAP_DIE,
    GAP_LASER,
    PLY_END,
    PLIES_SHORT,
    PLIES_LONG,
    SHORT_PILE,
    REST,
    SCALING,
    CARTON,
];

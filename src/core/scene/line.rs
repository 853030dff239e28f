//! What a line means, and the one table of how each meaning is drawn.

/// The meaning of a line in a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Line {
    /// Where the fabric is cut.
    Cut,
    /// Where the needle goes when pieces are joined.
    Sew,
    /// Where the fabric is folded.
    Fold,
    /// Stitching inside a piece, which joins no edges.
    Topstitch,
    /// Where something is placed.
    Placement,
    /// Dimension lines and their extensions.
    Dimension,
    /// The grain of the fabric.
    Grain,
    /// The arrow of the pile.
    Pile,
    /// A notch across the allowance.
    Notch,
    /// The visible outline of a product or a ply.
    Outline,
    /// A leader from a number to what it names.
    Callout,
    /// Strokes that fill an area.
    Hatch,
    /// The outline of an earlier revision.
    Former,
    /// The needle through a stack.
    Needle,
    /// The white edge of a leader, so that it shows on a dark picture.
    Halo,
    /// A bar that something must be measured against.
    Bar,
    /// Another layer of a piece than the one that is sewn.
    Layer,
    /// The block a piece is cut from first.
    Block,
    /// The outline of the second size.
    Second,
    /// The outline of the third size.
    Third,
    /// The outline of the fourth size.
    Fourth,
    /// An edge that is sewn, among pieces in grey.
    Sewn,
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct LineStyle {
    /// The meaning.
    pub line: Line,
    /// Width in mm.
    pub width: f64,
    /// Lengths of dashes and gaps in mm, from the first dash; empty for a continuous line.
    pub dash: &'static [f64],
    /// Ink from 0 (white) to 100 (black), per cent.
    pub ink: u8,
}

/// Every meaning with its width, dashes and ink.
///
/// Widths and types follow the scheme of ISO 128-2:2020: in terms of the line width d a dash is 12 d,
/// a long dash 24 d, a dot at most 0.5 d and a gap 3 d (proportions *from memory*). The pairing of type
/// and meaning is ours; the sheets print it as a legend.
pub const LINES: [LineStyle; 22] = [
    solid(Line::Cut, 0.35, 100),
    dashed(Line::Sew, 0.18, &[2.16, 0.9]),
    dashed(Line::Fold, 0.25, &[6.0, 0.75, 0.125, 0.75, 0.125, 0.75]),
    dashed(Line::Topstitch, 0.25, &[0.8, 0.5]),
    solid(Line::Placement, 0.18, 100),
    solid(Line::Dimension, 0.18, 100),
    solid(Line::Grain, 0.18, 100),
    solid(Line::Pile, 0.9, 100),
    solid(Line::Notch, 0.35, 100),
    solid(Line::Outline, 0.35, 100),
    solid(Line::Callout, 0.18, 100),
    solid(Line::Hatch, 0.18, 60),
    dashed_ink(Line::Former, 0.25, &[1.5, 0.75], 60),
    solid(Line::Needle, 0.5, 100),
    solid(Line::Halo, 0.7, 0),
    solid(Line::Bar, 0.5, 100),
    dashed(Line::Layer, 0.35, &[0.35, 1.05]),
    dashed(Line::Block, 0.25, &[6.0, 1.5]),
    solid(Line::Second, 0.18, 100),
    dashed(Line::Third, 0.18, &[4.32, 0.9, 0.36, 0.9]),
    dashed(Line::Fourth, 0.18, &[4.32, 0.9, 1.08, 0.9]),
    solid(Line::Sewn, 0.8, 100),
];

impl Line {
    /// How this meaning is drawn.
    #[must_use]
    pub fn style(self) -> LineStyle {
        // The table follows the order of the enum; a test holds the two together.
        LINES.into_iter().find(|s| s.line == self).unwrap_or(solid(self, 0.25, 100))
    }
}

const fn solid(line: Line, width: f64, ink: u8) -> LineStyle {
    dashed_ink(line, width, &[], ink)
}

const fn dashed(line: Line, width: f64, dash: &'static [f64]) -> LineStyle {
    dashed_ink(line, width, dash, 100)
}

const fn dashed_ink(line: Line, width: f64, dash: &'static [f64], ink: u8) -> LineStyle {
    LineStyle { line, width, dash, ink }
}

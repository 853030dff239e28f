//! The sizes of a piece round the drawn one.

use super::{Line, Scene, Segment};
use crate::words::Phrase;

/// One more size of a piece: its cut line in true millimetres, y down, where it shares a point with the drawn one.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct NestSize {
    /// The code of the size.
    pub code: String,
    /// The cut line.
    pub cut: Vec<Segment>,
}

/// The lines of the sizes behind the drawn one, in order; a fifth size begins again, its code tells it apart.
pub(super) const OTHERS: [Line; 3] = [Line::Second, Line::Third, Line::Fourth];

/// A sample of the line of the `n`-th other size, 18 mm by 4 mm.
#[must_use]
pub fn nest_sample(n: usize, alt: impl Into<Phrase>) -> Scene {
    let mut scene = Scene::new(18.0, 4.0, alt);
    let line = OTHERS.into_iter().cycle().nth(n % OTHERS.len()).unwrap_or(Line::Second);
    scene.line(line, [0.5, 2.0], [17.5, 2.0]);
    scene
}

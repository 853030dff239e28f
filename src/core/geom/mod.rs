//! Plane geometry in millimetres: outlines, measures, allowances, the rounding grid.
//!
//! x points right and y up. Lengths come in as `f64` millimetres; results that are printed,
//! compared or hashed pass over the grid of whole micrometres in [`grid`]. Nothing here uses the
//! platform's trigonometry, so that every machine computes the same bits.

pub mod affine;
pub mod cross;
pub mod error;
pub mod fit;
pub mod flatten;
pub mod fold;
pub mod grid;
pub mod measure;
pub mod offset;
pub mod outline;
pub mod path;
pub mod place;
pub mod point;
pub mod shape;
pub mod symmetry;

pub use affine::Affine;
pub use error::{Ends, Measure, RunError, ShapeError};
pub use flatten::flatten;
pub use measure::length;
pub use offset::{Corner, Corners, CutLine, OffsetError, Worked};
pub use outline::{InternalLine, Mark, Named, Outline, Run, RunRef};
pub use path::{Path, Segment};
pub use place::Place;
pub use point::{Point, Rect};

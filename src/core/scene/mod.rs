//! Drawings as plain data: curves, labels and hatches in millimetres of paper, read by every writer.
//!
//! A scene is drawn at print size: one unit is one millimetre on the sheet, x to the right, y **down**,
//! origin at the top left corner. A drawing at 1:5 therefore holds coordinates already divided by five.
//! Lines say what they *mean* ([`Line`]); their width and dashes come from one table, so a cut line looks
//! the same on every sheet and in every file. Numbers land on the 1 µm grid when they are written.

mod edge;
mod flat;
mod item;
mod lay;
mod line;
mod map;
mod marks;
mod measured;
mod names;
mod nest;
mod outline;
mod overlay;
mod picture;
mod piece;
mod place;
mod readings;
mod seam;
mod signs;
mod skyline;
mod svg;

pub use edge::{FinishedEdge, Turned, edge};
pub use flat::{FlatPiece, FlatSeam, flat};
pub use item::{Across, Along, At, Fill, Item, Label, Path, Scene, Segment, circle, closed, grid, open};
pub use lay::{LAY_PAPER, Marks, Roll, lay, lay_at, lay_size, ply_at, ply_size, ratio, true_scale};
pub use line::{LINES, Line, LineStyle};
pub use map::{Map, MapEdge, MapPiece, overview};
pub use marks::{arrow, balloon, dimension, grain, hatch, legend_sample, pile, ring, scale_bar};
pub use measured::{Measured, measured};
pub use nest::{NestSize, nest_sample};
pub use outline::{InnerLine, NotchForm, PieceNotch, PieceOutline, PiecePoint, PieceSeam};
pub use overlay::{Laid, overlay};
pub use picture::printed;
pub use piece::{is_clear, piece, scale_for};
pub use place::{Frame, frame, meet, passes, strokes, text_width};
pub use readings::{Chart, ChartReading, readings};
pub use seam::{PileSide, StackPly, StackSeam, stack};
pub use signs::{notch_sample, point_sample, seam_sample};
pub use skyline::Skyline;
pub use svg::{noted, svg};

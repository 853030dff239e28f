//! Lays: pieces side by side on a roll of fabric, as short as a search finds. Knows outlines, not specifications.
//!
//! ```text
//! instance   pieces, demands, allowed turns, fabric
//! form       each piece in each turn, grown by half the gap, fewer corners
//! reach      where one form may not stand beside another; field: how deep it would overlap, looked up;  table: of any two
//! board      the strip: who stands where, who overlaps whom, what it weighs;  near: who is near
//! seek       a better place for one piece, settle: exactly between its neighbours;  part: all pieces until none overlap
//! start      a first lay;  block: one repeated;  worker: shorter and shorter;  pack: two workers and the budget
//! rows       strips of one shape for dies
//! laid       a lay;  lock: lays that are kept, by the key of their instance
//! valid      the independent check every lay passes
//! ```
//! The search follows the published description of overlap minimisation with guided weights (arXiv 2509.13329), with
//! depths of overlap looked up instead of estimated. Coordinates are whole micrometres, in the search too, where `f64`
//! holds them, their sums and their products exactly.

mod block;
mod board;
pub mod bound;
mod field;
mod form;
pub mod instance;
mod laid;
pub mod lock;
mod meter;
mod near;
mod overlap;
pub mod pack;
mod part;
mod random;
mod reach;
pub mod read;
pub mod report;
pub mod rows;
mod seek;
mod settle;
mod simple;
mod start;
mod table;
pub mod valid;
mod worker;

pub use bound::{Bounds, bounds};
pub use instance::{Bad, Fabric, Instance, Piece, Turn};
pub use laid::{Lay, Placed};
pub use lock::{Lock, Pattern};
pub use meter::Budget;
pub use pack::{Options, Packed, Progress, pack, usual};
pub use report::{Report, report};
pub use rows::{Row, RowLay, rows, struck};
pub use valid::Fault;

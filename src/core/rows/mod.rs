//! Figures to rows: what each sheet, workbook or page says, as typed cells. One file for each sheet.
//!
//! Everything is decided here: what is grouped, rounded, cautioned or left out, in which order, with which words. A
//! writer only arranges cells and prints them in the languages of the package.

mod cell;

pub use cell::{Cell, Coded};

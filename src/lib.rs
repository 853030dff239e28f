//! Backtack compiles a folder of plain-text specification files into one checked PDF package.

pub mod render;

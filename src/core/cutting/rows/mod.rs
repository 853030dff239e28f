//! The sheet of cutting: how the fabric is laid.

pub mod marker;

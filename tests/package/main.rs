//! Tests of the package: everything that needs the engine.

mod cushion;
mod look;
mod nasty;

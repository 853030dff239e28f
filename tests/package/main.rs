//! Tests of the package: everything that needs the engine.
#![allow(missing_docs, reason = "tests")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by a panic")]
#![allow(clippy::disallowed_methods, reason = "tests keep files of their own and check against other mathematics")]

mod archive;
mod broken;
mod built;
mod canaries;
mod cli;
mod cushion;
mod determinism;
mod docs;
mod edges;
mod examples;
mod extracts;
mod fixing;
mod folder;
mod full;
mod glyphs;
mod hostile;
mod look;
mod nasty;
mod once;
mod ordered;
mod ordering;
mod pdf;
mod privacy;
mod readback;
mod review;
mod sealing;
mod signing;
mod starts;
mod tree;
mod writing;

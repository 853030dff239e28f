//! Tests of everything that needs no engine, one module a topic.
#![allow(missing_docs, reason = "tests")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test fails by a panic")]
#![allow(clippy::disallowed_methods, reason = "tests keep files of their own and check against other mathematics")]

mod assembly;
mod circles;
mod colour;
mod compare;
mod dies;
mod edges;
mod edition;
mod examples;
mod figures;
mod forms;
mod geom;
mod glyphs;
mod lay;
mod lays;
mod orders;
mod plan;
mod printers;
mod puffin;
mod read;
mod readme;
mod revision;
mod rules;
mod samples;
mod scene;
mod schema;
mod seal;
mod standards;
mod svg;
mod tidy;
mod toy;
mod units;
mod words;

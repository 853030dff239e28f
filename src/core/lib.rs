//! Everything of backtack that needs no typesetting engine.
//!
//! ```text
//! grammar   every table and key                 of the files
//! read      folder         -> Model, findings     the only file input
//! editions  what the factory gets of the files; facts: what they state, for comparison
//! model     the whole specification as pure data, every value with its place
//! check     Model          -> findings            one file per rule
//! compute   Model          -> Figures             one file per family of numbers
//! parties   a subject: keys, model, reader, rules and rows of one table side by side
//! rows      Figures -> typed rows and cells   what every sheet says
//! scene     drawings in mm, read by every writer
//! pipeline  the stages in their order, as every command runs them
//! ```
//! `source`, `units`, `geom`, `colour`, `glyphs`, `standards` and `words` are leaves: they import nothing of ours.

pub mod check;
pub mod colour;
pub mod compute;
pub mod cutting;
pub mod diag;
pub mod editions;
pub mod facts;
pub mod geom;
pub mod glyphs;
pub mod grammar;
pub mod lay;
pub mod model;
pub mod orders;
pub mod parties;
pub mod pipeline;
pub mod read;
pub mod revision;
pub mod rows;
pub mod rules;
pub mod samples;
pub mod scene;
pub mod source;
pub mod standards;
pub mod units;
pub mod words;

//! Findings as plain data, and the rules they come from. Printers live beside them.

mod finding;
pub mod json;
pub mod manual;
mod place;
mod plain;
mod rule;
pub mod sarif;
mod sink;
pub mod text;
mod width;
mod window;

pub use finding::{Conceded, Finding, Label};
pub use place::Folder;
pub use plain::{plain, plain_lines};
pub use rule::{Rule, Severity};
pub use sink::{Findings, Levels};
pub use width::{columns, cut, wrap};

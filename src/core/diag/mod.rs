//! Findings as plain data, and the rules they come from. Printers live beside them.

mod finding;
mod rule;
mod sink;

pub use finding::{Finding, Label};
pub use rule::{Rule, Severity};
pub use sink::{Findings, Levels};

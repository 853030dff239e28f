//! One of the two specifications that are compared, read and checked.

use crate::compute::{Drawn, Figures};
use crate::diag::Findings;
use crate::model::{Assembly, Model, Statements};

/// One of the two specifications, read and checked.
#[derive(Debug, Clone, Copy)]
pub struct Side<'a> {
    /// What it states.
    pub statements: &'a Statements,
    /// The specification.
    pub model: &'a Model,
    /// Its outlines and seams.
    pub assembly: &'a Assembly,
    /// Its numbers.
    pub figures: &'a Figures,
    /// Its sew and cut lines.
    pub drawn: &'a Drawn,
    /// What was found in it.
    pub findings: &'a Findings,
}

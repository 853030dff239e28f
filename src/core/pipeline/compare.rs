//! What differs between two specifications that were read and checked.

use super::Checked;
use crate::model::Statements;
use crate::read::Loaded;
use crate::revision::compare::{self, Changes, Side};

/// Compares two specifications by meaning.
pub fn compare(before: (&Loaded, &Checked), after: (&Loaded, &Checked)) -> Changes {
    let (earlier, later) = (crate::facts::statements(before.0), crate::facts::statements(after.0));
    compare::compare(&side(before, &earlier), &side(after, &later), compare::ACCURACY)
}

fn side<'a>((loaded, checked): (&'a Loaded, &'a Checked), statements: &'a Statements) -> Side<'a> {
    Side {
        statements,
        model: &loaded.model,
        assembly: &checked.assembly,
        figures: &checked.figures,
        drawn: &checked.drawn,
        findings: &checked.findings,
    }
}

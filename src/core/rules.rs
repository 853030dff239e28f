//! The single list of every rule, for `explain`, the reference and the tests; and what the checks find.

use crate::check::{self, Context};
use crate::diag::{Findings, Rule};
use crate::model::{Assembly, Model};
use crate::read::Loaded;

/// Every rule there is, in the order of families.
pub fn all() -> Vec<&'static Rule> {
    let mut all: Vec<&'static Rule> = crate::read::rules::RULES.to_vec();
    all.extend(check::checks().map(|check| check.rule));
    for figures in
        [crate::compute::RULES, crate::cutting::rules::RULES, crate::orders::rules::RULES, crate::samples::rules::RULES]
    {
        all.extend(figures);
    }
    all
}

/// The rule with this code.
pub fn find(code: &str) -> Option<&'static Rule> {
    all().into_iter().find(|rule| rule.code == code)
}

/// What every check finds in a model, as if it were what was read.
pub fn checked(loaded: &Loaded, model: &Model, assembly: &Assembly) -> Findings {
    let codes: Vec<&'static str> = all().iter().map(|rule| rule.code).collect();
    check::run(&Context { model, assembly, levels: &loaded.level_places, codes: &codes })
}

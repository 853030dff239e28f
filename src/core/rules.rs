//! The single list of every rule, for `explain`, the reference and the tests.

use crate::diag::Rule;

/// Every rule there is, in the order of families.
pub fn all() -> Vec<&'static Rule> {
    let mut all: Vec<&'static Rule> = crate::read::rules::RULES.to_vec();
    all.extend(crate::check::CHECKS.iter().map(|check| check.rule));
    all
}

/// The rule with this code.
pub fn find(code: &str) -> Option<&'static Rule> {
    all().into_iter().find(|rule| rule.code == code)
}

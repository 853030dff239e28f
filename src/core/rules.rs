//! The single list of every rule, for `explain`, the reference and the tests; and everything they find in a folder.

use crate::check::{self, Context};
use crate::diag::{Findings, Rule};
use crate::model::Assembly;
use crate::read::Loaded;

/// Every rule there is, in the order of families.
pub fn all() -> Vec<&'static Rule> {
    let mut all: Vec<&'static Rule> = crate::read::rules::RULES.to_vec();
    all.extend(check::checks().map(|check| check.rule));
    all.extend(crate::compute::RULES);
    all
}

/// The rule with this code.
pub fn find(code: &str) -> Option<&'static Rule> {
    all().into_iter().find(|rule| rule.code == code)
}

/// Everything found in a folder, what is conceded marked so; not yet settled.
pub fn findings(loaded: &Loaded, assembly: &Assembly) -> Findings {
    let mut findings = checked(loaded, assembly);
    findings.append(crate::compute::findings(&loaded.model, assembly));
    crate::compute::lift_conceded(&loaded.model, &mut findings);
    findings
}

/// What was found while reading and by every check, without what computing finds by the way.
pub fn checked(loaded: &Loaded, assembly: &Assembly) -> Findings {
    let codes: Vec<&'static str> = all().iter().map(|rule| rule.code).collect();
    let context = Context { model: &loaded.model, assembly, levels: &loaded.level_places, codes: &codes };
    let mut findings = loaded.findings.clone();
    findings.append(check::run(&context));
    findings
}

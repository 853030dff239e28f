//! What stands in the way of a seal.

use crate::diag::{Finding, Findings, Levels, Severity};

/// What a prototype may be built with, and nothing later: rules that are a `must` at every later stage and for every seal.
const RAISED: &[&str] = &["placeholder-left"];

/// Makes those findings a `must`.
pub fn raise(findings: &mut Findings) {
    for finding in findings.iter_mut().filter(|finding| RAISED.contains(&finding.rule.code)) {
        finding.severity = Severity::Must;
    }
}

/// Findings with the severities that hold for a seal: a specification may take a rule more seriously, never less.
/// `raw` are findings as the rules gave them, before any severity of the user.
pub fn firm(raw: Findings, levels: &Levels) -> Findings {
    let mut firm = Findings::default();
    for mut finding in raw.iter().cloned() {
        if let Some(Some(wanted)) = levels.get(finding.rule.code) {
            finding.severity = finding.severity.min(*wanted);
        }
        firm.push(finding);
    }
    raise(&mut firm);
    firm.settled(&Levels::new(), false)
}

/// The findings that must be settled before a revision can be sealed, at whatever stage; one that a concession lifts is settled.
/// The screen of `status` and the cover list the same.
pub fn standing(firm: &Findings) -> Vec<&Finding> {
    firm.iter().filter(|finding| finding.severity == Severity::Must && finding.concession.is_none()).collect()
}

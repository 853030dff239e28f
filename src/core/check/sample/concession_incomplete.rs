//! Rule: a concession lacks what it lifts, who grants it, why, for what or when.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};

/// A concession that nobody could rely on.
pub const RULE: Rule = Rule {
    code: "concession-incomplete",
    family: "sample",
    severity: Severity::Must,
    summary: "a concession lacks what it lifts, who concedes, why, for what or when",
    explanation: "A concession is printed on the package, and goods are made on the strength of it. It says which finding may \
                  stand, who takes that on himself, why, for which order or quantity, and on which day. Without one of them \
                  it lifts nothing.",
    failing: "[concession.w1]\nlifts = \"open-comment\"\nitem = \"c1\"",
    passing: "[concession.w1]\nlifts = \"open-comment\"\nitem = \"c1\"\nby = \"E. Morrow\"\nreason = \"hidden by the \
              collar\"\nlimit = \"order A-118\"\ndate = \"2026-11-20\"",
    source: "common practice",
};

/// Reports each once, with everything it lacks.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, concession) in &context.model.samples.concessions {
        let refused = |key: &&str| context.model.was_refused("concession", id, key);
        let missing: Vec<&str> = concession.missing().into_iter().filter(|key| !refused(key)).collect();
        if missing.is_empty() {
            continue;
        }
        let keys: Vec<String> = missing.iter().map(|key| format!("{key} = \"..\"")).collect();
        let finding = Finding::new(&RULE, format!("concession {id} does not say everything it has to"))
            .at(concession.entry.span(), format!("no {}", missing.join(", ")));
        findings.push(finding.help(format!("add under [concession.{id}]: {}", keys.join(", "))));
    }
}

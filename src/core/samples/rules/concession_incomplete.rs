//! Rule: a concession lacks what it lifts, who grants it, why, for what or when.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

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

words! {
    MESSAGE "concession-incomplete.message" = "concession {id} does not say everything it has to";
    HERE "concession-incomplete.here" = "no {missing}";
    HELP "concession-incomplete.help" = "add under [concession.{id}]: {keys}";
}

/// Reports each once, with everything it lacks.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, concession) in &context.model.samples.concessions {
        let refused = |key: &&str| context.model.was_refused("concession", id, key);
        let missing: Vec<&str> = concession.missing().into_iter().filter(|key| !refused(key)).collect();
        if missing.is_empty() {
            continue;
        }
        let keys: Vec<String> = missing.iter().map(|key| format!("{key} = \"..\"")).collect();
        let finding = Finding::new(&RULE, say!(MESSAGE, id))
            .at(concession.entry.span(), say!(HERE, missing = missing.join(", ")));
        findings.push(finding.help(say!(HELP, id, keys = keys.join(", "))));
    }
}

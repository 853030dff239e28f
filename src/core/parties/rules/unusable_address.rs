//! Rule: an electronic address is none.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::kind;
use crate::words::{say, words};

/// An address that nothing reaches.
pub const RULE: Rule = Rule {
    code: "unusable-address",
    family: "parties",
    severity: Severity::Should,
    summary: "an electronic address is none",
    explanation: "The electronic address of the manufacturer is printed on the product or its label, so that whoever has a question \
                  reaches somebody. An e-mail address has one `@` with a name before it and a domain behind it, a web address \
                  a domain with a point.",
    failing: "[party.brand]\nelectronic = \"hello at brand\"",
    passing: "[party.brand]\nelectronic = \"hello@brand.example\"",
    source: "RFC 5321 and RFC 3986 (from memory)",
};

words! {
    MESSAGE "unusable-address.message" = "the electronic address of {what} is no e-mail or web address";
    HERE "unusable-address.here" = "nothing reaches this";
    HELP "unusable-address.help" = "write for example electronic = \"hello@brand.example\" or electronic = \"brand.example/contact\"";
}

/// Reports each such address.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, party) in &context.model.parties {
        let Some(stated) = &party.electronic else { continue };
        if stated.known().is_none_or(|text| reaches(text)) {
            continue;
        }
        let by = kind::named("party", id);
        findings.push(Finding::new(&RULE, say!(MESSAGE, what = by)).at(stated.span, HERE).help(HELP));
    }
}

/// Whether a text can be an address: each of several is one.
fn reaches(text: &str) -> bool {
    let mut words = text.split([',', ';', ' ']).filter(|word| !word.is_empty()).peekable();
    words.peek().is_some() && words.any(is_one)
}

fn is_one(word: &str) -> bool {
    let plain = word.split("://").last().unwrap_or(word);
    let (name, host) = plain.split_once('@').map_or((None, plain), |(name, host)| (Some(name), host));
    let domain = host.split(['/', ':', '?']).next().unwrap_or_default();
    let labels: Vec<&str> = domain.split('.').collect();
    let sound = labels.len() > 1 && labels.iter().all(|label| !label.is_empty() && !label.contains('@'));
    sound && name.is_none_or(|name| !name.is_empty())
}

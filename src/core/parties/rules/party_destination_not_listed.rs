//! Rule: a party answers for a destination that the style does not list.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// A destination the style was not made for.
pub const RULE: Rule = Rule {
    code: "party-destination-not-listed",
    family: "parties",
    severity: Severity::Should,
    summary: "a party answers for a destination that the style does not list",
    explanation: "Who answers for the product follows from where it is sold. A destination that only a party names was \
                  perhaps forgotten in the style, and then tests, warnings and labels for it were not asked for; or the \
                  party is left over from another style.",
    failing: "[style]\ndestinations = [\"EU\"]\n[party.north]\nrole = \"importer\"\nfor = \"NO\"",
    passing: "[style]\ndestinations = [\"EU\", \"NO\"]\n[party.north]\nrole = \"importer\"\nfor = \"NO\"",
    source: "common practice; the law of the destination decides",
};

words! {
    UNLISTED "party-destination-not-listed.unlisted" = "party {party} answers for {market}, which the style does not list";
    HERE "party-destination-not-listed.here" = "not among the destinations";
    ADD "party-destination-not-listed.add" = "add \"{code}\" to `destinations` of the style, or take it out here";
}

/// Reports each such destination.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let style = &context.model.style;
    let listed = |code: &str| style.destinations.iter().any(|one| one.value.code == code);
    for (id, party) in &context.model.parties {
        for market in party.markets.iter().filter(|market| !listed(market.value.code)) {
            let message = say!(UNLISTED, party = id, market = market.value.printed());
            let finding = Finding::new(&RULE, message).at(market.span, HERE);
            findings.push(finding.help(say!(ADD, code = market.value.code)));
        }
    }
}

//! Rule: a party does not say what the factory or the law wants to know of it.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Model;
use crate::parties::{Party, PartyRole};
use crate::words::{Word, say, words};

/// What must be known of a party.
pub const RULE: Rule = Rule {
    code: "party-incomplete",
    family: "parties",
    severity: Severity::Should,
    summary: "a party does not say what the factory or the law wants to know of it",
    explanation: "Name, postal and electronic address of the manufacturer stand on most products or their packaging, in \
                  many destinations those of the importer or of a responsible person as well. The factory prints them, so \
                  it needs them before labels are made. A sub-supplier without a process, or a party without a role, \
                  leaves it to guess whom to ask for what.",
    failing: "[style]\ndestinations = [\"EU\"]\n[party.brand]\nrole = \"manufacturer\"",
    passing: "[style]\ndestinations = [\"EU\"]\n[party.brand]\nrole = \"manufacturer\"\naddress = [\"1 Sample Lane\", \
              \"Sampletown\"]\nelectronic = \"hello@brand.example\"",
    source: "Regulation (EU) 2023/988, articles 9, 11 and 16, and Directive 2009/48/EC, articles 4 and 6 (from memory); the \
             law of the destination decides",
};

words! {
    NO_ROLE "party-incomplete.no-role" = "party {party} does not say what it has to do with the product";
    ROLE "party-incomplete.role" = "no `role`";
    ADD_ROLE "party-incomplete.add-role" = "add under [party.{party}]: role = \"importer\", or name it as owner or factory of the style";
    NO_ADDRESS "party-incomplete.no-address" = "{role} {party} has no postal address: what is printed on the product?";
    NO_ELECTRONIC "party-incomplete.no-electronic" = "{role} {party} has no e-mail or web address: what is printed on the product?";
    NO_PROCESS "party-incomplete.no-process" = "sub-supplier {party} has no process: what does it do?";
    ANSWERS "party-incomplete.answers" = "its role";
    ADD "party-incomplete.add" = "add under [party.{party}]: {example}";
}

/// Reports each party that lacks something it needs in its role.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, party) in &model.parties {
        if party.roles_in(&model.style).is_empty() && !model.was_refused("party", id, "role") {
            let finding = Finding::new(&RULE, say!(NO_ROLE, party = id)).at(party.entry.span(), ROLE);
            findings.push(finding.help(say!(ADD_ROLE, party = id)));
        }
        if let Some(process) = party.roles.iter().find(|role| role.value == PartyRole::SubSupplier)
            && party.process.is_none()
            && !model.was_refused("party", id, "process")
        {
            let finding = Finding::new(&RULE, say!(NO_PROCESS, party = id)).at(process.span, ANSWERS);
            findings.push(finding.help(say!(ADD, party = id, example = "process = \"embroidery\"")));
        }
        addresses(model, id, party, findings);
    }
}

/// Addresses of a party that answers to the authorities of a destination.
fn addresses(model: &Model, id: &str, party: &Party, findings: &mut Findings) {
    let Some(role) = party.answering() else { return };
    if model.style.destinations.is_empty() && party.markets.is_empty() {
        return;
    }
    let wanted: [(&str, bool, Word, &str); 2] = [
        (
            "address",
            party.address.is_some(),
            NO_ADDRESS,
            "address = [\"street and number\", \"place and code\", \"country\"]",
        ),
        ("electronic", party.electronic.is_some(), NO_ELECTRONIC, "electronic = \"e-mail or web address\""),
    ];
    for (key, given, message, example) in wanted {
        if given || model.was_refused("party", id, key) {
            continue;
        }
        let finding = Finding::new(&RULE, say!(message, role = role.value.word(), party = id)).at(role.span, ANSWERS);
        findings.push(finding.help(say!(ADD, party = id, example)));
    }
}

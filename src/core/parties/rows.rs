//! What the cover says of parties, and the names of the two that the style names.

use serde::Serialize;

use crate::rows::View;
use crate::words::{Phrase, Word, say, words};

use super::model::{Party, PartyRole};

words! {
    OWNER "party.owner" = "Legal owner";
    MANUFACTURER "party.manufacturer" = "Manufacturer";
    FACTORY "party.factory" = "Factory";
    IMPORTER "party.importer" = "Importer";
    RESPONSIBLE_PERSON "party.responsible-person" = "Responsible person";
    LABORATORY "party.laboratory" = "Laboratory";
    SUB_SUPPLIER "party.sub-supplier" = "Sub-supplier";
    FOR "party.for" = "{roles} for {markets}";
    PROCESS "party.process" = "{roles}: {process}";
    NUMBER "party.number" = "No. {number}";
}

/// One party, ready to print.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PartyRow {
    /// What it has to do with the product, for which destinations, by which process.
    pub role: Phrase,
    /// Its name, and what there is to remark.
    pub name: Phrase,
    /// Address, electronic address and number in a row.
    pub address: Phrase,
}

/// Every party, in the order of roles, then of ids.
pub fn rows(view: &View<'_>) -> Vec<PartyRow> {
    let mut all: Vec<(Vec<PartyRole>, &Party)> =
        view.model.parties.values().map(|party| (party.roles_in(&view.model.style), party)).collect();
    all.sort_by(|a, b| a.0.first().cmp(&b.0.first()));
    all.into_iter().map(|(roles, party)| row(view, &roles, party)).collect()
}

/// The name of the legal owner; empty where it is not said or this edition does not show it.
pub fn owner(view: &View<'_>) -> String {
    let id = view.model.style.owner.as_ref();
    id.and_then(|id| view.model.parties.get(&id.value)).map_or(String::new(), |party| party.entry.title().to_string())
}

fn row(view: &View<'_>, roles: &[PartyRole], party: &Party) -> PartyRow {
    let mut role = Phrase::list(roles.iter().map(|role| word(*role)));
    if !party.markets.is_empty() {
        let markets = Phrase::list(party.markets.iter().map(|market| market.value.printed()));
        role = say!(FOR, roles = role, markets);
    }
    let process = view.text(party.process.as_ref());
    if !process.is_empty() {
        role = say!(PROCESS, roles = role, process);
    }
    let number = match view.text(party.number.as_ref()) {
        "" => Phrase::none(),
        number => say!(NUMBER, number),
    };
    let lines = party.address.as_ref().and_then(|address| address.known()).map(|lines| lines.join(", "));
    let electronic = view.text(party.electronic.as_ref());
    PartyRow {
        role,
        name: Phrase::lines([party.entry.title(), view.text(party.note.as_ref())]),
        address: Phrase::row([lines.unwrap_or_default().into(), Phrase::from(electronic), number], " · "),
    }
}

fn word(role: PartyRole) -> Word {
    match role {
        PartyRole::Owner => OWNER,
        PartyRole::Manufacturer => MANUFACTURER,
        PartyRole::Factory => FACTORY,
        PartyRole::Importer => IMPORTER,
        PartyRole::ResponsiblePerson => RESPONSIBLE_PERSON,
        PartyRole::Laboratory => LABORATORY,
        PartyRole::SubSupplier => SUB_SUPPLIER,
    }
}

//! A party and its roles.

use crate::model::{Entry, Stated, Style};
use crate::source::Spanned;
use crate::standards::market::Market;

/// What a party has to do with the product.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PartyRole {
    /// Legal owner of the specification.
    Owner,
    /// Puts its name on the product.
    Manufacturer,
    /// Makes it.
    Factory,
    /// Brings it into a market.
    Importer,
    /// Answers for it to the authorities of a market.
    ResponsiblePerson,
    /// Tests it.
    Laboratory,
    /// Does one process for the factory.
    SubSupplier,
}

impl PartyRole {
    /// Every role, in the order in which parties are listed.
    pub const ALL: [PartyRole; 7] = [
        PartyRole::Owner,
        PartyRole::Manufacturer,
        PartyRole::Factory,
        PartyRole::Importer,
        PartyRole::ResponsiblePerson,
        PartyRole::Laboratory,
        PartyRole::SubSupplier,
    ];

    /// The word of the file.
    pub fn word(self) -> &'static str {
        match self {
            PartyRole::Owner => "owner",
            PartyRole::Manufacturer => "manufacturer",
            PartyRole::Factory => "factory",
            PartyRole::Importer => "importer",
            PartyRole::ResponsiblePerson => "responsible person",
            PartyRole::Laboratory => "laboratory",
            PartyRole::SubSupplier => "sub-supplier",
        }
    }

    /// Whether the law of a destination may want its name and addresses on the product.
    pub fn answers(self) -> bool {
        matches!(self, PartyRole::Manufacturer | PartyRole::Importer | PartyRole::ResponsiblePerson)
    }
}

/// Somebody who has to do with the product.
#[derive(Debug, Clone)]
pub struct Party {
    /// Id and name.
    pub entry: Entry,
    /// What it has to do with the product, as written.
    pub roles: Vec<Spanned<PartyRole>>,
    /// Postal address, line by line.
    pub address: Option<Stated<Vec<String>>>,
    /// E-mail or web address.
    pub electronic: Option<Stated<String>>,
    /// Registration number.
    pub number: Option<Stated<String>>,
    /// Destinations it answers for; all where there are none.
    pub markets: Vec<Spanned<Market>>,
    /// What a sub-supplier does.
    pub process: Option<Stated<String>>,
    /// A remark.
    pub note: Option<Stated<String>>,
}

/// The two parties that a style names, with the role that this gives them.
pub fn named(style: &Style) -> impl Iterator<Item = (&Spanned<String>, PartyRole)> {
    let named = [(&style.owner, PartyRole::Owner), (&style.factory, PartyRole::Factory)];
    named.into_iter().filter_map(|(id, role)| Some((id.as_ref()?, role)))
}

impl Party {
    /// Its roles with those that the style gives it by naming it, in their order, each once.
    pub fn roles_in(&self, style: &Style) -> Vec<PartyRole> {
        let given = named(style).filter(|(id, _)| id.value == self.entry.id.value).map(|(_, role)| role);
        let mut all: Vec<PartyRole> = self.roles.iter().map(|role| role.value).chain(given).collect();
        all.sort();
        all.dedup();
        all
    }

    /// Whether all it is there for is to be named by the style: as its owner or its factory.
    pub fn is_for_the_style(&self) -> bool {
        let named = |role: &Spanned<PartyRole>| matches!(role.value, PartyRole::Owner | PartyRole::Factory);
        !self.roles.is_empty() && self.roles.iter().all(named)
    }

    /// Its first role that answers to the authorities of a market.
    pub fn answering(&self) -> Option<Spanned<PartyRole>> {
        self.roles.iter().find(|role| role.value.answers()).cloned()
    }
}

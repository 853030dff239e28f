//! Reads parties.

use crate::model::{Entry, Model};
use crate::read::{Declarations, Reader, Section};
use crate::source::Spanned;

use super::model::{Party, PartyRole};

impl Reader {
    /// Parties.
    pub fn parties(&mut self, declared: &Declarations, model: &mut Model) {
        model.parties = self.each(declared, "party", |reader, section, entry| reader.party(section, entry));
    }

    fn party(&mut self, section: &Section<'_>, entry: Entry) -> Party {
        Party {
            entry,
            roles: self.party_roles(section),
            address: self.lines_of(section, "address"),
            electronic: self.text(section, "electronic"),
            number: self.text(section, "number"),
            markets: self.markets(section, "for"),
            process: self.text(section, "process"),
            note: self.text(section, "note"),
        }
    }

    fn party_roles(&mut self, section: &Section<'_>) -> Vec<Spanned<PartyRole>> {
        let words = self.choices(section, "role");
        let role = |word: Spanned<String>| {
            let role = PartyRole::ALL.into_iter().find(|role| role.word() == word.value)?;
            Some(Spanned::new(role, word.span))
        };
        words.into_iter().filter_map(role).collect()
    }
}

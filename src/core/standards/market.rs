//! Where a product is sold: a country by its code of ISO 3166-1, or the European Union.

use super::country::COUNTRIES;

/// What stands for the European Union. ISO 3166-1 lists no union of countries, and keeps `EU` for this one (from memory).
const UNION: Market = Market { code: "EU", name: "European Union", others: &[] };

/// A country, or the European Union.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Market {
    /// Two letters.
    pub code: &'static str,
    /// The English short name of the standard.
    name: &'static str,
    /// Everyday names, the one that is printed first.
    others: &'static [&'static str],
}

impl Market {
    /// Every market, the European Union first, then countries by code.
    pub fn all() -> impl Iterator<Item = Market> {
        let country = |(code, name, others): &super::country::Row| Market { code, name, others };
        std::iter::once(UNION).chain(COUNTRIES.iter().map(country))
    }

    /// The market with this code or name; large and small letters are the same.
    pub fn of(text: &str) -> Option<Market> {
        let same = |one: &str| one.to_lowercase() == text.to_lowercase();
        Market::all().find(|market| same(market.code) || market.names().any(same))
    }

    /// What is printed: `United States`.
    pub fn short(&self) -> &'static str {
        self.others.first().unwrap_or(&self.name)
    }

    /// Every name that is accepted.
    pub fn names(&self) -> impl Iterator<Item = &'static str> {
        std::iter::once(self.name).chain(self.others.iter().copied())
    }

    /// Name and code: `United States (US)`.
    pub fn printed(&self) -> String {
        format!("{} ({})", self.short(), self.code)
    }
}

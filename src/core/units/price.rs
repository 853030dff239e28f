//! Prices: an amount of money for so much of something, as a line of a quotation has it.

use super::Rational;

/// A price of a metre, a yard or a kilogram.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Price<'a> {
    /// How much of the currency; not negative.
    pub amount: Rational,
    /// The currency as written.
    pub currency: &'a str,
    /// Of what: `m`, `yd` or `kg`.
    pub unit: &'a str,
}

impl Price<'_> {
    /// What a price can be of.
    pub const UNITS: [&'static str; 3] = ["m", "yd", "kg"];

    /// Reads `4.20 EUR/m`, `4.20 EUR/yd` or `14 EUR/kg`, and nothing else.
    pub fn parse(text: &str) -> Option<Price<'_>> {
        let (amount, unit) = text.split_once('/')?;
        let (amount, currency) = amount.trim().split_once(' ')?;
        let amount = Rational::parse(amount.trim()).filter(|amount| !amount.is_negative())?;
        let (currency, unit) = (currency.trim(), unit.trim());
        let sound = !currency.is_empty() && !currency.contains(|c: char| c.is_ascii_digit());
        (sound && Price::UNITS.contains(&unit)).then_some(Price { amount, currency, unit })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prices_are_read_in_one_form() {
        let price = Price::parse("4.20 EUR/m").unwrap();
        assert_eq!((price.amount, price.currency, price.unit), (Rational::parse("4.2").unwrap(), "EUR", "m"));
        for text in ["4,20 EUR/m", "EUR 4.20/m", "4.20 EUR", "4.20/m", "-1 EUR/m", "4.20 EUR/pc", "4.20EUR/m"] {
            assert_eq!(Price::parse(text), None, "{text}");
        }
    }
}

//! Ages of people: whole months or years, as an age grade is written.

use std::fmt;

/// The oldest age that can be written, years.
const OLDEST: u32 = 99;
/// Months of a year.
const YEAR: u32 = 12;

/// An age in months or years.
#[derive(Debug, Clone, Copy)]
pub struct Age {
    count: u32,
    years: bool,
}

impl Age {
    /// `36 months`, `3 years`, `1 year`; nothing for any other text.
    pub fn parse(text: &str) -> Option<Age> {
        let text = text.trim();
        let end = text.find(|c: char| !c.is_ascii_digit())?;
        let count: u32 = text.get(..end)?.parse().ok()?;
        let years = match text.get(end..)?.trim() {
            "month" | "months" => false,
            "year" | "years" => true,
            _ => return None,
        };
        let age = Age { count, years };
        (count <= OLDEST * YEAR && age.months() <= OLDEST * YEAR).then_some(age)
    }

    /// The same in months.
    pub fn months(self) -> u32 {
        if self.years { self.count * YEAR } else { self.count }
    }
}

impl PartialEq for Age {
    fn eq(&self, other: &Age) -> bool {
        self.months() == other.months()
    }
}

impl Eq for Age {}

impl fmt::Display for Age {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = if self.years { "year" } else { "month" };
        let many = if self.count == 1 { "" } else { "s" };
        write!(out, "{} {word}{many}", self.count)
    }
}

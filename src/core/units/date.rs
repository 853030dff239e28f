//! Days of the Gregorian calendar, as ISO 8601-1 writes them.

use std::fmt;
use std::str::FromStr;

use serde::{Serialize, Serializer};

/// A day of the Gregorian calendar, written as ISO 8601-1 has it: `2026-11-20`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// The day, or nothing if the calendar has no such day or the year is outside 1583 to 9999 (what ISO 8601 allows
    /// without further agreement).
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let last = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => 29,
            2 => 28,
            _ => return None,
        };
        let known = (1583..=9999).contains(&year) && (1..=last).contains(&day);
        known.then_some(Date { year, month, day })
    }

    /// Reads `yyyy-mm-dd`, and nothing else.
    fn read(text: &str) -> Option<Self> {
        let digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
        let mut parts = text.split('-');
        let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
        let shape = [year.len(), month.len(), day.len()] == [4, 2, 2] && parts.next().is_none();
        if !shape || ![year, month, day].iter().all(|part| digits(part)) {
            return None;
        }
        Date::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
    }

    /// The year.
    pub fn year(self) -> u16 {
        self.year
    }

    /// The month, 1 to 12.
    pub fn month(self) -> u8 {
        self.month
    }

    /// The day of the month, from 1.
    pub fn day(self) -> u8 {
        self.day
    }
}

/// A text is no day written `yyyy-mm-dd`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoDate(String);

impl fmt::Display for NoDate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "\"{}\" is no date; write year, month and day: 2026-11-20", self.0)
    }
}

impl std::error::Error for NoDate {}

impl FromStr for Date {
    type Err = NoDate;

    fn from_str(text: &str) -> Result<Self, NoDate> {
        Date::read(text).ok_or_else(|| NoDate(text.to_string()))
    }
}

impl Serialize for Date {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

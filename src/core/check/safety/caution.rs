//! Whom a caution is about: toys, the youngest; and how one is told.

use crate::diag::Finding;
use crate::model::Model;
use crate::standards::safety::{Caution, DEFERRAL};

/// Adds the text of a caution, what it follows, and who decides.
pub fn caution(finding: Finding, caution: &Caution) -> Finding {
    let follows: Vec<String> =
        caution.follows.iter().map(|one| format!("{} ({})", one.text, one.basis.words())).collect();
    finding.help(caution.text).help(format!("follows: {}", follows.join("; "))).help(DEFERRAL)
}

/// Whether a child plays with it: the product is called a toy, or an age is given that is not refused in words.
pub fn is_toy(model: &Model) -> bool {
    let known = |stated: &Option<crate::model::Stated<String>>| {
        stated.as_ref().and_then(|stated| stated.known()).map_or(String::new(), |text| text.to_lowercase())
    };
    let (age, product) = (known(&model.style.age), known(&model.style.product));
    if age.contains("not a toy") {
        return false;
    }
    let words = ["toy", "doll", "puppet", "plush", "teddy", "rattle", "comforter"];
    words.iter().any(|word| product.contains(word)) || months(&age).is_some()
}

/// Whether the youngest children may get it: an age below 36 months, or a toy whose age is not given.
pub fn is_for_the_youngest(model: &Model) -> bool {
    let age = model.style.age.as_ref().and_then(|stated| stated.known());
    let youngest = age.and_then(|text| months(&text.to_lowercase()));
    is_toy(model) && youngest.is_none_or(|months| months < crate::standards::age::SMALL_PARTS.under_months)
}

/// The age from which a product is meant, in months: `3+`, `from 18 months`, `0-36 m`, `all ages`.
fn months(age: &str) -> Option<u32> {
    if ["birth", "newborn", "all ages", "any age", "under 3", "baby", "babies"].iter().any(|word| age.contains(word)) {
        return Some(0);
    }
    let start = age.find(|c: char| c.is_ascii_digit())?;
    let rest = age.get(start..)?;
    let end = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
    let number: u32 = rest.get(..end)?.parse().ok()?;
    let in_months = rest.get(end..)?.contains('m');
    Some(if in_months { number } else { number.saturating_mul(12) })
}

#[cfg(test)]
mod tests {
    use super::months;

    #[test]
    fn ages_are_read_in_months() {
        let read = [("3+", 36), ("from 18 months", 18), ("0-36 m", 0), ("all ages", 0), ("8 years and over", 96)];
        for (text, wanted) in read {
            assert_eq!(months(text), Some(wanted), "{text}");
        }
        assert_eq!(months("adults"), None);
    }
}

//! Whom a caution is about: toys, the youngest, trims with a word; and how one is told.

use crate::check::Context;
use crate::check::mention::{Wanted, articles, mentions};
use crate::diag::Finding;
use crate::model::{Article, ArticleKind, Model};
use crate::standards::safety::{Caution, DEFERRAL};
use crate::words::{say, words};

words! {
    HELP "safety.caution.help" = "follows: {follows}";
}

/// Adds the text of a caution, what it follows, and who decides.
pub fn caution(finding: Finding, caution: &Caution) -> Finding {
    let follows: Vec<String> =
        caution.follows.iter().map(|one| format!("{} ({})", one.text, one.basis.words())).collect();
    finding.help(caution.text).help(say!(HELP, follows = follows.join("; "))).help(DEFERRAL)
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

/// Trims in use whose sort or name has one of these words, in the order of their ids.
pub fn trims<'m>(context: &Context<'m>, words: &[&str]) -> Vec<&'m Article> {
    let model = context.model;
    let named: Vec<&str> = mentions(model)
        .iter()
        .filter(|one| matches!(one.wanted, Wanted::Material(ArticleKind::Trim)))
        .flat_map(|one| articles(model, one.id))
        .map(|article| article.entry.id.value.as_str())
        .collect();
    let trims = model.articles.values().filter(|article| article.kind == ArticleKind::Trim);
    trims
        .filter(|trim| named.contains(&trim.entry.id.value.as_str()) || trim.properties.contains_key("use"))
        .filter(|trim| has_word(trim, words))
        .collect()
}

/// Whether the sort has one of these words; the name, where no sort is given.
fn has_word(article: &Article, words: &[&str]) -> bool {
    let sorts = article.text("type").into_iter().flat_map(|value| value.all()).filter_map(|stated| stated.known());
    let mut texts: Vec<String> = sorts.map(|text| text.to_lowercase()).collect();
    if texts.is_empty() {
        texts.push(article.entry.title().to_lowercase());
    }
    let is = |text: &String, word: &&str| {
        text.split(|c: char| !c.is_alphanumeric()).any(|one| one == *word || one.strip_suffix('s') == Some(*word))
    };
    texts.iter().any(|text| words.iter().any(|word| is(text, word)))
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

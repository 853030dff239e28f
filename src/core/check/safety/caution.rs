//! Whom a caution is about: toys, the youngest, trims with a word; and how one is told.

use crate::check::Context;
use crate::check::mention::{Wanted, articles, mentions};
use crate::diag::Finding;
use crate::model::{Article, ArticleKind, Model, Product};
use crate::standards::age::SMALL_PARTS;
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

/// Whether the specification says that it is a toy.
pub fn is_toy(model: &Model) -> bool {
    model.style.kind.as_ref().is_some_and(|kind| kind.value == Product::Toy)
}

/// Whether the youngest children may get it: a toy from an age below 36 months, or one whose age is not given.
pub fn is_for_the_youngest(model: &Model) -> bool {
    let from = model.style.age.as_ref().and_then(|age| age.from.as_ref());
    is_toy(model) && from.is_none_or(|from| from.value.months() < SMALL_PARTS.under_months)
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

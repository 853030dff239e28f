//! What every family of figures is computed from, and quantities as plain numbers.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::model::{Article, Assembly, Model, Variant};
use crate::words::{Phrase, say};

use super::Figure;
use super::figure::NOT_STATED;
use super::lines::Drawn;
use super::reason::NO_ARTICLE_IN_COLOURWAY;

/// What every family of numbers is computed from.
#[derive(Clone, Copy)]
pub(crate) struct Ground<'a> {
    /// The specification.
    pub model: &'a Model,
    /// Outlines, instances, resolved seams.
    pub assembly: &'a Assembly,
    /// Sew and cut lines.
    pub drawn: &'a Drawn,
}

/// Figures by size, then by colourway. [`super::Figures::sizes`] gives the order of sizes.
pub type ByVariant<T> = BTreeMap<String, BTreeMap<String, T>>;

/// What a material name stands for: an article and the colour it is bought in.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Bought {
    /// Id of the article.
    pub article: String,
    /// Id of the colour; absent where none is named.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub colour: Option<String>,
}

impl<'a> Ground<'a> {
    /// One value for every product.
    pub fn by_variant<T>(&self, make: impl Fn(Variant<'a>) -> T) -> ByVariant<T> {
        let mut all: ByVariant<T> = BTreeMap::new();
        for variant in self.model.variants() {
            all.entry(variant.size.to_string()).or_default().insert(variant.colourway.to_string(), make(variant));
        }
        all
    }

    /// One value for every size.
    pub fn by_size<T>(&self, make: impl Fn(&'a str) -> T) -> BTreeMap<String, T> {
        let sizes = self.model.sizes.iter().map(|size| size.entry.id.value.as_str());
        sizes.map(|size| (size.to_string(), make(size))).collect()
    }

    /// What a role or article is in a colourway.
    pub fn bought(&self, material: Option<&'a str>, colourway: &str, what: impl Into<Phrase>) -> Figure<Bought> {
        let Some(material) = material else { return Figure::not_yet(say!(NOT_STATED, what)) };
        match self.model.resolve(material, colourway) {
            Some((article, colour)) => Figure::Known(Bought {
                article: article.entry.id.value.clone(),
                colour: colour.map(ToString::to_string),
            }),
            None => Figure::not_yet(say!(NO_ARTICLE_IN_COLOURWAY, material, colourway)),
        }
    }

    /// The article of something bought.
    pub fn article(&self, bought: &Bought) -> Option<&'a Article> {
        self.model.articles.get(&bought.article)
    }
}

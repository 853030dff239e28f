//! What is bought: articles with their fibres, their colours, and the roles they fill.

use std::collections::BTreeMap;

use crate::source::{Span, Spanned};
use crate::units::Quantity;

use super::bought::ArticleKind;
use super::property::Property;
use super::{Entry, Stated};

/// The fibres of one layer of an article (`pile`, `ground`, or `all`).
#[derive(Debug, Clone)]
pub struct Composition {
    /// Which layer.
    pub layer: Spanned<String>,
    /// Fibre and its share in percent.
    pub fibres: Vec<(Spanned<String>, Stated<Quantity>)>,
    /// Where it stands.
    pub span: Span,
}

/// Something that is bought.
#[derive(Debug, Clone)]
pub struct Article {
    /// Id and name.
    pub entry: Entry,
    /// What kind of thing it is.
    pub kind: ArticleKind,
    /// Its properties, by the keys of [`super::property`].
    pub properties: BTreeMap<&'static str, Property>,
    /// Fibres by layer.
    pub composition: Vec<Composition>,
    /// Colours it is bought in.
    pub colours: Vec<Spanned<String>>,
}

/// A colour.
#[derive(Debug, Clone)]
pub struct Colour {
    /// Id and name.
    pub entry: Entry,
    /// A free reference: swatch, dye or thread shade.
    pub reference: Option<Stated<String>>,
    /// CIELAB target L*, a*, b*.
    pub lab: Option<Stated<[f64; 3]>>,
    /// Largest CIEDE2000 difference from the target that is accepted.
    pub limit: Option<Stated<f64>>,
    /// For the screen only: `#rrggbb`.
    pub screen: Option<Stated<[u8; 3]>>,
}

/// A role that colourways map to an article and a colour.
#[derive(Debug, Clone)]
pub struct Role {
    /// Id and name.
    pub entry: Entry,
    /// A remark.
    pub note: Option<Stated<String>>,
}

impl Article {
    /// A property that is a quantity.
    pub fn quantity(&self, key: &str) -> Option<&super::Value<Quantity>> {
        match self.properties.get(key) {
            Some(Property::Quantity(value)) => Some(value),
            _ => None,
        }
    }

    /// A property that is text.
    pub fn text(&self, key: &str) -> Option<&super::Value<String>> {
        match self.properties.get(key) {
            Some(Property::Text(value)) => Some(value),
            _ => None,
        }
    }

    /// Whether its sort is an eye or a nose.
    pub fn is_eye(&self) -> bool {
        let types = self.text("type").into_iter().flat_map(super::Value::all).filter_map(Stated::known);
        let word = |word: &str| matches!(word, "eye" | "eyes" | "nose" | "noses");
        types.into_iter().any(|text| text.to_lowercase().split(|c: char| !c.is_alphabetic()).any(word))
    }
}

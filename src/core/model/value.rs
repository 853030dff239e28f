//! Values as stated: how binding they are, who may see them, and how they differ by size and colourway.

use std::collections::BTreeMap;

use crate::source::Span;

/// How binding a value is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Binding {
    /// The product must have it.
    #[default]
    Required,
    /// The factory confirms it or proposes another.
    Confirm,
    /// The factory fills it in.
    FillIn,
    /// For information.
    Information,
}

/// Who may see a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Audience {
    /// Whoever has the package.
    #[default]
    Everyone,
    /// The own edition only.
    Own,
}

/// What was given for a value.
#[derive(Debug, Clone, PartialEq)]
pub enum Given<T> {
    /// The value itself.
    Known(T),
    /// The factory will say.
    ByFactory,
    /// It exists and is not shown in this edition; the salted digest stands in its place.
    Withheld(String),
}

/// One value as stated, with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Stated<T> {
    /// What was given.
    pub given: Given<T>,
    /// How binding it is.
    pub binding: Binding,
    /// Who may see it.
    pub audience: Audience,
    /// Where it stands.
    pub span: Span,
}

impl<T> Stated<T> {
    /// A plain required value for everyone.
    pub fn plain(value: T, span: Span) -> Self {
        Stated { given: Given::Known(value), binding: Binding::Required, audience: Audience::Everyone, span }
    }

    /// The value, if it is known here.
    pub fn known(&self) -> Option<&T> {
        match &self.given {
            Given::Known(value) => Some(value),
            Given::ByFactory | Given::Withheld(_) => None,
        }
    }
}

/// One product among those a style makes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Variant<'a> {
    /// Size id.
    pub size: &'a str,
    /// Colourway id.
    pub colourway: &'a str,
}

/// A value that may differ by size or colourway.
#[derive(Debug, Clone, PartialEq)]
pub struct Value<T> {
    /// The value for every code that has none of its own.
    pub otherwise: Option<Stated<T>>,
    /// Values by size or colourway code, each with the place of its code.
    pub by: BTreeMap<String, (Span, Stated<T>)>,
    /// Where the whole value stands.
    pub span: Span,
}

impl<T> Value<T> {
    /// The same value for every product.
    pub fn same(stated: Stated<T>) -> Self {
        Value { span: stated.span, otherwise: Some(stated), by: BTreeMap::new() }
    }

    /// The value for one product: by size, by colourway, or for all others.
    pub fn of(&self, variant: Variant<'_>) -> Option<&Stated<T>> {
        let coded = self.by.get(variant.size).or_else(|| self.by.get(variant.colourway));
        coded.map(|(_, stated)| stated).or(self.otherwise.as_ref())
    }

    /// The known value for one product.
    pub fn known(&self, variant: Variant<'_>) -> Option<&T> {
        self.of(variant).and_then(Stated::known)
    }

    /// Every stated value once, in the order of codes.
    pub fn all(&self) -> impl Iterator<Item = &Stated<T>> {
        self.otherwise.iter().chain(self.by.values().map(|(_, stated)| stated))
    }

    /// Whether the value differs between products.
    pub fn varies(&self) -> bool {
        !self.by.is_empty()
    }
}

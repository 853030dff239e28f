//! What a sheet says of something that is bought: every property that is stated, with its size or colourway where it differs.

use crate::model::property::{Property, Spec, of};
use crate::model::{Article, Binding, Given, Stated, Value};
use crate::source::Spanned;
use crate::units::Quantity;
use crate::words::{Phrase, Word, head, number, say, words};

use super::view::View;

words! {
    SHARE "article.share" = "{share} {fibre}";
    LAYER "article.layer" = "{layer} {fibres}";
    MEASURE "article.measure" = "{what} {value}";
    WORDS "article.words" = "{what}: {value}";
    CODED "article.coded" = "{code} {value}";
    OTHERWISE "article.otherwise" = "otherwise {value}";
    BOUND "article.bound" = "{value} ({binding})";
}

/// Properties that have a place of their own on the bill.
const ELSEWHERE: [&str; 7] = ["supplier", "article", "minimum-order", "lead-time", "price", "use", "note"];

/// Type, fibres, every other property by its name, and the remark.
pub fn details(view: &View<'_>, article: &Article) -> Phrase {
    let all = properties(view, article, |key| !ELSEWHERE.contains(&key));
    Phrase::row([all, value(view, article, "note")], ". ")
}

/// Type, fibres, and other properties by their names.
pub fn properties(view: &View<'_>, article: &Article, wanted: impl Fn(&str) -> bool) -> Phrase {
    let rest = of(article.kind).filter(|spec| spec.key != "type" && wanted(spec.key));
    let all = [value(view, article, "type")]
        .into_iter()
        .chain(layers(article))
        .chain(rest.map(|spec| named(view, article, spec)));
    Phrase::row(all, "; ")
}

/// What the owner asks of whoever supplies it.
pub fn asked(view: &View<'_>, article: &Article) -> Phrase {
    let asked = of(article.kind).filter(|spec| ["minimum-order", "lead-time", "price"].contains(&spec.key));
    Phrase::row(asked.map(|spec| named(view, article, spec)), "; ")
}

/// Fibres by layer.
fn layers(article: &Article) -> impl Iterator<Item = Phrase> {
    article.composition.iter().map(|layer| {
        let fibre = |(fibre, share): &(Spanned<String>, Stated<Quantity>)| {
            Some(say!(SHARE, share = number::quantity(share.known()?), fibre = &fibre.value))
        };
        let fibres = Phrase::list(layer.fibres.iter().filter_map(fibre));
        match layer.layer.value.as_str() {
            "all" => fibres,
            layer => say!(LAYER, layer, fibres),
        }
    })
}

/// A property with its name; nothing where it is not stated.
fn named(view: &View<'_>, article: &Article, spec: &Spec) -> Phrase {
    let value = value(view, article, spec.key);
    match article.properties.get(spec.key) {
        _ if value.is_empty() => Phrase::none(),
        Some(Property::Quantity(_)) => say!(MEASURE, what = spec.title, value),
        _ => say!(WORDS, what = spec.title, value),
    }
}

/// A property as written; with its size or colourway where it differs.
pub fn value(view: &View<'_>, article: &Article, key: &str) -> Phrase {
    match article.properties.get(key) {
        Some(Property::Text(value)) => coded(view, value, |text| text.into()),
        Some(Property::Quantity(value)) => coded(view, value, |one| number::quantity(one).into()),
        None => Phrase::none(),
    }
}

/// A value as it is stated for all, or for each size or colourway in the user's order: `S 15 mm, L 18 mm`.
pub fn coded<T>(view: &View<'_>, value: &Value<T>, write: impl Fn(&T) -> Phrase) -> Phrase {
    let text = |stated: &Stated<T>| bound(stated, &write);
    let by = view.model.codes().into_iter().filter_map(|code| {
        let (_, stated) = value.by.get(code)?;
        Some(say!(CODED, code, value = text(stated)))
    });
    let mut all: Vec<Phrase> = by.collect();
    if let Some(stated) = &value.otherwise {
        let text = text(stated);
        all.push(if all.is_empty() { text } else { say!(OTHERWISE, value = text) });
    }
    Phrase::list(all)
}

/// A value, and what it is where it is not simply required.
fn bound<T>(stated: &Stated<T>, write: &impl Fn(&T) -> Phrase) -> Phrase {
    let with = |value: &T, binding: Word| say!(BOUND, value = write(value), binding);
    match (&stated.given, stated.binding) {
        (Given::Known(value), Binding::Required) => write(value),
        (Given::Known(value), Binding::Confirm | Binding::FillIn) => with(value, head::TO_CONFIRM),
        (Given::Known(value), Binding::Information) => with(value, head::INFORMATION),
        (Given::ByFactory, _) => head::BY_FACTORY.into(),
        (Given::Withheld(_), _) => head::WITHHELD.into(),
    }
}

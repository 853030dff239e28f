//! For which sizes and colourways a value changed.

use std::collections::BTreeSet;

use crate::model::Model;

use super::names::Names;

/// A size and a colourway.
pub type Product<'a> = (&'a str, &'a str);

/// Products whose value changed in the same way.
#[derive(Debug)]
pub struct Group<'t, T> {
    /// The value before.
    pub before: Option<&'t T>,
    /// The value after.
    pub after: Option<&'t T>,
    /// Which products, in the shortest way to say it; empty for all.
    pub scope: Vec<String>,
}

/// Sizes and colourways of both specifications, by their later ids.
#[derive(Debug)]
pub struct Products {
    /// Sizes that both have, in the later order.
    pub sizes: Vec<String>,
    /// Colourways that both have.
    pub colourways: Vec<String>,
    /// Sizes and colourways that only the later one has.
    pub new: Vec<String>,
    /// Every size and every colourway of the later one.
    all: (Vec<String>, Vec<String>),
}

impl Products {
    /// What both have, and what is new.
    pub fn of(before: &Model, after: &Model, names: &Names) -> Products {
        let sizes =
            |model: &Model| -> Vec<String> { model.sizes.iter().map(|one| one.entry.id.value.clone()).collect() };
        let old: BTreeSet<String> =
            sizes(before).into_iter().chain(before.colourways.keys().cloned()).map(|code| names.code(&code)).collect();
        let colourways: Vec<String> = after.colourways.keys().cloned().collect();
        let (kept_sizes, new_sizes): (Vec<String>, Vec<String>) =
            sizes(after).into_iter().partition(|code| old.contains(code));
        let (kept, new): (Vec<String>, Vec<String>) = colourways.into_iter().partition(|code| old.contains(code));
        let all = (sizes(after), after.colourways.keys().cloned().collect());
        Products { sizes: kept_sizes, colourways: kept, new: new_sizes.into_iter().chain(new).collect(), all }
    }

    /// Every pair of size and colourway that both have.
    pub fn common(&self) -> Vec<Product<'_>> {
        let pairs = |size| self.colourways.iter().map(move |colourway: &String| (size, colourway.as_str()));
        self.sizes.iter().map(String::as_str).flat_map(pairs).collect()
    }

    /// Values before and after, products with alike values together in the order of the first.
    pub fn groups<'t, T>(
        &self,
        values: impl Fn(Product<'_>) -> (Option<&'t T>, Option<&'t T>),
        alike: impl Fn(Option<&T>, Option<&T>) -> bool,
    ) -> Vec<Group<'t, T>> {
        let mut groups: Vec<(Group<'t, T>, Vec<Product<'_>>)> = Vec::new();
        for product in self.common() {
            put(&mut groups, product, values(product), &alike);
        }
        groups.into_iter().map(|(group, list)| Group { scope: self.said(&list), ..group }).collect()
    }

    /// The same for products that only the later one has: one by one where a size or colourway is not alike in all.
    pub fn added<'t, T>(
        &self,
        values: impl Fn(Product<'_>) -> (Option<&'t T>, Option<&'t T>),
        alike: impl Fn(Option<&T>, Option<&T>) -> bool,
    ) -> Vec<Group<'t, T>> {
        let mut out = Vec::new();
        for code in &self.new {
            let of_code = |one: &Product<'_>| one.0 == code || one.1 == code;
            let mut groups: Vec<(Group<'t, T>, Vec<Product<'_>>)> = Vec::new();
            for size in &self.all.0 {
                let pairs = self.all.1.iter().map(|colourway| (size.as_str(), colourway.as_str()));
                pairs.filter(of_code).for_each(|product| put(&mut groups, product, values(product), &alike));
            }
            let single = groups.len() == 1;
            let scope = |list: Vec<Product<'_>>| match single {
                true => vec![code.clone()],
                false => list.into_iter().map(|(size, colourway)| format!("{size}/{colourway}")).collect(),
            };
            out.extend(groups.into_iter().map(|(group, list)| Group { scope: scope(list), ..group }));
        }
        out
    }

    /// The shortest way to say these pairs: nothing for all, sizes or colourways where they suffice, else pairs.
    fn said(&self, pairs: &[Product<'_>]) -> Vec<String> {
        let common = self.common();
        if pairs.len() == common.len() {
            return Vec::new();
        }
        let has = |size: &str, colourway: &str| pairs.contains(&(size, colourway));
        let sizes: Vec<&String> =
            self.sizes.iter().filter(|size| self.colourways.iter().all(|colourway| has(size, colourway))).collect();
        if sizes.len() * self.colourways.len() == pairs.len() {
            return sizes.into_iter().cloned().collect();
        }
        let colourways: Vec<&String> =
            self.colourways.iter().filter(|colourway| self.sizes.iter().all(|size| has(size, colourway))).collect();
        if colourways.len() * self.sizes.len() == pairs.len() {
            return colourways.into_iter().cloned().collect();
        }
        pairs.iter().map(|(size, colourway)| format!("{size}/{colourway}")).collect()
    }
}

/// Puts a product with others of the same values.
fn put<'t, 'p, T>(
    groups: &mut Vec<(Group<'t, T>, Vec<Product<'p>>)>,
    product: Product<'p>,
    (before, after): (Option<&'t T>, Option<&'t T>),
    alike: &impl Fn(Option<&T>, Option<&T>) -> bool,
) {
    match groups.iter_mut().find(|(one, _)| alike(one.before, before) && alike(one.after, after)) {
        Some((_, list)) => list.push(product),
        None => groups.push((Group { before, after, scope: Vec::new() }, vec![product])),
    }
}

//! Looks the keys of allowances and corners up on the outlines, once; everything else reads what is found.

mod lookup;

pub(super) use lookup::bare;

use std::collections::{BTreeMap, BTreeSet};

use crate::model::Model;

use super::edge::Edges;
use super::{Outlines, Trouble};
use lookup::On;

impl Edges {
    /// Looks every allowance and corner up on the outlines. What names a point or edge that is not there, or one edge
    /// twice, is a trouble.
    pub(super) fn of(
        model: &Model,
        outlines: &Outlines,
        bare: &BTreeSet<(&str, &str, &str)>,
        troubles: &mut Vec<Trouble>,
    ) -> Edges {
        let mut by = BTreeMap::new();
        for (id, piece) in &model.pieces {
            let mut sizes = BTreeMap::new();
            let mut told = BTreeSet::new();
            for size in model.sizes.iter().map(|size| size.entry.id.value.as_str()) {
                let Ok(outline) = outlines.get(id, size) else { continue };
                let on = On { id, piece, outline, size };
                let found = on.troubles();
                troubles.extend(found.into_iter().filter(|one| told.insert((one.span, one.message.clone()))));
                sizes.insert(size.to_string(), on.edges(bare));
            }
            by.insert(id.clone(), sizes);
        }
        Edges::new(by)
    }
}

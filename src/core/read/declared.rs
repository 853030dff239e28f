//! What files declare, before its keys are understood.

use std::collections::BTreeMap;

use crate::source::Spanned;

use super::tree::Fields;

/// One declared thing, before its keys are understood.
#[derive(Debug, Clone)]
pub struct Declared {
    /// Its id at its key.
    pub id: Spanned<String>,
    /// Its fields.
    pub fields: Fields,
}

/// Declarations by kind of table; singletons have the kind's name as id.
pub type Declarations = BTreeMap<&'static str, Vec<Declared>>;

//! The style itself: who makes what for whom, its revision, sizes and colourways.

use std::collections::BTreeMap;

use crate::source::{Span, Spanned};
use crate::standards::market::Market;
use crate::units::{Age, Date};
use crate::words::Languages;

use super::{Entry, Stated};

/// Who makes what for whom.
#[derive(Debug, Clone, Default)]
pub struct Style {
    /// Where the table stands, if it does.
    pub span: Option<Span>,
    /// Style number: the identification number of the title block.
    pub id: Option<Stated<String>>,
    /// Title.
    pub name: Option<Stated<String>>,
    /// What the product is.
    pub product: Option<Stated<String>>,
    /// What it is to the law.
    pub kind: Option<Spanned<Product>>,
    /// Id of the party that is the legal owner of the specification.
    pub owner: Option<Spanned<String>>,
    /// Id of the party that makes it.
    pub factory: Option<Spanned<String>>,
    /// The factory's own number for the style.
    pub factory_number: Option<Stated<String>>,
    /// Season.
    pub season: Option<Stated<String>>,
    /// Age grade.
    pub age: Option<AgeGrade>,
    /// Countries or markets it is sold in.
    pub destinations: Vec<Spanned<Market>>,
    /// The languages of the package, one or two, in the order in which they are printed.
    pub languages: Languages,
    /// The size that outlines are drawn in, where it is named.
    pub drawn: Option<Spanned<String>>,
    /// What is not made: size and colourway.
    pub not_made: Vec<Spanned<(String, String)>>,
    /// A remark for the cover.
    pub note: Option<Stated<String>>,
}

/// What a product is to the law: cautions, tests and labels follow from it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Product {
    /// Made for a child to play with.
    Toy,
    /// Cushions, throws and the like.
    HouseholdTextile,
    /// A bag.
    Bag,
    /// None of these.
    Other,
}

impl Product {
    /// Every kind.
    pub const ALL: [Product; 4] = [Product::Toy, Product::HouseholdTextile, Product::Bag, Product::Other];

    /// The word of the file.
    pub fn word(self) -> &'static str {
        match self {
            Product::Toy => "toy",
            Product::HouseholdTextile => "household textile",
            Product::Bag => "bag",
            Product::Other => "other",
        }
    }
}

/// For whom it is meant, and who said so.
#[derive(Debug, Clone)]
pub struct AgeGrade {
    /// The youngest.
    pub from: Option<Spanned<Age>>,
    /// The oldest.
    pub to: Option<Spanned<Age>>,
    /// Who graded it, and after what.
    pub basis: Option<Stated<String>>,
    /// Where it is written.
    pub span: Span,
}

/// One revision of the specification.
#[derive(Debug, Clone, Default)]
pub struct Revision {
    /// Where the table stands, if it does.
    pub span: Option<Span>,
    /// Revision index.
    pub id: Option<Stated<String>>,
    /// Date of issue.
    pub date: Option<Stated<Date>>,
    /// Stage: prototype, counter sample, pre-production, bulk.
    pub stage: Option<Stated<String>>,
    /// Who made it.
    pub by: Option<Stated<String>>,
    /// Who approved it.
    pub approved: Option<Stated<String>>,
    /// Why it was made.
    pub reason: Option<Stated<String>>,
    /// By when the factory answers, `yyyy-mm-dd`.
    pub answer: Option<Stated<Date>>,
}

/// One size.
#[derive(Debug, Clone)]
pub struct Size {
    /// Id and name.
    pub entry: Entry,
    /// Factor on the sew line along and across the grain; exact decimals kept as written.
    pub scale: Option<Stated<(f64, f64)>>,
}

/// One colourway.
#[derive(Debug, Clone)]
pub struct Colourway {
    /// Id and name.
    pub entry: Entry,
    /// `article/colour` by role.
    pub roles: BTreeMap<String, Spanned<String>>,
    /// Where each role is written (the key).
    pub keys: BTreeMap<String, Span>,
}

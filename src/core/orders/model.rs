//! An order and its lines: how much of which size and colourway goes where, and when.

use crate::source::Spanned;
use crate::standards::market::Market;
use crate::units::{Date, Quantity};

use crate::model::{Entry, Stated, Table};

/// One order of the style. It stands apart from the specification: a repeat order makes no new revision.
#[derive(Debug, Clone)]
pub struct Order {
    /// Id and name.
    pub entry: Entry,
    /// Its number.
    pub number: Option<Stated<String>>,
    /// The customer's purchase order.
    pub po: Option<Stated<String>>,
    /// When it was placed, `yyyy-mm-dd`.
    pub date: Option<Stated<Date>>,
    /// The style number it cites.
    pub style: Option<Stated<String>>,
    /// The sealed revision it cites.
    pub revision: Option<Stated<String>>,
    /// Products cut beyond the ordered quantity against loss in making, a share of it.
    pub cut_extra: Option<Stated<Quantity>>,
    /// What may be delivered above a line's quantity: a share of it or pieces.
    pub over: Option<Stated<Quantity>>,
    /// What may be missing of a line's quantity: a share of it or pieces.
    pub short: Option<Stated<Quantity>>,
    /// Whose the fabric is that is left over.
    pub surplus: Option<Stated<String>>,
    /// What is ordered.
    pub lines: Table<OrderLine>,
    /// A remark.
    pub note: Option<Stated<String>>,
}

/// One line of an order.
#[derive(Debug, Clone)]
pub struct OrderLine {
    /// Id and name.
    pub entry: Entry,
    /// Size id.
    pub size: Option<Spanned<String>>,
    /// Colourway id.
    pub colourway: Option<Spanned<String>>,
    /// The country or market it goes to.
    pub destination: Option<Spanned<Market>>,
    /// When it leaves the factory, `yyyy-mm-dd`.
    pub date: Option<Stated<Date>>,
    /// Products ordered.
    pub quantity: Option<Stated<u32>>,
    /// As of the order, for this line.
    pub over: Option<Stated<Quantity>>,
    /// As of the order, for this line.
    pub short: Option<Stated<Quantity>>,
    /// Products made on top for samples.
    pub samples: Option<Stated<u32>>,
    /// Products made on top that tests use up.
    pub tests: Option<Stated<u32>>,
    /// A remark.
    pub note: Option<Stated<String>>,
}

impl Order {
    /// What may be delivered above the quantity of a line: its own, else the order's.
    pub fn over_of<'a>(&'a self, line: &'a OrderLine) -> Option<&'a Stated<Quantity>> {
        line.over.as_ref().or(self.over.as_ref())
    }

    /// What may be missing of the quantity of a line: its own, else the order's.
    pub fn short_of<'a>(&'a self, line: &'a OrderLine) -> Option<&'a Stated<Quantity>> {
        line.short.as_ref().or(self.short.as_ref())
    }
}

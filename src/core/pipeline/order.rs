//! One order as the factory gets it: what it may see of the style and the order's own file, which alone is attached.

use super::edition::{Shown, part};
use super::{Checked, Edition};
use crate::compute::lays;
use crate::read::{self, Loaded, Unshown};
use crate::revision::ArchiveError;

/// An order could not be shown by itself.
#[derive(Debug)]
pub enum OrderError {
    /// There is no such order, or its file holds another one.
    Order(Unshown),
    /// Its files fit into no archive.
    Archive(ArchiveError),
}

impl std::fmt::Display for OrderError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            OrderError::Order(why) => why.fmt(out),
            OrderError::Archive(why) => why.fmt(out),
        }
    }
}

impl std::error::Error for OrderError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            OrderError::Order(why) => Some(why),
            OrderError::Archive(why) => Some(why),
        }
    }
}

/// The edition of one order, with its cut plan and the lays that are kept for it. A finding about the style or the order
/// that must be settled marks it as not released.
///
/// # Errors
/// If there is no such order, its file holds another order too, or its files fit into no archive.
pub fn order<'a>(loaded: &'a Loaded, checked: &Checked, id: &str) -> Result<Edition<'a>, OrderError> {
    let files = read::order_edition(loaded, id).map_err(OrderError::Order)?;
    let mut part = part(loaded, &files);
    let (shown, seen) = &mut *part;
    let Checked { assembly, figures, drawn, .. } = seen;
    let laid = lays::order_lays((&shown.model, assembly, drawn), figures, id);
    figures.lays = laid.figures();
    let mut edition = Edition::of(loaded, Shown::Part(part), &files).map_err(OrderError::Archive)?;
    edition.order = Some((id.to_string(), laid));
    edition.findings = read::concerning(loaded, id, &checked.findings);
    Ok(edition)
}

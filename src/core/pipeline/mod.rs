//! The stages in their order, one file each. Commands, tests and whoever else uses the library run these and no others.
//!
//! ```text
//! read       Source -> Loaded                    a folder, one with unsaved texts over it, an archive, files in memory
//! check      Loaded -> Checked                   assembly, figures, every finding settled; `planned`: an order too
//! compare    two of both -> Changes
//! edition    Loaded, Checked -> Edition          what the factory gets, ready for the sheets
//! mend       Loaded, Checked -> Mended           safe edits made in the text, and checked again
//! order      Loaded -> Edition                   the same of one order
//! seal       Loaded, Checked -> Draft            with the PDF: the sealed file
//! ```
//! A stage fails with an error of its own type; what is wrong with a specification is never an error but a finding.

mod check;
mod compare;
mod edition;
mod issued;
mod mend;
mod order;
mod read;
mod seal;

pub use check::{Checked, ahead, check, planned, relaid};
pub use compare::compare;
pub use edition::{Earlier, Edition, EditionError, Ordered, edition};
pub use mend::{Changed, MendError, Mended, apply, mend};
pub use order::{OrderError, order, own_order};
pub use read::{ReadError, Source, read};
pub use seal::{Draft, SealError, Sealing, draft};

//! Two specifications compared by identity and meaning: what changed, what followed from it, and outlines laid over
//! each other.
//!
//! A moved drawing, a reversed path, a reordered file, another unit for the same quantity, or anything below the printed
//! digit is no change.

mod asked;
mod changes;
mod distance;
mod followed;
mod items;
mod marks;
mod names;
mod outline;
mod print;
mod register;
mod scope;
mod side;

pub use asked::{Answers, Asked, answers};
pub use changes::{Change, Changes, Followed, Head, ItemChange, Remark, State};
pub use distance::{Farthest, farthest};
pub use marks::{Mark, Marks};
pub use outline::{Moved, Overlay, RunChange};
pub use print::{FORMAT, group, json, row, scoped, text};
pub use register::{Registration, register};
pub use side::Side;

use std::collections::BTreeSet;

use names::Names;

use crate::diag::Findings;
use crate::words::Phrase;

/// How far two outlines may lie apart, in mm, and still be printed alike: half of the last printed digit.
pub const ACCURACY: f64 = 0.05;

/// Compares two specifications. Outlines that lie nowhere more than `accuracy` mm apart are the same; [`ACCURACY`] is
/// half of the digit that sheets print. Figures are compared as they are printed.
pub fn compare(before: &Side<'_>, after: &Side<'_>, accuracy: f64) -> Changes {
    let names = Names::of(before.statements, after.statements);
    let span = scope::Products::of(before.model, after.model, &names);
    let mut changes = Changes { from: Head::of(before.model), to: Head::of(after.model), ..Changes::default() };
    let outlines = outline::compare(before, after, &names, accuracy);
    changes.items = items::compare(before.statements, after.statements, &names, &span);
    items::with_outlines(&mut changes.items, &outlines, after);
    changes.overlays = outlines.changed;
    changes.not_compared = outlines.unknown;
    changes.followed = followed::followed(before.figures, after.figures, &names, &span);
    if changes.items.is_empty() {
        // A lay that is not kept yet says nothing of the product: an estimate stands for it meanwhile.
        changes.followed.retain(|one| one.family != "fabric" || one.difference.is_some());
    }
    changes.unmatched = unmatched(before.findings, after.findings);
    changes
}

/// Seams whose layers were equally long and are no more: the findings about them.
fn unmatched(before: &Findings, after: &Findings) -> Vec<Phrase> {
    let uneven = |findings: &'_ Findings| -> Vec<Phrase> {
        let about = findings.iter().filter(|finding| finding.rule.code == "seam-lengths-differ");
        about.map(|finding| finding.message.clone()).collect()
    };
    // A message begins with the id of its seam.
    let seam = |message: &Phrase| message.english().split([' ', ':']).next().unwrap_or_default().to_string();
    let known: BTreeSet<String> = uneven(before).iter().map(seam).collect();
    uneven(after).into_iter().filter(|message| !known.contains(&seam(message))).collect()
}

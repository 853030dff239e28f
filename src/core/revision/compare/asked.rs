//! What was asked for (comments, points of a letter) set against what changed.

use std::collections::BTreeSet;

use super::changes::{Changes, ItemChange};

/// What somebody asked for: a comment of a sample, or a point of a letter.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Asked {
    /// The comment.
    pub id: String,
    /// The table of the thing it points at, such as `piece`; empty if it is only named by its id.
    pub kind: String,
    /// The thing it points at; empty if it points at none.
    pub item: String,
    /// What was asked.
    pub text: String,
    /// Whether it still waits for an answer; one that was dropped or is corrected in bulk asks for no change.
    pub open: bool,
}

/// What was asked for against what changed.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Answers {
    /// Comments with the things that changed and that they point at: positions in [`Changes::items`].
    pub answered: Vec<(String, Vec<usize>)>,
    /// Comments that ask for a change where nothing changed.
    pub unanswered: Vec<String>,
    /// Changed things that no comment asked for: positions in [`Changes::items`].
    pub unasked: Vec<usize>,
}

/// Tables in which a change needs nobody's asking.
const OWN: &[&str] = &["revision", "severity"];

/// Sets comments against changes. A comment is met by a change of the thing it points at, by its earlier or later id, of
/// a layer of that piece, or of a piece or stuffing of that part.
pub fn answers(changes: &Changes, asked: &[Asked]) -> Answers {
    let mut out = Answers::default();
    let mut met = BTreeSet::new();
    for comment in asked {
        let found: Vec<usize> =
            changes.items.iter().enumerate().filter(|(_, item)| meets(item, comment)).map(|(at, _)| at).collect();
        met.extend(found.iter().copied());
        if !found.is_empty() {
            out.answered.push((comment.id.clone(), found));
        } else if comment.open {
            out.unanswered.push(comment.id.clone());
        }
    }
    let own = |item: &ItemChange| OWN.contains(&item.kind);
    out.unasked = (0..changes.items.len()).filter(|at| !met.contains(at) && !own(&changes.items[*at])).collect();
    out
}

fn meets(item: &ItemChange, comment: &Asked) -> bool {
    if comment.item.is_empty() {
        return false;
    }
    let kind = comment.kind.is_empty() || comment.kind == item.kind;
    let layer = item.kind == "cut" && matches!(comment.kind.as_str(), "" | "piece");
    let of_piece = layer && item.id.split('.').next() == Some(&comment.item);
    let of_part = matches!(comment.kind.as_str(), "" | "part") && item.part.as_deref() == Some(&comment.item);
    (kind && item.is(&comment.item)) || of_piece || of_part
}

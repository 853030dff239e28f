//! Comments against changes.

use backtack_core::revision::compare::{Asked, answers};

use super::edited;

fn asked(id: &str, kind: &str, item: &str) -> Asked {
    Asked { id: id.into(), kind: kind.into(), item: item.into(), text: "Change it".into(), open: true }
}

#[test]
fn comments_are_answered_by_changes_of_what_they_point_at() {
    let (changes, _) = edited(&[
        ("sw-se 40 mm", "sw-se 45 mm"),
        ("360 mm ±5 mm", "365 mm ±5 mm"),
        ("do = \"turn\"", "do = \"turn over\""),
    ]);
    let dropped = Asked { open: false, ..asked("c5", "piece", "BACK") };
    let list = [asked("c1", "piece", "FRONT"), asked("c2", "", "H"), asked("c3", "seam", "side"), dropped];
    let found = answers(&changes, &list);
    let id = |at: &usize| changes.items[*at].id.as_str();
    let answered: Vec<_> = found.answered.iter().map(|(id_, at)| (id_.as_str(), id(&at[0]))).collect();
    assert_eq!(answered, [("c1", "FRONT"), ("c2", "H")]);
    assert_eq!(found.unanswered, ["c3"]);
    assert_eq!(found.unasked.iter().map(id).collect::<Vec<_>>(), ["turn"]);
}

/// A comment about a part is met by a change of a piece of it; one about a seam of the same name as nothing is not.
#[test]
fn a_part_is_met_by_its_pieces() {
    let (changes, _) = edited(&[("sw-se 40 mm", "sw-se 45 mm")]);
    let found = answers(&changes, &[asked("c1", "part", "bag"), asked("c2", "seam", "FRONT"), asked("c3", "", "")]);
    assert_eq!(found.answered.len(), 1);
    assert_eq!(found.unanswered, ["c2", "c3"]);
    assert!(found.unasked.is_empty());
}

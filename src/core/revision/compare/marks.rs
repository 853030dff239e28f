//! What changed, as marks for cells and drawings of the sheets.

use std::collections::BTreeSet;

use super::changes::Changes;

/// One value, thing or drawing that changed.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mark {
    /// Name of the table, or a family of [`super::Followed`].
    pub kind: String,
    /// Id of the thing.
    pub id: String,
    /// Key of the value, without those of inner tables; empty for the thing itself.
    pub key: String,
}

/// Everything that changed, for marking cells and drawings.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Marks {
    all: BTreeSet<Mark>,
}

impl Marks {
    /// Everything in these changes. A layer of a piece marks its piece as well.
    pub fn of(changes: &Changes) -> Marks {
        let mut marks = Marks::default();
        for item in &changes.items {
            marks.put(item.kind, &item.id, "");
            for change in &item.changes {
                let key = change.key.split(['.', ' ']).next().unwrap_or_default();
                marks.put(item.kind, &item.id, key);
            }
            if let ("cut", Some((piece, _))) = (item.kind, item.id.split_once('.')) {
                marks.put("piece", piece, "");
            }
        }
        for one in &changes.followed {
            marks.put(one.family, &one.what, "");
        }
        marks
    }

    fn put(&mut self, kind: &str, id: &str, key: &str) {
        self.all.insert(Mark { kind: kind.into(), id: id.into(), key: key.into() });
    }

    /// Whether anything of a thing changed, or a computed number of a family.
    pub fn thing(&self, kind: &str, id: &str) -> bool {
        self.key(kind, id, "")
    }

    /// Whether one value of a thing changed: `outline` of a piece marks its drawing.
    pub fn key(&self, kind: &str, id: &str, key: &str) -> bool {
        self.all.contains(&Mark { kind: kind.into(), id: id.into(), key: key.into() })
    }

    /// Every mark in order.
    pub fn iter(&self) -> impl Iterator<Item = &Mark> {
        self.all.iter()
    }
}

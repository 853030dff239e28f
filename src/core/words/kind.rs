//! What the named things of a specification are called.

use super::number::{Decimal, number};

/// The name of a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kind {
    /// The table of the file that declares it.
    pub table: &'static str,
    /// One of them.
    pub one: &'static str,
    /// Several of them.
    pub many: &'static str,
    /// Simplified Chinese, where sure.
    pub zh: Option<&'static str>,
}

const fn kind(table: &'static str, one: &'static str, many: &'static str, zh: Option<&'static str>) -> Kind {
    Kind { table, one, many, zh }
}

/// Every kind, in order of its table's name.
pub const KINDS: &[Kind] = &[
    kind("attach", "attachment", "attachments", None),
    kind("colour", "colour", "colours", Some("颜色")),
    kind("colourway", "colourway", "colourways", Some("配色")),
    kind("edge-finish", "edge finish", "edge finishes", None),
    kind("fabric", "fabric", "fabrics", Some("面料")),
    kind("filling", "filling", "fillings", Some("填充物")),
    kind("opening", "opening", "openings", Some("充棉口")),
    kind("part", "part", "parts", Some("部件")),
    kind("piece", "piece", "pieces", Some("裁片")),
    kind("point-of-measure", "point of measure", "points of measure", Some("量度部位")),
    kind("revision", "revision", "revisions", Some("版次")),
    kind("role", "role", "roles", Some("用途")),
    kind("seam", "seam", "seams", Some("车缝")),
    kind("size", "size", "sizes", Some("尺码")),
    kind("step", "step", "steps", Some("工序")),
    kind("stuffing", "stuffing", "stuffings", Some("充棉")),
    kind("style", "style", "styles", Some("款式")),
    kind("thread", "thread", "threads", Some("缝线")),
    kind("topstitch", "topstitch", "topstitches", None),
    kind("trim", "trim", "trims", Some("辅料")),
    kind("view", "view", "views", Some("视图")),
];

/// The kind that a table of the file declares.
pub fn of(table: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|kind| kind.table == table)
}

impl Kind {
    /// A count with the right form: `1 piece`, `2 pieces`, `no pieces` is `0 pieces`.
    pub fn count(&self, count: usize) -> String {
        counted(count, self.one, self.many)
    }

    /// The name with `a` or `an`.
    pub fn with_article(&self) -> String {
        let vowel = self.one.starts_with(['a', 'e', 'i', 'o', 'u']);
        format!("{} {}", if vowel { "an" } else { "a" }, self.one)
    }
}

/// A count and the form of the noun that goes with it.
pub fn counted(count: impl Decimal + PartialEq<usize>, one: &str, many: &str) -> String {
    format!("{} {}", number(count, 0), if count == 1 { one } else { many })
}

//! One field of `figures.json`.

/// One field of `figures.json`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Field {
    /// Keys from the top, with `*` for an id of the user's and `[]` for the entries of a list.
    pub path: &'static str,
    /// `mm`, `mm2`, `g`, `%`, `pc`; empty for text and flags, `*` where a field beside it says.
    pub unit: &'static str,
    /// What it is.
    pub doc: &'static str,
}

pub(super) const fn field(path: &'static str, unit: &'static str, doc: &'static str) -> Field {
    Field { path, unit, doc }
}

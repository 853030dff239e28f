//! What differs between two specifications, as data: things, values, figures, drawings.

use crate::model::Model;
use crate::units::Date;
use crate::words::{Phrase, words};

use super::Overlay;

words! {
    WIDENED "changes.widened" = "tolerance widened";
    NARROWED "changes.narrowed" = "tolerance narrowed";
    SHIFTED "changes.shifted" = "tolerance widened on one side, narrowed on the other";
    ADDED "changes.tolerance-added" = "tolerance added";
    REMOVED "changes.tolerance-removed" = "tolerance removed";
    ORDER "changes.order" = "order";
    CONTENT "changes.content" = "other content";
}

/// Everything that differs between two specifications.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Changes {
    /// Which revision is the earlier one.
    pub from: Head,
    /// Which is the later one.
    pub to: Head,
    /// Things that were added, removed, renamed or changed, in the order of the grammar.
    pub items: Vec<ItemChange>,
    /// Outlines that differ, laid over each other.
    pub overlays: Vec<Overlay>,
    /// What followed: numbers that differ as printed.
    pub followed: Vec<Followed>,
    /// Seams whose layers no longer match, as the findings say it.
    pub unmatched: Vec<Phrase>,
    /// Outlines that could not be laid over each other, with the reason.
    pub not_compared: Vec<Phrase>,
}

impl Changes {
    /// Whether nothing at all differs, and everything could be compared.
    pub fn is_empty(&self) -> bool {
        self.items.is_empty() && self.followed.is_empty() && self.not_compared.is_empty()
    }
}

/// Title block of one side.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Head {
    /// Number and name of the style.
    pub style: String,
    /// Index of the revision; empty where none is stated.
    pub revision: String,
    /// Its date.
    pub date: Option<Date>,
}

impl Head {
    pub(super) fn of(model: &Model) -> Head {
        let text = |stated: &Option<crate::model::Stated<String>>| {
            stated.as_ref().and_then(|stated| stated.known().cloned()).unwrap_or_default()
        };
        let style = format!("{} {}", text(&model.style.id), text(&model.style.name));
        let date = model.revision.date.as_ref().and_then(|date| date.known().copied());
        Head { style: style.trim().into(), revision: text(&model.revision.id), date }
    }
}

/// What became of one thing.
#[derive(Debug, Clone, PartialEq)]
pub struct ItemChange {
    /// Name of its table.
    pub kind: &'static str,
    /// Its id, the later one; empty for tables without an id.
    pub id: String,
    /// Its name for people.
    pub title: String,
    /// What became of it.
    pub state: State,
    /// The part it belongs to or fills, if it says so.
    pub part: Option<String>,
    /// The values that differ; all values of a thing that is new or gone.
    pub changes: Vec<Change>,
}

impl ItemChange {
    /// Whether it has this id, or had it before.
    pub fn is(&self, id: &str) -> bool {
        self.id == id || matches!(&self.state, State::Renamed(was) if was == id)
    }
}

/// What became of a thing as a whole.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum State {
    /// It is new.
    Added,
    /// It is gone.
    Removed,
    /// It is the same thing with other values.
    Changed,
    /// It had this id before; its values may have changed as well.
    Renamed(String),
}

/// One value before and after.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// Its key, those of inner tables joined by points.
    pub key: String,
    /// For which sizes, colourways or `size/colourway` pairs; empty for all.
    pub scope: Vec<String>,
    /// As it was written; none where it is new. Of a list only what differs.
    pub before: Option<Phrase>,
    /// As it is written; none where it is gone.
    pub after: Option<Phrase>,
    /// What to say about it.
    pub remark: Option<Remark>,
}

/// What is said about a change beside before and after.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Remark {
    /// More is allowed than before.
    Widened,
    /// Less is allowed than before.
    Narrowed,
    /// More is allowed on one side of the target and less on the other.
    Shifted,
    /// There was no tolerance.
    ToleranceAdded,
    /// There is none any more.
    ToleranceRemoved,
    /// The same entries in another order.
    Reordered,
    /// A file with the same name that shows something else.
    Content,
    /// Anything else.
    Said(Phrase),
}

impl Remark {
    /// In words.
    pub fn phrase(&self) -> Phrase {
        match self {
            Remark::Widened => WIDENED.into(),
            Remark::Narrowed => NARROWED.into(),
            Remark::Shifted => SHIFTED.into(),
            Remark::ToleranceAdded => ADDED.into(),
            Remark::ToleranceRemoved => REMOVED.into(),
            Remark::Reordered => ORDER.into(),
            Remark::Content => CONTENT.into(),
            Remark::Said(text) => text.clone(),
        }
    }
}

/// A computed number before and after, as sheets print it.
#[derive(Debug, Clone, PartialEq)]
pub struct Followed {
    /// `pieces`, `fabric`, `filling`, `thread`, `trims`, `mass`, `limits`.
    pub family: &'static str,
    /// Of what: an article and its colour, a piece, a stuffing, a point of measure; empty for the whole product.
    pub what: String,
    /// For which sizes, colourways or pairs; empty for all.
    pub scope: Vec<String>,
    /// Before; none where there was none.
    pub before: Option<Phrase>,
    /// After; none where there is none.
    pub after: Option<Phrase>,
    /// The difference in the printed unit, where both are plain numbers.
    pub difference: Option<f64>,
}

//! The tables of a specification, one line each: what their things are called, what belongs to what, where they are shown.
//!
//! The keys of a table are in the grammar, and its reader reads it. Whoever goes through all things goes through this list.

use crate::source::Span;
use crate::words::{Phrase, Word, say, sheet};

use super::{ArticleKind, Entry, JointKind, Model, Table};

/// What a table is part of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Belongs {
    /// The specification: sealed, compared, seen by the factory.
    Style,
    /// An order, in a file of its own.
    Order,
    /// What was said and measured of samples, in files of their own.
    Sample,
}

/// One kind of table.
#[derive(Debug, Clone, Copy)]
pub struct Kind {
    /// The table of the file that declares it.
    pub table: &'static str,
    /// One thing of it.
    pub one: Word,
    /// Several of them.
    pub many: Word,
    /// What it is part of.
    pub belongs: Belongs,
    /// The heading under which its changes are read.
    pub group: Word,
    /// The sheet that shows its things.
    pub sheet: Word,
    /// What the specification declares of it; none of a table that is there once.
    pub things: fn(&Model) -> Vec<&Entry>,
}

crate::words! {
    NAMED "kind.named" = "{kind} {id}";
    STYLE "changes.style" = "Style";
    MATERIALS "changes.materials" = "Materials";
    PIECES "changes.pieces" = "Pieces";
    FILLING "changes.filling" = "Filling";
    SEWING "changes.sewing" = "Sewing";
    MEASUREMENTS "changes.measurements" = "Measurements";
    CUTTING "changes.cutting" = "Cutting";
    VIEWS "changes.views" = "Views";
    OTHER "changes.other" = "Other";
}

/// The headings of changes, in their order.
pub const GROUPS: [Word; 9] = [STYLE, MATERIALS, PIECES, FILLING, SEWING, MEASUREMENTS, CUTTING, VIEWS, OTHER];

/// One table a line: its name, one of its things and several of them, what it belongs to, heading, sheet, things.
macro_rules! kinds {
    ($($table:literal = $one:literal, $many:literal; $belongs:ident, $group:expr, $sheet:expr, $things:expr;)*) => {
        /// Every kind of table, in the order in which things are listed.
        pub const KINDS: &[Kind] = &[$(Kind {
            table: $table,
            one: Word { key: concat!("kind.", $table), en: $one },
            many: Word { key: concat!("kinds.", $table), en: $many },
            belongs: Belongs::$belongs,
            group: $group,
            sheet: $sheet,
            things: $things,
        }),*];
    };
}
kinds! {
    "style" = "style", "styles"; Style, STYLE, sheet::COVER, none;
    "revision" = "revision", "revisions"; Style, STYLE, sheet::COVER, none;
    "party" = "party", "parties"; Style, STYLE, sheet::COVER, |model| entries(&model.parties, |one| &one.entry);
    "size" = "size", "sizes"; Style, STYLE, sheet::MATCHING, |model| model.sizes.iter().map(|one| &one.entry).collect();
    "colourway" = "colourway", "colourways"; Style, STYLE, sheet::BILL, |model| entries(&model.colourways, |one| &one.entry);
    "colour" = "colour", "colours"; Style, MATERIALS, sheet::BILL, |model| entries(&model.colours, |one| &one.entry);
    "fabric" = "fabric", "fabrics"; Style, MATERIALS, sheet::BILL, |model| articles(model, ArticleKind::Fabric);
    "thread" = "thread", "threads"; Style, MATERIALS, sheet::BILL, |model| articles(model, ArticleKind::Thread);
    "filling" = "filling", "fillings"; Style, MATERIALS, sheet::BILL, |model| articles(model, ArticleKind::Filling);
    "trim" = "trim", "trims"; Style, MATERIALS, sheet::BILL, |model| articles(model, ArticleKind::Trim);
    "role" = "role", "roles"; Style, MATERIALS, sheet::BILL, |model| entries(&model.roles, |one| &one.entry);
    "part" = "part", "parts"; Style, PIECES, sheet::PIECES, |model| entries(&model.parts, |one| &one.entry);
    "stuffing" = "stuffing", "stuffings"; Style, FILLING, sheet::FILLING, |model| entries(&model.stuffings, |one| &one.entry);
    "piece" = "piece", "pieces"; Style, PIECES, sheet::PIECES, |model| entries(&model.pieces, |one| &one.entry);
    "stitch" = "stitch", "stitches"; Style, SEWING, sheet::CONSTRUCTION, |model| entries(&model.stitches, |one| one);
    "seam" = "seam", "seams"; Style, SEWING, sheet::CONSTRUCTION, |model| joints(model, JointKind::Seam);
    "opening" = "opening", "openings"; Style, SEWING, sheet::CONSTRUCTION, |model| joints(model, JointKind::Opening);
    "edge-finish" = "edge finish", "edge finishes"; Style, SEWING, sheet::CONSTRUCTION, |model| entries(&model.edge_finishes, |one| &one.entry);
    "topstitch" = "topstitch", "topstitches"; Style, SEWING, sheet::CONSTRUCTION, |model| entries(&model.topstitches, |one| &one.entry);
    "attach" = "attachment", "attachments"; Style, SEWING, sheet::CONSTRUCTION, |model| entries(&model.attaches, |one| &one.entry);
    "step" = "step", "steps"; Style, SEWING, sheet::CONSTRUCTION, |model| entries(&model.steps, |one| &one.entry);
    "work" = "order of work", "orders of work"; Style, SEWING, sheet::CONSTRUCTION, none;
    "point-of-measure" = "point of measure", "points of measure"; Style, MEASUREMENTS, sheet::MEASUREMENTS, |model| entries(&model.measures, |one| &one.entry);
    "cutting" = "cutting", "cuttings"; Style, CUTTING, sheet::MARKER, |model| entries(&model.cuttings, |one| &one.entry);
    "view" = "view", "views"; Style, VIEWS, sheet::VIEWS, |model| entries(&model.views, |one| &one.entry);
    "order" = "order", "orders"; Order, OTHER, sheet::COVER, |model| entries(&model.orders, |one| &one.entry);
    "sample" = "sample", "samples"; Sample, OTHER, sheet::SAMPLE, |model| entries(&model.samples.samples, |one| &one.entry);
    "comment" = "comment", "comments"; Sample, OTHER, sheet::COMMENTS, |model| entries(&model.samples.comments, |one| &one.entry);
    "approval" = "approval", "approvals"; Sample, OTHER, sheet::COMMENTS, |model| entries(&model.samples.approvals, |one| &one.entry);
    "concession" = "concession", "concessions"; Sample, OTHER, sheet::COMMENTS, |model| entries(&model.samples.concessions, |one| &one.entry);
    "severity" = "severity", "severities"; Style, OTHER, sheet::COVER, none;
}

/// A table that is there once, and declares nothing with an id.
fn none(_: &Model) -> Vec<&Entry> {
    Vec::new()
}

fn entries<T>(table: &Table<T>, entry: fn(&T) -> &Entry) -> Vec<&Entry> {
    table.values().map(entry).collect()
}

fn articles(model: &Model, kind: ArticleKind) -> Vec<&Entry> {
    model.articles.values().filter(|one| one.kind == kind).map(|one| &one.entry).collect()
}

fn joints(model: &Model, kind: JointKind) -> Vec<&Entry> {
    model.joints.values().filter(|one| one.kind == kind).map(|one| &one.entry).collect()
}

/// The kind that a table of the file declares.
pub fn of(table: &str) -> Option<&'static Kind> {
    KINDS.iter().find(|kind| kind.table == table)
}

/// What one thing of a table is called; the table's own name where it declares no kind.
pub fn word(table: &str) -> Phrase {
    of(table).map_or_else(|| Phrase::from(table), |kind| kind.one.into())
}

/// A thing by its kind and id: `seam belly`.
pub fn named(table: &str, id: &str) -> Phrase {
    say!(NAMED, kind = word(table), id)
}

/// Whether a table is no part of the specification itself: orders, and what was said and measured of samples.
pub fn is_apart(table: &str) -> bool {
    of(table).is_some_and(|kind| kind.belongs != Belongs::Style)
}

/// The tables of one belonging.
pub fn tables(belongs: Belongs) -> impl Iterator<Item = &'static str> {
    KINDS.iter().filter(move |kind| kind.belongs == belongs).map(|kind| kind.table)
}

impl Kind {
    /// The name with `a` or `an`.
    pub fn with_article(&self) -> String {
        let vowel = self.one.en.starts_with(['a', 'e', 'i', 'o', 'u']);
        format!("{} {}", if vowel { "an" } else { "a" }, self.one.en)
    }
}

impl JointKind {
    /// The table that declares it.
    pub fn table(self) -> &'static str {
        match self {
            JointKind::Seam => "seam",
            JointKind::Opening => "opening",
        }
    }
}

impl Model {
    /// Every named thing with the table that declares it, in the order of [`KINDS`].
    pub fn named(&self) -> impl Iterator<Item = (&'static Kind, &Entry)> {
        KINDS.iter().flat_map(|kind| (kind.things)(self).into_iter().map(move |entry| (kind, entry)))
    }

    /// The tables that are there once, with their places.
    pub fn once(&self) -> impl Iterator<Item = (&'static Kind, Span)> {
        let all = [("style", self.style.span), ("revision", self.revision.span), ("work", self.work.span)];
        all.into_iter().filter_map(|(table, span)| Some((of(table)?, span?)))
    }

    /// What the specification itself declares.
    pub fn entries(&self) -> impl Iterator<Item = (&'static str, &Entry)> {
        let own = self.named().filter(|(kind, _)| kind.belongs == Belongs::Style);
        own.map(|(kind, entry)| (kind.table, entry))
    }
}

//! The whole specification as pure data. Every value keeps the place it was written at.
//!
//! Nothing here reads files or prints. [`Assembly`] is what follows from the data alone: outlines per size,
//! instances, resolved runs and the sewn surface of each part.

mod article;
pub mod assembly;
mod bought;
mod chain;
mod drawing;
mod entry;
mod fact;
mod form;
pub mod hazard;
mod issued;
mod joint;
pub mod kind;
mod means;
mod measure;
pub mod mention;
mod notch;
mod part;
mod piece;
pub mod property;
mod stage;
mod style;
mod value;
mod view;
mod work;

pub use crate::cutting::model::{Cutting, Method, Spread};
pub use crate::orders::model::{Order, OrderLine};
pub use crate::samples::model::{
    Action, Approval, Comment, CommentState, Concession, Graded, Judgement, LabReadings, Looked, Reading, Readings,
    Sample, Samples, Sealed, Submission,
};
pub use article::{Article, Colour, Composition, Role};
pub use assembly::Assembly;
pub use bought::ArticleKind;
pub use chain::{Chain, EdgeRef, NoEdge, PathRef, PointRef, RunRef};
pub use drawing::{Drawing, GAUGE, Sketch, Traced, Unseen};
pub use entry::{Entry, Table};
pub use fact::{Entry as StatedEntry, Fact, Item, Meaning, Statements, Stretch};
pub use form::{Extent, Follow, OutlineSource, PlacedPoint, ShapeSource, Side, SvgSource};
pub use issued::{Issued, Namesake};
pub use joint::{
    Close, Ease, EdgeFinish, EdgeFinishKind, Held, Joint, JointKind, Layer, SeamSide, StitchUse, TrimLayer,
};
pub use means::{Means, UsedThread};
pub use measure::PointOfMeasure;
pub use notch::{CornerStyle, CornerStyles, Notch, NotchPlace, NotchStyle, Notches};
pub use part::{Form, Part, Stuffing, Use};
pub use piece::{Allowance, Copy, Cut, Darts, Piece};
pub use stage::Stage;
pub use style::{AgeGrade, Colourway, Product, Revision, Size, Style};
pub use value::{Audience, Binding, Given, Stated, Value, Variant};
pub use view::{Callout, Medium, Picture, View};
pub use work::{Attach, Deed, Step, Topstitch, Work};

use std::collections::{BTreeMap, BTreeSet};

use crate::parties::Party;

/// One specification.
#[derive(Debug, Clone, Default)]
pub struct Model {
    /// Who and what.
    pub style: Style,
    /// Which revision of it, of what date, by whom.
    pub revision: Revision,
    /// Who has to do with it.
    pub parties: Table<Party>,
    /// Sizes in the order the style lists them; the first is the drawn one. Never empty: a style without sizes has
    /// one, called `one`.
    pub sizes: Vec<Size>,
    /// Colourways; never empty after reading: a style without colourways has one, called `only`.
    pub colourways: Table<Colourway>,
    /// Colours.
    pub colours: Table<Colour>,
    /// What is bought: fabric, thread, filling, trims.
    pub articles: Table<Article>,
    /// Roles that colourways map to articles and colours.
    pub roles: Table<Role>,
    /// Components made of pieces.
    pub parts: Table<Part>,
    /// Pieces with their outlines and cuts.
    pub pieces: Table<Piece>,
    /// Seams and openings.
    pub joints: Table<Joint>,
    /// Stitching on a surface that joins nothing.
    pub topstitches: Table<Topstitch>,
    /// Stitches declared to be shared.
    pub stitches: Table<Entry>,
    /// Parts sewn onto a line of another part.
    pub attaches: Table<Attach>,
    /// What is done to an edge that joins nothing.
    pub edge_finishes: Table<EdgeFinish>,
    /// Steps that are no seam.
    pub steps: Table<Step>,
    /// The order of work.
    pub work: Work,
    /// Where filling goes.
    pub stuffings: Table<Stuffing>,
    /// What is measured, within what.
    pub measures: Table<PointOfMeasure>,
    /// Orders of the style; they stand apart from the specification.
    pub orders: Table<Order>,
    /// Samples, comments, approvals and concessions; they stand apart too.
    pub samples: Samples,
    /// Pictures with call-outs.
    pub views: Table<View>,
    /// Picture files by their path below the root.
    pub pictures: BTreeMap<String, Picture>,
    /// How fabric is spread and cut.
    pub cuttings: Table<Cutting>,
    /// Lays kept beside the specification.
    pub lock: crate::lay::Lock,
    /// Drawings of outlines by their path as written.
    pub drawings: BTreeMap<String, Drawing>,
    /// What was sealed before; none where that is not known, as of what is attached to a package.
    pub issued: Option<Issued>,
    /// Values that are written but could not be read: table, id, key. They were reported, so they are not missing. The
    /// key is empty where the whole thing was not taken because of its id.
    pub refused: BTreeSet<(String, String, String)>,
}

impl Model {
    /// Every combination of size and colourway that is made, sizes first.
    pub fn variants(&self) -> Vec<Variant<'_>> {
        let mut all = Vec::new();
        for size in &self.sizes {
            for colourway in self.colourways.keys() {
                all.push(Variant { size: &size.entry.id.value, colourway });
            }
        }
        all.retain(|variant| self.is_made(variant.size, variant.colourway));
        all
    }

    /// Whether a size is made in a colourway.
    pub fn is_made(&self, size: &str, colourway: &str) -> bool {
        self.style.not_made.iter().all(|one| one.value != (size.to_string(), colourway.to_string()))
    }

    /// The colourways in the order in which they are written.
    pub fn ways(&self) -> Vec<&str> {
        let mut all: Vec<&Colourway> = self.colourways.values().collect();
        all.sort_by_key(|way| way.entry.span());
        all.into_iter().map(|way| way.entry.id.value.as_str()).collect()
    }

    /// The sizes and colourways by which a value can differ, in the user's order: sizes first.
    pub fn codes(&self) -> Vec<&str> {
        self.sizes.iter().map(|size| size.entry.id.value.as_str()).chain(self.ways()).collect()
    }

    /// The article and colour a material name stands for in a colourway: a role through the colourway, or an article by
    /// its own id.
    pub fn resolve<'m>(&'m self, material: &'m str, colourway: &str) -> Option<(&'m Article, Option<&'m str>)> {
        let written = match self.roles.get(material) {
            Some(_) => self.colourways.get(colourway)?.roles.get(material)?.value.as_str(),
            None => material,
        };
        let (article, colour) = written.split_once('/').map_or((written, None), |(a, c)| (a.trim(), Some(c.trim())));
        Some((self.articles.get(article)?, colour))
    }

    /// Whether a key of a declared thing is written but could not be read; `[style]` and the like are their own id.
    pub fn was_refused(&self, table: &str, id: &str, key: &str) -> bool {
        self.refused.contains(&(table.to_string(), id.to_string(), key.to_string()))
    }

    /// Whether something is declared under an id that cannot be one, and so was not taken.
    pub fn is_misnamed(&self, id: &str) -> bool {
        self.refused.iter().any(|(_, refused, key)| key.is_empty() && refused == id)
    }

    /// Whether something of a table was not taken because of its id, so that what it uses looks unused.
    pub fn lacks(&self, table: &str) -> bool {
        self.refused.iter().any(|(refused, _, key)| key.is_empty() && refused == table)
    }

    /// What is drawn of a piece in a size, if its outline stands in a drawing that could be read.
    pub fn sketch(&self, piece: &Piece, size: &str) -> Option<Sketch<'_>> {
        let source = piece.outline.as_ref()?.known(Variant { size, colourway: "" })?;
        let ShapeSource::Svg(svg) = &source.shape else { return None };
        self.drawings.get(&svg.path.value)?.sketch(svg.name(piece)).ok()
    }

    /// How each seam, opening, finish, topstitch, attachment and step is done.
    pub fn means(&self) -> impl Iterator<Item = (&'static str, &Entry, &Means)> {
        let joints = self.joints.values().map(|one| (one.kind.table(), &one.entry, &one.means));
        joints
            .chain(self.edge_finishes.values().map(|one| ("edge-finish", &one.entry, &one.means)))
            .chain(self.topstitches.values().map(|one| ("topstitch", &one.entry, &one.means)))
            .chain(self.attaches.values().map(|one| ("attach", &one.entry, &one.means)))
            .chain(self.steps.values().map(|one| ("step", &one.entry, &one.means)))
    }

    /// How what the order of work names is done.
    pub fn means_of(&self, id: &str) -> Option<&Means> {
        let joint = self.joints.get(id).map(|one| &one.means);
        joint
            .or_else(|| self.edge_finishes.get(id).map(|one| &one.means))
            .or_else(|| self.topstitches.get(id).map(|one| &one.means))
            .or_else(|| self.attaches.get(id).map(|one| &one.means))
            .or_else(|| self.steps.get(id).map(|one| &one.means))
    }

    /// The size with this id.
    pub fn size(&self, id: &str) -> Option<&Size> {
        self.sizes.iter().find(|size| size.entry.id.value == id)
    }

    /// The size that outlines are drawn in: the one that is named, else the first.
    pub fn drawn_size(&self) -> Option<&Size> {
        let named = self.style.drawn.as_ref().and_then(|drawn| self.size(&drawn.value));
        named.or_else(|| self.sizes.first())
    }
}

//! Every id that the specification mentions, and the things that could be meant.

use std::collections::BTreeMap;

use super::{Article, ArticleKind, Cut, Entry, Held, Joint, Model, Piece, StitchUse, Value};
use crate::model::kind;
use crate::source::{Span, Spanned};
use crate::words::{Phrase, words};

/// What a mentioned id has to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// What this table declares.
    Of(&'static str),
    /// A role, or an article of this kind.
    Material(ArticleKind),
    /// Something that is a step of the work: seam, opening, edge finish, topstitch, attachment, step.
    Work,
    /// Anything with an id.
    Thing,
}

/// One id that the specification mentions.
#[derive(Debug, Clone)]
pub struct Mention<'a> {
    /// What it has to be.
    pub wanted: Wanted,
    /// The id, where it is written.
    pub id: &'a str,
    /// Where.
    pub span: Span,
    /// What mentions it, in the user's words: `piece SIDE`.
    pub by: Phrase,
}

words! {
    ORDER_OF_WORK "mention.order-of-work" = "the order of work";
    STYLE "mention.style" = "the style";
}

/// Every id that the specification mentions, apart from runs, which the assembly resolves, and colourways.
pub fn mentions(model: &Model) -> Vec<Mention<'_>> {
    let mut all = Mentions { list: Vec::new() };
    all.style(model);
    all.shapes(model);
    all.sewing(model);
    all.rest(model);
    // A shared stitch is used by many seams and written once.
    let mut seen = std::collections::BTreeSet::new();
    all.list.retain(|mention| seen.insert(mention.span));
    all.list
}

/// `seam left`, `opening back`.
pub fn joint_title(joint: &Joint) -> Phrase {
    kind::named(joint.kind.table(), &joint.entry.id.value)
}

struct Mentions<'a> {
    list: Vec<Mention<'a>>,
}

impl<'a> Mentions<'a> {
    fn add(&mut self, wanted: Wanted, id: Option<&'a Spanned<String>>, by: &Phrase) {
        if let Some(id) = id {
            self.list.push(Mention { wanted, id: &id.value, span: id.span, by: by.clone() });
        }
    }

    fn style(&mut self, model: &'a Model) {
        let by = STYLE.into();
        self.add(Wanted::Of("party"), model.style.owner.as_ref(), &by);
        self.add(Wanted::Of("party"), model.style.factory.as_ref(), &by);
    }

    fn shapes(&mut self, model: &'a Model) {
        for (id, piece) in &model.pieces {
            let by = kind::named("piece", id);
            self.add(Wanted::Of("part"), piece.part.as_ref(), &by);
            for cut in piece.cuts.values() {
                self.add(Wanted::Material(ArticleKind::Fabric), cut.material.as_ref(), &by);
            }
        }
        for (id, stuffing) in &model.stuffings {
            let by = kind::named("stuffing", id);
            self.add(Wanted::Of("part"), stuffing.part.as_ref(), &by);
            self.add(Wanted::Material(ArticleKind::Filling), stuffing.filling.as_ref(), &by);
        }
    }

    fn sewing(&mut self, model: &'a Model) {
        for joint in model.joints.values() {
            let by = joint_title(joint);
            self.stitch(&joint.stitch, &by);
            for layer in &joint.between {
                if let Held::Trim(layer) = &layer.held {
                    self.trim(Some(&layer.trim), &by);
                }
            }
            self.trim(joint.close.as_ref().and_then(|close| close.trim.as_ref()), &by);
        }
        for (id, finish) in &model.edge_finishes {
            let by = kind::named("edge-finish", id);
            self.stitch(&finish.stitch, &by);
            self.trim(finish.tape.as_ref().map(|tape| &tape.trim), &by);
        }
        for (id, stitch) in &model.topstitches {
            self.stitch(&stitch.stitch, &kind::named("topstitch", id));
        }
        for (id, attach) in &model.attaches {
            self.stitch(&attach.stitch, &kind::named("attach", id));
        }
        self.stitch(&model.work.stitch, &ORDER_OF_WORK.into());
        for (table, entry, means) in model.means() {
            let by = kind::named(table, &entry.id.value);
            let thread = Wanted::Material(ArticleKind::Thread);
            means.threads.iter().for_each(|one| self.add(thread, Some(&one.thread), &by));
        }
    }

    fn rest(&mut self, model: &'a Model) {
        for (id, step) in &model.steps {
            let by = kind::named("step", id);
            self.add(Wanted::Of("part"), step.part.as_ref(), &by);
            self.add(Wanted::Of("stuffing"), step.stuffing.as_ref(), &by);
            self.trim(step.trim.as_ref(), &by);
        }
        for step in &model.work.order {
            self.add(Wanted::Work, Some(step), &ORDER_OF_WORK.into());
        }
        for (id, article) in &model.articles {
            for colour in &article.colours {
                self.add(Wanted::Of("colour"), Some(colour), &kind::named(article.kind.word(), id));
            }
        }
        for (id, measure) in &model.measures {
            self.add(Wanted::Of("view"), measure.view.as_ref(), &kind::named("point-of-measure", id));
        }
        for (id, view) in &model.views {
            for callout in &view.callouts {
                self.add(Wanted::Thing, callout.item.as_ref(), &kind::named("view", id));
            }
        }
    }

    fn trim(&mut self, id: Option<&'a Spanned<String>>, by: &Phrase) {
        self.add(Wanted::Material(ArticleKind::Trim), id, by);
    }

    fn stitch(&mut self, stitch: &'a StitchUse, by: &Phrase) {
        let shared = stitch.shared.as_ref().map(|shared| kind::named("stitch", &shared.value));
        self.add(Wanted::Material(ArticleKind::Thread), stitch.thread.as_ref(), shared.as_ref().unwrap_or(by));
    }
}

/// The ids that satisfy a wish, in the order of their names.
pub fn known(model: &Model, wanted: Wanted) -> Vec<&str> {
    let mut all: Vec<&str> = match wanted {
        Wanted::Of(table) => {
            kind::of(table).into_iter().flat_map(|kind| (kind.things)(model)).map(|one| one.id.value.as_str()).collect()
        }
        Wanted::Material(kind) => {
            let is_kind = |article: &&Article| article.kind == kind;
            let direct = model.articles.values().filter(is_kind).map(|article| &article.entry.id.value);
            let roles = model.roles.keys().filter(|role| {
                let stands_for = articles(model, role);
                stands_for.is_empty() || stands_for.iter().any(is_kind)
            });
            ids(direct.chain(roles))
        }
        Wanted::Work => {
            model.entries().filter(|(table, _)| is_work(table)).map(|(_, entry)| entry.id.value.as_str()).collect()
        }
        Wanted::Thing => model.entries().map(|(_, entry)| entry.id.value.as_str()).collect(),
    };
    all.sort_unstable();
    all.dedup();
    all
}

fn ids<'a>(keys: impl Iterator<Item = &'a String>) -> Vec<&'a str> {
    keys.map(String::as_str).collect()
}

/// Whether things of a table are steps of the work.
pub fn is_work(table: &str) -> bool {
    matches!(table, "seam" | "opening" | "edge-finish" | "topstitch" | "attach" | "step")
}

/// Every article that a material name can stand for, in the order of colourways, each once.
pub fn articles<'m>(model: &'m Model, material: &'m str) -> Vec<&'m Article> {
    let mut all: Vec<&Article> = Vec::new();
    for colourway in model.colourways.keys() {
        if let Some((article, _)) = model.resolve(material, colourway)
            && all.iter().all(|one| one.entry.id.value != article.entry.id.value)
        {
            all.push(article);
        }
    }
    all
}

/// What `faces` says of a fabric without right and wrong side.
pub const EQUAL: &str = "equal";

/// Whether every fabric that a material name can stand for has two equal faces: a piece of it and its mirror image are cut alike.
/// What has a pile has none.
pub fn has_equal_faces(model: &Model, material: &str) -> bool {
    let all = articles(model, material);
    let equal = |article: &&Article| {
        let mut faces = article.text("faces").into_iter().flat_map(Value::all);
        article.quantity("pile").is_none() && faces.any(|stated| stated.known().is_some_and(|word| word == EQUAL))
    };
    !all.is_empty() && all.iter().all(equal)
}

/// Whether a piece may be turned over: every layer of it is of such a fabric.
pub fn turns_over(model: &Model, piece: &Piece) -> bool {
    let mut cuts = piece.cuts.values().peekable();
    let equal = |cut: &Cut| cut.material.as_ref().is_some_and(|material| has_equal_faces(model, &material.value));
    cuts.peek().is_some() && cuts.all(equal)
}

/// Every fabric that pieces are cut from, by id.
pub fn cut_fabrics(model: &Model) -> BTreeMap<&str, &Article> {
    let materials = cuts(model).filter_map(|(_, cut)| cut.material.as_ref());
    materials
        .flat_map(|material| articles(model, &material.value))
        .filter(|article| article.kind == ArticleKind::Fabric)
        .map(|article| (article.entry.id.value.as_str(), article))
        .collect()
}

/// Every cut with its piece.
pub fn cuts(model: &Model) -> impl Iterator<Item = (&Piece, &Cut)> {
    model.pieces.values().flat_map(|piece| piece.cuts.values().map(move |cut| (piece, cut)))
}

/// Whether a thing stands in a file, and not only in the reader's defaults.
pub fn is_written(entry: &Entry) -> bool {
    entry.span().end > entry.span().start
}

/// The place of `part` within a value that is written as one text, or the whole value where the source holds escapes.
pub fn within(value: &Spanned<String>, part: &str) -> Span {
    let quoted = value.span.end - value.span.start == value.value.len() + 2;
    match value.value.rfind(part) {
        Some(at) if quoted => value.span.part(1 + at, 1 + at + part.len()),
        _ => value.span,
    }
}

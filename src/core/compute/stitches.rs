//! The lines of stitches of a product: how long each is and what lies under the foot.

use std::collections::BTreeMap;

use crate::model::assembly::{self, Caught, Edging};
use crate::model::{EdgeFinishKind, Held, Joint, JointKind, Stated, StitchUse, TrimLayer, Variant};
use crate::source::Spanned;
use crate::standards::stitch::{Class, class_of};
use crate::units::Quantity;
use crate::words::{Phrase, say, words};

use super::input::Ground;
use super::lengths::{line_length, run_length, side_length};
use super::number::{number, property};
use super::reason::{MATERIAL_OF, NO_SUCH_PIECE, TRIM_OF, TURNS_UNKNOWN, no_article};
use super::{Figure, Number};

words! {
    BY_HAND "not-counted.by-hand" = "sewn by hand: no ratio is published for it";
    NO_EDGES "not-counted.no-edges" = "its edges are not known";
    NO_EDGE_KNOWN "not-counted.no-edge" = "its edge is not known";
    CLOSED_BY_HAND "not-counted.closed-by-hand" = "closed by hand: no ratio is published for it";
    CLOSED_BY "not-counted.closed-by" = "closed by {word}: no ratio is published for it";
    CLOSING_UNSTATED "not-counted.closing-unstated" = "how it is closed is not stated";
}

/// What is stitched by one line.
enum Under<'a> {
    /// Both sides of a seam and what is caught.
    Seam(&'a Joint, &'a assembly::Resolved),
    /// Both sides of an opening, each to a tape of its own.
    Tape(&'a assembly::Resolved, Option<&'a Spanned<String>>),
    /// An edge by itself, under as many layers of a tape as go round it.
    Edge(&'a Edging, Option<(&'a TrimLayer, f64)>),
    /// An edge whose turns are not stated.
    Hem(&'a Edging),
    /// An edge on a line of a piece, or the line alone.
    Line(&'a Edging),
}

/// One seam or other line of stitches, with all its images.
pub(super) struct Row<'a> {
    /// Id in its table.
    pub id: &'a str,
    /// The table.
    pub kind: &'static str,
    /// Name for people.
    pub title: &'a str,
    /// Lines of stitches in one product.
    pub lines: u64,
    images: u64,
    own: &'a StitchUse,
    shared: &'a StitchUse,
    under: Under<'a>,
}

impl<'a> Row<'a> {
    pub fn kind_of(&self) -> Option<&'a Spanned<String>> {
        self.own.kind.as_ref().or(self.shared.kind.as_ref())
    }

    pub fn density(&self) -> Option<&'a Stated<Quantity>> {
        self.own.density.as_ref().or(self.shared.density.as_ref())
    }

    pub fn width(&self) -> Option<&'a Stated<Quantity>> {
        self.own.width.as_ref().or(self.shared.width.as_ref())
    }

    pub fn thread(&self) -> Option<&'a Spanned<String>> {
        self.own.thread.as_ref().or(self.shared.thread.as_ref())
    }

    /// Stitched length in one product, mm.
    pub fn stitched(&self, ground: &Ground<'a>, size: &str) -> Figure<Number> {
        self.once(ground, size).times(self.images as f64)
    }

    fn once(&self, ground: &Ground<'a>, size: &str) -> Figure<Number> {
        match &self.under {
            Under::Seam(joint, image) => {
                let (a, b) = (side_length(ground, &image.a, size), side_length(ground, &image.b, size));
                super::seams::sewn(joint, &a, &b)
            }
            Under::Tape(image, _) => {
                Figure::sum([side_length(ground, &image.a, size), side_length(ground, &image.b, size)])
            }
            Under::Edge(edging, _) | Under::Hem(edging) => side_length(ground, &edging.side, size),
            Under::Line(edging) if !edging.side.runs.is_empty() => side_length(ground, &edging.side, size),
            Under::Line(edging) => line_length(ground, edging, size, self.title),
        }
    }

    /// Thickness under the foot, mm.
    pub fn thickness(&self, ground: &Ground<'a>, variant: Variant<'_>) -> Figure<Number> {
        let side = |side: &assembly::Side| side_thickness(ground, side, variant);
        match &self.under {
            Under::Seam(joint, image) => {
                let layers = image.between.iter().enumerate();
                let caught = layers.map(|layer| self.caught(ground, joint, image, layer, variant));
                Figure::sum([side(&image.a), side(&image.b)].into_iter().chain(caught))
            }
            Under::Tape(image, trim) => {
                let (a, b) = (side_length(ground, &image.a, variant.size), side_length(ground, &image.b, variant.size));
                let sides = mean([(side(&image.a), a), (side(&image.b), b)]);
                Figure::sum([sides, trim_thickness(ground, trim.map(|trim| trim.value.as_str()), variant, self.title)])
            }
            Under::Edge(edging, tape) => {
                let trim = tape.map(|(tape, layers)| {
                    trim_thickness(ground, Some(tape.trim.value.as_str()), variant, self.title).times(layers)
                });
                Figure::sum([side(&edging.side)].into_iter().chain(trim))
            }
            Under::Hem(_) => Figure::not_yet(say!(TURNS_UNKNOWN, title = self.title)),
            Under::Line(edging) => {
                let edge = (!edging.side.runs.is_empty()).then(|| side(&edging.side));
                let base = edging.line.as_ref().map(|(at, _)| piece_thickness(ground, *at, variant));
                Figure::sum(edge.into_iter().chain(base))
            }
        }
    }

    /// A caught layer counts as far as it reaches along the seam.
    fn caught(
        &self,
        ground: &Ground<'a>,
        joint: &Joint,
        image: &assembly::Resolved,
        (layer, caught): (usize, &Caught),
        variant: Variant<'_>,
    ) -> Figure<Number> {
        let whole = self.once(ground, variant.size);
        let reach = |length: Figure<Number>| {
            length.with(whole.clone(), |part, whole| (part.raw() / whole.raw()).min(1.0)).then(Figure::number)
        };
        match caught {
            Caught::Side(side) => {
                let thickness = side_thickness(ground, side, variant);
                thickness.by(reach(side_length(ground, side, variant.size)))
            }
            Caught::Trim(at) => {
                let trim = match joint.between.get(*at).map(|layer| &layer.held) {
                    Some(Held::Trim(trim)) => Some(trim.trim.value.as_str()),
                    _ => None,
                };
                let on = image.place(layer).map(|on| reach(side_length(ground, on, variant.size)));
                let share = on.unwrap_or(Figure::Known(Number::new(1.0)));
                trim_thickness(ground, trim, variant, self.title).by(share)
            }
        }
    }
}

/// Every line of stitches, and what is not counted with the reason.
pub(super) fn rows<'a>(ground: &Ground<'a>) -> (Vec<Row<'a>>, BTreeMap<String, Phrase>) {
    let mut rows = Vec::new();
    let mut left = BTreeMap::new();
    for (id, joint) in &ground.model.joints {
        match joint_row(ground, id, joint) {
            Ok(row) => rows.push(row),
            Err(why) => {
                left.insert(id.clone(), why);
            }
        }
    }
    edge_rows(ground, &mut rows, &mut left);
    rows.retain(|row| {
        let by_hand = is_by_hand(row);
        if by_hand {
            left.insert(row.id.to_string(), BY_HAND.into());
        }
        !by_hand
    });
    (rows, left)
}

/// Whether the stitch is one of class 200 of ISO 4915.
fn is_by_hand(row: &Row<'_>) -> bool {
    let kind = row.own.kind.as_ref().or(row.shared.kind.as_ref());
    kind.is_some_and(|kind| class_of(&kind.value) == Some(Class::Hand))
}

fn joint_row<'a>(ground: &Ground<'a>, id: &'a str, joint: &'a Joint) -> Result<Row<'a>, Phrase> {
    let images: Vec<&assembly::Resolved> = ground.assembly.joints.iter().filter(|one| one.joint == id).collect();
    let Some(first) = images.first().copied() else { return Err(NO_EDGES.into()) };
    let by = joint.close.as_ref().and_then(|close| close.by.as_ref()).and_then(Stated::known);
    let (kind, under, each) = match (joint.kind, by.map(String::as_str)) {
        (JointKind::Seam, _) => ("seam", Under::Seam(joint, first), 1),
        (JointKind::Opening, Some("machine")) => ("opening", Under::Seam(joint, first), 1),
        (JointKind::Opening, Some("zip" | "hook and loop")) => {
            let trim = joint.close.as_ref().and_then(|close| close.trim.as_ref());
            ("opening", Under::Tape(first, trim), 2)
        }
        (JointKind::Opening, Some("hand")) => return Err(CLOSED_BY_HAND.into()),
        (JointKind::Opening, Some(word)) => return Err(say!(CLOSED_BY, word)),
        (JointKind::Opening, None) => return Err(CLOSING_UNSTATED.into()),
    };
    let count = images.len() as u64;
    Ok(Row {
        id,
        kind,
        title: joint.entry.title(),
        lines: count * each,
        images: count,
        own: &joint.stitch,
        shared: &ground.model.work.stitch,
        under,
    })
}

fn edge_rows<'a>(ground: &Ground<'a>, rows: &mut Vec<Row<'a>>, left: &mut BTreeMap<String, Phrase>) {
    let edgings =
        |id: &str| -> Vec<&'a Edging> { ground.assembly.edgings.iter().filter(|edging| edging.id == id).collect() };
    let shared = &ground.model.work.stitch;
    let unknown = || Phrase::from(NO_EDGE_KNOWN);
    for (id, finish) in &ground.model.edge_finishes {
        let kind = finish.kind.as_ref().map(|kind| kind.value);
        let all = edgings(id);
        let Some(first) = all.first().copied() else {
            left.insert(id.clone(), unknown());
            continue;
        };
        let stated = finish.stitch.kind.is_some() || finish.stitch.thread.is_some();
        let under = match kind {
            Some(EdgeFinishKind::Raw) => continue,
            Some(EdgeFinishKind::Fold) if !stated => continue,
            Some(EdgeFinishKind::Bound) => Under::Edge(first, finish.tape.as_ref().map(|tape| (tape, 2.0))),
            Some(EdgeFinishKind::Overlocked) => Under::Edge(first, None),
            Some(EdgeFinishKind::Hem | EdgeFinishKind::Fold) | None => Under::Hem(first),
        };
        // What joins seams says nothing of the stitch that neatens an edge.
        let own_only = kind == Some(EdgeFinishKind::Overlocked);
        let shared = if own_only { &finish.stitch } else { shared };
        let count = all.len() as u64;
        let title = finish.entry.title();
        rows.push(Row {
            id,
            kind: "edge-finish",
            title,
            lines: count,
            images: count,
            own: &finish.stitch,
            shared,
            under,
        });
    }
    let attaches = ground.model.attaches.iter().map(|(id, one)| (id, "attach", &one.entry, &one.stitch));
    let stitches = ground.model.topstitches.iter().map(|(id, one)| (id, "topstitch", &one.entry, &one.stitch));
    for (id, kind, entry, own) in attaches.chain(stitches) {
        let all = edgings(id);
        let Some(first) = all.first().copied() else {
            left.insert(id.clone(), unknown());
            continue;
        };
        let (count, under) = (all.len() as u64, Under::Line(first));
        rows.push(Row { id, kind, title: entry.title(), lines: count, images: count, own, shared, under });
    }
}

/// Mean of figures weighted by lengths.
fn mean(parts: impl IntoIterator<Item = (Figure<Number>, Figure<Number>)>) -> Figure<Number> {
    let (mut sum, mut whole) = (Figure::Known(Number::default()), Figure::Known(Number::default()));
    for (value, weight) in parts {
        sum = Figure::sum([sum, value.by(weight.clone())]);
        whole = Figure::sum([whole, weight]);
    }
    sum.with(whole, |sum, whole| sum.raw() / whole.raw()).then(Figure::number)
}

/// Thickness of the layers along a chain, averaged over its pieces, mm.
fn side_thickness(ground: &Ground<'_>, side: &assembly::Side, variant: Variant<'_>) -> Figure<Number> {
    let each =
        |run: &assembly::Run| (piece_thickness(ground, run.instance, variant), run_length(ground, run, variant.size));
    mean(side.runs.iter().map(each))
}

/// Thickness of all layers of a piece that reach its seams, mm.
fn piece_thickness(ground: &Ground<'_>, instance: usize, variant: Variant<'_>) -> Figure<Number> {
    let missing = || Figure::not_yet(NO_SUCH_PIECE);
    let Some(one) = ground.assembly.instances.get(instance) else { return missing() };
    let Some(piece) = ground.model.pieces.get(&one.piece) else { return missing() };
    let sewn = piece.cuts.iter().filter(|(_, cut)| cut.inside.is_none());
    Figure::sum(sewn.map(|(id, cut)| {
        let material = cut.material.as_ref().map(|material| material.value.as_str());
        let bought = ground.bought(material, variant.colourway, say!(MATERIAL_OF, of = &one.piece));
        let each = super::counts::each(&one.piece, id, cut).map(|each| Number::new(each as f64));
        bought.then(|bought| article_thickness(ground, &bought.article, variant)).by(each)
    }))
}

fn trim_thickness(ground: &Ground<'_>, trim: Option<&str>, variant: Variant<'_>, title: &str) -> Figure<Number> {
    let bought = ground.bought(trim, variant.colourway, say!(TRIM_OF, title));
    bought.then(|bought| article_thickness(ground, &bought.article, variant))
}

fn article_thickness(ground: &Ground<'_>, article: &str, variant: Variant<'_>) -> Figure<Number> {
    match ground.model.articles.get(article) {
        Some(article) => number(property(article, "thickness", variant)),
        None => Figure::not_yet(no_article(article)),
    }
}

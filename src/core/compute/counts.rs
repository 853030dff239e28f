//! How many pieces, parts and instances one product has, and which way each lies.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::geom::Outline;
use crate::model::mention::has_equal_faces;
use crate::model::{Cut, Piece, assembly};
use crate::words::say;

use super::Figure;
use super::input::{Bought, Ground};
use super::reason::COUNT_OF;

/// How much of what is made. One product is the same in every size; colourways may differ in material only.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Counts {
    /// Every piece of one product.
    pub instances: Vec<InstanceLine>,
    /// Every layer that is cut, by piece and cut.
    pub cuts: Vec<CutCount>,
    /// Parts by id.
    pub parts: BTreeMap<String, PartCount>,
    /// Pieces to cut for one product, by material as the pieces name it.
    pub materials: BTreeMap<String, Figure<u64>>,
    /// Pieces to cut for one product, by colourway.
    pub articles: BTreeMap<String, Vec<ArticleCount>>,
    /// Pieces to cut for one product, all materials together.
    pub pieces: Figure<u64>,
}

/// The way a piece lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Way {
    /// As its outline is drawn.
    Drawn,
    /// The mirror image of the outline.
    Mirrored,
}

impl Way {
    fn of(mirrored: bool) -> Way {
        if mirrored { Way::Mirrored } else { Way::Drawn }
    }
}

/// One piece of one use of a part.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct InstanceLine {
    /// Part id; empty where the piece belongs to none.
    pub part: String,
    /// Use of the part; empty where it is used once.
    pub usage: String,
    /// Piece id.
    pub piece: String,
    /// Copy; empty where the piece is cut once.
    pub copy: String,
    /// Which way it lies: a mirrored copy in a mirrored use lies as drawn.
    pub way: Way,
}

/// One layer of a piece as it is cut for one product.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CutCount {
    /// Part id; empty where the piece belongs to none.
    pub part: String,
    /// Piece id.
    pub piece: String,
    /// Cut id.
    pub cut: String,
    /// The role or article it is cut from, as written; absent where none is.
    pub material: Option<String>,
    /// How often per copy of the piece.
    pub each: Figure<u64>,
    /// Pieces to cut as drawn.
    pub drawn: Figure<u64>,
    /// Pieces to cut mirrored; none where the piece is its own mirror image, or the fabric has two equal faces.
    pub mirrored: Figure<u64>,
    /// Pieces to cut: cut count × uses × copies.
    pub total: Figure<u64>,
    /// Whether the piece with its points and grain is its own mirror image, so that both ways count as one kind.
    pub own_image: Figure<bool>,
    /// Whether the fabric has two equal faces, so that both ways are cut alike.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub turned_over: bool,
}

impl CutCount {
    /// Whether a piece and its mirror image are one kind: each can be cut as drawn.
    pub fn one_kind(&self) -> bool {
        self.turned_over || self.own_image == Figure::Known(true)
    }
}

/// One part.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct PartCount {
    /// Uses in one product as drawn.
    pub drawn: u64,
    /// Uses in one product as mirror images.
    pub mirrored: u64,
    /// Pieces sewn into one use; layers of one piece count once.
    pub instances_each: u64,
    /// Pieces to cut for all uses, every layer counted.
    pub pieces: Figure<u64>,
}

/// Pieces cut from one article.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ArticleCount {
    /// The article and its colour.
    #[serde(flatten)]
    pub bought: Bought,
    /// Pieces to cut for one product.
    pub pieces: Figure<u64>,
}

pub(crate) fn counts(ground: &Ground<'_>) -> Counts {
    let cuts = cut_counts(ground);
    let mut materials: BTreeMap<String, Figure<u64>> = BTreeMap::new();
    for cut in &cuts {
        let Some(material) = &cut.material else { continue };
        let sum = materials.remove(material).unwrap_or(Figure::Known(0));
        materials.insert(material.clone(), Figure::total([sum, cut.total.clone()]));
    }
    let colourways = ground.model.colourways.keys();
    Counts {
        instances: ground.assembly.instances.iter().map(instance).collect(),
        parts: parts(ground, &cuts),
        articles: colourways.map(|id| (id.clone(), articles(ground, id, &materials))).collect(),
        pieces: Figure::total(cuts.iter().map(|cut| cut.total.clone())),
        cuts,
        materials,
    }
}

fn instance(one: &assembly::Instance) -> InstanceLine {
    InstanceLine {
        part: one.part.clone(),
        usage: one.usage.clone(),
        piece: one.piece.clone(),
        copy: one.copy.clone(),
        way: Way::of(one.mirrored),
    }
}

fn cut_counts(ground: &Ground<'_>) -> Vec<CutCount> {
    let mut all = Vec::new();
    for (id, piece) in &ground.model.pieces {
        let mine = || ground.assembly.instances.iter().filter(|one| one.piece == *id);
        let turned = mine().filter(|one| one.mirrored).count() as u64;
        let straight = mine().count() as u64 - turned;
        let own_image = own_image(ground, id, piece);
        for (cut_id, cut) in &piece.cuts {
            let each = each(id, cut_id, cut);
            let times = |count: u64| each.clone().map(|each| each.saturating_mul(count));
            let material = cut.material.as_ref().map(|material| material.value.as_str());
            let turned_over = material.is_some_and(|material| has_equal_faces(ground.model, material));
            let one_kind = turned_over || own_image == Figure::Known(true);
            all.push(CutCount {
                part: piece.part.as_ref().map_or(String::new(), |part| part.value.clone()),
                piece: id.clone(),
                cut: cut_id.clone(),
                material: material.map(ToString::to_string),
                drawn: times(if one_kind { straight + turned } else { straight }),
                mirrored: times(if one_kind { 0 } else { turned }),
                total: times(straight + turned),
                own_image: own_image.clone(),
                turned_over,
                each,
            });
        }
    }
    all
}

/// How often a layer is cut per copy of its piece.
pub(crate) fn each(piece: &str, id: &str, cut: &Cut) -> Figure<u64> {
    match &cut.count {
        None => Figure::Known(1),
        count => Figure::stated(count.as_ref(), say!(COUNT_OF, piece, cut = id)).map(u64::from),
    }
}

/// Whether a piece may be laid either way: symmetric with its points, its pile one way, its grain either way.
fn own_image(ground: &Ground<'_>, id: &str, piece: &Piece) -> Figure<bool> {
    /// Accuracy at which a drawn shape counts as symmetric, mm.
    const SAME: f64 = 0.05;
    let Some(drawn) = ground.model.drawn_size() else { return Figure::Known(false) };
    let lines = ground.drawn.get(id, &drawn.entry.id.value);
    let outline = ground.drawn.sew(id, &drawn.entry.id.value);
    outline.map(|outline| {
        // Notches are marks as good as any: their images must be notches.
        let mut outline = outline.clone();
        let marks = lines.and_then(|lines| lines.notches.known()).into_iter().flatten();
        outline.lines.extend(marks.map(|mark| crate::geom::InternalLine {
            id: "notch".to_string(),
            path: crate::geom::Path::polyline([mark.sew, mark.cut]),
        }));
        let folds = |grain| Outline { grain, ..outline.clone() }.point_images(SAME).is_some();
        match (piece.pile_line(&outline), piece.grain_line(&outline)) {
            (Some(pile), _) => folds(Some(pile)),
            // Without pile the grain is a line: it may also lie square to the axis.
            (None, Some((a, b))) => folds(Some((a, b))) || folds(Some((a, a + (b - a).left()))),
            (None, None) => folds(None),
        }
    })
}

fn parts(ground: &Ground<'_>, cuts: &[CutCount]) -> BTreeMap<String, PartCount> {
    let mut all = BTreeMap::new();
    for (id, part) in &ground.model.parts {
        let mirrored = part.uses.iter().filter(|usage| usage.mirrored).count() as u64;
        let uses = part.uses.len() as u64;
        let instances = ground.assembly.instances.iter().filter(|one| one.part == *id).count() as u64;
        let count = PartCount {
            drawn: uses - mirrored,
            mirrored,
            instances_each: instances / uses.max(1),
            pieces: Figure::total(cuts.iter().filter(|cut| cut.part == *id).map(|cut| cut.total.clone())),
        };
        all.insert(id.clone(), count);
    }
    all
}

fn articles(ground: &Ground<'_>, colourway: &str, materials: &BTreeMap<String, Figure<u64>>) -> Vec<ArticleCount> {
    let mut all: BTreeMap<Bought, Figure<u64>> = BTreeMap::new();
    for (material, pieces) in materials {
        let Some((article, colour)) = ground.model.resolve(material, colourway) else { continue };
        let bought = Bought { article: article.entry.id.value.clone(), colour: colour.map(ToString::to_string) };
        let sum = all.remove(&bought).unwrap_or(Figure::Known(0));
        all.insert(bought, Figure::total([sum, pieces.clone()]));
    }
    all.into_iter().map(|(bought, pieces)| ArticleCount { bought, pieces }).collect()
}

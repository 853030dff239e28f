//! The properties of articles, as one list that the reader, the schema, the rules, the sheets and the comparison
//! all loop over. A new property is one line here.

use crate::units::{Dimension, Quantity};

use super::{ArticleKind, Value};

/// A value of a property.
#[derive(Debug, Clone, PartialEq)]
pub enum Property {
    /// Text in the user's words.
    Text(Value<String>),
    /// A quantity.
    Quantity(Value<Quantity>),
}

/// What a property holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Holds {
    /// Text.
    Text,
    /// One of these words.
    Word(&'static [&'static str]),
    /// A quantity of one of these dimensions, and the range outside which it is taken for a slip.
    Quantity(&'static [Dimension], Option<(&'static str, &'static str)>),
}

/// One property of one or more kinds of article.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spec {
    /// Key in the file.
    pub key: &'static str,
    /// Head on the sheets.
    pub title: &'static str,
    /// Kinds that have it.
    pub kinds: &'static [ArticleKind],
    /// What it holds.
    pub holds: Holds,
    /// One line for the reference and the editor.
    pub doc: &'static str,
}

use ArticleKind::{Fabric, Filling, Thread, Trim};
use Dimension::{Count, Force, Length, Mass, MassPerArea, MassPerLength, Percent, Time};
use Holds::Text;

const fn quantity(of: &'static [Dimension], range: (&'static str, &'static str)) -> Holds {
    Holds::Quantity(of, Some(range))
}

const fn spec(
    key: &'static str,
    title: &'static str,
    kinds: &'static [ArticleKind],
    holds: Holds,
    doc: &'static str,
) -> Spec {
    Spec { key, title, kinds, holds, doc }
}

const ALL: &[ArticleKind] = &[Fabric, Thread, Filling, Trim];

/// Every property, in the order sheets show it. Ranges are wide limits outside which a value is taken for a slip of
/// unit or digit (common practice).
pub const PROPERTIES: &[Spec] = &[
    spec("type", "Type", ALL, Text, "What it is: plush, woven, felt, fusible, pellets, zip ..."),
    spec("construction", "Construction", &[Fabric], Text, "Warp knit, weft knit, sliver knit, woven ..."),
    spec("finish", "Finish", &[Fabric, Trim], Text, "Straight, curled, tipped, printed ..."),
    spec("backing", "Backing", &[Fabric], Text, "Coating or backing of the reverse"),
    spec("pile", "Pile height", &[Fabric], quantity(&[Length], ("0.2 mm", "120 mm")), "Height of the pile"),
    spec(
        "mass",
        "Mass",
        &[Fabric],
        quantity(&[MassPerArea], ("10 g/m2", "3000 g/m2")),
        "Total mass per area, ground and pile",
    ),
    spec("width", "Full width", &[Fabric], quantity(&[Length], ("100 mm", "4000 mm")), "Full width of the roll"),
    spec(
        "cuttable-width",
        "Cuttable width",
        &[Fabric],
        quantity(&[Length], ("100 mm", "4000 mm")),
        "Width that can be cut",
    ),
    spec(
        "thickness",
        "Thickness",
        &[Fabric, Trim],
        quantity(&[Length], ("0.02 mm", "60 mm")),
        "Thickness under the presser foot",
    ),
    spec("stretch-along", "Stretch along", &[Fabric], quantity(&[Percent], ("0 %", "300 %")), "Along the roll"),
    spec("stretch-across", "Stretch across", &[Fabric], quantity(&[Percent], ("0 %", "300 %")), "Across the roll"),
    spec(
        "shrinkage-along",
        "Shrinkage along",
        &[Fabric],
        quantity(&[Percent], ("-10 %", "30 %")),
        "Relaxation shrinkage along the roll",
    ),
    spec(
        "shrinkage-across",
        "Shrinkage across",
        &[Fabric],
        quantity(&[Percent], ("-10 %", "30 %")),
        "Relaxation shrinkage across the roll",
    ),
    spec("roll-length", "Roll length", &[Fabric], quantity(&[Length], ("1 m", "2000 m")), "Length of fabric on a roll"),
    spec(
        "efficiency",
        "Marker efficiency",
        &[Fabric],
        quantity(&[Percent], ("10 %", "100 %")),
        "Least marker efficiency: share of the usable fabric that should become pieces; makes the estimate of the need as long as there is no lay",
    ),
    spec(
        "direction",
        "Direction",
        &[Fabric],
        Holds::Word(&["one way", "two ways", "any way"]),
        "How pieces may lie along the roll; one way with a pile, two ways without, unless said",
    ),
    spec(
        "ply",
        "Thickness of a ply",
        &[Fabric],
        quantity(&[Length], ("0.02 mm", "60 mm")),
        "Thickness of one ply as it is pressed for cutting; the thickness under the foot unless said",
    ),
    spec("plies", "Most plies", &[Fabric], quantity(&[Count], ("1 pc", "500 pc")), "Most plies that are cut at once"),
    spec(
        "faults",
        "Lost to faults",
        &[Fabric],
        quantity(&[Percent], ("0 %", "40 %")),
        "Share of a roll that is lost to faults",
    ),
    spec(
        "splice",
        "Splices",
        &[Fabric],
        Holds::Word(&["none", "allowed"]),
        "Whether a ply may be pieced together from two rolls; none unless said",
    ),
    spec("relax", "Relaxing time", &[Fabric], quantity(&[Time], ("0 h", "168 h")), "Rest before cutting"),
    spec(
        "fineness",
        "Fineness",
        &[Thread, Filling],
        quantity(&[MassPerLength], ("0.1 dtex", "500 tex")),
        "Linear density of the thread or fibre",
    ),
    spec("cone", "Cone", &[Thread], quantity(&[Length], ("50 m", "50000 m")), "Length on a cone"),
    spec("wastage", "Wastage", &[Thread], quantity(&[Percent], ("0 %", "60 %")), "Added to the thread that is sewn in"),
    spec("staple", "Staple", &[Filling], quantity(&[Length], ("1 mm", "200 mm")), "Cut length of the fibre"),
    spec(
        "particle",
        "Particle size",
        &[Filling],
        quantity(&[Length], ("0.1 mm", "30 mm")),
        "Size of pellets or granules",
    ),
    spec("fibre-type", "Fibre type", &[Filling], Text, "Hollow conjugate, siliconised, solid, blown ..."),
    spec(
        "recycled",
        "Recycled content",
        &[Filling],
        Text,
        "Share of recycled material and its proof: \"none\", \"100 %, certificate with each lot\"",
    ),
    spec("mass-each", "Mass each", &[Trim], quantity(&[Mass], ("0.001 g", "5 kg")), "Mass of one piece"),
    spec(
        "mass-per-length",
        "Mass per length",
        &[Trim],
        quantity(&[MassPerLength], ("0.01 g/m", "2000 g/m")),
        "Mass of length goods",
    ),
    spec("diameter", "Diameter", &[Trim], quantity(&[Length], ("0.5 mm", "3 m")), "Of an eye, button, bell or cord"),
    spec("width", "Width", &[Trim], quantity(&[Length], ("0.5 mm", "3 m")), "Of a tape, label, hangtag or bag"),
    spec("length", "Length", &[Trim], quantity(&[Length], ("0.5 mm", "3 m")), "Of a zip, label, hangtag or bag"),
    spec(
        "opening",
        "Opening",
        &[Trim],
        quantity(&[Length], ("0.5 mm", "3 m")),
        "Of a bag: the width of its mouth, laid flat",
    ),
    spec(
        "pull",
        "Pull force",
        &[Trim],
        quantity(&[Force], ("1 N", "500 N")),
        "Force it must withstand; the accredited laboratory and the law of the destination decide",
    ),
    spec(
        "use",
        "Use per product",
        &[Trim],
        quantity(&[Count, Length], ("0 pc", "1000 pc")),
        "How many, or what length, in one product; length goods caught in seams are counted by themselves",
    ),
    spec("place", "Place", &[Trim], Text, "Where it goes"),
    spec("supplier", "Supplier", ALL, Text, "Nominated or free"),
    spec("article", "Article", ALL, Text, "The supplier's article number"),
    spec("substitute", "Substitute", ALL, Text, "What may stand in for it, or `none`"),
    spec("minimum-order", "Minimum order", ALL, Holds::Quantity(&[Length, Mass, Count], None), "Per colour"),
    spec(
        "price",
        "Price",
        &[Fabric],
        Text,
        "Of a metre, yard or kilogram: { value = \"4.20 EUR/m\", audience = \"own\" } keeps it in the own edition",
    ),
    spec("lead-time", "Lead time", ALL, quantity(&[Time], ("0 d", "365 d")), "From order to the factory's door"),
    spec("note", "Note", ALL, Text, "A remark"),
];

/// The properties of one kind of article.
pub fn of(kind: ArticleKind) -> impl Iterator<Item = &'static Spec> {
    PROPERTIES.iter().filter(move |spec| spec.kinds.contains(&kind))
}

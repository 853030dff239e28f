//! The properties of articles, as one list that the reader, the schema, the rules, the sheets and the comparison
//! all loop over. A new property is one line here.

use crate::units::{Dimension, Quantity};
use crate::words::{Word, words};

use super::{ArticleKind, Value};

words! {
    TYPE "property.type" = "type";
    CONSTRUCTION "property.construction" = "construction";
    FINISH "property.finish" = "finish";
    BACKING "property.backing" = "backing";
    PILE_HEIGHT "property.pile-height" = "pile height";
    MASS "property.mass" = "mass";
    FULL_WIDTH "property.full-width" = "full width";
    CUTTABLE_WIDTH "property.cuttable-width" = "cuttable width";
    THICKNESS "property.thickness" = "thickness";
    STRETCH_ALONG "property.stretch-along" = "stretch along";
    STRETCH_ACROSS "property.stretch-across" = "stretch across";
    SHRINKAGE_ALONG "property.shrinkage-along" = "shrinkage along";
    SHRINKAGE_ACROSS "property.shrinkage-across" = "shrinkage across";
    ROLL_LENGTH "property.roll-length" = "roll length";
    MARKER_EFFICIENCY "property.marker-efficiency" = "marker efficiency of an estimate";
    FACES "property.faces" = "faces";
    DIRECTION "property.direction" = "direction";
    THICKNESS_OF_A_PLY "property.thickness-of-a-ply" = "thickness of a ply";
    MOST_PLIES "property.most-plies" = "most plies";
    LOST_TO_FAULTS "property.lost-to-faults" = "lost to faults";
    SPLICES "property.splices" = "splices";
    RELAXING_TIME "property.relaxing-time" = "relaxing time";
    FINENESS "property.fineness" = "fineness";
    CONE "property.cone" = "cone";
    WASTAGE "property.wastage" = "wastage";
    STAPLE "property.staple" = "staple";
    PARTICLE_SIZE "property.particle-size" = "particle size";
    FIBRE_TYPE "property.fibre-type" = "fibre type";
    RECYCLED_CONTENT "property.recycled-content" = "recycled content";
    MASS_EACH "property.mass-each" = "mass each";
    MASS_PER_LENGTH "property.mass-per-length" = "mass per length";
    DIAMETER "property.diameter" = "diameter";
    WIDTH "property.width" = "width";
    LENGTH "property.length" = "length";
    OPENING "property.opening" = "opening";
    PULL_FORCE "property.pull-force" = "pull force";
    USE_PER_PRODUCT "property.use-per-product" = "use per product";
    PLACE "property.place" = "place";
    SUPPLIER "property.supplier" = "supplier";
    ARTICLE "property.article" = "article";
    SUBSTITUTE "property.substitute" = "substitute";
    MINIMUM_ORDER "property.minimum-order" = "minimum order";
    PRICE "property.price" = "price";
    LEAD_TIME "property.lead-time" = "lead time";
    NOTE "property.note" = "note";
}

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
    /// Its name on the sheets, within a line.
    pub title: Word,
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

const fn spec(key: &'static str, title: Word, kinds: &'static [ArticleKind], holds: Holds, doc: &'static str) -> Spec {
    Spec { key, title, kinds, holds, doc }
}

const ALL: &[ArticleKind] = &[Fabric, Thread, Filling, Trim];

/// Every property, in the order sheets show it. Ranges are wide limits outside which a value is taken for a slip of
/// unit or digit (common practice).
pub const PROPERTIES: &[Spec] = &[
    spec("type", TYPE, ALL, Text, "What it is: plush, woven, felt, fusible, pellets, zip ..."),
    spec("construction", CONSTRUCTION, &[Fabric], Text, "Warp knit, weft knit, sliver knit, woven ..."),
    spec("finish", FINISH, &[Fabric, Trim], Text, "Straight, curled, tipped, printed ..."),
    spec("backing", BACKING, &[Fabric], Text, "Coating or backing of the reverse"),
    spec("pile", PILE_HEIGHT, &[Fabric], quantity(&[Length], ("0.2 mm", "120 mm")), "Height of the pile"),
    spec(
        "mass",
        MASS,
        &[Fabric],
        quantity(&[MassPerArea], ("10 g/m2", "3000 g/m2")),
        "Total mass per area, ground and pile",
    ),
    spec("width", FULL_WIDTH, &[Fabric], quantity(&[Length], ("100 mm", "4000 mm")), "Full width of the roll"),
    spec(
        "cuttable-width",
        CUTTABLE_WIDTH,
        &[Fabric],
        quantity(&[Length], ("100 mm", "4000 mm")),
        "Width that can be cut",
    ),
    spec(
        "thickness",
        THICKNESS,
        &[Fabric, Trim],
        quantity(&[Length], ("0.02 mm", "60 mm")),
        "Thickness under the presser foot",
    ),
    spec("stretch-along", STRETCH_ALONG, &[Fabric], quantity(&[Percent], ("0 %", "300 %")), "Along the roll"),
    spec("stretch-across", STRETCH_ACROSS, &[Fabric], quantity(&[Percent], ("0 %", "300 %")), "Across the roll"),
    spec(
        "shrinkage-along",
        SHRINKAGE_ALONG,
        &[Fabric],
        quantity(&[Percent], ("-10 %", "30 %")),
        "Relaxation shrinkage along the roll",
    ),
    spec(
        "shrinkage-across",
        SHRINKAGE_ACROSS,
        &[Fabric],
        quantity(&[Percent], ("-10 %", "30 %")),
        "Relaxation shrinkage across the roll",
    ),
    spec("roll-length", ROLL_LENGTH, &[Fabric], quantity(&[Length], ("1 m", "2000 m")), "Length of fabric on a roll"),
    spec(
        "efficiency",
        MARKER_EFFICIENCY,
        &[Fabric],
        quantity(&[Percent], ("10 %", "100 %")),
        "Least marker efficiency: share of the usable fabric that should become pieces; makes the estimate of the need as long as there is no lay",
    ),
    spec(
        "direction",
        DIRECTION,
        &[Fabric],
        Holds::Word(&["one way", "two ways", "any way"]),
        "How pieces may lie along the roll; one way with a pile, two ways without, unless said",
    ),
    spec(
        "faces",
        FACES,
        &[Fabric],
        Holds::Word(&["right and wrong", "equal"]),
        "Equal where it has no right and no wrong side, as felt: pieces and their mirror images are then cut alike",
    ),
    spec(
        "ply",
        THICKNESS_OF_A_PLY,
        &[Fabric],
        quantity(&[Length], ("0.02 mm", "60 mm")),
        "Thickness of one ply as it is pressed for cutting; the thickness under the foot unless said",
    ),
    spec("plies", MOST_PLIES, &[Fabric], quantity(&[Count], ("1 pc", "500 pc")), "Most plies that are cut at once"),
    spec(
        "faults",
        LOST_TO_FAULTS,
        &[Fabric],
        quantity(&[Percent], ("0 %", "40 %")),
        "Share of a roll that is lost to faults",
    ),
    spec(
        "splice",
        SPLICES,
        &[Fabric],
        Holds::Word(&["none", "allowed"]),
        "Whether a ply may be pieced together from two rolls; none unless said",
    ),
    spec("relax", RELAXING_TIME, &[Fabric], quantity(&[Time], ("0 h", "168 h")), "Rest before cutting"),
    spec(
        "fineness",
        FINENESS,
        &[Thread, Filling],
        quantity(&[MassPerLength], ("0.1 dtex", "500 tex")),
        "Linear density of the thread or fibre",
    ),
    spec("cone", CONE, &[Thread], quantity(&[Length], ("50 m", "50000 m")), "Length on a cone"),
    spec("wastage", WASTAGE, &[Thread], quantity(&[Percent], ("0 %", "60 %")), "Added to the thread that is sewn in"),
    spec("staple", STAPLE, &[Filling], quantity(&[Length], ("1 mm", "200 mm")), "Cut length of the fibre"),
    spec(
        "particle",
        PARTICLE_SIZE,
        &[Filling],
        quantity(&[Length], ("0.1 mm", "30 mm")),
        "Size of pellets or granules",
    ),
    spec("fibre-type", FIBRE_TYPE, &[Filling], Text, "Hollow conjugate, siliconised, solid, blown ..."),
    spec(
        "recycled",
        RECYCLED_CONTENT,
        &[Filling],
        Text,
        "Share of recycled material and its proof: \"none\", \"100 %, certificate with each lot\"",
    ),
    spec("mass-each", MASS_EACH, &[Trim], quantity(&[Mass], ("0.001 g", "5 kg")), "Mass of one piece"),
    spec(
        "mass-per-length",
        MASS_PER_LENGTH,
        &[Trim],
        quantity(&[MassPerLength], ("0.01 g/m", "2000 g/m")),
        "Mass of length goods",
    ),
    spec("diameter", DIAMETER, &[Trim], quantity(&[Length], ("0.5 mm", "3 m")), "Of an eye, button, bell or cord"),
    spec("width", WIDTH, &[Trim], quantity(&[Length], ("0.5 mm", "3 m")), "Of a tape, label, hangtag or bag"),
    spec("length", LENGTH, &[Trim], quantity(&[Length], ("0.5 mm", "3 m")), "Of a zip, label, hangtag or bag"),
    spec(
        "opening",
        OPENING,
        &[Trim],
        quantity(&[Length], ("0.5 mm", "3 m")),
        "Of a bag: the width of its mouth, laid flat",
    ),
    spec(
        "pull",
        PULL_FORCE,
        &[Trim],
        quantity(&[Force], ("1 N", "500 N")),
        "Force it must withstand; the accredited laboratory and the law of the destination decide",
    ),
    spec(
        "use",
        USE_PER_PRODUCT,
        &[Trim],
        quantity(&[Count, Length], ("0 pc", "1000 pc")),
        "How many, or what length, in one product; length goods caught in seams are counted by themselves",
    ),
    spec("place", PLACE, &[Trim], Text, "Where it goes"),
    spec("supplier", SUPPLIER, ALL, Text, "Nominated or free"),
    spec("article", ARTICLE, ALL, Text, "The supplier's article number"),
    spec("substitute", SUBSTITUTE, ALL, Text, "What may stand in for it, or `none`"),
    spec("minimum-order", MINIMUM_ORDER, ALL, Holds::Quantity(&[Length, Mass, Count], None), "Per colour"),
    spec(
        "price",
        PRICE,
        &[Fabric],
        Text,
        "Of a metre, yard or kilogram: { value = \"4.20 EUR/m\", audience = \"own\" } keeps it in the own edition",
    ),
    spec("lead-time", LEAD_TIME, ALL, quantity(&[Time], ("0 d", "365 d")), "From order to the factory's door"),
    spec("note", NOTE, ALL, Text, "A remark"),
];

/// The properties of one kind of article.
pub fn of(kind: ArticleKind) -> impl Iterator<Item = &'static Spec> {
    PROPERTIES.iter().filter(move |spec| spec.kinds.contains(&kind))
}

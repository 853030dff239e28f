//! Usual cautions where the work or the product can hurt someone. Every text defers to the law of the destination and
//! to an accredited laboratory: nothing here certifies anything.

use super::Basis;

/// One caution, ready to print.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// The names of title and text in the files of other languages.
    pub keys: [&'static str; 2],
    /// Its title on a sheet.
    pub title: &'static str,
    /// What to mind, in full sentences.
    pub text: &'static str,
    /// What it follows.
    pub follows: &'static [Source],
}

/// What a caution follows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Source {
    /// The document and its clause, or what else it rests on.
    pub text: &'static str,
    /// How well it is known.
    pub basis: Basis,
    /// The only market it is the law of, by its code; none for what holds in several.
    pub only: Option<&'static str>,
}

/// The code of the United States.
pub const UNITED_STATES: &str = "US";
/// The code of Great Britain and Northern Ireland.
pub const BRITAIN: &str = "GB";

/// The name of [`DEFERRAL`] in the files of other languages.
pub const DEFERRAL_KEY: &str = "caution.deferral";
/// What is printed below every caution.
pub const DEFERRAL: &str =
    "This is a caution, not a test or a certificate: the law of the destination and an accredited laboratory decide.";

const fn seen(text: &'static str) -> Source {
    Source { text, basis: Basis::Seen, only: None }
}

const fn memory(text: &'static str) -> Source {
    Source { text, basis: Basis::Memory, only: None }
}

const fn practice(text: &'static str) -> Source {
    Source { text, basis: Basis::CommonPractice, only: None }
}

const fn american(source: Source) -> Source {
    Source { only: Some(UNITED_STATES), ..source }
}

/// Eyes, noses, buttons and whatever else may come off.
pub const SMALL_PARTS: Caution = Caution {
    keys: ["caution.small-parts", "caution.small-parts-text"],
    title: "Small parts",
    text: "For children under 3 years nothing that fits wholly into the small-parts cylinder (31.7 mm across, 25.4 mm to \
           57.1 mm deep) may be in the toy or come off it, in use or in abuse tests. What matters for eyes, noses and \
           joints is the force they stay on with, not their size; embroidery avoids the question.",
    follows: &[
        american(seen("16 CFR 1501.4(a), (b)")),
        american(memory("16 CFR 1501.4, figure 1")),
        memory("EN 71-1, 5.1 and 8.2"),
    ],
};

/// The cylinder of 16 CFR 1501.4, figure 1, in mm (from memory; the inch figures 1.25, 1.00 and 2.25 govern).
pub const CYLINDER_DIAMETER_MM: f64 = 31.75;
/// Its least and greatest depth, in mm.
pub const CYLINDER_DEPTH_MM: (f64, f64) = (25.4, 57.15);

/// Cutting knives.
pub const KNIVES: Caution = Caution {
    keys: ["caution.knives", "caution.knives-text"],
    title: "Cutting knives",
    text: "Guards stay down and are set to the height of the lay; a glove of metal mesh on the hand that holds the fabric; the knife is stopped before plies or blade are touched. Long pile is parted with short strokes from the back, so that it is not cut short. The maker of the machine and the local rules decide.",
    follows: &[practice("common practice of cutting rooms")],
};

/// Cutting press and dies.
pub const PRESSES: Caution = Caution {
    keys: ["caution.presses", "caution.presses-text"],
    title: "Cutting press and dies",
    text: "Both hands start the stroke; nobody reaches under the head to set a die while the press is live. Dies are stored with their edges covered and lie flat before the stroke. The maker of the press and the local rules decide.",
    follows: &[practice("common practice of cutting rooms")],
};

/// Laser cutting.
pub const LASERS: Caution = Caution {
    keys: ["caution.lasers", "caution.lasers-text"],
    title: "Laser cutting",
    text: "Only fabric whose fibres are known is cut: fumes are drawn off, and chlorinated fibre or coating is never cut. The beam is enclosed, nobody leaves a running machine, a fire extinguisher is at hand. Cut from the back; the melted edge is hard and smells. The maker of the machine and the local rules decide.",
    follows: &[practice("common practice of cutting rooms")],
};

/// Hot press.
pub const HOT_PRESS: Caution = Caution {
    keys: ["caution.hot-press", "caution.hot-press-text"],
    title: "Hot press",
    text: "Plates stay hot after they are switched off; both hands start the stroke, and guards stay in place. Pile lies on a needle board so that it is not flattened. The maker of the press and the local rules decide.",
    follows: &[practice("common practice of cutting rooms")],
};

/// Cords, ribbons, elastics and loops.
pub const CORDS: Caution = Caution {
    keys: ["caution.cords", "caution.cords-text"],
    title: "Cords and loops",
    text: "On a toy for children under 36 months a cord is at least 1.5 mm thick, a cord that can form a noose has a free \
           length of at most 220 mm, and a fixed loop measures at most 380 mm round, all pulled with 25 N. Later editions \
           split by age at 18 months.",
    follows: &[seen("EN 71-1:2005+A8:2009, 5.4")],
};

/// Longest free length of a cord that can form a noose, in mm, pulled with 25 N ± 2 N (seen: EN 71-1:2005+A8:2009, 5.4).
pub const CORD_FREE_MM: u32 = 220;
/// Greatest perimeter of a fixed loop or noose, in mm (the same clause).
pub const LOOP_PERIMETER_MM: u32 = 380;

/// Plastic film that can cling to a face.
pub const BAG_FILM: Caution = Caution {
    keys: ["caution.bag-film", "caution.bag-film-text"],
    title: "Bags and film",
    text: "Film larger than 100 mm x 100 mm averages at least 0.038 mm thick, with no single reading under 0.032 mm, or \
           has holes of 1 % of any 30 mm x 30 mm. A bag whose opening measures over 380 mm round has no drawstring. Many \
           destinations ask for a printed suffocation warning, in their own words and type size.",
    follows: &[
        seen("ISO 8124-1:2009, 4.10"),
        american(seen("ASTM F963, 4.12, editions of 2003 and 2007")),
        seen("EN 71-1:2001, 4.3, 4.4 and 6 (no single-reading minimum)"),
        american(seen("Rhode Island General Laws 11-9-16 (warning, type size)")),
    ],
};

/// Least average film thickness in micrometres (seen: ISO 8124-1:2009, 4.10; EN 71-1).
pub const FILM_AVERAGE_UM: u32 = 38;
/// Least single reading in micrometres (seen: ISO 8124-1:2009, 4.10; ASTM F963, 4.12).
pub const FILM_READING_UM: u32 = 32;

/// Broken needles and pins left in the product.
pub const NEEDLES: Caution = Caution {
    keys: ["caution.needles", "caution.needles-text"],
    title: "Needles and metal",
    text: "Needles are handed out one for one, and a broken needle is logged with all its fragments. Every piece passes \
           a metal detector both ways, set with a 1.2 mm ferrous sphere, after closing and before tags and bags; a trim \
           that cannot pass is fitted afterwards or the piece is X-rayed.",
    follows: &[practice("common practice of factories for sewn products")],
};

/// Diameter of the ferrous test sphere for needle detection, in mm (common practice).
pub const NEEDLE_SPHERE_MM: f64 = 1.2;

/// Seams of filled parts of a toy, which must keep the filling in.
pub const SEAMS: Caution = Caution {
    keys: ["caution.seams", "caution.seams-text"],
    title: "Seams of filled parts",
    text: "Seams of a soft-filled toy are pulled with 70 N for 10 s and must then not let a 12 mm probe in.",
    follows: &[memory("EN 71-1, 5.2 and 8.4.2.2; ISO 8124-1, 5.24.6.2")],
};

/// The same in the United States.
pub const SEAMS_OF_THE_STATES: Caution = Caution {
    keys: ["caution.seams-of-the-states", "caution.seams-of-the-states-text"],
    title: "Seams, United States",
    text: "Seams of a soft-filled toy are pulled with 10 lbf for an age up to 18 months, with 15 lbf above.",
    follows: &[american(seen("16 CFR 1500.51 (10 lbf)")), american(memory("16 CFR 1500.52 (15 lbf)"))],
};

/// Seams of a filled product that is no toy.
pub const SEAMS_OF_NO_TOY: Caution = Caution {
    keys: ["caution.seams-of-no-toy", "caution.seams-of-no-toy-text"],
    title: "Seams of filled parts",
    text: "Seams keep the filling in, in use and after cleaning as the care label says. Which force they must withstand at \
           each destination, and by which test, the laboratory says before bulk.",
    follows: &[practice("common practice of factories of filled goods")],
};

/// Filled furnishings in Great Britain.
pub const FURNISHINGS: Caution = Caution {
    keys: ["caution.furnishings", "caution.furnishings-text"],
    title: "Fire safety of furnishings",
    text: "The United Kingdom has rules of fire safety for furniture and furnishings, and they name cushions. Which of them \
           cover, filling and labels of this product must meet, the laboratory says before bulk.",
    follows: &[Source { only: Some(BRITAIN), ..seen("SI 1988/1324, amended by SI 2025/531") }],
};

/// Every caution, in the order in which they are printed.
pub const CAUTIONS: &[Caution] = &[
    NEEDLES,
    SEAMS,
    SEAMS_OF_THE_STATES,
    SEAMS_OF_NO_TOY,
    FURNISHINGS,
    SMALL_PARTS,
    CORDS,
    BAG_FILM,
    KNIVES,
    PRESSES,
    LASERS,
    HOT_PRESS,
];

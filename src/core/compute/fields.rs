//! The reference of `figures.json`: every field with its unit.

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

const fn field(path: &'static str, unit: &'static str, doc: &'static str) -> Field {
    Field { path, unit, doc }
}

/// What holds for every field.
pub const PREFACE: &str = "\
figures.json holds every computed number of one specification. A figure that is not known is never nought: it is
{\"not-known-yet\": [\"why\", ..]}, or {\"withheld\": true} where this edition does not show what it needs. A sum with
an unknown part is not known either. Sums are made of unrounded numbers; every number is then rounded once, to a
millionth of its unit, halves away from nought. Ids stand in alphabetical order; `sizes` gives the order of sizes.
SIZE/COLOURWAY pairs are written as two levels.";

/// Every field, in the order of the file.
pub const FIELDS: &[Field] = &[
    field("format", "", "Version of this format; raised when a field changes its meaning or goes"),
    field("sizes.[]", "", "Size ids in their order; the first is the drawn size"),
    field("colourways.[]", "", "Colourway ids"),
    field("counts.instances.[].part", "", "Part of one piece of the product; empty where it belongs to none"),
    field("counts.instances.[].usage", "", "Use of the part; empty where it is used once"),
    field("counts.instances.[].piece", "", "Piece"),
    field("counts.instances.[].copy", "", "Copy; empty where the piece is cut once"),
    field("counts.instances.[].way", "", "drawn or mirrored: a mirrored copy in a mirrored use lies as drawn"),
    field("counts.cuts.[].part", "", "Part of one layer that is cut; empty where it belongs to none"),
    field("counts.cuts.[].piece", "", "Piece"),
    field("counts.cuts.[].cut", "", "Cut; shell unless named"),
    field("counts.cuts.[].material", "", "Role or article it is cut from, as written; null where none is"),
    field("counts.cuts.[].each", "pc", "How often per copy of the piece"),
    field("counts.cuts.[].drawn", "pc", "Pieces to cut for one product as drawn"),
    field("counts.cuts.[].mirrored", "pc", "Pieces to cut mirrored; 0 where the piece is its own mirror image"),
    field("counts.cuts.[].total", "pc", "Pieces to cut: cut count × uses × copies"),
    field("counts.cuts.[].own-image", "", "Whether both ways count as one kind: points, pile and grain included"),
    field("counts.parts.*.drawn", "pc", "Uses of a part in one product as drawn"),
    field("counts.parts.*.mirrored", "pc", "Uses as mirror images"),
    field("counts.parts.*.instances-each", "pc", "Pieces sewn into one use, layers of one piece counted once"),
    field("counts.parts.*.pieces", "pc", "Pieces to cut for all uses, every layer counted"),
    field("counts.materials.*", "pc", "Pieces to cut for one product, by material as the pieces name it"),
    field("counts.articles.*.[].article", "", "By colourway: an article that is cut"),
    field("counts.articles.*.[].colour", "", "Its colour; absent where none is named"),
    field("counts.articles.*.[].pieces", "pc", "Pieces to cut from it for one product"),
    field("counts.pieces", "pc", "Pieces to cut for one product"),
    field("pieces.*.*.sew", "", "By piece and size: the sew line, where it is not known"),
    field("pieces.*.*.sew.area", "mm2", "Area within the sew line"),
    field("pieces.*.*.sew.perimeter", "mm", "Length of the sew line"),
    field("pieces.*.*.sew.runs.[].from", "", "Named point a run starts from; runs go anticlockwise"),
    field("pieces.*.*.sew.runs.[].to", "", "Named point it ends at"),
    field("pieces.*.*.sew.runs.[].length", "mm", "Its length"),
    field("pieces.*.*.cuts.*.line", "", "By cut: the cut line, where it is not known"),
    field("pieces.*.*.cuts.*.line.area", "mm2", "Area within the cut line"),
    field("pieces.*.*.cuts.*.line.perimeter", "mm", "Length of the cut: the path of a knife or laser"),
    field("pieces.*.*.cuts.*.line.width", "mm", "Width square to the grain, else to the pile, else across the page"),
    field("pieces.*.*.cuts.*.line.height", "mm", "Height along it"),
    field("pieces.*.*.cuts.*.block-width", "mm", "Width of the block it is cut from first; absent without a block"),
    field("pieces.*.*.cuts.*.block-height", "mm", "Height of that block"),
    field("pieces.*.*.cuts.*.material-area", "mm2", "Material one takes: the block, or the area within the cut line"),
    field("seams.*.kind", "", "seam or opening"),
    field("seams.*.times", "pc", "How often it is made in one product, mirror images counted"),
    field("seams.*.layers", "pc", "Layers in needle order: both sides and what is caught"),
    field("seams.*.sizes.*.a", "mm", "Length of side a on the sew line; all images are the same length"),
    field("seams.*.sizes.*.b", "mm", "Length of side b"),
    field("seams.*.sizes.*.difference", "mm", "b − a"),
    field(
        "seams.*.sizes.*.fullness",
        "%",
        "How much longer the side with ease, gather or stretch is than the other, in percent of the other; the longer \
         side where none is stated",
    ),
    field(
        "seams.*.sizes.*.allowed",
        "%",
        "The most that is allowed, or what a gather or stretch comes to; absent if none",
    ),
    field(
        "seams.*.sizes.*.sewn",
        "mm",
        "Length of the finished seam: of the side without fullness; the longer side where none is stated",
    ),
    field("seams.*.sizes.*.sewn-in-product", "mm", "The same for all images in one product"),
    field("seams.*.sizes.*.caught.[].trim", "", "A caught trim as written; absent for the edge of a piece"),
    field("seams.*.sizes.*.caught.[].length", "mm", "Length along which it is caught, once"),
    field("seams.*.sizes.*.between.[].from", "", "The point or notch of side a where a stretch begins"),
    field("seams.*.sizes.*.between.[].to", "", "The point or notch of side a where it ends"),
    field("seams.*.sizes.*.between.[].a", "mm", "Length of that stretch on side a"),
    field("seams.*.sizes.*.between.[].b", "mm", "Length of that stretch on side b"),
    field("thread.*.*.lines.[].id", "", "By size and colourway: a seam, closed opening, finish, attachment or stitch"),
    field("thread.*.*.lines.[].kind", "", "seam, opening, finish, attach or stitch"),
    field("thread.*.*.lines.[].times", "pc", "Lines of stitches in one product; an opening with a tape has two"),
    field("thread.*.*.lines.[].stitch", "", "Stitch type number after ISO 4915"),
    field("thread.*.*.lines.[].bought", "", "The thread, where it is not known"),
    field("thread.*.*.lines.[].bought.article", "", "Thread"),
    field("thread.*.*.lines.[].bought.colour", "", "Its colour; absent where none is named"),
    field("thread.*.*.lines.[].stitched", "mm", "Stitched length in one product, all lines together"),
    field("thread.*.*.lines.[].thickness", "mm", "Stated thicknesses under the foot added, averaged along the line"),
    field("thread.*.*.lines.[].ratio", "", "Thread length over stitched length, where it is not known"),
    field("thread.*.*.lines.[].ratio.value", "", "Thread length over stitched length, all threads of the stitch"),
    field("thread.*.*.lines.[].ratio.basis", "", "geometry (textbook stitch geometry) or guide (a consumption guide)"),
    field("thread.*.*.lines.[].ratio.note", "", "The conditions it holds under, or why it is only the guide's"),
    field("thread.*.*.lines.[].sewn", "mm", "Thread in the stitches: stitched × ratio"),
    field(
        "thread.*.*.lines.[].tails",
        "mm",
        "Left hanging: 60 mm at each end of each line (common practice, 50 to 70)",
    ),
    field("thread.*.*.lines.[].net", "mm", "sewn + tails"),
    field("thread.*.*.totals.[].article", "", "A thread of one product"),
    field("thread.*.*.totals.[].colour", "", "Its colour; absent where none is named"),
    field("thread.*.*.totals.[].sewn", "mm", "Thread that stays in the product"),
    field("thread.*.*.totals.[].net", "mm", "With tails"),
    field("thread.*.*.totals.[].wastage", "%", "Stated wastage, of net"),
    field("thread.*.*.totals.[].needed", "mm", "net with wastage"),
    field("thread.*.*.totals.[].cones-per-thousand", "pc", "Whole cones for 1,000 products"),
    field("thread.*.*.totals.[].missing.[]", "", "Lines that name no thread, so that they are in no total"),
    field("thread.*.*.not-counted.*", "", "By id: why what is sewn is not counted"),
    field("filling.*.*.zones.[].zone", "", "By size and colourway: a zone"),
    field("filling.*.*.zones.[].part", "", "The part it fills; null where none is stated"),
    field("filling.*.*.zones.[].uses", "pc", "How often the part is used in one product"),
    field("filling.*.*.zones.[].bought", "", "The filling, where it is not known"),
    field("filling.*.*.zones.[].bought.article", "", "Filling"),
    field("filling.*.*.zones.[].bought.colour", "", "Its colour; absent where none is named"),
    field("filling.*.*.zones.[].each.target", "g", "Mass in one use of the part"),
    field("filling.*.*.zones.[].each.lower", "g", "Lower limit by the stated tolerance"),
    field("filling.*.*.zones.[].each.upper", "g", "Upper limit"),
    field("filling.*.*.zones.[].all.target", "g", "Mass in all uses of the part"),
    field("filling.*.*.zones.[].all.lower", "g", "Lower limits added"),
    field("filling.*.*.zones.[].all.upper", "g", "Upper limits added"),
    field(
        "filling.*.*.zones.[].proposed.lower",
        "g",
        "Limits of each to propose where no tolerance is stated; never used",
    ),
    field("filling.*.*.zones.[].proposed.upper", "g", "The upper one"),
    field("filling.*.*.zones.[].proposed.basis", "", "What they follow"),
    field("filling.*.*.zones.[].check", "", "How the mass is checked"),
    field("filling.*.*.total.target", "g", "Filling of one product"),
    field("filling.*.*.total.lower", "g", "Lower limits of all zones added"),
    field("filling.*.*.total.upper", "g", "Upper limits of all zones added"),
    field("trims.*.*.[].article", "", "By size and colourway: a trim"),
    field("trims.*.*.[].colour", "", "Its colour; absent where none is named"),
    field("trims.*.*.[].unit", "", "What the numbers beside it are in: pieces or mm"),
    field("trims.*.*.[].stated", "*", "Stated use; absent where none is stated but a length in seams is known"),
    field(
        "trims.*.*.[].in-seams",
        "mm",
        "Caught in seams or bound round edges: run length × ratio, and laps, all images",
    ),
    field("trims.*.*.[].total", "*", "Use in one product"),
    field(
        "trims.*.*.[].packing",
        "",
        "Whether it packs the product: fitted by a step bag, box or pack, or of one of these sorts, polybag or carton",
    ),
    field("cloth.*.*.[].article", "", "By size and colourway: a cloth"),
    field("cloth.*.*.[].colour", "", "Its colour; absent where none is named"),
    field("cloth.*.*.[].materials.[]", "", "What the pieces call it: roles, or the article itself"),
    field("cloth.*.*.[].pieces", "pc", "Pieces cut from it for one product"),
    field("cloth.*.*.[].area", "mm2", "True cut areas added; blocks where a piece is cut as a block"),
    field("cloth.*.*.[].usable-width", "mm", "Width that can be cut"),
    field("cloth.*.*.[].utilisation", "%", "Stated share of the usable cloth that becomes pieces"),
    field("cloth.*.*.[].length", "mm", "area / (usable width × utilisation): an estimate, not a lay"),
    field("cloth.*.*.[].width", "mm", "Full width of the roll"),
    field("cloth.*.*.[].mass", "g", "Mass of that length on the full width: an estimate like the length"),
    field("mass.*.*.lines.[].kind", "", "By size and colourway: cloth, thread, filling or trim"),
    field("mass.*.*.lines.[].bought", "", "The article, where it is not known"),
    field("mass.*.*.lines.[].bought.article", "", "Article"),
    field("mass.*.*.lines.[].bought.colour", "", "Its colour; absent where none is named"),
    field("mass.*.*.lines.[].mass.target", "g", "Its mass in the product"),
    field("mass.*.*.lines.[].mass.lower", "g", "Lower limit by its stated tolerance"),
    field("mass.*.*.lines.[].mass.upper", "g", "Upper limit"),
    field("mass.*.*.lines.[].packing", "", "Whether it packs the product and counts in packed only"),
    field("mass.*.*.shell.target", "g", "Everything cut from cloth"),
    field("mass.*.*.shell.lower", "g", "Lower limits added"),
    field("mass.*.*.shell.upper", "g", "Upper limits added"),
    field("mass.*.*.product.target", "g", "One product without its packing"),
    field("mass.*.*.product.lower", "g", "The worst case: all lower limits added"),
    field("mass.*.*.product.upper", "g", "The worst case: all upper limits added"),
    field("mass.*.*.packed.target", "g", "The product with what packs it"),
    field("mass.*.*.packed.lower", "g", "All lower limits added"),
    field("mass.*.*.packed.upper", "g", "All upper limits added"),
    field(
        "mass.*.*.without-tolerance.[]",
        "",
        "Lines that add their target to both limits, as they state no tolerance",
    ),
    field("bill.lines.[].kind", "", "cloth, thread, filling or trim, in this order"),
    field("bill.lines.[].article", "", "Article"),
    field("bill.lines.[].colour", "", "Its colour; absent where none is named"),
    field("bill.lines.[].unit", "", "What uses are in: mm, g or pieces"),
    field("bill.lines.[].estimate", "", "Whether the use is an estimate by a stated utilisation"),
    field("bill.lines.[].uses.*.*", "*", "Use for one product by size and colourway; absent where it has none"),
    field("bill.missing.[]", "", "Why something that is used stands in no line"),
    field("measures.*.state", "", "By point of measure: the state it is measured in"),
    field("measures.*.critical", "", "Whether bulk is refused for it"),
    field("measures.*.reference", "", "Whether it is for reference only"),
    field(
        "measures.*.sizes.*.text",
        "",
        "By size, or size/colourway where it differs: target and tolerance as written",
    ),
    field("measures.*.sizes.*.unit", "", "What the numbers beside it are in: that of the step, else of the target"),
    field("measures.*.sizes.*.places", "", "Decimals that show the step"),
    field("measures.*.sizes.*.target", "*", "Target"),
    field("measures.*.sizes.*.plus", "*", "Allowed above the target"),
    field("measures.*.sizes.*.minus", "*", "Allowed below the target"),
    field("measures.*.sizes.*.step", "*", "The step that can be read"),
    field("measures.*.sizes.*.lower", "*", "Least reading that passes: the exact limit rounded up to the step"),
    field("measures.*.sizes.*.upper", "*", "Greatest reading that passes: the exact limit rounded down to the step"),
];

/// The reference of the file as plain text, one field a line.
pub fn reference() -> String {
    let mut text = format!("{PREFACE}\n\n");
    for field in FIELDS {
        let unit = match field.unit {
            "" => String::new(),
            "*" => " (in the unit beside it)".to_string(),
            unit => format!(" ({unit})"),
        };
        text.push_str(&format!("{}{unit}: {}\n", field.path, field.doc));
    }
    text
}

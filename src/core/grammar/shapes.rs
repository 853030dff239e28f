//! Tables and keys of parts, stuffings and pieces, and of their outlines.

use super::choices::{FABRICS, FILLINGS, FORMS};
use super::form::{Form, Key, Kind, key, keyed, strict, varying};
use crate::units::Dimension::{Length, Mass};

/// Keys of an outline table.
pub fn outline() -> Vec<Key> {
    vec![
        key("shape", Form::Choice(SHAPES), "A shape that needs no drawing"),
        varying(
            "width",
            Form::Extent,
            "Of a rectangle, rounded rectangle or ellipse, across the page: a length, or \"along LID:n-e-s-w-n\" to be as long \
             as these edges in every size, \"along LID:n-e + 2 %\" to be longer",
        ),
        varying("height", Form::Extent, "Of a rectangle, rounded rectangle or ellipse, up the page; like width"),
        varying("radius", Form::Extent, "Corner radius of a rounded rectangle"),
        varying("diameter", Form::Extent, "Of a circle, or of the ball that gores close; like width"),
        varying("circumference", Form::Extent, "Of a circle, instead of its diameter; like width"),
        key("count", Form::Whole, "How many gores make the ball"),
        key("corners", Form::Corners, "Corners of a polygon: [\"id\", \"x\", \"y\"], y up the page"),
        key("svg", Form::Text, "A drawing at true scale"),
        key("is", Form::Choice(&["sew line", "cut line"]), "Which line it draws; by default the sew line"),
        key("fold", Form::Way, "The edge along which a half outline is unfolded: \"a-b\""),
        key(
            "points",
            Form::open(Form::Place),
            "Extra points, in any order: p = \"nw-ne 40 mm\", \"nw-ne 50 %\", \"nw-q 50 %\" for an edge that ends at another of \
             them, or \"nw-ne 40 mm fixed\" to stay there in every size",
        ),
    ]
}

/// Parametric shapes.
pub const SHAPES: &[&str] = &["rectangle", "rounded rectangle", "circle", "ellipse", "gore", "polygon"];

/// Parts, stuffings and pieces.
pub(super) fn shapes() -> Vec<Kind> {
    let part = vec![
        key("uses", Form::Copies, "How often it is made: a number, or names such as [\"left\", \"right mirrored\"]"),
        key("form", Form::Choice(FORMS), "What it is once sewn; by default it follows from its stuffings and openings"),
        key("note", Form::Text, "A remark"),
    ];
    let stuffing = vec![
        key("part", Form::Refers(&["part"]), "The part it fills"),
        key("filling", Form::Refers(FILLINGS), "What it is filled with: role or article"),
        varying("mass", Form::Quantity(&[Mass]), "Mass for one use of the part, with its tolerance"),
        varying("read-to", Form::Quantity(&[Mass]), "The step that the scale reads; limits are rounded inward to it"),
        key("check", Form::Text, "How the mass is checked"),
        key("firmness", Form::Text, "What the hand should feel, against what"),
        key("note", Form::Text, "A remark"),
    ];
    let cut = vec![
        key("name", Form::Text, "Text for people"),
        key("was", Form::Former, "The id it had in an earlier revision"),
        key("material", Form::Refers(FABRICS), "The role or article it is cut from"),
        varying(
            "allowance",
            Form::ByEdge(Box::new(Form::Quantity(&[Length]))),
            "Outside the sew line: \"10 mm\", or { all = \"5 mm\", \"b-n\" = \"7 mm\" }; \"a-b-c\" is for both its edges",
        ),
        varying(
            "inside",
            Form::Quantity(&[Length]),
            "How far inside the sew line it is cut; such a layer is not sewn by itself",
        ),
        key("count", Form::Whole, "How often per copy"),
        key("block", Form::Table(block()), "Cut oversize, worked, then cut to shape"),
    ];
    let mut piece = vec![
        key("part", Form::Refers(&["part"]), "The part it belongs to"),
        key(
            "copies",
            Form::Copies,
            "How often in one use of the part: a number, or names such as [\"l\", \"r mirrored\"]",
        ),
        varying("outline", Form::or(Form::Text, outline()), "Its outline, or \"by factory\""),
        key("cut", Form::open(Form::Table(cut.clone())), "Layers by id: [piece.ID.cut.shell] and others"),
        key(
            "corners",
            Form::ByPoint(Box::new(Form::Text)),
            "What the cut line does at corners: \"mitre\", \"round\", \"square\", \"step\", \"fold back\", or { all = \"mitre\", nw \
             = \"fold back\" }",
        ),
        key(
            "notches",
            Form::set(Form::Place),
            "Marks on the edge: [\"n-c 40 mm\", \"b-n 50 %\", \"c\"]; a distance stays in every size",
        ),
        key("notch", Form::Choice(&["outward", "slit", "none"]), "How notches are cut; by default a slit"),
        varying("notch-depth", Form::Quantity(&[Length]), "How deep a notch is cut; by default 3 mm"),
        key("darts", Form::Choice(&["marked", "cut"]), "How darts reach the cutting room"),
        key("grain", Form::Way, "Grain, from one named point to another: \"sw-nw\""),
        key("pile", Form::Fibres, "The way the pile lies, from one named point to another: \"nw-sw\""),
        key("raw", Form::set(Form::Edge), "Edges left raw"),
        key("note", Form::Text, "A remark for the cutting room"),
    ];
    piece.extend(cut.into_iter().filter(|one| !matches!(one.name, "name" | "was")));
    vec![
        strict(keyed("part", part, "A component made of pieces")),
        keyed("stuffing", stuffing, "Where filling goes"),
        strict(keyed(
            "piece",
            piece,
            "A piece; if it has one layer, material, allowance and the rest of a cut may be written here",
        )),
    ]
}

fn block() -> Vec<Key> {
    vec![
        varying("width", Form::Quantity(&[Length]), "Across the page"),
        varying("height", Form::Quantity(&[Length]), "Up the page"),
    ]
}

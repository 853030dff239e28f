//! Every table and key of the specification files, as one list: the readers, the findings about unknown keys, the
//! editor schema and the reference all come from it.

pub use super::choices::{DEEDS, FABRICS, FILLINGS, FINISHES, FORMS, PRODUCTS, STAGES, STATES, THREADS, TRIMS, WORK};
pub use super::form::{Form, Key, Kind};
pub use super::shapes::{SHAPES, outline};
pub use crate::cutting::keys::{METHODS, SPREADS};
pub use crate::samples::keys::{APPROVED, GRADED, SAMPLES};

use std::sync::OnceLock;

use crate::model::ArticleKind;
use crate::model::property::{self, Holds};
use crate::parties;
use crate::units::Dimension::{Count, Density, Length, Mass, Percent};

pub(crate) use super::form::{key, keyed, single, varying};

/// Every kind of table, in the order of the reference.
pub fn kinds() -> &'static [Kind] {
    static KINDS: OnceLock<Vec<Kind>> = OnceLock::new();
    KINDS.get_or_init(|| {
        let mut all = people();
        all.push(parties::keys::party());
        all.extend(materials());
        all.extend(super::shapes::shapes());
        all.extend(sewing());
        all.extend(rest());
        all
    })
}

/// The kind with this table name.
pub fn kind(name: &str) -> Option<&'static Kind> {
    kinds().iter().find(|kind| kind.name == name)
}

fn people() -> Vec<Kind> {
    let age = vec![
        key("from", Form::Age, "The youngest who get it: \"36 months\", \"3 years\", \"0 months\""),
        key("to", Form::Age, "The oldest it is meant for"),
        key("basis", Form::Text, "Who graded it, and after what"),
    ];
    let style = vec![
        key("id", Form::Text, "Style number"),
        key("name", Form::Text, "Title of the style"),
        key("product", Form::Text, "What it is: floor cushion, soft toy, tote bag"),
        key("kind", Form::Choice(PRODUCTS), "What it is to the law: cautions, tests and labels follow from it"),
        key("owner", Form::Refers(&["party"]), "The party that is the legal owner of the specification"),
        key("factory", Form::Refers(&["party"]), "The party that makes it"),
        key("factory-number", Form::Text, "The factory's own number for the style"),
        key("season", Form::Text, "Season or collection"),
        key("age", Form::Table(age), "Age grade; the accredited laboratory and the law of the destination decide"),
        key(
            "destinations",
            Form::Markets,
            "Where it is sold: codes of ISO 3166-1 or English short names of countries, and EU for the European Union",
        ),
        key("sizes", Form::list(Form::Text), "Size ids in order"),
        key("drawn", Form::Text, "The size that outlines are drawn in; by default the first of sizes"),
        key(
            "not-made",
            Form::set(Form::Text),
            "Sizes that are not made in a colourway, size before colourway: [\"L/winter\"]",
        ),
        key(
            "libraries",
            Form::set(Form::Text),
            "Shared files or folders below the root, for example \"library/fabric.toml\"",
        ),
        key(
            "languages",
            Form::list(Form::Text),
            "Languages of the package, one or two, first line first: [\"en\", \"zh-Hans\"]; by default English",
        ),
        key("note", Form::Text, "A remark for the cover"),
    ];
    let revision = vec![
        key("id", Form::Text, "Revision index: A, B, C ..."),
        key("date", Form::Date, "Date of issue"),
        key("stage", Form::Choice(STAGES), "How far the style has come"),
        key("by", Form::Text, "Who made this revision"),
        key("approved", Form::Text, "Who approved it"),
        key("reason", Form::Text, "Why it was made"),
        key("answer", Form::Date, "By when the factory answers"),
    ];
    let scale = vec![
        key("along", Form::Number, "Factor along the grain"),
        key("across", Form::Number, "Factor across the grain"),
    ];
    let size =
        vec![key("scale", Form::Table(scale), "Factor on the sew line of the drawn size; allowances stay as stated")];
    let mut colourway =
        keyed("colourway", vec![], "Which article and colour each role gets: ROLE = \"article/colour\"");
    colourway.open = Some(Form::Bought);
    vec![
        single("style", style, "Who makes what for whom"),
        single("revision", revision, "Which revision this is"),
        keyed("size", size, "A size; only needed where it has a name or a scale"),
        colourway,
    ]
}

fn materials() -> Vec<Kind> {
    let colour = vec![
        key("reference", Form::Text, "Swatch, dye or shade reference"),
        key(
            "lab",
            Form::list(Form::Number),
            "CIELAB target [\"L*\", \"a*\", \"b*\"], D65 and 10 degrees unless the reference says otherwise",
        ),
        key("limit", Form::Number, "Largest CIEDE2000 difference from the target that is accepted"),
        key("screen", Form::Text, "For the screen only: \"#4a5b6c\""),
    ];
    let role = vec![key("note", Form::Text, "A remark")];
    let mut all = vec![keyed("colour", colour, "A colour: a reference, a CIELAB target, or both")];
    for (kind, doc) in [
        (ArticleKind::Fabric, "Anything cut from a roll: plush, woven, felt, fusible, wadding"),
        (ArticleKind::Thread, "Sewing thread"),
        (ArticleKind::Filling, "Filling"),
        (ArticleKind::Trim, "Bought by the piece or by length: zip, cord, eye, label, bag"),
    ] {
        all.push(keyed(kind.word(), article(kind), doc));
    }
    all.push(keyed("role", role, "A role that colourways map to an article and a colour"));
    all
}

fn article(kind: ArticleKind) -> Vec<Key> {
    let mut keys = vec![
        key("colours", Form::set(Form::Refers(&["colour"])), "Ids of the colours it is bought in"),
        key(
            "composition",
            Form::or(Form::Fibres, layers()),
            "\"80 % cotton, 20 % polyester\", or by layer { pile = \"..\", ground = \"..\" }",
        ),
    ];
    keys.extend(property::of(kind).map(|spec| {
        let form = match spec.holds {
            Holds::Text => Form::Text,
            Holds::Word(words) => Form::Choice(words),
            Holds::Quantity(dimensions, _) => Form::Quantity(dimensions),
        };
        match spec.holds {
            Holds::Word(_) => key(spec.key, form, spec.doc),
            _ => varying(spec.key, form, spec.doc),
        }
    }));
    keys
}

fn layers() -> Vec<Key> {
    vec![
        key("all", Form::Fibres, "The whole"),
        key("pile", Form::Fibres, "The pile"),
        key("ground", Form::Fibres, "The ground"),
        key("backing", Form::Fibres, "The backing"),
    ]
}

/// Keys of a stitch table.
pub fn stitch() -> Vec<Key> {
    vec![
        key("type", Form::Text, "Stitch type number after ISO 4915"),
        key("density", Form::Quantity(&[Density]), "Stitches per length: \"4 st/cm\""),
        key("thread", Form::Refers(THREADS), "Thread: role or article"),
        key("width", Form::Quantity(&[Length]), "Bight of overedge and zigzag stitches"),
        key("needle", Form::Text, "Needle size and point"),
    ]
}

/// Keys of a trim caught in a seam or used as a tape.
pub fn trim_layer() -> Vec<Key> {
    vec![
        key("trim", Form::Refers(TRIMS), "Length goods: role or article"),
        key("ratio", Form::Number, "Length used per length of seam"),
        key("laps", Form::Quantity(&[Length]), "Added once for joins and ends"),
    ]
}

/// Keys of something caught in a seam.
pub fn layer() -> Vec<Key> {
    let mut all = vec![key("edge", Form::list(Form::Chain), "Edges of another part: one, or both plies of a limb")];
    all.extend(trim_layer());
    all.push(key("on", Form::Chain, "The stretch of a along which it lies; by default that of the seam"));
    all
}

/// Keys of ease.
fn ease() -> Vec<Key> {
    vec![side(), key("up_to", Form::Quantity(&[Percent]), "Largest difference in percent of the other side")]
}

/// Keys of gather and stretch.
fn gather() -> Vec<Key> {
    vec![side(), key("ratio", Form::Quantity(&[Percent]), "Length of this side in percent of the other")]
}

fn side() -> Key {
    key("side", Form::Choice(&["a", "b"]), "Which side is longer before sewing, or shorter for elastic")
}

fn joint() -> Vec<Key> {
    let mut all = vec![
        key("a", Form::Chain, "First side in needle order: \"SIDE.l:n-c, d-t-u\""),
        key("b", Form::Chain, "Last side"),
        key(
            "between",
            Form::Mixed(layer()),
            "What is caught, in needle order: edges, { edge = \"..\", on = \"..\" } for edges with a place of their own, or { \
             trim = \"..\" }",
        ),
        key("on", Form::Chain, "The stretch of a along which shorter caught layers lie that name none of their own"),
        key("mirrored", Form::Flag, "Once more with left and right exchanged"),
        key("stitch", Form::or(Form::Refers(&["stitch"]), stitch()), "A table, or the id of a [stitch]"),
        key("ease", Form::Table(ease()), "Fullness worked in: { side = \"b\", up_to = \"3 %\" }"),
        key("gather", Form::Table(gather()), "Gathered side: { side = \"a\", ratio = \"150 %\" }"),
        key("stretch", Form::Table(gather()), "Elastic stretched on: { side = \"b\", ratio = \"80 %\" }"),
        key("note", Form::Text, "A remark"),
    ];
    all.extend(means());
    all
}

/// Keys that say how a step is done.
fn means() -> Vec<Key> {
    vec![
        key("machine", Form::Text, "The machine: \"flatbed with walking foot\""),
        key("tool", Form::Text, "What else is taken: a foot, a template, a rod"),
        key("check", Form::Text, "What to look at before going on"),
        key("do-not", Form::Text, "What must not be done"),
        key("picture", Form::Picture, "A PNG, JPEG or SVG file below the style folder that shows how"),
        key(
            "threads",
            Form::Tables(used_thread()),
            "Thread that no stitch type tells: of embroidery, or sewn by hand: [{ thread = \"ring\", length = \"9 m\" }]",
        ),
    ]
}

/// Keys of a thread of which a step states the length.
pub fn used_thread() -> Vec<Key> {
    vec![
        key("thread", Form::Refers(THREADS), "Thread: role or article"),
        varying("length", Form::Quantity(&[Length]), "Length in one product, as measured or as the machine counts it"),
    ]
}

fn sewing() -> Vec<Kind> {
    let mut opening = joint();
    let close = vec![
        key("by", Form::Text, "How: hand, machine, zip, hook and loop ..."),
        key("trim", Form::Refers(TRIMS), "What closes it: role or article"),
        key("note", Form::Text, "A remark"),
    ];
    opening.push(key("close", Form::Table(close), "How it is closed"));
    opening.push(varying(
        "girth",
        Form::Quantity(&[Length]),
        "Girth of what must pass: the turned part, or what is inserted",
    ));
    let mut finish = vec![
        key("by", Form::Choice(FINISHES), "What is done to the edge"),
        key("on", Form::Chain, "The edge"),
        key("mirrored", Form::Flag, "Once more with left and right exchanged"),
        key("tape", Form::Table(trim_layer()), "The tape of a bound edge"),
        key("stitch", Form::or(Form::Refers(&["stitch"]), stitch()), "A table, or the id of a [stitch]"),
        key("note", Form::Text, "A remark"),
    ];
    finish.extend(means());
    let mut topstitch = vec![
        key("on", Form::Chain, "The internal line: \"SIDE.l:@smile\""),
        key("mirrored", Form::Flag, "Once more with left and right exchanged"),
        key("stitch", Form::or(Form::Refers(&["stitch"]), stitch()), "A table, or the id of a [stitch]"),
        key("note", Form::Text, "A remark"),
    ];
    topstitch.extend(means());
    let mut attach = topstitch.clone();
    attach.insert(0, key("edge", Form::Chain, "The edge that is sewn on"));
    let mut step = vec![
        key("do", Form::Text, "turn, fill, insert, or your own word: embroider, clip, brush, detect"),
        key("part", Form::Refers(&["part"]), "The part it is done to"),
        key("stuffing", Form::Refers(&["stuffing"]), "The stuffing it fills"),
        key("trim", Form::Refers(TRIMS), "The trim it fits: role or article"),
        key("note", Form::Text, "A remark"),
    ];
    step.extend(means());
    let work = vec![
        key(
            "order",
            Form::list(Form::Refers(WORK)),
            "Ids of seams, openings (where they are closed), topstitches, attachments, edge finishes and steps, first to last",
        ),
        key("stitch", Form::or(Form::Refers(&["stitch"]), stitch()), "The stitch of every seam that states none"),
        key(
            "stage-least",
            Form::Whole,
            "Steps after which another part, or what fills it, begins a stage of the construction sheet; by default 5",
        ),
        key("stage-most", Form::Whole, "Steps that a stage has at most; by default 16"),
    ];
    vec![
        keyed("stitch", stitch(), "A stitch that several seams share"),
        keyed("seam", joint(), "Two sides of the shell that meet, and what is caught between them"),
        keyed("opening", opening, "A seam that is left open and closed later"),
        keyed("edge-finish", finish, "What is done to an edge that joins nothing"),
        keyed("topstitch", topstitch, "Stitching along an internal line; joins nothing"),
        keyed("attach", attach, "An edge sewn onto an internal line"),
        keyed("step", step, "A step of the work that is no seam"),
        single("work", work, "The order of work"),
    ]
}

fn rest() -> Vec<Kind> {
    let measure = vec![
        key("method", Form::Text, "From where to where, straight or along the surface, posture, rest"),
        key("state", Form::Choice(STATES), "The state it is measured in"),
        varying("target", Form::Quantity(&[Length, Mass, Count]), "Target with tolerance, by size"),
        varying("read-to", Form::Quantity(&[Length, Mass, Count]), "The step that can be read"),
        key(
            "difference",
            Form::Quantity(&[Length, Mass]),
            "It is there left and right: the largest difference between the two",
        ),
        key("critical", Form::Flag, "Bulk is refused for it"),
        key("reference", Form::Flag, "For reference only; never blocks"),
        key("view", Form::Refers(&["view"]), "The view its arrow is drawn on"),
        key(
            "arrow",
            Form::list(Form::Place),
            "From and to on that view: [\"12 % 50 %\", \"88 % 50 %\"], from the top left",
        ),
    ];
    let callout = vec![
        key("at", Form::Place, "Where: \"30 % 20 %\" from the top left, or the name of a shape of an SVG file"),
        key("item", Form::Refers(&[]), "What it names"),
        key("text", Form::Text, "The remark"),
    ];
    let view = vec![
        key("picture", Form::Picture, "A PNG, JPEG or SVG file below the style folder"),
        key("alt", Form::Text, "What the picture shows, for those who cannot see it"),
        key("callouts", Form::Tables(callout), "Remarks with their places"),
    ];
    let mut severity = single("severity", vec![], "Severity by rule code: must, should, note or off");
    severity.open = Some(Form::Choice(&["must", "should", "note", "off"]));
    vec![
        keyed("point-of-measure", measure, "What is measured, within what"),
        keyed("cutting", crate::cutting::keys::cutting(), "How fabric is spread and cut"),
        keyed("view", view, "A picture of the product from one side"),
        keyed(
            "order",
            crate::orders::keys::order(),
            "An order of the style, in a file of its own; no part of the specification",
        ),
        keyed("sample", crate::samples::keys::sample(), "A sample: what is asked for, and what was found on it"),
        keyed("comment", crate::samples::keys::comment(), "A comment on something, and what became of it"),
        keyed("approval", crate::samples::keys::approval(), "What is to be approved, and what was submitted"),
        keyed(
            "concession",
            crate::samples::keys::concession(),
            "Somebody accepts a finding, by name and with a reason",
        ),
        severity,
    ]
}

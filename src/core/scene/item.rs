//! What a scene is made of: paths and labels, and the shapes that paths take.

use serde::ser::{Serialize, SerializeSeq, Serializer};

use super::line::Line;
use crate::words::Phrase;

/// A place or a direction on the sheet: x to the right, y down, in millimetres.
pub type At = [f64; 2];

/// One drawing at print size.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Scene {
    /// Width of the drawing on paper, mm.
    #[serde(serialize_with = "on_grid")]
    pub width: f64,
    /// Height of the drawing on paper, mm.
    #[serde(serialize_with = "on_grid")]
    pub height: f64,
    /// What the drawing shows, for a reader who cannot see it. Never empty.
    pub alt: Phrase,
    /// What is drawn, in painting order.
    pub items: Vec<Item>,
}

/// One thing in a scene.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Item {
    /// A curve, stroked, filled or both.
    Path(Path),
    /// A piece of text.
    Label(Label),
}

/// A curve with the meaning of its stroke and its fill.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Path {
    /// Segments in order; the first one is a [`Segment::Move`].
    pub segments: Vec<Segment>,
    /// What the stroke means; `None` draws no stroke.
    pub line: Option<Line>,
    /// What the inside is filled with.
    pub fill: Fill,
}

/// The inside of a closed path.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fill {
    /// Nothing: what lies below shows through.
    None,
    /// White: covers what lies below.
    Paper,
    /// Light grey (30 % ink).
    Tint,
    /// Black, for arrowheads.
    Ink,
}

/// One segment of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// Lift the pen and go there.
    Move(At),
    /// A straight line to there.
    Line(At),
    /// A cubic Bézier curve: two control points and the end.
    Cubic(At, At, At),
    /// Straight back to the last [`Segment::Move`].
    Close,
}

/// A piece of text anchored at one point.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Label {
    /// The text, one line.
    pub text: String,
    /// The anchor.
    #[serde(serialize_with = "at_on_grid")]
    pub at: At,
    /// Type size in points; at least 7.5 in a package.
    #[serde(serialize_with = "on_grid")]
    pub size: f64,
    /// Where along the text the anchor sits.
    pub along: Along,
    /// Where across the text the anchor sits.
    pub across: Across,
    /// Turn about the anchor in degrees, clockwise on the page.
    #[serde(serialize_with = "on_grid")]
    pub turn: f64,
    /// Bold.
    pub strong: bool,
    /// Clears the lines below the text.
    pub halo: bool,
}

/// Position of the anchor along the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Along {
    /// The text begins at the anchor.
    Start,
    /// The anchor is the middle of the text.
    Middle,
    /// The text ends at the anchor.
    End,
}

/// Position of the anchor across the text, measured on capital letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Across {
    /// The text hangs below the anchor.
    Top,
    /// The anchor is half way up the capitals.
    Middle,
    /// The text stands on the anchor.
    Base,
}

impl Scene {
    /// An empty drawing of a size in millimetres with its description.
    #[must_use]
    pub fn new(width: f64, height: f64, alt: impl Into<Phrase>) -> Self {
        Self { width, height, alt: alt.into(), items: Vec::new() }
    }

    /// Adds a stroked path.
    pub fn stroke(&mut self, line: Line, segments: Vec<Segment>) {
        self.path(Some(line), Fill::None, segments);
    }

    /// Adds a path with stroke and fill.
    pub fn path(&mut self, line: Option<Line>, fill: Fill, segments: Vec<Segment>) {
        self.items.push(Item::Path(Path { segments, line, fill }));
    }

    /// Adds a straight line.
    pub fn line(&mut self, line: Line, from: At, to: At) {
        self.stroke(line, vec![Segment::Move(from), Segment::Line(to)]);
    }

    /// Adds a rectangle by its top left corner and size.
    pub fn rect(&mut self, line: Option<Line>, fill: Fill, at: At, width: f64, height: f64) {
        let [x, y] = at;
        let corners = [at, [x + width, y], [x + width, y + height], [x, y + height]];
        self.path(line, fill, closed(&corners));
    }

    /// The paths as one drawing, those of one line and fill as one path in the order of their first; and the labels as
    /// another, to stand over it. For drawings whose paths do not cover each other.
    #[must_use]
    pub fn parted(self) -> (Self, Self) {
        let mut paths: Vec<Path> = Vec::new();
        let mut labels = Vec::new();
        for item in self.items {
            match item {
                Item::Label(label) => labels.push(Item::Label(label)),
                Item::Path(path) => match paths.iter_mut().find(|one| (one.line, one.fill) == (path.line, path.fill)) {
                    Some(one) => one.segments.extend(path.segments),
                    None => paths.push(path),
                },
            }
        }
        let lines = Self { alt: self.alt.clone(), items: paths.into_iter().map(Item::Path).collect(), ..self };
        (lines, Self { items: labels, ..self })
    }

    /// Adds a label.
    pub fn label(&mut self, label: Label) {
        self.items.push(Item::Label(label));
    }
}

impl Label {
    /// The usual size, pt.
    pub const SIZE: f64 = 7.0;

    /// A label of 7.5 pt, anchored at its middle, upright, clearing the lines below it.
    #[must_use]
    pub fn new(text: impl Into<String>, at: At) -> Self {
        Self {
            text: text.into(),
            at,
            size: Self::SIZE,
            along: Along::Middle,
            across: Across::Middle,
            turn: 0.0,
            strong: false,
            halo: true,
        }
    }

    /// The same label at another size in points.
    #[must_use]
    pub fn size(self, size: f64) -> Self {
        Self { size, ..self }
    }

    /// The same label with its anchor elsewhere in the text.
    #[must_use]
    pub fn anchor(self, along: Along, across: Across) -> Self {
        Self { along, across, ..self }
    }

    /// The same label, bold.
    #[must_use]
    pub fn strong(self) -> Self {
        Self { strong: true, ..self }
    }

    /// The same label turned clockwise by degrees.
    #[must_use]
    pub fn turned(self, turn: f64) -> Self {
        Self { turn, ..self }
    }

    /// The same label without a cleared ground.
    #[must_use]
    pub fn bare(self) -> Self {
        Self { halo: false, ..self }
    }
}

/// The closed polygon through these corners.
#[must_use]
pub fn closed(corners: &[At]) -> Vec<Segment> {
    let mut out = open(corners);
    out.push(Segment::Close);
    out
}

/// The open line through these points.
#[must_use]
pub fn open(points: &[At]) -> Vec<Segment> {
    let first = points.iter().take(1).map(|&p| Segment::Move(p));
    first.chain(points.iter().skip(1).map(|&p| Segment::Line(p))).collect()
}

/// A full circle as four Bézier arcs (radial error below 0.03 % of the radius).
#[must_use]
pub fn circle(centre: At, radius: f64) -> Vec<Segment> {
    // 4/3·tan(π/8): the usual handle length of a quarter circle.
    const HANDLE: f64 = 0.552_284_749_830_793_4;
    let [x, y] = centre;
    let (r, h) = (radius, radius * HANDLE);
    vec![
        Segment::Move([x + r, y]),
        Segment::Cubic([x + r, y + h], [x + h, y + r], [x, y + r]),
        Segment::Cubic([x - h, y + r], [x - r, y + h], [x - r, y]),
        Segment::Cubic([x - r, y - h], [x - h, y - r], [x, y - r]),
        Segment::Cubic([x + h, y - r], [x + r, y - h], [x + r, y]),
        Segment::Close,
    ]
}

/// A number on the 1 µm grid, without a negative zero.
#[must_use]
pub fn grid(mm: f64) -> f64 {
    (mm * 1000.0).round() / 1000.0 + 0.0
}

fn on_grid<S: Serializer>(value: &f64, out: S) -> Result<S::Ok, S::Error> {
    out.serialize_f64(grid(*value))
}

fn at_on_grid<S: Serializer>(value: &At, out: S) -> Result<S::Ok, S::Error> {
    value.map(grid).serialize(out)
}

/// Written as `["m", x, y]`, `["l", x, y]`, `["c", x1, y1, x2, y2, x, y]` or `["z"]`.
impl Serialize for Segment {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        let (name, points): (&str, &[At]) = match self {
            Self::Move(p) => ("m", std::slice::from_ref(p)),
            Self::Line(p) => ("l", std::slice::from_ref(p)),
            Self::Cubic(a, b, p) => ("c", &[*a, *b, *p]),
            Self::Close => ("z", &[]),
        };
        let mut seq = out.serialize_seq(Some(1 + 2 * points.len()))?;
        seq.serialize_element(name)?;
        for number in points.iter().flatten() {
            seq.serialize_element(&grid(*number))?;
        }
        seq.end()
    }
}

//! A drawing of outlines as read from SVG, and what its named shapes mean for a piece.

use std::collections::{BTreeMap, BTreeSet};

use crate::geom::{Path, Point};
use crate::source::Span;

/// The name of a line that checks the scale of a drawing.
pub const GAUGE: &str = "gauge";
/// Names of more characters than this are no names.
const LONGEST: usize = 100;
/// A shape no larger, in mm, can mark a point as a circle does.
const SMALL: f64 = 12.0;
/// So many enclosing groups give their name to what is in them.
const GROUPS: usize = 8;

/// A drawing at true scale, read from one SVG file: its named shapes, in mm, x to the right and y up.
#[derive(Debug, Clone, Default)]
pub struct Drawing {
    shapes: Vec<Traced>,
    /// Shapes by every name they answer to, with the rank of the name: the lowest holds.
    names: BTreeMap<String, Vec<(u8, usize)>>,
}

/// One shape of a drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Traced {
    /// Its lines in the order they are drawn.
    pub paths: Vec<Path>,
    /// Its centre: of a circle or ellipse exactly, else of the box round it.
    pub centre: Point,
    /// Whether it is drawn as a circle or ellipse.
    pub round: bool,
    /// The larger side of the box round it, mm.
    pub size: f64,
    /// Its element.
    pub span: Span,
}

/// What a drawing shows of one piece.
#[derive(Debug, Clone)]
pub struct Sketch<'a> {
    /// The outline.
    pub outline: &'a Traced,
    /// Named points.
    pub points: Vec<(&'a str, &'a Traced)>,
    /// Grain line.
    pub grain: Option<&'a Traced>,
    /// The way the pile lies.
    pub pile: Option<&'a Traced>,
    /// Internal lines.
    pub lines: Vec<(&'a str, &'a Traced)>,
    /// Placement marks.
    pub marks: Vec<(&'a str, &'a Traced)>,
    /// Notches.
    pub notches: Vec<(&'a str, &'a Traced)>,
    /// Shapes whose names belong to the piece and mean nothing.
    pub strange: Vec<(&'a str, &'a Traced)>,
}

/// Why a drawing does not show a piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unseen {
    /// No shape has the name; those that could be meant.
    Nowhere(Vec<String>),
    /// Several shapes have this name.
    Twice(String, Vec<Span>),
}

impl Drawing {
    /// Takes in a shape with its own names, best first, and the names of the groups round it, innermost first. A shape
    /// reached through `use` gives way to one drawn in place.
    pub fn add(&mut self, shape: Traced, names: &[(u8, String)], groups: &[(u8, String)], used: bool) {
        let index = self.shapes.len();
        let last = if used { 100 } else { 0 };
        let mut add = |name: String, rank: u8| {
            let name = name.strip_suffix(".outline").map(str::to_string).unwrap_or(name);
            let list = self.names.entry(name).or_default();
            if list.iter().all(|(_, one)| *one != index) {
                list.push((rank + last, index));
            }
        };
        for (rank, name) in names.iter().filter(|(_, name)| is_name(name)) {
            add(name.clone(), *rank);
            let round = groups.iter().filter(|(_, group)| is_name(group) && !within(name, group));
            for (outer, group) in round.take(GROUPS) {
                add(format!("{group}.{name}"), 10 + *rank + *outer);
            }
        }
        self.shapes.push(shape);
    }

    /// Every shape in the order it is drawn.
    pub fn shapes(&self) -> &[Traced] {
        &self.shapes
    }

    /// The one shape that answers to a name.
    ///
    /// # Errors
    /// None or several do.
    pub fn named(&self, name: &str) -> Result<&Traced, Unseen> {
        let Some(list) = self.names.get(name) else { return Err(Unseen::Nowhere(self.outlines())) };
        self.best(name, list).map(|(_, _, shape)| shape)
    }

    /// Of the shapes with a name the one whose name it is most: the rank of the name, the number of the shape, the shape.
    fn best(&self, name: &str, list: &[(u8, usize)]) -> Result<(u8, usize, &Traced), Unseen> {
        let lowest = list.iter().map(|(rank, _)| *rank).min().unwrap_or_default();
        let best = list.iter().filter(|(rank, _)| *rank == lowest);
        let found: Vec<(usize, &Traced)> = best.filter_map(|(_, at)| Some((*at, self.shapes.get(*at)?))).collect();
        match found.as_slice() {
            [(at, one)] => Ok((lowest, *at, one)),
            [] => Err(Unseen::Nowhere(Vec::new())),
            _ => Err(Unseen::Twice(name.to_string(), found.iter().map(|(_, shape)| shape.span).collect())),
        }
    }

    /// Names that a piece could have.
    fn outlines(&self) -> Vec<String> {
        self.names.keys().filter(|name| !name.contains('.') && *name != GAUGE).cloned().collect()
    }

    /// What is drawn of the piece with this name.
    ///
    /// # Errors
    /// No outline has the name, or two shapes have one name.
    pub fn sketch(&self, piece: &str) -> Result<Sketch<'_>, Unseen> {
        let Some(list) = self.names.get(piece) else { return Err(Unseen::Nowhere(self.outlines())) };
        let (_, outline_at, outline) = self.best(piece, list)?;
        let mut sketch = Sketch {
            outline,
            points: Vec::new(),
            grain: None,
            pile: None,
            lines: Vec::new(),
            marks: Vec::new(),
            notches: Vec::new(),
            strange: Vec::new(),
        };
        let mut own = Vec::new();
        // `/` comes after `.`, so that the range holds what begins with the name and a dot.
        for (name, list) in self.names.range(format!("{piece}.")..format!("{piece}/")) {
            let (rank, at, shape) = self.best(name, list)?;
            own.push((rank, name.get(piece.len() + 1..).unwrap_or_default(), at, shape));
        }
        // A shape has one meaning, that of its best name: editors give further ones.
        own.sort_by_key(|(rank, ..)| *rank);
        let mut meant = BTreeSet::from([outline_at]);
        let (known, strange): (Vec<_>, Vec<_>) =
            own.into_iter().partition(|(rank, name, _, shape)| meaning(name, shape, is_short(*rank)).is_some());
        for (rank, name, at, shape) in known {
            if meant.insert(at) {
                sketch.take(name, shape, is_short(rank));
            }
        }
        let strange = strange.into_iter().filter(|(_, _, at, _)| meant.insert(*at));
        sketch.strange = strange.map(|(_, name, _, shape)| (name, shape)).collect();
        sketch.sort();
        Ok(sketch)
    }
}

/// Whether the rank is that of a name within a group.
fn is_short(rank: u8) -> bool {
    (10..100).contains(&rank) || rank >= 110
}

/// What a shape of a piece can be.
enum Meaning<'a> {
    Grain,
    Pile,
    Point,
    Line(&'a str),
    Mark(&'a str),
    Notch(&'a str),
}

/// What a shape is by what stands after the name of the piece. Within a group a `short` name makes a point only of a
/// circle or of something small, since editors name everything.
fn meaning<'a>(name: &'a str, shape: &Traced, short: bool) -> Option<Meaning<'a>> {
    match name.split_once('.') {
        None if name == "grain" => Some(Meaning::Grain),
        None if name == "pile" => Some(Meaning::Pile),
        None => (!short || shape.round || shape.size <= SMALL).then_some(Meaning::Point),
        Some((_, id)) if id.contains('.') => None,
        Some(("line", id)) => Some(Meaning::Line(id)),
        Some(("mark", id)) => Some(Meaning::Mark(id)),
        Some(("notch", id)) => Some(Meaning::Notch(id)),
        Some(_) => None,
    }
}

impl<'a> Sketch<'a> {
    fn take(&mut self, name: &'a str, shape: &'a Traced, short: bool) {
        match meaning(name, shape, short) {
            Some(Meaning::Grain) => self.grain = Some(shape),
            Some(Meaning::Pile) => self.pile = Some(shape),
            Some(Meaning::Point) => self.points.push((name, shape)),
            Some(Meaning::Line(id)) => self.lines.push((id, shape)),
            Some(Meaning::Mark(id)) => self.marks.push((id, shape)),
            Some(Meaning::Notch(id)) => self.notches.push((id, shape)),
            None => {}
        }
    }

    /// Everything by its id, however it was drawn.
    fn sort(&mut self) {
        for list in [&mut self.points, &mut self.lines, &mut self.marks, &mut self.notches, &mut self.strange] {
            list.sort_by_key(|(id, _)| *id);
        }
    }

    /// Every shape that has a meaning for the piece.
    pub fn meant(&self) -> impl Iterator<Item = &'a Traced> {
        let lists = [&self.points, &self.lines, &self.marks, &self.notches];
        let named: Vec<&'a Traced> = lists.into_iter().flatten().map(|(_, shape)| *shape).collect();
        [Some(self.outline), self.grain, self.pile].into_iter().flatten().chain(named)
    }
}

/// Whether a name is that of a group or goes on from it, as names do that are written out.
fn within(name: &str, group: &str) -> bool {
    name.strip_prefix(group).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
}

/// Whether a text can be the name of a shape: ids joined by dots.
fn is_name(text: &str) -> bool {
    let id = |part: &str| {
        part.starts_with(|c: char| c.is_ascii_alphanumeric())
            && part.chars().all(|c| c.is_ascii_alphanumeric() || c == '_' || c == '-')
    };
    text.len() <= LONGEST && text.split('.').all(id)
}

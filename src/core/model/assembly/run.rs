//! Runs of instances, sides and seams after everything was found.

use crate::source::Span;

use super::{Instance, Outlines};

/// One run of one instance, walked one way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Run {
    /// Index into the instances.
    pub instance: usize,
    /// Index of the run in its outline.
    pub run: usize,
    /// Whether it is walked counter-clockwise as drawn.
    pub forward: bool,
}

impl Run {
    /// Whether it is walked counter-clockwise round its face, seen from the right side of the material.
    pub fn counter_clockwise(&self, instances: &[Instance]) -> bool {
        self.forward != instances[self.instance].mirrored
    }

    /// The same run the other way.
    #[must_use]
    pub fn turned(self) -> Run {
        Run { forward: !self.forward, ..self }
    }

    /// Names of its first and last point as it is walked; `None` for an outline that is not known.
    pub fn ends<'a>(&self, outlines: &'a Outlines, instances: &[Instance]) -> Option<(&'a str, &'a str)> {
        let points = &outlines.any(&instances[self.instance].piece)?.points;
        let (start, end) = (points.get(self.run)?, points.get((self.run + 1) % points.len())?);
        Some(if self.forward { (&start.id, &end.id) } else { (&end.id, &start.id) })
    }
}

/// One side of a seam: runs in the order they are walked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Side {
    /// The runs.
    pub runs: Vec<Run>,
    /// Where the side is written; a mirror image points at its original.
    pub span: Span,
    /// Place of the written stretch each run comes from.
    pub places: Vec<Span>,
}

/// Something caught in a seam.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Caught {
    /// Edges of pieces.
    Side(Side),
    /// Index of the trim layer among the joint's `between`.
    Trim(usize),
}

/// Which image of a written seam this is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reverse {
    /// As written.
    Written,
    /// Left and right exchanged.
    Mirrored,
}

/// A seam or opening whose runs were found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Resolved {
    /// Id of the joint.
    pub joint: String,
    /// As written, or its mirror image.
    pub image: Reverse,
    /// The use it is made for, where a part used several times is written once; otherwise empty.
    pub usage: String,
    /// First side.
    pub a: Side,
    /// Last side.
    pub b: Side,
    /// What is caught, in needle order.
    pub between: Vec<Caught>,
    /// The stretch of `a` of its own that a caught layer has, for each of them.
    pub places: Vec<Option<Side>>,
    /// The stretch of `a` along which the others lie, if they are shorter.
    pub on: Option<Side>,
}

impl Resolved {
    /// Both sides and every caught edge.
    pub fn sides(&self) -> impl Iterator<Item = &Side> {
        [&self.a, &self.b].into_iter().chain(self.caught())
    }

    /// The stretch that is named for a caught layer: its own, or that of the seam.
    pub fn place(&self, layer: usize) -> Option<&Side> {
        self.places.get(layer).and_then(Option::as_ref).or(self.on.as_ref())
    }

    /// What a caught layer lies along: its stretch, else the whole of side `a`.
    pub fn along(&self, layer: usize) -> &Side {
        self.place(layer).unwrap_or(&self.a)
    }

    /// Every stretch along which something is caught, each once.
    pub fn stretches(&self) -> Vec<&Side> {
        let mut all: Vec<&Side> = Vec::new();
        for place in (0..self.between.len()).filter_map(|layer| self.place(layer)) {
            if all.iter().all(|one| one.runs != place.runs) {
                all.push(place);
            }
        }
        all
    }

    /// Every caught edge with its place among the layers.
    pub fn caught_layers(&self) -> impl Iterator<Item = (usize, &Side)> {
        self.between.iter().enumerate().filter_map(|(layer, caught)| match caught {
            Caught::Side(side) => Some((layer, side)),
            Caught::Trim(_) => None,
        })
    }

    /// Every caught edge.
    pub fn caught(&self) -> impl Iterator<Item = &Side> {
        self.caught_layers().map(|(_, side)| side)
    }
}

/// An edge or line that is worked but joins nothing of the shell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edging {
    /// Id of the edge finish, attachment or topstitch; of the piece for `raw`.
    pub id: String,
    /// As written, or its mirror image.
    pub image: Reverse,
    /// The edge; empty for a stitch along an internal line.
    pub side: Side,
    /// Whether the edge is used up by it: an attached edge is, a finished one is not.
    pub joins: bool,
    /// Instances whose internal line is worked, with the line's id.
    pub line: Option<(usize, String)>,
}

//! Sew and cut lines as curves, for drawings, lays and plots. Not part of `figures.json`; the figures of a piece are
//! measured on these lines.

use std::collections::BTreeMap;
use std::panic::resume_unwind;

use crate::geom::offset::{TIP, inset, outset};
use crate::geom::{Corner, Corners, CutLine, OffsetError, Outline, Point, length};
use crate::model::assembly::{Gap, PieceEdges, Scale, Unsewn, sew_inside, sewn_cut, shape};
use crate::model::{Assembly, Cut, Model, Piece, Side, Variant};
use crate::source::Span;
use crate::words::{Phrase, say, words};

use super::Figure;
use super::contour::Shape;
use super::dart;
use super::notch::{self, Astray, NotchMark};
use super::number::small;

words! {
    PARTS_LEFT "line.parts-left" = "{count} separate parts are left {width} mm inside the sew line";
    NOTHING_LEFT "line.nothing-left" = "nothing is left {width} mm inside the sew line";
}
use super::reason::{
    DRAWING_UNREAD, INSIDE_OF, NO_CUT, NO_OUTLINE, NO_OUTLINE_IN_SIZE, NO_PIECE, NO_SUCH_CUT, NOT_OFFSET, OTHER_POINTS,
    OUTLINE_UNMADE, PATTERN_BY_FACTORY,
};

/// Inside the sew line there is no corner to fold or to step.
const INSIDE: Corner = Corner::Mitre { limit: TIP };

/// Pieces are offset in as many threads.
const AT_ONCE: usize = 2;
/// The lines of one piece in one size.
#[derive(Debug, Clone, PartialEq)]
pub struct Lines {
    /// The line that is sewn, with its named points.
    pub sew: Figure<Outline>,
    /// Lengths of the runs of the sew line, mm, as seams number them; not known where this size has other points.
    pub runs: Figure<Vec<f64>>,
    /// The allowance of each run of the sew line, mm, of the layer that is sewn.
    pub widths: Figure<Vec<f64>>,
    /// Notches on the cut line of the sewn layer.
    pub notches: Figure<Vec<NotchMark>>,
    /// Cut lines by cut.
    pub cuts: BTreeMap<String, Figure<Shape>>,
    /// Direction of the grain: along it is the height of the piece.
    pub along: Point,
}

/// An allowance that makes no line, for the rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Refused {
    /// The piece.
    pub piece: String,
    /// The cut.
    pub cut: String,
    /// The size.
    pub size: String,
    /// Why not.
    pub message: Phrase,
    /// The allowance to change.
    pub span: Span,
    /// Whether an edge vanished.
    pub vanished: bool,
}

/// The lines of every piece in every size.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawn {
    pieces: BTreeMap<String, BTreeMap<String, Lines>>,
    /// Allowances that make no line.
    pub refused: Vec<Refused>,
    /// Notches that have no place on the cut line.
    pub astray: Vec<Astray>,
}

impl Drawn {
    /// Offsets every outline, a few pieces at a time; nothing of one piece depends on another.
    pub fn of(model: &Model, assembly: &Assembly) -> Drawn {
        let pieces: Vec<&Piece> = model.pieces.values().collect();
        let some = pieces.len().div_ceil(AT_ONCE).max(1);
        let parts: Vec<Vec<Drawn>> = std::thread::scope(|scope| {
            let several = |some: &[&Piece]| some.iter().map(|piece| Drawn::of_piece(model, assembly, piece)).collect();
            let workers: Vec<_> = pieces.chunks(some).map(|some| scope.spawn(move || several(some))).collect();
            workers.into_iter().map(|worker| worker.join().unwrap_or_else(|panic| resume_unwind(panic))).collect()
        });
        let mut drawn = Drawn::default();
        for part in parts.into_iter().flatten() {
            drawn.pieces.extend(part.pieces);
            drawn.refused.extend(part.refused);
            drawn.astray.extend(part.astray);
        }
        drawn
    }

    fn of_piece(model: &Model, assembly: &Assembly, piece: &Piece) -> Drawn {
        let id = piece.entry.id.value.as_str();
        let mut drawn = Drawn::default();
        let darts = dart::runs(piece, id, assembly);
        let usual = assembly.outlines.any(id).map(Outline::names);
        let mut sizes = BTreeMap::new();
        for size in &model.sizes {
            let size = size.entry.id.value.as_str();
            let (darts, usual, edges) = (darts.as_slice(), usual.as_deref(), assembly.edges.get(id, size));
            let (refused, astray) = (&mut drawn.refused, &mut drawn.astray);
            let scale = assembly.outlines.scale(id, size);
            let mut maker = Maker { piece, size, scale, edges, darts, usual, refused, astray };
            sizes.insert(size.to_string(), maker.lines(assembly.outlines.get(id, size)));
        }
        drawn.pieces.insert(id.to_string(), sizes);
        drawn
    }

    /// The lines of a piece in a size.
    pub fn get(&self, piece: &str, size: &str) -> Option<&Lines> {
        self.pieces.get(piece)?.get(size)
    }

    /// The sew line of a piece in a size.
    pub fn sew(&self, piece: &str, size: &str) -> Figure<&Outline> {
        match self.get(piece, size) {
            Some(lines) => lines.sew.as_ref(),
            None => Figure::not_yet(say!(NO_PIECE, piece)),
        }
    }

    /// The cut line of one layer.
    pub fn cut(&self, piece: &str, size: &str, cut: &str) -> Figure<&Shape> {
        match self.get(piece, size).and_then(|lines| lines.cuts.get(cut)) {
            Some(shape) => shape.as_ref(),
            None => Figure::not_yet(say!(NO_SUCH_CUT, piece, cut)),
        }
    }
}

/// A line that could not be made.
struct Failed {
    message: Phrase,
    vanished: bool,
}

impl Failed {
    fn because(message: Phrase) -> Failed {
        Failed { message, vanished: false }
    }
}

impl From<Unsewn> for Failed {
    fn from(error: Unsewn) -> Failed {
        match error {
            Unsewn::Offset(error) => error.into(),
            Unsewn::Shape(error) => Failed::because(shape::shape(&error)),
        }
    }
}

impl From<OffsetError> for Failed {
    fn from(error: OffsetError) -> Failed {
        Failed { vanished: matches!(error, OffsetError::Vanished { .. }), ..Failed::because(shape::offset(&error)) }
    }
}

struct Maker<'a> {
    piece: &'a Piece,
    size: &'a str,
    /// How the outline was scaled for this size; the allowance is not.
    scale: Option<Scale>,
    /// Allowances and corners; none without an outline.
    edges: Option<&'a PieceEdges>,
    darts: &'a [dart::Dart],
    /// The points in the first size that has an outline: seams number runs by them.
    usual: Option<&'a [String]>,
    refused: &'a mut Vec<Refused>,
    astray: &'a mut Vec<Astray>,
}

impl<'a> Maker<'a> {
    fn name(&self) -> &'a str {
        &self.piece.entry.id.value
    }

    fn variant(&self) -> Variant<'a> {
        Variant { size: self.size, colourway: "" }
    }

    fn lines(&mut self, outline: Result<&Outline, &Gap>) -> Lines {
        let (outline, side) = match outline {
            Ok(outline) => (Figure::Known(outline.clone()), self.side()),
            Err(gap) => (self.gap(gap), Side::SewLine),
        };
        let along = outline.known().map_or(Point::new(0.0, 1.0), |outline| along(self.piece, outline));
        let sew = match side {
            Side::SewLine => outline.clone(),
            Side::CutLine => outline.clone().then(|cut| self.inside(&cut)),
        };
        let mut cuts = BTreeMap::new();
        for (id, cut) in &self.piece.cuts {
            let is_drawn = side == Side::CutLine
                && self.scale.is_none()
                && sewn_cut(self.piece).is_some_and(|sewn| sewn.entry.id.value == *id);
            let shape = match is_drawn {
                true => outline.as_ref().map(Shape::of),
                false => sew.as_ref().then(|sew| self.cut(sew, id, cut)),
            };
            cuts.insert(id.clone(), shape);
        }
        let runs = sew.as_ref().then(|sew| self.runs(sew));
        let notches = self.notches(sew.as_ref(), &cuts);
        let widths = sew.as_ref().then(|sew| self.widths(sew));
        Lines { sew, runs, widths, notches, cuts, along }
    }

    fn runs(&self, sew: &Outline) -> Figure<Vec<f64>> {
        if self.usual != Some(&sew.names()) {
            return Figure::not_yet(say!(OTHER_POINTS, piece = self.name(), size = self.size));
        }
        Figure::Known(sew.runs().iter().map(|run| length(&run.path())).collect())
    }

    fn widths(&self, sew: &Outline) -> Figure<Vec<f64>> {
        match sewn_cut(self.piece) {
            Some(cut) => self.allowances(sew, &cut.entry.id.value),
            None => Figure::not_yet(say!(NO_CUT, piece = self.name())),
        }
    }

    fn notches(&mut self, sew: Figure<&Outline>, cuts: &BTreeMap<String, Figure<Shape>>) -> Figure<Vec<NotchMark>> {
        let cut = sewn_cut(self.piece).and_then(|cut| cuts.get(&cut.entry.id.value));
        let none = self.piece.notches.list.is_empty() && sew.known().is_none_or(|sew| sew.notches.is_empty());
        let (Some(cut), false) = (cut, none) else { return Figure::Known(Vec::new()) };
        sew.with(cut.as_ref(), |sew, cut| (sew, cut)).then(|(sew, cut)| {
            let bridged = dart::bridged(sew, self.darts);
            let bridged = bridged.as_ref().map_or(sew, |bridged| &bridged.outline);
            notch::marks(self.piece, &notch::Edge { sew, bridged, cut }, self.variant(), self.astray)
        })
    }

    fn side(&self) -> Side {
        let stated = self.piece.outline.as_ref().and_then(|value| value.known(self.variant()));
        stated.map_or(Side::SewLine, |source| source.side)
    }

    fn gap(&self, gap: &Gap) -> Figure<Outline> {
        let piece = self.name();
        Figure::not_yet(match gap {
            Gap::Withheld => return Figure::Withheld,
            Gap::Missing => say!(NO_OUTLINE, piece),
            Gap::ByFactory => say!(PATTERN_BY_FACTORY, piece),
            Gap::NoSize => say!(NO_OUTLINE_IN_SIZE, piece, size = self.size),
            Gap::Unread => say!(DRAWING_UNREAD, piece),
            Gap::Defect { .. } => say!(OUTLINE_UNMADE, piece),
        })
    }

    /// The sew line inside a drawn cut line.
    fn inside(&mut self, cut_line: &Outline) -> Figure<Outline> {
        let Some(cut) = sewn_cut(self.piece) else { return Figure::not_yet(say!(NO_CUT, piece = self.name())) };
        let id = cut.entry.id.value.as_str();
        self.allowances(cut_line, id).then(|widths| match widths.iter().all(|width| *width == 0.0) {
            true => Figure::Known(cut_line.clone()),
            false => self.made(id, cut, sew_inside(cut_line, &widths, self.scale).map_err(Failed::from)),
        })
    }

    fn cut(&mut self, sew: &Outline, id: &str, cut: &Cut) -> Figure<Shape> {
        if let Some(inside) = &cut.inside {
            let what = say!(INSIDE_OF, piece = self.name(), cut = id);
            let width = Figure::of(Some(inside), self.variant(), what);
            return width
                .then(|width| self.made(id, cut, inside_of(sew, small(&width))).map(|line| Shape::offset(&line)));
        }
        let widths = self.allowances(sew, id);
        let bridged = dart::bridged(sew, self.darts);
        widths.then(|widths| {
            if bridged.is_none() && widths.iter().all(|width| *width == 0.0) {
                return Figure::Known(Shape::of(sew));
            }
            let line = match &bridged {
                Some(bridged) => outset(&bridged.outline, &bridged.widths(&widths), self.corners()),
                None => outset(sew, &widths, self.corners()),
            };
            self.made(id, cut, line.map_err(Failed::from)).map(|line| Shape::offset(&line))
        })
    }

    fn made<T>(&mut self, id: &str, cut: &Cut, line: Result<T, Failed>) -> Figure<T> {
        line.map_or_else(
            |error| {
                let inside = cut.inside.as_ref().map(|inside| inside.span);
                let span = inside.or(cut.allowance.span).unwrap_or(self.piece.entry.span());
                let (piece, size) = (self.name().to_string(), self.size.to_string());
                let Failed { message, vanished } = error;
                self.refused.push(Refused { piece, cut: id.to_string(), size, message, span, vanished });
                Figure::not_yet(say!(NOT_OFFSET, cut = id, piece = self.name()))
            },
            Figure::Known,
        )
    }

    fn corners(&self) -> Corners {
        self.edges.map(|edges| edges.corners.clone()).unwrap_or_default()
    }

    /// The allowance of a cut on every run of a line, mm.
    fn allowances(&self, line: &Outline, id: &str) -> Figure<Vec<f64>> {
        let mut widths = Figure::Known(Vec::new());
        for edge in self.edges.map_or(Vec::new(), |edges| edges.on(id, line)) {
            let width = super::edges::allowance(edge, self.name(), id);
            widths = widths.with(width, |mut widths, width| {
                widths.push(width);
                widths
            });
        }
        widths
    }
}

/// The line a layer inside the sew line is cut along. It has no runs of its own, so that a short run may vanish in it.
fn inside_of(sew: &Outline, width: f64) -> Result<CutLine, Failed> {
    let bare = Outline { points: Vec::new(), ..sew.clone() };
    match inset(&bare, &[width], INSIDE) {
        Ok(line) if line.contours.len() == 1 => Ok(line),
        Ok(line) => Err(Failed::because(say!(PARTS_LEFT, count = line.contours.len(), width = width.to_string()))),
        Err(OffsetError::Vanished { .. }) => Err(Failed::because(say!(NOTHING_LEFT, width = width.to_string()))),
        Err(other) => Err(other.into()),
    }
}

/// The direction in which the height of a piece is measured: its grain, else its pile, else up the page.
fn along(piece: &Piece, outline: &Outline) -> Point {
    piece.along(outline).unwrap_or(Point::new(0.0, 1.0))
}

//! Finds the instances and the runs that a written chain names, with help where there are none.

use crate::geom::Outline;
use crate::model::{Chain, Model, PathRef, PointRef, RunRef};
use crate::source::{Edit, Help, Span, nearest};
use crate::words::{Phrase, say, words};

use super::instance::Index;
use super::mirror::partner;
use super::{Instance, Outlines, Run, Side, Trouble, TroubleKind, shape};

words! {
    NO_LINES "found.no-lines" = "{piece} has no internal lines";
    LINES "found.lines" = "its lines are {lines}";
    NO_LINE "found.no-line" = "{piece} has no internal line called {line}";
    NO_SUCH_LINE "found.no-such-line" = "no such line";
    MEANT "found.meant" = "did you mean `{near}`?";
    NO_PIECE "found.no-piece" = "there is no piece {piece}";
    WITHOUT_PART "found.without-part" = "write `{piece}` without a part";
    OWN_PART "found.own-part" = "write `{part}` before the slash, or nothing";
    NO_PART "found.no-part" = "{piece} belongs to no part, not to {written}";
    OTHER_PART "found.other-part" = "{piece} belongs to part {part}, not to {written}";
    USED_ONCE "found.used-once" = "part {part} is used once: leave `.{usage}` out";
    USED_AS "found.used-as" = "part {part} is used as {uses}";
    NO_USE "found.no-use" = "part {part} has no use called {usage}";
    WHICH_USE "found.which-use" = "{piece} does not say which use of part {part} it means";
    WHICH_ONE "found.which-one" = "which one?";
    WRITE_USE "found.write-use" = "write `{part}.{usage}/{piece}`, or another of its uses: {uses}";
    CUT_ONCE "found.cut-once" = "{piece} is cut once: write `{piece}` alone";
    COPIES "found.copies" = "{piece} has the copies {copies}";
    NO_COPY "found.no-copy" = "{piece} has no copy called {copy}";
    WHICH_COPY "found.which-copy" = "{piece} does not say which copy it means";
    WRITE_COPY "found.write-copy" = "write for example `{piece}.{copy}`; {piece} has the copies {copies}";
    NEEDS_EDGE "found.needs-edge" = "an edge of {piece} is needed here, not an internal line";
    INSIDE "found.inside" = "a line inside the piece";
    WRITE_POINTS "found.write-points" = "write two neighbouring points, for example `{piece}:{points}`";
    NO_EDGE "found.no-edge" = "{piece}: {why}";
    TO_NEIGHBOUR "found.to-neighbour" = "an edge goes from a point to its neighbour";
    NO_POINT "found.no-point" = "{piece} has no point {point}";
    POINTS "found.points" = "its points are {points}";
    NO_IMAGE "found.no-image" = "{piece} takes part in a mirrored seam, but its point {point} has no mirror image";
    NO_IMAGE_OF "found.no-image-of" = "no image of {point}";
    DRAW_HALF "found.draw-half" = "draw half of {piece} and unfold it with `fold`, or cut it twice with copies = [\"l\", \"r mirrored\"], or leave `mirrored` out and write both seams";
    NOT_DECLARED "found.not-declared" = "not declared";
}

/// Points nearer than this are one, where a drawn shape is asked for the images of its points, in mm.
const SAME_POINT: f64 = 0.05;

/// Everything needed to find a run.
#[derive(Clone, Copy)]
pub struct Finder<'a> {
    pub model: &'a Model,
    pub outlines: &'a Outlines,
    pub instances: &'a [Instance],
    pub index: &'a Index<'a>,
    /// The use meant where none is written.
    pub usage: &'a str,
    /// Whether the mirror image is looked for.
    pub mirrored: bool,
}

/// An instance that was found, and what becomes of its points.
#[derive(Clone, Copy)]
struct Found {
    at: usize,
    exchange: bool,
    /// Whether it stands for itself in the mirror, so that a point without an image makes no sense.
    own: bool,
}

impl Finder<'_> {
    /// The runs of a written chain.
    pub fn side(&self, chain: &Chain, troubles: &mut Vec<Trouble>) -> Option<Side> {
        let mut side = Side { runs: Vec::new(), span: chain.span, places: Vec::new() };
        let mut whole = true;
        for run in &chain.runs {
            match self.instance(run, troubles).and_then(|found| self.walk(found, run, troubles)) {
                Some(runs) => {
                    side.places.extend(runs.iter().map(|_| run.span));
                    side.runs.extend(runs);
                }
                None => whole = false,
            }
        }
        whole.then_some(side)
    }

    /// The runs of one certain instance along the written points, as drawn.
    pub fn runs_of(&self, at: usize, run: &RunRef, troubles: &mut Vec<Trouble>) -> Option<Vec<Run>> {
        self.walk(Found { at, exchange: false, own: false }, run, troubles)
    }

    /// The internal line a stitch or attachment lies on: its instance and the line's id.
    pub fn line(&self, run: &RunRef, troubles: &mut Vec<Trouble>) -> Option<(usize, String)> {
        let PathRef::Line(line) = &run.path else { return None };
        let found = self.instance(run, troubles)?;
        let outline = self.outlines.any(&run.piece)?;
        let has = |id: &str| outline.lines.iter().any(|one| one.id == id);
        // A folded piece has the image of each line as `line~`.
        let image = line.strip_suffix('~').map_or_else(|| format!("{line}~"), str::to_string);
        if found.exchange && has(&image) {
            return Some((found.at, image));
        }
        if has(line) {
            return Some((found.at, line.clone()));
        }
        let known: Vec<&str> = outline.lines.iter().map(|one| one.id.as_str()).collect();
        let help = match known.as_slice() {
            [] => say!(NO_LINES, piece = &run.piece),
            _ => say!(LINES, lines = Phrase::list(known)),
        };
        troubles.push(Trouble {
            kind: TroubleKind::Unknown,
            message: say!(NO_LINE, piece = &run.piece, line),
            span: run.span,
            label: NO_SUCH_LINE.into(),
            help: Some(help.into()),
        });
        None
    }

    fn instance(&self, run: &RunRef, troubles: &mut Vec<Trouble>) -> Option<Found> {
        let Some(piece) = self.model.pieces.get(&run.piece) else {
            let pieces = || self.model.pieces.keys().map(String::as_str);
            let help = nearest(&run.piece, pieces()).map(|near| {
                let edit = Edit::respell(run.span, &run.piece, near, pieces());
                Help::with(say!(MEANT, near), edit)
            });
            troubles.push(unknown(say!(NO_PIECE, piece = &run.piece), run.span, help));
            return None;
        };
        let part = piece.part.as_ref().map_or("", |part| part.value.as_str());
        if let Some(written) = &run.part
            && written != part
        {
            let help = match part {
                "" => say!(WITHOUT_PART, piece = &run.piece),
                _ => say!(OWN_PART, part),
            };
            let message = match part {
                "" => say!(NO_PART, piece = &run.piece, written),
                _ => say!(OTHER_PART, piece = &run.piece, part, written),
            };
            troubles.push(unknown(message, run.span, Some(help.into())));
            return None;
        }
        let usage = run.usage.as_deref().unwrap_or(self.usage);
        let alike = self.index.piece(&run.piece);
        let copies: Vec<usize> = alike.iter().copied().filter(|n| self.instances[*n].usage == usage).collect();
        let at = match (&run.copy, copies.as_slice()) {
            (None, [one]) => Some(*one),
            (Some(copy), _) => copies.iter().copied().find(|n| self.instances[*n].copy == *copy),
            (None, _) => None,
        };
        let Some(at) = at else {
            troubles.push(self.unclear(run, part, &copies));
            return None;
        };
        if !self.mirrored {
            return Some(Found { at, exchange: false, own: false });
        }
        let other = partner(self.instances, alike, at, run.usage.is_some());
        let exchange = self.instances[other].mirrored == self.instances[at].mirrored;
        Some(Found { at: other, exchange, own: other == at })
    }

    /// Why a run does not say which instance it means.
    fn unclear(&self, run: &RunRef, part: &str, copies: &[usize]) -> Trouble {
        let declared = self.model.parts.get(part);
        let uses: Vec<&str> =
            declared.map_or(Vec::new(), |part| part.uses.iter().map(|one| one.name.as_str()).collect());
        let names: Vec<&str> = copies.iter().map(|n| self.instances[*n].copy.as_str()).collect();
        match (&run.usage, &run.copy) {
            (Some(usage), _) if copies.is_empty() => {
                let help = match uses.as_slice() {
                    [] | [""] => say!(USED_ONCE, part, usage),
                    _ => say!(USED_AS, part, uses = Phrase::list(uses)),
                };
                unknown(say!(NO_USE, part, usage), run.span, Some(help.into()))
            }
            (None, _) if copies.is_empty() => Trouble {
                kind: TroubleKind::Unclear,
                message: say!(WHICH_USE, piece = &run.piece, part),
                span: run.span,
                label: WHICH_ONE.into(),
                help: uses.first().map(|usage| {
                    let piece = self.copied(run);
                    say!(WRITE_USE, part, usage, piece, uses = Phrase::list(&uses)).into()
                }),
            },
            (_, Some(copy)) => {
                let help = match names.as_slice() {
                    [""] => say!(CUT_ONCE, piece = &run.piece),
                    _ => say!(COPIES, piece = &run.piece, copies = Phrase::list(names)),
                };
                unknown(say!(NO_COPY, piece = &run.piece, copy), run.span, Some(help.into()))
            }
            _ => Trouble {
                kind: TroubleKind::Unclear,
                message: say!(WHICH_COPY, piece = &run.piece),
                span: run.span,
                label: WHICH_ONE.into(),
                help: names
                    .first()
                    .map(|copy| say!(WRITE_COPY, piece = &run.piece, copy, copies = Phrase::list(&names)).into()),
            },
        }
    }

    /// A piece with its copy, as it is written: the copy that is named, else the first where there are several.
    fn copied(&self, run: &RunRef) -> String {
        let copies = self.model.pieces.get(&run.piece).map_or(&[][..], |piece| piece.copies.as_slice());
        let first = copies.first().map(|copy| copy.name.as_str()).filter(|_| copies.len() > 1);
        run.copy.as_deref().or(first).map_or_else(|| run.piece.clone(), |copy| format!("{}.{copy}", run.piece))
    }

    /// The runs of an instance along the written points.
    fn walk(&self, found: Found, run: &RunRef, troubles: &mut Vec<Trouble>) -> Option<Vec<Run>> {
        let outline = self.outlines.any(&run.piece)?;
        let PathRef::Points(points) = &run.path else {
            troubles.push(Trouble {
                kind: TroubleKind::Unclear,
                message: say!(NEEDS_EDGE, piece = &run.piece),
                span: run.span,
                label: INSIDE.into(),
                help: Some(say!(WRITE_POINTS, piece = &run.piece, points = example(outline)).into()),
            });
            return None;
        };
        let mut names = Vec::new();
        for point in points {
            names.push(self.point(outline, found, run, point, troubles)?);
        }
        let mut runs = Vec::new();
        for pair in names.windows(2) {
            match outline.run_between(&pair[0], &pair[1]) {
                Ok(step) => runs.push(Run { instance: found.at, run: step.index, forward: step.forward }),
                Err(error) => {
                    troubles.push(Trouble {
                        kind: TroubleKind::Unclear,
                        message: say!(NO_EDGE, piece = &run.piece, why = shape::run(&error)),
                        span: run.span,
                        label: TO_NEIGHBOUR.into(),
                        help: None,
                    });
                    return None;
                }
            }
        }
        Some(runs)
    }

    /// The point meant: as written, or its image where left and right are exchanged.
    fn point(
        &self,
        outline: &Outline,
        found: Found,
        run: &RunRef,
        point: &PointRef,
        troubles: &mut Vec<Trouble>,
    ) -> Option<String> {
        let image = |id: &str| outline.axis_images.get(id).cloned();
        let named = if point.image { image(&point.id) } else { Some(point.id.clone()) };
        let Some(id) = named.filter(|id| outline.point(id).is_some()) else {
            let all: Vec<&str> = outline.points.iter().map(|one| one.id.as_str()).collect();
            let message = say!(NO_POINT, piece = &run.piece, point = point.text());
            let near = nearest(&point.id, all.iter().copied()).filter(|_| !point.image);
            let edit = near.map(|near| Edit::respell(point.span, &point.id, near, all.iter().copied()));
            let help = Help::with(say!(POINTS, points = Phrase::list(all)), edit);
            troubles.push(unknown(message, point.span, Some(help)));
            return None;
        };
        if !found.exchange {
            return Some(id);
        }
        let drawn = || outline.point_images(SAME_POINT).and_then(|images| images.get(&id).cloned());
        match image(&id).or_else(|| if found.own { drawn() } else { None }) {
            Some(other) => Some(other),
            // Two copies that should be mirror images and are not: the seam then shows which is inside out.
            None if !found.own => Some(id),
            None => {
                let piece = &run.piece;
                troubles.push(Trouble {
                    kind: TroubleKind::Mirror,
                    message: say!(NO_IMAGE, piece, point = &id),
                    span: run.span,
                    label: say!(NO_IMAGE_OF, point = &id),
                    help: Some(say!(DRAW_HALF, piece).into()),
                });
                None
            }
        }
    }
}

fn example(outline: &Outline) -> String {
    let names: Vec<&str> = outline.points.iter().take(2).map(|one| one.id.as_str()).collect();
    names.join("-")
}

fn unknown(message: Phrase, span: Span, help: Option<Help>) -> Trouble {
    Trouble { kind: TroubleKind::Unknown, message, span, label: NOT_DECLARED.into(), help }
}

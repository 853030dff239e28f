//! Finds the instances and the runs that a written chain names, with help where there are none.

use crate::geom::Outline;
use crate::model::{Chain, Model, PathRef, PointRef, RunRef};
use crate::source::{Edit, Help, Span, nearest};

use super::instance::Index;
use super::mirror::partner;
use super::{Instance, Outlines, Run, Side, Trouble, TroubleKind};

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
            [] => format!("{} has no internal lines", run.piece),
            _ => format!("its lines are {}", known.join(", ")),
        };
        troubles.push(Trouble {
            kind: TroubleKind::Unknown,
            message: format!("{} has no internal line called {line}", run.piece),
            span: run.span,
            label: "no such line".into(),
            help: Some(help.into()),
        });
        None
    }

    fn instance(&self, run: &RunRef, troubles: &mut Vec<Trouble>) -> Option<Found> {
        let Some(piece) = self.model.pieces.get(&run.piece) else {
            let pieces = || self.model.pieces.keys().map(String::as_str);
            let help = nearest(&run.piece, pieces()).map(|near| {
                let edit = Edit::respell(run.span, &run.piece, near, pieces());
                Help::with(format!("did you mean `{near}`?"), edit)
            });
            troubles.push(unknown(format!("there is no piece {}", run.piece), run.span, help));
            return None;
        };
        let part = piece.part.as_ref().map_or("", |part| part.value.as_str());
        if let Some(written) = &run.part
            && written != part
        {
            let help = match part {
                "" => format!("write `{}` without a part", run.piece),
                _ => format!("write `{part}` before the slash, or nothing"),
            };
            let belongs = if part.is_empty() { "no part".to_string() } else { format!("part {part}") };
            let message = format!("{} belongs to {belongs}, not to {written}", run.piece);
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
                    [] | [""] => format!("part {part} is used once: leave `.{usage}` out"),
                    _ => format!("part {part} is used as {}", uses.join(", ")),
                };
                unknown(format!("part {part} has no use called {usage}"), run.span, Some(help.into()))
            }
            (None, _) if copies.is_empty() => Trouble {
                kind: TroubleKind::Unclear,
                message: format!("{} does not say which use of part {part} it means", run.piece),
                span: run.span,
                label: "which one?".into(),
                help: uses.first().map(|name| format!("write `{part}.{name}/{}`", run.piece).into()),
            },
            (_, Some(copy)) => {
                let help = match names.as_slice() {
                    [""] => format!("{} is cut once: write `{}` alone", run.piece, run.piece),
                    _ => format!("{} has the copies {}", run.piece, names.join(", ")),
                };
                unknown(format!("{} has no copy called {copy}", run.piece), run.span, Some(help.into()))
            }
            _ => Trouble {
                kind: TroubleKind::Unclear,
                message: format!("{} does not say which copy it means", run.piece),
                span: run.span,
                label: "which one?".into(),
                help: names.first().map(|name| {
                    format!(
                        "write for example `{}.{name}`; {} has the copies {}",
                        run.piece,
                        run.piece,
                        names.join(", ")
                    )
                    .into()
                }),
            },
        }
    }

    /// The runs of an instance along the written points.
    fn walk(&self, found: Found, run: &RunRef, troubles: &mut Vec<Trouble>) -> Option<Vec<Run>> {
        let outline = self.outlines.any(&run.piece)?;
        let PathRef::Points(points) = &run.path else {
            troubles.push(Trouble {
                kind: TroubleKind::Unclear,
                message: format!("an edge of {} is needed here, not an internal line", run.piece),
                span: run.span,
                label: "a line inside the piece".into(),
                help: Some(
                    format!("write two neighbouring points, for example `{}:{}`", run.piece, example(outline)).into(),
                ),
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
                        message: format!("{}: {error}", run.piece),
                        span: run.span,
                        label: "an edge goes from a point to its neighbour".into(),
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
            let message = format!("{} has no point {}", run.piece, point.text());
            let near = nearest(&point.id, all.iter().copied()).filter(|_| !point.image);
            let edit = near.map(|near| Edit::respell(point.span, &point.id, near, all.iter().copied()));
            let help = Help::with(format!("its points are {}", all.join(", ")), edit);
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
                    message: format!("{piece} takes part in a mirrored seam, but its point {id} has no mirror image"),
                    span: run.span,
                    label: format!("no image of {id}"),
                    help: Some(
                        format!(
                            "draw half of {piece} and unfold it with `fold`, or cut it twice with \
                         copies = [\"l\", \"r mirrored\"], or leave `mirrored` out and write both seams"
                        )
                        .into(),
                    ),
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

fn unknown(message: String, span: Span, help: Option<Help>) -> Trouble {
    Trouble { kind: TroubleKind::Unknown, message, span, label: "not declared".into(), help }
}

//! Lengths of edges and lines on the sew lines of a size.

use crate::geom::length;
use crate::model::assembly::{self, Edging};
use crate::words::say;

use super::input::Ground;
use super::reason::{LINE_UNKNOWN, NO_EDGE, NO_PIECE, NO_SUCH_PIECE};
use super::{Figure, Number};

/// Length of a chain of runs on the sew lines of a size, mm.
pub(super) fn side_length(ground: &Ground<'_>, side: &assembly::Side, size: &str) -> Figure<Number> {
    Figure::sum(side.runs.iter().map(|run| run_length(ground, run, size)))
}

/// Length of one run on the sew line of a size, mm.
pub(super) fn run_length(ground: &Ground<'_>, run: &assembly::Run, size: &str) -> Figure<Number> {
    let Some(instance) = ground.assembly.instances.get(run.instance) else {
        return Figure::not_yet(NO_SUCH_PIECE);
    };
    let Some(lines) = ground.drawn.get(&instance.piece, size) else {
        return Figure::not_yet(say!(NO_PIECE, piece = &instance.piece));
    };
    let missing = || Figure::not_yet(say!(NO_EDGE, piece = &instance.piece));
    lines.runs.as_ref().then(|runs| runs.get(run.run).map_or_else(missing, |length| Figure::number(*length)))
}

/// Length of the line an edge is sewn to, mm.
pub(super) fn line_length(ground: &Ground<'_>, edging: &Edging, size: &str, title: &str) -> Figure<Number> {
    let missing = || Figure::not_yet(say!(LINE_UNKNOWN, title));
    let Some((at, line)) = &edging.line else { return missing() };
    let Some(instance) = ground.assembly.instances.get(*at) else { return missing() };
    ground.drawn.sew(&instance.piece, size).then(|outline| {
        let found = outline.lines.iter().find(|one| one.id == *line);
        found.map_or_else(missing, |line| Figure::number(length(&line.path)))
    })
}

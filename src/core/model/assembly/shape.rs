//! What is wrong with a shape, an edge or an allowance, in words.

use crate::geom::offset::WIDEST;
use crate::geom::{Ends, Measure, OffsetError, RunError, ShapeError};
use crate::words::{Phrase, Word, say, words};

words! {
    WIDTH "measure.width" = "width";
    HEIGHT "measure.height" = "height";
    CORNER_RADIUS "measure.corner-radius" = "corner radius";
    DIAMETER "measure.diameter" = "diameter";
    EXTENT "measure.extent" = "extent of the outline";
    GORES "measure.gores" = "number of gores";
    ALONG "measure.along" = "scale along the grain";
    ACROSS "measure.across" = "scale across the grain";
}

words! {
    NOT_POSITIVE "shape.not-positive" = "the {what} must be above 0, and is {value}";
    TOO_LARGE "shape.too-large" = "the {what} is {value}; {limit} is the most that can be handled";
    NOT_FINITE "shape.not-finite" = "a coordinate is not a finite number";
    RADIUS "shape.radius" = "a corner radius of {radius} mm does not fit: half the shorter side is {limit} mm";
    FEW_POINTS "shape.few-points" = "an outline needs at least 3 points, and has {found}";
    FEW_GORES "shape.few-gores" = "a ball is made of at least 2 gores, not {found}";
    TAKEN "shape.taken" = "the point `{id}` is already on the outline";
    CLOSE "shape.close" = "the points `{other}` and `{id}` are {distance} mm apart; they must be at least 0.5 mm apart";
    CROSSES "shape.crosses" = "the edges {first} and {second} meet at x {x} mm, y {y} mm; an outline must not cross or touch itself";
    OPEN "shape.open" = "the outline is open: its end is {gap} mm from its start";
    NO_AREA "shape.no-area" = "the outline encloses no area";
    OFF "shape.off" = "the point `{id}` is {distance} mm off the outline; it must lie within 0.5 mm";
    OUTSIDE "shape.outside" = "the point `{id}` would be {asked} mm along {edge}, which is {length} mm long";
    FOLD "shape.fold" = "the fold {edge} is not straight: it is off by {deviation} mm, and 0.05 mm is allowed";
}

words! {
    NO_POINT "edge.no-point" = "the outline has no point `{id}`; its points are {known}";
    NOT_NEIGHBOURS "edge.not-neighbours" = "`{from}` and `{to}` are not neighbours: between them lie {one} one way round, {other} the other way";
    AMBIGUOUS "edge.ambiguous" = "two edges run from `{from}` to `{to}`; a third point on the outline tells them apart";
    SAME_POINT "edge.same-point" = "an edge from `{id}` to itself names no edge";
}

words! {
    COUNT "offset.count" = "the outline has {runs} edges and {found} allowances are given";
    ALLOWANCE "offset.allowance" = "the allowance of {edge} is {value} mm; it must be from 0 to {widest} mm";
    LIMIT "offset.limit" = "a mitre limit is at least 1, and is {value}";
    VANISHED "offset.vanished" = "the edge {edge} vanishes when {allowance} mm are taken off inside it and the other edges theirs";
    PARTS "offset.parts" = "the allowances leave {found} separate outlines instead of one";
    WORKED "offset.worked" = "folded back at `{id}`, the allowance would end {back} mm before the corner; the edge is too short or too curved for that";
    PARTED "offset.parted" = "the edges at `{id}` no longer meet inside their allowances";
}

/// Why a shape cannot be made.
pub(crate) fn shape(error: &ShapeError) -> Phrase {
    match error {
        ShapeError::NotPositive { what, value } => say!(NOT_POSITIVE, what = measure(*what), value = plain(*value)),
        ShapeError::TooLarge { what, value, limit } => {
            say!(TOO_LARGE, what = measure(*what), value = plain(*value), limit = plain(*limit))
        }
        ShapeError::NotFinite => NOT_FINITE.into(),
        ShapeError::RadiusTooLarge { radius, limit } => say!(RADIUS, radius = plain(*radius), limit = plain(*limit)),
        ShapeError::TooFewPoints { found } => say!(FEW_POINTS, found = *found),
        ShapeError::TooFewGores { found } => say!(FEW_GORES, found = *found),
        ShapeError::NoArea => NO_AREA.into(),
        ShapeError::Run(error) => run(error),
        _ => placed(error),
    }
}

/// Those that name places on the outline.
fn placed(error: &ShapeError) -> Phrase {
    match error {
        ShapeError::IdTaken { id } => say!(TAKEN, id),
        ShapeError::TooClose { id, other, distance } => say!(CLOSE, other, id, distance = fine(*distance)),
        ShapeError::SelfCrossing { first, second, at } => {
            say!(CROSSES, first = edge(first), second = edge(second), x = fine(at.x), y = fine(at.y))
        }
        ShapeError::Open { gap } => say!(OPEN, gap = fine(*gap)),
        ShapeError::OffOutline { id, distance } => say!(OFF, id, distance = fine(*distance)),
        ShapeError::OutsideRun { id, run, length, asked } => {
            say!(OUTSIDE, id, asked = fine(*asked), edge = edge(run), length = fine(*length))
        }
        ShapeError::FoldNotStraight { run, deviation } => {
            say!(FOLD, edge = edge(run), deviation = fine(*deviation))
        }
        _ => Phrase::none(),
    }
}

/// Why no edge lies between two points.
pub(crate) fn run(error: &RunError) -> Phrase {
    match error {
        RunError::UnknownPoint { id, known } => say!(NO_POINT, id, known = Phrase::list(known)),
        RunError::NotNeighbours { from, to, anticlockwise, clockwise } => {
            say!(NOT_NEIGHBOURS, from, to, one = Phrase::list(anticlockwise), other = Phrase::list(clockwise))
        }
        RunError::Ambiguous { from, to } => say!(AMBIGUOUS, from, to),
        RunError::SamePoint { id } => say!(SAME_POINT, id),
    }
}

/// Why an allowance cannot be added or taken off.
pub(crate) fn offset(error: &OffsetError) -> Phrase {
    match error {
        OffsetError::Count { runs, found } => say!(COUNT, runs = *runs, found = *found),
        OffsetError::Allowance { run, value } => {
            say!(ALLOWANCE, edge = edge(run), value = plain(*value), widest = plain(WIDEST))
        }
        OffsetError::Limit { value } => say!(LIMIT, value = plain(*value)),
        OffsetError::Vanished { run, allowance } => {
            say!(VANISHED, edge = edge(run), allowance = plain(*allowance))
        }
        OffsetError::Parts { found } => say!(PARTS, found = *found),
        OffsetError::Worked { id, back } => say!(WORKED, id, back = format!("{back:.1}")),
        OffsetError::Parted { id } => say!(PARTED, id),
    }
}

fn measure(what: Measure) -> Word {
    match what {
        Measure::Width => WIDTH,
        Measure::Height => HEIGHT,
        Measure::CornerRadius => CORNER_RADIUS,
        Measure::Diameter => DIAMETER,
        Measure::Extent => EXTENT,
        Measure::Gores => GORES,
        Measure::Along => ALONG,
        Measure::Across => ACROSS,
    }
}

/// An edge by its ends: `a-b`.
fn edge((from, to): &Ends) -> String {
    format!("{from}-{to}")
}

/// A number with the digits it has.
fn plain(value: f64) -> String {
    value.to_string()
}

/// A length to a thousandth of a millimetre.
fn fine(value: f64) -> String {
    format!("{value:.3}")
}

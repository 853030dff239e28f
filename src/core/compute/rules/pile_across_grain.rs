//! Rule: the pile of a piece does not lie along its grain.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Piece;
use crate::words::{number, say, words};

use super::{Ground, in_size, sizes};

/// A pile that no fabric has.
pub const RULE: Rule = Rule {
    code: "pile-across-grain",
    family: "piece",
    severity: Severity::Should,
    summary: "the pile of a piece does not lie along its grain",
    explanation: "Pile fabric lies on the table with its grain along the roll, and its pile lies along the roll too. A lay follows \
                  the grain; where the pile of a piece is drawn at an angle to it, one of the two cannot be met. A few fabrics have \
                  their pile across: say so to whoever cuts.",
    failing: "[piece.EAR]\ngrain = \"p-q\"\npile = \"p-t\" # at a right angle to it",
    passing: "[piece.EAR]\ngrain = \"p-t\"\npile = \"p-t\"",
    source: "common practice",
};

words! {
    MESSAGE "pile-across-grain.message" = "{piece}{size}: the pile lies {angle}° off the grain";
    PILE "pile-across-grain.pile" = "the pile lies this way";
    GRAIN "pile-across-grain.grain" = "the grain this way";
    HELP "pile-across-grain.help" = "name for both two points on one line along the roll; take the grain out to lay the piece by its pile";
}

/// What a pile may be off the grain, degrees: points of an outline seldom lie exactly along it. A limit of ours.
const OFF: f64 = 10.0;

/// Reports each piece once, in the first size in which it is so.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for (id, piece) in &ground.model.pieces {
        let found = sizes(ground.model).find_map(|size| Some((size, angle(ground, piece, id, size)?)));
        let Some((size, angle)) = found else { continue };
        let size = in_size(ground.model, size);
        let message = say!(MESSAGE, piece = id, size, angle = number::number(angle, 0));
        let place = piece.entry.span();
        let finding = Finding::new(&RULE, message).at(piece.pile.as_ref().map_or(place, |pile| pile.span), PILE);
        let grain = piece.grain.as_ref().map(|grain| grain.span);
        findings.push(grain.into_iter().fold(finding, |finding, span| finding.at(span, GRAIN)).help(HELP));
    }
}

/// Degrees between both lines, whichever way they point, where they are too many.
fn angle(ground: &Ground<'_>, piece: &Piece, id: &str, size: &str) -> Option<f64> {
    let outline = *ground.drawn.sew(id, size).known()?;
    let (pile, grain) = (piece.pile_line(outline)?, piece.grain_line(outline)?);
    let (a, b) = (pile.1 - pile.0, grain.1 - grain.0);
    let (across, along) = ((a.x * b.y - a.y * b.x).abs(), (a.x * b.x + a.y * b.y).abs());
    let angle = libm::atan2(across, along).to_degrees();
    (angle > OFF).then_some(angle)
}

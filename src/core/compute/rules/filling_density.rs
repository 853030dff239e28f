//! Rule: a filling is too heavy or too light for the part it fills.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Article, Stated, Stuffing, Value};
use crate::words::{say, words};

use super::{Ground, in_size, of_size, sizes};

/// Grams in a cubic centimetre of the largest volume that the surface of a part can hold: least of all, most of fibre, most of
/// anything (*common practice*, wide on purpose: fibre is filled at 0.01 to 0.06, sand weighs 1.6, steel shot 4.8).
const LEAST: f64 = 0.001;
const MOST_FIBRE: f64 = 0.25;
const MOST: f64 = 5.0;

/// A mass that does not fit its part.
pub const RULE: Rule = Rule {
    code: "filling-density",
    family: "filling",
    severity: Severity::Should,
    summary: "a filling is too heavy or too light for the part it fills",
    explanation: "A surface holds most as a ball; what the pieces of a part can hold is never more. More than 0.25 g in each cubic \
                  centimetre of that ball is a brick of fibre, more than 5 g is denser than steel shot, and less than 0.001 g is \
                  an empty shell: a slip of unit or digit, or the mass of another size.",
    failing: "[stuffing.body]\nfilling = \"fibre\"\nmass = \"4500 g\"  # the part holds 3 litres at most",
    passing: "[stuffing.body]\nfilling = \"fibre\"\nmass = \"45 g\"  # the part holds 3 litres at most",
    source: "geometry (of all bodies of one surface the ball holds most); limits are common practice",
};

words! {
    HEAVY "filling-density.heavy" = "stuffing {id}{size} is {mass}, and part {part} holds {volume} cm3 at most: {density} g in each";
    LIGHT "filling-density.light" = "stuffing {id}{size} is {mass}, and part {part} could hold up to {volume} cm3: {density} g in each";
    HERE "filling-density.here" = "for this part?";
    HELP "filling-density.help" = "look at the unit and at the part it is of: fibre is filled at 0.01 to 0.06 g in a cubic centimetre (common practice)";
}

/// Words for filling that is light and can be pressed.
const FIBRES: [&str; 9] = ["fibre", "fiber", "wadding", "wool", "kapok", "down", "feather", "fill", "foam"];

/// Reports each stuffing once, in the first size in which it does not fit.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for (id, stuffing) in &ground.model.stuffings {
        for size in sizes(ground.model) {
            if let Some(finding) = judged(ground, (id, stuffing), size) {
                findings.push(finding);
                break;
            }
        }
    }
}

fn judged(ground: &Ground<'_>, (id, stuffing): (&str, &Stuffing), size: &str) -> Option<Finding> {
    let part = stuffing.part.as_ref()?.value.as_str();
    let mass = stuffing.mass.as_ref()?.of(of_size(size))?;
    let quantity = mass.known()?;
    let volume = volume(ground, part, size)?;
    let density = quantity.si_f64() * 1000.0 / volume;
    let most = if is_fibre(ground, stuffing) { MOST_FIBRE } else { MOST };
    let word = match density {
        _ if density > most => HEAVY,
        _ if density < LEAST => LIGHT,
        _ => return None,
    };
    let number = |value: f64, places: u32| crate::words::number::number(value, places);
    let message = say!(
        word,
        id,
        size = in_size(ground.model, size),
        mass = format!("{} {}", quantity.value, quantity.unit),
        part,
        volume = number(volume, 0),
        density = number(density, if density < 0.1 { 4 } else { 2 })
    );
    Some(Finding::new(&RULE, message).at(mass.span, HERE).help(HELP))
}

/// The volume of the ball with the surface of one use of a part, cm3.
fn volume(ground: &Ground<'_>, part: &str, size: &str) -> Option<f64> {
    let pieces =
        ground.model.pieces.iter().filter(|(_, piece)| piece.part.as_ref().is_some_and(|one| one.value == part));
    let mut surface = 0.0;
    for (id, piece) in pieces {
        surface += ground.drawn.sew(id, size).known()?.area() * piece.copies.len() as f64;
    }
    let surface = surface / 100.0;
    (surface > 0.0).then(|| surface * libm::sqrt(surface) / (6.0 * libm::sqrt(std::f64::consts::PI)))
}

/// Whether every filling it can be is of fibre.
fn is_fibre(ground: &Ground<'_>, stuffing: &Stuffing) -> bool {
    let Some(filling) = &stuffing.filling else { return false };
    let articles = ground.model.colourways.keys().filter_map(|way| Some(ground.model.resolve(&filling.value, way)?.0));
    let fibre = |article: &Article| {
        let types = article.text("type").into_iter().flat_map(Value::all).filter_map(Stated::known);
        types.into_iter().any(|text| FIBRES.iter().any(|word| text.to_lowercase().contains(word)))
    };
    let mut all = articles.peekable();
    all.peek().is_some() && all.all(fibre)
}

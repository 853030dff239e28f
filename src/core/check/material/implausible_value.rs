//! Rule: a figure so far from anything usual that it is taken for a slip of unit or digit.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::property::{self, Holds};
use crate::model::{Held, Model, Stated, StitchUse, TrimLayer, Value, kind};
use crate::units::{Dimension, Quantity};
use crate::words::{Phrase, say, words};

/// A figure that cannot be meant.
pub const RULE: Rule = Rule {
    code: "implausible-value",
    family: "material",
    severity: Severity::Must,
    summary: "a figure so far from anything usual that it is taken for a slip of unit or digit",
    explanation: "Wide limits stand beside every figure: a fabric of 3 g/m2, a seam allowance of 10 cm or a negative mass \
                  is a slip of a unit or a digit. Such a slip passes every other check and is found when the fabric has \
                  been bought. The limits are far outside what is usual, so that nothing real is refused.",
    failing: "[fabric.canvas]\nmass = \"3.2 g/m2\"",
    passing: "[fabric.canvas]\nmass = \"320 g/m2\"",
    source: "common practice (limits set wide on purpose)",
};

words! {
    OF_PROPERTY "implausible-value.of-property" = "`{key}` of {what}";
    OF_ALLOWANCE "implausible-value.of-allowance" = "the allowance of piece {id}";
    OF_INSIDE "implausible-value.of-inside" = "`inside` of piece {id}";
    OF_BLOCK "implausible-value.of-block" = "the block of piece {id}";
    OF_FILLING "implausible-value.of-filling" = "the mass of stuffing {id}";
    OF_LAPS "implausible-value.of-laps" = "`laps` of {what}";
    OF_GIRTH "implausible-value.of-girth" = "the girth at {id}";
    THE_WORK "implausible-value.the-work" = "the work";
    OF_DENSITY "implausible-value.of-density" = "the stitch density of {by}";
    OF_WIDTH "implausible-value.of-width" = "the stitch width of {by}";
    OF_TARGET "implausible-value.of-target" = "the target of point of measure {id}";
    TOO_LITTLE "implausible-value.too-little" = "too little to be meant";
    TOO_MUCH "implausible-value.too-much" = "too much to be meant";
    MESSAGE "implausible-value.message" = "{what} cannot be {nominal}";
    HELP "implausible-value.help" = "write the figure that is meant, between {least} and {most}; look at the unit first";
}

const ALLOWANCE: (&str, &str) = ("0 mm", "60 mm");
const GIRTH: (&str, &str) = ("5 mm", "10 m");
const LAPS: (&str, &str) = ("0 mm", "1 m");
const DENSITY: (&str, &str) = ("0.2 st/cm", "15 st/cm");
const BIGHT: (&str, &str) = ("0.5 mm", "30 mm");
const FILLING: (&str, &str) = ("0.1 g", "100 kg");
const LENGTH: (&str, &str) = ("0.1 mm", "20 m");
const MASS: (&str, &str) = ("0.1 g", "200 kg");
const COUNT: (&str, &str) = ("0 pc", "100000 pc");
const GAP: (&str, &str) = ("0 mm", "60 mm");
const MARGIN: (&str, &str) = ("0 mm", "500 mm");
const TABLE: (&str, &str) = ("0.3 m", "100 m");
const HEIGHT: (&str, &str) = ("1 mm", "500 mm");
const SHARE: (&str, &str) = ("0 %", "50 %");
const PIECES: (&str, &str) = ("0 pc", "1000000 pc");
const EASE: (&str, &str) = ("0 %", "50 %");
const GATHER: (&str, &str) = ("10 %", "1000 %");
const NOTCH: (&str, &str) = ("0.5 mm", "30 mm");

/// Reports figures outside their limits, wherever they stand.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let model = context.model;
    for (id, article) in &model.articles {
        for spec in property::of(article.kind) {
            let (Holds::Quantity(_, Some(range)), Some(value)) = (spec.holds, article.quantity(spec.key)) else {
                continue;
            };
            let what = say!(OF_PROPERTY, key = spec.key, what = kind::named(article.kind.word(), id));
            all(value, &what, range, findings);
        }
    }
    shapes(model, findings);
    sewing(model, findings);
    measures(model, findings);
    cutting(model, findings);
    orders(model, findings);
}

/// Margins of the cutting table.
fn cutting(model: &Model, findings: &mut Findings) {
    for (id, one_cutting) in &model.cuttings {
        let all = [
            ("gap", &one_cutting.gap, GAP),
            ("edge", &one_cutting.edge, MARGIN),
            ("end", &one_cutting.end, MARGIN),
            ("table", &one_cutting.table, TABLE),
            ("height", &one_cutting.height, HEIGHT),
        ];
        for (key, stated, range) in all {
            let what = say!(OF_PROPERTY, key, what = kind::named("cutting", id));
            stated.iter().for_each(|stated| one(stated, &what, range, findings));
        }
    }
}

/// Shares of an order.
fn orders(model: &Model, findings: &mut Findings) {
    let mut hold = |key: &str, what: &Phrase, stated: &Option<Stated<Quantity>>| {
        let Some(stated) = stated else { return };
        let share = stated.known().is_none_or(|quantity| quantity.dimension() == Dimension::Percent);
        let what = say!(OF_PROPERTY, key, what);
        one(stated, &what, if share { SHARE } else { PIECES }, findings);
    };
    for (id, order) in &model.orders {
        let what = kind::named("order", id);
        hold("cut-extra", &what, &order.cut_extra);
        hold("over", &what, &order.over);
        for line in order.lines.values() {
            hold("over", &what, &line.over);
        }
    }
}

fn shapes(model: &Model, findings: &mut Findings) {
    for (id, piece) in &model.pieces {
        let what = || say!(OF_PROPERTY, key = "notch-depth", what = kind::named("piece", id));
        piece.notches.depth.iter().for_each(|depth| all(depth, &what(), NOTCH, findings));
        for cut in piece.cuts.values() {
            let edges = cut.allowance.edges.iter().map(|(_, value)| value);
            for value in cut.allowance.all.iter().chain(edges) {
                all(value, &say!(OF_ALLOWANCE, id), ALLOWANCE, findings);
            }
            if let Some(value) = &cut.inside {
                all(value, &say!(OF_INSIDE, id), ALLOWANCE, findings);
            }
            for value in cut.block.iter().flat_map(|(width, height)| [width, height]) {
                all(value, &say!(OF_BLOCK, id), LENGTH, findings);
            }
        }
    }
    for (id, stuffing) in &model.stuffings {
        if let Some(value) = &stuffing.mass {
            all(value, &say!(OF_FILLING, id), FILLING, findings);
        }
    }
}

fn sewing(model: &Model, findings: &mut Findings) {
    let laps = |layer: &TrimLayer, what: &str, findings: &mut Findings| {
        if let Some(laps) = &layer.laps {
            one(laps, &say!(OF_LAPS, what), LAPS, findings);
        }
    };
    for (id, joint) in &model.joints {
        stitch(&joint.stitch, id, findings);
        for layer in &joint.between {
            if let Held::Trim(layer) = &layer.held {
                laps(layer, id, findings);
            }
        }
        for (key, ease, range) in
            [("ease", &joint.ease, EASE), ("gather", &joint.gather, GATHER), ("stretch", &joint.stretch, GATHER)]
        {
            let what = say!(OF_PROPERTY, key, what = id);
            ease.iter().for_each(|ease| one(&ease.amount, &what, range, findings));
        }
        if let Some(girth) = &joint.girth {
            all(girth, &say!(OF_GIRTH, id), GIRTH, findings);
        }
    }
    for (id, finish) in &model.edge_finishes {
        stitch(&finish.stitch, id, findings);
        if let Some(tape) = &finish.tape {
            laps(tape, id, findings);
        }
    }
    model.topstitches.iter().for_each(|(id, one)| stitch(&one.stitch, id, findings));
    model.attaches.iter().for_each(|(id, one)| stitch(&one.stitch, id, findings));
    stitch(&model.work.stitch, THE_WORK, findings);
}

fn stitch(stitch: &StitchUse, by: impl Into<Phrase>, findings: &mut Findings) {
    // A shared stitch is reported once, whichever seam names it.
    let by = stitch.shared.as_ref().map_or_else(|| by.into(), |shared| Phrase::from(&shared.value));
    for (value, word, range) in [(&stitch.density, OF_DENSITY, DENSITY), (&stitch.width, OF_WIDTH, BIGHT)] {
        if let Some(value) = value {
            one(value, &say!(word, by = &by), range, findings);
        }
    }
}

fn measures(model: &Model, findings: &mut Findings) {
    for (id, point) in &model.measures {
        let range = |quantity: &Quantity| match quantity.dimension() {
            Dimension::Mass => MASS,
            Dimension::Length => LENGTH,
            _ => COUNT,
        };
        for stated in point.target.iter().flat_map(Value::all) {
            // Zero is meant where it is a fault that is measured, such as a gap, and its tolerance says how much may be.
            let fault = |quantity: &Quantity| quantity.si().is_zero() && quantity.tolerance.is_some();
            if let Some(quantity) = stated.known().filter(|quantity| !fault(quantity)) {
                one(stated, &say!(OF_TARGET, id), range(quantity), findings);
            }
        }
    }
}

fn all(value: &Value<Quantity>, what: &Phrase, range: (&str, &str), findings: &mut Findings) {
    value.all().for_each(|stated| one(stated, what, range, findings));
}

/// One figure against its limits.
fn one(stated: &Stated<Quantity>, what: &Phrase, (low, high): (&str, &str), findings: &mut Findings) {
    let Some(quantity) = stated.known() else { return };
    let limit = |text: &str| Quantity::parse(text, &[quantity.dimension()]);
    let (Ok(least), Ok(most)) = (limit(low), limit(high)) else { return };
    let inside = least.si() <= quantity.si() && quantity.si() <= most.si();
    if inside {
        return;
    }
    let nominal = format!("{} {}", quantity.value, quantity.unit);
    let label = if quantity.si() < least.si() { TOO_LITTLE } else { TOO_MUCH };
    findings
        .push(Finding::new(&RULE, say!(MESSAGE, what, nominal)).at(stated.span, label).help(say!(HELP, least, most)));
}

//! From what was read to figures and settled findings.

use crate::compute::{self, Computed, Drawn, Figures, Lays};
use crate::diag::{Findings, Levels};
use crate::model::{Assembly, Given, Model, Stage, Stated};
use crate::read::Loaded;
use crate::revision::release;
use crate::rules;
use crate::source::{FileId, Span, Tally, Work};

/// A specification that was checked.
#[derive(Debug)]
pub struct Checked {
    /// Outlines, instances and the sewn surface, which follow from the model alone.
    pub assembly: Assembly,
    /// Every number.
    pub figures: Figures,
    /// The lines the numbers were measured on.
    pub drawn: Drawn,
    /// What is laid of each fabric, with the lays that are kept.
    pub lays: Lays,
    /// Everything that was found, reading and computing included, with the user's severities, sorted.
    pub findings: Findings,
    /// The same for a seal: with the severities of the rules where those of the specification are lower.
    pub firm: Findings,
    levels: Levels,
    strict: bool,
}

/// Checks what was read and computes its figures, since some rules are about a computed number. `wanted` are severities
/// from the caller; they go before those of the specification.
///
/// Every order is planned: from the lays that are kept for it, or by an estimate where none are. Nothing is searched.
pub fn check(loaded: &Loaded, wanted: &Levels, strict: bool) -> Checked {
    loaded.tally.add(Work::Assemble);
    let assembly = Assembly::of(&loaded.model);
    let mut levels = loaded.levels.clone();
    levels.extend(wanted.clone());
    settled(loaded, assembly, levels, strict)
}

/// The same specification with other lays kept beside it, which change figures and what is found about them, not what is
/// sewn.
#[must_use]
pub fn relaid(loaded: &Loaded, checked: Checked) -> Checked {
    settled(loaded, checked.assembly, checked.levels, checked.strict)
}

/// What would be found if the specification were at another stage, which changes no outline and no figure.
pub fn ahead(loaded: &Loaded, checked: &Checked, stage: Stage) -> Findings {
    let mut model = loaded.model.clone();
    let revision = &mut model.revision;
    let word = stage.word().to_string();
    let nowhere = Span { file: FileId(0), start: 0, end: 0 };
    match &mut revision.stage {
        Some(stated) => stated.given = Given::Known(word),
        None => revision.stage = Some(Stated::plain(word, revision.span.unwrap_or(nowhere))),
    }
    let Checked { figures, drawn, lays, .. } = checked;
    let computed = Computed { figures: figures.clone(), drawn: drawn.clone(), lays: lays.clone() };
    found(loaded, &model, &checked.assembly, &computed).settled(&checked.levels, checked.strict)
}

fn settled(loaded: &Loaded, assembly: Assembly, levels: Levels, strict: bool) -> Checked {
    let computed = computed(&loaded.model, &assembly, &loaded.tally);
    let findings = found(loaded, &loaded.model, &assembly, &computed);
    let Computed { figures, drawn, lays } = computed;
    let firm = release::firm(findings.clone(), &levels);
    let findings = findings.settled(&levels, strict);
    Checked { assembly, figures, drawn, lays, findings, firm, levels, strict }
}

/// Every number, the cut plans of orders among them.
fn computed(model: &Model, assembly: &Assembly, tally: &Tally) -> Computed {
    tally.add(Work::Compute);
    let mut computed = compute::compute(model, assembly);
    compute::lays::plan_orders((model, assembly, &computed.drawn), &mut computed.figures);
    computed
}

/// What reading found, every check and every rule about a number; what is conceded is marked so. Not yet settled.
fn found(loaded: &Loaded, model: &Model, assembly: &Assembly, computed: &Computed) -> Findings {
    loaded.tally.add(Work::Judge);
    let mut findings = loaded.findings.clone();
    findings.append(rules::checked(loaded, model, assembly));
    findings.append(compute::findings(model, assembly, computed));
    compute::lift_conceded(model, &mut findings);
    findings.place(&loaded.sources);
    findings
}

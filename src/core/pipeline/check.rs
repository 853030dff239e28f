//! From what was read to figures and settled findings.

use crate::compute::{self, Computed, Drawn, Figures, LayTasks};
use crate::diag::{Findings, Levels};
use crate::model::{Assembly, Given, Model, Stage, Stated};
use crate::orders;
use crate::read::Loaded;
use crate::revision::release;
use crate::rules;
use crate::samples;
use crate::source::{FileId, Span, Work};

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
    pub lays: LayTasks,
    /// Everything that was found, reading and computing included, with the user's severities, sorted.
    pub findings: Findings,
    /// The same for a seal: with the severities of the rules where those of the specification are lower.
    pub firm: Findings,
    /// Everything as the rules gave it.
    raw: Findings,
    levels: Levels,
    strict: bool,
}

/// Checks what was read and computes its figures, since some rules are about a computed number. `wanted` are severities
/// from the caller; they go before those of the specification.
///
/// Of an order it computes what is wanted. Its cut plan takes longer than all the rest, so it is made only where the order is
/// asked for: see [`planned`].
pub fn check(loaded: &Loaded, wanted: &Levels, strict: bool) -> Checked {
    loaded.tally.add(Work::Assemble);
    let assembly = Assembly::of(&loaded.model);
    let mut levels = loaded.levels.clone();
    levels.extend(wanted.clone());
    computed(loaded, assembly, levels, strict)
}

/// The same specification with other lays kept beside it, which change figures and what is found about them, not what is
/// sewn.
#[must_use]
pub fn relaid(loaded: &Loaded, checked: Checked) -> Checked {
    computed(loaded, checked.assembly, checked.levels, checked.strict)
}

/// The same with one order planned, from the lays that are kept for it or by an estimate where none are, and with what only
/// its plan shows. Nothing is searched.
#[must_use]
pub fn planned(loaded: &Loaded, mut checked: Checked, order: &str) -> Checked {
    let Checked { assembly, drawn, figures, raw, .. } = &mut checked;
    let mut lock = loaded.model.lock.clone();
    orders::figures::plan_order((&loaded.model, assembly, drawn), figures, order, &mut lock, None);
    orders::rules::replaced(&loaded.model, figures, order, raw);
    raw.append(orders::figures::findings(&loaded.model, figures, order));
    checked.settle(loaded);
    checked
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
    let raw = found(loaded, &model, &checked.assembly, (figures, drawn, lays));
    lifted(loaded, &model, &raw).settled(&checked.levels, checked.strict)
}

/// Computes every number but the cut plans of orders, and asks every rule.
fn computed(loaded: &Loaded, assembly: Assembly, levels: Levels, strict: bool) -> Checked {
    loaded.tally.add(Work::Compute);
    let computed = compute::compute(&loaded.model, &assembly);
    let Computed { figures, drawn, lays } = computed;
    let raw = found(loaded, &loaded.model, &assembly, (&figures, &drawn, &lays));
    let none = Findings::default;
    let mut checked = Checked { assembly, figures, drawn, lays, findings: none(), firm: none(), raw, levels, strict };
    checked.settle(loaded);
    checked
}

/// What reading found, every check and every rule about a number.
fn found(loaded: &Loaded, model: &Model, assembly: &Assembly, computed: (&Figures, &Drawn, &LayTasks)) -> Findings {
    loaded.tally.add(Work::Judge);
    let mut findings = loaded.findings.clone();
    findings.append(rules::checked(loaded, model, assembly));
    findings.append(compute::findings(model, assembly, computed));
    if Stage::of(model) > Stage::Prototype {
        release::raise(&mut findings);
    }
    findings
}

/// The same with what is conceded marked so, and every edit at its place.
fn lifted(loaded: &Loaded, model: &Model, raw: &Findings) -> Findings {
    let mut findings = raw.clone();
    samples::rules::lift(model, &mut findings);
    findings.place(&loaded.sources);
    findings
}

impl Checked {
    /// Takes over what was found, with the severities that hold.
    fn settle(&mut self, loaded: &Loaded) {
        let findings = lifted(loaded, &loaded.model, &self.raw);
        self.firm = release::firm(findings.clone(), &self.levels);
        self.findings = findings.settled(&self.levels, self.strict);
    }
}

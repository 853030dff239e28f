//! The order of work in stages. The rule:
//!
//! - A step works on the parts that its edges belong to. One without edges works on the part that it names; what it inserts
//!   goes into what is sewn next.
//! - A stage goes on as long as its steps work on its parts. A step that works on no part goes on with it.
//! - What comes into the parts of a stage from others (a limb that is caught, an edge that is sewn on) begins another stage, if
//!   the stage has some steps and nothing came into it so far.
//! - So does what is put in before an opening is closed.
//! - What follows the last edge is the finishing.
//! - No stage is longer than a page of cards.
//!
//! `[work]` may set both numbers of steps.

use std::collections::BTreeSet;

use crate::model::assembly::{Edging, Resolved, Reverse, Side};
use crate::model::{Deed, JointKind, Model, Stated};
use crate::words::{Phrase, Word, say, words};

use super::view::View;

words! {
    NUMBERED "stages.numbered" = "Stage {number}: {what}";
    WITH "stages.with" = "{parts}, with {others}";
    CLOSING "stages.closing" = "{parts}: filling and closing";
    FINISHING "stages.finishing" = "Finishing";
}

/// Steps that a stage has at least before another part, or what fills it, begins the next, unless the user says otherwise.
const LEAST: usize = 5;
/// Steps that a stage has at most, unless the user says otherwise: about a page of cards.
const MOST: usize = 16;

/// How long stages are, in steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lengths {
    /// Steps after which what comes into a part begins the next.
    pub least: usize,
    /// Steps at most.
    pub most: usize,
}

impl Lengths {
    /// Those of a style.
    pub fn of(model: &Model) -> Self {
        let stated = |one: &Option<Stated<u32>>, usual: usize| {
            one.as_ref().and_then(Stated::known).map_or(usual, |steps| *steps as usize)
        };
        Lengths { least: stated(&model.work.stage_least, LEAST), most: stated(&model.work.stage_most, MOST) }
    }
}

/// What a step is about.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct About<'a> {
    /// The parts it works on.
    parts: BTreeSet<&'a str>,
    /// The parts it brings into them.
    brings: BTreeSet<&'a str>,
    /// Whether it is about edges.
    edges: bool,
    /// Whether it puts something in.
    puts: bool,
    /// Whether it closes an opening.
    closes: bool,
}

/// Why a stage is one.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Kind {
    /// Parts are made.
    #[default]
    Making,
    /// They are filled and closed.
    Closing,
    /// Nothing is sewn any more.
    Finishing,
}

/// Steps in a row.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Stage<'a> {
    /// Why.
    pub kind: Kind,
    /// The parts that are made.
    pub parts: BTreeSet<&'a str>,
    /// The parts that come into them.
    pub others: BTreeSet<&'a str>,
    /// Its steps by their places in the order of work.
    pub steps: Vec<usize>,
}

/// The order of work in stages; what it names and nobody declared is in none.
pub fn stages<'a>(view: &View<'a>) -> Vec<Stage<'a>> {
    let order = &view.model.work.order;
    let known: Vec<(usize, About<'a>)> =
        order.iter().enumerate().filter_map(|(n, id)| Some((n, about(view, &id.value)?))).collect();
    let (places, all): (Vec<usize>, Vec<About<'a>>) = known.into_iter().unzip();
    let mut stages = parted(all, Lengths::of(view.model));
    for stage in &mut stages {
        stage.steps = stage.steps.iter().filter_map(|n| places.get(*n).copied()).collect();
    }
    stages
}

/// Its number, and what is made.
pub fn title(view: &View<'_>, number: usize, stage: &Stage<'_>) -> Phrase {
    let named = |parts: &BTreeSet<&str>| {
        let name = |part: &&str| match view.model.parts.get(*part) {
            Some(part) => part.entry.title().to_string(),
            None => view.text(view.model.style.name.as_ref()).to_string(),
        };
        Phrase::list(parts.iter().map(name))
    };
    let of = |word: Word| say!(word, parts = named(&stage.parts));
    let what = match stage.kind {
        Kind::Finishing => FINISHING.into(),
        Kind::Closing => of(CLOSING),
        Kind::Making if stage.others.is_empty() => named(&stage.parts),
        Kind::Making => say!(WITH, parts = named(&stage.parts), others = named(&stage.others)),
    };
    say!(NUMBERED, number, what)
}

/// What a step is about, or nothing where nobody declared it.
fn about<'a>(view: &View<'a>, id: &str) -> Option<About<'a>> {
    let (model, assembly) = (view.model, view.assembly);
    if let Some(step) = model.steps.get(id) {
        let puts = matches!(step.deed, Deed::Fill | Deed::Insert);
        let part = step.part.as_ref().filter(|_| step.deed != Deed::Insert);
        let parts = part.map(|part| part.value.as_str()).into_iter().collect();
        return Some(About { parts, puts, ..About::default() });
    }
    let of = |instance: usize| assembly.instances.get(instance).map(|one| one.part.as_str());
    let sides = |side: &'a Side| side.runs.iter().filter_map(move |run| of(run.instance));
    let joint = |one: &&'a Resolved| one.joint == id && one.image == Reverse::Written;
    let edging = |one: &&'a Edging| one.id == id && one.image == Reverse::Written;
    let mut all = About { edges: true, ..About::default() };
    if let Some(written) = model.joints.get(id) {
        all.closes = written.kind == JointKind::Opening;
        for one in assembly.joints.iter().filter(joint) {
            all.parts.extend(sides(&one.a).chain(sides(&one.b)));
            all.brings.extend(one.caught().flat_map(sides));
        }
        let own: Vec<&str> = all.parts.iter().copied().collect();
        all.brings.extend(own);
        return Some(all);
    }
    let known =
        model.edge_finishes.contains_key(id) || model.topstitches.contains_key(id) || model.attaches.contains_key(id);
    for one in assembly.edgings.iter().filter(edging) {
        all.parts.extend(sides(&one.side).chain(one.line.iter().filter_map(|(at, _)| of(*at))));
        all.brings.extend(sides(&one.side));
    }
    known.then_some(all)
}

/// Steps in stages, by the rule above.
fn parted(mut all: Vec<About<'_>>, lengths: Lengths) -> Vec<Stage<'_>> {
    let last = all.iter().rposition(|one| one.edges);
    // What is inserted goes into what is sewn next.
    let mut next = BTreeSet::new();
    for one in all.iter_mut().rev() {
        if one.edges {
            next.clone_from(&one.parts);
        } else if one.puts && one.parts.is_empty() {
            one.parts.clone_from(&next);
        }
    }
    let closes = |from: usize, parts: &BTreeSet<&str>| {
        all.iter().skip(from).any(|one| one.closes && !one.parts.is_disjoint(parts))
    };
    let mut stages: Vec<Stage<'_>> = Vec::new();
    for (n, one) in all.iter().enumerate() {
        let finishing = last.is_none_or(|last| n > last);
        let puts = one.puts && !finishing && closes(n, &one.parts);
        let begins = stages.last().is_none_or(|stage| match (stage.kind, finishing) {
            (Kind::Finishing, _) => false,
            (_, true) => true,
            (kind, false) => begins(stage, kind, one, puts, lengths),
        });
        if begins {
            let kind = match (finishing, puts) {
                (true, _) => Kind::Finishing,
                (false, true) => Kind::Closing,
                (false, false) => Kind::Making,
            };
            stages.push(Stage { kind, ..Stage::default() });
        }
        let Some(stage) = stages.last_mut() else { continue };
        // What is sewn onto another part does not make the stage one of both.
        let attached = !one.brings.is_empty() && one.brings.is_subset(&one.parts) && one.brings != one.parts;
        match (attached, stage.parts.is_empty()) {
            (true, true) => stage.parts.extend(one.parts.difference(&one.brings)),
            (true, false) => {}
            (false, _) => stage.parts.extend(&one.parts),
        }
        stage.others.extend(&one.brings);
        stage.steps.push(n);
    }
    for stage in &mut stages {
        let own = stage.parts.clone();
        stage.others.retain(|part| !own.contains(part));
    }
    stages
}

/// Whether a step that is sewn or made ready begins a stage after another.
fn begins(stage: &Stage<'_>, kind: Kind, one: &About<'_>, puts: bool, lengths: Lengths) -> bool {
    let elsewhere = !one.parts.is_empty() && one.parts.is_disjoint(&stage.parts) && !stage.parts.is_empty();
    let came = |parts: &BTreeSet<&str>| !parts.is_subset(&stage.parts);
    let enough = stage.steps.len() >= lengths.least;
    let comes = came(&one.brings) && !came(&stage.others);
    elsewhere || stage.steps.len() >= lengths.most || enough && (comes || puts && kind == Kind::Making)
}

#[cfg(test)]
mod tests {
    use super::*;

    const USUAL: Lengths = Lengths { least: LEAST, most: MOST };

    fn sewn(part: &'static str) -> About<'static> {
        About { parts: [part].into(), brings: [part].into(), edges: true, ..About::default() }
    }

    fn caught(part: &'static str, other: &'static str) -> About<'static> {
        About { brings: [part, other].into(), ..sewn(part) }
    }

    fn step(part: Option<&'static str>) -> About<'static> {
        About { parts: part.into_iter().collect(), ..About::default() }
    }

    fn shape(all: Vec<About<'static>>) -> Vec<(Kind, Vec<&'static str>, Vec<&'static str>, usize)> {
        let told = |one: Stage<'static>| {
            (one.kind, one.parts.into_iter().collect(), one.others.into_iter().collect(), one.steps.len())
        };
        parted(all, USUAL).into_iter().map(told).collect()
    }

    #[test]
    fn another_part_begins_a_stage_and_what_names_none_goes_on() {
        let all = vec![step(Some("ear")), sewn("ear"), step(None), sewn("leg"), step(Some("leg")), sewn("ear")];
        let (ear, leg) = (vec!["ear"], vec!["leg"]);
        let making = |parts: &Vec<&'static str>, steps| (Kind::Making, parts.clone(), vec![], steps);
        assert_eq!(shape(all), [making(&ear, 3), making(&leg, 2), making(&ear, 1)]);
    }

    #[test]
    fn what_comes_into_a_part_begins_a_stage_once_and_what_is_short_goes_on() {
        let mut all = vec![sewn("body"); LEAST];
        all.extend([caught("body", "ear"), caught("body", "leg"), sewn("body")]);
        let with = (Kind::Making, vec!["body"], vec!["ear", "leg"], 3);
        assert_eq!(shape(all), [(Kind::Making, vec!["body"], vec![], LEAST), with]);
        let short = vec![sewn("body"), caught("body", "ear")];
        assert_eq!(shape(short), [(Kind::Making, vec!["body"], vec!["ear"], 2)]);
    }

    #[test]
    fn a_part_that_is_sewn_on_ends_its_stage() {
        let onto = About { parts: ["face", "body"].into(), brings: ["face"].into(), edges: true, ..About::default() };
        let body = |others: &[&'static str], steps| (Kind::Making, vec!["body"], others.to_vec(), steps);
        let stages = shape(vec![sewn("face"), onto.clone(), sewn("body")]);
        assert_eq!(stages, [(Kind::Making, vec!["face"], vec![], 2), body(&[], 1)]);
        assert_eq!(shape(vec![sewn("body"), onto.clone()]), [body(&["face"], 2)]);
        assert_eq!(shape(vec![onto]), [body(&["face"], 1)]);
    }

    #[test]
    fn filling_before_the_closing_begins_a_stage_and_the_rest_is_finishing() {
        let fill = About { puts: true, ..step(Some("body")) };
        let insert = About { puts: true, ..step(None) };
        let mouth = About { closes: true, ..sewn("body") };
        let mut all = vec![sewn("body"); LEAST];
        all.extend([fill.clone(), insert, mouth, step(None), step(Some("ear"))]);
        let body = || vec!["body"];
        let wanted = [
            (Kind::Making, body(), vec![], LEAST),
            (Kind::Closing, body(), vec![], 3),
            (Kind::Finishing, vec!["ear"], vec![], 2),
        ];
        assert_eq!(shape(all), wanted);
        // Nothing is closed after it.
        let mut open = vec![sewn("body"); LEAST];
        open.extend([fill, sewn("body")]);
        assert_eq!(shape(open), [(Kind::Making, body(), vec![], LEAST + 2)]);
    }

    /// Every step is in one stage, in order, and none is longer than it may be but the finishing.
    #[test]
    fn no_stage_is_too_long_and_no_step_is_lost() {
        let mut all = vec![sewn("body"); 3 * MOST + 1];
        all.push(step(None));
        let count = all.len();
        let stages = parted(all, USUAL);
        let steps: Vec<usize> = stages.iter().flat_map(|stage| stage.steps.clone()).collect();
        assert_eq!(steps, (0..count).collect::<Vec<_>>());
        assert_eq!(stages.iter().map(|stage| stage.steps.len()).collect::<Vec<_>>(), [MOST, MOST, MOST, 1, 1]);
    }

    #[test]
    fn a_style_may_set_how_long_stages_are() {
        let all = vec![sewn("body"), sewn("body"), caught("body", "ear"), sewn("body"), sewn("body")];
        let steps = |least, most| {
            let stages = parted(all.clone(), Lengths { least, most });
            stages.iter().map(|stage| stage.steps.len()).collect::<Vec<_>>()
        };
        assert_eq!(steps(LEAST, MOST), [5]);
        assert_eq!(steps(2, MOST), [2, 3]);
        assert_eq!(steps(2, 2), [2, 2, 1]);
    }

    #[test]
    fn without_edges_all_is_finishing() {
        assert_eq!(shape(vec![step(Some("body")), step(None)]), [(Kind::Finishing, vec!["body"], vec![], 2)]);
        assert_eq!(shape(Vec::new()), []);
    }
}

//! How steps are stitched: what most of a stage has, and what a step has otherwise.

use crate::model::StitchUse;
use crate::words::number::quantity;
use crate::words::{Phrase, Word, head, say, words};

use super::package::Fact;
use super::view::View;

words! {
    WIDTH "step.width" = "{width} wide";
    NOT_STATED "stitched.not-stated" = "not stated";
    NO_ALLOWANCE "stitched.no-allowance" = "none";
}

/// What is said of a stitch, in order. The allowance is said of seams alone.
const LABELS: [Word; 5] = [head::STITCH, head::DENSITY, head::NEEDLE, head::THREAD, head::ALLOWANCE];
/// How many of them make the stitch.
const STITCH: usize = 4;

/// How a step is stitched.
#[derive(Debug, Clone, Default, PartialEq)]
pub enum Stitched {
    /// Nothing is sewn.
    #[default]
    Nothing,
    /// What is stated of the stitch, in the order of [`LABELS`], and of a seam its allowance, which may be none.
    With([Phrase; STITCH], Option<Phrase>),
}

impl Stitched {
    /// What a step uses.
    pub fn of(view: &View<'_>, own: &StitchUse, allowance: Option<Phrase>) -> Self {
        let used = view.stitch(own);
        let kind = used.kind.as_ref().map(|kind| Phrase::from(&kind.value));
        let width = used.width.as_ref().and_then(|one| one.known());
        let stitch = Phrase::list(kind.into_iter().chain(width.map(|width| say!(WIDTH, width = quantity(width)))));
        let density = used.density.as_ref().and_then(|one| one.known());
        let density = density.map_or_else(Phrase::none, |one| quantity(one).into());
        let thread = used.thread.as_ref().map_or_else(Phrase::none, |thread| view.material(&thread.value).into());
        Stitched::With([stitch, density, view.text(used.needle.as_ref()).into(), thread], allowance)
    }
}

/// What most steps of a stage that stitch have; of what is as frequent, what a seam has, and then the first. Empty where nothing
/// is stitched.
pub fn common(all: &[Stitched]) -> Vec<Fact> {
    let stitch = |one: &Stitched| if let Stitched::With(stitch, _) = one { Some(stitch.clone()) } else { None };
    let wide = |one: &Stitched| if let Stitched::With(_, wide) = one { wide.clone() } else { None };
    let seams = all.iter().filter(|one| wide(one).is_some());
    let others = all.iter().filter(|one| wide(one).is_none());
    let stitches: Vec<_> = seams.chain(others).filter_map(stitch).collect();
    let Some(stitch) = most(&stitches) else { return Vec::new() };
    let wide: Vec<Phrase> = all.iter().filter_map(wide).filter(|wide| !wide.is_empty()).collect();
    let facts = LABELS.into_iter().zip(stitch.iter().chain(most(&wide)));
    facts.filter(|(_, value)| !value.is_empty()).map(|(label, value)| Fact::of(label, value.clone())).collect()
}

/// What a step has otherwise than most of its stage.
pub fn differs(same: &[Fact], one: &Stitched) -> Vec<Fact> {
    let usual = |label: Word| {
        let of = |fact: &&Fact| fact.label == Phrase::from(label);
        same.iter().find(of).map_or_else(Phrase::none, |fact| fact.value.phrase())
    };
    let Stitched::With(stitch, wide) = one else { return Vec::new() };
    let other = LABELS.into_iter().zip(stitch.iter().chain(wide)).filter(|(label, value)| usual(*label) != **value);
    let said = |(label, value): (Word, &Phrase)| {
        let none = if label == head::ALLOWANCE { NO_ALLOWANCE } else { NOT_STATED };
        Fact::of(label, if value.is_empty() { none.into() } else { value.clone() })
    };
    other.map(said).collect()
}

/// What is there most often, and of what is as frequent the first.
fn most<T: PartialEq>(all: &[T]) -> Option<&T> {
    let times = |one: &T| all.iter().filter(|other| *other == one).count();
    all.iter().reduce(|best, one| if times(one) > times(best) { one } else { best })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with<'a>(stitch: &str, density: &str, wide: impl Into<Option<&'a str>>) -> Stitched {
        let stitch = [stitch.into(), density.into(), Phrase::none(), "thread".into()];
        Stitched::With(stitch, wide.into().map(Phrase::from))
    }

    fn told(facts: &[Fact]) -> Vec<(String, String)> {
        facts.iter().map(|fact| (fact.label.english(), fact.value.phrase().english())).collect()
    }

    #[test]
    fn the_stage_says_what_is_most_frequent_and_a_step_what_differs() {
        let all = [
            with("304", "9", None),
            with("301", "4", ""),
            with("301", "4", "8"),
            Stitched::Nothing,
            with("301", "4", "6"),
            with("301", "", "6"),
        ];
        let same = common(&all);
        let pair = |label: Word, value: &str| (label.en.to_string(), value.to_string());
        let (stitch, density, wide) = (head::STITCH, head::DENSITY, head::ALLOWANCE);
        assert_eq!(
            told(&same),
            [pair(stitch, "301"), pair(density, "4"), pair(head::THREAD, "thread"), pair(wide, "6")]
        );
        let told: Vec<_> = all.iter().map(|one| told(&differs(&same, one))).collect();
        assert_eq!(told[0], [pair(stitch, "304"), pair(density, "9")]);
        assert_eq!(told[1], [pair(wide, NO_ALLOWANCE.en)], "a fold has no allowance");
        assert_eq!(told[2], [pair(wide, "8")]);
        assert_eq!([told[3].len(), told[4].len()], [0, 0]);
        assert_eq!(told[5], [pair(density, NOT_STATED.en)], "a thing that the stage states does not hold for it");
    }

    #[test]
    fn the_stitch_of_most_steps_is_that_of_the_stage_and_a_seam_decides_between_two() {
        let all = [with("504", "4", None), with("504", "4", None), with("301", "4", "6"), with("301", "4", "6")];
        assert_eq!(told(&common(&all))[0].1, "301");
        assert_eq!(told(&common(&all[..3]))[0].1, "504");
        assert_eq!(told(&common(&all[..2]))[0].1, "504");
    }

    #[test]
    fn what_states_no_stitch_does_not_have_that_of_the_stage() {
        let same = common(&[with("301", "4", None)]);
        assert_eq!(differs(&same, &Stitched::Nothing), []);
        assert_eq!(common(&[Stitched::Nothing]), []);
    }
}

//! Rule: what a step does is written so that it counts for nothing.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::{Deed, Step};
use crate::source::{Edit, Help, nearest};
use crate::words::{say, words};

/// A step whose word is nearly one that is understood.
pub const RULE: Rule = Rule {
    code: "step-misspelt",
    family: "sewing",
    severity: Severity::Should,
    summary: "what a step does is written so that it counts for nothing",
    explanation: "`turn`, `fill`, `insert` and `detect` are understood: rules follow them through the order of work. Any other \
                  word is taken as your own and printed as it is, so that a misspelt one, or another word for the same, leaves \
                  a part that is never turned, or never filled.",
    failing: "[step.turn]\ndo = \"trun\"",
    passing: "[step.turn]\ndo = \"turn\"",
    source: "follows from the terms",
};

words! {
    MESSAGE "step-misspelt.message" = "step {id} does \"{word}\", which is taken as a word of your own";
    HERE "step-misspelt.here" = "`{near}`?";
    HELP "step-misspelt.help" = "write do = \"{near}\", and what else there is to say in `note`";
}

/// Other words for what is understood, whole and in lower case (common practice).
const SAME: [(&str, &str); 9] = [
    ("stuff", "fill"),
    ("filling", "fill"),
    ("turning", "turn"),
    ("turn out", "turn"),
    ("turn over", "turn"),
    ("turn inside out", "turn"),
    ("turn right side out", "turn"),
    ("put in", "insert"),
    ("detector", "detect"),
];

/// Reports each such step.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, step) in &context.model.steps {
        let Some(word) = &step.word else { continue };
        let Some(near) = meant(&word.value) else { continue };
        let finding = Finding::new(&RULE, say!(MESSAGE, id, word = &word.value)).at(word.span, say!(HERE, near));
        let edit = Edit::respell(word.span, &word.value, near, Deed::WORDS);
        findings.push(finding.help(Help::with(say!(HELP, near), edit)));
    }
}

/// Whether a step does what this word says, also where it is misspelt: one slip is one finding.
pub fn does(step: &Step, wanted: &str) -> bool {
    let word = step.word.as_ref().map_or("", |word| word.value.as_str());
    word == wanted || meant(word) == Some(wanted)
}

/// The word that is understood, where another one is written for it.
fn meant(word: &str) -> Option<&'static str> {
    if Deed::WORDS.contains(&word) {
        return None;
    }
    let lower = word.to_lowercase();
    let same = SAME.iter().find(|(other, _)| *other == lower).map(|(_, near)| *near);
    // Two letters off in a short word is another word: `fold` is no `fill`.
    let close = |near: &&str| strsim::damerau_levenshtein(&lower, near) <= 1;
    same.or_else(|| nearest(&lower, Deed::WORDS).filter(close))
}

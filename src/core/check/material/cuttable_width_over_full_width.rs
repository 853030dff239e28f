//! Rule: the cuttable width of a fabric is larger than its full width.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// More can be cut than there is.
pub const RULE: Rule = Rule {
    code: "cuttable-width-over-full-width",
    family: "material",
    severity: Severity::Must,
    summary: "the cuttable width of a fabric is larger than its full width",
    explanation: "The cuttable width is what is left of the full width without selvedges and pin holes. If it is larger, \
                  the two were exchanged or one has a slip of unit, and every estimate of the fabric needed is too low.",
    failing: "[fabric.canvas]\nwidth = \"1450 mm\"\ncuttable-width = \"1500 mm\"",
    passing: "[fabric.canvas]\nwidth = \"1500 mm\"\ncuttable-width = \"1450 mm\"",
    source: "follows from the two terms",
};

words! {
    MESSAGE "cuttable-width-over-full-width.message" = "fabric {id} is {all} wide, and {part} of that is called usable";
    MORE "cuttable-width-over-full-width.more" = "more than there is";
    FULL_WIDTH "cuttable-width-over-full-width.full-width" = "the full width";
    HELP "cuttable-width-over-full-width.help" = "exchange the two, or put the wrong one right";
}

/// Reports each fabric and product for which the cuttable width is above the full width.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for (id, article) in &context.model.articles {
        let (Some(full), Some(usable)) = (article.quantity("width"), article.quantity("cuttable-width")) else {
            continue;
        };
        for variant in context.model.variants() {
            let (Some(full), Some(usable)) = (full.of(variant), usable.of(variant)) else { continue };
            let (Some(all), Some(part)) = (full.known(), usable.known()) else { continue };
            if part.si() > all.si() {
                let message = say!(MESSAGE, id, all, part);
                findings.push(Finding::new(&RULE, message).at(usable.span, MORE).at(full.span, FULL_WIDTH).help(HELP));
            }
        }
    }
}

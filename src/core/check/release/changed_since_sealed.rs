//! Rule: what is written is not what was sealed under the same name.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{Phrase, say, words};

/// Two contents under one name.
pub const RULE: Rule = Rule {
    code: "changed-since-sealed",
    family: "release",
    severity: Severity::Must,
    summary: "what is written is not what was sealed under the same name",
    explanation: "A revision is cited by its name: in orders, on samples, in letters. If the files say something else than the \
                  sealed revision of that name, a package built from them looks like the one the factory has and is another. \
                  Give what comes next the next name. Comments in the files, kept lays, orders and samples do not count.",
    failing: "[revision]\nid = \"B\"  # B was sealed, and a seam was changed since",
    passing: "[revision]\nid = \"C\"  # B was sealed, and a seam was changed since",
    source: "follows from what was sealed",
};

words! {
    MESSAGE "changed-since-sealed.message" = "revision {id} was sealed on {date}, and what is written now differs from it in {files}";
    HERE "changed-since-sealed.here" = "this name is used";
    HELP "changed-since-sealed.help" = "give it the next name under [revision], with its date: id = \"..\"; or take the changes back (`backtack compare revisions/{id}.sealed .` shows them, from the folder of the style)";
    MORE "changed-since-sealed.more" = "{count} files";
}

/// Files that a message names at most.
const NAMED: usize = 3;

/// Reports the revision once.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let Some(stated) = &context.model.revision.id else { return };
    let same = context.model.issued.as_ref().and_then(|issued| issued.same.as_ref());
    let Some(same) = same.filter(|same| !same.changed.is_empty()) else { return };
    let Some(id) = stated.known() else { return };
    let files: Phrase = match same.changed.len() {
        0..=NAMED => Phrase::and(&same.changed),
        count => say!(MORE, count),
    };
    let message = say!(MESSAGE, id, date = &same.date, files);
    findings.push(Finding::new(&RULE, message).at(stated.span, HERE).help(say!(HELP, id)));
}

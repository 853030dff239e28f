//! Rule: the sealed file of a revision is gone, or cannot be read.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

/// A package without what it was sealed in.
pub const RULE: Rule = Rule {
    code: "sealed-file-missing",
    family: "release",
    severity: Severity::Must,
    summary: "the sealed file of a revision is gone, or cannot be read",
    explanation: "`seal` writes two files: NAME.pdf for the factory and NAME.sealed, which holds your own files and binds the \
                  revision to all before it. Without the second nobody can show what the first was made from, and no later \
                  revision can be proved to follow it.",
    failing: "# revisions/A.pdf is there, revisions/A.sealed is not\n[revision]\nid = \"B\"",
    passing: "# revisions/A.pdf and revisions/A.sealed are there\n[revision]\nid = \"B\"\nstage = \"prototype\"",
    source: "follows from how revisions are sealed",
};

words! {
    MESSAGE "sealed-file-missing.message" = "revisions/{name}.pdf is there, and revisions/{name}.sealed is not";
    BROKEN "sealed-file-missing.broken" = "revisions/{name}.sealed cannot be read: {why}";
    HELP "sealed-file-missing.help" = "restore it from your backup; if {name} was never sent to anybody, take the PDF away too";
    RESTORE "sealed-file-missing.restore" = "restore it from your backup";
    HERE "sealed-file-missing.here" = "this revision";
}

/// Reports each PDF without its sealed file, and a sealed file of this revision that cannot be read.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let Some(issued) = &context.model.issued else { return };
    for name in &issued.lost {
        findings.push(Finding::new(&RULE, say!(MESSAGE, name)).help(say!(HELP, name)));
    }
    let broken = issued.same.as_ref().and_then(|same| same.broken.as_ref());
    let revision = &context.model.revision.id;
    if let (Some(why), Some(stated)) = (broken, revision)
        && let Some(name) = stated.known()
    {
        findings.push(Finding::new(&RULE, say!(BROKEN, name, why)).at(stated.span, HERE).help(RESTORE));
    }
}

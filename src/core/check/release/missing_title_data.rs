//! Rule: a field that every title block must have is not given.

use crate::check::{Context, Stage};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::Span;
use crate::words::{Phrase, Word, say, words};

/// A title block with an empty field.
pub const RULE: Rule = Rule {
    code: "missing-title-data",
    family: "release",
    severity: Severity::Must,
    summary: "a field that every title block must have is not given",
    explanation: "The title block at the foot of every sheet says whose specification it is, of what, and which revision \
                  of it. With two printouts on the table, it decides which one holds. From pre-production on, the person \
                  who approved the revision belongs to it.",
    failing: "[style]\nid = \"BN-01\"\nname = \"Bean puffin\"\n[revision]\nid = \"A\"",
    passing: "[style]\nid = \"BN-01\"\nname = \"Bean puffin\"\nowner = \"works\"\n[party.works]\nname = \"Example Works\"\n[revision]\nid = \"A\"\n\
              date = \"2026-11-20\"\nstage = \"prototype\"\nby = \"J. Example\"",
    source: "ISO 7200 (data fields in title blocks; mandatory fields from memory)",
};

words! {
    STYLE_NUMBER "missing-title-data.style-number" = "its style number";
    TITLE "missing-title-data.title" = "its title";
    LEGAL_OWNER "missing-title-data.legal-owner" = "its legal owner";
    OWNER_ID "missing-title-data.owner-id" = "works";
    OWNER_TABLE "missing-title-data.owner-table" = "and who that is, as a table of its own:\n[party.works]\nname = \"the name of your company\"";
    REVISION "missing-title-data.revision" = "its revision";
    DATE "missing-title-data.date" = "its date of issue";
    STAGE "missing-title-data.stage" = "the stage it is at";
    WHO_MADE "missing-title-data.who-made" = "who made it";
    YOUR_NAME "missing-title-data.your-name" = "your name";
    WHO_APPROVED "missing-title-data.who-approved" = "who approved it";
    WHO_ANSWERS "missing-title-data.who-answers" = "the name of who answers for it";
    PRODUCT "missing-title-data.product" = "Bean puffin";
    MESSAGE "missing-title-data.message" = "the specification does not say {what}";
    HERE "missing-title-data.here" = "no `{key}`";
    HELP "missing-title-data.help" = "add under [{table}]: {key} = \"{example}\"";
}

/// One field: its key, whether it is given, what it is, and an example.
type Field = (&'static str, bool, Word, Phrase);

/// Reports each field that is not given.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let (style, revision) = (&context.model.style, &context.model.revision);
    let head = [
        ("id", style.id.is_some(), STYLE_NUMBER, "BN-01".into()),
        ("name", style.name.is_some(), TITLE, PRODUCT.into()),
        ("owner", style.owner.is_some(), LEGAL_OWNER, OWNER_ID.into()),
    ];
    fields(context, "style", style.span, &head, findings);
    let approval = Stage::of(context.model) < Stage::PreProduction || revision.approved.is_some();
    let issue = [
        ("id", revision.id.is_some(), REVISION, "A".into()),
        ("date", revision.date.is_some(), DATE, "2026-11-20".into()),
        ("stage", revision.stage.is_some(), STAGE, "prototype".into()),
        ("by", revision.by.is_some(), WHO_MADE, YOUR_NAME.into()),
        ("approved", approval, WHO_APPROVED, WHO_ANSWERS.into()),
    ];
    fields(context, "revision", revision.span, &issue, findings);
}

fn fields(context: &Context<'_>, table: &str, span: Option<Span>, all: &[Field], findings: &mut Findings) {
    let missing = all.iter().filter(|(key, given, ..)| !given && !context.model.was_refused(table, table, key));
    for (key, _, what, example) in missing {
        let finding = Finding::new(&RULE, say!(MESSAGE, what));
        let finding = match span {
            Some(span) => finding.at(span, say!(HERE, key)),
            None => finding,
        };
        let finding = finding.help(say!(HELP, table, key, example));
        let finding = if *key == "owner" { finding.help(OWNER_TABLE) } else { finding };
        findings.push(finding);
    }
}

//! Rule: a field that every title block must have is not given.

use crate::check::{Context, Stage};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::Span;

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

/// One field: its key, whether it is given, what it is, and an example.
type Field = (&'static str, bool, &'static str, &'static str);

/// Reports each field that is not given.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    let (style, revision) = (&context.model.style, &context.model.revision);
    let head = [
        ("id", style.id.is_some(), "its style number", "BN-01"),
        ("name", style.name.is_some(), "its title", "Bean puffin"),
        ("owner", style.owner.is_some(), "its legal owner", "works"),
    ];
    fields(context, "style", style.span, &head, findings);
    let approval = Stage::of(context.model) < Stage::PreProduction || revision.approved.is_some();
    let issue = [
        ("id", revision.id.is_some(), "its revision", "A"),
        ("date", revision.date.is_some(), "its date of issue", "2026-11-20"),
        ("stage", revision.stage.is_some(), "the stage it is at", "prototype"),
        ("by", revision.by.is_some(), "who made it", "your name"),
        ("approved", approval, "who approved it", "the name of who answers for it"),
    ];
    fields(context, "revision", revision.span, &issue, findings);
}

fn fields(context: &Context<'_>, table: &str, span: Option<Span>, all: &[Field], findings: &mut Findings) {
    let missing = all.iter().filter(|(key, given, ..)| !given && !context.model.was_refused(table, table, key));
    for (key, _, what, example) in missing {
        let finding = Finding::new(&RULE, format!("the specification does not say {what}"));
        let finding = match span {
            Some(span) => finding.at(span, format!("no `{key}`")),
            None => finding,
        };
        let finding = finding.help(format!("add under [{table}]: {key} = \"{example}\""));
        let finding = match *key {
            "owner" => finding
                .help("and who that is, as a table of its own:\n[party.works]\nname = \"the name of your company\""),
            _ => finding,
        };
        findings.push(finding);
    }
}

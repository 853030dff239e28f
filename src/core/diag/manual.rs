//! The page of all rules, as Markdown, family by family.

use std::fmt::Write as _;

use super::Rule;

/// The families in the order of the rules, each with its rules.
pub fn families<'a>(rules: &[&'a Rule]) -> Vec<(&'static str, Vec<&'a Rule>)> {
    let mut families: Vec<(&'static str, Vec<&'a Rule>)> = Vec::new();
    for rule in rules {
        match families.iter_mut().find(|(family, _)| *family == rule.family) {
            Some((_, list)) => list.push(rule),
            None => families.push((rule.family, vec![rule])),
        }
    }
    families
}

/// What stands before the rules on the page.
const HEAD: &str = "\
# Findings: every rule

`backtack explain --findings` prints this page, and `backtack explain CODE` one rule of it. A `must` makes a specification
not ready to release, a `should` is what a factory would ask, a `note` is worth a look. `[severity]` changes that for one style:
see [Findings and severities](checking.md).
";

/// Every rule as a Markdown page.
pub fn markdown(rules: &[&Rule]) -> String {
    let mut page = HEAD.to_string();
    for (family, rules) in families(rules) {
        let _ = write!(page, "\n## {family}\n");
        rules.iter().for_each(|rule| page.push_str(&section(rule)));
    }
    page
}

fn section(rule: &Rule) -> String {
    format!(
        "\n### {}\n\n**{}**: {}.\n\n{}\n\nFails:\n\n```toml\n{}\n```\n\nPasses:\n\n```toml\n{}\n```\n\nSource: {}\n",
        rule.code,
        rule.severity.word(),
        rule.summary,
        rule.explanation,
        rule.failing.trim_matches('\n'),
        rule.passing.trim_matches('\n'),
        rule.source,
    )
}

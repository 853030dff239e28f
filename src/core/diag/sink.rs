//! Collects findings and gives them the severities that the user set.

use std::collections::BTreeMap;

use super::{Finding, Severity};
use crate::source::Sources;

/// Severities the user has set, by rule code; `None` silences a rule.
pub type Levels = BTreeMap<String, Option<Severity>>;

/// Everything found so far.
#[derive(Debug, Clone, Default)]
pub struct Findings {
    list: Vec<Finding>,
}

impl Findings {
    /// Takes one finding in.
    pub fn push(&mut self, finding: Finding) {
        self.list.push(finding);
    }

    /// Takes several in.
    pub fn extend(&mut self, findings: impl IntoIterator<Item = Finding>) {
        self.list.extend(findings);
    }

    /// Takes all of `other` in.
    pub fn append(&mut self, other: Findings) {
        self.list.extend(other.list);
    }

    /// Keeps those that are wanted.
    pub fn retain(&mut self, wanted: impl Fn(&Finding) -> bool) {
        self.list.retain(wanted);
    }

    /// The findings in their present order.
    pub fn iter(&self) -> std::slice::Iter<'_, Finding> {
        self.list.iter()
    }

    /// Whether nothing was found.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The same, to change them.
    pub fn iter_mut(&mut self) -> std::slice::IterMut<'_, Finding> {
        self.list.iter_mut()
    }

    /// How many findings of this severity stand; those that somebody concedes do not count.
    pub fn count(&self, severity: Severity) -> usize {
        self.list.iter().filter(|finding| finding.severity == severity && finding.concession.is_none()).count()
    }

    /// Gives every edit the exact bytes it replaces, now that the text is at hand; one whose text is written otherwise than
    /// it expects stays help in words.
    pub fn place(&mut self, sources: &Sources) {
        for help in self.list.iter_mut().flat_map(|finding| &mut finding.help) {
            help.edit = help.edit.as_ref().and_then(|edit| edit.placed(sources));
        }
    }

    /// How many findings are conceded.
    pub fn conceded(&self) -> usize {
        self.list.iter().filter(|finding| finding.concession.is_some()).count()
    }

    /// Applies the user's severities (`strict` turns every `should` into a `must`), sorts by severity, place and code,
    /// and removes repeats.
    #[must_use]
    pub fn settled(mut self, levels: &Levels, strict: bool) -> Findings {
        self.list.retain_mut(|finding| match levels.get(finding.rule.code) {
            Some(None) => false,
            Some(Some(severity)) => {
                finding.severity = *severity;
                true
            }
            None => true,
        });
        for finding in &mut self.list {
            if strict && finding.severity == Severity::Should {
                finding.severity = Severity::Must;
            }
        }
        self.list.sort_by_cached_key(order);
        self.list.dedup();
        self
    }
}

fn order(finding: &Finding) -> (Severity, Option<crate::source::Span>, &'static str, String) {
    (finding.severity, finding.places.first().map(|label| label.span), finding.rule.code, finding.message.english())
}

//! What a rule is: its code, its explanation, its severity.

use serde::Serialize;

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The package must not be released while it stands.
    Must,
    /// A factory would ask; the answer belongs in the specification.
    Should,
    /// Worth a look.
    Note,
}

impl Severity {
    /// The word people write and read.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Must => "must",
            Severity::Should => "should",
            Severity::Note => "note",
        }
    }
}

/// One thing that is checked. Declared once, in the file that checks it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rule {
    /// Stable code: names the defect, in words with hyphens, like the file that holds it.
    pub code: &'static str,
    /// Family: the folder the rule lives in.
    pub family: &'static str,
    /// Severity unless the user says otherwise.
    pub severity: Severity,
    /// One line: what is wrong.
    pub summary: &'static str,
    /// Why a factory would ask, in a few sentences.
    pub explanation: &'static str,
    /// The shortest specification text that fails.
    pub failing: &'static str,
    /// The same text put right.
    pub passing: &'static str,
    /// What the rule follows: a standard and its clause, or `common practice`.
    pub source: &'static str,
}

//! What a finding is: its message, its places, its help, and whether a concession covers it.

use super::{Rule, Severity};
use crate::source::{Help, Span};
use crate::words::{Phrase, words};

words! {
    AT_STAGE "finding.at-stage" = "at this stage";
}

/// A place in the user's text and what to say about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// The underlined place.
    pub span: Span,
    /// The words beside the underline; may be empty.
    pub text: Phrase,
}

/// What a careful factory would come back and ask.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule that was broken.
    pub rule: &'static Rule,
    /// Severity after the user's overrides.
    pub severity: Severity,
    /// One sentence that names the thing in the user's words.
    pub message: Phrase,
    /// Places, the one to change first; empty if the finding is about the whole folder.
    pub places: Vec<Label>,
    /// What to write instead, ready to copy.
    pub help: Vec<Help>,
    /// Who takes it on himself that it stands, if somebody does: it is then in nobody's way.
    pub concession: Option<Conceded>,
}

/// A finding that may stand: which concession says so, and in whose words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conceded {
    /// Id of the concession.
    pub id: String,
    /// Who concedes, why and for what, in one line.
    pub text: Phrase,
}

impl Finding {
    /// A finding of `rule` with its default severity.
    pub fn new(rule: &'static Rule, message: impl Into<Phrase>) -> Self {
        Finding {
            rule,
            severity: rule.severity,
            message: message.into(),
            places: Vec::new(),
            help: Vec::new(),
            concession: None,
        }
    }

    /// Adds a place; the first one added is the place to change.
    #[must_use]
    pub fn at(mut self, span: Span, text: impl Into<Phrase>) -> Self {
        self.places.push(Label { span, text: text.into() });
        self
    }

    /// The same as a `must`, which it is since the stage that is stated there.
    #[must_use]
    pub fn pressing(mut self, stage: Option<Span>) -> Self {
        self.severity = Severity::Must;
        stage.into_iter().fold(self, |finding, stage| finding.at(stage, AT_STAGE))
    }

    /// Adds what to write instead, in words or as an edit.
    #[must_use]
    pub fn help(mut self, help: impl Into<Help>) -> Self {
        self.help.push(help.into());
        self
    }
}

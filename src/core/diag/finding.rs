use super::{Rule, Severity};
use crate::source::Span;

/// A place in the user's text and what to say about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// The underlined place.
    pub span: Span,
    /// The words beside the underline; may be empty.
    pub text: String,
}

/// What a careful factory would come back and ask.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// The rule that was broken.
    pub rule: &'static Rule,
    /// Severity after the user's overrides.
    pub severity: Severity,
    /// One sentence that names the thing in the user's words.
    pub message: String,
    /// Places, the one to change first; empty if the finding is about the whole folder.
    pub places: Vec<Label>,
    /// What to write instead, ready to copy.
    pub help: Vec<String>,
    /// Who takes it on himself that it stands, if somebody does: it is then in nobody's way.
    pub concession: Option<Conceded>,
}

/// A finding that may stand: which concession says so, and in whose words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conceded {
    /// Id of the concession.
    pub id: String,
    /// Who concedes, why and for what, in one line.
    pub text: String,
}

impl Finding {
    /// A finding of `rule` with its default severity.
    pub fn new(rule: &'static Rule, message: impl Into<String>) -> Self {
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
    pub fn at(mut self, span: Span, text: impl Into<String>) -> Self {
        self.places.push(Label { span, text: text.into() });
        self
    }

    /// The same as a `must`, which it is since the stage that is stated there.
    #[must_use]
    pub fn pressing(mut self, stage: Option<Span>) -> Self {
        self.severity = Severity::Must;
        stage.into_iter().fold(self, |finding, stage| finding.at(stage, "at this stage"))
    }

    /// Adds a line that says what to write instead.
    #[must_use]
    pub fn help(mut self, text: impl Into<String>) -> Self {
        self.help.push(text.into());
        self
    }
}

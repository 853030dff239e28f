//! What samples say in numbers: each reading against its limits, colours, grades; and the ledgers of comments, approvals
//! and concessions as sheets print them.

mod colours;
mod judge;
mod ledgers;
mod sample;
mod slips;

pub use colours::{ColourLine, ColourRead};
pub use judge::{ReadFigure, ReadLine, Verdict};
pub(crate) use ledgers::is_past;
pub use ledgers::{ApprovalLine, CheckPoint, CommentLine, ConcessionLine, SealedLine, Standing, SubmissionLine};
pub use sample::{GradeLine, LookedLine, SampleResult, Tally};

use std::collections::BTreeMap;

use serde::Serialize;

use crate::compute::{ByVariant, Filling, Mass};
use crate::model::Model;

/// Everything of samples.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SampleFigures {
    /// Samples by id.
    pub samples: BTreeMap<String, SampleResult>,
    /// Every comment: those that must change first, then by id.
    pub comments: Vec<CommentLine>,
    /// Every approval by id.
    pub approvals: Vec<ApprovalLine>,
    /// What is put right in bulk and looked at inline.
    pub checklist: Vec<CheckPoint>,
    /// Every concession by id.
    pub concessions: Vec<ConcessionLine>,
}

impl SampleFigures {
    /// Whether nothing is known of samples.
    pub fn is_empty(&self) -> bool {
        self.samples.is_empty() && self.comments.is_empty() && self.approvals.is_empty() && self.concessions.is_empty()
    }

    /// Every sample that was made to a sealed revision judged as that revision judges it.
    pub fn judge_by(&mut self, revision: &str, then: &SampleFigures) {
        for (id, sample) in &mut self.samples {
            if sample.of.as_deref() == Some(revision)
                && let Some(then) = then.samples.get(id)
            {
                sample.judge_by(revision, then);
            }
        }
    }

    /// The same without what only the own edition shows.
    #[must_use]
    pub fn for_everyone(&self) -> SampleFigures {
        let mut shown = self.clone();
        shown.samples.retain(|_, sample| !sample.own);
        shown.comments.retain(|comment| !comment.own);
        shown.approvals.retain(|approval| !approval.own);
        shown.checklist.retain(|point| !point.own);
        shown
    }
}

/// Everything of samples, from the specification and the masses that follow from it. What a specification withholds, nothing
/// is held against.
pub fn samples(model: &Model, mass: &ByVariant<Mass>, filling: &ByVariant<Filling>) -> SampleFigures {
    SampleFigures {
        samples: sample::samples(model, mass, filling),
        comments: ledgers::comments(model),
        approvals: ledgers::approvals(model),
        checklist: ledgers::checklist(model),
        concessions: ledgers::concessions(model),
    }
}

//! Comments, approvals, submissions, sealed samples, and the checklist for bulk.

use serde::Serialize;

use crate::model::{Action, Approval, Comment, CommentState, Judgement, Model, Stated, Submission};
use crate::source::Spanned;
use crate::units::Date;

use super::colours;
use super::colours::ColourLine;

/// One comment.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CommentLine {
    /// Its id.
    pub comment: String,
    /// What it is called, where it has a name.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// What it is about, as written.
    pub about: Option<String>,
    /// must change, should change or note.
    pub action: &'static str,
    /// open, answered, agreed, correct in bulk or dropped.
    pub state: &'static str,
    /// What is to be changed.
    pub text: Option<String>,
    /// Who says so.
    pub by: Option<String>,
    /// When.
    pub date: Option<Date>,
    /// The sample it was seen on.
    pub sample: Option<String>,
    /// A picture of it, by its path.
    pub picture: Option<String>,
    /// What was answered.
    pub answer: Option<String>,
    /// The revision that answers it.
    pub answered_in: Option<String>,
    /// Why it was dropped.
    pub reason: Option<String>,
    /// Whether only the own edition shows it.
    pub own: bool,
}

impl CommentLine {
    /// Whether it is in the way of bulk: it must change, and nobody has answered.
    pub fn stops(&self) -> bool {
        self.action == Action::MustChange.word() && self.state == CommentState::Open.word()
    }
}

/// Where an approval stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// Nothing was submitted, or nothing was said of the last submission.
    Outstanding,
    /// The last submission was approved.
    Approved,
    /// It was approved with corrections.
    ApprovedWithCorrections,
    /// It was rejected.
    Rejected,
}

impl Standing {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Standing::Outstanding => "outstanding",
            Standing::Approved => Judgement::Approved.word(),
            Standing::ApprovedWithCorrections => Judgement::WithCorrections.word(),
            Standing::Rejected => Judgement::Rejected.word(),
        }
    }
}

/// One approval.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ApprovalLine {
    /// Its id.
    pub approval: String,
    /// What it is called.
    pub name: String,
    /// What is approved, as written.
    pub of: Option<String>,
    /// What kind of approval.
    pub kind: Option<String>,
    /// The colourway it is for.
    pub colourway: Option<String>,
    /// Whether bulk needs it.
    pub required: bool,
    /// Where it stands.
    pub standing: Standing,
    /// Until when it holds.
    pub until: Option<Date>,
    /// Whether that day is before the date of the revision.
    pub expired: bool,
    /// Its submissions, first to last.
    pub submissions: Vec<SubmissionLine>,
    /// The sample that was sealed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sealed: Option<SealedLine>,
    /// A remark.
    pub note: Option<String>,
    /// Whether only the own edition shows it.
    pub own: bool,
}

/// One submission.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SubmissionLine {
    /// Its number.
    pub number: u32,
    /// When it came.
    pub date: Option<Date>,
    /// What was said of it; absent as long as nothing was.
    pub verdict: Option<&'static str>,
    /// What is put right in bulk.
    pub corrections: Option<String>,
    /// A remark.
    pub remark: Option<String>,
    /// Dye lot or batch.
    pub lot: Option<String>,
    /// Its colour against the target; absent where none was read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub colour: Option<ColourLine>,
}

/// A sealed sample.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct SealedLine {
    /// Number of the tag.
    pub tag: Option<String>,
    /// When it was sealed.
    pub date: Option<Date>,
    /// Who has a set.
    pub sets: Vec<String>,
    /// Who signed.
    pub signatories: Vec<String>,
    /// Where.
    pub place: Option<String>,
    /// Deviations that were accepted.
    pub deviations: Vec<String>,
    /// Until when it holds.
    pub until: Option<Date>,
}

/// One point of the checklist for bulk.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct CheckPoint {
    /// `comment` or `approval`.
    pub from: &'static str,
    /// Its id.
    pub id: String,
    /// What it is about, as written.
    pub about: Option<String>,
    /// What to look at.
    pub text: String,
    /// Whether only the own edition shows it.
    pub own: bool,
}

/// One concession.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct ConcessionLine {
    /// Its id.
    pub concession: String,
    /// Code of the finding it lifts.
    pub lifts: Option<String>,
    /// What the finding names.
    pub item: Option<String>,
    /// Who concedes.
    pub by: Option<String>,
    /// Why.
    pub reason: Option<String>,
    /// What it is good for.
    pub limit: Option<String>,
    /// When it was given.
    pub date: Option<Date>,
    /// Until when it holds.
    pub until: Option<Date>,
}

fn word(word: &Option<Spanned<String>>) -> Option<String> {
    word.as_ref().map(|word| word.value.clone())
}

fn day(day: &Option<Stated<Date>>) -> Option<Date> {
    day.as_ref().and_then(|day| day.known().copied())
}

fn list(list: &[Spanned<String>]) -> Vec<String> {
    list.iter().map(|one| one.value.clone()).collect()
}

pub(crate) fn comments(model: &Model) -> Vec<CommentLine> {
    let mut all: Vec<&Comment> = model.samples.comments.values().collect();
    all.sort_by_key(|comment| (comment.action(), &comment.entry.id.value));
    let line = |comment: &Comment| CommentLine {
        comment: comment.entry.id.value.clone(),
        name: word(&comment.entry.name),
        about: word(&comment.about),
        action: comment.action().word(),
        state: comment.state().word(),
        text: word(&comment.text),
        by: word(&comment.by),
        date: day(&comment.date),
        sample: word(&comment.sample),
        picture: word(&comment.picture),
        answer: word(&comment.answer),
        answered_in: word(&comment.answered_in),
        reason: word(&comment.reason),
        own: comment.own,
    };
    all.into_iter().map(line).collect()
}

/// Whether a day is before the date of the revision; not where one of the two is not known.
pub(crate) fn is_past(model: &Model, until: &Option<Stated<Date>>) -> bool {
    day(until).zip(day(&model.revision.date)).is_some_and(|(until, now)| until < now)
}

pub(crate) fn approvals(model: &Model) -> Vec<ApprovalLine> {
    model.samples.approvals.values().map(|approval| approval_line(model, approval)).collect()
}

fn approval_line(model: &Model, approval: &Approval) -> ApprovalLine {
    let colourway = word(&approval.colourway);
    let colour = approval.of.as_ref().and_then(|of| colours::meant(model, &of.value, colourway.as_deref()));
    let submission = |(at, one): (usize, &Submission)| SubmissionLine {
        number: approval.number(at, one),
        date: day(&one.date),
        verdict: one.verdict.as_ref().map(|verdict| verdict.value.word()),
        corrections: word(&one.corrections),
        remark: word(&one.remark),
        lot: word(&one.lot),
        colour: (!one.lab.is_empty())
            .then(|| colours::held(colour, approval.of.as_ref().map_or("", |of| &of.value), &one.lab)),
    };
    let sealed = approval.sealed.as_ref().map(|sealed| SealedLine {
        tag: word(&sealed.tag),
        date: day(&sealed.date),
        sets: list(&sealed.sets),
        signatories: list(&sealed.signatories),
        place: word(&sealed.place),
        deviations: list(&sealed.deviations),
        until: day(&sealed.until),
    });
    ApprovalLine {
        approval: approval.entry.id.value.clone(),
        name: approval.entry.title().to_string(),
        of: word(&approval.of),
        kind: word(&approval.kind),
        required: approval.is_required(),
        standing: standing(approval),
        until: day(&approval.until),
        expired: is_past(model, &approval.until)
            || approval.sealed.as_ref().is_some_and(|sealed| is_past(model, &sealed.until)),
        submissions: approval.submissions.iter().enumerate().map(submission).collect(),
        note: word(&approval.note),
        own: approval.own,
        colourway,
        sealed,
    }
}

fn standing(approval: &Approval) -> Standing {
    match approval.last().and_then(|last| last.verdict.as_ref()).map(|verdict| verdict.value) {
        None => Standing::Outstanding,
        Some(Judgement::Approved) => Standing::Approved,
        Some(Judgement::WithCorrections) => Standing::ApprovedWithCorrections,
        Some(Judgement::Rejected) => Standing::Rejected,
    }
}

/// Comments that are put right in bulk, those that must change first, then corrections of approvals.
pub(crate) fn checklist(model: &Model) -> Vec<CheckPoint> {
    let mut comments: Vec<&Comment> = model.samples.comments.values().collect();
    comments.retain(|comment| comment.state() == CommentState::CorrectInBulk);
    comments.sort_by_key(|comment: &&Comment| (comment.action(), &comment.entry.id.value));
    let from_comment = |comment: &Comment| CheckPoint {
        from: "comment",
        id: comment.entry.id.value.clone(),
        about: word(&comment.about),
        text: word(&comment.text).unwrap_or_else(|| comment.entry.title().to_string()),
        own: comment.own,
    };
    let from_approval = |approval: &Approval| {
        let last = approval.last().filter(|_| standing(approval) == Standing::ApprovedWithCorrections)?;
        Some(CheckPoint {
            from: "approval",
            id: approval.entry.id.value.clone(),
            about: word(&approval.of),
            text: word(&last.corrections).unwrap_or_else(|| approval.entry.title().to_string()),
            own: approval.own,
        })
    };
    let approvals = model.samples.approvals.values().filter_map(from_approval);
    comments.into_iter().map(from_comment).chain(approvals).collect()
}

pub(crate) fn concessions(model: &Model) -> Vec<ConcessionLine> {
    let line = |concession: &crate::model::Concession| ConcessionLine {
        concession: concession.entry.id.value.clone(),
        lifts: word(&concession.lifts),
        item: word(&concession.item),
        by: word(&concession.by),
        reason: word(&concession.reason),
        limit: word(&concession.limit),
        date: day(&concession.date),
        until: day(&concession.until),
    };
    model.samples.concessions.values().map(line).collect()
}

//! Samples: what was asked for, read and seen, comments, approvals, sealed samples and concessions.

use std::collections::BTreeMap;

use crate::source::{Span, Spanned};
use crate::units::{Date, Quantity};

use crate::model::{Entry, Stated, Table};

/// One reading at its place; `None` where it was not read.
pub type Reading = Spanned<Option<Quantity>>;

/// The readings of one point, a mass or a stuffing: one for each piece of the sample.
#[derive(Debug, Clone)]
pub struct Readings {
    /// What is read: a point of measure, `finished`, `shell`, a stuffing; at its key.
    pub of: Spanned<String>,
    /// The readings, or the left ones.
    pub first: Vec<Reading>,
    /// The right ones, where both sides are read by themselves.
    pub right: Option<Vec<Reading>>,
}

impl Readings {
    /// Each side with its name; none where sides are not told apart.
    pub fn sides(&self) -> Vec<(Option<&'static str>, &[Reading])> {
        match &self.right {
            None => vec![(None, &self.first)],
            Some(right) => vec![(Some("left"), &self.first), (Some("right"), right)],
        }
    }
}

/// CIELAB readings of something; `None` where a piece was not read.
#[derive(Debug, Clone)]
pub struct LabReadings {
    /// Role, article or colour, at its key.
    pub of: Spanned<String>,
    /// One for each piece.
    pub list: Vec<Spanned<Option<[f64; 3]>>>,
}

/// Something that is looked at on the samples.
#[derive(Debug, Clone)]
pub struct Looked {
    /// What.
    pub text: Option<Spanned<String>>,
    /// `pass` or `fail`; none as long as nobody looked.
    pub result: Option<Spanned<String>>,
    /// A remark.
    pub note: Option<Spanned<String>>,
    /// Where it stands.
    pub span: Span,
}

/// A grade of colour fastness.
#[derive(Debug, Clone)]
pub struct Graded {
    /// The test, one of the words of the grammar.
    pub test: Option<Spanned<String>>,
    /// Role, article or colour.
    pub of: Option<Spanned<String>>,
    /// The grade that was found.
    pub grade: Option<Spanned<String>>,
    /// The least grade that is accepted.
    pub required: Option<Spanned<String>>,
    /// Where it stands.
    pub span: Span,
}

/// One sample: what was asked for, and what was found on it.
#[derive(Debug, Clone)]
pub struct Sample {
    /// Id and name.
    pub entry: Entry,
    /// Whether only the own edition shows it.
    pub own: bool,
    /// Prototype, counter sample, pre-production sample and so on.
    pub kind: Option<Spanned<String>>,
    /// The revision it was made to.
    pub of: Option<Spanned<String>>,
    /// Size id.
    pub size: Option<Spanned<String>>,
    /// Colourway id.
    pub colourway: Option<Spanned<String>>,
    /// How many samples.
    pub pieces: Option<Stated<u32>>,
    /// `real` or `substitute`.
    pub material: Option<Spanned<String>>,
    /// When it was asked for.
    pub asked: Option<Stated<Date>>,
    /// When it is due.
    pub due: Option<Stated<Date>>,
    /// To whom it goes.
    pub to: Option<Spanned<String>>,
    /// When it came.
    pub received: Option<Stated<Date>>,
    /// When it was measured.
    pub measured: Option<Stated<Date>>,
    /// Who measured.
    pub by: Option<Spanned<String>>,
    /// With what.
    pub tool: Option<Spanned<String>>,
    /// How long it rested before.
    pub rest: Option<Stated<Quantity>>,
    /// Readings by point of measure.
    pub readings: Table<Readings>,
    /// Masses of the finished product.
    pub finished: Option<Readings>,
    /// Masses of the shell before filling.
    pub shell: Option<Readings>,
    /// Masses of filling by stuffing.
    pub stuffings: Table<Readings>,
    /// Mass per area by fabric.
    pub fabric: Table<Readings>,
    /// Colours by role, article or colour.
    pub colours: Table<LabReadings>,
    /// What was looked at.
    pub checks: Vec<Looked>,
    /// Grades of colour fastness.
    pub grades: Vec<Graded>,
    /// A remark.
    pub note: Option<Spanned<String>>,
}

impl Sample {
    /// Whether anything was measured on it.
    pub fn is_measured(&self) -> bool {
        let read = |readings: &Readings| {
            readings.sides().into_iter().any(|(_, list)| list.iter().any(|reading| reading.value.is_some()))
        };
        self.readings.values().any(read)
    }

    /// Whether it says how samples are made: anything was read on it; or it came, and is none that is only kept, shown or
    /// tested.
    pub fn counts(&self) -> bool {
        const ASIDE: [&str; 3] = ["keep sample", "laboratory sample", "sales sample"];
        let aside = self.kind.as_ref().is_some_and(|kind| ASIDE.contains(&kind.value.as_str()));
        self.is_measured() || (!aside && (self.received.is_some() || self.measured.is_some()))
    }

    /// By what samples follow each other: the day it was measured, else came, else is due, else was asked for; then its id.
    pub fn when(&self) -> (Option<Date>, &str) {
        let days = [&self.measured, &self.received, &self.due, &self.asked];
        let day = days.into_iter().flatten().find_map(|day| day.known());
        (day.copied(), &self.entry.id.value)
    }
}

/// Where a comment stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CommentState {
    /// Nobody has answered.
    Open,
    /// A revision answers it.
    Answered,
    /// Both agree.
    Agreed,
    /// Put right in bulk and checked inline.
    CorrectInBulk,
    /// Given up, for a reason.
    Dropped,
}

impl CommentState {
    /// Every state, as it is written and meant.
    pub const ALL: [(&'static str, CommentState); 5] = [
        ("open", CommentState::Open),
        ("answered", CommentState::Answered),
        ("agreed", CommentState::Agreed),
        ("correct in bulk", CommentState::CorrectInBulk),
        ("dropped", CommentState::Dropped),
    ];

    /// As it is written.
    pub fn word(self) -> &'static str {
        CommentState::ALL.iter().find(|(_, state)| *state == self).map_or("", |(word, _)| word)
    }
}

/// What a comment asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Action {
    /// It must be changed before bulk.
    MustChange,
    /// It should be changed.
    ShouldChange,
    /// A remark.
    Note,
}

impl Action {
    /// Every action, as it is written and meant.
    pub const ALL: [(&'static str, Action); 3] =
        [("must change", Action::MustChange), ("should change", Action::ShouldChange), ("note", Action::Note)];

    /// As it is written.
    pub fn word(self) -> &'static str {
        Action::ALL.iter().find(|(_, action)| *action == self).map_or("", |(word, _)| word)
    }
}

/// A comment on something, from whoever looked at a sample.
#[derive(Debug, Clone)]
pub struct Comment {
    /// Id and name.
    pub entry: Entry,
    /// Whether only the own edition shows it.
    pub own: bool,
    /// What it is about: `seam.belly`, `belly`, `plush/soot`, `style`.
    pub about: Option<Spanned<String>>,
    /// What is asked for; a note unless said.
    pub action: Option<Spanned<Action>>,
    /// Where it stands; open unless said.
    pub state: Option<Spanned<CommentState>>,
    /// What is to be changed.
    pub text: Option<Spanned<String>>,
    /// Who says so.
    pub by: Option<Spanned<String>>,
    /// When.
    pub date: Option<Stated<Date>>,
    /// The sample it was seen on.
    pub sample: Option<Spanned<String>>,
    /// A picture of it, by its path.
    pub picture: Option<Spanned<String>>,
    /// What was answered.
    pub answer: Option<Spanned<String>>,
    /// The revision that answers it.
    pub answered_in: Option<Spanned<String>>,
    /// Why it was dropped.
    pub reason: Option<Spanned<String>>,
}

impl Comment {
    /// How much it weighs.
    pub fn action(&self) -> Action {
        self.action.as_ref().map_or(Action::Note, |action| action.value)
    }

    /// Where it stands.
    pub fn state(&self) -> CommentState {
        self.state.as_ref().map_or(CommentState::Open, |state| state.value)
    }

    /// Whether it is open and must be changed before bulk.
    pub fn is_in_the_way(&self) -> bool {
        self.action() == Action::MustChange && self.state() == CommentState::Open
    }
}

/// What was said of a submission.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Judgement {
    /// As it is.
    Approved,
    /// Approved, and put right in bulk.
    WithCorrections,
    /// Once more.
    Rejected,
}

impl Judgement {
    /// Every judgement, as it is written and meant.
    pub const ALL: [(&'static str, Judgement); 3] = [
        ("approved", Judgement::Approved),
        ("approved with corrections", Judgement::WithCorrections),
        ("rejected", Judgement::Rejected),
    ];

    /// As it is written.
    pub fn word(self) -> &'static str {
        Judgement::ALL.iter().find(|(_, one)| *one == self).map_or("", |(word, _)| word)
    }
}

/// One submission of what is to be approved.
#[derive(Debug, Clone)]
pub struct Submission {
    /// Its number; its place in the list unless said.
    pub number: Option<Stated<u32>>,
    /// When it came.
    pub date: Option<Stated<Date>>,
    /// What was said of it; none as long as nothing was.
    pub verdict: Option<Spanned<Judgement>>,
    /// What is put right in bulk.
    pub corrections: Option<Spanned<String>>,
    /// Its colour, one or more readings.
    pub lab: Vec<Spanned<Option<[f64; 3]>>>,
    /// A remark.
    pub remark: Option<Spanned<String>>,
    /// Dye lot or batch.
    pub lot: Option<Spanned<String>>,
    /// Where it stands.
    pub span: Span,
}

/// The record of a sealed sample.
#[derive(Debug, Clone)]
pub struct Sealed {
    /// Number of the tag.
    pub tag: Option<Spanned<String>>,
    /// When it was sealed.
    pub date: Option<Stated<Date>>,
    /// Who has a set: buyer, factory, inspector.
    pub sets: Vec<Spanned<String>>,
    /// Who signed.
    pub signatories: Vec<Spanned<String>>,
    /// Where it was sealed.
    pub place: Option<Spanned<String>>,
    /// Deviations that were accepted.
    pub deviations: Vec<Spanned<String>>,
    /// Until when it holds.
    pub until: Option<Stated<Date>>,
    /// Where it stands.
    pub span: Span,
}

/// What is to be approved, and its submissions.
#[derive(Debug, Clone)]
pub struct Approval {
    /// Id and name.
    pub entry: Entry,
    /// Whether only the own edition shows it.
    pub own: bool,
    /// What is approved, as for a comment.
    pub of: Option<Spanned<String>>,
    /// Fabric, lab dip, strike-off and so on.
    pub kind: Option<Spanned<String>>,
    /// The colourway it is for.
    pub colourway: Option<Spanned<String>>,
    /// Whether bulk needs it; it does unless said.
    pub required: Option<Spanned<bool>>,
    /// Until when it holds.
    pub until: Option<Stated<Date>>,
    /// Its submissions, first to last.
    pub submissions: Vec<Submission>,
    /// The sample that was sealed.
    pub sealed: Option<Sealed>,
    /// A remark.
    pub note: Option<Spanned<String>>,
}

impl Approval {
    /// Whether bulk needs it.
    pub fn is_required(&self) -> bool {
        self.required.as_ref().is_none_or(|required| required.value)
    }

    /// The submission that counts: that with the greatest number, the later one of two.
    pub fn last(&self) -> Option<&Submission> {
        let number = |(at, one): &(usize, &Submission)| self.number(*at, one);
        self.submissions.iter().enumerate().max_by_key(number).map(|(_, one)| one)
    }

    /// The number of a submission: as said, or its place in the list.
    pub fn number(&self, at: usize, submission: &Submission) -> u32 {
        let said = submission.number.as_ref().and_then(|number| number.known()).copied();
        said.unwrap_or_else(|| u32::try_from(at + 1).unwrap_or(u32::MAX))
    }
}

/// Somebody takes it on himself that a finding stands.
#[derive(Debug, Clone)]
pub struct Concession {
    /// Id and name.
    pub entry: Entry,
    /// The code of the finding it lifts.
    pub lifts: Option<Spanned<String>>,
    /// The thing that the finding names.
    pub item: Option<Spanned<String>>,
    /// Who concedes.
    pub by: Option<Spanned<String>>,
    /// Why.
    pub reason: Option<Spanned<String>>,
    /// The order or quantity it is good for.
    pub limit: Option<Spanned<String>>,
    /// When it was given.
    pub date: Option<Stated<Date>>,
    /// Until when it holds.
    pub until: Option<Stated<Date>>,
}

impl Concession {
    /// Keys that are missing: without one of them it lifts nothing.
    pub fn missing(&self) -> Vec<&'static str> {
        let has = [
            ("lifts", self.lifts.is_some()),
            ("by", self.by.is_some()),
            ("reason", self.reason.is_some()),
            ("limit", self.limit.is_some()),
            ("date", self.date.is_some()),
        ];
        has.into_iter().filter(|(_, given)| !given).map(|(key, _)| key).collect()
    }
}

/// What was asked, found and said of samples. It stands apart from the specification.
#[derive(Debug, Clone, Default)]
pub struct Samples {
    /// Samples.
    pub samples: Table<Sample>,
    /// Comments.
    pub comments: Table<Comment>,
    /// Approvals.
    pub approvals: Table<Approval>,
    /// Concessions.
    pub concessions: Table<Concession>,
}

impl Samples {
    /// Samples in the order of their days.
    pub fn in_order(&self) -> Vec<&Sample> {
        let mut all: Vec<&Sample> = self.samples.values().collect();
        all.sort_by_key(|sample| sample.when());
        all
    }

    /// The last sample of each size that counts; those that name no size are of the size given.
    pub fn last<'a>(&'a self, only: &'a str) -> BTreeMap<&'a str, &'a Sample> {
        let counting = self.in_order().into_iter().filter(|sample| sample.counts());
        counting.map(|sample| (sample.size.as_ref().map_or(only, |size| size.value.as_str()), sample)).collect()
    }
}

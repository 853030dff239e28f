//! What was said of samples and what came of it: comments, approvals, what is put right in bulk, what was lifted.

use crate::samples::figures::{ApprovalLine, CheckPoint, CommentLine, ConcessionLine, Standing, SubmissionLine};
use crate::scene::Scene;
use crate::units::Date;
use crate::words::{Phrase, head as heads, number, say, sheet as sentences, words};

use crate::rows::choice::{begun, said};
use crate::rows::data::{ApprovalRow, CommentRow, Comments, Sheet};
use crate::rows::package::{Drawing, Head, Room};
use crate::rows::picture::commented;
use crate::rows::view::View;
use crate::rows::written::day;

words! {
    SAMPLE "comments.sample" = "sample {id}";
    ANSWERED_IN "comments.answered-in" = "revision {revision}";
    PICTURE_OF "comments.picture" = "Picture of comment {id}";
    POINT "comments.point" = "{id}: {text}";
    UNTIL "comments.until" = "{standing}, until {date}";
    EXPIRED "comments.expired" = "{standing}, past its date";
    SUBMITTED "comments.submitted" = "{number}: {verdict}";
    SUBMITTED_ON "comments.submitted-on" = "{number}, {date}: {verdict}";
    NO_VERDICT "comments.no-verdict" = "no verdict yet";
    CORRECTED "comments.corrected" = "{verdict} ({corrections})";
    DIFFERENCE "comments.difference" = "CIEDE2000 {difference}";
    DIFFERENCE_OF "comments.difference-of" = "CIEDE2000 {difference} of at most {limit}";
    LOT "comments.lot" = "lot {lot}";
    NOT_SAID "comments.not-said" = "not said";
    CONCEDED "comments.conceded" = "{what} is conceded by {by} on {date}: {reason}. For {limit}, until {until}.";
    LIFTED_OF "comments.lifted-of" = "{finding} of {item}";
}

/// Room for the picture of a comment.
const PICTURE: Room = Room { width: 50.0, height: 36.0 };

/// One sheet, or none where nothing was said or asked for.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let samples = view.samples;
    if samples.comments.is_empty() && samples.approvals.is_empty() && samples.concessions.is_empty() {
        return Vec::new();
    }
    vec![Sheet::Comments(Comments {
        head: Head {
            title: sentences::COMMENTS_TITLE.into(),
            name: sentences::COMMENTS.into(),
            lead: sentences::COMMENTS_LEAD.into(),
        },
        rows: samples.comments.iter().map(|line| comment(view, line)).collect(),
        approvals: samples.approvals.iter().map(|line| approval(view, line)).collect(),
        checklist: samples.checklist.iter().map(point).collect(),
        concessions: samples.concessions.iter().map(concession).collect(),
    })]
}

/// A point of the checklist, for this sheet and the confirmation.
pub fn point(point: &CheckPoint) -> Phrase {
    say!(POINT, id = &point.id, text = &point.text)
}

fn comment(view: &View<'_>, line: &CommentLine) -> CommentRow {
    let known = |text: &Option<String>| text.as_ref().map_or_else(Phrase::none, Phrase::from);
    let sample = line.sample.as_ref().map_or_else(Phrase::none, |id| say!(SAMPLE, id));
    let answered = line.answered_in.as_ref().map_or_else(Phrase::none, |revision| say!(ANSWERED_IN, revision));
    CommentRow {
        id: line.comment.clone(),
        about: line.about.as_ref().map_or_else(Phrase::none, |about| view.item(about)),
        weight: begun(line.action),
        stops: line.stops(),
        text: Phrase::row([known(&line.name), known(&line.text)], ": "),
        by: Phrase::list([known(&line.by), day(line.date).into(), sample]),
        state: begun(line.state),
        answer: Phrase::row([known(&line.answer), answered, known(&line.reason)], "; "),
        picture: line.picture.as_ref().and_then(|path| picture(view, line, path)),
    }
}

fn picture(view: &View<'_>, line: &CommentLine, path: &str) -> Option<Drawing> {
    let (file, [width, height]) = commented(view.commented, path)?;
    let factor = (PICTURE.width / width).min(PICTURE.height / height);
    let scene = Scene::new(width * factor, height * factor, say!(PICTURE_OF, id = &line.comment));
    Some(Drawing { picture: Some(file), ..Drawing::of(scene, Phrase::none()) })
}

fn approval(view: &View<'_>, line: &ApprovalLine) -> ApprovalRow {
    let kind = line.kind.as_deref().map_or_else(Phrase::none, begun);
    let way = line.colourway.as_ref().map_or_else(Phrase::none, Phrase::from);
    let named = line.name != line.approval;
    ApprovalRow {
        what: match (&line.of, named) {
            (Some(of), false) => view.item(of),
            (Some(of), true) => Phrase::lines([(&line.name).into(), view.item(of)]),
            (None, _) => (&line.name).into(),
        },
        kind: Phrase::list([kind, way]),
        required: if line.required { heads::YES } else { heads::NO }.into(),
        submissions: line.submissions.iter().map(submission).collect(),
        standing: standing(line),
        stops: line.required && (line.expired || matches!(line.standing, Standing::Outstanding | Standing::Rejected)),
    }
}

/// `Approved, until 2026-11-20, past its date`, and the remark.
fn standing(line: &ApprovalLine) -> Phrase {
    let mut standing = begun(line.standing.words());
    if let Some(date) = line.until {
        standing = say!(UNTIL, standing, date);
    }
    let standing = if line.expired { say!(EXPIRED, standing) } else { standing };
    Phrase::lines([standing, line.note.as_ref().map_or_else(Phrase::none, Phrase::from)])
}

/// `2, 7 September 2026: approved with corrections (a touch bluer); CIEDE2000 1.10 of at most 2.00; lot 2B`.
pub(crate) fn submission(line: &SubmissionLine) -> Phrase {
    let verdict = line.verdict.map_or_else(|| NO_VERDICT.into(), said);
    let verdict = match &line.corrections {
        Some(corrections) => say!(CORRECTED, verdict, corrections),
        None => verdict,
    };
    let number = line.number;
    let submitted = match line.date {
        Some(date) => say!(SUBMITTED_ON, number, date, verdict),
        None => say!(SUBMITTED, number, verdict),
    };
    let lot = line.lot.as_ref().map_or_else(Phrase::none, |lot| say!(LOT, lot));
    let remark = line.remark.as_ref().map_or_else(Phrase::none, Phrase::from);
    Phrase::row([submitted, difference(line), lot, remark], "; ")
}

fn difference(line: &SubmissionLine) -> Phrase {
    let Some(colour) = &line.colour else { return Phrase::none() };
    let Some(difference) = colour.mean.difference else { return Phrase::none() };
    let difference = number::number(difference, 2);
    match colour.limit {
        Some(limit) => say!(DIFFERENCE_OF, difference, limit = number::number(limit, 2)),
        None => say!(DIFFERENCE, difference),
    }
}

/// What was lifted, by whom, why, for what and until when; for this sheet and the cover.
pub fn concession(line: &ConcessionLine) -> Phrase {
    let known = |text: &Option<String>| text.as_ref().map_or_else(|| NOT_SAID.into(), Phrase::from);
    let on = |date: Option<Date>| date.map_or_else(|| NOT_SAID.into(), Phrase::from);
    let finding = known(&line.lifts);
    let what =
        line.item.as_ref().map_or_else(|| finding.clone(), |item| say!(LIFTED_OF, finding = finding.clone(), item));
    say!(
        CONCEDED,
        what = what.capital(),
        by = known(&line.by),
        date = on(line.date),
        reason = known(&line.reason),
        limit = known(&line.limit),
        until = on(line.until),
    )
}

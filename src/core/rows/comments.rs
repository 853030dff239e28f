//! What was said of samples and what came of it: comments, approvals, what is put right in bulk, what was lifted.

use crate::compute::samples::{ApprovalLine, CommentLine, ConcessionLine, Standing, SubmissionLine};
use crate::scene::Scene;
use crate::words::{number, sheet as words};

use super::data::{ApprovalRow, CommentRow, Comments, Sheet};
use super::package::{Drawing, Head, Room};
use super::picture::commented;
use super::view::{View, capital};
use super::written::date;

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
            title: words::COMMENTS_TITLE.en.into(),
            name: words::COMMENTS.en.into(),
            lead: words::COMMENTS_LEAD.en.into(),
        },
        rows: samples.comments.iter().map(|line| comment(view, line)).collect(),
        approvals: samples.approvals.iter().map(|line| approval(view, line)).collect(),
        checklist: samples.checklist.iter().map(|point| format!("{}: {}", point.id, point.text)).collect(),
        concessions: samples.concessions.iter().map(concession).collect(),
    })]
}

fn comment(view: &View<'_>, line: &CommentLine) -> CommentRow {
    let on = line.date.as_deref().and_then(date);
    let sample = line.sample.as_ref().map(|sample| format!("sample {sample}"));
    let by: Vec<String> = [line.by.clone(), on, sample].into_iter().flatten().collect();
    let answered = line.answered_in.as_ref().map(|revision| format!("revision {revision}"));
    let answer: Vec<String> = [line.answer.clone(), answered, line.reason.clone()].into_iter().flatten().collect();
    CommentRow {
        id: line.comment.clone(),
        about: line.about.as_ref().map_or(String::new(), |about| view.item(about)),
        weight: capital(line.action),
        stops: line.action == "must change" && line.state == "open",
        text: line.text.clone().unwrap_or_default(),
        by: by.join(", "),
        state: capital(line.state),
        answer: answer.join("; "),
        picture: line.picture.as_ref().and_then(|path| picture(view, line, path)),
    }
}

fn picture(view: &View<'_>, line: &CommentLine, path: &str) -> Option<Drawing> {
    let (file, [width, height]) = commented(view.commented, path)?;
    let factor = (PICTURE.width / width).min(PICTURE.height / height);
    let scene = Scene::new(width * factor, height * factor, format!("Picture of comment {}", line.comment));
    Some(Drawing { picture: Some(file), ..Drawing::of(scene, "") })
}

fn approval(view: &View<'_>, line: &ApprovalLine) -> ApprovalRow {
    let kind: Vec<String> = [line.kind.as_deref().map(capital), line.colourway.clone()].into_iter().flatten().collect();
    let until = line.until.as_deref().and_then(date).map_or(String::new(), |until| format!(", until {until}"));
    let expired = if line.expired { ", past its date" } else { "" };
    let named = line.name != line.approval;
    ApprovalRow {
        what: match (&line.of, named) {
            (Some(of), false) => view.item(of),
            _ => line.name.clone(),
        },
        kind: kind.join(", "),
        required: if line.required { "yes" } else { "no" }.into(),
        submissions: line.submissions.iter().map(submission).collect(),
        standing: format!("{}{until}{expired}", capital(line.standing.words())),
        stops: line.required && (line.expired || matches!(line.standing, Standing::Outstanding | Standing::Rejected)),
    }
}

/// `2, 7 September 2026: approved with corrections (a touch bluer); CIEDE2000 1.10 of at most 2.00; lot 2B`.
fn submission(line: &SubmissionLine) -> String {
    let on = line.date.as_deref().and_then(date).map_or(String::new(), |on| format!(", {on}"));
    let corrections = line.corrections.as_ref().map_or(String::new(), |text| format!(" ({text})"));
    let verdict = line.verdict.unwrap_or("no verdict yet");
    let mut text = format!("{}{on}: {verdict}{corrections}", line.number);
    if let Some(difference) = line.colour.as_ref().and_then(|colour| colour.mean.difference) {
        let limit = line.colour.as_ref().and_then(|colour| colour.limit);
        let limit = limit.map_or(String::new(), |limit| format!(" of at most {}", number::number(limit.get(), 2)));
        text.push_str(&format!("; CIEDE2000 {}{limit}", number::number(difference.get(), 2)));
    }
    for (what, value) in [("lot ", &line.lot), ("", &line.remark)] {
        if let Some(value) = value {
            text.push_str(&format!("; {what}{value}"));
        }
    }
    text
}

/// What was lifted, by whom, why, for what and until when; for this sheet and the cover.
pub fn concession(line: &ConcessionLine) -> String {
    let known = |text: &Option<String>| text.clone().unwrap_or_else(|| "not said".into());
    let on = |text: &Option<String>| text.as_deref().and_then(date).unwrap_or_else(|| "not said".into());
    let item = line.item.as_ref().map_or(String::new(), |item| format!(" of {item}"));
    format!(
        "{}{item} is conceded by {} on {}: {}. For {}, until {}.",
        capital(&known(&line.lifts)),
        known(&line.by),
        on(&line.date),
        known(&line.reason),
        known(&line.limit),
        on(&line.until),
    )
}

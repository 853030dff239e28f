//! Where a style stands, on one screen.

use super::release::standing;
use crate::compute::Figures;
use crate::diag::{Findings, Severity, cut, plain, wrap};
use crate::model::{Model, Stage, Stated};
use crate::samples::figures::{ReadLine, SampleResult, Standing, Verdict};
use crate::units::Date;
use crate::words::number::counted;

/// Columns of the screen.
const COLUMNS: usize = 80;
/// Before the further lines of a sentence.
const DEEPER: &str = "      ";
/// Lines of each list at most.
const LINES: usize = 6;

/// What the screen is made of.
#[derive(Debug, Clone, Copy)]
pub struct Seen<'a> {
    /// The specification.
    pub model: &'a Model,
    /// Its figures.
    pub figures: &'a Figures,
    /// What stands now.
    pub findings: &'a Findings,
    /// What would stand at the next stage, if there is one.
    pub next: Option<(Stage, &'a Findings)>,
}

/// The screen: stage, last samples with what is out, what is open, what blocks the next stage. No line is longer than 80
/// columns; what blocks the next stage is told whole, over as many lines as it takes.
pub fn status(seen: &Seen<'_>) -> String {
    let mut lines = head(seen);
    lines.extend(samples(seen));
    lines.extend(comments(seen));
    lines.extend(approvals(seen));
    lines.extend(rest(seen));
    lines.extend(blocks(seen));
    lines.iter().flat_map(|line| line.split('\n')).map(|line| fit(line) + "\n").collect()
}

/// The line that says how many obstacles are in the way of a stage; none where there are none.
pub fn ahead(stage: Stage, findings: &Findings, folder: &str) -> Option<String> {
    let count = standing(findings).len();
    let told = || format!("In the way of {}: {count}, see `backtack status {}`", stage.word(), plain(folder));
    (count > 0).then(told)
}

/// A sentence below a short indent, its further lines deeper.
fn whole(sentence: &str) -> String {
    format!("  {}", wrap(&plain(sentence), COLUMNS - DEEPER.len()).join(&format!("\n{DEEPER}")))
}

/// On one line of the screen, without anything a terminal acts on.
fn fit(line: &str) -> String {
    cut(plain(line).trim_end(), COLUMNS)
}

/// At most so many lines, then how many more there are.
fn few(mut lines: Vec<String>) -> Vec<String> {
    if lines.len() > LINES {
        let more = lines.len() - (LINES - 1);
        lines.truncate(LINES - 1);
        lines.push(format!("  and {more} more"));
    }
    lines
}

fn known(text: &Option<Stated<String>>) -> Option<&str> {
    text.as_ref().and_then(|text| text.known()).map(String::as_str)
}

fn head(seen: &Seen<'_>) -> Vec<String> {
    let (style, revision) = (&seen.model.style, &seen.model.revision);
    let words = |all: &[Option<&str>]| all.iter().flatten().copied().collect::<Vec<_>>().join(" ");
    let date = revision.date.as_ref().and_then(|date| date.known()).map(Date::to_string);
    let title = words(&[known(&style.id), known(&style.name)]);
    let stage = Stage::of(seen.model).word();
    let issue = words(&[known(&revision.id).map(|_| "revision"), known(&revision.id), date.as_deref()]);
    vec![title, format!("{stage}, {issue}").trim_end_matches([',', ' ']).to_string()]
}

fn samples(seen: &Seen<'_>) -> Vec<String> {
    let samples = &seen.figures.samples;
    if samples.samples.is_empty() {
        return vec![String::new(), "No sample yet".into()];
    }
    let mut lines = vec![String::new(), "Last sample of each size".to_string()];
    for size in &seen.figures.sizes {
        let of = |sample: &&SampleResult| sample.size.as_ref().is_none_or(|one| one == size);
        let last = samples.samples.iter().find(|(_, sample)| sample.last && of(sample));
        match last {
            None => lines.push(format!("  {size}: none came")),
            Some((id, sample)) => lines.extend(sample_lines(size, id, sample)),
        }
    }
    let asked = samples.samples.iter().filter(|(_, sample)| sample.received.is_none() && sample.measured.is_none());
    let waiting = asked.filter(|(_, sample)| sample.tally.inside + sample.tally.outside == 0);
    lines.extend(few(waiting
        .map(|(id, sample)| {
            let due = sample.due.map_or_else(String::new, |due| format!(", due {due}"));
            format!("  {id} is asked for{due}")
        })
        .collect()));
    lines
}

fn sample_lines(size: &str, id: &str, sample: &SampleResult) -> Vec<String> {
    let facts = [
        sample.kind.clone(),
        sample.of.as_ref().map(|of| format!("of {of}")),
        sample.colourway.clone(),
        Some(counted(sample.pieces, "piece", "pieces")),
        sample.measured.or(sample.received).map(|date| date.to_string()),
    ];
    let facts: Vec<String> = facts.into_iter().flatten().collect();
    let tally = sample.tally;
    let mut lines = vec![
        format!("  {size}: {id} ({})", facts.join(", ")),
        format!(
            "     {} inside, {} of them on a limit; {} outside, {} to be asked about, {} not read",
            tally.inside, tally.on_limit, tally.outside, tally.questioned, tally.unread
        ),
    ];
    let rows = sample.points.iter().chain(&sample.masses).filter(|line| line.verdict.is_out());
    let colours = sample.colours.iter().filter(|line| line.mean.verdict == Verdict::Above).map(|line| {
        let number = |number: Option<crate::compute::Number>| number.map_or(0.0, |number| number.get());
        let (difference, limit) = (number(line.mean.difference), number(line.limit));
        format!("     {}: {difference:.2} from its target, limit {limit:.2}", line.of)
    });
    let failed = sample.checks.iter().filter(|check| check.passes == Some(false));
    let failed = failed.map(|check| format!("     fails: {}", check.text));
    let grades = sample.grades.iter().filter(|grade| grade.passes == Some(false)).map(|grade| {
        let word = |word: &Option<String>| word.clone().unwrap_or_default();
        format!("     {} {}: {} instead of {}", grade.test, word(&grade.of), word(&grade.grade), word(&grade.required))
    });
    lines.extend(few(rows.map(out).chain(colours).chain(failed).chain(grades).collect()));
    lines
}

/// `     D left, critical: piece 2 107 mm, 1 mm above 98 to 106`.
fn out(line: &ReadLine) -> String {
    let side = line.side.map_or_else(String::new, |side| format!(" {side}"));
    let mark = if line.critical {
        ", critical"
    } else if line.reference {
        ", for reference"
    } else {
        ""
    };
    let each = line.readings.iter().enumerate().filter(|(_, one)| one.verdict.is_out()).map(|(at, one)| {
        let by = one.by.map_or(0.0, |by| by.get());
        format!("piece {} {by} {} {}", at + 1, line.unit, one.verdict.word().en)
    });
    let each: Vec<String> = each.collect();
    let limit = |limit: Option<f64>| limit.map_or_else(|| "?".to_string(), |limit| limit.to_string());
    let (lower, upper) = (limit(line.lower.get()), limit(line.upper.get()));
    format!("     {}{side}{mark}: {} ({lower} to {upper} {})", line.of, each.join(", "), line.unit)
}

fn comments(seen: &Seen<'_>) -> Vec<String> {
    let open: Vec<_> = seen.figures.samples.comments.iter().filter(|comment| comment.state == "open").collect();
    if open.is_empty() {
        return Vec::new();
    }
    let count = |action: &str| open.iter().filter(|comment| comment.action == action).count();
    let notes = count("note");
    let mut lines = vec![
        String::new(),
        format!(
            "Open comments: {} must change, {} should change, {}",
            count("must change"),
            count("should change"),
            counted(notes, "note", "notes")
        ),
    ];
    lines.extend(few(open
        .into_iter()
        .map(|comment| {
            let about = comment.about.as_ref().map_or_else(String::new, |about| format!(" on {about}"));
            let text = comment.text.as_ref().map_or_else(String::new, |text| format!(": {text}"));
            format!("  {}: {}{about}{text}", comment.action, comment.comment)
        })
        .collect()));
    lines
}

fn approvals(seen: &Seen<'_>) -> Vec<String> {
    let open = |standing: Standing| matches!(standing, Standing::Outstanding | Standing::Rejected);
    let all = &seen.figures.samples.approvals;
    let due: Vec<_> = all.iter().filter(|one| one.required && (open(one.standing) || one.expired)).collect();
    if due.is_empty() {
        return Vec::new();
    }
    let mut lines = vec![
        String::new(),
        format!("Approvals that bulk needs: {} of {} open", due.len(), all.iter().filter(|one| one.required).count()),
    ];
    lines.extend(few(due
        .into_iter()
        .map(|one| {
            let of = one.of.as_ref().map_or_else(String::new, |of| format!(" of {of}"));
            let kind = one.kind.as_ref().map_or_else(String::new, |kind| format!(", {kind}"));
            let past = if one.expired { ", past its day" } else { "" };
            format!("  {}{of}{kind}: {}{past}", one.approval, one.standing.words())
        })
        .collect()));
    lines
}

/// What is carried on: checklist and concessions.
fn rest(seen: &Seen<'_>) -> Vec<String> {
    let samples = &seen.figures.samples;
    let mut lines = Vec::new();
    if !samples.checklist.is_empty() {
        lines.push(format!("To be checked inline in bulk: {}", counted(samples.checklist.len(), "point", "points")));
    }
    if !samples.concessions.is_empty() {
        let lifted = counted(seen.findings.conceded(), "finding", "findings");
        lines.push(format!("Concessions: {}, which lift {lifted}", samples.concessions.len()));
    }
    if !lines.is_empty() {
        lines.insert(0, String::new());
    }
    lines
}

fn blocks(seen: &Seen<'_>) -> Vec<String> {
    let count = |severity| seen.findings.count(severity);
    let notes = counted(count(Severity::Note), "note", "notes");
    let mut lines = vec![
        String::new(),
        format!("Now: {} must, {} should, {notes}", count(Severity::Must), count(Severity::Should)),
    ];
    let (title, findings) = match seen.next {
        Some((stage, findings)) => (format!("In the way of {}", stage.word()), findings),
        None => ("In the way of a release".to_string(), seen.findings),
    };
    let standing: Vec<String> = standing(findings)
        .into_iter()
        .map(|finding| whole(&format!("{}: {}", finding.rule.code, finding.message)))
        .collect();
    if standing.is_empty() {
        lines.push(format!("{title}: nothing"));
        return lines;
    }
    lines.push(format!("{title}: {}", standing.len()));
    lines.extend(few(standing));
    lines
}

//! Prints findings for people at a terminal.

use annotate_snippets::renderer::{AnsiColor, DecorStyle, Effects, Style as Ink};
use annotate_snippets::{AnnotationKind, Element, Group, Level, Origin, Renderer, Snippet};

use super::place::{Lines, Place};
use super::plain::{plain, plain_lines};
use super::width::{columns, wrap};
use super::window::window;
use super::{Finding, Folder, Label, Severity};
use crate::source::FileId;

/// How to print.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Style {
    /// Whether to write colour codes.
    pub color: bool,
    /// Columns of the terminal: sentences are wrapped, longer lines of the user's text are trimmed around the marked place.
    /// At least 40.
    pub width: usize,
}

/// The narrowest terminal there is.
const NARROWEST: usize = 40;
/// Columns that a sentence gets at least.
const SENTENCE: usize = 24;

/// Every finding with the user's own lines, then one line that counts them.
pub fn print(folders: &[Folder<'_>], style: Style) -> String {
    let renderer = renderer(style);
    let mut out = String::new();
    for folder in folders {
        let lines = Lines::new(*folder);
        for finding in folder.findings.iter() {
            out.push_str(&renderer.render(&[group(finding, folder, &lines, style.width.max(NARROWEST))]));
            out.push_str("\n\n");
        }
    }
    out.push_str(&tally(folders));
    out.push('\n');
    out
}

/// The closing line, such as `3 must, 1 should, 0 notes in 5 files`.
pub fn tally(folders: &[Folder<'_>]) -> String {
    let count = |severity| folders.iter().map(|folder| folder.findings.count(severity)).sum::<usize>();
    let notes = count(Severity::Note);
    let files = folders.iter().map(|folder| folder.sources.iter().count()).sum::<usize>();
    let mut line = format!(
        "{} must, {} should, {notes} {} in {files} {}",
        count(Severity::Must),
        count(Severity::Should),
        if notes == 1 { "note" } else { "notes" },
        if files == 1 { "file" } else { "files" },
    );
    let conceded: usize = folders.iter().map(|folder| folder.findings.conceded()).sum();
    if conceded > 0 {
        line.push_str(&format!(", {conceded} conceded"));
    }
    if folders.len() > 1 {
        line.push_str(&format!(" of {} folders", folders.len()));
    }
    line
}

fn renderer(style: Style) -> Renderer {
    let base = if style.color { Renderer::styled() } else { Renderer::plain() };
    let base = base.decor_style(DecorStyle::Unicode).term_width(style.width.max(NARROWEST));
    if !style.color {
        return base;
    }
    base.hyperlink(false)
        .error(Ink::new().fg_color(Some(AnsiColor::Magenta.into())).effects(Effects::BOLD))
        .warning(Ink::new().fg_color(Some(AnsiColor::Cyan.into())).effects(Effects::BOLD))
        .note(Ink::new().effects(Effects::BOLD))
        .help(Ink::new().fg_color(Some(AnsiColor::Green.into())))
        .context(Ink::new().fg_color(Some(AnsiColor::Blue.into())))
        .line_num(Ink::new().effects(Effects::DIMMED))
        .emphasis(Ink::new().effects(Effects::BOLD))
}

fn level(severity: Severity) -> Level<'static> {
    let level = match severity {
        Severity::Must => Level::ERROR,
        Severity::Should => Level::WARNING,
        Severity::Note => Level::NOTE,
    };
    level.with_name(severity.word())
}

/// Text below and beside so many columns of a head, in lines that fit.
fn hung(text: &str, head: usize, width: usize) -> String {
    let most = width.saturating_sub(head).max(SENTENCE);
    let lines: Vec<String> = text.split('\n').map(|line| wrap(line, most).join("\n")).collect();
    lines.join("\n")
}

fn group<'a>(finding: &Finding, folder: &Folder<'_>, lines: &Lines<'_>, width: usize) -> Group<'a> {
    let head = format!("{}[{}]: ", finding.severity.word(), finding.rule.code);
    let message = hung(&plain(&finding.message.english()), columns(&head), width);
    let title = level(finding.severity).primary_title(message).id(finding.rule.code);
    let mut group = Group::with_title(title);
    let places = lines.places(&finding.places);
    // The library writes a message right of the numbers of lines and three columns.
    let number = places.iter().map(|(place, _)| place.end_line).max().unwrap_or(1).to_string().len();
    let said = |word: &str, text: &str| hung(&plain_lines(text), number + 3 + word.len() + 2, width);
    let files = by_file(places);
    if files.is_empty() {
        group = group.element(Origin::path(plain(folder.name)));
    }
    for (number, places) in files.iter().enumerate() {
        group = group.elements(excerpt(places, lines, number == 0));
    }
    if let Some(conceded) = &finding.concession {
        return group.element(Level::NOTE.with_name("conceded").message(said("conceded", &conceded.text.english())));
    }
    group.elements(finding.help.iter().map(|help| Level::HELP.message(said("help", &help.text.english()))))
}

type Marked<'a, 'b> = (Place<'a>, &'b Label);

/// Places by file, files in the order in which the finding names them.
fn by_file<'a, 'b>(places: Vec<Marked<'a, 'b>>) -> Vec<Vec<Marked<'a, 'b>>> {
    let mut files: Vec<(FileId, Vec<Marked<'a, 'b>>)> = Vec::new();
    for place in places {
        match files.iter_mut().find(|(file, _)| *file == place.1.span.file) {
            Some((_, list)) => list.push(place),
            None => files.push((place.1.span.file, vec![place])),
        }
    }
    files.into_iter().map(|(_, list)| list).collect()
}

/// The marked lines of one file under its path. The first place of the first file is the one to change.
fn excerpt<'a>(places: &[Marked<'_, '_>], lines: &Lines<'_>, first: bool) -> Vec<Element<'a>> {
    let Some((head, label)) = places.first() else { return Vec::new() };
    let top = places.iter().map(|(place, _)| place.line).min().unwrap_or(head.line);
    let bottom = places.iter().map(|(place, _)| place.end_line).max().unwrap_or(head.line);
    let start = lines.line(label.span, top).start;
    let end = lines.line(label.span, bottom).end;
    let inside = |at: usize| at.clamp(start, end) - start;
    let marks: Vec<_> = places.iter().map(|(place, _)| inside(place.start)..inside(place.end)).collect();
    let window = window(head.file.text.get(start..end).unwrap_or(""), &marks);
    let notes = window.marks.into_iter().zip(places).enumerate().map(|(number, (mark, (_, label)))| {
        let kind = if first && number == 0 { AnnotationKind::Primary } else { AnnotationKind::Context };
        kind.span(mark).label(Some(plain(&label.text.english())).filter(|text| !text.is_empty()))
    });
    let snippet = Snippet::source(window.text).line_start(top).annotations(notes);
    let path = plain(&lines.path(head.file));
    if window.cut {
        // The library would count the column in the shortened line.
        let origin = Origin::path(path).line(head.line).char_column(head.column);
        return vec![origin.into(), snippet.into()];
    }
    vec![snippet.path(path).into()]
}

//! The part of a file that a finding shows, made safe to print, long lines cut short.

use std::ops::Range;

use super::plain::visible;

/// Characters kept on each side of a marked place when a line is too long to show whole.
const AROUND: usize = 160;
/// Lines up to this many bytes are shown whole (and then trimmed to the width of the terminal).
const LONG: usize = 10_000;

/// A part of a file made safe to print, with the marked ranges moved to where they now lie.
pub(super) struct Window {
    pub(super) text: String,
    pub(super) marks: Vec<Range<usize>>,
    /// Whether something was left out, so that columns of `text` are not those of the file.
    pub(super) cut: bool,
}

/// Prepares `text` for printing. `marks` are byte ranges of it on character boundaries.
///
/// Characters that could steer a terminal are replaced, `\r\n` becomes `\n`, and long lines keep only what lies near a
/// mark, so that one line of many megabytes costs no more than a short one.
pub(super) fn window(text: &str, marks: &[Range<usize>]) -> Window {
    let mut out = String::new();
    let mut moved = vec![0..0; marks.len()];
    let mut at = 0;
    let mut cut = false;
    for line in text.split_inclusive('\n') {
        if line.len() <= LONG {
            copy(line, at, marks, &mut moved, &mut out);
            at += line.len();
            continue;
        }
        for part in parts(line, at, marks) {
            copy(&line[part.clone()], at + part.start, marks, &mut moved, &mut out);
            if part.end < line.len() {
                out.push('…');
                cut = true;
            }
        }
        at += line.len();
    }
    settle(at, out.len(), marks, &mut moved);
    Window { text: out, marks: moved, cut }
}

/// The byte ranges of a long line that are shown: the surroundings of its ends and of the ends of marks.
fn parts(line: &str, at: usize, marks: &[Range<usize>]) -> Vec<Range<usize>> {
    let ends = marks.iter().flat_map(|mark| [mark.start, mark.end]).filter(|end| (at..=at + line.len()).contains(end));
    let mut near: Vec<usize> = ends.map(|end| end - at).chain([0, line.len()]).collect();
    near.sort_unstable();
    let mut parts: Vec<Range<usize>> = Vec::new();
    for end in near {
        let start = line.floor_char_boundary(end.saturating_sub(AROUND));
        let stop = line.ceil_char_boundary((end + AROUND).min(line.len()));
        match parts.last_mut() {
            Some(last) if start <= last.end => last.end = last.end.max(stop),
            _ => parts.push(start..stop),
        }
    }
    parts
}

fn copy(part: &str, at: usize, marks: &[Range<usize>], moved: &mut [Range<usize>], out: &mut String) {
    let mut chars = part.char_indices().peekable();
    while let Some((offset, c)) = chars.next() {
        settle(at + offset, out.len(), marks, moved);
        match c {
            '\n' | '\t' => out.push(c),
            '\r' if chars.peek().is_some_and(|(_, next)| *next == '\n') => {}
            _ => out.push(visible(c).unwrap_or(c)),
        }
    }
    settle(at + part.len(), out.len(), marks, moved);
}

fn settle(from: usize, to: usize, marks: &[Range<usize>], moved: &mut [Range<usize>]) {
    for (mark, moved) in marks.iter().zip(moved) {
        if mark.start == from {
            moved.start = to;
        }
        if mark.end == from {
            moved.end = to;
        }
    }
}

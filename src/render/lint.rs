//! What must hold for every laid-out page, and the pages as text for comparison.
//!
//! The limits are those of an office print that is read in a workshop; contrast follows success criterion
//! 1.4.3 of WCAG 2.1.

use backtack_core::glyphs;

use std::fmt::Write;

use super::page::{Corner, Mark, Page, Run};
use backtack_core::rows::package::PAPER;

/// Smallest type anywhere, points.
const SMALLEST: f64 = 7.0;
/// Smallest type on a sheet that lies on the line, points.
const SMALLEST_ON_LINE: f64 = 10.5;
/// Thinnest line, mm.
const THINNEST: f64 = 0.18;
/// Least contrast of text against its ground.
const CONTRAST: f64 = 4.5;
/// Room above the title block that the running lines may use, mm.
const RUNNING: f64 = 8.0;
/// Room below the frame's top for what a page continues and is part of, mm.
const HEAD: f64 = 7.0;
/// How far letters of one word may reach into each other, em.
const SIDE: f64 = 0.12;
/// How far two inks may reach into each other before they overlap, mm.
const TOUCH: f64 = 0.2;

/// Something wrong on a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Page number, from 1.
    pub page: usize,
    /// What is wrong, in one line, with the text it concerns.
    pub what: String,
}

/// Everything wrong on these pages, in page order.
#[must_use]
pub fn lint(pages: &[Page]) -> Vec<Fault> {
    let mut out = Vec::new();
    for (index, page) in pages.iter().enumerate() {
        let mut found = outside(page);
        found.extend(overlaps(page));
        found.extend(small(page));
        found.extend(thin(page));
        found.extend(faint(page));
        found.extend(missing(page));
        if empty(page) {
            found.push("the page is empty".to_owned());
        }
        out.extend(found.into_iter().map(|what| Fault { page: index + 1, what }));
    }
    out
}

/// The pages as text: per page each run with the left, top, width and height of its ink in tenths of a
/// millimetre, in reading order.
#[must_use]
pub fn page_text(pages: &[Page]) -> String {
    let mut out = String::new();
    for (index, page) in pages.iter().enumerate() {
        // Writing into a String cannot fail, here and below.
        let _ = writeln!(out, "== page {} {}", index + 1, page.sheet);
        for run in page.runs().filter(|run| !run.text.trim().is_empty()) {
            let (low, high) = span(&run.ink);
            let (w, h) = (high[0] - low[0], high[1] - low[1]);
            let _ = writeln!(out, "{:.1} {:.1} {w:.1} {h:.1} | {}", low[0], low[1], run.text.trim_end());
        }
    }
    out
}

fn outside(page: &Page) -> Vec<String> {
    let low = [PAPER.left, PAPER.margin];
    let high = [PAPER.width - PAPER.margin, PAPER.height - PAPER.margin];
    let leaves = |corners: &[Corner; 4], slack: f64| {
        corners.iter().any(|c| (0..2).any(|axis| c[axis] < low[axis] - slack || c[axis] > high[axis] + slack))
    };
    let found = page.marks.iter().filter_map(|mark| match mark {
        Mark::Text(run) if shows(run) && leaves(&run.ink, 0.0) => Some(format!("{} leaves the frame", name(run))),
        Mark::Picture(corners) if leaves(corners, 0.0) => Some("a picture leaves the frame".to_owned()),
        Mark::Shape(form) if leaves(&form.corners, 0.3) => Some("a line or area leaves the frame".to_owned()),
        Mark::Text(_) | Mark::Picture(_) | Mark::Shape(_) => None,
    });
    found.collect()
}

fn overlaps(page: &Page) -> Vec<String> {
    let runs: Vec<&Run> = page.runs().filter(|run| shows(run)).collect();
    let mut out = Vec::new();
    for (index, a) in runs.iter().enumerate() {
        for (at, b) in runs.iter().enumerate().skip(index + 1) {
            if cross(&a.ink, &b.ink) && !(at == index + 1 && joined(a, b)) {
                out.push(format!("{} overlaps {}", name(a), name(b)));
            }
        }
    }
    out
}

/// Whether two runs that follow each other are letters of one word from two built-in families: letters reach into each other
/// by their side bearings, and a mark lies on the letter it belongs to.
fn joined(a: &Run, b: &Run) -> bool {
    let em = a.size * 25.4 / 72.0;
    let ((_, end), (start, _)) = (span(&a.ink), span(&b.ink));
    let mark = b.text.chars().all(glyphs::is_mark);
    (a.size - b.size).abs() < 0.01 && (mark || end[0] - start[0] < SIDE * em)
}

fn small(page: &Page) -> Vec<String> {
    let block = PAPER.height - PAPER.margin - PAPER.block;
    let least = |run: &Run| {
        let in_body = run.ink.iter().all(|c| c[1] > PAPER.margin + HEAD && c[1] < block - RUNNING);
        if in_body && page.sheet == "measurements" { SMALLEST_ON_LINE } else { SMALLEST }
    };
    let runs = page.runs().filter(|run| shows(run) && run.size < least(run) - 0.01);
    runs.map(|run| format!("{} is {:.1} pt, less than {} pt", name(run), run.size, least(run))).collect()
}

fn thin(page: &Page) -> Vec<String> {
    let widths = page.marks.iter().filter_map(|mark| match mark {
        Mark::Shape(form) => form.stroke.filter(|&w| w < THINNEST - 0.001),
        Mark::Text(_) | Mark::Picture(_) => None,
    });
    widths.map(|w| format!("a line is {w:.3} mm wide, less than {THINNEST} mm")).collect()
}

fn faint(page: &Page) -> Vec<String> {
    let mut out = Vec::new();
    for (index, mark) in page.marks.iter().enumerate() {
        let Mark::Text(run) = mark else { continue };
        let ground = page.marks.get(..index).map_or([255; 3], |below| ground(below, &run.ink));
        let ratio = contrast(run.colour, ground);
        if shows(run) && ratio < CONTRAST {
            out.push(format!("{} has contrast {ratio:.1}, less than {CONTRAST}", name(run)));
        }
    }
    out
}

fn missing(page: &Page) -> Vec<String> {
    page.runs().filter(|run| run.missing).map(|run| format!("{} has a character without a glyph", name(run))).collect()
}

/// Nothing between the top of the frame and the running lines at its foot.
fn empty(page: &Page) -> bool {
    let foot = PAPER.height - PAPER.margin - PAPER.block - RUNNING;
    let head = PAPER.margin + RUNNING - 1.5;
    let within = |corners: &[Corner; 4]| corners.iter().any(|c| c[1] > head && c[1] < foot);
    !page.marks.iter().any(|mark| match mark {
        Mark::Text(run) => shows(run) && within(&run.ink),
        Mark::Picture(corners) => within(corners),
        Mark::Shape(_) => false,
    })
}

fn shows(run: &Run) -> bool {
    !run.text.trim().is_empty()
}

fn name(run: &Run) -> String {
    format!("`{}`", run.text.trim())
}

/// Lower and upper corner of the upright box round some corners.
fn span(corners: &[Corner; 4]) -> (Corner, Corner) {
    let fold = |axis: usize, start: f64, pick: fn(f64, f64) -> f64| corners.iter().map(|c| c[axis]).fold(start, pick);
    let low = [0, 1].map(|axis| fold(axis, f64::INFINITY, f64::min));
    let high = [0, 1].map(|axis| fold(axis, f64::NEG_INFINITY, f64::max));
    (low, high)
}

/// Whether two boxes, possibly turned, share more than a touch: no side of either separates them.
fn cross(a: &[Corner; 4], b: &[Corner; 4]) -> bool {
    let sides = [(a[0], a[1]), (a[1], a[2]), (b[0], b[1]), (b[1], b[2])];
    sides.iter().all(|(from, to)| {
        let edge = [to[0] - from[0], to[1] - from[1]];
        let length = (edge[0] * edge[0] + edge[1] * edge[1]).sqrt();
        if length < 1e-9 {
            return false;
        }
        let axis = [-edge[1] / length, edge[0] / length];
        let (a_low, a_high) = shadow(a, axis);
        let (b_low, b_high) = shadow(b, axis);
        a_high.min(b_high) - a_low.max(b_low) > TOUCH
    })
}

/// The reach of a box along a direction.
fn shadow(corners: &[Corner; 4], axis: Corner) -> (f64, f64) {
    let reach = corners.iter().map(|c| c[0] * axis[0] + c[1] * axis[1]);
    reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), r| (low.min(r), high.max(r)))
}

/// The colour below a text: that of the last filled shape painted before it which covers its middle.
fn ground(below: &[Mark], ink: &[Corner; 4]) -> [u8; 3] {
    let (low, high) = span(ink);
    let middle = [f64::midpoint(low[0], high[0]), f64::midpoint(low[1], high[1])];
    let covers = |corners: &[Corner; 4]| {
        let (low, high) = span(corners);
        (0..2).all(|axis| low[axis] <= middle[axis] && middle[axis] <= high[axis])
    };
    let fills = below.iter().rev().filter_map(|mark| match mark {
        Mark::Shape(form) if covers(&form.corners) => form.fill,
        Mark::Shape(_) | Mark::Text(_) | Mark::Picture(_) => None,
    });
    fills.into_iter().next().unwrap_or([255; 3])
}

/// Contrast ratio of two colours after WCAG 2.1.
fn contrast(a: [u8; 3], b: [u8; 3]) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Relative luminance after WCAG 2.1.
#[expect(clippy::disallowed_methods, reason = "a contrast is compared with a limit and never printed")]
fn luminance(colour: [u8; 3]) -> f64 {
    let [r, g, b] = colour.map(|part| {
        let c = f64::from(part) / 255.0;
        if c <= 0.03928 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(text: &str, x: f64, y: f64, size: f64) -> Run {
        let ink = [[x, y], [x + 20.0, y], [x + 20.0, y + 2.0], [x, y + 2.0]];
        Run { text: text.into(), ink, size, colour: [0; 3], missing: false }
    }

    fn faults(marks: Vec<Mark>) -> Vec<String> {
        let page = Page { width: 297.0, height: 210.0, sheet: "measurements".into(), marks };
        lint(&[page]).into_iter().map(|fault| fault.what).collect()
    }

    #[test]
    fn a_good_page_passes() {
        assert!(faults(vec![Mark::Text(run("a", 30.0, 30.0, 10.5))]).is_empty());
    }

    #[test]
    fn each_fault_is_found() {
        let mut grey = run("grey", 100.0, 60.0, 10.5);
        grey.colour = [150; 3];
        let mut tofu = run("tofu", 100.0, 80.0, 10.5);
        tofu.missing = true;
        let line = crate::render::page::Form { corners: [[50.0, 50.0]; 4], stroke: Some(0.1), fill: None };
        let found = faults(vec![
            Mark::Text(run("out", 280.0, 30.0, 10.5)),
            Mark::Text(run("one", 30.0, 40.0, 10.5)),
            Mark::Text(run("two", 45.0, 41.0, 10.5)),
            Mark::Text(run("tiny", 30.0, 60.0, 8.0)),
            Mark::Shape(line),
            Mark::Text(grey),
            Mark::Text(tofu),
        ]);
        let expected = [
            "`out` leaves the frame",
            "`one` overlaps `two`",
            "`tiny` is 8.0 pt, less than 10.5 pt",
            "a line is 0.100 mm wide, less than 0.18 mm",
            "`grey` has contrast 3.0, less than 4.5",
            "`tofu` has a character without a glyph",
        ];
        assert_eq!(found, expected);
    }

    #[test]
    fn a_page_with_running_lines_only_is_empty() {
        let marks = vec![Mark::Text(run("continued", 30.0, 12.0, 9.0)), Mark::Text(run("block", 30.0, 190.0, 7.0))];
        assert_eq!(faults(marks), ["the page is empty"]);
    }

    /// Black on white is 21:1, the end of the scale that WCAG 2.1 defines.
    #[test]
    fn contrast_of_black_on_white_is_21() {
        assert!((contrast([0; 3], [255; 3]) - 21.0).abs() < 1e-9);
    }

    #[test]
    fn turned_boxes_are_separated_by_their_own_sides() {
        let upright = [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]];
        let turned = [[3.0, 0.0], [5.0, 2.0], [3.0, 4.0], [1.0, 2.0]];
        assert!(!cross(&upright, &turned.map(|[x, y]| [x + 1.2, y + 1.2])));
        assert!(cross(&upright, &turned));
    }
}

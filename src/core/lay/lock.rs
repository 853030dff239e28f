//! Lays that were found once and are kept, so that a yardage does not move by itself.
//!
//! An entry belongs to its instance by a key: SHA-256 over the outlines, how often and in which turns they are laid, the
//! fabric with its margins and its gap, and whether dies strike it in rows. The key knows nothing of this program's version, nor of names. An entry is taken only
//! if its positions pass [`valid::check`] on the instance that is wanted.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use sha2::{Digest as _, Sha256};

use super::instance::{Instance, MOST, Turn};
use super::laid::{Lay, Placed};
use super::valid;
use crate::geom::grid::{GridPoint, STEPS, millimetres};

/// Name of the file beside the specification.
pub const FILE: &str = "backtack.lock";
/// Version of its format.
pub const FORMAT: u32 = 1;

/// One kept lay.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// What is laid, for people: `Black plush, S × 12`.
    pub title: String,
    /// `product`, `sizes` or `order ID`.
    pub of: String,
    /// Length of the lay, µm.
    pub length: i64,
    /// Places that were tried.
    pub evaluations: u64,
    /// Names of the pieces of the instance, for people.
    pub names: Vec<String>,
    /// Each placed piece: its number in the instance, its copy, its turn and its place.
    pub placed: Vec<Placed>,
}

/// Every kept lay by its key.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Lock {
    /// Entries by key, 64 hexadecimal digits.
    pub entries: BTreeMap<String, Entry>,
}

/// What decides where pieces lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Pattern {
    /// Wherever they fit: for knives and lasers.
    #[default]
    Free,
    /// Struck in rows: for dies.
    Rows,
}

/// The key of an instance laid in a pattern. Pieces of one outline, turns and fold count together, whatever they are called.
pub fn key(instance: &Instance, pattern: Pattern) -> String {
    let mut lines: Vec<String> = Vec::new();
    let fabric = instance.fabric;
    for piece in &instance.pieces {
        let mut line = format!("{} {}", piece.demand, u8::from(piece.fold));
        for turn in &piece.turns {
            let _ = write!(line, " {}{}", turn.degrees, if turn.mirrored { "m" } else { "" });
        }
        line.push(':');
        for point in &piece.outline.points {
            let _ = write!(line, " {},{}", point.x, point.y);
        }
        lines.push(line);
    }
    let rows = if pattern == Pattern::Rows { "rows " } else { "" };
    let head = format!("{rows}{} {} {} {}\n", fabric.width, fabric.edge, fabric.end, fabric.gap);
    let digest = Sha256::digest((head + &lines.join("\n")).as_bytes());
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}

impl Lock {
    /// The lay that is kept under a key, if it fits the instance.
    pub fn lay(&self, key: &str, instance: &Instance) -> Option<Lay> {
        let entry = self.entries.get(key)?;
        let lay = Lay { length: entry.length, placed: entry.placed.clone() };
        let end = valid::end(instance, &lay)?;
        // Longer than its pieces reach would be as wrong as shorter.
        (valid::check(instance, &lay).is_ok() && entry.length == end + instance.fabric.end).then_some(lay)
    }

    /// The text of the file: one entry a lay, in the order of their titles; what matters first, positions last.
    pub fn text(&self) -> String {
        let mut text =
            format!("# Lays found by backtack. `backtack lay DIR` finds them again; do not edit.\nformat = {FORMAT}\n");
        let mut entries: Vec<_> = self.entries.iter().collect();
        entries.sort_by(|(a, one), (b, other)| (&one.of, &one.title, a).cmp(&(&other.of, &other.title, b)));
        for (key, entry) in entries {
            let _ = write!(
                text,
                "\n[[lay]]\nwhat = {}\nof = {}\nlength = \"{} mm\"\nevaluations = {}\nkey = \"{key}\"\nplaces = [\n",
                quoted(&entry.title),
                quoted(&entry.of),
                millimetres(entry.length),
                entry.evaluations
            );
            for placed in &entry.placed {
                let name = entry.names.get(placed.piece).map_or("?", String::as_str);
                let _ = writeln!(text, "  {},", quoted(&place(placed, name)));
            }
            text.push_str("]\n");
        }
        text
    }
}

/// `3.1 SIDE 12.345 67.8`, and a turn where there is one: number of the piece and its copy, its name, along and across the
/// roll in mm, degrees.
fn place(placed: &Placed, name: &str) -> String {
    let (x, y) = (millimetres(placed.at.x), millimetres(placed.at.y));
    let turn = match placed.turn {
        Turn { degrees: 0.0, mirrored: false } => String::new(),
        Turn { degrees, mirrored } => format!(" {degrees}{}", if mirrored { " mirrored" } else { "" }),
    };
    format!("{}.{} {} {x} {y}{turn}", placed.piece + 1, placed.copy + 1, name.replace(' ', "_"))
}

/// A place as it is written, and the name of the piece; none if it is not.
pub fn placed(text: &str) -> Option<(Placed, &str)> {
    let words: Vec<&str> = text.split(' ').collect();
    let (number, rest) = words.split_first()?;
    let (piece, copy) = number.split_once('.')?;
    let count = |text: &str| text.parse::<usize>().ok()?.checked_sub(1);
    let (x, y, turn) = match rest {
        [_, x, y] => (x, y, Turn::NONE),
        [_, x, y, degrees] => (x, y, Turn::by(degrees.parse().ok()?)),
        [_, x, y, degrees, "mirrored"] => (x, y, Turn { degrees: degrees.parse().ok()?, mirrored: true }),
        _ => return None,
    };
    let at = GridPoint::new(steps(x)?, steps(y)?);
    let placed = Placed { piece: count(piece)?, copy: count(copy)?, turn, at };
    (placed.piece < MOST).then_some((placed, rest.first()?))
}

/// Millimetres as written on the grid.
pub fn steps(text: &str) -> Option<i64> {
    let value = text.parse::<f64>().ok()? * STEPS;
    (value.is_finite() && value.abs() < 1e12).then(|| value.round() as i64)
}

/// A TOML string.
fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => {
                out.push('\\');
                out.push(c);
            }
            c if c.is_control() => {
                let _ = write!(out, "\\u{:04X}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

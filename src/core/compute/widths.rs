//! The allowance at a seam as sheets print it: what is stated along both sides, and of which of them it is printed.

use serde::Serialize;

use crate::model::{Joint, SeamSide};
use crate::units::Quantity;

use super::input::Ground;

/// Of which side of a seam the allowance is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Sides {
    /// Once: both sides have the same in every size.
    Alike,
    /// Side `a` alone: nothing is known of side `b`.
    A,
    /// Side `b` alone: nothing is known of side `a`.
    B,
    /// Each side by its own ply: they differ.
    Each,
    /// Neither: nothing is known of both.
    None,
}

/// The allowance along both sides of a seam in a size, as written, each width once, in the order of its edges.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Widths {
    /// Along side `a`.
    pub a: Vec<String>,
    /// Along side `b`.
    pub b: Vec<String>,
}

impl Widths {
    /// The allowance of a seam in a size.
    pub(super) fn of(ground: &Ground<'_>, joint: &Joint, size: &str) -> Widths {
        let [a, b] = [SeamSide::A, SeamSide::B].map(|side| written(ground, joint, side, size));
        Widths { a, b }
    }
}

impl Sides {
    /// Which sides are printed of a seam with these allowances by size.
    pub(super) fn of<'a>(sizes: impl IntoIterator<Item = &'a Widths>) -> Sides {
        let (mut a, mut b, mut alike) = (false, false, true);
        for widths in sizes {
            a |= !widths.a.is_empty();
            b |= !widths.b.is_empty();
            alike &= widths.a == widths.b;
        }
        match (a, b) {
            (false, false) => Sides::None,
            (true, false) => Sides::A,
            (false, true) => Sides::B,
            (true, true) if alike => Sides::Alike,
            (true, true) => Sides::Each,
        }
    }
}

fn written(ground: &Ground<'_>, joint: &Joint, side: SeamSide, size: &str) -> Vec<String> {
    let mut texts: Vec<String> = Vec::new();
    for stated in ground.assembly.allowances(ground.model, joint, side, size) {
        let text = stated.known().map_or(String::new(), Quantity::written);
        if !text.is_empty() && !texts.contains(&text) {
            texts.push(text);
        }
    }
    texts
}

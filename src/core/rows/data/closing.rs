//! What is around the specification: how to read it, cautions, what is signed.

use serde::Serialize;

use super::super::package::{Fact, Head};
use super::{Callout, Signs};
use crate::words::Phrase;

/// How to read a package.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Guide {
    /// Title, name, lead.
    pub head: Head,
    /// How copies and edges are written.
    pub codes: Vec<Callout>,
    /// Signs in texts and tables.
    pub signs: Vec<Callout>,
    /// Lines and marks on the drawings of pieces.
    pub lines: Signs,
    /// What a dashed box is.
    pub blank: Phrase,
    /// What a bar is.
    pub bar: Phrase,
    /// What the digest is.
    pub digest: Phrase,
    /// Rules of precedence, first wins, one sentence each.
    pub precedence: Vec<Phrase>,
    /// Which language decides, where there are two.
    pub deciding: Phrase,
}

/// The cautions.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Safety {
    /// Title, name, lead.
    pub head: Head,
    /// The cautions, in columns of about one height.
    pub columns: Vec<Vec<CautionRow>>,
    /// Who decides.
    pub deferral: Phrase,
}

/// One caution.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct CautionRow {
    /// Its title.
    pub title: Phrase,
    /// What to mind.
    pub text: Phrase,
    /// What it follows.
    pub follows: Phrase,
}

/// Something that the next stage needs.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Required {
    /// What.
    pub label: Phrase,
    /// What is asked for, or how it was approved.
    pub value: Phrase,
    /// Whether it is approved.
    pub done: bool,
}

/// The blanks of one sheet.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Blank {
    /// The sheet.
    pub sheet: Phrase,
    /// What is to be filled in there.
    pub what: Phrase,
    /// The page it begins on, as `{sheet:KIND}`.
    pub page: String,
}

/// The confirmation.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Confirmation {
    /// Title, name, lead.
    pub head: Head,
    /// Points to confirm with yes, no, our proposal.
    pub items: Vec<Callout>,
    /// What the next stage needs: what is open is ticked by hand when there, then what is approved already.
    pub required: Vec<Required>,
    /// What the signature covers, one sentence each.
    pub covers: Vec<Phrase>,
    /// What is signed: revision, digest, stage, written out.
    pub signed: Vec<Fact>,
    /// What is put right in bulk and looked at inline.
    pub checklist: Vec<Phrase>,
    /// The sealed samples: tag, date, who has a set, what was accepted, until when.
    pub sealed: Vec<Vec<Fact>>,
    /// Digest of the manifest, 64 digits; empty where the revision is not sealed.
    pub manifest: String,
    /// What other sheets leave to be filled in by hand.
    pub blanks: Vec<Blank>,
    /// By when it is answered, and blanks for who answered it and when.
    pub answer: Vec<Fact>,
    /// What a deviation is, and what is said of one.
    pub deviation: Phrase,
    /// Heads of its blanks: sheet, point, what instead.
    pub deviations: Vec<Phrase>,
    /// Who signs, two or three: "For the buyer", "For the factory".
    pub parties: Vec<Phrase>,
}

//! What stands last: cautions, and what is signed.

use serde::Serialize;

use super::super::package::{Fact, Head};
use super::Callout;
use crate::words::Phrase;

/// The cautions.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Safety {
    /// Title, name, lead.
    pub head: Head,
    /// One row a caution.
    pub rows: Vec<CautionRow>,
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
    /// What it follows, one line each.
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
    /// Who signs, two or three: "For the buyer", "For the factory".
    pub parties: Vec<Phrase>,
}

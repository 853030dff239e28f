//! The stages of a style, from the first idea to bulk.

use super::Model;
use crate::source::Span;

/// Where a style stands, earliest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// First samples; also where no stage is given.
    Prototype,
    /// Counter samples, to be approved.
    CounterSample,
    /// The last before bulk.
    PreProduction,
    /// Bulk.
    Bulk,
}

impl Stage {
    /// Every stage, as it is written and meant.
    pub const ALL: [(&'static str, Stage); 4] = [
        ("prototype", Stage::Prototype),
        ("counter sample", Stage::CounterSample),
        ("pre-production", Stage::PreProduction),
        ("bulk", Stage::Bulk),
    ];

    /// As it is written.
    pub fn word(self) -> &'static str {
        Stage::ALL.iter().find(|(_, stage)| *stage == self).map_or("", |(word, _)| word)
    }

    /// The stage after it.
    pub fn next(self) -> Option<Stage> {
        Stage::ALL.iter().map(|(_, stage)| *stage).find(|stage| *stage > self)
    }

    /// Where a specification states its stage.
    pub fn place(model: &Model) -> Option<Span> {
        model.revision.stage.as_ref().map(|stage| stage.span)
    }

    /// The stage of a specification.
    pub fn of(model: &Model) -> Stage {
        match model.revision.stage.as_ref().and_then(|stage| stage.known()).map(String::as_str) {
            Some("counter sample") => Stage::CounterSample,
            Some("pre-production") => Stage::PreProduction,
            Some("bulk") => Stage::Bulk,
            _ => Stage::Prototype,
        }
    }
}

use crate::model::Model;

/// Where a style stands, earliest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// First samples; also where no stage is given.
    Prototype,
    /// Samples for approval.
    Approval,
    /// The last before bulk.
    PreProduction,
    /// Bulk.
    Bulk,
}

impl Stage {
    /// The stage of a specification.
    pub fn of(model: &Model) -> Stage {
        match model.revision.stage.as_ref().and_then(|stage| stage.known()).map(String::as_str) {
            Some("approval") => Stage::Approval,
            Some("pre-production") => Stage::PreProduction,
            Some("bulk") => Stage::Bulk,
            _ => Stage::Prototype,
        }
    }
}

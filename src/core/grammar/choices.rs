//! Words that values of keys choose from, and tables that they refer to.

/// What a layer of a piece is cut from.
pub const FABRICS: &[&str] = &["role", "fabric"];
/// What is filled in.
pub const FILLINGS: &[&str] = &["role", "filling"];
/// What is sewn with.
pub const THREADS: &[&str] = &["role", "thread"];
/// What is bought by the piece or by length.
pub const TRIMS: &[&str] = &["role", "trim"];
/// What is a step of the work.
pub const WORK: &[&str] = &["seam", "opening", "edge-finish", "topstitch", "attach", "step"];
/// What a product can be to the law.
pub const PRODUCTS: &[&str] = &["toy", "household textile", "bag", "other"];
/// Stages a style goes through.
pub const STAGES: &[&str] = &["prototype", "counter sample", "pre-production", "bulk"];
/// What a part can be.
pub const FORMS: &[&str] = &["stuffed", "ring", "cover", "flat"];
/// What a step can do; any other word is taken as the user's own.
pub const DEEDS: &[&str] = &["turn", "fill", "insert"];
/// What is done to an edge.
pub const FINISHES: &[&str] = &["raw", "hem", "bound", "fold", "overlocked"];
/// States a measurement can be taken in.
pub const STATES: &[&str] = &["cut", "sewn", "stuffed", "finished", "packed"];

//! How much of a drawing is read, and the name space of SVG.

/// The name space of SVG.
pub(super) const NAMESPACE: &str = "http://www.w3.org/2000/svg";

/// How much of a drawing is read.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limits {
    /// Bytes.
    pub bytes: usize,
    /// Elements, texts and comments, and elements that `use` makes of them.
    pub nodes: usize,
    /// Elements within each other.
    pub depth: usize,
    /// Attributes of one element.
    pub attributes: usize,
}

pub(super) const LIMITS: Limits = Limits { bytes: 8 << 20, nodes: 200_000, depth: 256, attributes: 1_000 };

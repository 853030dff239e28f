//! The kinds of things that are bought.

/// What kind of thing is bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ArticleKind {
    /// Anything cut from a roll: plush, woven, felt, fusible, wadding.
    Fabric,
    /// Sewing thread.
    Thread,
    /// Filling.
    Filling,
    /// Bought by the piece or by length: zip, cord, eye, label, bag.
    Trim,
}

impl ArticleKind {
    /// The table that declares it, and the word for people.
    pub fn word(self) -> &'static str {
        match self {
            ArticleKind::Fabric => "fabric",
            ArticleKind::Thread => "thread",
            ArticleKind::Filling => "filling",
            ArticleKind::Trim => "trim",
        }
    }
}

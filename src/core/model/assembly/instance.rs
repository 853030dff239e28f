//! Instances: every piece as often as the product has it, and how they are found by piece.

use std::collections::BTreeMap;

use crate::model::Model;

/// One piece of one use of a part in the product.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Instance {
    /// Part id; empty where the piece belongs to none.
    pub part: String,
    /// Use of the part; empty where it is used once.
    pub usage: String,
    /// Piece id.
    pub piece: String,
    /// Copy; empty where the piece is cut once.
    pub copy: String,
    /// Whether it is the mirror image of the drawn outline: a mirrored copy in a mirrored use is not.
    pub mirrored: bool,
}

impl Instance {
    /// As it is written in a chain: `ear.left/EAR.f`.
    pub fn text(&self) -> String {
        let usage = if self.usage.is_empty() { String::new() } else { format!("{}.{}/", self.part, self.usage) };
        format!("{usage}{}", self.short())
    }

    /// As it is written where the use goes without saying: `EAR.f`.
    pub fn short(&self) -> String {
        let copy = if self.copy.is_empty() { String::new() } else { format!(".{}", self.copy) };
        format!("{}{copy}", self.piece)
    }
}

/// All instances of one product, in the order of their names.
pub fn instances(model: &Model) -> Vec<Instance> {
    let mut all = Vec::new();
    for (id, piece) in &model.pieces {
        let part = piece.part.as_ref().map_or("", |part| part.value.as_str());
        let once = [(String::new(), false)];
        let uses: Vec<(String, bool)> = match model.parts.get(part) {
            Some(part) => part.uses.iter().map(|usage| (usage.name.clone(), usage.mirrored)).collect(),
            None => once.to_vec(),
        };
        for (usage, turned) in &uses {
            for copy in &piece.copies {
                all.push(Instance {
                    part: part.to_string(),
                    usage: usage.clone(),
                    piece: id.clone(),
                    copy: copy.name.clone(),
                    mirrored: copy.mirrored != *turned,
                });
            }
        }
    }
    all.sort();
    all
}

/// Instances by piece, so that no search runs over all of them.
#[derive(Debug)]
pub struct Index<'a> {
    by: BTreeMap<&'a str, Vec<usize>>,
}

impl<'a> Index<'a> {
    /// Indexes the instances.
    pub fn of(instances: &'a [Instance]) -> Self {
        let mut by: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        for (at, one) in instances.iter().enumerate() {
            by.entry(&one.piece).or_default().push(at);
        }
        Index { by }
    }

    /// The instances of a piece, in the order of their names.
    pub fn piece(&self, piece: &str) -> &[usize] {
        self.by.get(piece).map_or(&[], Vec::as_slice)
    }
}

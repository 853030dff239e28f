//! Seam classes: ISO 4916:1991, *from memory*. The letters of the US system (Federal Standard 751a, ASTM D6193) were
//! *seen*.

use super::Basis;

/// One class of seams.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SeamClass {
    /// The first digit of a seam's number in ISO 4916.
    pub number: u8,
    /// What the class is called.
    pub name: &'static str,
    /// The letters of the US system, where a class has a counterpart.
    pub letters: Option<&'static str>,
}

/// The basis of numbers and names in [`CLASSES`].
pub const BASIS: Basis = Basis::Memory;

/// The eight classes.
pub const CLASSES: &[SeamClass] = &[
    SeamClass { number: 1, name: "superimposed", letters: Some("SS") },
    SeamClass { number: 2, name: "lapped", letters: Some("LS") },
    SeamClass { number: 3, name: "bound", letters: Some("BS") },
    SeamClass { number: 4, name: "flat (butted)", letters: Some("FS") },
    SeamClass { number: 5, name: "decorative or channel stitching", letters: Some("OS") },
    SeamClass { number: 6, name: "edge neatening", letters: Some("EF") },
    SeamClass { number: 7, name: "attaching separate items", letters: None },
    SeamClass { number: 8, name: "single ply construction", letters: None },
];

/// The class with this number.
pub fn class(number: u8) -> Option<&'static SeamClass> {
    CLASSES.iter().find(|class| class.number == number)
}

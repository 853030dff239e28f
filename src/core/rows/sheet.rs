//! What every sheet has: its head, and the kind by which templates and references find it.

use super::data::Sheet;
use super::package::Head;

/// The variants of [`Sheet`] with their kinds.
macro_rules! sheets {
    ($($variant:ident $kind:literal)*) => {
        impl Sheet {
            /// Title, name and lead.
            #[must_use]
            pub fn head(&self) -> &Head {
                match self {
                    $(Sheet::$variant(sheet) => &sheet.head,)*
                }
            }

            /// The name of its template: what `{sheet:KIND}` refers to.
            #[must_use]
            pub fn kind(&self) -> String {
                match self {
                    $(Sheet::$variant(_) => $kind.to_owned(),)*
                }
            }
        }
    };
}
sheets! {
    Cover "cover"
    Guide "guide"
    Questions "questions"
    Changes "changes"
    Samples "samples"
    Comments "comments"
    Views "views"
    Bill "bill"
    Pieces "pieces"
    Matching "matching"
    Sizes "sizes"
    Marker "marker"
    Construction "construction"
    Filling "filling"
    Measurements "measurements"
    Safety "safety"
    Confirmation "confirmation"
    Plan "plan"
    Fabric "fabric"
}

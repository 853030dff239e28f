//! Every sheet by its kind, which is the name of its template and what `{sheet:KIND}` refers to.

use serde::Serialize;

use super::data;
use super::package::Head;

/// The enum of sheets, each of the struct of its name in [`data`].
macro_rules! sheets {
    ($(#[doc = $doc:literal] $variant:ident)*) => {
        /// Any sheet.
        #[derive(Debug, Clone, PartialEq, Serialize)]
        #[serde(tag = "kind", rename_all = "lowercase")]
        pub enum Sheet {
            $(#[doc = $doc] $variant(data::$variant),)*
        }

        impl Sheet {
            /// Title, name and lead.
            #[must_use]
            pub fn head(&self) -> &Head {
                match self {
                    $(Sheet::$variant(sheet) => &sheet.head,)*
                }
            }

            /// Its kind: the name of its template.
            #[must_use]
            pub fn kind(&self) -> String {
                match self {
                    $(Sheet::$variant(_) => stringify!($variant).to_lowercase(),)*
                }
            }
        }
    };
}

// In page order.
sheets! {
    /// What is ordered.
    Cover
    /// How to read the rest.
    Guide
    /// The standing findings.
    Questions
    /// What is new since the last sealed revision.
    Changes
    /// What a sample shows.
    Samples
    /// What was said of samples, and approvals.
    Comments
    /// What it looks like.
    Views
    /// What to buy.
    Bill
    /// What to cut.
    Pieces
    /// What meets what.
    Matching
    /// How to lay the fabric.
    Marker
    /// What to sew, in order.
    Construction
    /// What to fill it with.
    Filling
    /// What to measure.
    Measurements
    /// What to take care of.
    Safety
    /// What to sign.
    Confirmation
    /// How to cut an order.
    Plan
    /// How much fabric to order.
    Fabric
    /// What is tied together.
    Bundles
    /// What is written down while spreading.
    Spreading
    /// How often dies strike.
    Strikes
}

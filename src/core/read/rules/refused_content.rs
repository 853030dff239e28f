//! Rule: an SVG file with text, pictures, scripts, references to other files, or declarations of its own.

use crate::diag::{Finding, Rule, Severity};
use crate::words::{Word, say, words};

/// What a drawing of outlines must not hold.
pub const RULE: Rule = Rule {
    code: "refused-content",
    family: "outline",
    severity: Severity::Must,
    summary: "an SVG file with text, pictures, scripts, references to other files, or declarations of its own",
    explanation: "A drawing is read for its lines. Text looks different on every machine and is lost on the cut piece; a \
                  picture has no edge to follow; a script, an animation or a file somewhere else can change what is \
                  drawn after it was checked. None of it is opened or run.",
    failing: "[piece.SIDE]\noutline = { svg = \"side.svg\" } # with a text \"Side, cut 2\" beside the outline",
    passing: "[piece.SIDE]\nnote = \"cut 2\"\noutline = { svg = \"side.svg\" } # with the text deleted",
    source: "common practice",
};

words! {
    TEXT "refused-content.text" = "text";
    PICTURE "refused-content.picture" = "a picture";
    REFERENCE "refused-content.reference" = "a reference to something outside the file";
    DOCTYPE "refused-content.doctype" = "a document type with declarations of its own";
    SCRIPT "refused-content.script" = "a script";
    ANIMATION "refused-content.animation" = "an animation";
    FOREIGN "refused-content.foreign" = "foreign content";
    MESSAGE "refused-content.message" = "{path} holds {what}";
    OUTLINE_TEXT "refused-content.outline-text" = "delete it, turn it into paths in the editor, or hide its layer; what it says belongs in the TOML";
    TRACE "refused-content.trace" = "trace what is needed as a path, then delete the picture or hide its layer";
    EMBED "refused-content.embed" = "embed what is needed in the file, or delete the reference";
    SAVE_PLAIN "refused-content.save-plain" = "save it again as plain SVG, without the editor's own data";
    DELETE "refused-content.delete" = "delete it, or save the drawing again as plain SVG";
}

/// Content of one kind; the places are still to be added.
pub fn refused_content(path: &str, what: Word) -> Finding {
    let cure = match what {
        TEXT => OUTLINE_TEXT,
        PICTURE => TRACE,
        REFERENCE => EMBED,
        DOCTYPE => SAVE_PLAIN,
        _ => DELETE,
    };
    Finding::new(&RULE, say!(MESSAGE, path, what)).help(cure)
}

//! Rule: a file cannot be read, is too large, or is not what its name says.

use crate::diag::{Finding, Rule, Severity};
use crate::words::{Phrase, say, words};

/// A file that cannot be used.
pub const RULE: Rule = Rule {
    code: "unreadable-file",
    family: "files",
    severity: Severity::Must,
    summary: "a file cannot be read, is too large, or is not what its name says",
    explanation: "A specification is text and pictures of ordinary size. Limits keep a slip (a film clip, a copied \
                  disk image) from stopping everything: one file 8 MB, a folder 256 MB, 2,000 pieces, a picture of 40 \
                  million pixels. Files must lie below the root folder, so that what is sealed can be opened anywhere.",
    failing: "# style.toml saved as UTF-16 by an old editor",
    passing: "# the same file saved as UTF-8",
    source: "limits: common practice",
};

words! {
    NOT_UTF8 "unreadable-file.not-utf8" = "{name} is not UTF-8 text: byte {at} does not belong";
    SAVE_AGAIN "unreadable-file.save-again" = "save it again as UTF-8";
    TOO_LARGE "unreadable-file.too-large" = "{name} has {size} MB; at most {limit} MB are read";
    MAKE_SMALLER "unreadable-file.make-smaller" = "make it smaller or leave it out";
    TOO_LARGE_FOLDER "unreadable-file.too-large-folder" = "with {name} the folder passes {limit} MB; it was left out";
    MOVE_BELONG "unreadable-file.move-belong" = "move what does not belong to the specification elsewhere";
    TOO_MANY_PIECES "unreadable-file.too-many-pieces" = "there are {count} pieces; at most {limit} are read";
    SPLIT_STYLE "unreadable-file.split-style" = "split the style";
    LINK "unreadable-file.link" = "{name} is a link that leads out of the folder; it was not followed";
    PUT_FILE "unreadable-file.put-file" = "put the file itself into the folder";
    NO_ACCESS "unreadable-file.no-access" = "{name} cannot be read: {reason}";
    BAD_PICTURE "unreadable-file.bad-picture" = "{name} cannot be used as a picture: {reason}";
    SAVE_AGAIN_PNG "unreadable-file.save-again-png" = "save it again as PNG or JPEG, RGB or grey, 8 bits a channel, or as SVG with a name in .svg";
}

/// A file that is not UTF-8 text.
pub fn not_text(name: &str, at: usize) -> Finding {
    Finding::new(&RULE, say!(NOT_UTF8, name, at)).help(SAVE_AGAIN)
}

/// A file over the limit.
pub fn too_large(name: &str, size: u64, limit: u64) -> Finding {
    let (size, limit) = (size.div_ceil(1 << 20), limit >> 20);
    Finding::new(&RULE, say!(TOO_LARGE, name, size, limit)).help(MAKE_SMALLER)
}

/// A folder over the limit.
pub fn too_much(name: &str, limit: u64) -> Finding {
    Finding::new(&RULE, say!(TOO_LARGE_FOLDER, name, limit = limit >> 20)).help(MOVE_BELONG)
}

/// More pieces than are read.
pub fn too_many(count: usize, limit: usize) -> Finding {
    Finding::new(&RULE, say!(TOO_MANY_PIECES, count, limit)).help(SPLIT_STYLE)
}

/// A link out of the root.
pub fn leads_out(name: &str) -> Finding {
    Finding::new(&RULE, say!(LINK, name)).help(PUT_FILE)
}

/// A file the system does not give.
pub fn no_access(name: &str, reason: impl Into<Phrase>) -> Finding {
    Finding::new(&RULE, say!(NO_ACCESS, name, reason))
}

/// A picture that does not decode.
pub fn bad_picture(name: &str, reason: impl Into<Phrase>) -> Finding {
    Finding::new(&RULE, say!(BAD_PICTURE, name, reason)).help(SAVE_AGAIN_PNG)
}

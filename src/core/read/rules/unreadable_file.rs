//! Rule: a file cannot be read, is too large, or is not what its name says.

use crate::diag::{Finding, Rule, Severity};

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

/// A file that is not UTF-8 text.
pub fn not_text(name: &str, at: usize) -> Finding {
    Finding::new(&RULE, format!("{name} is not UTF-8 text: byte {at} does not belong")).help("save it again as UTF-8")
}

/// A file over the limit.
pub fn too_large(name: &str, size: u64, limit: u64) -> Finding {
    let (size, limit) = (size.div_ceil(1 << 20), limit >> 20);
    Finding::new(&RULE, format!("{name} has {size} MB; at most {limit} MB are read"))
        .help("make it smaller or leave it out")
}

/// A folder over the limit.
pub fn too_much(name: &str, limit: u64) -> Finding {
    Finding::new(&RULE, format!("with {name} the folder passes {} MB; it was left out", limit >> 20))
        .help("move what does not belong to the specification elsewhere")
}

/// More pieces than are read.
pub fn too_many(count: usize, limit: usize) -> Finding {
    Finding::new(&RULE, format!("there are {count} pieces; at most {limit} are read")).help("split the style")
}

/// A link out of the root.
pub fn leads_out(name: &str) -> Finding {
    Finding::new(&RULE, format!("{name} is a link that leads out of the folder; it was not followed"))
        .help("put the file itself into the folder")
}

/// A file the system does not give.
pub fn no_access(name: &str, reason: &str) -> Finding {
    Finding::new(&RULE, format!("{name} cannot be read: {reason}"))
}

/// A picture that does not decode.
pub fn bad_picture(name: &str, reason: &str) -> Finding {
    Finding::new(&RULE, format!("{name} cannot be used as a picture: {reason}"))
        .help("save it again as PNG or JPEG, RGB or grey, 8 bits a channel, or as SVG with a name in .svg")
}

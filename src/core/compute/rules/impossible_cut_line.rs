//! Rule: an allowance leaves no line to sew or cut along.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

use super::{Ground, refused, with_element};

/// An allowance that leaves no line to sew or cut along.
pub const RULE: Rule = Rule {
    code: "impossible-cut-line",
    family: "piece",
    severity: Severity::Must,
    summary: "an allowance leaves no line to sew or cut along",
    explanation: "Where the cut line is drawn, the sew line lies the allowance inside it; a layer cut inside the sew line \
                  lies that far within. A narrow piece can have nothing left there, or fall apart, and then nothing that \
                  depends on the line can be computed.",
    failing: "[piece.STRAP]\noutline = { shape = \"rectangle\", width = \"16 mm\", height = \"300 mm\", is = \"cut \
              line\" }\nallowance = \"10 mm\"",
    passing: "[piece.STRAP]\noutline = { shape = \"rectangle\", width = \"36 mm\", height = \"300 mm\", is = \"cut \
              line\" }\nallowance = \"10 mm\"",
    source: "plane geometry",
};

words! {
    MESSAGE "impossible-cut-line.message" = "{piece} {cut} in size {sizes}: {message}";
    HERE "impossible-cut-line.here" = "too wide for this piece";
    HELP "impossible-cut-line.help" = "make it narrower, or the piece wider";
}

/// Reports each layer once, with every size it fails in.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for (one, sizes) in refused(ground, false) {
        let message = say!(MESSAGE, piece = &one.piece, cut = &one.cut, sizes, message = &one.message);
        let finding = Finding::new(&RULE, message).at(one.span, HERE);
        let finding = with_element(ground, &one.piece, &one.size, finding);
        findings.push(finding.help(HELP));
    }
}

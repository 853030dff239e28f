//! Rule: an edge of a drawn cut line has no length left on the sew line.

use crate::diag::{Finding, Findings, Rule, Severity};
use crate::words::{say, words};

use super::{Ground, refused, with_element};

/// An edge of which nothing is left on the sew line.
pub const RULE: Rule = Rule {
    code: "vanished-edge",
    family: "piece",
    severity: Severity::Must,
    summary: "an edge of a drawn cut line has no length left on the sew line",
    explanation: "Where the cut line is drawn, the sew line lies the allowance inside it. A short edge between two long \
                  ones can vanish there, and then the seam that is to be sewn along it has no length.",
    failing: "[piece.TAB]\nallowance = \"10 mm\"\noutline = { shape = \"polygon\", is = \"cut line\", corners = [[\"a\", \"0 \
              mm\", \"0 mm\"], [\"b\", \"90 mm\", \"0 mm\"], [\"c\", \"50 mm\", \"60 mm\"], [\"d\", \"45 mm\", \"60 mm\"]] }",
    passing: "[piece.TAB]\nallowance = \"10 mm\"\noutline = { shape = \"polygon\", is = \"cut line\", corners = [[\"a\", \"0 \
              mm\", \"0 mm\"], [\"b\", \"90 mm\", \"0 mm\"], [\"c\", \"65 mm\", \"60 mm\"], [\"d\", \"25 mm\", \"60 mm\"]] }",
    source: "plane geometry",
};

words! {
    MESSAGE "vanished-edge.message" = "{piece} {cut} in size {sizes}: {message}";
    HERE "vanished-edge.here" = "more than this edge can give";
    HELP "vanished-edge.help" = "make the edge longer or the allowance beside it narrower, or draw the sew line";
}

/// Reports each layer once, with every size it fails in.
pub fn check(ground: &Ground<'_>, findings: &mut Findings) {
    for (one, sizes) in refused(ground, true) {
        let message = say!(MESSAGE, piece = &one.piece, cut = &one.cut, sizes, message = &one.message);
        let finding = Finding::new(&RULE, message).at(one.span, HERE);
        let finding = with_element(ground, &one.piece, &one.size, finding);
        findings.push(finding.help(HELP));
    }
}

use crate::diag::{Finding, Findings, Rule, Severity};

use super::Drawn;

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

/// Reports each layer once, with every size it fails in.
pub fn check(drawn: &Drawn, findings: &mut Findings) {
    let mut told = Vec::new();
    for refused in &drawn.refused {
        let layer = (&refused.piece, &refused.cut);
        if told.contains(&layer) {
            continue;
        }
        told.push(layer);
        let same = drawn.refused.iter().filter(|one| (&one.piece, &one.cut) == layer);
        let sizes: Vec<&str> = same.map(|one| one.size.as_str()).collect();
        let message = format!("{} {} in size {}: {}", refused.piece, refused.cut, sizes.join(", "), refused.message);
        let finding = Finding::new(&RULE, message).at(refused.span, "too wide for this piece");
        findings.push(finding.help("make it narrower, or the piece wider"));
    }
}

//! Rule: the product is packed in film.

use crate::check::Context;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::hazard;
use crate::standards::safety;
use crate::words::{say, words};

/// Plastic bags.
pub const RULE: Rule = Rule {
    code: "bag-film",
    family: "safety",
    severity: Severity::Note,
    summary: "the product is packed in film",
    explanation: "Thin film can cling to a face. Thickness, holes and the printed warning depend on the destination.",
    failing: "[trim.bag]\ntype = \"polybag\"\nuse = \"1 pc\"",
    passing: "[trim.wrap]\ntype = \"paper band\"\nuse = \"1 pc\"",
    source: "ISO 8124-1:2009, 4.10; ASTM F963, 4.12; the law of the destination and an accredited laboratory decide",
};

words! {
    MESSAGE "bag-film.message" = "trim {id} is of film and does not say how thick it is";
    HERE "bag-film.here" = "how thick?";
    NO_TOY "bag-film.no-toy" = "many destinations ask for a printed suffocation warning on bags of film, whatever is in them";
    HELP "bag-film.help" = "add thickness = \"0.05 mm\", or what it is, and the warning to be printed in `note`";
}

/// Notes each bag of film that does not say how thick it is.
pub fn check(context: &Context<'_>, findings: &mut Findings) {
    for trim in hazard::film(context.model) {
        if trim.properties.contains_key("thickness") {
            continue;
        }
        let id = &trim.entry.id.value;
        let finding = Finding::new(&RULE, say!(MESSAGE, id)).at(trim.entry.span(), HERE).help(HELP);
        // The figures of the caution are those of toys.
        findings.push(match super::is_toy(context.model) {
            true => super::caution(finding, &safety::BAG_FILM),
            false => finding.help(NO_TOY).help(safety::DEFERRAL),
        });
    }
}

use crate::compute::ground::small;
use crate::compute::lays::Lays;
use crate::diag::{Finding, Findings, Rule, Severity};

use super::Ground;

/// Less of the cloth becomes pieces than is stated.
pub const RULE: Rule = Rule {
    code: "low-utilisation",
    family: "cutting",
    severity: Severity::Should,
    summary: "less of the cloth becomes pieces than is stated",
    explanation: "`utilisation` says how much of the usable cloth should become pieces. A lay below it costs cloth that nobody has counted: a wider roll, another mix of sizes or a divided piece may help.",
    failing: "[cloth.canvas]\nutilisation = \"95 %\" # round pieces never come to that",
    passing: "[cloth.canvas]\nutilisation = \"70 %\"",
    source: "common practice",
};

/// Reports each kept lay once.
pub fn check(ground: &Ground<'_>, lays: &Lays, findings: &mut Findings) {
    for task in &lays.tasks {
        let Some(lay) = &task.lay else { continue };
        let used = crate::lay::report::density(&task.instance, lay);
        let stated = ground.article(&task.bought).and_then(|article| article.quantity("utilisation"));
        let least = stated.and_then(|stated| stated.all().find_map(|one| one.known())).map(small);
        if let (Some(stated), Some(least)) = (stated, least.filter(|least| used < *least)) {
            let [used, asked] = [used, least].map(|share| format!("{:.1} %", share * 100.0));
            let message = format!("{}: {used} of the cloth becomes pieces, {asked} is asked", task.instance.name);
            let help = "search longer (`backtack lay --effort long`), take another width, or ask for less";
            findings.push(Finding::new(&RULE, message).at(stated.span, "asked here").help(help));
        }
    }
}

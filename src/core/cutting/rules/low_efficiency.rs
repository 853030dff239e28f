//! Rule: less of the fabric becomes pieces than is stated.

use std::collections::BTreeMap;

use crate::compute::number::small;
use crate::cutting::figures::LayTasks;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::Span;
use crate::words::{Phrase, say, words};

use crate::compute::input::Ground;

/// Less of the fabric becomes pieces than is stated.
pub const RULE: Rule = Rule {
    code: "low-efficiency",
    family: "cutting",
    severity: Severity::Should,
    summary: "less of the fabric becomes pieces than is stated",
    explanation: "`efficiency` says how much of the usable fabric should become pieces. A lay below it costs fabric that nobody has counted: a wider roll, another mix of sizes or a divided piece may help.",
    failing: "[fabric.canvas]\nefficiency = \"95 %\" # round pieces never come to that",
    passing: "[fabric.canvas]\nefficiency = \"70 %\"",
    source: "common practice",
};

words! {
    LAY "low-efficiency.lay" = "{name} comes to {used}";
    MESSAGE "low-efficiency.message" = "{asked} of the fabric should become pieces: {lays}";
    HELP "low-efficiency.help" = "search longer: backtack lay . --effort long (from the folder of the style); take another width, or ask for less";
    HERE "low-efficiency.here" = "asked here";
}

/// Reports kept lays, one finding for each share that is asked.
pub fn check(ground: &Ground<'_>, lays: &LayTasks, findings: &mut Findings) {
    let percent = |share: f64| format!("{:.1} %", share * 100.0);
    let mut low: BTreeMap<(Span, String), Vec<Phrase>> = BTreeMap::new();
    for task in &lays.tasks {
        let Some(lay) = &task.lay else { continue };
        let used = crate::lay::report::density(&task.instance, lay);
        let stated = ground.article(&task.bought).and_then(|article| article.quantity("efficiency"));
        let least = stated.and_then(|stated| stated.all().find_map(|one| one.known())).map(small);
        if let (Some(stated), Some(least)) = (stated, least.filter(|least| used < *least)) {
            let said = say!(LAY, name = &task.instance.name, used = percent(used));
            low.entry((stated.span, percent(least))).or_default().push(said);
        }
    }
    for ((span, asked), lays) in low {
        let finding = Finding::new(&RULE, say!(MESSAGE, asked, lays = Phrase::list(lays)));
        let help = HELP;
        findings.push(finding.at(span, HERE).help(help));
    }
}

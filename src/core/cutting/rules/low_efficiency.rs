//! Rule: less of the fabric becomes pieces than is stated.

use std::collections::BTreeMap;

use crate::compute::number::small;
use crate::cutting::figures::LayTasks;
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::source::{Edit, Help, Span};
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
    HELP "low-efficiency.help" = "search longer: backtack lay . --effort long (from the folder of the style); or take another width";
    AS_LAID "low-efficiency.as-laid" = "if that is what it takes, ask for what the lay comes to: efficiency = \"{least} %\"";
    HERE "low-efficiency.here" = "asked here";
}

/// Reports kept lays, one finding for each share that is asked.
pub fn check(ground: &Ground<'_>, lays: &LayTasks, findings: &mut Findings) {
    let percent = |share: f64| format!("{:.1} %", share * 100.0);
    let mut low: BTreeMap<(Span, String), (Vec<Phrase>, f64, bool)> = BTreeMap::new();
    for task in &lays.tasks {
        let Some(lay) = &task.lay else { continue };
        let used = crate::lay::report::density(&task.instance, lay);
        let stated = ground.article(&task.bought).and_then(|article| article.quantity("efficiency"));
        let least = stated.and_then(|stated| stated.all().find_map(|one| one.known())).map(small);
        if let (Some(stated), Some(least)) = (stated, least.filter(|least| used < *least)) {
            let said = say!(LAY, name = &task.instance.name, used = percent(used));
            let varies = stated.varies();
            let (list, lowest, _) =
                low.entry((stated.span, percent(least))).or_insert_with(|| (Vec::new(), used, varies));
            list.push(said);
            *lowest = lowest.min(used);
        }
    }
    for ((span, asked), (lays, lowest, varies)) in low {
        let finding = Finding::new(&RULE, say!(MESSAGE, asked, lays = Phrase::list(lays)));
        // Whole percent below what was found, so that the same lay is enough tomorrow.
        let least = libm::floor(lowest * 100.0 + 1e-9);
        let edit = (!varies).then(|| Edit::replace(span, format!("\"{least} %\"")));
        findings
            .push(finding.at(span, HERE).help(HELP).help(Help::with(say!(AS_LAID, least = format!("{least}")), edit)));
    }
}

//! Rule: fabric that lies one way is to be spread face to face, and nobody says that the roll is turned.

use std::collections::BTreeSet;

use crate::compute::Bought;
use crate::cutting::figures::{Direction, LayTasks, Task, cutting};
use crate::diag::{Finding, Findings, Rule, Severity};
use crate::model::Spread;
use crate::words::{say, words};

use crate::compute::input::Ground;

/// Fabric that lies one way is to be spread face to face, and nobody says that the roll is turned.
pub const RULE: Rule = Rule {
    code: "pile-face-to-face",
    family: "cutting",
    severity: Severity::Must,
    summary: "fabric that lies one way is to be spread face to face, and nobody says that the roll is turned",
    explanation: "Spread to and fro, every other ply runs the other way. Where pile or print must run one way, half the pieces \
                  would be wrong. Such fabric is spread one way; or face to face with every ply cut off and the roll turned, \
                  so that pile runs one way on both plies of a pair. Only the cutting room knows which.",
    failing: "[fabric.fur]\npile = \"12 mm\"\n[cutting.room]\nspread = \"face to face\"",
    passing: "[fabric.fur]\npile = \"12 mm\"\n[cutting.room]\nspread = \"face to face, roll turned\"",
    source: "common practice",
};

words! {
    MESSAGE "pile-face-to-face.message" = "{article} lies one way and is to be spread face to face: is every ply cut off and the roll turned?";
    SPREAD "pile-face-to-face.spread" = "face to face";
    ONE_WAY "pile-face-to-face.one-way" = "lies one way";
    HELP "pile-face-to-face.help" = "write spread = \"face to face, roll turned\" if it is, so that pile runs one way on both plies of a pair; else spread = \"one way\"";
}

/// Reports each fabric once.
pub fn check(ground: &Ground<'_>, lays: &LayTasks, findings: &mut Findings) {
    let wrong = |task: &&Task| task.how.spread == Spread::FaceToFace && task.how.direction == Direction::OneWay;
    let fabrics: BTreeSet<&Bought> = lays.tasks.iter().filter(wrong).map(|task| &task.bought).collect();
    let mut told = BTreeSet::new();
    for bought in fabrics.into_iter().filter(|bought| told.insert(&bought.article)) {
        let mut finding = Finding::new(&RULE, say!(MESSAGE, article = &bought.article));
        if let Some(spread) = cutting(ground.model, &bought.article).and_then(|one| one.spread.as_ref()) {
            finding = finding.at(spread.span, SPREAD);
        }
        if let Some(article) = ground.article(bought) {
            let place = article.quantity("pile").map_or(article.entry.span(), |pile| pile.span);
            finding = finding.at(place, ONE_WAY);
        }
        let help = HELP;
        findings.push(finding.help(help));
    }
}

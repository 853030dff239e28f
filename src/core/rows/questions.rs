//! The standing findings, as questions to answer. Left out when there are none.

use crate::diag::{Finding, Severity};
use crate::words::{Phrase, foot, say, sheet as sentences, words};

use super::data::{Question, Questions, Sheet};
use super::items::concerned;
use super::package::Head;
use super::view::View;

words! {
    LEAD "questions.lead" = "Please answer on this sheet or in writing. A question with a bar beside it stops the release.";
    LEAD_BY "questions.lead-by" = "Please answer on this sheet or in writing by {date}. A question with a bar beside it stops the release.";
}

/// One sheet, or none. Notes are for the author of the specification and stay off the page.
pub fn fill(view: &View<'_>) -> Vec<Sheet> {
    let asked: Vec<&Finding> =
        view.findings.iter().filter(|one| one.severity != Severity::Note && one.concession.is_none()).collect();
    if asked.is_empty() {
        return Vec::new();
    }
    let by = view.date(view.model.revision.answer.as_ref());
    let lead = by.map_or_else(|| LEAD.into(), |date| say!(LEAD_BY, date));
    let head = Head { title: sentences::QUESTIONS_TITLE.into(), name: sentences::QUESTIONS.into(), lead };
    let rows = asked.iter().enumerate().map(|(n, finding)| question(view, n + 1, finding)).collect();
    vec![Sheet::Questions(Questions { head, rows })]
}

fn question(view: &View<'_>, number: usize, finding: &Finding) -> Question {
    Question {
        number: number.to_string(),
        stops: finding.severity == Severity::Must,
        text: finding.message.clone().capital(),
        concerns: concerned(view.asked, finding),
    }
}

/// Stands for the number of this sheet until the pages are laid out.
const SHEET: &str = "{sheet:questions}";

/// The line at the foot of every sheet while something stands in the way of the release. The questions of an order stand in
/// the package, so its document says only that it is not released.
pub fn not_released(view: &View<'_>) -> Option<Phrase> {
    let must = view.findings.count(Severity::Must);
    view.has_notice().then(|| match must {
        0 => foot::questions_open(view.findings.count(Severity::Should), SHEET),
        must => foot::not_released(must, view.order.is_none().then_some(SHEET)),
    })
}

//! Comments, approvals and concessions.

use backtack_core::diag::{Findings, Folder, Severity, json, sarif, text};
use backtack_core::read::{self, Loaded};
use backtack_core::samples::figures::{Standing, Verdict};

use super::{figures, loaded};

const COMMENTS: &str = r#"
[comment.b]
about = "FRONT"
action = "should change"
text = "Rounder"
state = "correct in bulk"
[comment.c]
about = "piece.FRONT"
action = "must change"
text = "Sew the corner twice"
state = "correct in bulk"
[comment.a]
about = "style"
text = "Nice"
[approval.dip]
of = "felt/soot"
submissions = [{ number = 2, verdict = "approved with corrections", corrections = "bluer", lab = ["25.5", "0", "0"] }, { number = 1, verdict = "rejected" }]
[approval.light]
of = "outer"
colourway = "light"
until = 2026-11-19
submissions = [{ date = 2026-11-01 }]
"#;

#[test]
fn corrections_go_on_the_checklist_by_weight() {
    let samples = figures(COMMENTS).samples;
    let comments: Vec<&str> = samples.comments.iter().map(|one| one.comment.as_str()).collect();
    assert_eq!(comments, ["c", "b", "a"]);
    assert_eq!((samples.comments[2].action, samples.comments[2].state), ("note", "open"));
    let checklist: Vec<(&str, &str)> =
        samples.checklist.iter().map(|point| (point.id.as_str(), point.text.as_str())).collect();
    assert_eq!(checklist, [("c", "Sew the corner twice"), ("b", "Rounder"), ("dip", "bluer")]);
}

#[test]
fn the_greatest_number_of_a_submission_counts() {
    let samples = figures(COMMENTS).samples;
    let [dip, light] = samples.approvals.as_slice() else { panic!("{:?}", samples.approvals) };
    assert_eq!((dip.standing, dip.required, dip.expired), (Standing::ApprovedWithCorrections, true, false));
    let colour = dip.submissions[0].colour.as_ref().unwrap();
    assert_eq!((colour.colour.as_deref(), colour.mean.verdict), (Some("soot"), Verdict::Inside));
    assert_eq!((light.standing, light.expired), (Standing::Outstanding, true));
}

/// What stands below `private/` is known, and not shown to everyone.
#[test]
fn private_comments_are_not_for_everyone() {
    let own = "[comment.own]\nabout = \"style\"\ntext = \"4711\"\nstate = \"correct in bulk\"\n[sample.own]\nsize = \"S\"\n[approval.own]\n";
    let loaded = read::texts(&[("style.toml", super::STYLE), ("private/x.toml", own), ("samples/one.toml", COMMENTS)]);
    let all = crate::checked(&loaded).figures.samples;
    assert_eq!((all.comments.len(), all.samples.len(), all.approvals.len(), all.checklist.len()), (4, 1, 3, 4));
    let shown = all.for_everyone();
    assert_eq!((shown.comments.len(), shown.samples.len(), shown.approvals.len(), shown.checklist.len()), (3, 0, 2, 3));
}

fn settled(loaded: &Loaded) -> Findings {
    crate::checked(loaded).findings
}

const OPEN: &str = "[comment.eyes]\nabout = \"FRONT\"\naction = \"must change\"\ntext = \"Lower\"\n[comment.nose]\nabout = \
                    \"FRONT\"\naction = \"must change\"\ntext = \"Lower\"\n";

fn concession(item: &str) -> String {
    format!(
        "{OPEN}[concession.w]\nlifts = \"open-comment\"\n{item}\nby = \"E. Morrow\"\nreason = \"hidden by the collar\"\nlimit = \
         \"order A-118\"\ndate = 2026-11-20\nuntil = 2027-05-31\n"
    )
}

/// The comments that no concession lifts, and whether a concession lifts nothing.
fn standing(text: &str) -> (Vec<String>, bool) {
    let findings = settled(&loaded(text));
    let open = findings.iter().filter(|one| one.rule.code == "open-comment" && one.concession.is_none());
    let idle = findings.iter().any(|one| one.rule.code == "concession-lifts-nothing");
    (open.map(|one| one.message.english().split(' ').nth(1).unwrap().to_string()).collect(), idle)
}

#[test]
fn a_concession_lifts_what_it_names_and_no_more() {
    let all = || vec!["eyes".to_string(), "nose".to_string()];
    assert_eq!(standing(OPEN), (all(), false));
    assert_eq!(standing(&concession("item = \"eyes\"")), (vec!["nose".to_string()], false));
    assert_eq!(standing(&concession("item = \"comment.eyes\"")), (vec!["nose".to_string()], false));
    assert_eq!(standing(&concession("item = \"eye\"")), (all(), true), "part of a word");
    assert_eq!(standing(&concession("")), (all(), true), "without an item it would lift two");
    assert_eq!(
        standing(&concession("item = \"eyes\"").replace("2027-05-31", "2026-11-19")),
        (all(), true),
        "past its day"
    );
    assert_eq!(standing(&concession("item = \"eyes\"").replace("by = \"E. Morrow\"", "")), (all(), false), "by nobody");
}

#[test]
fn what_is_conceded_counts_nowhere_and_is_printed_everywhere() {
    let loaded = loaded(&concession("item = \"eyes\""));
    let findings = settled(&loaded);
    let all = findings.iter().filter(|one| one.severity == Severity::Should).count();
    assert_eq!((findings.count(Severity::Should), findings.conceded()), (all - 1, 1));
    let folder = [Folder { name: "bag", root: "", findings: &findings, sources: &loaded.sources }];
    let told = "E. Morrow, 2026-11-20: hidden by the collar (order A-118, until 2027-05-31; concession w)";
    let printed = text::print(&folder, text::Style { color: false, width: 120 });
    assert!(printed.contains(&format!("conceded: {told}")) && printed.contains(", 1 conceded"), "{printed}");
    assert!(json::print(&folder).unwrap().contains(&format!("\"conceded\": \"{told}\"")));
    let log: serde_json::Value = serde_json::from_str(&sarif::print(&folder).unwrap()).unwrap();
    let results = log["runs"][0]["results"].as_array().unwrap();
    let conceded: Vec<&serde_json::Value> = results.iter().filter(|one| one.get("suppressions").is_some()).collect();
    assert_eq!(conceded.len(), 1);
    assert_eq!(conceded[0]["suppressions"][0]["justification"], told);
}

/// What cannot be read is not there, whoever says that it may be.
#[test]
fn broken_files_cannot_be_conceded() {
    let text = concession("item = \"eyes\"").replace("open-comment", "bad-value").replace("\"Lower\"", "4");
    let loaded = read::texts(&[("style.toml", super::STYLE), ("samples/one.toml", &text)]);
    assert_eq!(settled(&loaded).conceded(), 0);
}

//! A toy of two parts that sews together, and four like it that do not.

use backtack_core::diag::{Findings, Folder, text};
use backtack_core::model::Assembly;
use backtack_core::pipeline::Checked;
use backtack_core::read;
use backtack_core::rules;

const TOY: &str = include_str!("../two_part_toy/toy.toml");

/// Findings of the sewing family, and of the family about names, in a text.
pub fn sewing(toml: &str) -> (Assembly, Findings, String) {
    let loaded = read::texts(&[("toy.toml", toml)]);
    let Checked { assembly, findings: all, .. } = crate::checked(&loaded);
    let mut findings = Findings::default();
    for finding in all.iter().filter(|one| matches!(one.rule.family, "sewing" | "reference" | "files")) {
        // The toy says nothing of its materials: other families would.
        if one_of_sewing(finding.rule.code) || finding.rule.family == "files" {
            findings.push(finding.clone());
        }
    }
    let folder = Folder { name: "toy", root: "", findings: &findings, sources: &loaded.sources };
    let printed = text::print(&[folder], text::Style { color: false, width: 120 });
    (assembly, findings, printed)
}

fn one_of_sewing(code: &str) -> bool {
    rules::find(code).is_some_and(|rule| rule.family == "sewing")
}

fn mutant(from: &str, to: &str) -> (Findings, String) {
    assert_eq!(TOY.matches(from).count(), 1, "{from}");
    let (_, findings, printed) = sewing(&TOY.replace(from, to));
    (findings, printed)
}

/// The one finding of a rule: what it says and the first thing to write.
fn only(findings: &Findings, code: &str) -> (String, String) {
    let all: Vec<_> = findings.iter().filter(|one| one.rule.code == code).collect();
    assert_eq!(all.len(), 1, "{findings:#?}");
    (all[0].message.english(), all[0].help.first().map(|help| help.text.english()).unwrap_or_default())
}

#[test]
fn it_sews_together() {
    let (assembly, findings, printed) = sewing(TOY);
    assert!(findings.is_empty(), "{printed}");
    assert!(assembly.troubles.is_empty(), "{:#?}", assembly.troubles);
    assert!(assembly.sewing.whole);
    let body: Vec<_> = assembly.sewing.shells.iter().filter(|shell| shell.faces.len() > 1).collect();
    let [body] = body.as_slice() else { panic!("one body, not {body:#?}") };
    // Counted by hand: the points b=h, n=g, m, m~, c=d, both dart tips, t, u, v; the edges of two darts, four of the
    // gusset, three of the crown, rear and back. A count that takes m and m~ off the gusset, which joins the two edges
    // beside each, has 8 points and 9 edges: the same number, as Euler's formula wants of every subdivision.
    assert_eq!((body.vertices, body.edges, body.faces.len()), (10, 11, 3));
    assert_eq!(body.euler(), 8 - 9 + 3);
    assert_eq!(body.euler(), 2);
    assert_eq!(body.boundary, []);
}

#[test]
fn an_unmirrored_copy_is_refused() {
    let (findings, printed) = mutant(r#"copies = ["l", "r mirrored"]"#, r#"copies = ["l", "r"]"#);
    let (message, help) = only(&findings, "inside-out-seam");
    assert!(message.contains("SIDE.r is sewn inside out"), "{message}");
    assert_eq!(help, r#"write copies = ["l", "r mirrored"] in [piece.SIDE]"#);
    assert_eq!(findings.iter().count(), 1, "{printed}");
    insta::assert_snapshot!("unmirrored_copy", printed);
}

#[test]
fn a_turned_gusset_is_refused() {
    let (findings, printed) = mutant(r#"b = "GUS:h-m-g""#, r#"b = "GUS:g-m-h""#);
    let (message, help) = only(&findings, "inside-out-seam");
    assert!(message.contains("GUS is sewn inside out"), "{message}");
    assert_eq!(help, r#"in belly write b = "GUS:h-m-g""#);
    assert_eq!(findings.iter().count(), 1, "{printed}");
    insta::assert_snapshot!("turned_gusset", printed);
}

#[test]
fn a_wrong_order_is_refused() {
    let (findings, printed) = mutant(r#"["dart", "belly", "crown","#, r#"["belly", "crown", "dart","#);
    let all: Vec<_> = findings.iter().collect();
    assert_eq!(all.len(), 2, "{printed}");
    for (finding, side) in all.iter().zip(["SIDE.l", "SIDE.r"]) {
        assert_eq!(finding.rule.code, "edges-not-joined");
        assert!(
            finding.message.english().contains(&format!("crown goes from c of {side} to d of {side}")),
            "{}",
            finding.message
        );
        let help: Vec<String> = finding.help.iter().map(|help| help.text.english()).collect();
        assert_eq!(help, [r#"write order = ["belly", "dart", "crown", "rear", "turn", "back"]"#]);
    }
    insta::assert_snapshot!("wrong_order", printed);
}

#[test]
fn a_forgotten_seam_is_refused() {
    let crown = "[seam.crown]\na = \"SIDE.l:n-c, d-t-u\"\nb = \"SIDE.r:n-c, d-t-u\"\n";
    assert_eq!(TOY.matches(crown).count(), 1);
    let (_, findings, printed) = sewing(&TOY.replace(crown, "").replace("\"crown\", ", ""));
    let (message, help) = only(&findings, "edge-not-sewn");
    assert!(message.contains("SIDE:n-c, d-t-u"), "{message}");
    assert_eq!(help, r#"if it is sewn, write a seam: a = "SIDE.l:n-c, d-t-u", b = "SIDE.r:n-c, d-t-u""#);
    assert_eq!(findings.iter().count(), 1, "{printed}");
    insta::assert_snapshot!("forgotten_seam", printed);
}

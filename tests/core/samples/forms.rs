//! The file of a new sample: it teaches, is clean, and keeps texts as texts.

use backtack_core::diag::Findings;
use backtack_core::model::Stage;
use backtack_core::pipeline::{Checked, ahead};
use backtack_core::read::{self, Loaded};
use backtack_core::revision::{Ask, Seen, blank, status};

use super::{STYLE, loaded};

fn ask() -> Ask {
    Ask {
        id: "first".into(),
        kind: "prototype".into(),
        size: Some("S".into()),
        colourway: Some("dark".into()),
        pieces: 3,
        due: Some("2026-12-01".parse().unwrap()),
    }
}

fn form(loaded: &Loaded, ask: &Ask) -> Result<String, String> {
    let figures = crate::checked(loaded).figures;
    blank(&loaded.model, &figures, ask)
}

/// Codes of what is found in the style with a file beside it.
fn found(style: &str, more: &[(&str, &str)]) -> Vec<String> {
    let loaded = read::texts(&[&[("style.toml", style)], more].concat());
    let findings = crate::checked(&loaded).findings;
    findings.iter().map(|one| format!("{} {}", one.rule.code, one.message)).collect()
}

const COMMENT: &str = "[comment.c1]\nabout = \"FRONT\"\ntext = \"a \\\"b\\\"\\u007f \\n[x]\"\n";

#[test]
fn the_file_of_a_new_sample_teaches_and_is_clean() {
    let style = loaded(COMMENT);
    let text = form(&style, &ask()).unwrap();
    insta::assert_snapshot!("new-sample", text.replace('\u{a0}', " "));
    for stage in ["counter sample", "bulk"] {
        let style = STYLE.replace("\"approval\"", &format!("\"{stage}\""));
        let with = found(&style, &[("samples/one.toml", COMMENT), ("samples/first.toml", &text)]);
        assert_eq!(with, found(&style, &[("samples/one.toml", COMMENT)]), "{stage}");
    }
    let loaded = read::texts(&[("style.toml", STYLE), ("samples/first.toml", &text)]);
    let sample = &loaded.model.samples.samples["first"];
    assert_eq!((sample.readings.len(), sample.checks.len(), sample.colours.len()), (6, 2, 1));
    assert!(!sample.is_measured() && !sample.counts());
}

/// A text of the user's can neither end a comment line nor a string.
#[test]
fn texts_in_the_file_stay_texts() {
    let style = STYLE.replace("name = \"Bag\"", "name = \"Bag\\n[style]\\u0085\\\"\"");
    let loaded = read::texts(&[("style.toml", &style)]);
    let text = form(&loaded, &ask()).unwrap();
    assert!(toml::de::DeTable::parse(&text).is_ok(), "{text}");
    assert_eq!(text.lines().filter(|line| line.starts_with("[style]")).count(), 0);
}

#[test]
fn a_style_with_one_size_needs_none() {
    let text = "[style]\nid = \"A\"\n[fabric.felt]\n";
    let loaded = read::texts(&[("style.toml", text)]);
    let ask = Ask { size: None, colourway: None, due: None, ..ask() };
    let text = form(&loaded, &ask).unwrap();
    assert!(!text.contains("\nsize =") && !text.contains("\ncolourway ="), "{text}");
    assert!(toml::de::DeTable::parse(&text).is_ok());
}

#[test]
fn what_cannot_be_asked_for_is_one_line() {
    let style = loaded("[sample.first]\nsize = \"S\"\n");
    let bare = || Ask { id: "second".into(), ..ask() };
    for (ask, word) in [
        (ask(), "there is a sample first already"),
        (Ask { id: "../x".into(), ..bare() }, "cannot be an id"),
        (Ask { size: None, ..bare() }, "one of the sizes: S, L"),
        (Ask { size: Some("M".into()), ..bare() }, "one of the sizes: S, L"),
        (Ask { colourway: Some("x".into()), ..bare() }, "there are: dark, light"),
        (Ask { pieces: 0, ..bare() }, "1 to 500 pieces"),
    ] {
        let told = form(&style, &ask).unwrap_err();
        assert!(told.contains(word) && !told.contains('\n'), "{told}");
    }
}

const BUSY: &str = r#"
[sample.counter]
kind = "counter sample"
of = "A"
size = "S"
colourway = "dark"
pieces = 2
measured = 2026-11-01
[sample.counter.readings]
A = ["207 mm", "200 mm"]
D = { left = ["102 mm", "106 mm"], right = ["102 mm", "102 mm"] }
M = ["42 g", "420 g"]
[sample.next]
size = "L"
due = 2026-12-01
[comment.eyes]
about = "FRONT"
action = "must change"
text = "Both of them a long way lower down than they are now, and farther apart from each other"
[comment.ears]
about = "FRONT"
action = "should change"
state = "correct in bulk"
text = "Longer"
[approval.dip]
of = "felt/soot"
kind = "lab dip"
submissions = [{ verdict = "rejected" }]
"#;

fn screen(text: &str) -> String {
    let now = loaded(text);
    let checked = crate::checked(&now);
    let style = STYLE.replace("\"counter sample\"", "\"bulk\"");
    let later = read::texts(&[("style.toml", &style), ("samples/one.toml", text)]);
    let then = ahead(&now, &checked, Stage::Bulk);
    let said = |findings: &Findings| findings.iter().map(|one| one.message.clone()).collect::<Vec<_>>();
    assert_eq!(said(&then), said(&crate::checked(&later).findings), "as if the stage were written");
    let Checked { figures, findings, .. } = &checked;
    status(&Seen { model: &now.model, figures, findings, next: Some((Stage::Bulk, &then)) })
}

#[test]
fn the_screen_says_where_the_style_stands() {
    let out = screen(BUSY);
    assert!(out.lines().all(|line| line.chars().count() <= 80), "{out}");
    assert!(out.lines().count() <= 40, "{out}");
    insta::assert_snapshot!("status", out);
    assert!(screen("").contains("No sample yet"));
}

/// However much there is, it stays one screen, and no text of a user's reaches the terminal as a command.
#[test]
fn the_screen_stays_one_screen() {
    let mut text = BUSY.to_string();
    for number in 0..200 {
        text.push_str(&format!(
            "[comment.c{number}]\nabout = \"FRONT\"\naction = \"must change\"\ntext = \"\\u001b[2J x\"\n"
        ));
        text.push_str(&format!("[approval.a{number}]\nof = \"style\"\n"));
    }
    let out = screen(&text);
    assert!(out.lines().count() <= 45 && out.lines().all(|line| line.chars().count() <= 80), "{out}");
    assert!(!out.contains('\u{1b}') && out.contains("and 196 more"), "{out}");
}

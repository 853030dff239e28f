//! The examples: what their pages hold and where, what is found, every figure. Review a change with
//! `INSTA_UPDATE=always cargo test -p backtack --test package examples` and `git diff`.

use std::fs;
use std::path::Path;

use backtack::render::lint::{lint, page_text};
use backtack_core::diag::{Folder, Severity, text};
use backtack_core::model::Stated;

use crate::built::{Built, examples};

/// Compares with a committed file or, where the environment asks for it, writes that file.
fn golden(name: &str, now: &str) -> Result<(), String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/package/golden").join(name);
    if std::env::var("INSTA_UPDATE").is_ok_and(|value| value == "always") {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, now).unwrap();
    }
    let then = fs::read_to_string(&path).map_err(|error| format!("{name}: {error}"))?;
    if then == now {
        return Ok(());
    }
    let same = then.lines().zip(now.lines()).take_while(|(then, now)| then == now).count();
    let line = |text: &str| text.lines().nth(same).unwrap_or("(end)").to_owned();
    Err(format!("{name}:{}\n  was {}\n  is  {}", same + 1, line(&then), line(now)))
}

/// Compares one text of every example.
fn all_golden(file: &str, of: impl Fn(&Built) -> String) {
    let compared = examples().iter().map(|built| golden(&format!("{}/{file}", built.name), &of(built)));
    let changed: Vec<String> = compared.filter_map(Result::err).collect();
    assert!(
        changed.is_empty(),
        "changed, first difference of each:\n{}\nIf that is meant: INSTA_UPDATE=always cargo test -p backtack --test package examples",
        changed.join("\n")
    );
}

#[test]
fn pages_of_the_examples_pass_the_lint() {
    for built in examples() {
        assert_eq!(lint(&built.package.document.pages()), [], "{}", built.name);
        assert_eq!(built.package.replaced, [], "{}", built.name);
    }
}

#[test]
fn text_and_boxes_of_every_page() {
    all_golden("pages.txt", |built| page_text(&built.package.document.pages()));
}

#[test]
fn findings_of_the_examples() {
    all_golden("findings.txt", |built| {
        let folder =
            Folder { name: &built.name, root: "", findings: &built.checked.findings, sources: &built.loaded.sources };
        text::print(&[folder], text::Style { color: false, width: 120 })
    });
}

#[test]
fn figures_of_the_examples() {
    all_golden("figures.json", |built| built.package.figures.clone());
}

#[test]
fn drawings_of_the_examples() {
    all_golden("drawings.txt", |built| {
        let all = built.package.drawings.iter().map(|(name, svg)| format!("== {name}\n{svg}\n"));
        all.collect::<String>()
    });
}

/// An example is something to copy: nothing stands in the way of sending it.
#[test]
fn examples_can_be_released() {
    for built in examples() {
        assert_eq!(built.checked.findings.count(Severity::Must), 0, "{}", built.name);
    }
}

/// Every kind of drawing comes out as a file, and none under the name of another.
#[test]
fn drawings_have_names_of_their_own() {
    for built in examples() {
        let mut names: Vec<&String> = built.package.drawings.iter().map(|(name, _)| name).collect();
        let all = names.len();
        names.sort();
        names.dedup();
        assert!(all > 0 && names.len() == all, "{}: {names:?}", built.name);
    }
}

/// A drawing that lies by itself on a table says what it is, on white ground.
#[test]
fn drawings_say_style_revision_size_and_scale() {
    for built in examples() {
        let known = |text: &Option<Stated<String>>| text.as_ref().and_then(Stated::known).cloned().unwrap();
        let model = &built.loaded.model;
        let style = format!(">{} Revision {}</text>", known(&model.style.id), known(&model.revision.id));
        for (name, svg) in &built.package.drawings {
            assert!(svg.contains(&style), "{}: {name} does not say {style}", built.name);
            let (w, h) =
                svg.split_once("viewBox=\"0 0 ").unwrap().1.split_once('"').unwrap().0.split_once(' ').unwrap();
            let ground = format!("<rect width=\"{w}\" height=\"{h}\" fill=\"#fff\"");
            assert!(svg.contains(&ground), "{}: {name} has no ground", built.name);
            let scaled = svg.contains("1:") || svg.contains("Not to scale") || svg.contains("True size");
            assert!(scaled, "{}: {name} says no scale", built.name);
        }
    }
}

/// What the read-me teaches to draw becomes a package: a mouse of three drawn pieces.
#[test]
fn the_mouse_of_the_read_me_is_typeset() {
    let built = Built::of(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/core/svg/mouse"));
    let found = lint(&built.package.document.pages());
    assert!(found.is_empty(), "{found:?}");
    let names: Vec<&str> = built.package.drawings.iter().map(|(name, _)| name.as_str()).collect();
    assert!(
        ["piece-GUSSET.svg", "piece-SIDE.svg", "matching-01.svg"].iter().all(|one| names.contains(one)),
        "{names:?}"
    );
}

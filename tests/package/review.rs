//! Revisions and samples as a user meets them: what stops bulk, what is new, what is printed of it.

use std::path::Path;

use crate::built::example;
use crate::folder::{Ran, Scratch};
use crate::pdf::{Pdf, squeeze};

/// The puffin in a folder of the test's own, with its history, its sizes all conceded and ready for bulk.
fn puffin(scratch: &Scratch) {
    copy(&example("puffin").folder, &scratch.path("puffin"));
    let text = |name: &str| String::from_utf8(scratch.read(name)).unwrap();
    let style = text("puffin/style.toml").replace("id = \"C\"", "id = \"D\"").replace("\"pre-production\"", "\"bulk\"");
    scratch.write("puffin/style.toml", style);
    // What was answered and ordered with this revision, which is not sealed under its former name.
    for name in ["puffin/samples/counter.toml", "puffin/orders/spring.toml"] {
        scratch.write(name, text(name).replace("\"C\"", "\"D\""));
    }
    scratch.write(
        "puffin/samples/concessions.toml",
        "[concession.large]\nlifts = \"critical-point-unmeasured\"\nby = \"Edda Morrow\"\nreason = \"not ordered this \
         season\"\nlimit = \"order A-118\"\ndate = 2026-11-10\nuntil = 2027-06-30\n",
    );
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        match entry.file_type().unwrap().is_dir() {
            true if entry.file_name() == "out" => {}
            true => copy(&entry.path(), &target),
            false => drop(std::fs::copy(entry.path(), target).unwrap()),
        }
    }
}

fn seal(scratch: &Scratch) -> Ran {
    scratch.run(&["seal", "puffin", "D", "--by", "Edda Morrow", "--reason", "Bulk"])
}

/// What is printed, without white space: where a line breaks does not matter.
fn text(bytes: &[u8]) -> String {
    Pdf::of(bytes).pages().iter().map(|page| page.squeezed()).collect::<Vec<_>>().join(" ")
}

/// An open comment that must change, and a lab dip that was rejected, each stop bulk; with neither, the revision is sealed
/// and its cover prints what was conceded.
#[test]
fn what_is_open_stops_bulk() {
    let scratch = Scratch::new();
    puffin(&scratch);
    let counter = String::from_utf8(scratch.read("puffin/samples/counter.toml")).unwrap();
    let open = counter.replace("state = \"answered\"", "state = \"open\"");
    assert_ne!(open, counter);
    scratch.write("puffin/samples/counter.toml", &open);
    let ran = seal(&scratch);
    assert_eq!(ran.code, 1);
    assert!(ran.err.contains("open-comment") && ran.err.contains("is not sealed"), "{}", ran.err);
    scratch.write("puffin/samples/counter.toml", &counter);
    let approvals = String::from_utf8(scratch.read("puffin/samples/approvals.toml")).unwrap();
    let rejected = approvals.replace("verdict = \"approved\", lab", "verdict = \"rejected\", lab");
    assert_ne!(rejected, approvals);
    scratch.write("puffin/samples/approvals.toml", &rejected);
    let ran = seal(&scratch);
    assert_eq!(ran.code, 1);
    assert!(ran.err.contains("rejected-approval"), "{}", ran.err);
    assert!(!scratch.path("puffin/revisions/D.sealed").exists());
    scratch.write("puffin/samples/approvals.toml", &approvals);
    let ran = seal(&scratch);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let printed = text(&scratch.read("puffin/revisions/D.pdf"));
    for wanted in ["conceded by Edda Morrow", "not ordered this season", "What is new since revision B"] {
        assert!(printed.contains(&squeeze(wanted)), "{wanted}");
    }
}

/// Only what changed since the last sealed revision is marked, and a style without one has no such sheet.
#[test]
fn what_changed_is_marked() {
    let puffin = text(&example("puffin").package.pdf);
    for wanted in ["What is new since revision B", "△ Foot, upper side", "△ Length of a foot", "△ Each foot"] {
        assert!(puffin.contains(&squeeze(wanted)), "{wanted}");
    }
    for same in ["△ Head side", "△ Sitting height"] {
        assert!(!puffin.contains(&squeeze(same)), "{same}");
    }
    // The comment that asked for it is met; what nobody asked for is said.
    for wanted in ["Feet look small under the body", "Changes that no comment asked for"] {
        assert!(puffin.contains(&squeeze(wanted)), "{wanted}");
    }
    assert!(!text(&example("juggling-ball").package.pdf).contains(&squeeze("What is new")));
}

/// Readings, colours, comments and approvals stand on sheets; nothing of their files is attached.
#[test]
fn samples_are_printed_and_not_attached() {
    let built = example("puffin");
    let puffin = text(&built.package.pdf);
    for wanted in
        ["Counter samples, small", "above by up to 1 mm", "on the limit", "CIEDE2000 2.53 of at most 1.50", "SL-0417"]
    {
        assert!(puffin.contains(&squeeze(wanted)), "{wanted}");
    }
    let attached = Pdf::of(&built.package.pdf).attachments();
    assert!(attached.values().all(|one| !one.bytes.windows(14).any(|part| part == b"sample.counter]")));
}

/// A picture that only a comment shows is printed, and attached nowhere.
#[test]
fn the_picture_of_a_comment_is_printed_only() {
    let scratch = Scratch::new();
    scratch.bag("[severity]\nno-view = \"off\"\n");
    let weave = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/package/weave.jpg")).unwrap();
    scratch.write("bag/samples/weave.jpg", &weave);
    let build = |said: &str| {
        scratch.write("bag/samples/first.toml", format!("[comment.c1]\nabout = \"style\"\ntext = \"Look\"\n{said}"));
        assert_eq!(scratch.run(&["build", "bag", "--out", "out"]).code, 0);
        let name = scratch.files().into_iter().find(|name| name.starts_with("out/") && name.ends_with(".pdf")).unwrap();
        scratch.read(&name)
    };
    let (without, with) = (build(""), build("picture = \"samples/weave.jpg\"\n"));
    assert!(with.len() > without.len() + 1_000, "the picture is in the file");
    let names = |bytes: &[u8]| {
        let attached = Pdf::of(bytes).attachments();
        crate::archive::unzip(&attached["specification.zip"].bytes).into_keys().collect::<Vec<_>>()
    };
    assert_eq!(names(&with), names(&without));
    assert!(names(&with).iter().all(|name| !name.contains("weave")));
}

/// What a target is that only the own edition shows, a sheet of readings does not tell: neither the target, nor its limits,
/// nor how a reading stands to them.
#[test]
fn readings_tell_nothing_of_a_private_target() {
    let scratch = Scratch::new();
    let point = |target: &str| {
        format!(
            "[severity]\nno-view = \"off\"\n[point-of-measure.Z9]\nname = \"Secret height\"\nstate = \"finished\"\ncritical = \
             true\nread-to = \"1 mm\"\ntarget = {target}\n"
        )
    };
    scratch.bag("");
    scratch
        .write("bag/samples/first.toml", "[sample.first]\npieces = 1\n[sample.first.readings]\nZ9 = [\"4700 mm\"]\n");
    let printed = |target: &str| {
        scratch.write("bag/more.toml", point(target));
        assert_ne!(scratch.run(&["build", "bag", "--out", "out"]).code, 2);
        let name = scratch.files().into_iter().find(|name| name.starts_with("out/") && name.ends_with(".pdf")).unwrap();
        // Digits are kept together by joiners.
        text(&scratch.read(&name)).replace('\u{2060}', "")
    };
    let told = |text: &str| ["4711", "4719", "4703", "belowbyupto"].iter().filter(|one| text.contains(**one)).count();
    let public = printed("\"4711 mm ±8 mm\"");
    assert!(public.contains("4700") && told(&public) == 4, "{}", told(&public));
    let private = printed("{ value = \"4711 mm ±8 mm\", audience = \"own\" }");
    assert!(private.matches("4700").count() > 1, "the reading itself is shown, with its mean");
    assert_eq!(told(&private), 0);
}

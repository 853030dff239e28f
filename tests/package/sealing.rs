//! `seal`, `verify` and `open` as a user sees them.

use backtack::cli::output::{Item, Output};
use backtack::cli::seal;
use backtack_core::pipeline::{self, Sealing, Source};
use backtack_core::revision::manifest::Title;
use backtack_core::revision::seal::verified;
use backtack_core::revision::{pdf, stored};

use crate::folder::{Ran, Scratch};
use crate::pdf::Pdf;

const BY: &str = "Maren Oake";

/// A bag whose revision has this name and date.
fn bag(scratch: &Scratch, name: &str, date: &str) {
    if !scratch.path("bag").exists() {
        scratch.bag("[severity]\nno-view = \"off\"\n");
        scratch.write("bag/private/cost.toml", "# Tuppence\n");
    }
    revise(scratch, "id", name);
    revise(scratch, "date", date);
}

/// Another value of a key of `[revision]`.
fn revise(scratch: &Scratch, key: &str, value: &str) {
    let text = String::from_utf8(scratch.read("bag/style.toml")).unwrap();
    let (head, tail) = text.split_once("[revision]").unwrap();
    let lines: Vec<String> = tail
        .lines()
        .map(|line| if line.starts_with(&format!("{key} = ")) { format!("{key} = \"{value}\"") } else { line.into() })
        .collect();
    scratch.write("bag/style.toml", format!("{head}[revision]{}\n", lines.join("\n")));
}

fn seal_bag(scratch: &Scratch, name: &str) -> Ran {
    scratch.run(&["seal", "bag", name, "--by", BY, "--reason", "First samples"])
}

/// The digest that a seal printed.
fn digest(ran: &Ran) -> String {
    assert_eq!(ran.code, 0, "{ran:?}");
    ran.out.lines().last().unwrap().to_owned()
}

#[test]
fn three_revisions_are_sealed_verified_and_opened() {
    let scratch = Scratch::new();
    bag(&scratch, "A", "2026-11-20");
    let first = seal_bag(&scratch, "A");
    assert_eq!(first.out.lines().next(), Some("bag/revisions/A.sealed"), "{first:?}");
    let before = scratch.read("bag/revisions/A.sealed");
    bag(&scratch, "B", "2026-11-20");
    digest(&seal_bag(&scratch, "B"));
    bag(&scratch, "C", "2026-12-01");
    let head = digest(&seal_bag(&scratch, "C"));
    assert_eq!(before, scratch.read("bag/revisions/A.sealed"));
    let told = scratch.run(&["verify", "bag", "--head", &head]);
    assert_eq!(told.code, 0, "{told:?}");
    let lines: Vec<&str> = told.out.lines().collect();
    assert_eq!(lines[2], "ST-01 revision C, prototype, sealed 2026-12-01 by Maren Oake: First samples");
    assert_eq!(lines[3], format!("3 as they were sealed; the newest is {head}"));
    assert_eq!(scratch.run(&["verify", "bag/revisions/C.sealed", "--head", &head]).code, 0);
    assert_eq!(scratch.run(&["verify", "bag/revisions/B.sealed", "--head", &head]).code, 1);
    // The factory's PDF is the one that was sealed, and carries the manifest.
    let bytes = scratch.read("bag/revisions/C.sealed");
    let sealed = verified(&bytes).unwrap();
    assert_eq!(sealed.pdf, scratch.read("bag/revisions/C.pdf"));
    assert_eq!(Pdf::of(sealed.pdf).attachments()["manifest.txt"].bytes, sealed.inner_text.as_bytes());
    assert!(!sealed.inner_text.contains("cost.toml"));
    assert_eq!(scratch.run(&["verify", "bag/revisions/C.pdf"]).code, 0);
    // Opened, the folder is the same but for what is no part of the revision.
    assert_eq!(scratch.run(&["open", "bag/revisions/C.sealed", "back"]).code, 0);
    for file in scratch.files().iter().filter_map(|file| file.strip_prefix("back/")) {
        assert_eq!(scratch.read(&format!("back/{file}")), scratch.read(&format!("bag/{file}")), "{file}");
    }
    assert!(scratch.path("back/private/cost.toml").exists());
    assert!(scratch.run(&["compare", "bag", "bag/revisions/C.sealed"]).out.ends_with("No change.\n"));
    let changed = scratch.run(&["compare", "bag/revisions/A.sealed", "bag/revisions/C.pdf"]);
    assert!(changed.code == 1 && changed.out.contains("~ [revision] id: A -> C"), "{changed:?}");
    // From the PDF alone.
    assert_eq!(scratch.run(&["open", "bag/revisions/C.pdf", "factory"]).code, 0);
    assert_eq!(scratch.run(&["check", "factory"]).code, 0);
    assert!(!scratch.path("factory/private").exists());
    scratch.run(&["open", "bag/revisions/C.pdf", "factory"]).refused("factory is not empty");
    chain_faults(&scratch, &head);
}

fn chain_faults(scratch: &Scratch, head: &str) {
    let file = |name: &str| scratch.path(&format!("bag/revisions/{name}"));
    let told = |arguments: &[&str], said: &str| {
        let ran = scratch.run(arguments);
        assert!(ran.code == 1 && ran.out.contains(said) && ran.out.lines().count() == 1, "{said}: {ran:?}");
    };
    std::fs::rename(file("B.sealed"), file("kept")).unwrap();
    told(&["verify", "bag"], "the revision before C is missing");
    std::fs::rename(file("kept"), file("B.sealed")).unwrap();
    std::fs::rename(file("C.sealed"), file("kept")).unwrap();
    assert_eq!(scratch.run(&["verify", "bag"]).code, 0);
    told(&["verify", "bag", "--head", head], "a newer one is missing");
    std::fs::rename(file("kept"), file("C.sealed")).unwrap();
    let pdf = scratch.read("bag/revisions/B.pdf");
    scratch.write("bag/revisions/B.pdf", [pdf.as_slice(), b"\n"].concat());
    told(&["verify", "bag"], "B.pdf: it is not the PDF that was sealed");
    scratch.write("bag/revisions/B.pdf", pdf);
    let mut bytes = scratch.read("bag/revisions/B.sealed");
    let at = bytes.len() / 2;
    bytes[at] ^= 1;
    scratch.write("bag/revisions/B.sealed", bytes);
    told(&["verify", "bag"], "B.sealed: package.pdf does not match its checksum");
    bag(scratch, "D", "2026-12-01");
    seal_bag(scratch, "D").refused("B.sealed: package.pdf does not match its checksum");
}

#[test]
fn what_cannot_be_sealed_is_said_and_nothing_is_written() {
    let scratch = Scratch::new();
    bag(&scratch, "A", "2026-11-20");
    let files = scratch.files();
    let refused = |arguments: &[&str], why: &str| {
        let all = [&["seal", "bag"], arguments].concat();
        scratch.run(&all).refused(why);
        assert_eq!(scratch.files(), files, "{arguments:?}");
    };
    let by = ["--by", BY, "--reason", "x"];
    refused(&[&["B"], by.as_slice()].concat(), "the specification says revision A, not B");
    refused(&[&["A", "--stage", "bulk"], by.as_slice()].concat(), "the specification says stage prototype, not bulk");
    refused(&[&["A", "--date", "2026-11-19"], by.as_slice()].concat(), "2026-11-19 is before 2026-11-20");
    refused(&[&["A", "--date", "20.11.2026"], by.as_slice()].concat(), "is no date");
    refused(&["A", "--by", " x", "--reason", "x"], "the person cannot be sealed");
    refused(&["A", "--by", "x", "--reason", "a\nb"], "the reason cannot be sealed");
    refused(&[&["../A"], by.as_slice()].concat(), "cannot name a revision");
    refused(&[&["A."], by.as_slice()].concat(), "cannot name a revision");
    scratch.run(&["verify", "bag"]).refused("no revision is sealed here");
    scratch.run(&["verify", "bag", "--head", "12"]).refused("--head takes the 64 digits");
    digest(&seal_bag(&scratch, "A"));
    seal_bag(&scratch, "A").refused("revision A was sealed on 2026-11-20; a name is never used again");
    revise(&scratch, "id", "a");
    seal_bag(&scratch, "a").refused("a name is never used again");
    bag(&scratch, "B", "2026-11-19");
    seal_bag(&scratch, "B").refused("2026-11-19 is before 2026-11-20, the day revision A was sealed");
}

/// Whatever severity the specification gives a rule, and at whatever stage.
#[test]
fn nothing_is_sealed_while_a_must_stands() {
    let scratch = Scratch::new();
    bag(&scratch, "A", "2026-11-20");
    scratch.write("bag/wrong.toml", "[fabric.felt]\nwidht = \"900 mm\"\nwidth = 900\n");
    scratch.write("bag/more.toml", "[severity]\nno-view = \"off\"\nunknown-key = \"off\"\nbare-number = \"note\"\n");
    for stage in ["prototype", "counter sample", "pre-production", "bulk"] {
        revise(&scratch, "stage", stage);
        let ran = seal_bag(&scratch, "A");
        assert_eq!((ran.code, ran.out.as_str()), (1, ""), "{ran:?}");
        for said in ["must[unknown-key]", "must[bare-number]", "revision A is not sealed"] {
            assert!(ran.err.contains(said), "{said}: {ran:?}");
        }
        assert!(!ran.err.contains("should["), "only what is in the way: {ran:?}");
    }
    assert!(!scratch.path("bag/revisions").exists() && !scratch.path("bag/private/salt.txt").exists());
}

#[test]
fn the_same_seal_elsewhere_has_the_same_bytes() {
    let scratch = Scratch::new();
    bag(&scratch, "A", "2026-11-20");
    digest(&seal_bag(&scratch, "A"));
    let other = Scratch::new();
    for file in scratch.files().iter().filter(|file| !file.contains("revisions/")) {
        other.write(&format!("deep/er/{file}"), scratch.read(file));
    }
    let mut command = other.command(&["seal", "deep/er/bag", "A", "--by", BY, "--reason", "First samples"]);
    command.envs([("TZ", "Pacific/Kiritimati"), ("LC_ALL", "tr_TR.UTF-8")]);
    digest(&Ran::of(&command.output().unwrap()));
    for name in ["A.sealed", "A.pdf"] {
        let same =
            scratch.read(&format!("bag/revisions/{name}")) == other.read(&format!("deep/er/bag/revisions/{name}"));
        assert!(same, "{name}");
    }
}

#[test]
fn of_two_seals_at_once_one_holds() {
    let scratch = Scratch::new();
    bag(&scratch, "A", "2026-11-20");
    let start = || {
        let mut command = scratch.command(&["seal", "bag", "A", "--by", BY, "--reason", "x"]);
        command.stdout(std::process::Stdio::piped()).stderr(std::process::Stdio::piped()).spawn().unwrap()
    };
    let both = [start(), start(), start()].map(|child| Ran::of(&child.wait_with_output().unwrap()));
    assert_eq!(both.iter().filter(|ran| ran.code == 0).count(), 1, "{both:?}");
    assert_eq!(scratch.run(&["verify", "bag"]).code, 0);
    let left = scratch.files();
    assert!(
        left.contains(&"bag/revisions/A.pdf".to_owned()) && !left.iter().any(|file| file.ends_with(".part")),
        "{left:?}"
    );
}

#[test]
fn a_seal_is_whole_or_not_there() {
    let scratch = Scratch::new();
    bag(&scratch, "A", "2026-11-20");
    let folder = scratch.path("bag");
    let loaded = pipeline::read(&Source::Folder(&folder), &Default::default()).unwrap();
    let checked = pipeline::check(&loaded, &Default::default(), false);
    let text = |text: &str| text.to_owned();
    let title = Title {
        tool: text("0.1.0"),
        style: text("ST-01"),
        revision: text("A"),
        stage: text("prototype"),
        date: "2026-11-20".parse().unwrap(),
        by: text(BY),
        reason: text("x"),
    };
    let sealed =
        backtack::seal(&loaded, &checked, &Sealing { title, secret: &[7; 32], earlier: &Default::default() }).unwrap();
    let lock = || Some(Item { path: folder.join("backtack.lock"), bytes: b"new".to_vec() });
    let files = scratch.files();
    let count = Output::new();
    for step in 1.. {
        let output = Output::failing(step);
        scratch.write("bag/backtack.lock", "old");
        match seal::write(&folder, "A", &sealed, lock(), &output) {
            Err(why) => assert!(why.to_string().ends_with("the disk is full"), "{why}"),
            Ok(_) => {
                assert!(step > 10, "the last step is {step}");
                break;
            }
        }
        let left = scratch.files();
        let new: Vec<&String> = left.iter().filter(|file| !files.contains(file)).collect();
        assert!(new.iter().all(|file| *file == "bag/backtack.lock"), "step {step} leaves {new:?}");
        assert!(["old", "new"].iter().any(|text| scratch.read("bag/backtack.lock") == text.as_bytes()));
    }
    assert_eq!(scratch.read("bag/revisions/A.sealed"), sealed.bytes);
    let again = seal::write(&folder, "A", &sealed, None, &count).unwrap_err();
    assert!(again.to_string().ends_with("something of this name is there already"), "{again}");
    assert_eq!(scratch.read("bag/revisions/A.sealed"), sealed.bytes, "never written twice");
    assert!(scratch.path("bag/revisions/A.pdf").exists());
    // A PDF that a run left behind is in nobody's way; another one is.
    std::fs::remove_file(scratch.path("bag/revisions/A.sealed")).unwrap();
    seal::write(&folder, "A", &sealed, None, &count).unwrap();
    std::fs::remove_file(scratch.path("bag/revisions/A.sealed")).unwrap();
    scratch.write("bag/revisions/A.pdf", "mine");
    assert!(seal::write(&folder, "A", &sealed, None, &count).is_err());
    assert_eq!(scratch.read("bag/revisions/A.pdf"), b"mine");
    assert!(!scratch.path("bag/revisions/A.sealed").exists());
}

#[test]
fn what_cannot_be_opened_is_one_line_and_leaves_nothing() {
    let scratch = Scratch::new();
    scratch.bag("");
    assert_eq!(scratch.run(&["build", "bag"]).code, 0);
    let package = scratch.read("bag/out/ST-01-A.pdf");
    assert!(scratch.run(&["verify", "bag/out/ST-01-A.pdf"]).out.starts_with("not sealed\n"));
    let files = scratch.files();
    let cases: Vec<(Vec<u8>, &str)> = vec![
        (Vec::new(), "it is no archive of backtack"),
        (b"PK\x03\x04".repeat(500), "cut off or was changed"),
        (stored([("a.toml", b"".as_slice())]).unwrap(), "it is no sealed revision"),
        (package[..package.len() / 2].to_vec(), "it is cut off"),
        (b"%PDF-1.7\n1 0 obj\n<</Encrypt 1 0 R>>".to_vec(), "it is cut off"),
    ];
    for (bytes, why) in cases {
        scratch.write("evil", bytes);
        for arguments in [["open", "evil", "out"], ["compare", "evil", "bag"]] {
            scratch.run(&arguments).refused(why);
        }
        std::fs::remove_file(scratch.path("evil")).unwrap();
        assert_eq!(scratch.files(), files, "{why}");
    }
    scratch.run(&["open", "none", "out"]).refused("none: there is no such file");
    scratch.run(&["open", "bag", "out"]).refused("bag: it is a folder, not a file");
    // The attached archive under the file names of a style folder within a root is opened below that root.
    assert_eq!(pdf::read(&package).unwrap().inner.folder, "");
}

/// Styles that share a library are opened with it, each at its place.
#[test]
fn a_style_below_a_root_is_opened_below_one() {
    let scratch = Scratch::new();
    scratch.write("all/backtack-root.toml", "");
    scratch.start("all/styles/bag", "bag");
    let ran = scratch.run(&["seal", "all/styles/bag", "A", "--by", BY, "--reason", "x"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    for file in ["A.sealed", "A.pdf"] {
        let ran = scratch.run(&["open", &format!("all/styles/bag/revisions/{file}"), "back"]);
        assert!(ran.code == 0 && ran.out.ends_with("are in back/styles/bag\n"), "{ran:?}");
        assert!(
            scratch.path("back/backtack-root.toml").exists() && scratch.path("back/styles/bag/style.toml").exists()
        );
        assert!(scratch.run(&["compare", "all/styles/bag", "back/styles/bag"]).out.ends_with("No change.\n"));
        std::fs::remove_dir_all(scratch.path("back")).unwrap();
    }
}

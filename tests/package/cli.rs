//! The command line as a user or a script sees it: streams, exit codes, help.

use std::io::Read as _;
use std::process::Stdio;

use backtack_core::pipeline::{self, Source};

use crate::folder::{Ran, Scratch};

const WRONG: &str = "[fabric.felt]\nwidht = \"900 mm\"\n";

#[test]
fn help_of_every_command() {
    let scratch = Scratch::new();
    let mut all = scratch.run(&["--help"]).out;
    for command in [
        "new",
        "check",
        "build",
        "explain",
        "schema",
        "lay",
        "compare",
        "seal",
        "verify",
        "open",
        "sample",
        "status",
        "completions",
    ] {
        all.push_str(&format!("\n======== {command}\n\n"));
        all.push_str(&scratch.run(&[command, "--help"]).out);
    }
    all.push_str(&format!("\n======== sample new\n\n{}", scratch.run(&["sample", "new", "--help"]).out));
    for line in all.lines() {
        let list = line.contains("[possible values:");
        assert!(list || line.chars().count() <= 100, "too wide: {line}");
    }
    insta::assert_snapshot!("help", all);
}

#[test]
fn a_clean_folder_says_so_and_exits_with_zero() {
    let scratch = Scratch::new();
    scratch.bag("[severity]\nno-view = \"off\"\n");
    let ran = scratch.run(&["check", "bag"]);
    assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (0, "0 must, 0 should, 0 notes in 8 files\n", ""));
}

#[test]
fn a_must_finding_goes_to_standard_output_and_exits_with_one() {
    let scratch = Scratch::new();
    scratch.bag(WRONG);
    let ran = scratch.run(&["check", "bag"]);
    assert_eq!(ran.code, 1);
    assert_eq!(ran.err, "");
    assert!(ran.out.contains("must[unknown-key]") && ran.out.contains("bag/more.toml:2:1"), "{ran:?}");
    assert!(ran.out.contains("help: write `width`"), "{ran:?}");
}

#[test]
fn what_cannot_be_run_exits_with_two_and_one_line() {
    let scratch = Scratch::new();
    scratch.write("file.toml", "[style]\n");
    scratch.run(&["check", "nowhere"]).refused("cannot read nowhere: there is no such folder");
    scratch.run(&["build", "nowhere"]).refused("cannot read nowhere");
    scratch.run(&["check", "file.toml"]).refused("it is a file, not a folder");
    scratch.run(&["explain", "unknown-kee"]).refused("did you mean unknown-key?");
    scratch.run(&["explain", "zzzzzz"]).refused("`backtack explain` lists all rules and tables");
    scratch.bag("");
    scratch.run(&["check", "bag", "--level", "no-vew=off"]).refused("did you mean no-view?");
    scratch.run(&["check", "bag", "--level", "no-view=loud"]).refused("must, should, note or off");
    scratch.run(&["check", "bag", "--level", "no-view"]).refused("CODE=LEVEL");
    for slip in [&["chek", "bag"][..], &["check"], &["check", "bag", "--format", "xml"], &[]] {
        let ran = scratch.run(slip);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{ran:?}");
    }
}

#[test]
fn severities_from_the_command_line_go_first() {
    let scratch = Scratch::new();
    scratch.bag("[severity]\nno-view = \"note\"\n");
    assert!(scratch.run(&["check", "bag"]).out.contains("note[no-view]"));
    let strict = scratch.run(&["check", "bag", "--level", "no-view=should", "--strict"]);
    assert!(strict.code == 1 && strict.out.contains("must[no-view]"), "{strict:?}");
    assert_eq!(scratch.run(&["check", "bag", "--level", "no-view=must"]).code, 1);
    assert!(!scratch.run(&["check", "bag", "--level", "no-view=off"]).out.contains("no-view"));
}

#[test]
fn several_folders_are_reported_in_the_order_they_were_named() {
    let scratch = Scratch::new();
    let names: Vec<String> = (0..12).map(|n| format!("style{}", (n * 7) % 12)).collect();
    for name in &names {
        scratch.write(&format!("{name}/style.toml"), WRONG);
    }
    let mut arguments = vec!["check", "--format", "json"];
    arguments.extend(names.iter().map(String::as_str));
    let ran = scratch.run(&arguments);
    assert_eq!(ran.code, 1);
    let document: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let mut order: Vec<&str> =
        document["findings"].as_array().unwrap().iter().map(|one| one["folder"].as_str().unwrap()).collect();
    order.dedup();
    assert_eq!(order, names);
    assert_eq!(ran.out, scratch.run(&arguments).out);
}

#[test]
fn one_unreadable_folder_does_not_hide_the_others() {
    let scratch = Scratch::new();
    scratch.write("a/style.toml", WRONG);
    let ran = scratch.run(&["check", "nowhere", "a"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("unknown-key"));
    assert_eq!(ran.err, "backtack: cannot read nowhere: there is no such folder\n");
}

#[test]
fn sarif_is_one_log() {
    let scratch = Scratch::new();
    scratch.write("a/style.toml", WRONG);
    let ran = scratch.run(&["check", "a", "--format", "sarif"]);
    let log: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(log["version"], "2.1.0");
    assert!(log["runs"][0]["results"].as_array().is_some_and(|list| !list.is_empty()));
}

#[test]
fn paths_open_from_where_the_user_stands() {
    let scratch = Scratch::new();
    scratch.write("all/backtack-root.toml", "");
    scratch.write("all/styles/one/style.toml", WRONG);
    assert!(scratch.run(&["check", "all/styles/one"]).out.contains(" all/styles/one/style.toml:2:1"));
    let mut inside = scratch.command(&["check", "."]);
    inside.current_dir(scratch.path("all/styles/one"));
    let ran = Ran::of(&inside.output().unwrap());
    assert!(ran.out.contains("../../styles/one/style.toml:2:1"), "{ran:?}");
}

#[test]
fn colours_only_where_they_are_wanted() {
    let scratch = Scratch::new();
    scratch.write("a/style.toml", WRONG);
    let colours = |set: &[(&str, &str)]| {
        let mut command = scratch.command(&["check", "a"]);
        set.iter().for_each(|(name, value)| {
            command.env(name, value);
        });
        Ran::of(&command.output().unwrap()).out.contains('\u{1b}')
    };
    assert!(!colours(&[]), "a pipe is no terminal");
    assert!(colours(&[("CLICOLOR_FORCE", "1")]));
    assert!(!colours(&[("NO_COLOR", "1")]));
    assert!(!colours(&[("CLICOLOR", "0")]));
}

#[test]
fn a_reader_that_leaves_is_no_failure() {
    let scratch = Scratch::new();
    for arguments in [&["explain", "--findings"][..], &["schema"], &["completions", "zsh"], &["--help"]] {
        let mut child = scratch.command(arguments).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        drop(child.stdout.take());
        let mut said = String::new();
        child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
        assert_eq!((child.wait().unwrap().code(), said.as_str()), (Some(0), ""), "{arguments:?}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_behind_standard_output_is_one_line() {
    let scratch = Scratch::new();
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let ran = Ran::of(&scratch.command(&["schema"]).stdout(full).output().unwrap());
    assert_eq!(ran.code, 2);
    assert!(ran.err.starts_with("backtack: cannot write to standard output"), "{ran:?}");
}

#[test]
fn every_rule_is_explained_listed_and_on_the_page_of_findings() {
    let scratch = Scratch::new();
    let list = scratch.run(&["explain"]).out;
    let reference = scratch.run(&["explain", "--findings"]).out;
    for rule in backtack_core::rules::all() {
        assert!(list.contains(&format!("  {} ", rule.code)), "{}", rule.code);
        assert!(reference.contains(&format!("\n### {}\n", rule.code)), "{}", rule.code);
        assert!(reference.contains(rule.failing.trim_matches('\n')) && reference.contains(rule.source));
    }
    assert!(list.lines().all(|line| line.chars().count() <= 80), "{list}");
    let one = scratch.run(&["explain", "bare-number"]);
    assert_eq!(one.code, 0);
    insta::assert_snapshot!("explain", one.out);
}

#[test]
fn every_table_is_explained_listed_and_in_the_reference() {
    let scratch = Scratch::new();
    let list = scratch.run(&["explain"]).out;
    let reference = scratch.run(&["explain", "--reference"]).out;
    for kind in backtack_core::grammar::keys::kinds() {
        assert!(list.contains(&format!("\n  {} ", kind.name)), "{}", kind.name);
        assert!(reference.contains(&format!("\n## {}\n", kind.name)), "{}", kind.name);
    }
    let mut all = String::new();
    for name in ["piece.allowance", "edge-finish", "seam.ease", "fabric.width"] {
        let ran = scratch.run(&["explain", name]);
        assert!(ran.out.lines().all(|line| line.chars().count() <= 80), "{}", ran.out);
        all.push_str(&format!("======== {name}\n\n{}{}\n", ran.out, ran.err));
    }
    insta::assert_snapshot!("entries", all);
    scratch.run(&["explain", "peace"]).refused("did you mean piece?");
    scratch.run(&["explain", "allowance"]).refused("did you mean piece.allowance?");
    scratch.run(&["explain", "piece.alowance"]).refused("piece has no key alowance; did you mean piece.allowance?");
    scratch.run(&["explain", "piece.zzzzzz"]).refused("`backtack explain piece` lists its keys");
}

#[test]
fn every_shell_gets_its_script_and_editors_their_schema() {
    let scratch = Scratch::new();
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let ran = scratch.run(&["completions", shell]);
        assert!(ran.code == 0 && ran.out.contains("explain") && ran.out.contains("completions"), "{shell}");
        let names = ran.out.contains("inside-out-seam") && ran.out.contains("point-of-measure");
        assert!(names || !matches!(shell, "bash" | "zsh"), "{shell} does not complete what can be explained");
    }
    let schema: serde_json::Value = serde_json::from_str(&scratch.run(&["schema"]).out).unwrap();
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
}

#[test]
fn new_writes_a_folder_that_checks_without_must() {
    let scratch = Scratch::new();
    let hostile = "a\u{1b}[31m \"b\" \\ 'c' \u{7f} #eval(1) {name} =1+1";
    let ran = scratch.run(&["new", "bag", "--kind", "bag", "--name", hostile]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("backtack check bag"));
    let files: Vec<String> = scratch.files();
    let wanted = ["bag/style.toml", "bag/outlines/panel.svg"];
    assert!(wanted.iter().all(|one| files.iter().any(|file| file == one)) && files.len() == 8, "{files:?}");
    let checked = scratch.run(&["check", "bag"]);
    assert!(checked.code == 0 && !checked.out.contains('\u{1b}'), "{checked:?}");
    let loaded = pipeline::read(&Source::Folder(&scratch.path("bag")), &Default::default()).unwrap();
    assert_eq!(loaded.model.style.name.and_then(|name| name.known().cloned()).as_deref(), Some(hostile));
}

#[test]
fn new_leaves_alone_what_is_there() {
    let scratch = Scratch::new();
    scratch.write("full/mine.txt", "mine");
    scratch.run(&["new", "full"]).refused("full is not empty");
    scratch.run(&["new", "full/mine.txt"]).refused("there is a file where a folder is needed");
    assert_eq!(scratch.files(), ["full/mine.txt"]);
    std::fs::create_dir(scratch.path("empty")).unwrap();
    assert_eq!(scratch.run(&["new", "empty", "--kind", "ball"]).code, 0);
}

const PIECES: &str = r#"{"name": "two", "cuttable-width": 20, "pieces": [{"id": 1, "quantity": 2, "may-lie": [0],
 "outline": [[0,0],[10,0],[10,20],[0,20],[0,0]]}]}"#;

#[test]
fn a_comparison_exits_as_comparisons_do() {
    let scratch = Scratch::new();
    scratch.bag("[fabric.felt]\nwidth = \"900 mm\"\n");
    assert_eq!(scratch.run(&["new", "later", "--kind", "bag", "--name", "bag"]).code, 0);
    scratch.own("later");
    scratch.write("later/other.toml", "# moved\n[fabric.felt]\nwidth = \"90 cm\"\n");
    let same = scratch.run(&["compare", "bag", "later"]);
    assert!(same.code == 0 && same.out.ends_with("No change.\n") && same.err.is_empty(), "{same:?}");
    scratch.write("later/other.toml", "[fabric.felt]\nwidth = \"910 mm\"\n");
    let ran = scratch.run(&["compare", "bag", "later"]);
    assert!(ran.code == 1 && ran.out.contains("  ~ fabric felt width: 900 mm -> 910 mm\n"), "{ran:?}");
    let ran = scratch.run(&["compare", "bag", "later", "--format", "json"]);
    let told: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!((ran.code, &told["format"], &told["same"]), (1, &1.into(), &false.into()));
    scratch.write("later/other.toml", "[fabric.felt\n");
    scratch.run(&["compare", "bag", "later"]).refused("other.toml cannot be read whole");
    scratch.run(&["compare", "bag", "none"]).refused("there is no such folder");
}

#[test]
fn a_lay_is_told_and_written() {
    let scratch = Scratch::new();
    scratch.write("two.json", PIECES.as_bytes());
    let ran = scratch.run(&["lay", "two.json", "--evaluations", "1000"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(ran.out.contains("length 20 mm, density 100.00 %"), "{ran:?}");
    let told: serde_json::Value = serde_json::from_slice(&scratch.read("two-lay.json")).unwrap();
    assert_eq!((told["length"].as_f64(), told["positions"].as_array().unwrap().len()), (Some(20.0), 2));
    assert!(String::from_utf8(scratch.read("two-lay.svg")).unwrap().contains("Lay of 2 pieces"));
}

#[test]
fn a_bad_instance_is_one_line() {
    let scratch = Scratch::new();
    scratch.write("two.json", PIECES.replace("\"cuttable-width\": 20", "\"cuttable-width\": 19").as_bytes());
    let ran = scratch.run(&["lay", "two.json"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{ran:?}");
    assert_eq!(ran.err, "backtack: two.json: piece 1: in no allowed turn does it fit a cuttable width of 19 mm\n");
    assert!(scratch.run(&["lay", "none.json"]).err.contains("none.json: there is no such file"));
    assert_eq!(scratch.run(&["lay", "two.json", "--seconds", "0"]).code, 2);
}

/// The new file is checked clean, lies where it says, and is never written over.
#[test]
fn a_sample_is_started_and_kept() {
    let scratch = Scratch::new();
    scratch.bag("");
    let before = scratch.run(&["check", "bag"]);
    let ran = scratch.run(&["sample", "new", "bag", "first", "--kind", "prototype", "--pieces", "3"]);
    assert_eq!(
        (ran.code, ran.out.trim().replace('\\', "/").as_str(), ran.err.as_str()),
        (0, "bag/samples/first.toml", "")
    );
    let after = scratch.run(&["check", "bag"]);
    assert_eq!(after.out.replace("9 files", "8 files"), before.out);
    scratch
        .run(&["sample", "new", "bag", "first", "--kind", "prototype", "--pieces", "3"])
        .refused("there is a sample first");
    let day = ["sample", "new", "bag", "third", "--kind", "prototype", "--pieces", "3", "--due", "2026-02-30"];
    scratch.run(&day).refused("\"2026-02-30\" is no date; write year, month and day: 2026-11-20");
    scratch.write("bag/samples/second.toml", "# mine\n");
    let again = scratch.run(&["sample", "new", "bag", "second", "--kind", "prototype", "--pieces", "3"]);
    again.refused("is there already");
    assert_eq!(std::fs::read_to_string(scratch.path("bag/samples/second.toml")).unwrap(), "# mine\n");
    scratch
        .run(&["sample", "new", "bag", "third", "--kind", "prototype", "--pieces", "1", "--size", "M"])
        .refused("sizes");
    assert_eq!(scratch.run(&["sample", "new", "bag", "third", "--kind", "sample", "--pieces", "1"]).code, 2);
    assert_eq!(scratch.run(&["sample"]).code, 2);
}

#[test]
fn status_says_what_is_in_the_way() {
    let scratch = Scratch::new();
    scratch.bag("");
    let comment = "[comment.c1]\nabout = \"style\"\naction = \"must change\"\ntext = \"Longer handles\"\n";
    scratch.write("bag/samples/said.toml", comment);
    let ran = scratch.run(&["status", "bag"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(ran.out.contains("must change: c1 on style: Longer handles"), "{}", ran.out);
    assert!(ran.out.contains("In the way of counter sample: nothing"), "{}", ran.out);
    let style = std::fs::read_to_string(scratch.path("bag/style.toml")).unwrap();
    scratch.write("bag/style.toml", style.replace("\"prototype\"", "\"pre-production\""));
    let ran = scratch.run(&["status", "bag"]);
    assert!(ran.out.contains("In the way of bulk:") && ran.out.contains("open-comment: comment c1"), "{}", ran.out);
    scratch.run(&["status", "nowhere"]).refused("cannot read nowhere");
}

//! What `new` starts, of every kind: it is asked for, checked, and built, and says what is still to be filled in.

use backtack::cli::new::{KINDS, asked};

use crate::folder::Scratch;

/// From nothing to a package, and what is said of the stages after it.
fn built(kind: &str) {
    let scratch = Scratch::new();
    let ran = scratch.run(&["new", "mine", "--kind", kind]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    let files = scratch.files();
    assert!(ran.out.starts_with(&format!("{} files are in mine.", files.len())), "{ran:?} of {files:?}");
    for file in files.iter().filter(|name| name.ends_with(".toml")) {
        let text = String::from_utf8(scratch.read(file)).unwrap();
        assert!(text.starts_with("#:schema ./backtack-schema.json\n"), "{file}");
    }
    let checked = scratch.run(&["check", "mine"]);
    assert!(checked.code == 0 && checked.out.contains("0 must, 2 should, 0 notes"), "{checked:?}");
    assert!(checked.out.ends_with("In the way of counter sample: 1, see `backtack status mine`\n"), "{checked:?}");
    for stage in ["counter sample", "pre-production", "bulk"] {
        let later = scratch.run(&["check", "mine", "--stage", stage]);
        let said = "must[placeholder-left]";
        let told = later.out.contains(said) && later.out.contains("write your own words in place of each");
        assert!(later.code == 1 && told, "{stage}: {later:?}");
    }
    assert!(scratch.run(&["status", "mine"]).out.contains("placeholder-left: "), "{kind}");
    let ran = scratch.run(&["build", "mine"]);
    assert_eq!((ran.code, ran.out.as_str()), (0, "mine/out/ST-01-A.pdf\n"), "{ran:?}");
    let sealed = scratch.run(&["seal", "mine", "A", "--by", "Maren Oake", "--reason", "x"]);
    assert!(sealed.code == 1 && sealed.err.contains("placeholder-left"), "{sealed:?}");
    scratch.own("mine");
    let sealed = scratch.run(&["seal", "mine", "A", "--by", "Maren Oake", "--reason", "x"]);
    assert_eq!(sealed.code, 0, "{sealed:?}");
}

#[test]
fn a_soft_toy_is_built() {
    built("soft-toy");
}

#[test]
fn a_cushion_is_built() {
    built("cushion");
}

#[test]
fn a_bag_is_built() {
    built("bag");
}

#[test]
fn a_ball_is_built() {
    built("ball");
}

#[test]
fn without_a_terminal_the_kinds_are_named() {
    let scratch = Scratch::new();
    scratch.run(&["new", "mine"]).refused("write --kind and one of soft-toy, cushion, bag, ball");
    assert_eq!(scratch.files(), Vec::<String>::new());
}

/// What was asked, and the kind that the answers lead to.
fn answered(answers: &[&str]) -> (Vec<String>, Option<&'static str>) {
    let (mut questions, mut left) = (Vec::new(), answers.iter());
    let kind = asked(|question| {
        questions.push(question.to_string());
        Ok(left.next().map(|answer| (*answer).to_string()))
    });
    (questions, kind.unwrap().map(|kind| kind.word))
}

#[test]
fn a_person_is_asked_until_there_is_a_kind() {
    let (questions, kind) = answered(&["3"]);
    assert_eq!((questions.len(), kind), (1, Some("bag")));
    assert!(KINDS.iter().all(|kind| questions[0].contains(kind.word) && questions[0].contains(kind.about)));
    let (questions, kind) = answered(&["", "0", "5", "sock", "ball"]);
    assert_eq!((questions.len(), kind), (5, Some("ball")));
    assert!(
        questions[1..].iter().all(|question| question == "One of 1 to 4, or a word of the list: "),
        "{questions:?}"
    );
    assert_eq!(answered(&[]).1, None);
}

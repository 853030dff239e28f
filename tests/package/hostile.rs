//! Input nobody should send: a finding or one clear line, no panic, nothing half-written.

use crate::folder::{Ran, Scratch};

/// Checks a folder; whatever was found, the terminal is safe.
fn check(scratch: &Scratch, folder: &str) -> Ran {
    let ran = scratch.run(&["check", folder]);
    let steering = |c: char| (c.is_control() && c != '\n') || ('\u{202a}'..='\u{202e}').contains(&c);
    assert!(!ran.out.contains(steering) && !ran.err.contains(steering), "{ran:?}");
    ran
}

#[test]
fn truncated_files_are_findings() {
    let scratch = Scratch::new();
    scratch.bag("");
    let whole = scratch.read("bag/pieces.toml");
    for end in (0..whole.len()).step_by(97) {
        scratch.write("bag/pieces.toml", &whole[..end]);
        check(&scratch, "bag");
    }
}

#[test]
fn binary_and_oversized_files_are_findings() {
    let scratch = Scratch::new();
    scratch.bag("");
    scratch.write("bag/binary.toml", (0..=255u8).cycle().take(4000).collect::<Vec<_>>());
    scratch.write("bag/large.toml", "# x\n".repeat(9 << 18));
    let ran = check(&scratch, "bag");
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("bag/binary.toml") || ran.out.contains("binary.toml"), "{ran:?}");
    assert!(ran.out.contains("large.toml") && ran.out.contains("8"), "{ran:?}");
}

#[test]
fn nesting_and_numbers_without_end_are_findings() {
    let scratch = Scratch::new();
    scratch.bag("");
    let deep = 20_000;
    for (name, text) in [
        ("lists", format!("[style]\nsizes = {}{}\n", "[".repeat(deep), "]".repeat(deep))),
        ("tables", format!("[style]\nname = {}1{}\n", "{ a = ".repeat(deep), " }".repeat(deep))),
        ("keys", format!("{}x = 1\n", "a.".repeat(deep))),
        ("numbers", "[fabric.a]\nmass = nan\nwidth = 1e308\nthickness = \"1e308 mm\"\n[fabric.b]\nmass = \"NaN g/m2\"\nwidth = \"999999999999999999999999999999999999999999 mm\"\n".to_string()),
        ("chain", format!("[seam.s]\na = \"A:{}\"\nb = \"B:a-b\"\n", "a-".repeat(deep))),
    ] {
        scratch.write("bag/more.toml", text);
        let ran = check(&scratch, "bag");
        assert_eq!(ran.code, 1, "{name}");
    }
}

#[cfg(unix)]
#[test]
fn links_that_lead_out_are_findings() {
    let scratch = Scratch::new();
    scratch.bag(
        "[view.front]\npicture = \"out.png\"\nalt = \"x\"\n[view.back]\npicture = \"../secret.png\"\nalt = \"x\"\n",
    );
    scratch.write("secret.toml", "[style]\nsecret = \"leaked\"\n");
    scratch.write("secret.png", "leaked");
    std::os::unix::fs::symlink("../secret.toml", scratch.path("bag/link.toml")).unwrap();
    std::os::unix::fs::symlink("../secret.png", scratch.path("bag/out.png")).unwrap();
    std::os::unix::fs::symlink("loop", scratch.path("bag/loop")).unwrap();
    std::os::unix::fs::symlink("..", scratch.path("bag/up")).unwrap();
    let ran = check(&scratch, "bag");
    assert_eq!(ran.code, 1);
    assert!(
        ran.out.contains("link.toml") && ran.out.contains("out.png") && ran.out.contains("../secret.png"),
        "{ran:?}"
    );
    assert!(!ran.out.contains("leaked"), "{ran:?}");
}

#[test]
fn names_are_text_and_nothing_else() {
    let scratch = Scratch::new();
    scratch.bag("");
    let style = String::from_utf8(scratch.read("bag/style.toml")).unwrap();
    for name in [
        r##"#read(\"/etc/passwd\") $x^2$ *b* _i_ @ref <label> \\ // https://example.org"##,
        r"=HYPERLINK(\u0022a\u0022) +1 -1 @SUM(A1) <script>alert(1)</script> &amp; ]]>",
        r"\u001b[31mred\u0007 \u202Eright to left\u2066 \u0000 \u0085 \u2028 \uFEFF tab\t end",
        "שלום عربى 靠枕 🧵 e\u{301}",
    ] {
        let line = style.lines().find(|line| line.starts_with("name = ")).unwrap();
        scratch.write("bag/style.toml", style.replacen(line, &format!("name = \"{name}\""), 1));
        check(&scratch, "bag");
        let built = scratch.run(&["build", "bag"]);
        assert!(built.code <= 1, "{built:?}");
        assert!(!built.err.contains('\u{1b}') && !built.err.contains('\u{202e}'), "{built:?}");
        assert!(scratch.read("bag/out/ST-01-A.pdf").starts_with(b"%PDF-"));
        std::fs::remove_dir_all(scratch.path("bag/out")).unwrap();
    }
}

/// Texts that no cell holds are cut where they are printed, and no text is measured letter by letter without end; one that is
/// longer than a page is refused.
#[test]
fn long_texts_are_cut_or_refused() {
    let scratch = Scratch::new();
    scratch.bag("");
    let style = String::from_utf8(scratch.read("bag/style.toml")).unwrap();
    let line = style.lines().find(|line| line.starts_with("name = ")).unwrap();
    for name in ["x".repeat(4_000), "word ".repeat(900), "ab\u{ad}".repeat(1_200)] {
        scratch.write("bag/style.toml", style.replacen(line, &format!("name = \"{name}\""), 1));
        let built = scratch.run(&["build", "bag"]);
        assert!(built.code <= 1, "{}", built.err);
        std::fs::remove_dir_all(scratch.path("bag/out")).unwrap();
    }
    scratch.write("bag/style.toml", style.replacen(line, &format!("name = \"{}\"", "x".repeat(6_000)), 1));
    let ran = check(&scratch, "bag");
    assert!(ran.code == 1 && ran.out.contains("has 6000 characters, and a text may have 5000"), "{ran:?}");
}

/// What is named like a file of the specification and cannot be read is found, not passed over.
#[cfg(unix)]
#[test]
fn what_is_no_file_is_told() {
    let scratch = Scratch::new();
    scratch.bag("");
    std::os::unix::fs::symlink("/nowhere/lost.toml", scratch.path("bag/lost.toml")).unwrap();
    std::fs::create_dir(scratch.path("elsewhere")).unwrap();
    std::os::unix::fs::symlink(scratch.path("elsewhere"), scratch.path("bag/parts")).unwrap();
    scratch.write("bag/a\\b.toml", "");
    let ran = check(&scratch, "bag");
    let out = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(ran.code, 1, "{ran:?}");
    for told in
        ["which no package takes", "lost.toml cannot be read", "leads nowhere", "links to folders are not followed"]
    {
        assert!(out.contains(told), "{told}: {out}");
    }
}

/// A folder of more things, sizes or products than anybody makes is told once, and read no further.
#[test]
fn what_nobody_makes_is_refused_with_one_finding() {
    let scratch = Scratch::new();
    scratch.bag("");
    let steps: String = (0..30_000).map(|n| format!("[step.s{n}]\ndo = \"look\"\n")).collect();
    scratch.write("bag/many.toml", steps);
    let ran = check(&scratch, "bag");
    assert_eq!(ran.out.matches("there are more than 2000 steps").count(), 1, "{}", ran.out.len());
    std::fs::remove_file(scratch.path("bag/many.toml")).unwrap();
    let style = String::from_utf8(scratch.read("bag/style.toml")).unwrap();
    let sizes: Vec<String> = (0..400).map(|n| format!("\"s{n}\"")).collect();
    scratch.write("bag/style.toml", style.replacen("sizes = [\"one\"]", &format!("sizes = [{}]", sizes.join(", ")), 1));
    let ways: String = (0..400).map(|n| format!("[colourway.c{n}]\n")).collect();
    scratch.write("bag/ways.toml", ways);
    let ran = check(&scratch, "bag");
    assert!(ran.out.contains("a style has 40 sizes at most"), "{}", ran.out.len());
    assert!(ran.out.contains("there are more than 100 colourways"), "{}", ran.out.len());
}

#[test]
fn style_numbers_stay_inside_the_folder() {
    let scratch = Scratch::new();
    scratch.bag("");
    let style = String::from_utf8(scratch.read("bag/style.toml")).unwrap();
    scratch.write("bag/style.toml", style.replacen("\"ST-01\"", "\"../../../escape/..\"", 1));
    let before = scratch.files();
    let ran = scratch.run(&["build", "bag", "--out", "out"]);
    assert!(ran.code <= 1, "{ran:?}");
    let new: Vec<String> = scratch.files().into_iter().filter(|name| !before.contains(name)).collect();
    assert!(new.iter().all(|name| name.starts_with("out/") || name == "bag/backtack.lock"), "{new:?}");
}

#[test]
fn an_empty_folder_is_a_draft() {
    let scratch = Scratch::new();
    std::fs::create_dir(scratch.path("empty")).unwrap();
    let ran = check(&scratch, "empty");
    assert_eq!(ran.code, 1, "an empty folder cannot be released: {ran:?}");
    let built = scratch.run(&["build", "empty"]);
    assert_eq!(built.code, 1, "{built:?}");
    assert!(scratch.files().iter().any(|name| name.ends_with(".pdf")), "{built:?}");
}

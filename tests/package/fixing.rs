//! `check --fix`: what it shows, writes and leaves alone.

use crate::folder::Scratch;

/// A fabric with a misspelt key, a quantity in full width, and a number without its unit, which must be asked for.
const SLIPS: &str = "# mine\n[fabric.felt]\nwdith = \"900 mm\"\nmass = \"３２０ g/m2\"\nthickness = 2\n";

#[test]
fn certain_slips_are_shown_and_put_right() {
    let scratch = Scratch::new();
    scratch.bag(SLIPS);
    let before = scratch.files();
    let ran = scratch.run(&["check", "bag", "--fix"]);
    let lines = "bag/more.toml\n     3 - wdith = \"900 mm\"\n     3 + width = \"900 mm\"\n     4 - mass = \"３２０ g/m2\"\n     \
                 4 + mass = \"320 g/m2\"\n\n";
    let out = ran.out.replace('\\', "/");
    assert!(out.starts_with(lines), "{ran:?}");
    // What is left is printed: the number alone is not certain.
    assert!(ran.code == 1 && out.contains("must[bare-number]") && !out.contains("unknown-key"), "{ran:?}");
    let text = String::from_utf8(scratch.read("bag/more.toml")).unwrap();
    assert_eq!(text, SLIPS.replace("wdith", "width").replace("３２０", "320"));
    assert_eq!(scratch.files(), before, "nothing else is there");
    let again = scratch.run(&["check", "bag", "--fix"]);
    assert!(again.out.starts_with("bag: nothing to fix\n"), "{again:?}");
    assert_eq!(scratch.run(&["check", "bag"]).out, again.out.split_once("\n\n").unwrap().1);
}

#[test]
fn a_dry_run_writes_nothing() {
    let scratch = Scratch::new();
    scratch.bag(SLIPS);
    let ran = scratch.run(&["check", "bag", "--fix", "--dry-run"]);
    assert!(ran.out.contains("     3 + width = \"900 mm\"\n") && ran.out.contains("nothing is written"), "{ran:?}");
    assert_eq!(scratch.read("bag/more.toml"), SLIPS.as_bytes());
    assert_eq!(scratch.run(&["check", "bag", "--dry-run"]).code, 2, "of nothing");
    scratch.run(&["check", "bag", "--fix", "--format", "json"]).refused("--fix shows its changes as text");
}

/// The key is put right and its value is no width: that would be another thing to settle, so the file stays.
#[test]
fn a_change_that_brings_up_another_fault_is_not_made() {
    let scratch = Scratch::new();
    let text = "[fabric.felt]\nwdith = \"900 g\"\nmass = \"３２０ g/m2\"\n";
    scratch.bag(text);
    let ran = scratch.run(&["check", "bag", "--fix"]);
    assert_eq!(ran.code, 2, "{ran:?}");
    assert!(ran.err.contains("nothing is written") && ran.err.contains("[bad-unit]"), "{ran:?}");
    assert_eq!(scratch.read("bag/more.toml"), text.as_bytes());
}

/// Libraries of the root are put right with the style that uses them.
#[test]
fn a_shared_library_is_put_right() {
    let scratch = Scratch::new();
    scratch.bag("");
    scratch.write("backtack-root.toml", "");
    scratch.write("shared/fabrics.toml", "[fabric.felt]\nwdith = \"900 mm\"\n");
    scratch.write("shared/other.toml", "[fabric.wool]\nwdith = \"900 mm\"\n");
    let style = String::from_utf8(scratch.read("bag/style.toml")).unwrap();
    scratch.write("bag/style.toml", style.replacen("[style]\n", "[style]\nlibraries = [\"shared/fabrics.toml\"]\n", 1));
    scratch.run(&["check", "bag", "--fix"]);
    assert_eq!(scratch.read("shared/fabrics.toml"), b"[fabric.felt]\nwidth = \"900 mm\"\n");
    assert_eq!(scratch.read("shared/other.toml"), b"[fabric.wool]\nwdith = \"900 mm\"\n", "nothing names it");
}

//! Safe edits: which are made, in which text, and what stops them.

use backtack_core::diag::{Levels, Severity};
use backtack_core::pipeline::{self, MendError, Mended, Source, apply, mend};
use backtack_core::read::Unsaved;
use backtack_core::source::{Edit, FileId, Help, Span, Tally, certain};

/// Makes the safe edits of files in memory.
fn mended(files: &[(&str, &str)]) -> Result<Mended, MendError> {
    let read = |texts: &Unsaved| {
        let over = |(path, text): &(&str, &str)| texts.get(*path).cloned().unwrap_or_else(|| text.to_string());
        let all: Vec<String> = files.iter().map(over).collect();
        let members: Vec<(&str, &[u8])> =
            files.iter().zip(&all).map(|((path, _), text)| (*path, text.as_bytes())).collect();
        pipeline::read(&Source::Files { style: "", files: &members }, &Tally::default())
    };
    let loaded = read(&Unsaved::new()).unwrap();
    let checked = pipeline::check(&loaded, &Levels::new(), false);
    mend(loaded, checked, (&Levels::new(), false), read)
}

/// What becomes of one file.
fn text(written: &str) -> String {
    let mended = mended(&[("a.toml", written)]).unwrap();
    mended.texts.get("a.toml").cloned().unwrap_or_else(|| written.to_string())
}

/// A piece that names a fabric of which nothing is left to ask.
fn material(name: &str) -> String {
    let fabric = "[fabric.canvas]\nmass = \"300 g/m2 ±5 %\"\ncuttable-width = \"1 m\"\n";
    format!("{fabric}[piece.A]\nmaterial = \"{name}\"\n")
}

#[test]
fn what_is_certain_is_put_right() {
    for (written, wanted) in [
        ("[fabric.felt]\nwidht = \"1 m\"\n", "[fabric.felt]\nwidth = \"1 m\"\n"),
        ("[fabrice.felt]\nwidth = \"1 m\"\n", "[fabric.felt]\nwidth = \"1 m\"\n"),
        ("[fabric.felt]\nwidth = \"１．５　ｍ\"\n", "[fabric.felt]\nwidth = \"1.5 m\"\n"),
        ("[fabric.felt]\nwidth = \"1,5 m\"\n", "[fabric.felt]\nwidth = \"1.5 m\"\n"),
        (&material("canvsa"), &material("canvas")),
        ("[severity]\nno-veiw = \"off\"\n", "[severity]\nno-view = \"off\"\n"),
        // Line ends, comments and the byte order mark stay.
        (
            "\u{feff}[fabric.felt] # x\r\nwidht = \"1 m\" # y\r\n",
            "\u{feff}[fabric.felt] # x\r\nwidth = \"1 m\" # y\r\n",
        ),
        // Two on one line.
        (
            "fabric.felt = { widht = \"1 m\", thikness = \"1 mm\" }\n",
            "fabric.felt = { width = \"1 m\", thickness = \"1 mm\" }\n",
        ),
        // The table first; only then is its key known to be wrong.
        ("[fabrice.felt]\nwidht = \"1 m\"\n", "[fabric.felt]\nwidth = \"1 m\"\n"),
    ] {
        assert_eq!(text(written), wanted);
    }
}

#[test]
fn what_is_not_certain_is_left() {
    for written in [
        "[fabric.felt]\nwidth = 5\n",
        "[fabric.felt]\nmass = \"1,500 g/m2\"\n",
        "[fabric.felt]\nwidth = \"1 mtr\"\n",
        "[fabric.a1]\n[fabric.a2]\n[piece.A]\nmaterial = \"a3\"\n",
        "[style]\nsizes = [\"S\", \"M\"]\n[part.a]\n[piece.A]\npart = \"b\"\n",
        "[fabric.felt]\nid = \"x\"\n",
        // The key is there already.
        "[fabric.felt]\nwidth = \"1 m\"\nwidht = \"1 m\"\n",
    ] {
        assert_eq!(text(written), written);
    }
}

#[test]
fn a_word_is_certain_if_no_other_is_near() {
    let known = ["width", "cuttable-width", "mass"];
    assert!(certain("widht", "width", known) && certain("wdth", "width", known));
    assert!(!certain("wdht", "width", known), "two letters off");
    assert!(!certain("mas", "mass", known), "a short word");
    assert!(!certain("foot1", "foot2", ["foot2"]), "a number is another thing");
    assert!(!certain("strap-r", "strap-l", ["strap-l", "strap-b"]), "which of them?");
}

#[test]
fn two_edits_of_one_place_take_two_rounds() {
    let mended = mended(&[("a.toml", "[fabrice.felt]\nwidht = \"1 m\"\n")]).unwrap();
    let lines: Vec<usize> = mended.changes.iter().map(|change| change.line).collect();
    assert_eq!(lines, [1, 2]);
    assert_eq!(mended.changes[1].before, ["widht = \"1 m\""]);
    assert_eq!(mended.changes[1].after, ["width = \"1 m\""]);
}

/// Of edits that overlap the first is made; what is inserted at one place is made once; edits side by side all are.
#[test]
fn the_first_of_overlapping_edits_is_made() {
    let text = "abc def\nghi\n";
    let edit = |start, end, text: &str| Edit::replace(Span { file: FileId(0), start, end }, text);
    let made = |edits: &[Edit]| apply("a.toml", text, &edits.iter().collect::<Vec<_>>()).0;
    assert_eq!(made(&[edit(4, 7, "x"), edit(0, 5, "y")]), "yef\nghi\n");
    assert_eq!(made(&[edit(0, 3, "x"), edit(0, 3, "y")]), "x def\nghi\n");
    assert_eq!(made(&[edit(3, 3, "x"), edit(3, 3, "y")]), "abcx def\nghi\n");
    assert_eq!(made(&[edit(3, 4, "-"), edit(0, 3, "x"), edit(4, 7, "y")]), "x-y\nghi\n");
    let (_, changes) = apply("a.toml", text, &[&edit(0, 3, "x"), &edit(8, 11, "z"), &edit(4, 7, "y")]);
    let shown: Vec<_> = changes.iter().map(|one| (one.line, one.before.join("|"), one.after.join("|"))).collect();
    assert_eq!(shown, [(1, "abc def".into(), "x y".into()), (2, "ghi".into(), "z".into())]);
    let (_, changes) = apply("a.toml", text, &[&edit(0, 8, "")]);
    assert_eq!((changes[0].before.join("|"), changes[0].after.len()), ("abc def".into(), 0));
}

#[test]
fn what_makes_it_worse_is_not_made() {
    let error = mended(&[("a.toml", "[fabric.felt]\nwidht = \"1 kg\"\n")]).unwrap_err();
    let MendError::Worse { findings } = &error else { panic!("{error:?}") };
    assert_eq!(findings.iter().map(|(code, _)| *code).collect::<Vec<_>>(), ["bad-unit"]);
    // Both keys would be one: the file could not be read any more.
    let error = mended(&[("a.toml", "[fabric.felt]\nwidht = \"1 m\"\nwdith = \"1 m\"\n")]).unwrap_err();
    assert!(matches!(&error, MendError::Broken { path } if path == "a.toml"), "{error:?}");
}

/// A needless mirror goes with its line, and nothing that is on the line with it does.
#[test]
fn a_needless_line_goes_whole() {
    use backtack_core::source::Sources;
    let placed = |text: &str, mark: &str, edit: fn(Span) -> Edit| {
        let mut sources = Sources::default();
        let file = sources.add("a.toml", text);
        let start = text.find(mark).unwrap();
        let edit = edit(Span { file, start, end: start + mark.len() }).placed(&sources)?;
        let mut out = text.to_string();
        out.replace_range(edit.span.start..edit.span.end, &edit.text);
        Some(out)
    };
    let gone = |text| placed(text, "true", Edit::take_out);
    assert_eq!(gone("[seam.a]\nmirrored = true\nb = 1\n").as_deref(), Some("[seam.a]\nb = 1\n"));
    assert_eq!(gone("[seam.a]\nmirrored = true").as_deref(), Some("[seam.a]\n"));
    assert_eq!(gone("seam.a = { x = 1, mirrored = true }\n"), None);
    assert_eq!(gone("mirrored = true # why\n"), None);
    let more = |text| placed(text, "felt", |span| Edit::line(span, "mass = \"1 g/m2\""));
    assert_eq!(more("[fabric.felt] # x\na = 1\n").as_deref(), Some("[fabric.felt] # x\nmass = \"1 g/m2\"\na = 1\n"));
    assert_eq!(more("[fabric.felt]\r\na = 1\r\n").as_deref(), Some("[fabric.felt]\r\nmass = \"1 g/m2\"\r\na = 1\r\n"));
    assert_eq!(more("fabric.felt = { a = 1 }\n"), None);
}

/// Every edit that is offered for a failing fixture can be made: what comes out can be read, and the finding is gone.
#[test]
fn helps_that_are_edits_are_right() {
    let text = "[style]\nsizes = [\"S\"]\n[fabric.felt]\nmass = 300\nwidht = \"1 m\"\n[point-of-measure.H]\ntarget = \"250 mm ±5 mm\"\n";
    let loaded = backtack_core::read::texts(&[("a.toml", text)]);
    let findings = crate::checked(&loaded).findings;
    let of = |code: &str| findings.iter().find(|one| one.rule.code == code).unwrap();
    for (code, wanted) in [
        ("bare-number", "mass = \"300 g/m2\""),
        ("unknown-key", "width = \"1 m\""),
        ("missing-read-to", "[point-of-measure.H]\nread-to = \"1 mm\"\n"),
        ("measurement-without-state", "[point-of-measure.H]\nstate = \"stuffed\"\n"),
    ] {
        let finding = of(code);
        let Help { edit: Some(edit), .. } = &finding.help[0] else { panic!("{finding:?}") };
        assert_eq!(edit.safe, code == "unknown-key", "{code}");
        let mut out = text.to_string();
        out.replace_range(edit.span.start..edit.span.end, &edit.text);
        assert!(out.contains(wanted), "{out}");
        let again = crate::checked(&backtack_core::read::texts(&[("a.toml", &out)])).findings;
        assert!(again.iter().all(|one| one.rule.code != code || one.severity != Severity::Must), "{code}");
        assert!(again.iter().all(|one| one.message != finding.message), "{code}");
    }
}

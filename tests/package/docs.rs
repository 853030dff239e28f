//! The pages for users, followed: every command they print is one of the program, and the walks they describe work.

use std::path::Path;

use crate::folder::{Ran, Scratch};

fn top() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The README and every guide: name and text.
fn pages() -> Vec<(String, String)> {
    let guides = std::fs::read_dir(top().join("docs")).unwrap().map(|entry| entry.unwrap().path());
    let mut paths: Vec<_> = guides.filter(|path| path.extension().is_some_and(|ending| ending == "md")).collect();
    paths.push(top().join("README.md"));
    paths.sort();
    let name = |path: &Path| path.file_name().unwrap().to_string_lossy().into_owned();
    paths.iter().map(|path| (name(path), std::fs::read_to_string(path).unwrap())).collect()
}

fn page(name: &str) -> String {
    pages().into_iter().find(|(one, _)| one == name).unwrap().1
}

/// The fenced blocks of one language on a page, in order.
fn blocks(page: &str, language: &str) -> Vec<String> {
    let fenced = page.split("\n```").skip(1).step_by(2);
    let of = |block: &str| block.split_once('\n').map(|(head, text)| (head.to_string(), text.to_string()));
    fenced.filter_map(of).filter(|(head, _)| head == language).map(|(_, text)| text).collect()
}

/// The words of a command line without its comment and what the shell does with its output.
fn words(line: &str) -> Vec<String> {
    let line = line.split("  #").next().unwrap().split(" > ").next().unwrap();
    let mut words = vec![String::new()];
    let mut quoted = false;
    for c in line.trim().chars() {
        match c {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            _ => words.last_mut().unwrap().push(c),
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

#[test]
fn every_printed_command_is_one_of_the_program() {
    let mut seen = 0;
    for (name, text) in pages() {
        let blocks = blocks(&text, "sh");
        let lines = blocks.iter().flat_map(|block| block.lines());
        let inline = text.split('`').filter(|one| !one.contains('\n'));
        for line in lines.chain(inline).filter(|line| line.starts_with("backtack ")) {
            let (words, all) = (words(line), backtack::cli::command());
            // In a sentence a command may be named without its arguments.
            let named = words.len() == 2 && all.get_subcommands().any(|one| one.get_name() == words[1]);
            let said = all.try_get_matches_from(words).err().map(|error| error.to_string());
            assert!(named || said.is_none(), "{name}: {line}: {said:?}");
            seen += 1;
        }
    }
    assert!(seen > 50, "{seen}");
}

/// A text with everything from `start` up to `end` replaced.
fn instead(whole: &str, start: &str, end: &str, new: &str) -> String {
    let from = whole.find(start).unwrap();
    let to = from + whole[from..].find(end).unwrap();
    format!("{}{new}{}", &whole[..from], &whole[to..])
}

/// The bag of the README in the folder `my-bag`, without a picture, after each of its steps; its commands are typed.
fn walked(scratch: &Scratch) {
    let read = |name: &str| String::from_utf8(scratch.read(name)).unwrap();
    let page = page("README.md");
    let (toml, typed) = (blocks(&page, "toml"), blocks(&page, "sh"));
    let mut lines = typed.iter().flat_map(|block| block.lines()).filter(|line| line.starts_with("backtack"));
    let first = scratch.typed(lines.next().unwrap());
    assert_eq!(first.code, 0, "{first:?}");
    let asked = scratch.typed(lines.next().unwrap());
    assert!(asked.code == 0 && asked.out.contains("should[placeholder-left]"), "{asked:?}");
    scratch.own("my-bag");
    let below = |name: &str, text: &str| {
        let first = read(name).lines().next().unwrap().to_string();
        scratch.write(name, format!("{first}\n{text}"));
    };
    std::fs::remove_file(scratch.path("my-bag/lining.toml")).unwrap();
    scratch.write("my-bag/style.toml", read("my-bag/style.toml").replace("lining = \"lawn/clay\"\n", ""));
    below("my-bag/pieces.toml", &toml[0]);
    let seams = instead(&read("my-bag/seams.toml"), "# A seam joins", "# Steps of the work", &format!("{}\n", toml[1]));
    let order = seams.find("[work]").unwrap();
    let wrong = format!("{}{}", &seams[..order], toml[2]);
    scratch.write("my-bag/seams.toml", &wrong);
    let measures = toml[3].split("[view.front]").next().unwrap();
    let shown = |line: &&str| !line.starts_with("view =") && !line.starts_with("arrow =");
    below("my-bag/measurements.toml", &measures.lines().filter(shown).collect::<Vec<_>>().join("\n"));
    let found = scratch.run(&["check", "my-bag"]);
    assert!(found.code == 1 && found.out.contains("must[inside-out-seam]"), "{found:?}");
    scratch.write("my-bag/seams.toml", wrong.replace("BODY:sw-b1-b2-b3-se", "BODY:se-b3-b2-b1-sw"));
    assert_eq!(scratch.run(&["check", "my-bag"]).code, 0);
}

/// From nothing to the PDF, as the README says, and what it says of the lays.
#[test]
fn the_walk_through_ends_in_a_package() {
    let scratch = Scratch::new();
    walked(&scratch);
    let page = page("README.md");
    let build = blocks(&page, "sh").pop().unwrap();
    let built = scratch.typed(&build);
    assert_eq!((built.code, built.out.trim()), (0, "my-bag/out/ST-01-A.pdf"), "{built:?}");
    assert!(scratch.read("my-bag/out/ST-01-A.pdf").starts_with(b"%PDF-"));
    let lays = blocks(&page, "").into_iter().find(|block| block.starts_with("should[low-")).unwrap();
    assert!(built.err.replace('\u{a0}', " ").contains(lays.trim()), "{built:?}");
    let again = scratch.run(&["check", "my-bag"]);
    assert!(again.code == 0 && again.out.replace('\u{a0}', " ").contains(lays.trim()), "{again:?}");
}

/// What takes minutes as it is printed is typed with less to do.
const SHORTER: [(&str, &str); 3] = [
    ("--effort long", "--effort quick"),
    ("--evaluations 200000", "--evaluations 1000"),
    ("--seconds 30", "--seconds 1"),
];

/// Types every line of the shell blocks of a page, one after the other, with what stands for a reader's own put in.
fn type_all(scratch: &Scratch, name: &str, own: impl Fn(&str, &[Ran]) -> String) {
    let mut ran: Vec<Ran> = Vec::new();
    for line in blocks(&page(name), "sh").iter().flat_map(|block| block.lines()) {
        let mut line = own(line, &ran);
        SHORTER.iter().for_each(|(long, short)| line = line.replace(long, short));
        let typed = scratch.typed(&line);
        // Questions that are made a `must`, and a comparison that finds a change, say so by the exit code.
        let stops = ["--strict", "--stage bulk", "backtack compare"].iter().any(|word| line.contains(word));
        assert_eq!(typed.code, i32::from(stops), "{name}: {line}: {typed:?}");
        ran.push(typed);
    }
    assert!(!ran.is_empty(), "{name} prints no command");
}

/// The lines of the guides that need a bag and no more.
#[test]
fn every_printed_line_can_be_typed() {
    let scratch = Scratch::new();
    walked(&scratch);
    scratch.start("other-bag", "bag");
    scratch.write("my-bag/orders/spring.toml", &blocks(&page("orders.md"), "toml")[0]);
    scratch.write("pieces.json", &blocks(&page("lays.md"), "json")[0]);
    let as_printed = |line: &str, _: &[Ran]| line.to_string();
    for name in ["checking.md", "editor.md", "lays.md", "orders.md", "samples.md", "package.md", "toy.md"] {
        type_all(&scratch, name, as_printed);
    }
    assert!(scratch.path(".local/share/bash-completion/completions/backtack").is_file());
    assert_eq!(scratch.read("my-bag/backtack-schema.json"), scratch.read("other-bag/backtack-schema.json"));
}

/// Sealing, verifying, signing, opening and the style with a history, with the digest that `seal` printed.
#[test]
fn revisions_are_sealed_and_signed_as_printed() {
    let scratch = Scratch::new();
    walked(&scratch);
    copy(&top().join("spec-examples/puffin"), &scratch.path("spec-examples/puffin"));
    type_all(&scratch, "revisions.md", |line, ran| {
        let digest = ran.first().and_then(|seal| seal.out.split_whitespace().find(|word| word.len() == 64));
        line.replace("DIGEST", digest.unwrap_or_default())
    });
    let printed = scratch.typed("sha256sum outer.txt");
    assert_eq!(printed.code, 0, "{printed:?}");
    assert!(scratch.path("my-bag/revisions/A.sig").is_file() && scratch.path("again/style.toml").is_file());
    assert!(scratch.path("theirs/style.toml").is_file() && scratch.path("my-puffin/revisions/C.sealed").is_file());
}

/// What the guide prints of a comparison is of the puffin's.
#[test]
fn the_printed_comparison_is_the_puffins() {
    let scratch = Scratch::new();
    copy(&top().join("spec-examples/puffin"), &scratch.path("my-puffin"));
    let ran = scratch.run(&["compare", "my-puffin/revisions/B.sealed", "my-puffin"]);
    let out = ran.out.replace('\u{a0}', " ");
    let mut lines = out.lines();
    for line in blocks(&page("revisions.md"), "text")[0].lines().filter(|line| !line.is_empty()) {
        assert!(lines.any(|one| one == line), "{line} is not in\n{out}");
    }
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap().map(|entry| entry.unwrap()) {
        let own = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &own);
        } else {
            std::fs::copy(entry.path(), own).unwrap();
        }
    }
}

/// Every line of the style with a history, one after the other.
#[test]
fn the_style_with_a_history_goes_as_printed() {
    let scratch = Scratch::new();
    let page = page("revisions.md");
    let walk = blocks(&page, "sh").into_iter().find(|block| block.starts_with("cp -r spec-examples/puffin")).unwrap();
    copy(&top().join("spec-examples/puffin"), &scratch.path("my-puffin"));
    for line in walk.lines().skip(1) {
        let words = words(line);
        let arguments: Vec<&str> = words.iter().skip(1).map(String::as_str).collect();
        let ran = scratch.run(&arguments);
        // A comparison that finds a change says so by its exit code.
        let wanted = i32::from(arguments[0] == "compare");
        assert_eq!(ran.code, wanted, "{line}: {ran:?}");
    }
    assert!(scratch.path("my-puffin/revisions/C.sealed").is_file());
    let style = String::from_utf8(scratch.read("my-puffin/style.toml")).unwrap();
    let bulk = style.replace("id = \"C\"", "id = \"D\"").replace("stage = \"pre-production\"", "stage = \"bulk\"");
    assert_eq!(bulk.matches("\"D\"").count() + bulk.matches("\"bulk\"").count(), 2);
    scratch.write("my-puffin/style.toml", bulk);
    let refused = scratch.run(&["seal", "my-puffin", "D", "--by", "Runa Halden"]);
    assert!(refused.code != 0 && !scratch.path("my-puffin/revisions/D.sealed").exists(), "{refused:?}");
}

/// The plain pieces of the guide are laid.
#[test]
fn the_printed_pieces_are_laid() {
    let scratch = Scratch::new();
    scratch.write("pieces.json", blocks(&page("lays.md"), "json")[0].clone());
    let ran = scratch.run(&["lay", "pieces.json", "--evaluations", "1000", "--rows"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(ran.out.contains("cannot be shorter than"), "{ran:?}");
    assert!(scratch.path("pieces-lay.json").is_file() && scratch.path("pieces-lay.svg").is_file());
}

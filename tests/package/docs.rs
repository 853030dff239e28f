//! The pages for users, followed: every command they print is one of the program, and the walks they describe work.

use std::path::Path;

use crate::folder::Scratch;

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

/// From nothing to the PDF, as the README says, without a picture; then with the order that the guide prints.
#[test]
fn the_walk_through_ends_in_a_package() {
    let scratch = Scratch::new();
    let read = |name: &str| String::from_utf8(scratch.read(name)).unwrap();
    let toml = blocks(&page("README.md"), "toml");
    assert_eq!(scratch.run(&["new", "my-bag"]).code, 0);
    assert_eq!(scratch.run(&["check", "my-bag"]).code, 0);
    scratch.write("my-bag/pieces.toml", &toml[0]);
    let seams = instead(&read("my-bag/seams.toml"), "# A seam joins", "# Steps of the work", &format!("{}\n", toml[1]));
    let order = seams.find("[work]").unwrap();
    let wrong = format!("{}{}", &seams[..order], toml[2]);
    scratch.write("my-bag/seams.toml", &wrong);
    let measures = toml[3].split("[view.front]").next().unwrap();
    let shown = |line: &&str| !line.starts_with("view =") && !line.starts_with("arrow =");
    scratch.write("my-bag/measurements.toml", measures.lines().filter(shown).collect::<Vec<_>>().join("\n"));
    let found = scratch.run(&["check", "my-bag"]);
    assert!(found.code == 1 && found.out.contains("must[inside-out-seam]"), "{found:?}");
    scratch.write("my-bag/seams.toml", wrong.replace("BODY:sw-b1-b2-b3-se", "BODY:se-b3-b2-b1-sw"));
    assert_eq!(scratch.run(&["check", "my-bag"]).code, 0);
    let built = scratch.run(&["build", "my-bag"]);
    assert_eq!((built.code, built.out.trim().replace('\\', "/").as_str()), (0, "my-bag/out/ST-01-A.pdf"), "{built:?}");
    assert!(scratch.read("my-bag/out/ST-01-A.pdf").starts_with(b"%PDF-"));
    let order = blocks(&page("orders.md"), "toml")[0].replace("\"S\"", "\"one\"").replace("\"natural\"", "\"plain\"");
    scratch.write("my-bag/orders/spring.toml", order);
    let built = scratch.run(&["build", "my-bag", "--order", "spring"]);
    assert_eq!(built.code, 0, "{built:?}");
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

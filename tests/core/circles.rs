//! No file imports itself by way of others. Imports are followed to the file that defines what is imported: a name that
//! is only handed on (`pub use`) makes no import of the file that hands it on, and `mod` is none either.

use std::collections::{BTreeMap, BTreeSet};

use crate::tidy::sources;

/// One module, which is one file.
struct Module {
    file: String,
    /// Its place among all modules, and its parent's.
    parent: Option<usize>,
    kids: BTreeMap<String, usize>,
    uses: Vec<Use>,
    /// What is left of its code without `use` and `mod`.
    body: String,
}

/// One name that a file brings in.
#[derive(Clone, Debug, PartialEq)]
struct Use {
    path: Vec<String>,
    /// What it is called here; `*` for everything.
    name: String,
    /// Whether it is handed on.
    shown: bool,
}

/// All modules of a package; the first is its root.
struct Tree {
    modules: Vec<Module>,
}

/// What a path leads to.
#[derive(Clone, Copy, PartialEq)]
enum Found {
    /// A module as such: no import of anything in it.
    Module(usize),
    /// Something that this module defines.
    Item(usize),
}

impl Tree {
    fn of(root: &str, texts: &BTreeMap<String, String>) -> Tree {
        let mut tree = Tree { modules: Vec::new() };
        tree.load(root, None, texts);
        tree
    }

    fn load(&mut self, file: &str, parent: Option<usize>, texts: &BTreeMap<String, String>) -> usize {
        let (statements, rest) = parted(&plain(&texts[file]));
        let mut uses = Vec::new();
        let mut names = Vec::new();
        for statement in &statements {
            match statement.split_once("use ") {
                Some((before, tree)) => spread(&[], tree, before.contains("pub"), &mut uses),
                None => names.extend(statement.split_whitespace().last().map(str::to_string)),
            }
        }
        let here = self.modules.len();
        self.modules.push(Module { file: file.to_string(), parent, kids: BTreeMap::new(), uses, body: rest });
        let (folder, own) = file.rsplit_once('/').unwrap();
        let folder = match own {
            "mod.rs" | "lib.rs" => folder.to_string(),
            _ => file.trim_end_matches(".rs").to_string(),
        };
        for name in names {
            let places = [format!("{folder}/{name}.rs"), format!("{folder}/{name}/mod.rs")];
            let place = places.iter().find(|place| texts.contains_key(*place));
            let place = place.unwrap_or_else(|| panic!("{file}: the module {name} has no file"));
            let kid = self.load(place, Some(here), texts);
            self.modules[here].kids.insert(name, kid);
        }
        here
    }

    /// What a path means that is written in a module; `None` if it leads out of the package, or round in a circle of names.
    fn resolved(&self, at: usize, path: &[String], depth: usize) -> Option<Found> {
        let (first, rest) = path.split_first()?;
        if depth > 20 {
            return None;
        }
        match first.as_str() {
            "crate" => self.walked(0, rest, depth),
            "self" => self.walked(at, rest, depth),
            "super" => {
                let parent = self.modules[at].parent?;
                match rest.first().map(String::as_str) {
                    Some("super") => self.resolved(parent, rest, depth),
                    _ => self.walked(parent, rest, depth),
                }
            }
            name => match self.modules[at].kids.get(name) {
                Some(kid) => self.walked(*kid, rest, depth),
                None => {
                    let one = self.modules[at].uses.iter().find(|one| one.name == name)?;
                    self.resolved(at, &[one.path.as_slice(), rest].concat(), depth + 1)
                }
            },
        }
    }

    /// What a path means that goes on from a module.
    fn walked(&self, at: usize, path: &[String], depth: usize) -> Option<Found> {
        let Some((name, rest)) = path.split_first() else { return Some(Found::Module(at)) };
        if let Some(kid) = self.modules[at].kids.get(name) {
            return self.walked(*kid, rest, depth);
        }
        let uses = &self.modules[at].uses;
        if let Some(one) = uses.iter().find(|one| one.name == *name) {
            let found = self.resolved(at, &[one.path.as_slice(), rest].concat(), depth + 1);
            return found.or(Some(Found::Item(at)));
        }
        for one in uses.iter().filter(|one| one.name == "*") {
            if let Some(Found::Module(other)) = self.resolved(at, &one.path, depth + 1)
                && self.defines(other, name)
            {
                return self.walked(other, path, depth + 1);
            }
        }
        Some(Found::Item(at))
    }

    fn defines(&self, at: usize, name: &str) -> bool {
        let module = &self.modules[at];
        let words: Vec<&str> = words(&module.body).collect();
        let kinds = ["fn", "struct", "enum", "const", "type", "trait", "static"];
        module.kids.contains_key(name)
            || module.uses.iter().any(|one| one.name == name)
            || words.windows(2).any(|pair| kinds.contains(&pair[0]) && pair[1] == name)
    }

    /// The files that each file imports.
    fn imports(&self) -> BTreeMap<&str, BTreeSet<&str>> {
        let mut all = BTreeMap::new();
        for (at, module) in self.modules.iter().enumerate() {
            let used: BTreeSet<&str> = words(&module.body).collect();
            let mut found: Vec<Option<Found>> = Vec::new();
            for one in &module.uses {
                match (one.name.as_str(), self.resolved(at, &one.path, 0)) {
                    ("*", Some(Found::Module(other))) if !one.shown => found.push(Some(Found::Item(other))),
                    ("*", _) => {}
                    (name, target) if !one.shown || used.contains(name) => found.push(target),
                    _ => {}
                }
            }
            found.extend(paths(&module.body).iter().map(|path| self.resolved(at, path, 0)));
            let item = |found: Option<Found>| match found {
                Some(Found::Item(other)) if other != at => Some(self.modules[other].file.as_str()),
                _ => None,
            };
            all.insert(module.file.as_str(), found.into_iter().filter_map(item).collect());
        }
        all
    }
}

/// Code without comments, tests and what stands in quotes.
fn plain(text: &str) -> String {
    let end = text.find("#[cfg(test)]\nmod ").unwrap_or(text.len());
    let mut rest = &text[..end];
    let mut out = String::new();
    while let Some(c) = rest.chars().next() {
        let length = quoted(rest, out.chars().next_back());
        if length == 0 {
            out.push(c);
            rest = &rest[c.len_utf8()..];
        } else {
            out.push(' ');
            rest = &rest[length..];
        }
    }
    out
}

/// The bytes of the comment, string or character that a text begins with; 0 if it begins with none.
fn quoted(text: &str, before: Option<char>) -> usize {
    if text.starts_with("//") {
        return text.find('\n').unwrap_or(text.len());
    }
    let marks = text.strip_prefix('r').map(|rest| rest.chars().take_while(|c| *c == '#').count());
    if let Some(marks) = marks.filter(|marks| text[1 + marks..].starts_with('"'))
        && !before.is_some_and(|c| c.is_alphanumeric() || c == '_')
    {
        let close = format!("\"{}", "#".repeat(marks));
        return 2 + marks + text[2 + marks..].find(&close).unwrap() + close.len();
    }
    let mut chars = text.char_indices().skip(1);
    match text.as_bytes()[0] {
        b'"' => {
            while let Some((at, c)) = chars.next() {
                match c {
                    '\\' => drop(chars.next()),
                    '"' => return at + 1,
                    _ => {}
                }
            }
            text.len()
        }
        b'\'' if text[1..].starts_with('\\') => text[3..].find('\'').unwrap() + 4,
        b'\'' => match text[1..].char_indices().nth(1) {
            Some((at, '\'')) => at + 2,
            _ => 0,
        },
        _ => 0,
    }
}

/// The `use` and `mod` statements of some code, without their semicolons, and everything else.
fn parted(code: &str) -> (Vec<String>, String) {
    let (mut statements, mut rest) = (Vec::new(), String::new());
    let mut lines = code.lines();
    while let Some(line) = lines.next() {
        let line = line.trim();
        let shown = line.strip_prefix("pub").map(|rest| rest.split_once(") ").map_or(rest, |(_, rest)| rest).trim());
        let bare = shown.unwrap_or(line);
        if bare.starts_with("use ") || (bare.starts_with("mod ") && bare.ends_with(';')) {
            let mut whole = line.to_string();
            while !whole.contains(';') {
                whole = whole + " " + lines.next().unwrap().trim();
            }
            statements.push(whole.trim_end_matches(';').to_string());
        } else {
            rest.push_str(line);
            rest.push('\n');
        }
    }
    (statements, rest)
}

/// Every name of a tree of imports, such as `a::{b, c::d as e}`.
fn spread(before: &[String], tree: &str, shown: bool, uses: &mut Vec<Use>) {
    let tree = tree.trim();
    if let Some(inner) = tree.strip_prefix('{') {
        let inner = inner.strip_suffix('}').unwrap();
        let mut depth = 0;
        let split = |c: char| {
            depth += i32::from(c == '{') - i32::from(c == '}');
            c == ',' && depth == 0
        };
        inner.split(split).filter(|one| !one.trim().is_empty()).for_each(|one| spread(before, one, shown, uses));
        return;
    }
    let end = tree.find(|c: char| !(c.is_alphanumeric() || c == '_')).unwrap_or(tree.len());
    let (name, rest) = tree.split_at(end);
    let mut path = before.to_vec();
    if let Some(rest) = rest.strip_prefix("::") {
        path.push(name.to_string());
        return spread(&path, rest, shown, uses);
    }
    if tree != "*" && name != "self" {
        path.push(name.to_string());
    }
    let called = match rest.trim().strip_prefix("as ") {
        Some(other) => other.trim(),
        None if tree == "*" => "*",
        None => path.last().unwrap(),
    };
    uses.push(Use { name: called.to_string(), path, shown });
}

fn words(code: &str) -> impl Iterator<Item = &str> {
    code.split(|c: char| !(c.is_alphanumeric() || c == '_')).filter(|word| !word.is_empty())
}

/// Every path of two or more names in some code, `$crate` of macros left out.
fn paths(code: &str) -> Vec<Vec<String>> {
    let is_path = |c: char| c.is_alphanumeric() || c == '_' || c == ':' || c == '$';
    let all = code.split(|c: char| !is_path(c)).filter(|path| path.contains("::"));
    let all = all.filter(|path| !path.starts_with([':', '$']));
    all.map(|path| path.split("::").filter(|name| !name.is_empty()).map(str::to_string).collect()).collect()
}

/// Files that import each other, directly or by way of others, in groups.
fn circles<'a>(imports: &BTreeMap<&'a str, BTreeSet<&'a str>>) -> BTreeSet<BTreeSet<&'a str>> {
    let reached: BTreeMap<&str, BTreeSet<&str>> = imports.keys().map(|file| (*file, reach(imports, file))).collect();
    let group = |file: &&'a str| -> BTreeSet<&'a str> {
        reached[file].iter().copied().filter(|other| reached[other].contains(file)).collect()
    };
    imports.keys().map(group).filter(|group| !group.is_empty()).collect()
}

/// Everything that is imported from a file on.
fn reach<'a>(imports: &BTreeMap<&'a str, BTreeSet<&'a str>>, from: &str) -> BTreeSet<&'a str> {
    let mut seen = BTreeSet::new();
    let mut open: Vec<&str> = imports[from].iter().copied().collect();
    while let Some(file) = open.pop() {
        if seen.insert(file) {
            open.extend(&imports[file]);
        }
    }
    seen
}

fn found(root: &str, texts: &BTreeMap<String, String>) -> Vec<String> {
    let tree = Tree::of(root, texts);
    let imports = tree.imports();
    let mut told = Vec::new();
    for group in circles(&imports) {
        for file in &group {
            let others: Vec<&str> = imports[file].intersection(&group).copied().collect();
            told.push(format!("{file} imports {}", others.join(", ")));
        }
    }
    told
}

#[test]
fn no_file_imports_in_a_circle() {
    let texts: BTreeMap<String, String> = sources().into_iter().collect();
    for root in ["src/core/lib.rs", "src/lib.rs"] {
        let told = found(root, &texts);
        assert!(told.is_empty(), "files that import each other:\n{}", told.join("\n"));
    }
}

/// Every file of the two packages is looked at, and imports are found at all.
#[test]
fn the_search_sees_every_file() {
    let texts: BTreeMap<String, String> = sources().into_iter().collect();
    let trees = ["src/core/lib.rs", "src/lib.rs"].map(|root| Tree::of(root, &texts));
    let seen: BTreeSet<&str> = trees.iter().flat_map(|tree| &tree.modules).map(|module| module.file.as_str()).collect();
    let missing: Vec<&String> =
        texts.keys().filter(|file| !seen.contains(file.as_str()) && *file != "src/main.rs").collect();
    assert!(missing.is_empty(), "{missing:?}");
    let edges: usize = trees.iter().map(|tree| tree.imports().values().map(BTreeSet::len).sum::<usize>()).sum();
    assert!(edges > 1_000, "{edges}");
}

#[test]
fn circles_are_found_through_names_that_are_handed_on() {
    let tree =
        |files: &[(&str, &str)]| files.iter().map(|(file, text)| (format!("s/{file}"), text.to_string())).collect();
    let clean = [
        ("lib.rs", "mod a;\nmod b;\npub use a::A;\npub use b::{B, make as made};"),
        ("a.rs", "use crate::B;\npub struct A(B);"),
        ("b.rs", "// use crate::A;\npub struct B;\npub fn make() -> &'static str {\n    \"crate::A\"\n}"),
    ];
    assert_eq!(found("s/lib.rs", &tree(&clean)), Vec::<String>::new());
    let mut through = clean;
    through[2].1 = "pub struct B;\npub fn make() {\n    super::A::new()\n}";
    assert_eq!(found("s/lib.rs", &tree(&through)), ["s/a.rs imports s/b.rs", "s/b.rs imports s/a.rs"]);
    let mut parent = clean;
    parent[0].1 = "mod a;\nmod b;\nuse a::A;\npub use b::B;\npub struct C(A);";
    parent[1].1 = "use super::C;\npub struct A;";
    assert_eq!(found("s/lib.rs", &tree(&parent)), ["s/a.rs imports s/lib.rs", "s/lib.rs imports s/a.rs"]);
}

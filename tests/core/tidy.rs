//! What must stay so in the whole tree: who imports whom, sizes, what is absent. Each has its reason in DEVELOPERS.md.

mod literals;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// The leaves: everyone may import them.
const LEAVES: &[&str] = &["source", "units", "colour", "geom", "glyphs", "lay", "standards", "words"];

/// Modules of `backtack-core` and what each may import beside itself and, unless it is a leaf, the leaves.
const LAYERS: &[(&str, &[&str])] = &[
    ("source", &["words"]),
    ("units", &[]),
    ("colour", &[]),
    ("geom", &["units"]),
    ("glyphs", &[]),
    ("lay", &["geom"]),
    ("standards", &["units"]),
    ("words", &["units"]),
    ("scene", &["words"]),
    ("diag", &[]),
    ("model", &[]),
    ("grammar", &["model"]),
    ("read", &["model", "diag", "grammar"]),
    ("editions", &["model", "diag", "lay", "read"]),
    ("facts", &["model", "grammar", "read"]),
    ("check", &["model", "diag"]),
    ("compute", &["model", "diag"]),
    ("revision", &["model", "diag", "compute"]),
    ("rows", &["scene", "diag", "model", "compute", "revision"]),
    ("rules", &["model", "diag", "read", "check", "compute"]),
    ("pipeline", &["model", "diag", "read", "editions", "facts", "compute", "revision", "rules"]),
];

/// The folders of subjects, and the subjects each may see beside itself; never in a circle.
const SEES: &[(&str, &str)] = &[("orders", "cutting")];

/// The parts of a subject, and the layer each belongs to.
const PARTS: &[(&str, &str)] = &[
    ("mod", "model"),
    ("keys", "grammar"),
    ("model", "model"),
    ("read", "read"),
    ("rules", "rules"),
    ("plan", "compute"),
    ("figures", "compute"),
    ("rows", "rows"),
];

/// Where the subjects come together; everything else of the product does without them.
const GATHERS: &[&str] = &[
    "src/core/model/mod.rs",
    "src/core/grammar/keys.rs",
    "src/core/read/mod.rs",
    "src/core/check/mod.rs",
    // Whether a thing is used is asked of every subject.
    "src/core/check/reference/",
    "src/core/compute/mod.rs",
    "src/core/compute/record.rs",
    // The need of a fabric is what its lays take.
    "src/core/compute/need.rs",
    // A revision states and compares everything.
    "src/core/revision/",
    "src/core/rules.rs",
    "src/core/rows/",
    "src/core/pipeline/",
];

/// What `render` may see of `backtack-core`: rows and what they hold, never what they were made from.
const RENDER: &[&str] = &["glyphs", "words", "scene", "rows"];
/// The names of `backtack-core` that `render` may see beside these: pictures as they were read, names of attached files.
const RENDER_NAMES: &[&str] =
    &["backtack_core::model::{Medium, Picture}", "backtack_core::revision::pdf::{ARCHIVE, FIGURES, MANIFEST}"];

/// Everything that may stand at the top of the repository, beside hidden files and what a build leaves.
const TOP: &[&str] = &[
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "docs",
    "LICENSE-MIT",
    "LICENSE-APACHE",
    "src",
    "templates",
    "spec-examples",
    "tests",
    "benches",
    "target",
    "out",
];

/// Longest source file, lines.
const LONGEST: usize = 500;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Every file below a folder with one of these endings: path from the top with forward slashes, and text.
fn files(folder: &str, endings: &[&str]) -> Vec<(String, String)> {
    let mut paths = Vec::new();
    walk(&root().join(folder), &mut paths);
    paths.sort();
    let wanted = paths.into_iter().filter(|path| {
        path.extension().is_some_and(|ending| endings.iter().any(|one| *one == ending.to_string_lossy().as_ref()))
    });
    wanted
        .map(|path| {
            let name = path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
            (name, String::from_utf8_lossy(&std::fs::read(&path).unwrap()).into_owned())
        })
        .collect()
}

fn walk(folder: &Path, out: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        let name = entry.file_name().to_string_lossy().into_owned();
        if path.is_dir() && name != "target" && !name.starts_with('.') {
            walk(&path, out);
        } else if path.is_file() {
            out.push(path);
        }
    }
}

pub fn sources() -> Vec<(String, String)> {
    files("src", &["rs"])
}

/// The code of a file without the tests at its end and without comments.
fn code(text: &str) -> String {
    let end = text.find("#[cfg(test)]\nmod ").unwrap_or(text.len());
    let lines = text[..end].lines().filter(|line| !line.trim_start().starts_with("//"));
    lines.collect::<Vec<_>>().join("\n")
}

/// The first names behind every `start` (`crate::`): of `crate::a::b` it is `a`, of `crate::{a, b::c}` `a` and `b`.
fn imports(code: &str, start: &str) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    for (at, _) in code.match_indices(start) {
        let before = code[..at].chars().next_back();
        if before.is_some_and(|c| c.is_alphanumeric() || c == '_' || c == ':' || c == '$') {
            continue;
        }
        let rest = &code[at + start.len()..];
        if rest.starts_with('{') {
            group(rest, &mut names);
        } else {
            names.insert(word(rest));
        }
    }
    names.into_iter().filter(|name| name.starts_with(|c: char| c.is_ascii_lowercase())).collect()
}

fn group(rest: &str, names: &mut BTreeSet<String>) {
    let mut depth = 0;
    let mut fresh = false;
    for (at, c) in rest.char_indices() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return;
        }
        if depth == 1 && (c == '{' || c == ',') {
            fresh = true;
        } else if fresh && !c.is_whitespace() {
            names.insert(word(&rest[at..]));
            fresh = false;
        }
    }
}

fn word(text: &str) -> String {
    text.chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '_').collect()
}

/// The folder of `backtack-core` a file belongs to.
fn module(path: &str) -> Option<String> {
    let name = path.strip_prefix("src/core/")?.split('/').next()?.trim_end_matches(".rs");
    (name != "lib").then(|| name.to_string())
}

/// Whether a folder of `backtack-core` is a subject: it has keys and a model of its own.
fn is_subject(module: &str) -> bool {
    let folder = root().join("src/core").join(module);
    ["keys.rs", "model.rs"].iter().all(|part| folder.join(part).is_file())
}

/// The layer of a file: its folder, or in the folder of a subject what its file or the folder below is called.
fn layer(path: &str) -> Option<String> {
    let module = module(path)?;
    if path.starts_with("src/core/revision/rows/") {
        return Some("rows".to_string());
    }
    if !is_subject(&module) {
        return Some(module);
    }
    let inside = path.strip_prefix("src/core/")?.strip_prefix(&module)?.trim_start_matches('/');
    let part = inside.split('/').next()?.trim_end_matches(".rs");
    let known = PARTS.iter().find(|(name, _)| *name == part);
    Some(known.unwrap_or_else(|| panic!("{path}: a subject has no {part}; its parts are {PARTS:?}")).1.to_string())
}

#[test]
fn the_reader_of_imports_reads_them() {
    let names = |text: &str| imports(text, "crate::").into_iter().collect::<Vec<_>>();
    assert_eq!(names("use crate::model::Model;"), ["model"]);
    assert_eq!(names("use crate::{diag::{Finding, Rule}, model};\ncrate::read::folder()"), ["diag", "model", "read"]);
    assert_eq!(names("use backtack_crate::cli; use crate::Checked;"), Vec::<String>::new());
}

#[test]
fn modules_import_only_the_layers_below() {
    let known: BTreeSet<&str> = LAYERS.iter().map(|(name, _)| *name).collect();
    let mut seen = BTreeSet::new();
    for (path, text) in sources() {
        let (Some(module), Some(layer)) = (module(&path), layer(&path)) else { continue };
        let Some((name, allowed)) = LAYERS.iter().find(|(name, _)| *name == layer) else {
            panic!("{path}: the module {layer} has no layer in tests/core/tidy.rs")
        };
        seen.insert(*name);
        let gathers = GATHERS.iter().any(|file| path.starts_with(file));
        for import in imports(&code(&text), "crate::") {
            let own = import == module || import == layer;
            let leaf = !LEAVES.contains(name) && LEAVES.contains(&import.as_str());
            let subject = is_subject(&import) && (gathers || SEES.contains(&(&module, &import)));
            assert!(own || leaf || subject || allowed.contains(&import.as_str()), "{path} imports {import}");
        }
    }
    assert_eq!(seen, known, "a layer has no module");
}

/// Stages are run in one place only, so that every command runs them in the same order and none twice.
#[test]
fn stages_are_run_by_the_pipeline_alone() {
    let stages = [
        "Assembly::of(",
        "compute::compute(",
        "compute::findings(",
        "rules::checked(",
        "plan_order(",
        "orders::findings(",
        "read::folder(",
        "read::closure(",
        "read::texts(",
        "read::files(",
        "facts::statements(",
    ];
    // The command line plans an order to find its lays.
    let own = ["src/core/pipeline/", "src/core/orders/figures/lays.rs", "src/cli/lay/style.rs"];
    for (path, text) in sources().into_iter().filter(|(path, _)| !own.iter().any(|home| path.starts_with(home))) {
        let code = code(&text);
        for stage in stages {
            assert!(!code.contains(stage), "{path} runs {stage}..)");
        }
    }
}

#[test]
fn rendering_sees_rows_only() {
    for (path, text) in sources().into_iter().filter(|(path, _)| path.starts_with("src/render")) {
        let code = RENDER_NAMES.iter().fold(code(&text), |code, name| code.replace(name, ""));
        for import in imports(&code, "backtack_core::") {
            assert!(RENDER.contains(&import.as_str()), "{path} imports backtack_core::{import}");
        }
        for import in imports(&code, "crate::") {
            assert_eq!(import, "render", "{path}");
        }
        for absent in ["std::fs", "std::env", "std::time", "std::net", "std::process", "std::io"] {
            assert!(!code.contains(absent), "{path} uses {absent}");
        }
    }
}

#[test]
fn nothing_imports_the_command_line() {
    for (path, text) in sources() {
        if !path.starts_with("src/cli") && path != "src/main.rs" {
            assert!(!imports(&code(&text), "crate::").contains("cli"), "{path} imports cli");
            assert!(!code(&text).contains("backtack::cli"), "{path} imports cli");
        }
    }
}

#[test]
fn one_file_imports_the_engine() {
    let mut found = BTreeSet::new();
    for (path, text) in sources() {
        let code = code(&text);
        if code.contains("use typst")
            || code.contains("typst::")
            || code.contains("typst_pdf::")
            || code.contains("typst_layout::")
        {
            found.insert(path);
        }
    }
    let engine: BTreeSet<String> =
        ["src/render/engine.rs", "src/render/engine/frames.rs"].into_iter().map(str::to_string).collect();
    assert!(found.contains("src/render/engine.rs"), "{found:?}");
    assert!(found.is_subset(&engine), "{found:?}");
}

#[test]
fn files_are_small() {
    let all = sources().into_iter().chain(files("templates", &["typ"])).chain(files("benches", &["rs"]));
    for (path, text) in all {
        let lines = text.lines().count();
        assert!(lines <= LONGEST, "{path} has {lines} lines, more than {LONGEST}");
    }
    let main = std::fs::read_to_string(root().join("src/main.rs")).unwrap();
    assert!(main.lines().count() < 20, "main.rs only passes the arguments on");
}

/// The first line of a file says what is inside, in a sentence.
#[test]
fn every_file_says_what_is_inside() {
    for (path, text) in ["src", "benches", "tests"].iter().flat_map(|folder| files(folder, &["rs"])) {
        let head: Vec<&str> = text.lines().map_while(|line| line.strip_prefix("//!")).map(str::trim).collect();
        assert!(head.join(" ").len() >= 12, "{path} does not begin with //! and what is inside");
    }
}

#[test]
fn module_names_are_one_word() {
    for (path, text) in sources() {
        let homes = ["src/core/check/", "src/core/read/rules/"];
        let rule = homes.iter().any(|home| path.starts_with(home)) || text.contains("pub const RULE: Rule");
        assert!(rule || !path.contains('_'), "{path}: one word a module; only rules have the words of their code");
    }
}

#[test]
fn panics_stay_in_tests() {
    let (mut lines, mut stated) = (0, 0);
    for (path, text) in sources() {
        let code = code(&text);
        assert!(!code.contains(".unwrap()"), "{path} unwraps; bad input is a finding");
        lines += code.lines().count();
        stated += code.matches(".expect(").count();
    }
    assert!(stated * 1000 <= lines * 3 / 2, "{stated} expect in {lines} lines: more than 1.5 in a thousand");
}

#[test]
fn templates_compute_nothing() {
    for (path, text) in files("templates", &["typ"]) {
        for absent in ["calc.", "eval(", "plugin(", "sys.inputs", "datetime.", "@preview"] {
            assert!(!text.contains(absent), "{path} uses {absent}: templates get final strings");
        }
        let attached = text.replace("read(\"/attachments/\" + ", "");
        assert!(!attached.contains("read("), "{path} reads something else than attachments");
        for (at, _) in text.match_indices("\"..") {
            let line = text[..at].lines().count();
            assert!(text[..at].ends_with("#import "), "{path}:{line} reaches up by other means than an import");
        }
    }
}

/// Sheets are an enumeration in the view data; each has a template and the file that fills it.
#[test]
fn a_sheet_is_a_variant_a_template_and_a_file() {
    let text = std::fs::read_to_string(root().join("src/core/rows/sheet.rs")).unwrap();
    let start = text.rfind("sheets! {").unwrap();
    let body = &text[start..start + text[start..].find("\n}").unwrap()];
    let lines = body.lines().skip(1).map(str::trim).filter(|line| !line.starts_with("//"));
    let sheets: BTreeSet<String> = lines.map(str::to_lowercase).collect();
    assert!(sheets.len() > 10, "{sheets:?}");
    let names = |folder: &str, ending: &str| -> BTreeSet<String> {
        let stem =
            |(path, _): (String, String)| path.rsplit('/').next().unwrap().split('.').next().unwrap().to_string();
        files(folder, &[ending]).into_iter().map(stem).collect()
    };
    assert_eq!(sheets, names("templates/sheets", "typ"));
    let filled: BTreeSet<String> = files("src/core", &["rs"])
        .into_iter()
        .filter(|(path, _)| path.contains("/rows/"))
        .map(|(path, _)| path.rsplit('/').next().unwrap().trim_end_matches(".rs").to_string())
        .collect();
    assert!(sheets.is_subset(&filled), "no file of rows fills {:?}", sheets.difference(&filled));
}

#[test]
fn the_top_level_is_fixed() {
    for entry in std::fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(
            name.starts_with('.') || TOP.contains(&name.as_str()),
            "{name} has no place at the top of the repository"
        );
    }
}

/// What is left over from making it, or names a machine.
#[test]
fn the_text_speaks_of_the_product_only() {
    let words = [["/wo", "rk/"], ["/ro", "ot/"], ["TO", "DO"], ["FIX", "ME"], ["XX", "X:"], ["lorem", " ipsum"]]
        .map(|parts| parts.concat());
    let mut all = sources();
    for folder in ["docs", "templates", "tests", "benches", "spec-examples"] {
        all.extend(files(folder, &["rs", "typ", "toml", "md", "py", "svg"]));
    }
    for name in ["README.md", "DEVELOPERS.md", "CHANGELOG.md", "Cargo.toml"] {
        all.extend(std::fs::read_to_string(root().join(name)).map(|text| (name.to_string(), text)));
    }
    for (path, text) in all {
        for word in &words {
            assert!(!text.contains(word.as_str()), "{path} holds {word}");
        }
    }
}

/// Words that DEVELOPERS.md says not to use, as far as they have one meaning only.
#[test]
fn old_words_are_not_used() {
    // Written in parts, so that this file does not hold them.
    let words = [["no", "ught"], ["an", "ew"]].map(|parts| parts.concat());
    let mut all = sources();
    all.extend(files("docs", &["md"]));
    all.extend(files("templates", &["typ"]));
    for name in ["README.md", "DEVELOPERS.md", "CHANGELOG.md"] {
        all.push((name.to_string(), std::fs::read_to_string(root().join(name)).unwrap()));
    }
    // The page that lists the rules has their words.
    let later = ["src/core/check/", "src/render/", "docs/findings.md"];
    for (path, text) in all.into_iter().filter(|(path, _)| !later.iter().any(|start| path.starts_with(start))) {
        // The list of words itself: | say | do not say |.
        let lines = text.lines().filter(|line| path != "DEVELOPERS.md" || !line.starts_with('|'));
        for line in lines {
            let used = line.split(|c: char| !c.is_alphanumeric()).find(|one| words.contains(&one.to_lowercase()));
            assert!(used.is_none(), "{path} says {used:?}: {line}");
        }
    }
}

/// Both ways of writing floats that differ between platforms are caught by the linter; its list must stay.
#[test]
fn the_linter_keeps_its_lists() {
    let text = std::fs::read_to_string(root().join(".clippy.toml")).unwrap();
    for needed in
        ["f64::sin", "std::fs::read", "std::env::var", "SystemTime::now", "HashMap", "too-many-lines-threshold = 80"]
    {
        assert!(text.contains(needed), "{needed} is gone from .clippy.toml");
    }
    for manifest in ["Cargo.toml", "src/core/Cargo.toml"] {
        let text = std::fs::read_to_string(root().join(manifest)).unwrap();
        assert!(text.contains("[lints]\nworkspace = true"), "{manifest}");
    }
}

/// Every path the page for developers names is there, and every dependency has its reason.
#[test]
fn the_page_for_developers_is_true() {
    let page = std::fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let mut paths = 0;
    for token in page.split('`').chain(page.split_whitespace()) {
        let known =
            ["src/", "tests/", "templates/", "benches/", "docs/", ".ci/"].iter().any(|top| token.starts_with(top));
        let open = token.contains(char::is_whitespace) || token.contains(['<', '*']);
        let example = ["FAMILY", "NAME", "the_code", "the-code"].iter().any(|word| token.contains(word));
        if known && !open && !example {
            let path = token.trim_end_matches(['.', ',', ';', ')', '/', '`', ':']).replace('`', "");
            let module = root().join(format!("{path}.rs"));
            assert!(root().join(&path).exists() || module.exists(), "DEVELOPERS.md names {path}");
            paths += 1;
        }
    }
    assert!(paths > 40, "{paths}");
    for manifest in ["Cargo.toml", "src/core/Cargo.toml"] {
        let table: toml::Table = std::fs::read_to_string(root().join(manifest)).unwrap().parse().unwrap();
        for kind in ["dependencies", "dev-dependencies"] {
            for name in table[kind].as_table().unwrap().keys().filter(|name| *name != "backtack-core") {
                assert!(page.contains(&format!("`{name}`")), "{manifest}: {name} has no reason in DEVELOPERS.md");
            }
        }
    }
    for (name, _) in LAYERS {
        assert!(page.contains(&format!("`{name}`")), "DEVELOPERS.md does not name the layer {name}");
    }
}

//! Every rule against specifications a user could have written.
//!
//! `tests/rules/base` is a complete style without a finding. A fixture `tests/rules/<family>/<code>/fails*` or `passes*`
//! holds the files that replace or add to it. A failing one says at the end of each line what is found there
//! (`# finds: must unknown-id`, in a drawing `<!-- # finds: must open-outline -->`), and in its first line what is found without a place
//! (`# finds nowhere: must unreadable-file`): all of it, and nothing else is found.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use backtack_core::diag::{Finding, Findings, Folder, Levels, Rule, Severity, text};
use backtack_core::model::Assembly;
use backtack_core::pipeline::{apply, planned};
use backtack_core::read::Loaded;
use backtack_core::rules;
use backtack_core::source::Edit;

/// Files by path below the style folder.
type Files = BTreeMap<String, Vec<u8>>;

/// One finding as a fixture states it: file, line from 1 (0 without a place), severity and code.
type Stated = (String, usize, String);

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/rules")
}

/// One folder of files over the base.
struct Fixture {
    family: String,
    code: String,
    case: String,
    own: Files,
}

impl Fixture {
    fn name(&self) -> String {
        format!("{}/{}/{}", self.family, self.code, self.case)
    }

    /// What the fixture says is found.
    fn stated(&self) -> Vec<Stated> {
        let mut all = Vec::new();
        for (path, bytes) in &self.own {
            if !path.ends_with(".toml") && !path.ends_with(".svg") {
                continue;
            }
            for (number, line) in String::from_utf8_lossy(bytes).lines().enumerate() {
                let line = line.split("-->").next().unwrap_or(line);
                let found = |mark: &str| line.split_once(mark).map_or("", |(_, list)| list).to_string();
                let each = |list: String| list.split(',').map(|one| one.trim().to_string()).collect::<Vec<_>>();
                let named = |one: &String| !one.is_empty();
                let here = each(found("# finds: ")).into_iter().filter(named);
                all.extend(here.map(|one| (path.clone(), number + 1, one)));
                let nowhere = each(found("# finds nowhere: ")).into_iter().filter(named);
                all.extend(nowhere.map(|one| (String::new(), 0, one)));
            }
        }
        all.sort();
        all
    }

    /// The lines that say what is found, for the snapshot.
    fn marked(&self) -> String {
        let mut out = String::new();
        for (path, bytes) in &self.own {
            let text = String::from_utf8_lossy(bytes).replace(char::REPLACEMENT_CHARACTER, "?");
            for (number, line) in text.lines().enumerate().filter(|(_, line)| line.contains("# finds")) {
                out.push_str(&format!("{path}:{}: {line}\n", number + 1));
            }
        }
        out
    }

    fn found(&self) -> Found {
        let mut files = files(&root().join("base"));
        files.extend(self.own.clone());
        Found::of(&files)
    }
}

/// What reading and checking gave.
struct Found {
    loaded: Loaded,
    findings: Findings,
}

impl Found {
    fn of(files: &Files) -> Found {
        let list: Vec<(&str, &[u8])> = files.iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice())).collect();
        let loaded = crate::closure("", list);
        let mut checked = crate::checked(&loaded);
        // As a build of each order does.
        for order in loaded.model.orders.keys() {
            checked = planned(&loaded, checked, order);
        }
        let findings = checked.findings;
        Found { loaded, findings }
    }

    fn stated(&self) -> Vec<Stated> {
        let mut all: Vec<Stated> = self
            .findings
            .iter()
            .map(|finding| {
                let what = format!("{} {}", finding.severity.word(), finding.rule.code);
                match finding.places.first() {
                    Some(place) => {
                        let path = self.loaded.sources.file(place.span.file).map_or("", |file| file.path.as_str());
                        (path.to_string(), self.loaded.sources.line_column(place.span).0, what)
                    }
                    None => (String::new(), 0, what),
                }
            })
            .collect();
        all.sort();
        all
    }

    /// Every edit that a help is, with its finding.
    fn edits(&self) -> Vec<(&Finding, &Edit)> {
        let helps = self.findings.iter().flat_map(|finding| finding.help.iter().map(move |help| (finding, help)));
        helps.filter_map(|(finding, help)| Some((finding, help.edit.as_ref()?))).collect()
    }

    /// How often each rule found something.
    fn codes(&self) -> BTreeMap<&str, usize> {
        let mut all = BTreeMap::new();
        self.findings.iter().for_each(|finding| *all.entry(finding.rule.code).or_default() += 1);
        all
    }

    fn printed(&self) -> String {
        let folder = Folder { name: "door-stop", root: "", findings: &self.findings, sources: &self.loaded.sources };
        text::print(&[folder], text::Style { color: false, width: 120 })
    }
}

/// Every file below a folder.
fn files(folder: &Path) -> Files {
    let mut all = Files::new();
    for entry in walkdir(folder) {
        let below = entry.strip_prefix(folder).unwrap();
        let name: Vec<_> = below.components().map(|part| part.as_os_str().to_str().unwrap()).collect();
        all.insert(name.join("/"), fs::read(&entry).unwrap());
    }
    all
}

fn walkdir(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display())) {
        let path = entry.unwrap().path();
        if path.is_dir() { all.extend(walkdir(&path)) } else { all.push(path) }
    }
    all.sort();
    all
}

/// Names of the folders in a folder.
fn folders(folder: &Path) -> Vec<String> {
    let mut all: Vec<String> = fs::read_dir(folder)
        .unwrap_or_else(|error| panic!("{}: {error}", folder.display()))
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.is_dir())
        .map(|path| path.file_name().unwrap().to_str().unwrap().to_string())
        .collect();
    all.sort();
    all
}

fn fixtures() -> Vec<Fixture> {
    let mut all = Vec::new();
    let families = folders(&root()).into_iter().filter(|family| family != "base" && family != "snapshots");
    for family in families {
        for code in folders(&root().join(&family)) {
            for case in folders(&root().join(&family).join(&code)) {
                let own = files(&root().join(&family).join(&code).join(&case));
                all.push(Fixture { family: family.clone(), code: code.clone(), case, own });
            }
        }
    }
    all
}

#[test]
fn the_base_is_clean() {
    let found = Found::of(&files(&root().join("base")));
    assert!(found.findings.is_empty(), "{}", found.printed());
}

/// The base would hide much if it were small: it has every kind of thing the rules are about.
#[test]
fn the_base_is_a_whole_style() {
    let model = Found::of(&files(&root().join("base"))).loaded.model;
    assert_eq!((model.sizes.len(), model.colourways.len(), model.pictures.len()), (2, 2, 1));
    assert!(model.pieces.len() >= 3 && model.stuffings.len() == 1 && model.measures.len() >= 2);
    let assembly = Assembly::of(&model);
    assert_eq!(assembly.troubles, []);
    assert_eq!(assembly.outlines.gaps().collect::<Vec<_>>(), []);
    assert!(assembly.sewing.whole && assembly.sewing.shells.iter().all(|shell| shell.euler() == 2));
    assert!(assembly.sewing.loose.is_empty() && assembly.sewing.inside_out.is_empty());
}

#[test]
fn failing_fixtures_find_what_they_say_and_nothing_else() {
    let mut wrong = String::new();
    for fixture in fixtures().iter().filter(|fixture| fixture.case.starts_with("fails")) {
        let (stated, found) = (fixture.stated(), fixture.found());
        let own = stated.iter().any(|(.., what)| what.split(' ').next_back() == Some(&fixture.code));
        if stated != found.stated() || !own {
            let (name, found, printed) = (fixture.name(), found.stated(), found.printed());
            wrong.push_str(&format!("== {name}\nstated {stated:#?}\nfound {found:#?}\n{printed}\n"));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn near_misses_pass() {
    let mut wrong = String::new();
    for fixture in fixtures().iter().filter(|fixture| fixture.case.starts_with("passes")) {
        let found = fixture.found();
        if !found.findings.is_empty() || fixture.own.is_empty() {
            wrong.push_str(&format!("== {}\n{}\n", fixture.name(), found.printed()));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn every_rule_has_fixtures_and_every_fixture_a_rule() {
    let mut wrong = Vec::new();
    let mut cases: BTreeMap<(String, String), BTreeSet<String>> = BTreeMap::new();
    for fixture in fixtures() {
        let what = fixture.name();
        let known = rules::find(&fixture.code).is_some_and(|rule| rule.family == fixture.family);
        if !known || !(fixture.case.starts_with("fails") || fixture.case.starts_with("passes")) {
            wrong.push(format!("{what} belongs to no rule"));
        }
        cases.entry((fixture.family, fixture.code)).or_default().insert(fixture.case);
    }
    for rule in rules::all() {
        let own = cases.get(&(rule.family.to_string(), rule.code.to_string()));
        for case in ["fails", "passes"] {
            if !own.is_some_and(|own| own.contains(case)) {
                wrong.push(format!("tests/rules/{}/{}/{case} is missing", rule.family, rule.code));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_rule_is_written_up() {
    let mut codes = BTreeSet::new();
    for rule in rules::all() {
        assert!(codes.insert(rule.code), "{} twice", rule.code);
        for text in [rule.code, rule.family, rule.summary, rule.explanation, rule.failing, rule.passing, rule.source] {
            assert!(!text.trim().is_empty(), "{} leaves a field empty", rule.code);
        }
        assert!(!rule.summary.ends_with('.'), "{}: the summary is no sentence", rule.code);
        assert!(rule.explanation.ends_with('.'), "{}: the explanation is", rule.code);
        snippets(rule);
    }
}

/// The snippets are TOML; only a rule about broken files may show what is not.
fn snippets(rule: &Rule) {
    let read = |text: &str| toml::de::DeTable::parse(text).map(|_| ());
    assert!(read(rule.passing).is_ok(), "{}: {:?}", rule.code, read(rule.passing));
    let broken = ["not-toml", "duplicate-id"];
    assert!(read(rule.failing).is_ok() || broken.contains(&rule.code), "{}: {:?}", rule.code, read(rule.failing));
    assert_ne!(rule.failing, rule.passing, "{}", rule.code);
}

/// One rule, one file, and its name is the code.
#[test]
fn the_file_of_a_rule_bears_its_code() {
    let core = Path::new(env!("CARGO_MANIFEST_DIR"));
    for rule in rules::all() {
        let file = format!("{}.rs", rule.code.replace('-', "_"));
        let subjects = ["cutting/rules", "orders/rules", "parties/rules", "samples/rules"].map(|home| core.join(home));
        let layers = [core.join("check").join(rule.family), core.join("read/rules"), core.join("compute/rules")];
        let homes = layers.iter().chain(&subjects);
        let mut homes = homes.map(|home| home.join(&file));
        let home = homes.find(|path| path.is_file());
        let text = fs::read_to_string(home.unwrap_or_else(|| panic!("no file {file} for {}", rule.code))).unwrap();
        assert!(text.contains(&format!("code: \"{}\"", rule.code)), "{file} holds another rule");
    }
}

/// What people read: the marked lines and all that is printed about them.
#[test]
fn messages_of_failing_fixtures() {
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path(root().join("snapshots"));
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.bind(|| {
        for fixture in fixtures().iter().filter(|fixture| fixture.case.starts_with("fails")) {
            let more = fixture.case.trim_start_matches("fails");
            let shown = format!("{}\n{}", fixture.marked(), fixture.found().printed());
            insta::assert_snapshot!(format!("{}{more}", fixture.code), shown);
        }
    });
}

/// What a help proposes as an edit is run before it is printed: the finding it belongs to is gone, and nothing is found that was
/// not there before.
#[test]
fn every_edit_cures_its_finding_and_brings_no_other() {
    let mut wrong = String::new();
    let mut tried = 0;
    for fixture in fixtures().iter().filter(|fixture| fixture.case.starts_with("fails")) {
        let mut files = files(&root().join("base"));
        files.extend(fixture.own.clone());
        let before = Found::of(&files);
        for (finding, edit) in before.edits().into_iter().filter(|(finding, _)| finding.rule.code == fixture.code) {
            let Some(file) = before.loaded.sources.file(edit.span.file) else { continue };
            let (text, _) = apply(&file.path, &file.text, &[edit]);
            let mut edited = files.clone();
            edited.insert(file.path.clone(), text.into_bytes());
            let after = Found::of(&edited);
            tried += 1;
            let same = |one: &&Finding| (one.rule.code, &one.message) == (finding.rule.code, &finding.message);
            let more = after.codes().iter().any(|(code, count)| count > before.codes().get(code).unwrap_or(&0));
            if after.findings.iter().any(|one| same(&one)) || more {
                let name = fixture.name();
                wrong.push_str(&format!("== {name}, {}: `{}`\n{}\n", finding.rule.code, edit.text, after.printed()));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
    assert!(tried > 40, "{tried}");
}

/// Severities of the user hold, and `strict` leaves no `should`.
#[test]
fn levels_hold_for_findings_of_checks() {
    let all: Vec<Fixture> = fixtures().into_iter().filter(|fixture| fixture.case.starts_with("fails")).collect();
    for fixture in all {
        let found = fixture.found();
        let code = fixture.code.clone();
        let off = found.findings.clone().settled(&Levels::from([(code.clone(), None)]), false);
        assert!(off.iter().all(|finding| finding.rule.code != code), "{code} cannot be silenced");
        assert_eq!(found.findings.settled(&Levels::new(), true).count(Severity::Should), 0);
    }
}

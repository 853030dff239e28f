//! The guide that grows a toy from ten lines: its own blocks are followed, and what it prints is what is found.

use std::collections::BTreeMap;

use backtack_core::diag::{Folder, text};

use crate::readme::blocks;
use crate::starts;

const PAGE: &str = include_str!("../../docs/toy.md");

/// The folder as the reader has it.
struct Toy {
    files: BTreeMap<String, String>,
    blocks: std::vec::IntoIter<String>,
}

impl Toy {
    fn new() -> Self {
        let mut files = starts::files("soft-toy");
        assert!(files.remove("measurements.toml").is_some(), "the guide has it deleted");
        Toy { files, blocks: blocks(PAGE, "toml").into_iter() }
    }

    /// Replaces what a file holds below its first line by the next block.
    fn replace(&mut self, file: &str) -> String {
        let block = self.blocks.next().unwrap();
        let first = self.files[file].lines().next().unwrap().to_string();
        assert!(first.starts_with("#:schema"), "{first}");
        self.files.insert(file.into(), format!("{first}\n{block}\n"));
        block
    }

    /// Tables of the next block take the place of those that are there; the others are added.
    fn grow(&mut self, file: &str) {
        let block = self.blocks.next().unwrap();
        for table in tables(&block) {
            self.delete(file, table.lines().next().unwrap());
            self.files.get_mut(file).unwrap().push_str(&format!("\n{}\n", table.trim_end()));
        }
    }

    fn delete(&mut self, file: &str, head: &str) {
        let kept: String = tables(&self.files[file]).into_iter().filter(|table| !table.starts_with(head)).collect();
        self.files.insert(file.into(), kept);
    }

    /// What `check my-toy` prints, and which findings those are.
    fn check(&self) -> (String, Vec<String>) {
        let loaded = crate::closure("", self.files.iter().map(|(path, text)| (path.as_str(), text.as_bytes())));
        let findings = crate::checked(&loaded).findings;
        let codes = findings.iter().map(|one| format!("{} {}", one.severity.word(), one.rule.code)).collect();
        let folder = Folder { name: "my-toy", root: "my-toy", findings: &findings, sources: &loaded.sources };
        let style = text::Style { color: false, width: 80 };
        (text::print(&[folder], style).replace('\u{a0}', " "), codes)
    }
}

/// A file parted before each head of a table, which begins a line.
fn tables(file: &str) -> Vec<String> {
    let mut all = vec![String::new()];
    for line in file.lines() {
        if line.starts_with('[') {
            all.push(String::new());
        }
        let last = all.last_mut().unwrap();
        last.push_str(line);
        last.push('\n');
    }
    all.retain(|part| !part.is_empty());
    all
}

/// The outputs that the page prints.
fn outputs() -> Vec<String> {
    blocks(PAGE, "").into_iter().filter(|block| block.starts_with("must[")).collect()
}

#[test]
fn a_toy_grows_from_ten_lines_as_the_guide_says() {
    let mut toy = Toy::new();
    let outputs = outputs();
    let ten = toy.replace("pieces.toml");
    assert_eq!(ten.lines().filter(|line| !line.is_empty()).count(), 10);
    toy.replace("seams.toml");
    let (printed, codes) = toy.check();
    assert_eq!(codes[0], "must stuffed-part-without-filling");
    assert!(printed.starts_with(&outputs[0]), "{printed}");

    let open = ["should no-view", "should placeholder-left"];
    let unused = ["should no-view", "should unused-item", "should placeholder-left"];
    toy.grow("pieces.toml");
    toy.grow("seams.toml");
    assert_eq!(toy.check().1, unused, "{}", toy.check().0);

    toy.grow("pieces.toml");
    toy.delete("seams.toml", "[seam.round]");
    toy.grow("seams.toml");
    assert_eq!(toy.check().1, unused, "{}", toy.check().0);

    toy.grow("pieces.toml");
    toy.grow("pieces.toml");
    toy.grow("seams.toml");
    let (printed, codes) = toy.check();
    assert_eq!(codes, [&["must limb-twisted-at-root"], &open[..]].concat(), "{printed}");
    assert!(printed.contains(&outputs[1]), "{printed}");
    let seams = toy.files.get_mut("seams.toml").unwrap();
    *seams = seams
        .replace(r#"["fin.left/FIN:p-q", "fin.left/FACING:p-q"]"#, r#"["fin.left/FACING:p-q", "fin.left/FIN:p-q"]"#);
    assert_eq!(toy.check().1, open, "{}", toy.check().0);
    assert_eq!((toy.blocks.next(), outputs.len()), (None, 2));
}

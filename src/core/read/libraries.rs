//! Gathers what all files declare, those among them that the style names as shared.

use crate::words::words;

use super::declared::Declarations;
use super::reader::Reader;
use super::section::Section;
use super::{parse, rules};
use crate::grammar::keys;

words! {
    STYLE "read.libraries.style" = "the style";
}

impl Reader {
    /// Everything the files declare, libraries included.
    pub fn declarations(&mut self) -> Declarations {
        let trees = parse::parse(self);
        let mut declared = self.gather(trees);
        self.libraries(&mut declared);
        declared
    }

    /// Reads the shared files the style names and merges what they declare.
    pub(super) fn libraries(&mut self, declared: &mut Declarations) {
        let Some(style) = declared.get("style").and_then(|list| list.first()).cloned() else { return };
        let Some(kind) = keys::kind("style") else { return };
        let what = STYLE.into();
        let section = Section { fields: &style.fields, keys: &kind.keys, what: &what, span: style.id.span };
        let listed = self.list(&section, "libraries");
        if listed.is_empty() {
            return;
        }
        let before = self.sources.iter().count();
        std::mem::swap(&mut self.sources, &mut self.disk.sources);
        for path in &listed {
            match self.disk.library(&path.value) {
                Ok(true) => {}
                Ok(false) => self.findings.push(rules::missing_file(&path.value, path.span)),
                Err(()) => self.findings.push(rules::bad_path(&path.value, path.span)),
            }
        }
        std::mem::swap(&mut self.sources, &mut self.disk.sources);
        let found = std::mem::take(&mut self.disk.findings);
        found.into_iter().for_each(|finding| self.findings.push(finding));
        let trees = parse::parse_from(self, before);
        self.broken.extend(trees.broken);
        for (file, fields) in trees.files {
            self.gather_file(file, fields, declared);
        }
    }
}

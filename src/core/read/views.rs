use crate::model::{Callout, Entry, Model, View};
use crate::source::Spanned;

use super::keys::Form;
use super::reader::{Declarations, Reader};
use super::section::Section;
use super::tree::{Kind, Node};
use super::{pictures, rules};

impl Reader {
    /// Views, and the pictures they show.
    pub fn views(&mut self, declared: &Declarations, model: &mut Model) {
        model.views = self.each(declared, "view", |reader, section, entry| reader.view(section, entry));
        let named: Vec<Spanned<String>> = model.views.values().filter_map(|view| view.picture.clone()).collect();
        for path in named {
            if model.pictures.contains_key(&path.value) {
                continue;
            }
            match self.disk.fetch(&path.value) {
                Ok(true) => {}
                Ok(false) => {
                    self.findings.push(rules::missing_file(&path.value, path.span));
                    continue;
                }
                Err(()) => {
                    self.findings.push(rules::bad_path(&path.value, path.span));
                    continue;
                }
            }
            let bytes = self.disk.name(&path.value).and_then(|name| self.disk.files.get(&name).cloned());
            let Some(bytes) = bytes else { continue };
            match pictures::check(&bytes, self.disk.limits().pixels) {
                Ok((width, height)) => {
                    model.pictures.insert(path.value, crate::model::Picture { bytes, width, height });
                }
                Err(reason) => {
                    let finding = rules::bad_picture(&path.value, &reason).at(path.span, "named here");
                    self.findings.push(finding);
                }
            }
        }
        let found = std::mem::take(&mut self.disk.findings);
        found.into_iter().for_each(|finding| self.findings.push(finding));
    }

    fn view(&mut self, section: &Section<'_>, entry: Entry) -> View {
        View {
            entry,
            picture: self.word(section, "picture"),
            alt: self.text(section, "alt"),
            callouts: self.callouts(section),
        }
    }

    fn callouts(&mut self, section: &Section<'_>) -> Vec<Callout> {
        let Some(node) = section.node("callouts") else { return Vec::new() };
        let Kind::List(list) = &node.kind else {
            self.refuse::<()>("callouts", "a list of { at = .., item = .., text = .. }", node);
            return Vec::new();
        };
        list.iter().filter_map(|one| self.callout(section, one)).collect()
    }

    fn callout(&mut self, section: &Section<'_>, node: &Node) -> Option<Callout> {
        let Kind::Table(fields) = &node.kind else { return self.refuse("callouts", "tables { at = .. }", node) };
        let keys = match section.key("callouts").map(|key| &key.form) {
            Some(Form::Tables(keys)) => keys.as_slice(),
            _ => &[],
        };
        let inner = Section { fields, keys, what: "the call-out", span: node.span };
        self.report_unknown(&inner, false);
        let Some(at) = self.word(&inner, "at") else {
            let help = "add at = \"30 % 20 %\", from the left and from the top";
            self.findings.push(rules::bad_value("a call-out has a place", node.span, help));
            return None;
        };
        let spot = self.spot(&at)?;
        Some(Callout {
            at: Spanned::new(spot, at.span),
            item: self.word(&inner, "item"),
            text: self.text(&inner, "text"),
        })
    }
}

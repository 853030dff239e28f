//! Things that got another id: what was called what before.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::{Item, Meaning, StatedEntry as Entry, Statements, Stretch};

/// The later ids of things that were renamed by `was`.
#[derive(Debug, Default)]
pub struct Names {
    by: BTreeMap<&'static str, BTreeMap<String, String>>,
}

impl Names {
    /// A thing is the one it says it was if that is gone and its own id is new.
    pub fn of(before: &Statements, after: &Statements) -> Names {
        let ids = |all: &Statements| -> BTreeSet<(&'static str, String)> {
            all.items.iter().map(|item| (item.kind, item.id.clone())).collect()
        };
        let (old, new) = (ids(before), ids(after));
        let mut names = Names::default();
        for item in after.items.iter().filter(|item| item.kind != "cut") {
            let Some(was) = &item.was else { continue };
            let gone = (item.kind, was.clone());
            if old.contains(&gone) && !new.contains(&gone) && !old.contains(&(item.kind, item.id.clone())) {
                names.by.entry(item.kind).or_default().entry(was.clone()).or_insert_with(|| item.id.clone());
            }
        }
        names.cuts(&old, &new, after);
        names
    }

    /// Layers go by their piece, which may itself be renamed.
    fn cuts(
        &mut self,
        old: &BTreeSet<(&'static str, String)>,
        new: &BTreeSet<(&'static str, String)>,
        after: &Statements,
    ) {
        let mut found = BTreeMap::new();
        for (_, id) in old.iter().filter(|(kind, _)| *kind == "cut") {
            let Some((piece, cut)) = id.split_once('.') else { continue };
            let moved = format!("{}.{cut}", self.now("piece", piece));
            let gone = !new.contains(&("cut", moved.clone()));
            let heir = after.items.iter().find(|item| item.kind == "cut" && item.was.as_ref() == Some(&moved));
            let now = heir.filter(|_| gone).map_or(moved, |heir| heir.id.clone());
            if now != *id {
                found.insert(id.clone(), now);
            }
        }
        self.by.insert("cut", found);
    }

    /// The later id of a thing of one kind.
    pub fn now<'a>(&'a self, kind: &str, id: &'a str) -> &'a str {
        self.by.get(kind).and_then(|names| names.get(id)).map_or(id, String::as_str)
    }

    /// The earlier id of a thing of one kind.
    pub fn before<'a>(&'a self, kind: &str, id: &'a str) -> &'a str {
        let found = self.by.get(kind).and_then(|names| names.iter().find(|(_, now)| *now == id));
        found.map_or(id, |(was, _)| was.as_str())
    }

    /// The later id of something declared in one of these tables, or in any.
    fn any<'a>(&'a self, kinds: &[&str], id: &'a str) -> &'a str {
        let fits = |kind: &&str| kinds.is_empty() || kinds.contains(kind);
        let renamed = self.by.iter().filter(|(kind, _)| fits(kind)).find_map(|(_, names)| names.get(id));
        renamed.map_or(id, String::as_str)
    }

    /// `article` or `article/colour` by later ids.
    pub fn bought(&self, text: &str) -> String {
        const ARTICLES: &[&str] = &["role", "fabric", "thread", "filling", "trim"];
        match text.split_once('/') {
            Some((article, colour)) => format!("{}/{}", self.any(ARTICLES, article), self.now("colour", colour)),
            None => self.any(ARTICLES, text).to_string(),
        }
    }

    /// A size or colourway by its later id.
    pub fn code(&self, code: &str) -> String {
        self.any(&["size", "colourway"], code).to_string()
    }

    /// An earlier thing as it would be written with the later ids; its own id stays.
    pub fn translated(&self, item: &Item) -> Item {
        let mut item = item.clone();
        for fact in &mut item.facts {
            fact.meaning = self.meaning(&fact.meaning);
            fact.scope = fact.scope.as_ref().map(|code| self.code(code));
            if item.kind == "colourway" && fact.key != "name" {
                fact.key = self.now("role", &fact.key).to_string();
            }
        }
        item.one_way();
        item
    }

    fn meaning(&self, meaning: &Meaning) -> Meaning {
        match meaning {
            Meaning::Refers(kinds, id) => Meaning::Refers(kinds, self.any(kinds, id).to_string()),
            Meaning::Bought(text) => Meaning::Bought(self.bought(text)),
            Meaning::Chain(runs) => Meaning::Chain(runs.iter().map(|run| self.stretch(run)).collect()),
            Meaning::Set(entries) => Meaning::Set(self.entries(entries)),
            Meaning::List(entries) => Meaning::List(self.entries(entries)),
            other => other.clone(),
        }
    }

    fn entries(&self, entries: &[Entry]) -> Vec<Entry> {
        let each = |entry: &Entry| Entry { meaning: self.meaning(&entry.meaning), written: entry.written.clone() };
        entries.iter().map(each).collect()
    }

    fn stretch(&self, run: &Stretch) -> Stretch {
        Stretch {
            part: run.part.as_ref().map(|part| self.now("part", part).to_string()),
            piece: self.now("piece", &run.piece).to_string(),
            ..run.clone()
        }
    }
}

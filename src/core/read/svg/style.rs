//! What a stylesheet and `style` say about an element: whether it is drawn, what would move it and, of a view, its look.

use crate::words::{Phrase, say, words};
use std::collections::BTreeMap;

use roxmltree::Node;

use super::value::{LOOK, references};

words! {
    NESTED_RULES "read.svg.nested-rules" = "rules within `{selector}`";
    SELECTOR "read.svg.selector" = "the selector `{selector}`";
}

/// Properties that move or reshape what they stand at.
const MOVING: &[&str] = &[
    "transform",
    "transform-origin",
    "transform-box",
    "translate",
    "rotate",
    "scale",
    "zoom",
    "offset",
    "offset-path",
    "d",
    "x",
    "y",
    "cx",
    "cy",
    "r",
    "rx",
    "ry",
    "width",
    "height",
    "clip-path",
    "mask",
];
/// Properties of a view that change its look and are not understood.
const UNSHOWN: &[&str] = &["filter", "mix-blend-mode", "marker"];
/// Rules about these that are kept at most.
const MOST: usize = 500;

/// The rules of a drawing's stylesheets that matter.
#[derive(Debug, Default)]
pub struct Sheet {
    rules: Vec<Rule>,
    /// What could not be understood, in words.
    pub strange: Vec<Phrase>,
    /// Whether something outside the file is asked for.
    pub external: bool,
    /// Whether the look matters too.
    view: bool,
}

#[derive(Debug)]
struct Rule {
    tag: String,
    id: String,
    classes: Vec<String>,
    property: String,
    value: String,
}

/// What is said about one element.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub struct Look {
    /// Not drawn, with all that is in it.
    pub gone: bool,
    /// Whether it says itself that it is visible.
    pub visible: Option<bool>,
    /// Properties that would move or reshape it, and are not understood.
    pub moving: Vec<String>,
}

impl Sheet {
    /// No rules yet; of a view the look matters too.
    pub fn new(view: bool) -> Self {
        Sheet { view, ..Sheet::default() }
    }

    /// Whether these are the rules of a view.
    pub fn is_of_view(&self) -> bool {
        self.view
    }

    /// The ids that rules refer to.
    pub fn references(&self) -> impl Iterator<Item = &str> {
        self.rules.iter().flat_map(|rule| references(&rule.value))
    }

    /// Takes in the text of a `style` element.
    pub fn add(&mut self, text: &str) {
        let text = without_comments(text);
        let mut rest = text.as_str();
        while let Some((before, after)) = rest.split_once(['{', ';']) {
            let selector = before.trim();
            if rest.as_bytes().get(before.len()) == Some(&b';') {
                self.at_rule(selector);
                rest = after;
                continue;
            }
            let (block, after, nested) = block(after);
            if selector.starts_with('@') {
                self.at_rule(selector);
            } else if nested {
                self.strange.push(say!(NESTED_RULES, selector));
            } else {
                self.rule(selector, block);
            }
            rest = after;
        }
    }

    fn at_rule(&mut self, text: &str) {
        let name = text.split_whitespace().next().unwrap_or_default();
        match name {
            "@import" => self.external = true,
            // A font or a character set moves nothing.
            "@font-face" | "@charset" | "@namespace" | "" => {}
            _ => self.strange.push(Phrase::from(format!("`{}`", name.chars().take(40).collect::<String>()))),
        }
    }

    fn rule(&mut self, selectors: &str, block: &str) {
        self.external |= external(block);
        for (property, value) in declarations(block).filter(|(property, _)| matters(self.view, property)) {
            for selector in selectors.split(',') {
                let Some((tag, id, classes)) = simple(selector.trim()).filter(|_| self.rules.len() < MOST) else {
                    self.strange.push(say!(SELECTOR, selector = selector.trim().chars().take(40).collect::<String>()));
                    continue;
                };
                let (property, value) = (property.to_string(), value.to_string());
                self.rules.push(Rule { tag, id, classes, property, value });
            }
        }
    }

    /// What attributes, the rules in the order of their weight, and `style` say about an element.
    pub fn look(&self, node: Node<'_, '_>) -> Look {
        let mut look = Look::default();
        for property in ["display", "visibility", "transform-origin", "clip-path", "mask", "filter"] {
            node.attribute(property).into_iter().for_each(|value| look.take(self.view, property, value));
        }
        self.each(node, |property, value| look.take(self.view, property, value));
        look
    }

    /// Hands over what the rules and `style` say about an element, what holds last.
    fn each<'s>(&'s self, node: Node<'s, '_>, mut take: impl FnMut(&'s str, &'s str)) {
        let mut rules: Vec<&Rule> = self.rules.iter().filter(|rule| rule.fits(node)).collect();
        rules.sort_by_key(|rule| rule.weight());
        rules.iter().for_each(|rule| take(&rule.property, &rule.value));
        let style = node.attribute("style").unwrap_or_default();
        declarations(style).for_each(|(property, value)| take(property, value));
    }

    /// What is said of some properties of an element, in the order of their names.
    pub fn stated<'s>(
        &'s self,
        node: Node<'s, '_>,
        properties: impl Iterator<Item = &'static str>,
    ) -> BTreeMap<&'static str, &'s str> {
        let mut stated: BTreeMap<&'static str, Option<&'s str>> =
            properties.map(|property| (property, node.attribute(property))).collect();
        self.each(node, |property, value| {
            if let Some(stated) = stated.get_mut(property) {
                *stated = Some(bare(value));
            }
        });
        stated.into_iter().filter_map(|(property, value)| Some((property, value?))).collect()
    }
}

impl Look {
    fn take(&mut self, view: bool, property: &str, value: &str) {
        let value = bare(value);
        match property {
            "display" => self.gone = value == "none",
            "visibility" if value == "inherit" => self.visible = None,
            "visibility" => self.visible = Some(value == "visible"),
            _ if moves(view, property) && !["none", "auto", "inherit", "normal", ""].contains(&value) => {
                self.moving.push(property.to_string());
            }
            _ => {}
        }
    }
}

/// A value without the mark that it outweighs others.
fn bare(value: &str) -> &str {
    value.trim_end_matches("!important").trim()
}

impl Rule {
    fn fits(&self, node: Node<'_, '_>) -> bool {
        let has = |class: &String| {
            node.attribute("class").is_some_and(|all| all.split_ascii_whitespace().any(|one| one == class))
        };
        (self.tag.is_empty() || self.tag == node.tag_name().name())
            && (self.id.is_empty() || node.attribute("id") == Some(&self.id))
            && self.classes.iter().all(has)
    }

    /// What outweighs what: ids, then classes, then kinds of element.
    fn weight(&self) -> (bool, usize, bool) {
        (!self.id.is_empty(), self.classes.len(), !self.tag.is_empty())
    }
}

/// Whether a property is handed on with a view.
fn shown(view: bool, property: &str) -> bool {
    view && LOOK.iter().any(|(name, _)| *name == property)
}

/// Whether a property moves or hides what it stands at, or changes its look, and is not understood.
fn moves(view: bool, property: &str) -> bool {
    !shown(view, property) && (MOVING.contains(&property) || (view && UNSHOWN.contains(&property)))
}

fn matters(view: bool, property: &str) -> bool {
    shown(view, property) || matches!(property, "display" | "visibility") || moves(view, property)
}

/// `property: value` pairs.
fn declarations(text: &str) -> impl Iterator<Item = (&str, &str)> {
    text.split(';').filter_map(|one| one.split_once(':')).map(|(property, value)| (property.trim(), value.trim()))
}

/// Whether a value asks for something outside the file.
pub fn external(text: &str) -> bool {
    text.match_indices("url(").any(|(at, found)| {
        let inside = text.get(at + found.len()..).unwrap_or_default().trim_start().trim_start_matches(['"', '\'']);
        !inside.starts_with('#') && !inside.starts_with("data:")
    })
}

/// Tag, id and classes of a selector that has nothing else.
fn simple(selector: &str) -> Option<(String, String, Vec<String>)> {
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '.' | '#');
    let selector = if selector == "*" { "" } else { selector };
    if !selector.chars().all(plain) {
        return None;
    }
    let mut found = (String::new(), String::new(), Vec::new());
    let mut rest = selector;
    let mut kind = None;
    loop {
        let end = rest.find(['.', '#']).unwrap_or(rest.len());
        let (word, after) = rest.split_at(end);
        match kind {
            None => found.0 = word.to_string(),
            Some('#') => found.1 = word.to_string(),
            _ => found.2.push(word.to_string()),
        }
        let Some(next) = after.chars().next() else { return Some(found) };
        kind = Some(next);
        rest = after.get(1..).unwrap_or_default();
    }
}

/// The inside of a block up to its closing brace, the rest, and whether blocks stand in it.
fn block(text: &str) -> (&str, &str, bool) {
    let mut depth = 1_usize;
    let mut nested = false;
    for (at, c) in text.char_indices() {
        match c {
            '{' => (depth, nested) = (depth + 1, true),
            '}' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return (text.get(..at).unwrap_or_default(), text.get(at + 1..).unwrap_or_default(), nested);
        }
    }
    (text, "", nested)
}

fn without_comments(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once("/*") {
        out.push_str(before);
        out.push(' ');
        rest = after.split_once("*/").map_or("", |(_, rest)| rest);
    }
    out.push_str(rest);
    out
}

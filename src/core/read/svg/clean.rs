//! A view written again for the engine: its shapes, paints and transformations, and nothing else. Comments, metadata,
//! names, hidden layers and what editors keep in a file of theirs stay behind.

use std::collections::{BTreeMap, BTreeSet};

use roxmltree::{Document, Node};

use super::limits::{Limits, NAMESPACE};
use super::style::Sheet;
use super::value::{self, FORM, Kept, LOOK, references};

/// Elements that hold others or stand for them.
const HOLDERS: &[&str] = &["g", "a", "switch", "defs", "symbol", "use"];
/// Elements that others refer to by `url(#id)` and that draw what is in them.
const SERVERS: &[&str] = &["pattern", "clipPath", "mask", "marker"];
/// Elements that others refer to and that draw nothing themselves.
const GRADIENTS: &[&str] = &["linearGradient", "radialGradient", "stop"];
/// References follow each other at most so often: each round counts one step further.
const ROUNDS: usize = 16;

/// What is still to be written.
enum Task<'a, 'i> {
    Open { node: Node<'a, 'i>, depth: usize, served: bool },
    Close(&'static str),
}

/// Writes a view again.
struct Cleaner<'a, 'i, 'r> {
    sheet: &'r Sheet,
    ids: &'r BTreeMap<&'a str, Node<'a, 'i>>,
    /// New ids of the elements that something refers to, in the order of the drawing.
    names: BTreeMap<&'a str, usize>,
    out: String,
    /// Whether the last tag is still to be ended.
    open: bool,
}

/// The view below `root`, whose user units span `bounds` (x, y, width, height).
pub fn view<'a, 'i>(
    root: Node<'a, 'i>,
    bounds: [f64; 4],
    sheet: &Sheet,
    ids: &BTreeMap<&'a str, Node<'a, 'i>>,
    limits: &Limits,
) -> String {
    let [x, y, width, height] = bounds.map(short);
    let unit = 1000.0 / width.max(height);
    let mut cleaner = Cleaner { sheet, ids, names: referred(root, sheet), out: String::new(), open: false };
    cleaner.out = format!(
        "<svg xmlns=\"{NAMESPACE}\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"{}\" height=\"{}\" \
         viewBox=\"{x} {y} {width} {height}\">",
        short(width * unit),
        short(height * unit),
    );
    cleaner.element(root, "g", false);
    let mut tasks = vec![Task::Close("g")];
    push(&mut tasks, root, 1, false);
    while let Some(task) = tasks.pop() {
        match task {
            Task::Close(tag) => cleaner.close(tag),
            Task::Open { node, depth, served } if depth <= limits.depth => {
                if let Some(tag) = cleaner.tag(node, served) {
                    cleaner.element(node, tag, served);
                    tasks.push(Task::Close(tag));
                    push(&mut tasks, node, depth + 1, served || SERVERS.contains(&tag));
                }
            }
            Task::Open { .. } => {}
        }
    }
    cleaner.out.push_str("</svg>");
    cleaner.out
}

/// A number to six places: units of a page come from inches and points.
fn short(number: f64) -> f64 {
    (number * 1e6).round() / 1e6
}

fn push<'a, 'i>(tasks: &mut Vec<Task<'a, 'i>>, node: Node<'a, 'i>, depth: usize, served: bool) {
    tasks.extend(node.children().rev().map(|node| Task::Open { node, depth, served }));
}

/// Ids that something may refer to, numbered in the order of their elements.
fn referred<'a>(root: Node<'a, '_>, sheet: &Sheet) -> BTreeMap<&'a str, usize> {
    let mut wanted: BTreeSet<String> = sheet.references().map(str::to_string).collect();
    for attribute in root.descendants().flat_map(|node| node.attributes()) {
        if attribute.name() == "href" {
            wanted.extend(attribute.value().strip_prefix('#').map(str::to_string));
        }
        wanted.extend(references(attribute.value()).map(str::to_string));
    }
    let mut names = BTreeMap::new();
    for id in root.descendants().filter_map(|node| node.attribute("id")).filter(|id| wanted.contains(*id)) {
        let next = names.len() + 1;
        names.entry(id).or_insert(next);
    }
    names
}

fn is_shape(tag: &str) -> bool {
    super::shape::SHAPES.contains(&tag)
}

impl<'a, 'i> Cleaner<'a, 'i, '_> {
    /// What an element becomes; none if it stays behind. Within a pattern, a clip path, a mask or a marker stand shapes
    /// only, and groups of them, so that no file grows without end.
    fn tag(&self, node: Node<'a, 'i>, served: bool) -> Option<&'static str> {
        if !node.is_element() || node.tag_name().namespace() != Some(NAMESPACE) || self.sheet.look(node).gone {
            return None;
        }
        let name = node.tag_name().name();
        let known = [HOLDERS, SERVERS, GRADIENTS, super::shape::SHAPES];
        let tag = known.into_iter().flatten().find(|tag| **tag == name)?;
        match *tag {
            "use" if served => self.target(node).filter(|node| is_shape(node.tag_name().name())).map(|_| "use"),
            "use" => self.target(node).map(|_| "use"),
            "a" | "switch" => Some("g"),
            tag if served => (tag == "g" || is_shape(tag)).then_some(tag),
            tag => Some(tag),
        }
    }

    fn target(&self, node: Node<'a, 'i>) -> Option<Node<'a, 'i>> {
        let href = node.attributes().find(|one| one.name() == "href")?;
        self.ids.get(href.value().strip_prefix('#')?).copied()
    }

    fn element(&mut self, node: Node<'a, 'i>, tag: &'static str, served: bool) {
        let before = if std::mem::replace(&mut self.open, true) { "><" } else { "<" };
        self.out.push_str(before);
        self.out.push_str(tag);
        let id = node.attribute("id").filter(|id| self.ids.get(id) == Some(&node));
        if let Some(number) = id.and_then(|id| self.names.get(id)) {
            self.out.push_str(&format!(" id=\"s{number}\""));
        }
        if !matches!(tag, "g" | "defs") {
            self.form(node);
        } else if let Some(text) = node.attribute("transform") {
            self.attribute("transform", value::kept(value::Kind::Transform, text), served);
        }
        for (property, text) in self.sheet.stated(node, LOOK.iter().map(|(property, _)| *property)) {
            let kind = LOOK.iter().find(|(name, _)| *name == property).map(|(_, kind)| *kind);
            let kept = kind.and_then(|kind| value::kept(kind, text));
            self.attribute(property, kept, served);
        }
    }

    fn form(&mut self, node: Node<'a, 'i>) {
        for (name, kind) in FORM {
            let kept = node.attribute(*name).and_then(|text| value::kept(*kind, text));
            self.attribute(name, kept, false);
        }
        let target = self.target(node).and_then(|target| self.names.get(target.attribute("id")?));
        if let Some(number) = target {
            self.out.push_str(&format!(" xlink:href=\"#s{number}\""));
        }
    }

    fn attribute(&mut self, name: &str, value: Option<Kept<'_>>, served: bool) {
        let text = match value {
            None => return,
            Some(Kept::Text(text)) => text,
            Some(Kept::Reference(id, otherwise)) => {
                let gradient = |node: &Node<'_, '_>| GRADIENTS.contains(&node.tag_name().name());
                let there = self.ids.get(id).filter(|node| !served || gradient(node)).and(self.names.get(id));
                there.map_or(otherwise, |number| format!("url(#s{number})"))
            }
        };
        let text = text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;");
        self.out.push_str(&format!(" {name}=\"{text}\""));
    }

    fn close(&mut self, tag: &str) {
        if std::mem::take(&mut self.open) {
            self.out.push_str("/>");
        } else {
            self.out.push_str(&format!("</{tag}>"));
        }
    }
}

/// How many elements are drawn of a written view, each as often as something refers to it.
pub fn drawn(clean: &str) -> usize {
    let Ok(document) = Document::parse(clean) else { return usize::MAX };
    let nodes: Vec<Node<'_, '_>> = document.descendants().collect();
    let ids: BTreeMap<&str, usize> =
        nodes.iter().filter_map(|node| Some((node.attribute("id")?, node.id().get_usize()))).collect();
    let mut counts = vec![1_usize; nodes.len()];
    for _ in 0..ROUNDS {
        let before = counts.clone();
        // A child stands behind what holds it, so that going back meets it first.
        for node in nodes.iter().rev() {
            let links = node.attributes().flat_map(|one| {
                let href = one.value().strip_prefix('#').filter(|_| one.name() == "href");
                href.into_iter().chain(references(one.value()))
            });
            let linked = links.filter_map(|id| before.get(*ids.get(id)?)).fold(0, |a, b| b.saturating_add(a));
            let held = node.children().filter(|child| !is_kept_apart(child));
            let held = held.filter_map(|child| counts.get(child.id().get_usize())).fold(0, |a, b| b.saturating_add(a));
            if let Some(count) = counts.get_mut(node.id().get_usize()) {
                *count = held.saturating_add(linked).saturating_add(1);
            }
        }
        if counts == before {
            break;
        }
    }
    counts.first().copied().unwrap_or_default()
}

/// Whether an element is drawn only where something refers to it.
fn is_kept_apart(node: &Node<'_, '_>) -> bool {
    let tag = node.tag_name().name();
    matches!(tag, "defs" | "symbol") || SERVERS.contains(&tag) || GRADIENTS.contains(&tag)
}

//! Reads views and checks the picture or drawing each one shows.

use std::collections::BTreeMap;

use crate::model::{Callout, Medium, Model, Picture, Unseen, View};
use crate::source::Spanned;

use super::declared::Declarations;
use super::keys::Form;
use super::reader::Reader;
use super::section::Section;
use super::tree::{Kind, Node};
use super::{pictures, rules, svg};

/// The ending of an SVG file's name.
const SVG: &str = ".svg";
/// Names that a message shows at most.
const SHOWN: usize = 8;

impl Reader {
    /// Views, and the pictures they show.
    pub fn views(&mut self, declared: &Declarations, model: &mut Model) {
        let mut drawn: BTreeMap<String, Option<svg::View>> = BTreeMap::new();
        model.views = self.each(declared, "view", |reader, section, entry| {
            let picture = reader.word(section, "picture");
            let name = picture.as_ref().filter(|path| path.value.to_ascii_lowercase().ends_with(SVG));
            if let Some(path) = name.filter(|path| !drawn.contains_key(&path.value)) {
                drawn.insert(path.value.clone(), reader.drawn_view(path));
            }
            let shown = name.map(|path| (path.value.as_str(), drawn.get(&path.value).and_then(Option::as_ref)));
            let callouts = reader.callouts(section, shown);
            View { entry, alt: reader.text(section, "alt"), callouts, picture }
        });
        let named: Vec<Spanned<String>> = model.views.values().filter_map(|view| view.picture.clone()).collect();
        let comments = model.samples.comments.values().filter_map(|comment| comment.picture.clone());
        for path in named.into_iter().chain(comments.collect::<Vec<_>>()) {
            let known = drawn.contains_key(&path.value) || model.pictures.contains_key(&path.value);
            if let Some(picture) = (!known).then(|| self.picture(&path)).flatten() {
                model.pictures.insert(path.value, picture);
            }
        }
        let lines = drawn.into_iter().filter_map(|(path, view)| Some((path, lines(view?))));
        model.pictures.extend(lines);
    }

    /// A picture of pixels.
    fn picture(&mut self, path: &Spanned<String>) -> Option<Picture> {
        let bytes = self.fetched(&path.value, path.span)?;
        match pictures::check(&bytes, self.disk.limits().pixels) {
            Ok((medium, width, height)) => {
                let (width, height) = (f64::from(width), f64::from(height));
                Some(Picture { bytes, medium, width, height })
            }
            Err(reason) => {
                let finding = rules::bad_picture(&path.value, &reason).at(path.span, "named here");
                self.findings.push(finding);
                None
            }
        }
    }

    fn callouts(&mut self, section: &Section<'_>, shown: Shown<'_>) -> Vec<Callout> {
        let Some(node) = section.node("callouts") else { return Vec::new() };
        let Kind::List(list) = &node.kind else {
            self.refuse::<()>("callouts", "a list of { at = .., item = .., text = .. }", node);
            return Vec::new();
        };
        list.iter().filter_map(|one| self.callout(section, one, shown)).collect()
    }

    fn callout(&mut self, section: &Section<'_>, node: &Node, shown: Shown<'_>) -> Option<Callout> {
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
        let spot = self.place(&at, shown)?;
        Some(Callout {
            at: Spanned::new(spot, at.span),
            item: self.word(&inner, "item"),
            text: self.text(&inner, "text"),
        })
    }

    /// A spot given by its shares, or by the name of a shape of the drawing.
    fn place(&mut self, at: &Spanned<String>, shown: Shown<'_>) -> Option<[f64; 2]> {
        let Some((path, view)) = shown.filter(|_| !at.value.contains('%')) else { return self.spot(at) };
        // What is in the way of the drawing was said.
        let view = view?;
        let inside = |spot: &[f64; 2]| spot.iter().all(|share| (0.0..=100.0).contains(share));
        let (message, help) = match view.spot(at.value.trim()) {
            Ok(Some(spot)) if inside(&spot) => return Some(spot),
            Ok(_) => (format!("the shape {} lies outside the page of {path}", at.value), FITTING.to_string()),
            Err(Unseen::Twice(name, places)) => (
                format!("{path} draws {} shapes named {name}", places.len()),
                "give each a name of its own".to_string(),
            ),
            Err(Unseen::Nowhere(known)) => {
                let known: Vec<&str> = known.iter().take(SHOWN).map(String::as_str).collect();
                let known = if known.is_empty() { "no shape of it has a name".into() } else { known.join(", ") };
                let help = format!("name a shape ({known}), or write \"30 % 20 %\", from the left and from the top");
                (format!("{path} draws no shape named {}", at.value), help)
            }
        };
        self.findings.push(rules::bad_value(message, at.span, help));
        None
    }
}

/// The SVG file a view shows, and what it draws if it could be read.
type Shown<'a> = Option<(&'a str, Option<&'a svg::View>)>;

/// The cure for what is not on the page.
const FITTING: &str = "move it onto the page, or fit the page to the drawing";

/// A drawn view as a picture.
fn lines(view: svg::View) -> Picture {
    let [width, height] = view.size;
    Picture { bytes: view.clean.into_bytes().into(), medium: Medium::Svg, width, height }
}

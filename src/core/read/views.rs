//! Reads views and checks the picture or drawing each one shows.

use std::collections::BTreeMap;

use crate::model::{Callout, Medium, Model, Picture, Unseen, View};
use crate::source::Spanned;
use crate::words::{Phrase, say, words};

use super::declared::Declarations;
use super::reader::Reader;
use super::section::Section;
use super::tree::{Kind, Node};
use super::{pictures, rules, svg};
use crate::grammar::keys::Form;

words! {
    OWN_NAMES "read.views.own-names" = "give each a name of its own";
    HERE "read.views.here" = "named here";
    WANTED "read.views.wanted" = "a list of { at = .., item = .., text = .. }";
    TABLES "read.views.tables" = "tables { at = .. }";
    CALL_OUT "read.views.call-out" = "the call-out";
    ADD_LEFT "read.views.add-left" = "add at = \"30 % 20 %\", from the left and from the top";
    MESSAGE "read.views.message" = "a call-out has a place";
    OUTSIDE "read.views.outside" = "the shape {at} lies outside the page of {path}";
    SEVERAL "read.views.several" = "{path} draws {count} shapes named {name}";
    NO_NAMES "read.views.no-names" = "no shape of it has a name";
    NAME_SHAPE "read.views.name-shape" = "name a shape ({known}), or write \"30 % 20 %\", from the left and from the top";
    NONE "read.views.none" = "{path} draws no shape named {at}";
    MOVE_ONTO "read.views.move-onto" = "move it onto the page, or fit the page to the drawing";
}

/// The ending of an SVG file's name.
const SVG: &str = ".svg";
/// Names that a message shows at most.
const SHOWN: usize = 8;

impl Reader {
    /// Views, and the pictures that they, comments and steps show.
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
        let steps: Vec<Spanned<String>> = model.means().filter_map(|(_, _, means)| means.picture.clone()).collect();
        for path in steps.iter().filter(|path| path.value.to_ascii_lowercase().ends_with(SVG)) {
            if !drawn.contains_key(&path.value) {
                drawn.insert(path.value.clone(), self.drawn_view(path));
            }
        }
        let named: Vec<Spanned<String>> = model.views.values().filter_map(|view| view.picture.clone()).collect();
        let comments = model.samples.comments.values().filter_map(|comment| comment.picture.clone());
        for path in named.into_iter().chain(comments.collect::<Vec<_>>()).chain(steps) {
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
                let finding = rules::bad_picture(&path.value, reason).at(path.span, HERE);
                self.findings.push(finding);
                None
            }
        }
    }

    fn callouts(&mut self, section: &Section<'_>, shown: Shown<'_>) -> Vec<Callout> {
        let Some(node) = section.node("callouts") else { return Vec::new() };
        let Kind::List(list) = &node.kind else {
            self.refuse::<()>("callouts", WANTED, node);
            return Vec::new();
        };
        list.iter().filter_map(|one| self.callout(section, one, shown)).collect()
    }

    fn callout(&mut self, section: &Section<'_>, node: &Node, shown: Shown<'_>) -> Option<Callout> {
        let Kind::Table(fields) = &node.kind else { return self.refuse("callouts", TABLES, node) };
        let keys = match section.key("callouts").map(|key| &key.form) {
            Some(Form::Tables(keys)) => keys.as_slice(),
            _ => &[],
        };
        let what = CALL_OUT.into();
        let inner = Section { fields, keys, what: &what, span: node.span };
        self.report_unknown(&inner, false);
        let Some(at) = self.word(&inner, "at") else {
            let help = ADD_LEFT;
            self.findings.push(rules::bad_value(MESSAGE, node.span, help));
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
            Ok(_) => (say!(OUTSIDE, at = &at.value, path), Phrase::from(MOVE_ONTO)),
            Err(Unseen::Twice(name, places)) => (say!(SEVERAL, path, count = places.len(), name), OWN_NAMES.into()),
            Err(Unseen::Nowhere(known)) => {
                let known: Vec<&str> = known.iter().take(SHOWN).map(String::as_str).collect();
                let known = if known.is_empty() { Phrase::from(NO_NAMES) } else { Phrase::list(known) };
                let help = say!(NAME_SHAPE, known);
                (say!(NONE, path, at = &at.value), help)
            }
        };
        self.findings.push(rules::bad_value(message, at.span, help));
        None
    }
}

/// The SVG file a view shows, and what it draws if it could be read.
type Shown<'a> = Option<(&'a str, Option<&'a svg::View>)>;

/// A drawn view as a picture.
fn lines(view: svg::View) -> Picture {
    let [width, height] = view.size;
    Picture { bytes: view.clean.into_bytes().into(), medium: Medium::Svg, width, height }
}

//! What is done along the edge of a piece: styles of corners, notches.

use crate::geom::offset::TIP;
use crate::geom::{Corner, Worked};
use crate::model::{CornerStyle, CornerStyles, Notch, NotchPlace, NotchStyle, Notches, PointRef};
use crate::source::Spanned;
use crate::units::{Dimension, Quantity};
use crate::words::{Phrase, say, words};

use super::reader::Reader;
use super::rules;
use super::section::Section;
use super::tree::{Kind, Node};

words! {
    NO_STYLE "read.edges.no-style" = "\"{text}\" is no style of a corner";
    ONE_OF "read.edges.one-of" = "one of: mitre, mitre 2.5 (its limit in allowances), round, square, step, fold back; step and fold back may name the edge whose allowance it is: \"fold back a-b\"";
    NAME_EDGE "read.edges.name-edge" = "name an edge that begins or ends at {text}";
    NAME_EDGES "read.edges.name-edges" = "name edges at single corners: { nw = \"fold back sw-nw\" }";
    NOT_AT_CORNER "read.edges.not-at-corner" = "the edge does not meet this corner";
    PLACES "read.edges.places" = "a list of places: [\"n-c 40 mm\", \"b-n 50 %\", \"c\"]";
    WRITE_NAMED "read.edges.write-named" = "write a named point, or an edge and how far along it: \"n-c 40 mm\" or \"n-c 50 %\"";
    ON_EDGE "read.edges.on-edge" = "a notch is on an edge";
}

impl Reader {
    /// `"round"`, or `{ all = "mitre", nw = "fold back" }`.
    pub fn corner_styles(&mut self, section: &Section<'_>) -> CornerStyles {
        let mut styles = CornerStyles::default();
        let Some(node) = section.node("corners") else { return styles };
        let Kind::Table(fields) = &node.kind else {
            styles.all = self.corner_style(node, None);
            return styles;
        };
        for (id, (place, node)) in fields {
            if id == "all" {
                styles.all = self.corner_style(node, None);
            } else if let Some(point) = self.point(id, *place)
                && let Some(style) = self.corner_style(node, Some(&point))
            {
                styles.at.push((point, style));
            }
        }
        styles.at.sort_by_key(|(point, _)| point.span.start);
        styles
    }

    fn corner_style(&mut self, node: &Node, point: Option<&PointRef>) -> Option<CornerStyle> {
        let text = self.plain_text("corners", node)?;
        let raw = node.text().unwrap_or(&text);
        let Some((corner, at)) = style(raw) else {
            let message = say!(NO_STYLE, text);
            self.findings.push(rules::bad_value(message, node.span, ONE_OF));
            return None;
        };
        let Some(at) = at else { return Some(CornerStyle { corner, edge: None, span: node.span }) };
        let edge = self.single_edge(raw, at..raw.len(), node.span)?;
        let here = |one: &PointRef| point.is_some_and(|point| one.text() == point.text());
        if edge.points.iter().any(here) {
            return Some(CornerStyle { corner, edge: Some(edge), span: node.span });
        }
        let help = match point {
            Some(point) => say!(NAME_EDGE, text = point.text()),
            None => Phrase::from(NAME_EDGES),
        };
        self.findings.push(rules::bad_value(NOT_AT_CORNER, edge.span, help));
        None
    }

    /// Notches, their style and depth.
    pub fn notches(&mut self, section: &Section<'_>) -> Notches {
        let style = self.choice(section, "notch").map(|word| {
            let style = match word.value.as_str() {
                "outward" => NotchStyle::Outward,
                "none" => NotchStyle::None,
                _ => NotchStyle::Slit,
            };
            Spanned::new(style, word.span)
        });
        let depth = self.quantity_by(section, "notch-depth");
        let list = match section.node("notches").map(|node| (node, &node.kind)) {
            Some((_, Kind::List(list))) => list.iter().filter_map(|one| self.notch(one)).collect(),
            Some((node, _)) => {
                self.refuse::<()>("notches", PLACES, node);
                Vec::new()
            }
            None => Vec::new(),
        };
        Notches { list, style, depth }
    }

    fn notch(&mut self, node: &Node) -> Option<Notch> {
        let text = self.plain_text("notches", node)?;
        let raw = node.text().unwrap_or(&text);
        if !raw.contains('-') {
            let place = NotchPlace::Point(self.point(raw, node.span)?);
            return Some(Notch { place, span: node.span });
        }
        let Some((edge, rest)) = measured(raw) else {
            let help = WRITE_NAMED;
            self.findings.push(rules::bad_value(ON_EDGE, node.span, help));
            return None;
        };
        let edge = self.single_edge(raw, 0..edge.len(), node.span);
        match Quantity::parse(rest, &[Dimension::Length, Dimension::Percent]) {
            Ok(at) => Some(Notch { place: NotchPlace::Along { edge: edge?, at }, span: node.span }),
            Err(error) => {
                self.findings.push(rules::bad_quantity("notches", &error, node.span, None));
                None
            }
        }
    }
}

/// `n - c 40 mm` into its edge and the rest: the first space that is none beside the hyphen of the edge parts them.
fn measured(text: &str) -> Option<(&str, &str)> {
    let hyphen =
        |rest: &str| rest.strip_prefix('-').is_some_and(|more| !more.starts_with(|c: char| c.is_ascii_digit()));
    let parts = text.match_indices(' ').map(|(at, _)| text.split_at(at));
    let parts = parts.filter(|(edge, _)| !edge.trim().is_empty()).map(|(edge, rest)| (edge, rest.trim()));
    parts.into_iter().find(|(edge, rest)| !edge.trim_end().ends_with('-') && !hyphen(rest) && !rest.is_empty())
}

/// A written style, and where in the text the edge begins that it names.
fn style(text: &str) -> Option<(Corner, Option<usize>)> {
    let end = text.trim_end().len();
    let text = text.trim();
    if let Some(rest) = text.strip_prefix("mitre") {
        let rest = rest.trim();
        let limit =
            if rest.is_empty() { Some(TIP) } else { rest.parse().ok().filter(|n: &f64| (1.0..=20.0).contains(n)) };
        return limit.map(|limit| (Corner::Mitre { limit }, None));
    }
    let (corner, rest) = match text {
        "round" => (Corner::Round, ""),
        "square" => (Corner::Square, ""),
        _ => match (text.strip_prefix("step"), text.strip_prefix("fold back")) {
            (Some(rest), _) => (Corner::Step(Worked::Wider), rest),
            (_, Some(rest)) => (Corner::FoldBack(Worked::Wider), rest),
            _ => return None,
        },
    };
    if rest.is_empty() {
        return Some((corner, None));
    }
    rest.starts_with(' ').then_some((corner, Some(end - rest.trim_start().len())))
}

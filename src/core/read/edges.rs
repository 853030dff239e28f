//! What is done along the edge of a piece: styles of corners, notches.

use crate::geom::offset::TIP;
use crate::geom::{Corner, Worked};
use crate::model::{CornerStyle, CornerStyles, Notch, NotchPlace, NotchStyle, Notches};
use crate::source::Spanned;
use crate::units::{Dimension, Quantity};

use super::outlines::split;
use super::reader::{Reader, is_id};
use super::rules;
use super::section::Section;
use super::tree::{Kind, Node};

/// Styles of corners, as they are written.
const STYLES: &str = "mitre, mitre 2.5 (its limit in allowances), round, square, step, fold back; step and fold back may \
                      name the edge whose allowance it is: \"fold back a-b\"";

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
            } else if let Some(style) = self.corner_style(node, Some(id)) {
                styles.at.insert(id.clone(), (*place, style));
            }
        }
        styles
    }

    fn corner_style(&mut self, node: &Node, point: Option<&str>) -> Option<CornerStyle> {
        let text = self.plain_text("corners", node)?;
        let style = style(&text);
        let touches = |(a, b): &(String, String)| point.is_some_and(|point| a == point || b == point);
        match style {
            Some((corner, edge)) if edge.as_ref().is_none_or(touches) => {
                Some(CornerStyle { corner, edge, span: node.span })
            }
            Some(_) => {
                let help = match point {
                    Some(point) => format!("name an edge that begins or ends at {point}"),
                    None => "name edges at single corners: { nw = \"fold back sw-nw\" }".to_string(),
                };
                self.findings.push(rules::bad_value("the edge does not meet this corner", node.span, help));
                None
            }
            None => {
                let message = format!("\"{text}\" is no style of a corner");
                self.findings.push(rules::bad_value(message, node.span, format!("one of: {STYLES}")));
                None
            }
        }
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
                self.refuse::<()>("notches", "a list of places: [\"n-c 40 mm\", \"b-n 50 %\", \"c\"]", node);
                Vec::new()
            }
            None => Vec::new(),
        };
        Notches { list, style, depth }
    }

    fn notch(&mut self, node: &Node) -> Option<Notch> {
        let text = self.plain_text("notches", node)?;
        if is_id(text.trim_end_matches('~'), false) {
            return Some(Notch { place: NotchPlace::Point(text), span: node.span });
        }
        let Some((edge, rest)) = split(&text) else {
            let help = "write a named point, or an edge and how far along it: \"n-c 40 mm\" or \"n-c 50 %\"";
            self.findings.push(rules::bad_value("a notch stands on an edge", node.span, help));
            return None;
        };
        match Quantity::parse(&rest, &[Dimension::Length, Dimension::Percent]) {
            Ok(at) => Some(Notch { place: NotchPlace::Along { edge, at }, span: node.span }),
            Err(error) => {
                self.findings.push(rules::bad_quantity("notches", &error, node.span, None));
                None
            }
        }
    }
}

/// A written style, and the edge it names.
fn style(text: &str) -> Option<(Corner, Option<(String, String)>)> {
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
    if rest.trim().is_empty() {
        return Some((corner, None));
    }
    let (a, b) = rest.strip_prefix(' ')?.trim().split_once('-')?;
    (is_id(a, false) && is_id(b, false)).then(|| (corner, Some((a.to_string(), b.to_string()))))
}

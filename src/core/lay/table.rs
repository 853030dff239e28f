//! All forms of an instance, and how deep two of them overlap.

use std::sync::OnceLock;

use super::field::{Facing, Field};
use super::form::{Form, Kind, Way, at_origin};
use super::instance::Instance;
use crate::geom::grid::Polygon;

/// All forms of an instance and the fields of their pairs, worked out when first asked for.
#[derive(Debug)]
pub struct Table {
    /// Every form once.
    pub forms: Vec<Form>,
    /// By piece.
    pub kinds: Vec<Kind>,
    fields: Vec<OnceLock<Field>>,
}

impl Table {
    /// Makes the pieces of a checked instance ready.
    pub fn new(instance: &Instance) -> Self {
        let mut outlines: Vec<Polygon> = Vec::new();
        let mut kinds = Vec::new();
        for piece in &instance.pieces {
            let mut ways: Vec<Way> = Vec::new();
            for (turn, outline) in piece.fitting(instance.fabric) {
                let (outline, shift) = at_origin(&outline);
                let form = outlines.iter().position(|known| *known == outline).unwrap_or(outlines.len());
                if form == outlines.len() {
                    outlines.push(outline);
                }
                if ways.iter().all(|way| way.form != form) {
                    ways.push(Way { form, turn, shift });
                }
            }
            let area = piece.outline.area2().abs() as f64 / 2.0;
            kinds.push(Kind { ways, fold: piece.fold, area });
        }
        let forms: Vec<Form> = outlines.iter().map(|outline| Form::new(outline, instance.fabric.gap)).collect();
        let fields = (0..forms.len() * (forms.len() + 1) / 2).map(|_| OnceLock::new()).collect();
        Self { forms, kinds, fields }
    }

    /// How far form `b` has to go, standing by (`dx`, `dy`) from form `a`, until it is free of it, in µm.
    pub fn depth(&self, a: usize, b: usize, dx: f64, dy: f64) -> f64 {
        let (a, b, dx, dy) = if a <= b { (a, b, dx, dy) } else { (b, a, -dx, -dy) };
        self.field(a, b).depth(&self.forms[a], &self.forms[b], dx, dy)
    }

    /// Which way form `b`, standing by (`dx`, `dy`) from form `a`, would be free of it soonest.
    pub fn facing(&self, a: usize, b: usize, dx: f64, dy: f64) -> Option<Facing> {
        if a <= b {
            return self.field(a, b).facing(dx, dy);
        }
        let Facing { x, y, depth } = self.field(b, a).facing(-dx, -dy)?;
        Some(Facing { x: -x, y: -y, depth })
    }

    fn field(&self, a: usize, b: usize) -> &Field {
        self.fields[b * (b + 1) / 2 + a].get_or_init(|| Field::new(&self.forms[a], &self.forms[b]))
    }
}

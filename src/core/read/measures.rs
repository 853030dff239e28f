//! Reads points of measure with their targets and tolerances.

use crate::model::{Entry, Model, PointOfMeasure, Stated};
use crate::source::Spanned;
use crate::words::{say, words};

use super::declared::Declarations;
use super::reader::Reader;
use super::rules;
use super::section::Section;

words! {
    WRITE_ARROW "read.measures.write-arrow" = "write arrow = [\"12 % 50 %\", \"88 % 50 %\"]";
    GOES_SPOT "read.measures.goes-spot" = "`arrow` goes from one spot to another";
    SPOT_PICTURE "read.measures.spot-picture" = "\"{word}\" is no spot on a picture";
    WRITE_LEFT "read.measures.write-left" = "write \"30 % 20 %\": from the left edge, then from the top";
}

impl Reader {
    /// Points of measure.
    pub fn measures(&mut self, declared: &Declarations, model: &mut Model) {
        model.measures =
            self.each(declared, "point-of-measure", |reader, section, entry| reader.measure(section, entry));
    }

    fn measure(&mut self, section: &Section<'_>, entry: Entry) -> PointOfMeasure {
        let state = self.choice(section, "state");
        PointOfMeasure {
            entry,
            method: self.text(section, "method"),
            state: state.map(|state| Stated::plain(state.value, state.span)),
            target: self.quantity_by(section, "target"),
            read_to: self.quantity_by(section, "read-to"),
            difference: self.quantity(section, "difference"),
            critical: self.flag(section, "critical"),
            reference: self.flag(section, "reference"),
            view: self.word(section, "view"),
            arrow: self.arrow(section),
        }
    }

    fn arrow(&mut self, section: &Section<'_>) -> Option<Spanned<[[f64; 2]; 2]>> {
        let node = section.node("arrow")?;
        let ends = self.list(section, "arrow");
        if let [from, to] = ends.as_slice() {
            return Some(Spanned::new([self.spot(from)?, self.spot(to)?], node.span));
        }
        let help = WRITE_ARROW;
        self.findings.push(rules::bad_value(GOES_SPOT, node.span, help));
        None
    }

    /// A spot on a picture: `30 % 20 %`, from the left and from the top.
    pub fn spot(&mut self, word: &Spanned<String>) -> Option<[f64; 2]> {
        let shares: Vec<f64> = word
            .value
            .split('%')
            .filter(|part| !part.trim().is_empty())
            .filter_map(|part| crate::units::Rational::parse(part.trim()))
            .map(|share| share.to_f64())
            .collect();
        match shares.as_slice() {
            [x, y] if word.value.matches('%').count() == 2 && [x, y].iter().all(|s| (0.0..=100.0).contains(*s)) => {
                Some([*x, *y])
            }
            _ => {
                let message = say!(SPOT_PICTURE, word = &word.value);
                let help = WRITE_LEFT;
                self.findings.push(rules::bad_value(message, word.span, help));
                None
            }
        }
    }
}

//! Samples of the signs on pieces, for the box that explains them.

use super::marks::{arrowhead, capsule, ring};
use super::outline::NotchForm;
use super::piece::{LETTER, notched};
use super::place::text_width;
use super::{Fill, Label, Line, Scene};
use crate::words::Phrase;

/// A sample of a notch for the legend, 18 mm by 4.6 mm.
#[must_use]
pub fn notch_sample(form: NotchForm, alt: impl Into<Phrase>) -> Scene {
    let mut scene = Scene::new(18.0, 4.6, alt);
    let (cut, sew) = ([9.0, 1.9], [9.0, 4.2]);
    scene.line(Line::Cut, [0.5, cut[1]], [17.5, cut[1]]);
    scene.line(Line::Sew, [0.5, sew[1]], [17.5, sew[1]]);
    let tip = match form {
        NotchForm::Outward => [9.0, 0.2],
        NotchForm::Slit => [9.0, 3.5],
        NotchForm::Marked => cut,
    };
    notched(&mut scene, form, sew, cut, tip);
    scene
}

/// A sample of a named point, 18 mm by 4.6 mm.
#[must_use]
pub fn point_sample(name: &str, alt: impl Into<Phrase>) -> Scene {
    let mut scene = Scene::new(18.0, 4.6, alt);
    scene.line(Line::Sew, [0.5, 3.0], [17.5, 3.0]);
    ring(&mut scene, [9.0, 3.0], name, [11.4, 1.3]);
    scene
}

/// A sample of the letter of a seam, 18 mm by 4.6 mm.
#[must_use]
pub fn seam_sample(letter: &str, alt: impl Into<Phrase>) -> Scene {
    let mut scene = Scene::new(18.0, 4.6, alt);
    scene.line(Line::Sew, [0.5, 2.3], [17.5, 2.3]);
    arrowhead(&mut scene, [14.0, 2.3], [1.0, 0.0], 0.9);
    let half = (text_width(letter, LETTER, true) / 2.0 + 0.5).max(1.9);
    scene.path(Some(Line::Placement), Fill::Paper, capsule([7.0, 2.3], half, 1.9));
    scene.label(Label::new(letter, [7.0, 2.3]).size(LETTER).strong().bare());
    scene
}
